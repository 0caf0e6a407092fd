"""What a plan gives for an option as it would be typed, and what a typed text gives the plan.

On screens a share is per cent; the plan file keeps shares.
"""

import re
from collections.abc import Callable
from decimal import Decimal
from typing import Any

from yarncolor.editing.options import (
    LINE,
    LINES,
    LOT,
    LOTS,
    NUMBER,
    NUMBERS,
    PER_CENT,
    PORTIONS,
    REPEATS,
    WORD,
    WORDS,
    Option,
    given,
)
from yarncolor.errors import Fault, PlanError
from yarncolor.phrases import divisions_in, divisions_text
from yarncolor.plan import Plan, to_data


def format_option(plan: Plan, option: Option) -> str:
    """Return what a plan gives for an option, as it would be typed; empty where nothing."""
    value = given(to_data(plan), option)
    if value is None:
        return ""
    if option.parts:
        return ", ".join(format_number(value[part]) for part in option.parts)
    return _WRITTEN.get(option.kind, _plainly)(value)


def parse_option(option: Option, text: str) -> Any:
    """Return what a typed text gives for a key of the plan file; None takes it away.

    Raises
    ------
    PlanError
        Where the text cannot be read at all; ranges are the plan file's own to judge.
    """
    text = text.strip()
    return _READ[option.kind](option, text) if text else None


def format_number(value: float) -> str:
    """Return a number as it would be typed."""
    return f"{value:.10g}"


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


def _numbers(text: str) -> list[int | float | str]:
    """Return numbers parted by commas, semicolons or spaces; a comma alone may be decimal.

    "1,5; 2" and "1,5 2" are two numbers; "1, 2, 4" are three.
    """
    by = r"\s*;\s*|\s+" if ";" in text or not re.search(r",(\s|$)|,.*,", text) else r"\s*,\s*"
    return [parse_number(part) for part in re.split(by, text.strip()) if part]


def parse_share(text: str) -> float | str:
    """Return the share that typed per cent mean, to the last digit; what is none stays a text."""
    number = parse_number(text.strip().removesuffix("%"))
    return text if isinstance(number, str) else float(Decimal(str(number)).scaleb(-2))


def _words(text: str) -> str | list[str]:
    """Return one word for all plies, or a list of one for each."""
    each = re.split(r"\s*[,;]\s*|\s+", text)
    return each if len(each) > 1 else text


def _portion(row: str) -> dict[str, Any]:
    ply, _, rest = row.partition(",")
    lot, _, grams = rest.rpartition(",")
    return {"ply": parse_number(ply), "lot": lot.strip(), "mass_g": parse_number(grams)}


def _listed(option: Option, text: str) -> Any:
    numbers = _numbers(text)
    if option.parts and len(numbers) != len(option.parts):
        remedy = f"give {len(option.parts)} numbers, one after the other"
        raise PlanError([Fault("", option.key, text, remedy)])
    if option.parts:
        return dict(zip(option.parts, numbers, strict=True))
    return numbers[0] if len(numbers) == 1 and option.table != "scheme" else numbers


def _plainly(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(map(_plainly, value))
    return value if isinstance(value, str) else format_number(value)


_WRITTEN: dict[str, Callable[[Any], str]] = {
    PER_CENT: lambda share: format_number(share * 100),
    REPEATS: divisions_text,
    LOTS: "\n".join,
    PORTIONS: lambda rows: "\n".join(
        f"{row['ply']}, {row['lot']}, {format_number(row['mass_g'])}" for row in rows
    ),
}

_READ: dict[str, Callable[[Option, str], Any]] = {
    WORD: lambda _, text: text,
    LOT: lambda _, text: text,
    LOTS: lambda _, text: [line.strip() for line in text.splitlines() if line.strip()],
    WORDS: lambda _, text: _words(text),
    LINE: lambda _, text: text,
    LINES: lambda _, text: text,
    NUMBER: lambda _, text: parse_number(text),
    PER_CENT: lambda _, text: parse_share(text),
    NUMBERS: _listed,
    REPEATS: lambda _, text: divisions_in(text),
    PORTIONS: lambda _, text: [_portion(row) for row in text.splitlines() if row.strip()],
}
