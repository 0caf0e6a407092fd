"""What a user can mend: faults, told all at once, one line each."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import zip_longest
from typing import NoReturn

import numpy as np

from yarncolor.said import Remedy

_LONGEST_VALUE = 60
_LONGEST_INT_BITS = 10_000
_JOINERS = "\u200c\u200d"
"""Zero-width joiners hold scripts and emoji together; a terminal shows nothing of them."""


Path = tuple[str | int, ...]
"""Keys and, in lists, numbers from 0 that lead to a value of a plan file."""


@dataclass(frozen=True)
class Place:
    """Where something stands in a plan file, as ``lots 2 (Foam): mass_g``.

    Parameters
    ----------
    path : tuple of str and int
        Keys and, in lists, numbers from 0 that lead there.
    names : tuple of str
        For each step the name that the user gave to what is there; empty where none.
    """

    path: Path
    names: tuple[str, ...] = ()

    def __str__(self) -> str:
        parts: list[str] = []
        for step, name in zip_longest(self.path, self.names, fillvalue=""):
            if isinstance(step, int):
                parts[-1] += f" {step + 1} ({name})" if name else f" {step + 1}"
            else:
                parts.append(truncated(on_one_line(step)))
        return ": ".join(parts)


@dataclass(frozen=True)
class Fault:
    """One thing wrong in what the user gave: where, what stands there, what would be right.

    Its text is that of the plan file; `path` and `remedy` are what other audiences word anew.

    Parameters
    ----------
    file : str
        Name of the file, as the user typed it.
    place : Place or str
        Where in the plan file; elsewhere what it is called; empty for the whole file.
    value : str
        What stands there, already written out by `quoted`; empty where nothing does.
    remedy : Said or str
        What would be right.
    """

    file: str
    place: Place | str
    value: str
    remedy: Remedy

    @property
    def path(self) -> Path:
        """Keys and numbers that lead there in a plan file; a place elsewhere is one key."""
        if isinstance(self.place, Place):
            return self.place.path
        return (self.place,) if self.place else ()

    def __str__(self) -> str:
        place = str(self.place)
        where = f"{place} = {self.value}" if self.value else place
        return ": ".join(part for part in (on_one_line(self.file), where, str(self.remedy)) if part)


class PlanError(ValueError):
    """Every fault found in one input; its text is one line for each.

    Parameters
    ----------
    faults : iterable of Fault
        In the order in which the file is read.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))

    def _render_traceback_(self) -> list[str]:
        """Return what a notebook shows: the faults, without the way they came."""
        return str(self).splitlines()


def one_line(error: PlanError) -> str:
    """Return every fault on one line."""
    return "; ".join(str(fault) for fault in error.faults)


def fail(place: str, remedy: Remedy) -> NoReturn:
    """Raise the one fault of a place, with what would be right.

    Parameters
    ----------
    place : str
        What is at fault.
    remedy : Said or str
        What would be right.
    """
    raise PlanError([Fault("", place, "", remedy)])


def system_says(error: Exception) -> str:
    """Return why the system, or a library, refused: in small letters, without a number."""
    return (getattr(error, "strerror", None) or str(error)).lower()


def quoted(value: object) -> str:
    """Return a value as it would stand in the file, on one line and cut where it is long."""
    return truncated(_written(value))


def truncated(text: str) -> str:
    """Return a text of at most 60 characters; a longer one ends in an ellipsis."""
    return text if len(text) <= _LONGEST_VALUE else text[: _LONGEST_VALUE - 1] + "…"


def on_one_line(text: str) -> str:
    """Return a text with escapes for what would break the line or stir the terminal."""
    return "".join(
        letter if letter.isprintable() or letter in _JOINERS else _escaped(letter)
        for letter in text
    )


def _written(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and value.bit_length() > _LONGEST_INT_BITS:
        return hex(value)
    if isinstance(value, str):
        return '"' + on_one_line(value.replace("\\", "\\\\").replace('"', '\\"')) + '"'
    if isinstance(value, dict):
        return "{" + ", ".join(f"{on_one_line(key)} = {quoted(value[key])}" for key in value) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(quoted(item) for item in value[:_LONGEST_VALUE]) + "]"
    return str(value)


def _escaped(letter: str) -> str:
    return letter.encode("unicode_escape", "surrogatepass").decode()


def suggestion(word: str, known: Sequence[str]) -> str:
    """Return ``; did you mean "Kelp"?`` for a misspelling of a known word, else nothing.

    Parameters
    ----------
    word : str
        As given.
    known : sequence of str
        Words that are right.
    """
    close = nearest(word, known)
    return "" if close is None else f"; did you mean {quoted(close)}?"


def nearest(word: str, known: Sequence[str]) -> str | None:
    """Return the known word that another is likely a misspelling of; None where there is none.

    Parameters
    ----------
    word : str
        As given.
    known : sequence of str
        Words that are right.
    """
    folded = {name.casefold(): name for name in known}
    close = get_close_matches(word.casefold(), folded, n=1, cutoff=0.6)
    return folded[close[0]] if close else None


def in_range(what: str, value: float, low: float, high: float, unit: str) -> None:
    """Raise `PlanError` for a number outside its range, or for none.

    Parameters
    ----------
    what : str
        The number's name.
    value : float
        The number.
    low, high : float
        Bounds that belong to the range.
    unit : str
        Of all three.
    """
    if not (np.isfinite(value) and low <= value <= high):
        raise PlanError(
            [Fault("", what, f"{value:g}", f"give {low:g} to {high:,.6g} {unit}".strip())]
        )
