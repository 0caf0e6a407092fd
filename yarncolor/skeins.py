"""Where to break the yarn into skeins, so that a break falls where colours change anyhow."""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

import numpy as np

from yarncolor.layout import Layout

_MOST_CANDIDATES = 48
_TOLERANCE = 1e-9


@dataclass(frozen=True)
class Skein:
    """One length of plied yarn as it leaves the plying bobbin.

    Parameters
    ----------
    number, of : int
        Which of how many, from 1, in plying order.
    start_m, end_m : float
        Place along the yarn, as plied: the near end, where plying began, and the far end.
    mass_g : float
        Of the skein.
    near, far : tuple of int
        Lot of each ply at either end.
    plies_changing : int
        How many plies change colour at the break at its far end; 0 at the end of the yarn.
    """

    number: int
    of: int
    start_m: float
    end_m: float
    mass_g: float
    near: tuple[int, ...]
    far: tuple[int, ...]
    plies_changing: int


def skeins(laid: Layout) -> list[Skein]:
    """Return the skeins of a plan: as few as the plying bobbin allows.

    Of all ways to break the yarn into so many, the one whose breaks fall on a change of as many
    plies as possible; of those the most even one.

    Parameters
    ----------
    laid : Layout
        The plan laid out; ``plying_capacity_g`` says what the plying bobbin holds. Without it
        the yarn is one skein.
    """
    along, g_per_m = laid.stretches, laid.yarn_tex / 1000
    breaks = skein_breaks_m(laid)
    inner = np.searchsorted(along.edges_m, breaks[1:-1] - _TOLERANCE * along.yarn_m)
    changes = [
        int((along.lot[at] != along.lot[at - 1]).sum()) if _is_edge(along.edges_m[at], m) else 0
        for at, m in zip(inner, breaks[1:-1], strict=True)
    ]
    return [
        Skein(
            number=at + 1,
            of=len(breaks) - 1,
            start_m=float(start),
            end_m=float(end),
            mass_g=float((end - start) * g_per_m),
            near=_lots_at(laid, start, after=True),
            far=_lots_at(laid, end, after=False),
            plies_changing=changing,
        )
        for at, (start, end, changing) in enumerate(
            zip(breaks[:-1], breaks[1:], [*changes, 0], strict=True)
        )
    ]


def skein_breaks_m(laid: Layout) -> np.ndarray:
    """Return where the yarn is broken, its ends included, in metres as plied."""
    along = laid.stretches
    capacity_g = laid.settled.plan.bobbins.plying_capacity_g
    room_m = np.inf if capacity_g is None else capacity_g / laid.yarn_tex * 1000
    count = max(1, ceil(along.yarn_m / room_m * (1 - _TOLERANCE)))
    if count == 1:
        return np.array([0.0, along.yarn_m])
    worth = (along.lot[1:] != along.lot[:-1]).sum(axis=1).astype(float)
    best = _best_breaks(along.edges_m[1:-1], worth, (along.yarn_m, room_m, count))
    return np.concatenate([[0.0], best, [along.yarn_m]])


def _best_breaks(
    edges_m: np.ndarray, worth: np.ndarray, asked: tuple[float, float, int]
) -> np.ndarray:
    """Return count - 1 places, none further than the room from the next, of most worth in all.

    Break b can only lie between what the skeins after it can still hold and what those before
    it do; in each such window the best candidates are tried, and its ends, where no ply changes.
    """
    yarn_m, room_m, count = asked
    even_m = yarn_m / count
    windows = [
        _candidates(edges_m, worth, (yarn_m - (count - b) * room_m, b * room_m, b * even_m))
        for b in range(1, count)
    ]
    score, choices = windows[0][1], []
    for before, (places, own) in pairwise(windows):
        apart = places[:, None] - before[0]
        allowed = (apart >= 0) & (apart <= room_m * (1 + _TOLERANCE))
        total = np.where(allowed, score, -np.inf)
        choices.append(total.argmax(axis=1))
        score = own + total.max(axis=1)
    at = int(score.argmax())
    found = [at]
    for choice in reversed(choices):
        found.append(int(choice[found[-1]]))
    return np.array([window[0][at] for window, at in zip(windows, found[::-1], strict=True)])


def _candidates(
    edges_m: np.ndarray, worth: np.ndarray, window: tuple[float, float, float]
) -> tuple[np.ndarray, np.ndarray]:
    """Return places in a window and what each is worth: plies that change, less unevenness."""
    low, high, even = window
    slack = 1e-9 * high
    inside = np.flatnonzero((edges_m >= low - slack) & (edges_m <= high + slack))
    uneven = np.abs(edges_m[inside] - even) / (1 + high)
    value = worth[inside] - 1e-3 * uneven
    kept = np.sort(np.argsort(-value, kind="stable")[:_MOST_CANDIDATES])
    places = np.concatenate([edges_m[inside][kept], [max(low, 0.0), min(even, high), high]])
    ends = -1e-3 * np.abs(places[-3:] - even) / (1 + high)
    return places, np.concatenate([value[kept], ends])


def _is_edge(edge_m: float, break_m: float) -> bool:
    return abs(edge_m - break_m) <= 1e-8 * (1 + break_m)


def _lots_at(laid: Layout, at_m: float, *, after: bool) -> tuple[int, ...]:
    """Return the lot of each ply just after a place of the yarn, or just before it."""
    along = laid.stretches
    near = _TOLERANCE * along.yarn_m * 2
    place = at_m + near if after else at_m - near
    at = int(np.searchsorted(along.edges_m, place, side="right")) - 1
    return tuple(along.lot[min(max(at, 0), len(along.lot) - 1)].tolist())
