"""Values with their units as they are typed: "27,5 g", "1 oz", "650 yd", "20 m 2,6 g", "8 tpi".

A number alone is in the unit that stands beside its field; one with a unit is what it says.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from yarncolor.editing import typed_numbers
from yarncolor.editing.typed_numbers import number_in, without_blanks
from yarncolor.plan.key import NUMBER, SHARE, WHOLE, Key
from yarncolor.units import ONE, UNITS, Unit

Typed = int | float | str
"""A value as the plan file has it; what cannot be read stays the text that it is."""

_NUMBER = typed_numbers.NUMBER
_UNIT = "|".join(sorted(map(re.escape, UNITS), key=len, reverse=True))
_END = r"(?![^\W\d_])"
_PER = (
    r"(?:/|=|\b(?:per|in|to|an?|over|across|for|on)\b)\s*(?:(?:an?|the|one|each)\b\s*)?"
    rf"(?P<count>{_NUMBER})?\s*"
)
_RATIO = re.compile(rf"(?P<of>{_UNIT})?\s*{_PER}(?P<per>{_UNIT}){_END}")
_PLAIN = re.compile(rf"(?P<of>{_UNIT}){_END}")
_VALUE = re.compile(_NUMBER)
_BETWEEN = re.compile(
    r"(?:\s|[,;/+&]|\b(?:and|in|of|weighs?|wide|long|high|each|to(?!\s*1\b))\b"
    r"|(?::|\bto\b)\s*1\b)*"
)
_ONE_TO = re.compile(r"\s*1\s*(?::|\bto\b)\s*(?=\d)", re.IGNORECASE)
"""A ratio said the other way round: 1:12."""

_BEFORE = re.compile(r"(?P<of>nm|nec?|nek|[dk]?tex)\s*(?=\d)")
"""Counts of yarn stand before their number as well: Nm 10."""

_KINDS = {
    "m": "a length",
    "g": "a weight",
    "min": "a time",
    "m/g": "a length in a weight",
    "tex": "a weight in a length",
    "tpi": "twist",
    "wpi": "wraps",
    "sts/cm": "stitches in a length",
    "rows/cm": "rows in a length",
    "degrees": "an angle",
    "g/cm3": "a density",
    "stitches": "a number of stitches",
    "rows": "a number of rows",
    "turns": "a number of turns",
}

_ALSO = {"minutes": ("minutes in a gram",)}
"""What may be said in full of a key whose unit is short."""

_BEYOND = 1e15
"""No number of a plan is so large."""


@dataclass(frozen=True)
class Quantity:
    """A number with what was written beside it: a unit, or nothing (None)."""

    number: Fraction
    unit: Unit | None


def quantities(text: str, *, ratios: bool = True, thousands: bool = True) -> list[Quantity]:
    """Return the quantities of a text in their order; none where anything else stands in it.

    Parameters
    ----------
    text : str
        As typed; numbers with a point or a comma.
    ratios : bool
        Whether "20 m in 2.6 g" is one quantity, metres in so many grams, or two.
    thousands : bool
        Whether "1,250 kg" is more than a thousand of them, or one and a quarter.
    """
    text = text.lower()
    found, at = [], _BETWEEN.match(text).end()  # type: ignore[union-attr]  # it may be empty
    while at < len(text):
        before = _BEFORE.match(text, at)
        value = _VALUE.match(text, before.end() if before else at)
        number = number_in(value[0], thousands=thousands) if value else None
        if value is None or number is None:
            return []
        unit, at = _unit_at(text, value.end(), ratios)
        found.append(Quantity(number, UNITS[before["of"]] if before else unit))
        at = _BETWEEN.match(text, at).end()  # type: ignore[union-attr]  # it may be empty
    return found


def unit_in(text: str) -> Unit | None:
    """Return the unit that a text is: "m in 100 g", "to the inch", "°"; None for no unit."""
    unit, end = _unit_at(text.lower(), 0, ratios=True)
    return unit if end == len(text) else None


def measure(key: Key, text: str) -> Typed:
    """Return what a typed quantity is in the unit of a key; what cannot be read stays a text.

    Parameters
    ----------
    key : Key
        Of the plan file, a number.
    text : str
        As typed; "1 lb 2 oz" is one quantity.
    """
    text = _ONE_TO.sub("", text) if key.unit == "turns" else text
    found = [
        _sum(key, quantities(without_blanks(text), thousands=thousands))
        for thousands in (True, False)
    ]
    read = [value for value in found if value is not None]
    fit = (value for value in read if key.high is None or value <= key.high)
    return _plain_number(next(fit, read[0])) if read else text


def _sum(key: Key, parts: list[Quantity]) -> Fraction | None:
    """Return what quantities are together in the unit of a key; None where they are no sum."""
    values = [_in_unit_of(key, part) for part in parts]
    if not parts or None in values or (len(parts) > 1 and any(not part.unit for part in parts)):
        return None
    return sum((value for value in values if value is not None), Fraction())


def measures(key: Key, text: str) -> list[Typed]:
    """Return every typed quantity in the unit of a key; one without a unit has the next one's.

    Parameters
    ----------
    key : Key
        Of the plan file, a number for each ply or bobbin.
    text : str
        As typed; "8, 9 tpi" is twice so many turns in an inch.
    """
    found: list[Typed] = []
    unit = None
    for part in reversed(quantities(text)):
        unit = part.unit or unit
        value = _in_unit_of(key, Quantity(part.number, unit))
        found.insert(0, text if value is None else _plain_number(value))
    return found if found and text not in found else [text]


def measures_of_parts(keys: Sequence[Key], text: str) -> list[Typed]:
    """Return the value of each part of a small table, told by its unit or by its turn.

    Parameters
    ----------
    keys : sequence of Key
        The table's own, in their order.
    text : str
        As typed; "20 m 2,6 g" and "2,6 g 20 m" are the same.
    """
    for ratios in (True, False):
        parts = quantities(text, ratios=ratios)
        if len(parts) == len(keys):
            told = _by_turn(keys, parts)
            if told:
                return [_plain_number(value) for value in told]
    return []


def alone(key: Key, number: Typed) -> Typed:
    """Return what a number without a unit is in the unit of a key; what is none stays so.

    Parameters
    ----------
    key : Key
        Of a field.
    number : int, float or str
        As typed there.
    """
    if not key.typed or isinstance(number, str) or not abs(number) < _BEYOND:
        return number
    return _plain_number(Fraction(str(number)) * size_of(key.unit, key.typed))


@cache
def size_of(unit: str, typed: str) -> Fraction:
    """Return how much one of a typed unit is in another, exactly.

    Parameters
    ----------
    unit : str
        Of the plan file, as a key has it.
    typed : str
        As it stands beside a field; empty for the same.
    """
    own = unit_in(_ALSO.get(unit, (unit,))[0])
    said = unit_in(typed) if typed else None
    return said.size / own.size if said and own else Fraction(1)


def kind_words(key: Key, text: str) -> str:
    """Return that what was typed is a length where a weight is asked; nothing where it may be.

    Parameters
    ----------
    key : Key
        Of the plan file.
    text : str
        As typed.
    """
    if key.kind not in (NUMBER, WHOLE, SHARE):
        return ""
    for part in quantities(text):
        if part.unit and (key.kind == SHARE or _in_unit_of(key, part) is None):
            return f"{text.strip()} is {_kind(part.unit)}"
    return ""


def _unit_at(text: str, at: int, ratios: bool) -> tuple[Unit | None, int]:
    """Return the unit that stands at a place of a text, if one does, and where it ends."""
    at += len(text[at:]) - len(text[at:].lstrip())
    ratio = _RATIO.match(text, at) if ratios else None
    if ratio is not None:
        of = UNITS[ratio["of"]] if ratio["of"] else ONE
        count = number_in(ratio["count"]) if ratio["count"] else Fraction(1)
        return (of / UNITS[ratio["per"]].times(count), ratio.end()) if count else (None, at)
    plain = _PLAIN.match(text, at)
    return (UNITS[plain["of"]], plain.end()) if plain else (None, at)


def _plain_number(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else float(value)


def _in_unit_of(key: Key, part: Quantity) -> Fraction | None:
    """Return a quantity in the unit of a key; None where it is of another kind."""
    alone = size_of(key.unit, key.typed)
    if part.unit is None:
        return part.number * alone
    for written in (key.unit, *_ALSO.get(key.unit, ())):
        own = unit_in(written) or ONE
        if _is_like(part.unit, own, key):
            short = alone if key.unit in _ALSO and written == key.unit else 1
            return part.number * part.unit.size / own.size * short
        if _is_counted(part.unit, own, key):
            return part.number * alone
        turned = part.unit.inverse
        if turned.measured == own.measured and len(own.measured) > 1 and part.number:
            return 1 / (part.number * part.unit.size) / own.size
    return None


def _is_like(unit: Unit, own: Unit, key: Key) -> bool:
    """Return whether a unit measures what a key does, and counts the same things if any."""
    return unit.measured == own.measured and (not unit.things or _counts_alike(unit, own, key))


def _is_counted(unit: Unit, own: Unit, key: Key) -> bool:
    """Return whether a unit is the things alone that a key has in a length or a time."""
    own_powers = {power for _, power in own.measured}
    return bool(
        unit.things and not unit.measured and own_powers == {-1} and _counts_alike(unit, own, key)
    )


def _counts_alike(unit: Unit, own: Unit, key: Key) -> bool:
    """Return whether a unit counts what a key does; per what, its words say: sts a row."""
    said = f"{key.name} {key.words} {key.meaning}".lower()
    counted = {thing for thing, power in unit.powers if thing in unit.things and power > 0}
    return counted == (own.things or counted) and all(
        thing in said for thing in unit.things - own.things
    )


def _by_turn(keys: Sequence[Key], parts: list[Quantity]) -> list[Fraction]:
    """Return a value for each key: what says its unit goes there, the rest by its turn."""
    left, told = list(parts), dict[str, Fraction]()
    for with_unit in (True, False):
        for key in keys:
            for part in [part for part in left if bool(part.unit) == with_unit]:
                value = _in_unit_of(key, part)
                if value is not None and key.name not in told:
                    told[key.name] = value
                    left.remove(part)
                    break
    return [told[key.name] for key in keys] if len(told) == len(keys) else []


def _kind(unit: Unit) -> str:
    """Return what is measured in a unit, in a spinner's words."""
    for written, words in _KINDS.items():
        if (known := unit_in(written)) and known.powers == unit.powers:
            return words
    return "something else"
