"""What a plan file gives, read and typed, before it is known whether that is a plan."""

from dataclasses import MISSING, dataclass, fields, replace
from functools import cache, cached_property
from math import nan
from typing import Any

from yarncolor.plan import Bath, Lot, Plan
from yarncolor.plan.key import TABLE, attribute_of, keys_of
from yarncolor.plan.key import TABLES as MANY
from yarncolor.plan.reference import ROWS, TABLES
from yarncolor.planfile.braid_table import read_braid, with_braid
from yarncolor.planfile.reading import Reading

_BATH_KEYS = {field.name for field in fields(Bath) if field.default is MISSING}


@dataclass(frozen=True)
class GivenLot:
    """What is right in one lot's table.

    Parameters
    ----------
    values : dict
        By key, as read; what is missing or at fault is left out.
    name : str
        Its name; empty where it has none that is right.
    mass_g : float
        Grams, its own or those of its rolags; nan where that is not known.
    reserve_g : float
        Grams kept back.
    recipe : tuple of pairs
        Lots that it is carded or drafted from, and their parts; empty for none.
    bath : Bath, optional
        The bath that it is dyed in; None also where that is not all said.
    """

    values: dict[str, Any]
    name: str
    mass_g: float
    reserve_g: float
    recipe: tuple[tuple[str, float], ...]
    bath: Bath | None

    @classmethod
    def read(cls, values: dict[str, Any]) -> "GivenLot":
        """Return a lot from what was read of its table."""
        bath = values.get("bath", {})
        return cls(
            values,
            values.get("name", ""),
            _mass_g(values),
            values.get("reserve_g", 0.0),
            values.get("blend") or values.get("drafted") or (),
            Bath(**bath) if set(bath) >= _BATH_KEYS else None,
        )

    @classmethod
    def on_braid(cls, lot: Lot) -> "GivenLot":
        """Return a colour of the braid as a lot."""
        values = {one.name: getattr(lot, one.name) for one in fields(lot)}
        return cls({key: value for key, value in values.items() if value not in (None, "")},
                   lot.name, lot.mass_g, lot.reserve_g, (), None)  # fmt: skip

    @property
    def stands_in_file(self) -> bool:
        """Whether it has a table of its own: a braid's colour has none."""
        return "on_braid" not in self.values

    @cached_property
    def lot(self) -> Lot:
        """The lot itself, where nothing of it is at fault."""
        return Lot(**self.values | {"mass_g": self.mass_g, "bath": self.bath})


@dataclass(frozen=True)
class GivenPlan:
    """What is right in a plan file.

    Parameters
    ----------
    lots : tuple of GivenLot
        Each as far as it is right.
    tables : Plan
        All the rest: a plan that has no lots yet, and nothing spun.
    rows : dict of str to list
        What is right in each table that stands there many times, by its name.
    """

    lots: tuple[GivenLot, ...]
    tables: Plan
    rows: dict[str, list[dict[str, Any]]]

    @classmethod
    def read(cls, reading: Reading) -> "GivenPlan":
        """Return what a reading finds right; it remembers what is wrong."""
        head = reading.head()
        lots = tuple(GivenLot.read(values) for values in reading.lots())
        braid = read_braid(reading, [lot.name for lot in lots])
        tables = {
            name: _built(table, reading.table(name))
            for name, table in TABLES.items()
            if name != "braid"
        }
        for name in ("target", "plied", "made"):
            if name not in reading.data:
                del tables[name]
        rows = {name: [*reading.rows(name)] for name in ROWS}
        on_braid = () if braid is None else tuple(map(GivenLot.on_braid, braid.lots))
        return cls((*lots, *on_braid), with_braid(Plan(lots=(), **head, **tables), braid), rows)

    @cached_property
    def plan(self) -> Plan:
        """The plan, where nothing of it is at fault."""
        lots = tuple(given.lot for given in self.lots)
        rows: dict[str, Any] = {
            name: tuple(_built(ROWS[name], values) for values in every)
            for name, every in self.rows.items()
        }
        return replace(self.tables, lots=lots, **rows)


def _mass_g(values: dict[str, Any]) -> float:
    if "mass_g" in values:
        return float(values["mass_g"])
    return float(values.get("rolags", nan) * values.get("rolag_g", nan))


def _built(table: type, values: dict[str, Any]) -> Any:
    """Return a table of the file as its dataclass, small tables inside it likewise."""
    small = {name: _held(hold, values[name]) for name, hold in _small(table) if name in values}
    return table(**{attribute_of(key): value for key, value in (values | small).items()})


def _held(hold: type, value: Any) -> Any:
    """Return a small table, or each of several, as what it is; one that is so already stays."""
    if isinstance(value, tuple):
        return tuple(_held(hold, one) for one in value)
    return _built(hold, value) if isinstance(value, dict) else value


@cache
def _small(table: type) -> tuple[tuple[str, type], ...]:
    """Return the keys of a table that hold small tables, and what those are."""
    return tuple(
        (name, key.holds)
        for name, key in keys_of(table).items()
        if key.kind in (TABLE, MANY) and key.holds is not None
    )
