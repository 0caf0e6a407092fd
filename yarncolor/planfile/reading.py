"""One plan file being read: table by table into plain values, and every fault with its place."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from yarncolor.errors import Fault, Path, Place, on_one_line, quoted, truncated
from yarncolor.plan import FreePortion, Stripe
from yarncolor.plan.limits import MOST_LOTS, MOST_PORTIONS
from yarncolor.plan.reference import IN_ORDER
from yarncolor.planfile.fields import Table
from yarncolor.planfile.remedies import A_TABLE, is_table, remedy_of
from yarncolor.planfile.schema import ROWS, TABLES, HeadTable, LotTable
from yarncolor.said import Remedy, predicate

FaultIterator = Iterator[tuple[Path, Remedy]]
"""Where in the file, and what would be right."""

_NOTHING_THERE = ("extra_forbidden", "missing")
_ALONE = (float, int, str)
"""What most values are, and nothing is inside of."""
_PORTION = {"ply": "the number of a ply", "lot": "the name of a lot", "mass_g": "grams"}


@dataclass
class Reading:
    """One file being read: what was found wrong so far, and where."""

    file: str
    data: dict[str, Any]
    faults: list[tuple[Path, Fault]] = field(default_factory=list)
    _at: set[Path] = field(default_factory=set)
    _above: set[Path] = field(default_factory=set)
    _ranks: dict[int, dict[str, int]] = field(default_factory=dict)

    def head(self) -> dict[str, Any]:
        """Return title and purpose, and tell of unknown keys and tables."""
        tables = ("lots", *IN_ORDER)
        own = {key: value for key, value in self.data.items() if key not in tables}
        return self._read(HeadTable, own, (), tables)

    def lots(self) -> Iterator[dict[str, Any]]:
        """Return what is right in each lot's table."""
        lots = self.data.get("lots", [])
        if lots == [] and "braid" in self.data:
            return
        if not isinstance(lots, list) or not lots:
            self.tell(("lots",), f"give 1 to {MOST_LOTS} lots, each as a [[lots]] table")
            return
        if len(lots) > MOST_LOTS:
            self.tell(("lots",), f"{len(lots):,} are too many; give at most {MOST_LOTS}")
            return
        for number, table in enumerate(lots):
            yield self._read(LotTable, table, ("lots", number))

    def rows(self, name: str) -> Iterator[dict[str, Any]]:
        """Return what is right in each of the tables that stand in the file many times."""
        rows = self.data.get(name, [])
        if not isinstance(rows, list):
            self.tell((name,), f"give each as a [[{name}]] table")
            return
        if len(rows) > MOST_PORTIONS:
            self.tell((name,), f"{len(rows):,} are too many; give at most {MOST_PORTIONS:,}")
            return
        for number, table in enumerate(rows):
            yield self._read(ROWS[name], table, (name, number))

    def table(self, name: str) -> dict[str, Any]:
        """Return what is right in one table of the file; nothing where it is not there."""
        values = self._read(TABLES[name], self.data.get(name, {}), (name,))
        for key, read in (("portions", self._portions), ("stripes", self._stripes)):
            if key in values and not self.is_bad(name, key):
                values[key] = tuple(read(name, values[key]))
        return values

    def _portions(self, name: str, portions: tuple[dict[str, Any], ...]) -> Iterator[FreePortion]:
        for number, portion in enumerate(portions):
            missing = [key for key in _PORTION if key not in portion]
            for key in missing:
                self.tell(
                    (name, "portions", number, key), predicate(f"is missing; give {_PORTION[key]}")
                )
            if not missing:
                yield FreePortion(**portion)

    def _stripes(self, name: str, stripes: tuple[dict[str, Any], ...]) -> Iterator[Stripe]:
        for number, stripe in enumerate(stripes):
            place, told = (name, "stripes", number), len(self.faults)
            if "rows" not in stripe:
                self.tell((*place, "rows"), predicate("is missing; give rows or rounds"))
            if "lot" in stripe and "lots" in stripe:
                self.tell((*place, "lots"), "the stripe has a lot too; leave one of the two out")
            if "lot" not in stripe and "lots" not in stripe:
                remedy = "is missing; give the name of a lot, or lots with one for each ply"
                self.tell((*place, "lot"), predicate(remedy))
            if len(self.faults) == told:
                yield Stripe(**stripe)

    def tell(self, place: Path, remedy: Remedy, value: str | None = None) -> None:
        """Add a fault, and remember where it is so that no check rests on that value.

        Parameters
        ----------
        place : tuple
            Keys and, in lists, numbers from 0 that lead to the value.
        remedy : Said or str
            What would be right.
        value : str, optional
            What stands there; by default as in the file, nothing where that is a table.
        """
        value = self._value(place) if value is None else value
        self.faults.append((place, Fault(self.file, self._place(place), value, remedy)))
        self._at.add(place)
        self._above.update(place[:depth] for depth in range(len(place)))

    def is_bad(self, *place: str | int) -> bool:
        """Return whether a fault was told at this place, above it or inside it."""
        if not self._at:
            return False
        above = (place[:depth] for depth in range(len(place) + 1))
        return place in self._above or any(start in self._at for start in above)

    def any_bad(self, place: Path, keys: Iterable[str]) -> bool:
        """Return whether any of these keys of a table is at fault.

        Parameters
        ----------
        place : tuple of str and int
            Of a table.
        keys : iterable of str
            Of that table.
        """
        return any(self.is_bad(*place, key) for key in keys)

    def missing(
        self, place: Path, table: dict[str, Any], needed: Mapping[str, str]
    ) -> FaultIterator:
        """Yield place and remedy of each key that a table needs, and neither has nor has wrong.

        Parameters
        ----------
        place : tuple of str and int
            Of the table.
        table : dict
            What is right in it.
        needed : mapping of str to str
            Its keys, and what each would give.
        """
        for key, what in needed.items():
            if key not in table and not self.is_bad(*place, key):
                yield (*place, key), predicate(f"is missing; give {what}")

    def in_order(self) -> list[Fault]:
        """Return the faults in the order of the file; what is missing ends its table."""
        return [fault for _, fault in sorted(self.faults, key=lambda pair: self._rank(pair[0]))]

    def _place(self, path: Path) -> Place:
        """Return a place with the names that the user gave to what is on the way to it."""
        names: list[str] = []
        table: Any = self.data
        for step in path:
            table = _inside(table, step)
            names.append(_name(table) if isinstance(step, int) else "")
        return Place(path, tuple(names))

    def _value(self, place: Path) -> str:
        value: Any = self.data
        for step in place:
            value = _inside(value, step)
        return "" if value is None or is_table(value) else quoted(value)

    def _rank(self, place: Path) -> list[int]:
        rank, table = [], self.data
        for step in place:
            rank.append(step if isinstance(step, int) else self._rank_of(table, step))
            table = _inside(table, step)
        return rank

    def _rank_of(self, table: dict[str, Any] | None, key: str) -> int:
        if table is None:
            return 0
        if id(table) not in self._ranks:
            self._ranks[id(table)] = {known: at for at, known in enumerate(table)}
        return self._ranks[id(table)].get(key, len(table))

    def _read(
        self, model: type[Table], table: Any, place: Path, also: tuple[str, ...] = ()
    ) -> dict[str, Any]:
        if not isinstance(table, dict) or not all(map(_is_unicode, table)):
            self.tell(place, A_TABLE)
            return {}
        try:
            return _given(model.model_validate(table))
        except ValidationError as refused:
            wrong = _one_of_each(refused.errors(include_url=False, include_context=False))
        for error in wrong:
            value = "" if error["type"] in _NOTHING_THERE else quoted(error["input"])
            self.tell((*place, *error["loc"]), remedy_of(model, error, also), value)
        bad = {error["loc"][0] for error in wrong}
        rest = {key: value for key, value in table.items() if key not in bad}
        return _given(model.model_validate(rest))


def _given(table: BaseModel) -> dict[str, Any]:
    """Return the given values of a table by key, lists as tuples."""
    return {key: _plain(getattr(table, key)) for key in sorted(table.model_fields_set)}


def _plain(value: Any) -> Any:
    if type(value) in _ALONE:
        return value
    if isinstance(value, list):
        return tuple(_plain(item) for item in value)
    return _given(value) if isinstance(value, BaseModel) else value


def _one_of_each(errors: list[ErrorDetails]) -> list[ErrorDetails]:
    """Return one of pydantic's errors for each value."""
    return list({error["loc"]: error for error in reversed(errors)}.values())[::-1]


def _inside(table: Any, step: object) -> Any:
    try:
        return table[step]
    except (KeyError, IndexError, TypeError):
        return None


def _name(table: Any) -> str:
    """Return the name of a table; empty where it has none that fits a line."""
    name = table.get("name") if isinstance(table, dict) else None
    name = name.strip() if isinstance(name, str) else ""
    return name if name == truncated(on_one_line(name)) else ""


def _is_unicode(key: str) -> bool:
    return key.isascii() or not any("\ud800" <= letter <= "\udfff" for letter in key)
