"""What a plan gives for a key as it would be typed, and what a typed text gives the plan.

On screens a share is per cent; the plan file keeps shares.
"""

import re
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from math import floor, log10
from typing import Any

from yarncolor.editing.field_units import in_units, per_typed
from yarncolor.editing.measures import Typed, alone, measure, measures, measures_of_parts
from yarncolor.editing.options import given
from yarncolor.editing.ply_lines import ply_line, ply_of_line
from yarncolor.editing.segment_lines import segment_line, segment_of_line
from yarncolor.editing.typed_numbers import has_thousands, is_decimal, number_in
from yarncolor.errors import Fault, Place, PlanError, quoted
from yarncolor.measures import measures_of
from yarncolor.phrases import divisions_in, divisions_text
from yarncolor.plan import FreePortion, OwnPly, Plan, Segment, Stripe, to_data
from yarncolor.plan.key import (
    DATE,
    DIVISIONS,
    FLAG,
    LOTS,
    NUMBER,
    PARTS,
    PLIES,
    PLY,
    SHARE,
    TABLE,
    TABLES,
    TEXT,
    WHOLE,
    WORD,
    Key,
)
from yarncolor.said import number_text

_MOST_DECIMALS = 4
_FIGURES = 4
_PER_CENT = re.compile(r"\s*(.*?)\s*(%|per ?cent|pct)?\s*", re.IGNORECASE | re.DOTALL)
_DECIMAL_COMMA = re.compile(r"(.*?),\s+(\d+,\d+\D*)")
_STRIPE = re.compile(r"\s*([^\s,;:]+)(?:\s+(?:rows?|rounds?)\b)?\s*[,;:]?\s*(.*?)\s*")
_BESIDE = " + "
"""Between the lots of a stripe's plies; a name that has it stands in quotation marks."""
_YES_NO = {"true": True, "yes": True, "false": False, "no": False}
_Write = Callable[[Key, dict[str, Any]], str]
_Read = Callable[[Key, str], dict[str, Any]]
TALL = (TEXT, LOTS, TABLES)
"""Kinds that are typed on several lines."""


def format_option(plan: Plan, option: Key) -> str:
    """Return what a plan gives for an option, as it would be typed; empty where nothing.

    Parameters
    ----------
    plan : Plan
        That gives it or not; a number is shown in its units.
    option : Key
        Of the plan file.
    """
    return format_value(in_units(option, measures_of(plan)), given(to_data(plan), option))


def format_value(key: Key, value: Any) -> str:
    """Return a key's value as it would be typed; empty where there is none.

    Parameters
    ----------
    key : Key
        As declared, or as a field has it.
    value : any
        As the file has it.
    """
    if value is None:
        return ""
    if key.kind == TABLES:
        write, _ = _ROWS[key.holds]
        return "\n".join(write(key, one) for one in value)
    written = _WRITTEN.get(key.kind)
    return written(value) if written else _plainly(key, value)


def read_again(key: Key, text: str, value: Any) -> Any:
    """Return what a typed text gives for a key: what is there already where it is shown so.

    Parameters
    ----------
    key : Key
        As a field has it.
    text : str
        As typed; a field may show less digits than the plan has.
    value : any
        As the plan has it now.
    """
    typed = parse_option(key, text)
    if (not key.typed and not key.parts) or value is None:
        return typed
    return _kept(typed, parse_option(key, format_value(key, value)), value)


def _kept(typed: Any, shown: Any, value: Any) -> Any:
    """Return what was typed, with what is there wherever just that was shown."""
    if typed == shown:
        return value
    if isinstance(typed, dict) and isinstance(shown, dict):
        return {key: _kept(one, shown.get(key), value.get(key)) for key, one in typed.items()}
    if isinstance(typed, list) and isinstance(shown, list):
        pairs = [*zip(shown, value, strict=True)]
        return [next((own for seen, own in pairs if seen == one), one) for one in typed]
    return typed


def parse_option(option: Key, text: str) -> Any:
    """Return what a typed text gives for a key of the plan file; None takes it away.

    Parameters
    ----------
    option : Key
        Of the plan file.
    text : str
        As typed.

    Raises
    ------
    PlanError
        Where the text cannot be read at all; ranges are the plan file's own to judge.
    """
    text = text.strip()
    return parse_value(option, text) if text else None


