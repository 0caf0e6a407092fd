"""Controlled rounding to whole steps, in which pieces that are equally large stay alike.

Each thing on the scale is rounded up or down so that every running total along a ply stays
within one step of the unrounded one and every lot's total is exact. Of all such roundings one
with the fewest unequal pairs of equal pieces is taken; see `yarncolor.layout.equal_pieces`.
"""

import itertools

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.alike import alike
from yarncolor.layout.equal_pieces import fewest_unequal
from yarncolor.layout.portions import along_plies
from yarncolor.layout.rounding_flow import RoundingFlow

_TOLERANCE = 1e-9
_WIDEST = 1e-5
"""A total of millions of steps is not called whole where it is a visible part off."""


def rounded(
    steps: NDArray[np.float64],
    lot: NDArray[np.int64],
    row_ply: NDArray[np.int64],
    whole: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Return whole steps of each thing on the scale.

    What is left to decide is, for each, up (1) or down (0).

    Parameters
    ----------
    steps : (I,) array
        Unrounded: first those of the rows, ply after ply, then those of the heaps.
    lot : (I,) int array
        Of each thing.
    row_ply : (R,) int array
        Of each row, never falling.
    whole : (lots,) array
        Steps of each lot.
    """
    floor, rows = down(steps), len(row_ply)
    starts = np.flatnonzero(np.diff(row_ply, prepend=-1, append=-1))
    running, floors = along_plies(steps[:rows], starts), along_plies(floor[:rows], starts)
    flow = RoundingFlow(
        ups_of_lot=(whole - np.bincount(lot, floor, len(whole))).astype(np.int32),
        lot=lot,
        group=alike(lot, steps),
        undecided=(_up(steps) - floor).astype(np.int32),
        starts=starts,
        least=_never_falling(down(running) - floors, starts).astype(np.int32),
        most=(_up(running) - floors).astype(np.int32),
    )
    weighed: NDArray[np.float64] = floor + fewest_unequal(flow)
    return weighed


def _never_falling(least: NDArray[np.float64], starts: NDArray[np.int64]) -> NDArray[np.float64]:
    for first, end in itertools.pairwise(starts):
        least[first] = max(least[first], 0)
        np.maximum.accumulate(least[first:end], out=least[first:end])
    return least


def down(steps: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return whole steps up to these.

    Parameters
    ----------
    steps : (...) array
        Steps of the scale; what is whole but for its last bits stays.
    """
    return np.where(_is_whole(steps), np.rint(steps), np.floor(steps))


def _up(steps: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.where(_is_whole(steps), np.rint(steps), np.ceil(steps))


def _is_whole(steps: NDArray[np.float64]) -> NDArray[np.bool_]:
    near = np.clip(_TOLERANCE * steps, _TOLERANCE, _WIDEST)
    is_near: NDArray[np.bool_] = np.abs(steps - np.rint(steps)) <= near
    return is_near
