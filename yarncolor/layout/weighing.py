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

import numpy as np

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

    ply: np.ndarray
    lot: np.ndarray
    weigh_g: np.ndarray
    group: np.ndarray


def weighed(
    portions: Portions, lots: int, step_g: float
) -> tuple[Portions, WeighGroups, np.ndarray]:
    """Return the portions with what to weigh, the heaps, and what stays over of each lot.

    Parameters
    ----------
    portions : Portions
        N of them, masses unrounded.
    lots : int
        Number of lots in the stash.
    step_g : float
        What the scale can show, above 0.

    Returns
    -------
    portions : Portions
        With ``weigh_g``: whole steps, NaN for what goes into a heap.
    heaps : Heaps
        One for each ply and lot that has portions below two steps.
    rest_g : (lots,) array
        Under one step of each lot: no leftover, it only cannot be shown by the scale.
    """
    total = np.bincount(portions.lot, portions.mass_g, lots) / step_g
    whole = _down(total)
    scale = np.divide(whole, total, out=np.zeros(lots), where=total > 0)
    steps = portions.mass_g / step_g * scale[portions.lot]
    single = steps >= _LEAST_STEPS * (1 - _TOLERANCE)
    heap_key, of = _heap_keys(portions, lots, single)
    items = np.append(steps[single], np.bincount(of[~single], steps[~single], len(heap_key)))
    item_lot = np.append(portions.lot[single], heap_key % lots)
    rounded = _rounded(items, item_lot, portions.ply[single], whole)
    weigh = np.full(len(portions), np.nan)
    weigh[single] = rounded[: single.sum()] * step_g
    heaps = WeighGroups(heap_key // lots, heap_key % lots, rounded[single.sum() :] * step_g, of)
    rest = np.where(total - whole > _TOLERANCE * total, total - whole, 0.0)
    return replace(portions, weigh_g=weigh), heaps, rest * step_g


def _heap_keys(portions: Portions, lots: int, single: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    of = np.full(len(portions), -1)
    key = (portions.ply * lots + portions.lot)[~single]
    keys, of[~single] = np.unique(key, return_inverse=True)
    return keys, of


def _rounded(
    items: np.ndarray, item_lot: np.ndarray, row_ply: np.ndarray, whole: np.ndarray
) -> np.ndarray:
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
    return floor + network.ups(ups.astype(np.int32))


@dataclass(frozen=True)
class _Network:
    """Source → lots → items → running totals of the plies → sink; heaps go straight on.

    A running total holds ``least`` ups or more: that many end there, in the sink, and up to
    ``most - least`` are handed on along the ply. All plies and heaps share one last node,
    which takes what the exact total leaves.
    """

    item_lot: np.ndarray
    undecided: np.ndarray
    starts: np.ndarray
    least: np.ndarray
    most: np.ndarray

    def ups(self, ups_of_lot: np.ndarray) -> np.ndarray:
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
        return np.asarray(flow.flow[self.item_lot, node]).ravel()

    def _end_here(self) -> np.ndarray:
        before = np.append(0, self.least)[:-1]
        before[self.starts[:-1]] = 0
        return self.least - before


def _never_falling(least: np.ndarray, starts: np.ndarray) -> np.ndarray:
    for first, end in itertools.pairwise(starts):
        least[first] = max(least[first], 0)
        np.maximum.accumulate(least[first:end], out=least[first:end])
    return least


def _down(steps: np.ndarray) -> np.ndarray:
    return np.where(_is_whole(steps), np.rint(steps), np.floor(steps))


def _up(steps: np.ndarray) -> np.ndarray:
    return np.where(_is_whole(steps), np.rint(steps), np.ceil(steps))


def _is_whole(steps: np.ndarray) -> np.ndarray:
    near = np.clip(_TOLERANCE * steps, _TOLERANCE, _WIDEST)
    return np.abs(steps - np.rint(steps)) <= near