def parse_value(key: Key, text: str) -> Any:
    """Return what a typed text gives for a key, as the file has it, for the plan to judge.

    A number may say its unit: "1 oz" of grams, "8 tpi" of turns in a metre. What measures
    another thing stays a text; `measures.kind_words` says what it is.

    Parameters
    ----------
    key : Key
        Of the plan file.
    text : str
        As typed.
    """
    if key.each:
        return _one_or_each(key, text)
    read = _READ.get(key.kind)
    return read(key, text) if read else text


def format_number(value: float) -> str:
    """Return a number as it would be typed."""
    return str(value) if isinstance(value, int) else f"{value:.10g}"


def shown_number(value: float) -> str:
    """Return a number as a field shows it: of one with many decimals, five digits that count."""
    text = format_number(value)
    if "e" in text or len(text.partition(".")[2]) <= _MOST_DECIMALS:
        return text
    decimals = max(2, _MOST_DECIMALS - floor(log10(abs(value))))
    return format_number(round(value, decimals))


def shown_of(key: Key, value: float) -> str:
    """Return a number as the field of a key shows it, in the unit that stands beside it.

    With digits that say just the value, where so many as are typed do; else with four that count.

    Parameters
    ----------
    key : Key
        As a field has it.
    value : float
        As the file has it.
    """
    if not key.typed:
        return shown_number(value)
    there = value / per_typed(key.unit, key.typed)
    text = f"{Decimal(format_number(float(there))):f}"
    if not there or alone(key, parse_number(text)) == value:
        return text
    decimals = max(0, _FIGURES - 1 - floor(log10(abs(there))))
    return number_text(round(there, decimals)).replace(",", "")


def parse_number(text: str) -> int | float | str:
    """Return a number as typed, with a point or a comma; what is none stays a text."""
    text = text.strip()
    try:
        return int(text)
    except ValueError:
        pass
    try:
        return float(text.replace(",", ".") if text.count(",") == 1 else text)
    except ValueError:
        return text


def parse_share(text: str) -> float | str:
    """Return the share that typed per cent mean, to the last digit; what is none stays a text."""
    of_100 = _PER_CENT.fullmatch(text)
    number = number_in(of_100[1]) if of_100 else None
    if number is None or not (of_100 and (of_100[2] or is_decimal(of_100[1]))):
        return text
    return float(number / 100)


def _numbers(text: str) -> list[int | float | str]:
    """Return numbers parted by commas, semicolons or spaces; a comma alone may be decimal.

    "1,5; 2" and "1,5 2" are two numbers; "1, 2, 4" are three.
    """
    text = re.sub(r"\s*\b(?:and|plies|ply)\b\s*|\s*[&:]\s*", " ", text)
    by = r"\s*;\s*|\s+" if ";" in text or not re.search(r",(\s|$)|,.*,", text) else r"\s*,\s*"
    return [parse_number(part) for part in re.split(by, text.strip()) if part]


def _one_or_each(key: Key, text: str) -> Any:
    """Return one value for all plies, or a list of one for each."""
    each = re.split(r"\s*[,;]\s*|\s+", text) if key.kind == WORD else _numbers(text)
    if key.kind != WORD and (has_thousands(text) or any(isinstance(one, str) for one in each)):
        each = measures(key, text)
    else:
        each = [alone(key, one) for one in each]
    return each[0] if len(each) == 1 else each


def _number(key: Key, text: str) -> int | float | str:
    number = text if has_thousands(text) else parse_number(text)
    return measure(key, text) if isinstance(number, str) else alone(key, number)


def _small_table(key: Key, text: str) -> dict[str, Any]:
    """Return a small table that is typed as its values: with their units, or by their turn."""
    parts = key.held
    numbers: list[Typed] = _numbers(text)
    if len(numbers) != len(parts) or any(isinstance(number, str) for number in numbers):
        numbers = measures_of_parts(tuple(parts.values()), text)
    else:
        numbers = [alone(part, one) for part, one in zip(parts.values(), numbers, strict=True)]
    if not numbers:
        raise PlanError([Fault("", Place((key.table, key.name)), text, f"give {key.example}")])
    return dict(zip(parts, numbers, strict=True))


