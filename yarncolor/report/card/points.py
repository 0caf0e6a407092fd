"""The card's check points: where a ply of the plied yarn changes its colour, and to what."""

from bisect import bisect_left
from dataclasses import dataclass

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.colour_changes import colour_changes
from yarncolor.answers.skeins import Skein
from yarncolor.answers.spread import Spread

MOST_POINTS = 60
_HAND_M = 0.1
"""A hand's breadth."""


@dataclass(frozen=True)
class CheckPoint:
    """A place of the yarn where one ply or more changes: each change is plies, from, to.

    ``ends`` is the number of the skein that ends there, and nothing changes then.
    Metres are those of plied yarn, with how far they may stray two times of three; grams what
    is plied so far; plies that change alike stand
    together, counted from 1, or as "all".
    """

    metre: str
    spread: str
    weighs: str
    gross: str
    changes: tuple[tuple[str, int, int], ...]
    ends: str = ""


def check_points(answer: Answer, most: int = MOST_POINTS) -> tuple[list[CheckPoint], int]:
    """Return check points from the start of plying, and how many were left out.

    Left out is what hands cannot tell: nearer than a hand's breadth, or than the scale can show,
    to the start of a skein or to a place where as many plies change. Where there are still too
    many, those where most plies change are kept; of those where equally many do, evenly spread.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    most : int
        How many there is room for.
    """
    at_m, before, after = colour_changes(answer)
    changed = before != after
    parts = answer.skeins
    starts = np.array([part.start_m for part in parts])
    bands = answer.spread
    grams_per_m = answer.layout.yarn_tex / 1000
    apart_m = max(_HAND_M, answer.resolved.step_g / grams_per_m)
    told = told_apart(at_m, changed.sum(axis=1), starts, apart_m)
    kept = told[most_telling(changed[told].sum(axis=1), most)]
    points = [
        CheckPoint(
            metre=answer.say.length.number(at_m[at]),
            spread="" if bands is None else answer.say.length.number(_sd_m(answer, bands, at)),
            **_weights(answer, _since(starts, at_m[at]) * grams_per_m),
            changes=_alike(before[at].tolist(), after[at].tolist()),
        )
        for at in kept
    ]
    return _with_ends(answer, points, parts[:-1]), len(at_m) - len(kept)


def _weights(answer: Answer, mass_g: float) -> dict[str, str]:
    tare_g = answer.plan.bobbins.plying_tare_g
    weighs = answer.say.on_scale(mass_g, answer.resolved.step_g)
    return {
        "weighs": weighs,
        "gross": "" if tare_g is None else answer.say.gross(weighs, tare_g),
    }


def _since(starts_m: np.ndarray, at_m: float) -> float:
    """Return metres since the skein began that is on the bobbin: what ends there still is."""
    begun = starts_m[starts_m < at_m - 1e-6]
    return float(at_m - (begun[-1] if len(begun) else 0.0))


def _with_ends(
    answer: Answer, points: list[CheckPoint], parts: tuple[Skein, ...]
) -> list[CheckPoint]:
    """Return check points with the ends of skeins among them, each after what changes there."""
    ends = [
        CheckPoint(
            metre=answer.say.length.number(part.end_m),
            spread="",
            **_weights(answer, part.mass_g),
            changes=(),
            ends=str(part.number),
        )
        for part in parts
    ]
    return sorted([*points, *ends], key=lambda point: float(point.metre))


def told_apart(
    at_m: np.ndarray, changes: np.ndarray, starts_m: np.ndarray, apart_m: float
) -> np.ndarray:
    """Return the indices, rising, of the places that lie far enough apart to be told.

    Of two that do not, the one where more plies change is kept; of equals the first.

    Parameters
    ----------
    at_m : (n,) array
        Places along the yarn, rising.
    changes : (n,) int array
        How many plies change at each.
    starts_m : (skeins,) array
        Where skeins begin: nothing is told close behind.
    apart_m : float
        How far apart two have to be.
    """
    least_m = apart_m * (1 - 1e-9)
    taken, kept = sorted(starts_m.tolist()), []
    for at in np.argsort(-changes, kind="stable").tolist():
        near = bisect_left(taken, at_m[at])
        beside = taken[max(near - 1, 0) : near + 1]
        is_end = beside and min(abs(at_m[at] - starts_m)) < 1e-6 and at_m[at] > 0
        if is_end or all(abs(at_m[at] - other) >= least_m for other in beside):
            taken.insert(near, float(at_m[at]))
            kept.append(at)
    return np.sort(np.array(kept, dtype=int))


def most_telling(changes: np.ndarray, most: int) -> np.ndarray:
    """Return the indices, rising, of at most so many places where most plies change.

    Parameters
    ----------
    changes : (n,) int array
        How many plies change at each place.
    most : int
        How many there is room for.
    """
    kept: list[int] = []
    for count in np.unique(changes)[::-1]:
        these, room = np.flatnonzero(changes == count), most - len(kept)
        spread = np.linspace(0, len(these) - 1, min(room, len(these))).round().astype(int)
        kept += these[spread].tolist()
    return np.sort(np.array(kept, dtype=int))


def _sd_m(answer: Answer, bands: Spread, at: int) -> float:
    """Return the SD of a check point: of a chain's join, or of the plies that change there."""
    if not answer.resolved.is_chain:
        return float(np.nanmax(bands.point_sd_m[at]))
    along = answer.layout.stretches.edges_m[1:-1]
    near = int(np.argmin(np.abs(along - colour_changes(answer)[0][at]))) if len(along) else 0
    return float(np.nanmax(bands.point_sd_m[near])) if len(along) else 0.0


def _alike(before: list[int], after: list[int]) -> tuple[tuple[str, int, int], ...]:
    together: dict[tuple[int, int], list[str]] = {}
    for ply, change in enumerate(zip(before, after, strict=True), 1):
        if change[0] != change[1]:
            together.setdefault(change, []).append(str(ply))
    return tuple(
        ("all" if len(plies) == len(before) else ", ".join(plies), *change)
        for change, plies in together.items()
    )
