"""What goes on the scale: controlled rounding, and heaps for what is too small to weigh.

Each portion is rounded up or down to a whole step of the scale, and so is what a ply has of a
lot; every running total along a ply stays within one step of the unrounded one and every lot's
total is exact; see `yarncolor.layout.rounding`.
"""

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import Portions
from yarncolor.layout.rounding import down, rounded

_TOLERANCE = 1e-9
_LEAST_STEPS = 2


@dataclass(frozen=True)
class WeighGroups:
    """Fibre of one lot on one ply that is weighed as one heap and divided by hand.

    Parameters
    ----------
    ply, lot : (H,) int arrays
        Both counted from 0; ply after ply.
    weigh_g : (H,) array
        Whole steps of the scale; 0 for a pinch that the scale cannot show.
    group : (N,) int array
        For each portion the heap it belongs to, -1 where it is weighed singly.
    """

    ply: NDArray[np.int64]
    lot: NDArray[np.int64]
    weigh_g: NDArray[np.float64]
    group: NDArray[np.int64]


class WeighOut(NamedTuple):
    """What goes on the scale.

    Parameters
    ----------
    portions : Portions
        With ``weigh_g``: whole steps, NaN for what goes into a heap.
    groups : WeighGroups
        One heap for each ply and lot that has portions below two steps.
    rest_g : (lots,) array
        Under one step of each lot: no leftover, it only cannot be shown by the scale.
    """

    portions: Portions
    groups: WeighGroups
    rest_g: NDArray[np.float64]


def weighed(portions: Portions, lots: int, step_g: float) -> WeighOut:
    """Return what goes on the scale: masses scaled to whole steps a lot, grouped, rounded.

    Parameters
    ----------
    portions : Portions
        N of them, masses unrounded.
    lots : int
        Number of lots in the stash.
    step_g : float
        What the scale can show, above 0.
    """
    scaled = _scaled(portions, lots, step_g)
    single, key, group = _grouped(portions, lots, scaled.steps)
    heaps = np.bincount(group[~single], scaled.steps[~single], len(key))
    items = np.concatenate([scaled.steps[single], heaps])
    lot, ply = (
        np.append(of_portions[single], of_heaps)
        for of_portions, of_heaps in ((portions.lot, key % lots), (portions.ply, key // lots))
    )
    rounded_g = rounded(items, lot, ply, int(single.sum()), scaled.whole) * step_g
    weigh_g = np.full(len(portions), np.nan)
    weigh_g[single], heap_g = np.split(rounded_g, [single.sum()])
    groups = WeighGroups(key // lots, key % lots, heap_g, group)
    return WeighOut(replace(portions, weigh_g=weigh_g), groups, scaled.rest * step_g)


class _Scaled(NamedTuple):
    """Portions in steps of the scale, each lot's together a whole number of them.

    Parameters
    ----------
    steps : (N,) array
        Of each portion, unrounded.
    whole : (lots,) array
        Of each lot.
    rest : (lots,) array
        Part of a step of each lot that is left.
    """

    steps: NDArray[np.float64]
    whole: NDArray[np.float64]
    rest: NDArray[np.float64]


def _scaled(portions: Portions, lots: int, step_g: float) -> _Scaled:
    total = np.bincount(portions.lot, portions.mass_g, lots) / step_g
    whole = down(total)
    scale = np.divide(whole, total, out=np.zeros(lots), where=total > 0)
    rest = np.where(total - whole > _TOLERANCE * total, total - whole, 0.0)
    return _Scaled(portions.mass_g / step_g * scale[portions.lot], whole, rest)


class _Grouped(NamedTuple):
    """Which portions are weighed singly, and which heap each of the others belongs to.

    Parameters
    ----------
    single : (N,) bool array
        Of two steps or more.
    key : (H,) int array
        Of each heap, ply · lots + lot.
    group : (N,) int array
        Index of a portion's heap, -1 where it is weighed singly.
    """

    single: NDArray[np.bool_]
    key: NDArray[np.int64]
    group: NDArray[np.int64]


def _grouped(portions: Portions, lots: int, steps: NDArray[np.float64]) -> _Grouped:
    single = steps >= _LEAST_STEPS * (1 - _TOLERANCE)
    group = np.full(len(portions), -1)
    of_portion = (portions.ply * lots + portions.lot)[~single]
    key, group[~single] = np.unique(of_portion, return_inverse=True)
    return _Grouped(single, key, group)
