"""Lots as lines of text, pasted from a list or a spreadsheet: what each line says of one lot.

A line is a name, its weight and, where it is known, its colour: in cells parted by tabs or
semicolons, then perhaps a note, or in words, where the weight has its unit.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from yarncolor.colour.words import colour_of_words
from yarncolor.editing.lot_fields import LOT_FIELDS
from yarncolor.editing.lot_rows import Row
from yarncolor.editing.measures import kind_words, quantities
from yarncolor.editing.option_text import parse_value
from yarncolor.editing.typed_numbers import UNSIGNED
from yarncolor.measures import METRIC, Measures
from yarncolor.units import UNITS

UNCOLOURED = "grey"
"""The colour of a lot until one is said."""

_LOTS = {"g": "Kelp 27 g brick red", "oz": "Kelp 1 oz brick red"}
"""A lot as it may be typed, by the unit of a mass."""

_WEIGHT_UNITS = [name for name, unit in UNITS.items() if unit.powers == UNITS["g"].powers]
_HEADINGS = {
    *("name", "names", "lot", "lots", "fibre", "colour", "colours", "color", "colors", "shade"),
    *("dye", "mass", "weight", "note", "notes", "in", "of", *_WEIGHT_UNITS),
}
_UNIT = "|".join(sorted(map(re.escape, _WEIGHT_UNITS), key=len, reverse=True))
_NUMBER = UNSIGNED
_ONE = rf"{_NUMBER}\s*(?:{_UNIT})(?![^\W\d_])"
_WEIGHT = re.compile(rf"(?<![\w#.,]){_ONE}(?:\s+(?:and\s+)?{_ONE})*", re.IGNORECASE)
_BARE = re.compile(rf"(?<![\w#.,])({_NUMBER})(?:\s*[^\W\d_]+)?")
_CODE = re.compile(r"#(?:[0-9a-f]{3}){1,2}$", re.IGNORECASE)
_BULLET = re.compile(r"^[-*•–]\s+")
_BETWEEN = " \t,;:=|–—-"
Parts = tuple[str, str, str, str]
"""Name, weight, colour and note, as typed."""


@dataclass(frozen=True)
class Line:
    """What a line of text says of one lot.

    Parameters
    ----------
    number : int
        The how manieth line it is, from 1.
    row : Row or None
        The lot; None where the line cannot be read.
    wrong : str
        What would be right, where it cannot.
    """

    number: int
    row: Row | None
    wrong: str = ""


def lot_line(say: Measures) -> str:
    """Return a lot as it may be typed on a line."""
    return _LOTS[say.mass.unit]


def lines_of(text: str, say: Measures = METRIC) -> list[Line]:
    """Return the lots of a text, line by line; empty lines and a heading are left out.

    Where a heading names one unit of weight, numbers alone below it are in that.

    Parameters
    ----------
    text : str
        As typed or pasted.
    say : Measures
        What the plan is said in.
    """
    told = [(at, line) for at, line in enumerate(re.split(r"\r\n?|\n", text), 1) if line.strip()]
    heading = _heading(told[0][1]) if told else set()
    units = {UNITS[word].size: word for word in heading.intersection(_WEIGHT_UNITS)}
    unit = next(iter(units.values())) if len(units) == 1 else ""
    return [_with_unit(_line(at, line, say), unit) for at, line in told[bool(heading) :]]


def _heading(line: str) -> set[str]:
    """Return the words of a line that says what stands below it; nothing for any other line."""
    words = {*re.findall(r"[^\W\d_]+", line.lower())}
    return words if words <= _HEADINGS and not re.search(r"\d", line) else set()


def _with_unit(line: Line, unit: str) -> Line:
    """Return a line whose weight has a unit, of which its heading may tell."""
    found = quantities(line.row.mass_g) if line.row and unit else []
    if line.row is None or [one.unit for one in found] != [None]:
        return line
    return replace(line, row=replace(line.row, mass_g=f"{line.row.mass_g} {unit}"))


def _line(number: int, text: str, say: Measures) -> Line:
    for parted in _WAYS:
        parts = parted(text)
        if parts is not None:
            return (
                Line(number, _row(*parts))
                if parts[0]
                else Line(number, None, f"this lot has no name; {_asks(say)}")
            )
    return Line(number, None, _asked(text, say))


def _asks(say: Measures) -> str:
    return f"give a name, its weight and its colour, as “{lot_line(say)}”"


def _row(name: str, weight: str, colour: str, note: str) -> Row:
    if not colour:
        name, colour = _colour_behind(name)
    if not colour:
        colour = name if colour_of_words(name) else UNCOLOURED
    return Row(None, name, colour, weight, note=note)


def _colour_behind(name: str) -> tuple[str, str]:
    """Return a name and the colour that stands behind it; nothing where none does."""
    code = _CODE.search(name)
    at = code.start() if code else name.rfind(",") + 1
    tail = name[at:].strip()
    if at and (code or colour_of_words(tail)):
        return name[:at].rstrip(_BETWEEN), tail
    return name, ""


def _in_cells(sign: str) -> Callable[[str], Parts | None]:
    """Return how cells that a sign parts are read: the name first, then a weight, the rest."""

    def parted(text: str) -> Parts | None:
        name, *others = (cell.strip() for cell in text.split(sign))
        at = next((at for at, cell in enumerate(others) if _is_weight(cell)), None)
        if at is None:
            return None
        colour, *notes = [cell for cell in (*others[:at], *others[at + 1 :]) if cell] or [""]
        return name, others[at], colour, ", ".join(notes)

    return parted


def _is_weight(cell: str) -> bool:
    return not isinstance(parse_value(LOT_FIELDS["mass_g"], cell), str)


def _in_words(text: str) -> Parts | None:
    """Return the parts of a line whose weight has its unit: it stands behind the name, or first."""
    weight = _WEIGHT.search(text)
    if weight is None:
        return None
    name = _BULLET.sub("", text[: weight.start()].strip()).rstrip(f"{_BETWEEN}([").strip()
    rest = text[weight.end() :].lstrip(f"{_BETWEEN})]").rstrip(_BETWEEN)
    return (name, weight[0], rest, "") if name else (rest, weight[0], "", "")


def _asked(text: str, say: Measures) -> str:
    """Return what would be right in the place of a line without a weight."""
    number = _BARE.search(text)
    if number is None:
        return _asks(say)
    kind = kind_words(LOT_FIELDS["mass_g"], number[0])
    return f"{kind}; {_asks(say)}" if kind else f"{number[1]} of what? {_asks(say)}"


_WAYS: Sequence[Callable[[str], Parts | None]] = (
    _in_cells("\t"),
    _in_cells(";"),
    _in_words,
    _in_cells(","),
)
"""How a line may be parted; the first that finds a weight is right."""
