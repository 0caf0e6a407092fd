"""What the patches of a target are: both published sheets of the preset, or its own, from a file.

A file has a line for each patch: row and column, from 1, and its CIELAB values L*, a*, b*. Targets
are measured for D50 and the 2 degree observer; a line ``light D65`` says otherwise.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from yarncolor.colour.science import EDITIONS, linear_from_measured_lab, target_linear
from yarncolor.errors import Fault, PlanError, quoted, system_says

OWN_VALUES = "values from a file"
LARGEST_CHARACTERS = 20_000
_FEWEST_PATCHES, _FEWEST_NEUTRAL, _MOST_SIDE = 12, 3, 30
_NEUTRAL_CHROMA, _DARKEST = 5.0, 15.0
"""Patches of less chroma, and lighter than this, are the greys that a picture is balanced by."""
_PRESET_NEUTRAL = np.arange(18, 24)
_LIGHTS = ("D50", "D65")
_REMEDY = "give row, column, L, a and b, as 1, 6, 50.9, -26.9, -29.6"

_Patches = dict[tuple[int, int], tuple[float, ...]]
"""CIELAB values by row and column, from 1."""


@dataclass(frozen=True)
class TargetValues:
    """The patches of a target, row by row.

    Parameters
    ----------
    rows, columns : int
        Of the field of patches.
    linear : (rows * columns, 3) array
        Linear sRGB of each.
    neutral : int array
        Which of them are grey.
    """

    rows: int
    columns: int
    linear: np.ndarray
    neutral: np.ndarray


def preset_values(edition: str) -> TargetValues:
    """Return the patches of the preset, 4 rows of 6; `PlanError` for an edition that never was.

    Parameters
    ----------
    edition : str
        newer values or older values.
    """
    if edition not in EDITIONS:
        remedy = f"give {' or '.join(EDITIONS)}, as the target's own sheet says"
        raise PlanError([Fault("", "edition", edition, remedy)])
    return TargetValues(4, 6, target_linear(edition), _PRESET_NEUTRAL)


def read_target(path: str | Path) -> TargetValues:
    """Return a target's own values from a file; `PlanError` with every fault of it, a line each."""
    try:
        text = Path(path).read_bytes()[: 4 * LARGEST_CHARACTERS].decode("utf-8-sig")
    except (OSError, ValueError) as error:
        fault = Fault(str(path), "", "", f"cannot be read: {system_says(error)}")
        raise PlanError([fault]) from error
    return target_values(text, str(path))


def target_values(text: str, file: str) -> TargetValues:
    """Return a target's own values from the text of a file.

    Parameters
    ----------
    text : str
        A line for each patch; blank lines and what follows a # count for nothing, nor does a
        heading.
    file : str
        How faults call it.

    Raises
    ------
    PlanError
        With every fault, a line each.
    """
    if len(text) > LARGEST_CHARACTERS:
        raise PlanError([Fault(file, "", "", "is too long; give a line for each patch")])
    light, patches, faults = "D50", _Patches(), list[Fault]()
    for number, line in _lines(text):
        remedy = ""
        if said := re.fullmatch(r"light[\s,;=:]+(\w+)", line, re.IGNORECASE):
            light = said[1].upper()
            remedy = "" if light in _LIGHTS else "give D50 or D65"
        elif patch := _patch(line):
            remedy = "this patch stands in the file already" if patch[0] in patches else ""
            patches.setdefault(*patch)
        elif patches or re.search(r"\d", line):
            remedy = _REMEDY
        if remedy:
            faults.append(Fault(file, f"line {number}", quoted(line), remedy))
    if faults := faults or list(_faults_of_the_field(patches, file)):
        raise PlanError(faults)
    return _values(patches, light)


def _lines(text: str) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), start=1):
        if told := line.partition("#")[0].strip():
            yield number, told


def _patch(line: str) -> tuple[tuple[int, int], tuple[float, ...]] | None:
    """Return row and column, from 1, and CIELAB values of a line; None where it has not these."""
    if ";" in line or "\t" in line:
        parts = re.split(r"\s*[;\t]\s*", line.replace(",", "."))
    else:
        parts = re.split(r"\s*,\s*|\s+", line)
    try:
        row, column, *lab = (float(part.strip('"')) for part in parts)
    except ValueError:
        return None
    sides = (row, column)
    is_place = all(side.is_integer() and 1 <= side <= _MOST_SIDE for side in sides)
    is_lab = len(lab) == 3 and 0 <= lab[0] <= 100 and all(-150 <= value <= 150 for value in lab)
    return ((int(row), int(column)), tuple(lab)) if is_place and is_lab else None


def _faults_of_the_field(patches: _Patches, file: str) -> Iterator[Fault]:
    """Yield what is wrong with the patches as a whole: some are missing, too few, none grey."""
    rows, columns = (max((place[side] for place in patches), default=0) for side in (0, 1))
    every = [(row, column) for row in range(1, rows + 1) for column in range(1, columns + 1)]
    missing = [place for place in every if place not in patches]
    if missing:
        row, column = missing[0]
        place = f"row {row}, column {column}"
        yield Fault(file, place, "", f"is missing, in a field of {rows} rows of {columns} patches")
    elif len(patches) < _FEWEST_PATCHES or min(rows, columns) < 2:
        yield Fault(file, "patches", str(len(patches)), f"give {_FEWEST_PATCHES} or more, in rows")
    elif len(_neutral(np.array(list(patches.values())))) < _FEWEST_NEUTRAL:
        yield Fault(file, "patches", "", f"give {_FEWEST_NEUTRAL} or more that are grey")


def _values(patches: _Patches, light: str) -> TargetValues:
    places = sorted(patches)
    lab = np.array([patches[place] for place in places])
    rows, columns = places[-1]
    return TargetValues(rows, columns, linear_from_measured_lab(lab, light), _neutral(lab))


def _neutral(lab: np.ndarray) -> np.ndarray:
    is_neutral = (np.hypot(lab[:, 1], lab[:, 2]) < _NEUTRAL_CHROMA) & (lab[:, 0] > _DARKEST)
    return np.flatnonzero(is_neutral)
