"""What stands beside a field, and what a number typed there is: in the units of its plan.

A field knows its key and what its plan is said in; its words, what a number alone means, how a
value is shown and how a limit is said follow from that. The plan file keeps grams and metres.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from math import ceil, floor, isfinite, log10

from yarncolor.editing.measures import size_of
from yarncolor.measures import METRIC, Measures
from yarncolor.plan.key import Key, keys_of
from yarncolor.plan.reference import keys_said_in
from yarncolor.plan.unit_words import IMPERIAL
from yarncolor.said import Amount, Span, number_text

_LIMIT_DIGITS = 4
_BY_KEY = keys_said_in(IMPERIAL)


@cache
def in_units(key: Key, say: Measures) -> Key:
    """Return a key as a field of a plan has it, its words and typed numbers in the plan's units.

    Parameters
    ----------
    key : Key
        Of the plan file.
    say : Measures
        What the plan is said in.
    """
    if say is METRIC:
        return key
    own = keys_of(key.holds, "", IMPERIAL).values() if key.holds else ()
    parts = tuple(replace(part, typed=typed_unit(part.unit, say, part.imperial)) for part in own)
    said = _BY_KEY[key.table, key.name]
    return replace(said, typed=typed_unit(key.unit, say, key.imperial), parts=parts)


def typed_unit(unit: str, say: Measures, imperial: str = "") -> str:
    """Return the unit in which a plan has what its file keeps in another; empty for the same.

    Parameters
    ----------
    unit : str
        Of the file.
    say : Measures
        What the plan is said in.
    imperial : str
        What a plan in ounces and yards has, where that is not the usual unit.
    """
    return "" if say is METRIC else imperial or _usual(say).get(unit, "")


def unit_typed(key: Key, say: Measures) -> str:
    """Return the unit of a number that stands alone in a field, as it may be typed behind it.

    Parameters
    ----------
    key : Key
        Of the plan file.
    say : Measures
        What the plan is said in.
    """
    return typed_unit(key.unit, say, key.imperial) or _usual(METRIC).get(key.unit, key.unit)


def _usual(say: Measures) -> dict[str, str]:
    """Return the units of a plan by those of its file."""
    return {
        "g": say.mass.unit,
        "m": say.length.unit,
        "cm": say.width.unit,
        "m in a gram": say.fineness.unit,
        "m in 100 g": say.grist.unit,
        "in 10 cm": say.gauge.unit,
        "minutes": say.pace.unit,
        "turns in a metre": f"turns in a {say.length.name}",
    }


def per_typed(unit: str, typed: str) -> float:
    """Return how much one of a typed unit is in a unit of the file.

    Parameters
    ----------
    unit, typed : str
        As a key has them; where nothing is typed otherwise they are the same.
    """
    return float(size_of(unit, typed))


def span_words(span: Span, say: Measures) -> str:
    """Return a range in the units of a plan, its ends rounded inwards so that both can be given.

    Parameters
    ----------
    span : Span
        In a unit of the file.
    say : Measures
        What the plan is said in.
    """
    size = per_typed(span.unit, typed_unit(span.unit, say, span.imperial))
    if size == 1:
        return str(span)
    low, high = _rounded(span.low / size, ceil), _rounded(span.high / size, floor)
    return span.between(number_text(low), number_text(high))


def amount_words(amount: Amount, say: Measures) -> str:
    """Return a number with its unit, in the units of a plan.

    Parameters
    ----------
    amount : Amount
        In a unit of the file.
    say : Measures
        What the plan is said in.
    """
    typed = typed_unit(amount.unit, say)
    if not typed:
        return str(amount)
    value = amount.value / per_typed(amount.unit, typed)
    shown = _rounded(value, {"most": floor, "least": ceil}.get(amount.bound, round))
    return f"{shown:.10g} {typed}"


def _rounded(value: float, to_whole: Callable[[float], int]) -> float:
    """Return a number with the digits that a limit has."""
    if not value or not isfinite(value):
        return value
    decimals = max(0, _LIMIT_DIGITS - 1 - floor(log10(abs(value))))
    return to_whole(value * 10.0**decimals) / 10.0**decimals
