"""A formula in one line, reckoned as it is written: signs, degrees, per cent, words left aside."""

import re
from math import atan, ceil, cos, degrees, floor, pi, radians, sin, sqrt, tan

import pytest

from yarncolor.report.why.reason import Reason

_TOKEN = re.compile(
    r"(?:tan²|arctan|cos|sin|tan|√)(?=\()|π|²|[()÷×−+^]|(?<![\w.])-?\d+(?:\.\d+)?(?:e[+-]?\d+)?[%°]?"
)
_SAID_SO = {"×": "*", "÷": "/", "−": "-", "²": "**2", "√": "sqrt", "π": "pi", "^": "**"}
_NAMES = {
    "arctan": lambda x: degrees(atan(x)),
    "square_tan": lambda x: tan(x) ** 2,
    "cos": cos,
    "sin": sin,
    "tan": tan,
    "sqrt": sqrt,
    "pi": pi,
    "radians": radians,
}


def value_of(text: str) -> float:
    """Return what a formula comes to; units and words in it say nothing."""
    spoken = re.sub(r"in 10 cm|g/cm³|in 100 g|√tex/cm|m²", "", text)
    if text.startswith("the larger of"):
        return max(map(float, re.findall(r"\d[\d.]*", text)))
    value = eval("".join(map(_python, _TOKEN.findall(spoken))), {}, _NAMES)  # noqa: S307
    if text.startswith("rounded up"):
        return ceil(value)
    return floor(value) if text.startswith("whole rows") else value


def sides(line: str) -> tuple[str, str, str]:
    """Return what a line is about, its formula, and what it says comes out."""
    figure, formula, result = line.split(" = ")
    return figure, formula, result


def lines_give_their_numbers(reason: Reason) -> int:
    """Reckon each line as it is written, and return how many there were."""
    for working in reason.workings:
        formula = sides(working.line("it"))[1]
        near = 2e-3 * max(map(abs, (*working.values.values(), working.result)))
        assert value_of(formula) == pytest.approx(working.result, abs=near), formula
    return len(reason.workings)


def number_in(text: str) -> float:
    """Return the first number of a text, a share where it stands in per cent."""
    number, per_cent = re.search(r"(-?\d[\d.]*(?:e-?\d+)?)(%?)", text).groups()
    return float(number) / 100 if per_cent else float(number)


def _python(part: str) -> str:
    if part == "tan²":
        return "square_tan"
    if part.endswith("%"):
        return f"({part[:-1]}/100)"
    if part.endswith("°"):
        return f"radians({part[:-1]})"
    return _SAID_SO.get(part, part)
