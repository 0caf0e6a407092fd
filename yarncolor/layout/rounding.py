"""Controlled rounding to whole steps, as near as the totals allow.

Each thing on the scale is rounded up or down; so is what each ply has of each lot, for hands
divide a lot over the plies first; every running total along a ply stays within one step of the
unrounded one, and every lot's total is exact. Of all such roundings one is taken whose squared
errors have the least sum, and of two things that are equally large both go up or both down,
unless their totals stand against it.
"""

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import along_plies
from yarncolor.layout.rounding_flow import Between, RoundingFlow

_TOLERANCE = 1e-9
_WIDEST = 1e-5
"""A total of millions of steps is not called whole where it is a visible part off."""

Floats = NDArray[np.float64]


def rounded(
    steps: Floats,
    lot: NDArray[np.int64],
    ply: NDArray[np.int64],
    rows: int,
    whole: Floats,
) -> Floats:
    """Return whole steps of each thing on the scale: (I,).

    What is left to decide is, for each, up (1) or down (0). Going up adds the square of what
    is above it, and saves that of what is below.

    Parameters
    ----------
    steps : (I,) array
        Unrounded: first those of the rows, ply after ply, then those of the heaps.
    lot, ply : (I,) int arrays
        Of each thing; among the rows plies never fall.
    rows : int
        How many of the things are rows.
    whole : (lots,) array
        Steps of each lot.
    """
    floor, lots = down(steps), len(whole)
    starts = np.flatnonzero(np.diff(ply[:rows], prepend=-1, append=-1))
    key, share = np.unique(ply * lots + lot, return_inverse=True)
    flow = RoundingFlow(
        ups_of_lot=whole - np.bincount(lot, floor, lots),
        lot_of_share=key % lots,
        share=share,
        ends_ply=np.isin(np.arange(1, rows + 1), starts),
        things=_between(steps, floor),
        shares=_between(*(np.bincount(share, each).astype(float) for each in (steps, floor))),
        running=_between(along_plies(steps[:rows], starts), along_plies(floor[:rows], starts)),
    )
    above = steps - floor
    weighed: Floats = floor + flow.cheapest((1 - above) ** 2 - above**2)
    return weighed


def _between(total: Floats, floors: Floats) -> Between:
    """Return how many things may go up in each total.

    Parameters
    ----------
    total, floors : (T,) arrays
        Steps unrounded, and with all of its things rounded down.
    """
    return Between(down(total) - floors, _up(total) - floors)


def down(steps: Floats) -> Floats:
    """Return whole steps up to these.

    Parameters
    ----------
    steps : (...) array
        Steps of the scale; what is whole but for its last bits stays.
    """
    return np.where(_is_whole(steps), np.rint(steps), np.floor(steps))


def _up(steps: Floats) -> Floats:
    return np.where(_is_whole(steps), np.rint(steps), np.ceil(steps))


def _is_whole(steps: Floats) -> NDArray[np.bool_]:
    near = np.clip(_TOLERANCE * steps, _TOLERANCE, _WIDEST)
    is_near: NDArray[np.bool_] = np.abs(steps - np.rint(steps)) <= near
    return is_near
