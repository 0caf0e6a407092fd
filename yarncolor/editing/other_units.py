"""What was typed before a plan was said in other units, so that it goes on meaning the same."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from yarncolor.editing.field_units import in_units, unit_typed
from yarncolor.editing.lot_fields import LOT_FIELDS
from yarncolor.editing.lot_rows import Row, rows_of
from yarncolor.editing.option_text import parse_value
from yarncolor.errors import PlanError
from yarncolor.measures import IMPERIAL, METRIC, Measures, measures_of
from yarncolor.plan import Plan
from yarncolor.plan.key import NUMBER, Key


def typed_in(now: Measures, before: Measures, key: Key, text: str) -> str:
    """Return what was typed, with its unit where it would mean another thing now.

    Parameters
    ----------
    now, before : Measures
        What the plan is said in, and what it was said in when that was typed.
    key : Key
        Of the field, as the plan file has it.
    text : str
        As typed; what cannot be read stays as it is.
    """
    was, field = in_units(key, before), in_units(key, now)
    value = _read(was, text)
    if _read(field, text) == value:
        return text
    measured = [part for part in in_units(key, IMPERIAL).parts if part.typed]
    units = " ".join(unit_typed(part, before) for part in measured or (key,))
    with_units = "\n".join(f"{line.strip()} {units}" for line in text.splitlines())
    ways = (with_units, _each_with_its_unit(key, value))
    return next((way for way in ways if _read(field, way) == value), text)


def rows_in(plan: Plan, before: Plan, rows: Iterable[Row]) -> list[Row]:
    """Return lots as they were typed, so that they mean the same in other units.

    Parameters
    ----------
    plan, before : Plan
        In its units, and in those that it had when that was typed; with the same lots.
    rows : iterable of Row
        As typed; where one shows what the plan has, it goes on to do so.
    """
    units = measures_of(plan), measures_of(before)
    shown, was = rows_of(plan), rows_of(before)
    numbers = [key for key in LOT_FIELDS.values() if key.kind == NUMBER]

    def text(row: Row, key: Key) -> Any:
        typed = getattr(row, key.name)
        if row.key is not None and typed == getattr(was[row.key], key.name):
            return getattr(shown[row.key], key.name)
        return typed_in(*units, key, typed)

    return [replace(row, **{key.name: text(row, key) for key in numbers}) for row in rows]


def _read(key: Key, text: str) -> Any:
    try:
        return parse_value(key, text)
    except PlanError:
        return None


def _each_with_its_unit(key: Key, value: Any) -> str:
    """Return the numbers of a small table, each with its unit; nothing for any other value."""
    numbers = value.items() if isinstance(value, dict) else ()
    return ", ".join(
        f"{number} {unit_typed(key.held[name], METRIC)}".strip()
        for name, number in numbers
        if isinstance(number, int | float)
    )
