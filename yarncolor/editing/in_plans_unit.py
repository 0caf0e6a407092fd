"""What was typed in ounces, yards or inches, shown so again: in full, or not at all."""

from typing import Any

from yarncolor.editing.option_text import parse_value, shown_number
from yarncolor.measures import METRIC, Measure, Measures
from yarncolor.plan.key import NUMBER, Key


def in_plans_unit(key: Key, value: Any, say: Measures) -> str:
    """Return a value as it would be typed in a unit of its plan, where that says just the value.

    Parameters
    ----------
    key : Key
        Of the plan file.
    value : any
        As the file has it.
    say : Measures
        What the plan is said in; in grams and metres a field has its numbers alone.

    Returns
    -------
    str
        "4 oz" for 113.3980925 g; empty for 100 g, which no ounces say in few digits.
    """
    if say is METRIC or key.kind != NUMBER or isinstance(value, list) or value is None:
        return ""
    shown = (f"{shown_number(own.of(value))} {own.unit}" for own in _units(key, say))
    return next((text for text in shown if parse_value(key, text) == value), "")


def _units(key: Key, say: Measures) -> tuple[Measure, ...]:
    return {
        "g": (say.mass,),
        "m": (say.length, say.short),
        "cm": (say.width,),
        "m in a gram": (say.fineness,),
        "m in 100 g": (say.grist,),
        "minutes": (say.pace,),
    }.get(key.unit, ())
