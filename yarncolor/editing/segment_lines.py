"""A length of a braid as a line of text: its name, its colour, its centimetres.

``Deep Water, dark teal blue, 54``; measured, its colour is ``lab 30 -8 -20``. What has a comma in
it parts its three with semicolons.
"""

import re
from collections.abc import Callable
from typing import Any

from yarncolor.editing.typed_numbers import number_in

_LAB = re.compile(r"lab\s+(\S+)[\s,]+(\S+)[\s,]+(\S+)", re.I)
_DECIMAL_COMMA = re.compile(r"(?:(.*),)?\s+(\d+,\d+\D*)")
"""Behind a colour, centimetres whose comma is a decimal point."""


def segment_line(
    segment: dict[str, Any], number: Callable[[Any], str], length: Callable[[Any], str]
) -> str:
    """Return a length of a braid as it would be typed.

    Parameters
    ----------
    segment : dict
        Its table, as the file has it.
    number : callable
        Writes a number.
    length : callable
        Writes centimetres.
    """
    lab = segment.get("lab")
    measured = "" if lab is None else f"lab {' '.join(map(number, lab))}"
    colour = segment.get("colour", measured)
    sign = "; " if "," in f"{segment['name']}{colour}" else ", "
    said = [segment["name"], *([colour] if colour else []), length(segment["length_cm"])]
    return sign.join(said)


def segment_of_line(line: str, measured: Callable[[str], Any]) -> dict[str, Any]:
    """Return a length of a braid as typed, for the plan to judge.

    Parameters
    ----------
    line : str
        As `segment_line` has it; a name that stood before need not have its colour again.
    measured : callable
        Reads centimetres, with a unit or without.
    """
    sign = ";" if ";" in line else ","
    name, _, rest = line.partition(sign)
    decimal = _DECIMAL_COMMA.fullmatch(rest) if sign == "," else None
    colour, length = decimal.groups("") if decimal else rest.rpartition(sign)[::2]
    found: dict[str, Any] = {"name": name.strip()}
    if colour.strip():
        found |= _colour(colour.strip())
    return found | ({"length_cm": measured(length.strip())} if length.strip() else {})


def _colour(text: str) -> dict[str, Any]:
    lab = _LAB.fullmatch(text)
    if lab is None:
        return {"colour": text}
    numbers = [number_in(one) for one in lab.groups()]
    return {"lab": [one if one is None else float(one) for one in numbers]}
