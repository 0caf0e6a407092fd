"""Where to break the yarn into skeins, so that a break falls where colours change anyhow."""

from dataclasses import dataclass
from math import ceil

import numpy as np

from yarncolor.layout import Layout

_MOST_CANDIDATES, _MOST_PASSED_OVER = 48, 16
_FOR_EVENNESS = 1e-3
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
    gross_g : float or None
        With the plying bobbin; None where the empty one is not known.
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
    gross_g: float | None
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
    breaks, tare_g = skein_breaks_m(laid), laid.settled.plan.bobbins.plying_tare_g
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
            gross_g=None if tare_g is None else float(tare_g + (end - start) * g_per_m),
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
    changes = (along.lot[1:] != along.lot[:-1]).sum(axis=1).astype(float)
    return _windows(along.edges_m[1:-1], changes, (along.yarn_m, room_m, count)).best()


@dataclass(frozen=True)
class _Windows:
    """Where each break may fall on a change of colour, and how to go from break to break.

    Parameters
    ----------
    yarn_m, room_m : float
        Of the yarn, and what the plying bobbin holds.
    count : int
        Skeins.
    places : list of (C,) arrays
        Candidates of breaks 0 (the start) to count (the end), in metres.
    worth : list of (C,) arrays
        Plies that change there, less a little for unevenness.
    """

    yarn_m: float
    room_m: float
    count: int
    places: list[np.ndarray]
    worth: list[np.ndarray]

    def best(self) -> np.ndarray:
        """Return the breaks of most worth in all, none further than the room from the next.

        Breaks that are passed over lie evenly between their neighbours, where no ply changes.
        """
        score, came = [np.zeros(1)], [[(0, 0)]]
        for b in range(1, self.count + 1):
            reached = np.full(len(self.places[b]), -np.inf)
            origin = [(0, 0)] * len(reached)
            for before in range(max(0, b - _MOST_PASSED_OVER), b):
                apart = self.places[b][:, None] - self.places[before]
                room = (b - before) * self.room_m * (1 + _TOLERANCE)
                total = np.where((apart >= 0) & (apart <= room), score[before], -np.inf)
                at = total.argmax(axis=1)
                better = total[np.arange(len(at)), at] > reached
                reached = np.maximum(reached, total.max(axis=1))
                origin = [(before, int(at[i])) if better[i] else origin[i] for i in range(len(at))]
            score.append(reached + self.worth[b])
            came.append(origin)
        return self._walked_back(came)

    def _walked_back(self, came: list[list[tuple[int, int]]]) -> np.ndarray:
        known, b, at = {self.count: self.yarn_m}, self.count, 0
        while b:
            b, at = came[b][at]
            known[b] = float(self.places[b][at])
        numbers = np.arange(self.count + 1)
        return np.interp(numbers, sorted(known), [known[number] for number in sorted(known)])


def _windows(edges_m: np.ndarray, changes: np.ndarray, asked: tuple[float, float, int]) -> _Windows:
    """Return the candidates of each break: it lies where the skeins after it can hold the rest."""
    yarn_m, room_m, count = asked
    places, worth = [np.zeros(1)], [np.zeros(1)]
    for b in range(1, count):
        low, high, even = yarn_m - (count - b) * room_m, b * room_m, b * yarn_m / count
        slack = _TOLERANCE * yarn_m
        inside = np.flatnonzero((edges_m >= low - slack) & (edges_m <= high + slack))
        value = changes[inside] - _FOR_EVENNESS * np.abs(edges_m[inside] - even) / yarn_m
        kept = np.sort(np.argsort(-value, kind="stable")[:_MOST_CANDIDATES])
        places.append(np.append(edges_m[inside][kept], even))
        worth.append(np.append(value[kept], 0.0))
    return _Windows(yarn_m, room_m, count, [*places, np.array([yarn_m])], [*worth, np.zeros(1)])


def _is_edge(edge_m: float, break_m: float) -> bool:
    return abs(edge_m - break_m) <= 1e-8 * (1 + break_m)


def _lots_at(laid: Layout, at_m: float, *, after: bool) -> tuple[int, ...]:
    """Return the lot of each ply just after a place of the yarn, or just before it."""
    along = laid.stretches
    near = _TOLERANCE * along.yarn_m * 2
    place = at_m + near if after else at_m - near
    at = int(np.searchsorted(along.edges_m, place, side="right")) - 1
    return tuple(along.lot[min(max(at, 0), len(along.lot) - 1)].tolist())
