"""What goes on the scale: controlled rounding, and heaps for what is too small to weigh.

Each portion is rounded up or down to a whole step of the scale so that every running total
along a ply stays within one step of the unrounded one and every lot's total is exact. Such a
rounding always exists: it is a whole-numbered flow from the lots through the portions into the
running totals, and the unrounded masses are a flow between the same whole bounds [1]_.

References
----------
.. [1] L. R. Ford and D. R. Fulkerson, Flows in Networks, Princeton, 1962: a flow between whole
   bounds can be chosen whole.
"""

import itertools
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import Portions, along_plies

_TOLERANCE = 1e-9
_WIDEST = 1e-5
"""A total of millions of steps is not called whole where it is a visible part off."""

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
    item_lot = np.append(portions.lot[single], key % lots)
    rounded_g = _rounded(items, item_lot, portions.ply[single], scaled.whole) * step_g
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
    whole = _down(total)
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


def _rounded(
    items: NDArray[np.float64],
    item_lot: NDArray[np.int64],
    row_ply: NDArray[np.int64],
    whole: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Return whole steps for each item; the first of them are rows of a ply, the rest heaps.

    What is left to decide is, for each item, up (1) or down (0): a flow of ones.
    """
    floor = _down(items)
    rows = len(row_ply)
    starts = np.flatnonzero(np.diff(row_ply, prepend=-1, append=-1))
    running = along_plies(items[:rows], starts)
    floors = along_plies(floor[:rows], starts)
    network = _Network(
        item_lot=item_lot,
        undecided=(_up(items) - floor).astype(np.int32),
        starts=starts,
        least=_never_falling(_down(running) - floors, starts).astype(np.int32),
        most=(_up(running) - floors).astype(np.int32),
    )
    ups = whole - np.bincount(item_lot, floor, len(whole))
    rounded: NDArray[np.float64] = floor + network.ups(ups.astype(np.int32))
    return rounded


@dataclass(frozen=True)
class _Network:
    """Source → lots → items → running totals of the plies → sink; heaps go straight on.

    A running total holds ``least`` ups or more: that many end there, in the sink, and up to
    ``most - least`` are handed on along the ply. All plies and heaps share one last node,
    which takes what the exact total leaves.
    """

    item_lot: NDArray[np.int64]
    undecided: NDArray[np.int32]
    starts: NDArray[np.int64]
    least: NDArray[np.int32]
    most: NDArray[np.int32]

    def ups(self, ups_of_lot: NDArray[np.int32]) -> NDArray[np.int32]:
        """Return 0 or 1 for each item, so many ups for each lot."""
        from scipy.sparse import csr_array
        from scipy.sparse.csgraph import maximum_flow

        lots, items, rows = len(ups_of_lot), len(self.item_lot), len(self.least)
        node = lots + np.arange(items)
        last, source, sink = lots + items, lots + items + 1, lots + items + 2
        onward = np.append(node[1:rows], last)[:rows]
        onward[self.starts[1:] - 1] = last
        end_here = self._end_here()
        edges = [
            (np.full(lots, source), np.arange(lots), ups_of_lot),
            (self.item_lot, node, self.undecided),
            (node[:rows], np.full(rows, sink), end_here),
            (node[:rows], onward, self.most - self.least),
            (node[rows:], np.full(items - rows, last), self.undecided[rows:]),
            ([last], [sink], [ups_of_lot.sum() - end_here.sum()]),
        ]
        tail, head, room = (
            np.concatenate(side).astype(np.int32) for side in zip(*edges, strict=True)
        )
        graph = csr_array((room, (tail, head)), shape=(sink + 1, sink + 1))
        flow = maximum_flow(graph, source, sink)
        if flow.flow_value != ups_of_lot.sum():
            raise ArithmeticError("no controlled rounding was found")
        ups: NDArray[np.int32] = np.asarray(flow.flow[self.item_lot, node]).ravel()
        return ups

    def _end_here(self) -> NDArray[np.int32]:
        before = np.append(0, self.least)[:-1]
        before[self.starts[:-1]] = 0
        end_here: NDArray[np.int32] = self.least - before
        return end_here


def _never_falling(least: NDArray[np.float64], starts: NDArray[np.int64]) -> NDArray[np.float64]:
    for first, end in itertools.pairwise(starts):
        least[first] = max(least[first], 0)
        np.maximum.accumulate(least[first:end], out=least[first:end])
    return least


def _down(steps: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.where(_is_whole(steps), np.rint(steps), np.floor(steps))


def _up(steps: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.where(_is_whole(steps), np.rint(steps), np.ceil(steps))


def _is_whole(steps: NDArray[np.float64]) -> NDArray[np.bool_]:
    near = np.clip(_TOLERANCE * steps, _TOLERANCE, _WIDEST)
    is_near: NDArray[np.bool_] = np.abs(steps - np.rint(steps)) <= near
    return is_near