def _day(text: str) -> date | str:
    """Return a day as typed, 2026-03-01; what is none stays a text."""
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        return text


def _portion(key: Key, row: str) -> dict[str, Any]:
    ply, lot, grams = _cells(row)
    mass_g = _number(key.held["mass_g"], grams)
    return {"ply": parse_number(ply), "lot": lot.strip(), "mass_g": mass_g}


def _portion_text(key: Key, row: dict[str, Any]) -> str:
    own = key.held["mass_g"]
    mass = shown_of(own, row["mass_g"]) if own.typed else format_number(row["mass_g"])
    return f"{row['ply']}, {row['lot']}, {mass}"


def _stripe(key: Key, line: str) -> dict[str, Any]:
    """Return a stripe as typed: 6, Kelp; with a lot for each ply 6, Kelp + Foam."""
    parts = _STRIPE.fullmatch(line)
    rows, named = parts.groups() if parts else (line, "")
    is_one = len(named) > 1 and named[0] == named[-1] == '"'
    lots = [named[1:-1]] if is_one else [name.strip() for name in named.split(_BESIDE)]
    lot = {"lot": lots[0]} if len(lots) == 1 else {"lots": lots}
    return {"rows": _number(key.held["rows"], rows), **(lot if named else {})}


def _segment(key: Key, line: str) -> dict[str, Any]:
    return segment_of_line(line, lambda text: _number(key.held["length_cm"], text))


def _stripe_text(_: Key, row: dict[str, Any]) -> str:
    if "lots" in row:
        return f"{row['rows']}, {_BESIDE.join(row['lots'])}"
    return f"{row['rows']}, {quoted(row['lot']) if _BESIDE in row['lot'] else row['lot']}"


def _rows(key: Key, text: str) -> list[dict[str, Any]]:
    _, read = _ROWS[key.holds]
    return [read(key, row) for row in text.splitlines() if row.strip()]


def _cells(row: str) -> tuple[str, str, str]:
    """Return ply, lot and grams of a line; a lot's name may have commas, and grams one."""
    sign = ";" if row.count(";") > 1 else ","
    ply, _, rest = row.partition(sign)
    lot, _, grams = rest.rpartition(sign)
    decimal = _DECIMAL_COMMA.fullmatch(rest) if sign == "," else None
    return (ply, decimal[1], decimal[2]) if decimal else (ply, lot, grams)


def _plainly(key: Key, value: Any) -> str:
    if isinstance(value, dict):
        return ", ".join(shown_of(key.held[name], one) for name, one in value.items())
    if isinstance(value, list | tuple):
        return ", ".join(_plainly(key, one) for one in value)
    return value if isinstance(value, str) else shown_of(key, value)


_WRITTEN: dict[str, Callable[[Any], str]] = {
    SHARE: lambda share: shown_number(share * 100),
    DATE: str,
    DIVISIONS: divisions_text,
    LOTS: "\n".join,
    FLAG: str,
}
"""Kinds that are not written plainly."""

_ROWS: dict[type | None, tuple[_Write, _Read]] = {
    FreePortion: (_portion_text, _portion),
    OwnPly: (
        lambda _, own: ply_line(own, shown_number),
        lambda key, line: ply_of_line(key, line, _numbers),
    ),
    Segment: (
        lambda key, one: segment_line(
            one, shown_number, lambda length_cm: shown_of(key.held["length_cm"], length_cm)
        ),
        _segment,
    ),
    Stripe: (_stripe_text, _stripe),
}
"""How each table of a list is written on a line of its own, and read from it."""

_READ: dict[str, Callable[[Key, str], Any]] = {
    **dict.fromkeys((NUMBER, WHOLE), _number),
    PLY: lambda _, text: parse_number(text),
    SHARE: lambda _, text: parse_share(text),
    DATE: lambda _, text: _day(text),
    **dict.fromkeys((PLIES, PARTS), lambda _, text: _numbers(text)),
    LOTS: lambda _, text: [line.strip() for line in text.splitlines() if line.strip()],
    DIVISIONS: lambda _, text: divisions_in(text),
    TABLE: _small_table,
    TABLES: _rows,
    FLAG: lambda _, text: _YES_NO.get(text.strip().lower(), text),
}
"""Kinds that are not read as the text they are."""
