"""What may go up and what down in a controlled rounding, as a flow of ones.

Such a rounding always exists: it is a whole-numbered flow from the lots through the things on
the scale into the running totals, and the unrounded amounts are a flow between the same whole
bounds [1]_.

References
----------
.. [1] L. R. Ford and D. R. Fulkerson, Flows in Networks, Princeton, 1962: a flow between whole
   bounds can be chosen whole.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int32]
FREE = -1
"""Of a group whose ups are to be found."""


@dataclass(frozen=True)
class RoundingFlow:
    """Source → lots → groups → things → running totals of the plies → sink; heaps go straight on.

    A running total holds ``least`` ups or more: that many end there, in the sink, and up to
    ``most - least`` are handed on along the ply. All plies and heaps share one last node,
    which takes what the exact total leaves. A group whose ups are pinned has them straight
    from the source, and none from its lot.

    Parameters
    ----------
    ups_of_lot : (lots,) int array
        How many things of each lot go up.
    lot : (I,) int array
        Of each thing: first the rows, ply after ply, then the heaps.
    group : (I,) int array
        Of each thing, from 0: things of one lot that are equally large.
    undecided : (I,) int array
        1 for what may go up, 0 for what is whole.
    starts : (plies + 1,) int array
        Index of each ply's first row, and their number at the end.
    least, most : (R,) int arrays
        Bounds of the ups up to each row of its ply; ``least`` never falls along a ply.
    """

    ups_of_lot: Ints
    lot: NDArray[np.int64]
    group: NDArray[np.int64]
    undecided: Ints
    starts: NDArray[np.int64]
    least: Ints
    most: Ints

    @cached_property
    def lot_of_group(self) -> NDArray[np.int64]:
        """Lot of each group: (G,)."""
        return self.lot[np.unique(self.group, return_index=True)[1]]

    @cached_property
    def size(self) -> Ints:
        """How many things of each group are undecided: (G,)."""
        return self.of_group(self.undecided)

    def of_group(self, ups: Ints) -> Ints:
        """Return how many things of each group go up: (G,).

        Parameters
        ----------
        ups : (I,) int array
            1 for what goes up, else 0.
        """
        return np.bincount(self.group, ups).astype(np.int32)

    def ups(self, pinned: Ints) -> Ints | None:
        """Return 0 or 1 for each thing; None where what is pinned leaves no way.

        Parameters
        ----------
        pinned : (G,) int array
            Ups of each group, `FREE` where they are to be found.
        """
        from scipy.sparse import csr_array
        from scipy.sparse.csgraph import maximum_flow

        is_free, edges = pinned == FREE, self._edges
        given = np.where(is_free, 0, pinned)
        of_lot = self.ups_of_lot - np.bincount(self.lot_of_group, given, len(self.ups_of_lot))
        if (of_lot < 0).any():
            return None
        room = np.concatenate([of_lot, given, np.where(is_free, self.size, 0), edges.room])
        graph = csr_array(
            (room[edges.order].astype(np.int32), edges.head, edges.first),
            shape=(edges.nodes, edges.nodes),
        )
        flow = maximum_flow(graph, edges.nodes - 2, edges.nodes - 1)
        if flow.flow_value != self.ups_of_lot.sum():
            return None
        ups: Ints = np.asarray(flow.flow[edges.group, edges.thing]).ravel()
        return ups

    @cached_property
    def _edges(self) -> "_Edges":
        lots, groups, things = len(self.ups_of_lot), len(self.size), len(self.lot)
        lot, group, thing, (last, source, sink) = np.split(
            np.arange(lots + groups + things + 3), np.cumsum([lots, groups, things])
        )
        rows, end_here = len(self.least), self._end_here()
        onward = np.append(thing[1:rows], last)[:rows]
        onward[self.starts[1:] - 1] = last
        edges = (
            (np.full(lots, source), lot, None),
            (np.full(groups, source), group, None),
            (self.lot_of_group, group, None),
            (group[self.group], thing, self.undecided),
            (thing[:rows], np.full(rows, sink), end_here),
            (thing[:rows], onward, self.most - self.least),
            (thing[rows:], np.full(things - rows, last), self.undecided[rows:]),
            ([last], [sink], [self.ups_of_lot.sum() - end_here.sum()]),
        )
        tail, head = (np.concatenate([edge[side] for edge in edges]) for side in (0, 1))
        order, nodes = np.lexsort((head, tail)), sink + 1
        return _Edges(
            order=order,
            first=np.searchsorted(tail[order], np.arange(nodes + 1)).astype(np.int32),
            head=head[order].astype(np.int32),
            room=np.concatenate([room for _, _, room in edges if room is not None]),
            group=group[self.group],
            thing=thing,
        )

    def _end_here(self) -> Ints:
        before = np.append(0, self.least)[:-1]
        before[self.starts[:-1]] = 0
        end_here: Ints = self.least - before
        return end_here


class _Edges(NamedTuple):
    """Edges of the flow, sorted by the nodes that they leave and lead to.

    Parameters
    ----------
    order : (E,) int array
        How they are sorted: from source to lots, from there to pinned groups, from lots to free
        ones, then those whose room never changes.
    first : (nodes + 1,) int array
        Where the edges of each node begin.
    head : (E,) int array
        Node that each leads to.
    room : int array
        Of those whose room never changes.
    group, thing : (I,) int arrays
        Nodes of each thing and of its group.
    """

    order: NDArray[np.int64]
    first: Ints
    head: Ints
    room: Ints
    group: NDArray[np.int64]
    thing: NDArray[np.int64]

    @property
    def nodes(self) -> int:
        """How many nodes there are; source and sink are the last two."""
        return len(self.first) - 1
