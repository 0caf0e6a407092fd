"""A ply of a mixed yarn as a line of text: its lots, then what else is said of it, with semicolons.

``Kelp, Foam, Kelp; parts 2, 1, 1; 2 times; reversed; start at 1``. A name that has a comma or a
semicolon in it stands in quotation marks.
"""

import re
from collections.abc import Callable
from typing import Any

from yarncolor.editing.typed_numbers import number_in
from yarncolor.errors import Fault, Place, PlanError
from yarncolor.phrases import divisions_in, divisions_text
from yarncolor.plan.key import Key

Typed = int | float | str
ReadNumbers = Callable[[str], list[Typed]]
"""Reads numbers that stand in a row."""

_FIELD = re.compile(r'\s*(?:"(?P<quoted>(?:[^"]|"")*)"|(?P<plain>[^,;]*?))\s*(?P<end>[,;]|$)')
_PARTS = re.compile(r"parts?\s*(.*)", re.I)
_TIMES = re.compile(r"(?:times\s+(?P<after>.+)|(?P<before>.+?)\s*times?(?:\s+through)?)", re.I)
_SO_OFTEN = {"once": 1, "twice": 2}
_REVERSED = re.compile(r"(?:spun )?(?:reversed?|in reverse(?: order)?)", re.I)
_START = re.compile(r"starts? (?:at|on)?\s*(?:place)?\s*(.+?)(?:\s+places?(?: on)?)?", re.I)


def ply_line(own: dict[str, Any], number: Callable[[Any], str]) -> str:
    """Return a ply as it would be typed.

    Parameters
    ----------
    own : dict
        Its table, as the file has it.
    number : callable
        Writes a number.
    """
    said = [", ".join(map(_quoted, own["sequence"]))]
    if "parts" in own:
        said.append(f"parts {', '.join(map(number, own['parts']))}")
    if "times" in own:
        said.append(f"{divisions_text([own['times']])} times")
    said += ["reversed"] * bool(own.get("reversed"))
    if "start_at" in own:
        said.append(f"start at {number(own['start_at'])}")
    return "; ".join(said)


def ply_of_line(key: Key, line: str, numbers: ReadNumbers) -> dict[str, Any]:
    """Return the table of a ply as typed, for the plan to judge.

    Parameters
    ----------
    key : Key
        Of the plies.
    line : str
        As typed.
    numbers : callable
        Reads numbers that stand in a row.

    Raises
    ------
    PlanError
        For words that say nothing of a ply.
    """
    names, rest = _names(line)
    own: dict[str, Any] = {"sequence": names}
    for said in filter(None, (part.strip() for part in rest.split(";"))):
        own |= _said(key, said, numbers)
    return own


def _names(line: str) -> tuple[list[str], str]:
    """Return the lots that a line begins with, and what stands after them."""
    names: list[str] = []
    at = 0
    while at <= len(line):
        found = _FIELD.match(line, at)
        if found is None:
            return [*names, line[at:].strip()], ""
        quoted = found["quoted"]
        names.append(found["plain"] if quoted is None else quoted.replace('""', '"'))
        at = found.end()
        if found["end"] != ",":
            break
    return [name for name in names if name], line[at:]


def _said(key: Key, text: str, numbers: ReadNumbers) -> dict[str, Any]:
    if _REVERSED.fullmatch(text):
        return {"reversed": True}
    if found := _START.fullmatch(text):
        return {"start_at": _in_row(found[1], numbers)[0]}
    if found := _PARTS.fullmatch(text):
        return {"parts": _in_row(found[1], numbers)}
    if text.lower().removesuffix(" through") in _SO_OFTEN:
        return {"times": _SO_OFTEN[text.lower().removesuffix(" through")]}
    if found := _TIMES.fullmatch(text):
        return {"times": divisions_in(found["after"] or found["before"])[0]}
    raise PlanError([Fault("", Place((key.table, key.name)), text, f"give {key.example}")])


def _in_row(text: str, numbers: ReadNumbers) -> list[Typed]:
    """Return the numbers of a row, halves and thirds among them; what is none stays a text."""
    return [_fraction(one) if isinstance(one, str) else one for one in numbers(text)]


def _fraction(text: str) -> Typed:
    number = number_in(text)
    return text if number is None else float(number)


def _quoted(name: str) -> str:
    if not re.search(r'[,;"]', name):
        return name
    return '"' + name.replace('"', '""') + '"'
