"""Plan files drawn from what their keys are declared to be: right, nearly right, extreme, wild."""

import json
import math
from dataclasses import MISSING, fields
from functools import cache
from random import Random

from yarncolor.plan import key as kinds
from yarncolor.plan.key import Key, keys_of, name_of
from yarncolor.plan.reference import KEYS, ROWS, TABLES

_HEAD = [key for key in KEYS.values() if not key.table]
_OF_LOTS = [key for key in KEYS.values() if key.table == "lots"]
_COLOURS = ("lab", "blend", "drafted", "bath")
_HOLDERS = {**TABLES, **ROWS}
_WILD = (
    "nan",
    "-inf",
    "1e400",
    "-0.0",
    "true",
    '""',
    "[]",
    "{}",
    "2026-11-27",
    "07:30:00",
    "9" * 40,
)
_PLANES = (0x20, 0x590, 0x900, 0x4E00, 0x1F300, 0x20000, 0xE0000, 0xF0000, 0x10FF00)
_HOSTILE = ("<b>&", "=1+1", "a\u200bb", "\ufeff", "é" * 60, "..", "CON", "\u202ex", "%s{}")


class Pen:
    """Writes plan files, one for each seed.

    Parameters
    ----------
    seed : int
        Of the dice: the same file each time.
    spoils : float
        Chance of a value that is not what its key asks for, 0 to 1.
    """

    def __init__(self, seed: int, spoils: float) -> None:
        self.dice, self.spoils = Random(seed), spoils  # noqa: S311
        self.names = [self._name() for _ in range(self.dice.choice((1, 2, 3, 3, 4, 8)))]

    def file(self) -> str:
        """Return the text of a file: lots, a scheme now and then, some other tables."""
        head = [self._line(key) for key in _HEAD if self._now_and_then(0.1)]
        lots = [self._lot(name) for name in self.names]
        some = self.dice.sample(list(_HOLDERS), self.dice.choice((0, 1, 1, 2, 3, 6)))
        return "\n".join([*head, *lots, *(self._table(name) for name in some)])

    def _lot(self, name: str) -> str:
        colour = f'colour = "#{self.dice.randrange(1 << 24):06x}"'
        mass = f"mass_g = {self.dice.choice((0.5, 3, 12.5, 40, 1e4))}"
        own = ("name", "mass_g", "colour")
        more = [key for key in _OF_LOTS if key.name not in own and self._now_and_then(0.03)]
        ways = [] if any(key.name in _COLOURS for key in more) else [colour]
        head = ["[[lots]]", f"name = {_quoted(name)}", mass, *ways]
        return "\n".join([*head, *map(self._line, more)])

    def _table(self, name: str) -> str:
        keys = keys_of(_HOLDERS[name], name)
        needed = [keys[key] for key in _needed(_HOLDERS[name]) if key in keys]
        others = [key for key in keys.values() if key not in needed]
        some = self.dice.sample(others, min(len(others), self.dice.choice((0, 1, 1, 2, 4))))
        head = f"[[{name}]]" if name in ROWS else f"[{name}]"
        return "\n".join([head, *map(self._line, [*needed, *some])])

    def _line(self, key: Key) -> str:
        return f"{key.name} = {self._value(key)}"

    def _value(self, key: Key) -> str:
        if self._now_and_then(self.spoils):
            return self._wrong(key)
        if key.each and self._now_and_then(0.3):
            return self._list(key, self.dice.choice((1, 2, 3)))
        return self._right(key)

    def _right(self, key: Key) -> str:
        if key.choices:
            return json.dumps(self.dice.choice(key.choices)[0])
        if key.items is not None:
            least, most = max(1, key.least), max(1, min(key.most or 4, 4))
            return self._list(key.items, self.dice.randint(min(least, most), most))
        if key.holds is not None:
            return self._held(key)
        return self._plain(key)

    def _plain(self, key: Key) -> str:
        lot = _quoted(self.dice.choice(self.names))
        by_kind = {
            kinds.LOT: lot,
            kinds.BLEND: f"{{ {lot} = 2 }}",
            kinds.COLOUR: '"pale madder"',
            kinds.LAB: "[50.0, 10.0, -20.0]",
            kinds.DATE: "2026-11-27",
            kinds.PAIRS: f"[[{lot}, {lot}]]",
            kinds.PLACES_OF_LOTS: f"{{ {lot} = 1 }}",
            kinds.LINE: _quoted(self._name()),
            kinds.TEXT: _quoted(self._name()),
            kinds.DIVISION: str(self.dice.choice((1, 2, 4, 64))),
            kinds.PART: str(self.dice.choice((0, 1, 2.5, 1e6))),
        }
        return by_kind.get(key.kind) or self._number(key)

    def _held(self, key: Key) -> str:
        inner = keys_of(key.holds, key.table).values()
        table = "{ " + ", ".join(self._line(one) for one in inner if self._now_and_then(0.9)) + " }"
        return f"[{table}]" if key.kind == kinds.TABLES else table

    def _number(self, key: Key) -> str:
        low = 0.0 if key.low is None else float(key.low)
        high = 100.0 if key.high is None else float(key.high)
        share = self.dice.choice((0.0, 1.0, self.dice.random(), self.dice.random() ** 6))
        found = low + (high - low) * share
        if key.kind in (kinds.WHOLE, kinds.PLY):
            return str(int(min(found, 12) if key.high is None else found))
        step = key.step
        return repr(round(found / step) * step if step else found)

    def _wrong(self, key: Key) -> str:
        if key.high is None or key.low is None or self._now_and_then(0.3):
            return self.dice.choice((*_WILD, _quoted(self._name())))
        beyond = (
            math.nextafter(float(key.high), math.inf),
            math.nextafter(float(key.low), -math.inf),
        )
        return repr(self.dice.choice((*beyond, key.high * 1e9 + 1, -key.high)))

    def _list(self, key: Key, many: int) -> str:
        item = self._value if key.items else self._right
        return f"[{', '.join(item(key) for _ in range(many))}]"

    def _name(self) -> str:
        if self._now_and_then(0.1):
            return self.dice.choice(_HOSTILE)
        start = self.dice.choice(_PLANES)
        return "".join(chr(start + self.dice.randrange(60)) for _ in range(self.dice.randint(1, 9)))

    def _now_and_then(self, chance: float) -> bool:
        return self.dice.random() < chance


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


@cache
def _needed(holder: type) -> list[str]:
    """Return the keys that a table cannot be without."""
    return [name_of(one.name) for one in fields(holder) if one.default is MISSING]
