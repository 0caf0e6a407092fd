"""Where to break the yarn into skeins, so that a break falls where colours change anyhow."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from yarncolor.answers.breaks import best_breaks_m
from yarncolor.layout.layout import Layout

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
    ends_copy : bool
        Whether one of several alike ends at its far end.
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
    ends_copy: bool


def skeins(laid: Layout) -> tuple[Skein, ...]:
    """Return the skeins of a plan: as few as the plying bobbin allows, none of two copies.

    Of all ways to break the yarn into so many, the one whose breaks fall on a change of as many
    plies as possible; of those the most even one.

    Parameters
    ----------
    laid : Layout
        The plan laid out; ``plying_capacity_g`` says what the plying bobbin holds. Without it
        the yarn is one skein.
    """
    along, g_per_m = laid.stretches, laid.yarn_tex / 1000
    ends_m = np.append(along.copy_ends_m, along.yarn_m)
    breaks, tare_g = skein_breaks_m(laid), laid.resolved.plan.bobbins.plying_tare_g
    inner = np.searchsorted(along.edges_m, breaks[1:-1] - _TOLERANCE * along.yarn_m)
    changes = [
        int((along.lot[at] != along.lot[at - 1]).sum()) if _is_edge(along.edges_m[at], m) else 0
        for at, m in zip(inner, breaks[1:-1], strict=True)
    ]
    return tuple(
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
            ends_copy=bool(_is_edge(ends_m, end).any()),
        )
        for at, (start, end, changing) in enumerate(
            zip(breaks[:-1], breaks[1:], [*changes, 0], strict=True)
        )
    )


def skein_breaks_m(laid: Layout) -> np.ndarray:
    """Return where the yarn is broken, its ends included, in metres as plied."""
    along = laid.stretches
    capacity_g = laid.resolved.plan.bobbins.plying_capacity_g
    room_m = np.inf if capacity_g is None else capacity_g / laid.yarn_tex * 1000
    changes = (along.lot[1:] != along.lot[:-1]).sum(axis=1).astype(float)
    places_m, ends_m = along.edges_m[1:-1], [0.0, *along.copy_ends_m.tolist(), along.yarn_m]
    breaks_m = [0.0]
    for start_m, end_m in pairwise(ends_m):
        own = (places_m > start_m) & (places_m < end_m)
        length_m = end_m - start_m
        within_m = best_breaks_m(places_m[own] - start_m, changes[own], length_m, room_m)
        breaks_m += [*(within_m[1:-1] + start_m).tolist(), end_m]
    return np.array(breaks_m)


def _is_edge(edge_m: np.ndarray, break_m: float) -> np.ndarray:
    return np.asarray(np.abs(edge_m - break_m) <= 1e-8 * (1 + break_m))


def _lots_at(laid: Layout, at_m: float, *, after: bool) -> tuple[int, ...]:
    """Return the lot of each ply just after a place of the yarn, or just before it."""
    along = laid.stretches
    near = _TOLERANCE * along.yarn_m * 2
    place = at_m + near if after else at_m - near
    at = int(np.searchsorted(along.edges_m, place, side="right")) - 1
    return tuple(along.lot[min(max(at, 0), len(along.lot) - 1)].tolist())
