"""The shape of a plan file, from what its keys are declared to be. Loaded only to read a file."""

from yarncolor.plan import Lot, Plan
from yarncolor.plan.key import Key, keys_of
from yarncolor.plan.reference import ROWS as HELD_IN_ROWS
from yarncolor.plan.reference import TABLES as HOLDERS
from yarncolor.planfile.fields import Table, table_of


def _lot_keys() -> dict[str, Key]:
    """Return a lot's keys as they are told: the ways to a colour before its mass."""
    keys = keys_of(Lot, "lots")
    ways = ("name", "colour", "lab", "blend", "drafted", "bath")
    return {name: keys[name] for name in (*ways, *(name for name in keys if name not in ways))}


HeadTable: type[Table] = table_of(Plan, keys_of(Plan))
LotTable: type[Table] = table_of(Lot, _lot_keys())
TABLES: dict[str, type[Table]] = {
    name: table_of(holder, keys_of(holder, name)) for name, holder in HOLDERS.items()
}
ROWS: dict[str, type[Table]] = {
    name: table_of(holder, keys_of(holder, name)) for name, holder in HELD_IN_ROWS.items()
}
