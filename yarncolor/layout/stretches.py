"""Portions to stretches: the one merge of all plies' changes, batch first."""

from dataclasses import dataclass, field, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import along_plies
from yarncolor.layout.winding import Strands
from yarncolor.plan.limits import MOST_PLIES

WHOLE_PPB = 10**9
"""Edges are rounded to billionths of the yarn, then compared exactly."""

_PLY_BITS = (MOST_PLIES - 1).bit_length()
"""As many as tell the plies of any yarn apart in the low bits of the merge's keys."""

_HALF_UP = 0.5 + 1e-5
"""A little over a half: an edge on the half tick, as the 1024th part of a yarn is, goes the
same way on every ply, whatever the last bit of its running total."""


@dataclass(frozen=True)
class Stretches:
    """Lengths of plied yarn over which no ply changes, from the start of plying.

    Where several alike are spun, one ends where its copy does.

    Parameters
    ----------
    edges_ppb : (S + 1,) int array
        Edges in billionths of the yarn, strictly rising from 0 to 10**9.
    lot : (S, plies) int array
        Lot of each ply over each stretch; neighbours differ, but where a copy ends.
    yarn_m : float
        Length of the plied yarn.
    copy_ends_ppb : (C,) int array
        Those of the inner edges at which one of several alike ends.
    """

    edges_ppb: NDArray[np.int64]
    lot: NDArray[np.int64]
    yarn_m: float
    copy_ends_ppb: NDArray[np.int64] = field(default_factory=lambda: np.zeros(0, dtype=np.int64))

    @property
    def edges_m(self) -> NDArray[np.float64]:
        """Edges in metres of yarn: (S + 1,)."""
        edges_m: NDArray[np.float64] = self.edges_ppb / WHOLE_PPB * self.yarn_m
        return edges_m

    @property
    def copy_ends_m(self) -> NDArray[np.float64]:
        """Where all copies but the last end, in metres of yarn: (C,)."""
        copy_ends_m: NDArray[np.float64] = self.copy_ends_ppb / WHOLE_PPB * self.yarn_m
        return copy_ends_m


def stretches(strands: Strands, contraction: float) -> Stretches:
    """Return the stretches of one plied yarn.

    Parameters
    ----------
    strands : Strands
        What comes off each bobbin, in that order; no leading axes.
    contraction : float
        Share of length lost in plying; the yarn is the shortest single times one less this.
    """
    (only,) = stretches_of_many(
        replace(strands, length_m=strands.length_m[None], lot=strands.lot[None]), contraction
    )
    return only


def stretches_of_many(strands: Strands, contraction: float) -> list[Stretches]:
    """Return the stretches of each of many plied yarns, from one merge.

    Parameters
    ----------
    strands : Strands
        What comes off each bobbin, in that order: ``length_m`` and ``lot`` of shape (V, N).
    contraction : float
        Share of length lost in plying, the same for all.
    """
    end_ppb, lot = sections(strands)
    yarn, section = np.nonzero(np.diff(end_ppb, axis=-1, prepend=0) > 0)
    end_ppb, lot = end_ppb[yarn, section], lot[yarn, section]
    goes_on = (lot[1:] == lot[:-1]).all(axis=1) & (yarn[1:] == yarn[:-1])
    last = np.append(~goes_on, True)
    ends = np.cumsum(np.bincount(yarn[last]))
    end_ppb, lot = end_ppb[last], lot[last]
    yarn_m = yarn_length_m(strands, contraction).tolist()
    whole = [
        Stretches(np.append(0, end_ppb[first:end]), lot[first:end], metres)
        for first, end, metres in zip([0, *ends[:-1]], ends, yarn_m, strict=True)
    ]
    if strands.copy is None:
        return whole
    ends_ppb = _copy_ends_ppb(strands, strands.copy)
    return [_cut(one, at) for one, at in zip(whole, ends_ppb, strict=True)]


def _cut(along: Stretches, at_ppb: NDArray[np.int64]) -> Stretches:
    """Return stretches with edges at further places within the yarn, where copies end."""
    inner = np.unique(at_ppb[(at_ppb > 0) & (at_ppb < WHOLE_PPB)])
    edges = np.union1d(along.edges_ppb, inner)
    of = np.searchsorted(along.edges_ppb, edges[:-1], side="right") - 1
    return Stretches(edges, along.lot[of], along.yarn_m, inner)


def _copy_ends_ppb(strands: Strands, copy: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return where each copy but the last to come off ends: (V, copies - 1).

    Where plies do not agree it is the place of the middle one.

    Parameters
    ----------
    strands : Strands
        ``length_m`` of shape (V, N).
    copy : (N,) int array
        Which copy each piece belongs to.
    """
    shortest, last = shortest_m(strands)[:, None], int(copy.max())
    ends = []
    for first, end in pairwise(strands.starts.tolist()):
        own, length_m = copy[first:end], strands.length_m[:, first:end]
        off = own if own[0] <= own[-1] else last + 1 - own
        gone = [length_m[:, off <= number].sum(axis=1) for number in range(1, last)]
        ends.append(np.stack(gone, axis=-1) / shortest * WHOLE_PPB + _HALF_UP)
    middle: NDArray[np.int64] = np.sort(ends, axis=0)[len(ends) // 2].astype(np.int64)
    return middle


def yarn_length_m(strands: Strands, contraction: float) -> NDArray[np.float64]:
    """Return the length of each plied yarn: as far as its shortest strand goes.

    Parameters
    ----------
    strands : Strands
        What comes off each bobbin; leading axes hold variants.
    contraction : float
        Share of length lost in plying.
    """
    yarn_m: NDArray[np.float64] = shortest_m(strands) * (1 - contraction)
    return yarn_m


def shortest_m(strands: Strands) -> NDArray[np.float64]:
    """Return the length of the shortest strand, for each variant."""
    ends_m = along_plies(strands.length_m, strands.starts)[..., strands.starts[1:] - 1]
    least_m: NDArray[np.float64] = ends_m.min(axis=-1)
    return least_m


def sections(strands: Strands) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return the raw sections of one yarn or of many: the merge itself.

    Each piece's end, in billionths of the yarn with the ply in the low bits, is sorted once;
    how many ends of a ply have gone by says which of its pieces is being plied.

    Parameters
    ----------
    strands : Strands
        ``length_m`` of shape (..., N); ``lot`` of the same shape or (N,).

    Returns
    -------
    end_ppb : (..., N) int array
        End of each section, never falling; sections of no length stay in.
    lot : (..., N, plies) int array
        Lot of each ply in each section.
    """
    starts = strands.starts
    plies = len(starts) - 1
    key = _edge_keys(strands)
    key.sort(axis=-1)
    ply = (key & ((1 << _PLY_BITS) - 1)).astype(np.int8)
    lot = np.empty((*key.shape, plies), dtype=np.intp)
    for k in range(plies):
        ended = ply == k
        piece = np.cumsum(ended, axis=-1, dtype=np.int32)
        piece -= ended
        np.minimum(piece, starts[k + 1] - starts[k] - 1, out=piece)
        lot[..., k] = _taken(strands.lot[..., starts[k] : starts[k + 1]], piece)
    return key >> _PLY_BITS, lot


def _edge_keys(strands: Strands) -> NDArray[np.int64]:
    ends = along_plies(strands.length_m, strands.starts)
    shortest = ends[..., strands.starts[1:] - 1].min(axis=-1, keepdims=True)
    key: np.ndarray = np.minimum(ends / shortest * WHOLE_PPB + _HALF_UP, WHOLE_PPB).astype(np.int64)
    ply = np.repeat(np.arange(len(strands.starts) - 1), np.diff(strands.starts))
    key <<= _PLY_BITS
    key |= ply
    return key


def _taken(lot: NDArray[np.int64], piece: NDArray[np.int32]) -> NDArray[np.int64]:
    if lot.ndim == 1:
        return lot[piece]
    return np.take_along_axis(lot, piece, axis=-1)


def colours_side_by_side(lot: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return how many different lots lie side by side in (..., plies) lots: (...).

    Parameters
    ----------
    lot : (..., plies) int array
        Lots side by side.
    """
    ordered = np.sort(lot, axis=-1)
    colours: NDArray[np.int64] = 1 + (ordered[..., 1:] != ordered[..., :-1]).sum(axis=-1)
    return colours


def shares_by_colours(edges_ppb: NDArray[np.int64], lot: NDArray[np.int64]) -> NDArray[np.float64]:
    """Return the share of the yarn's length that shows 1, 2, … colours: (plies,).

    Parameters
    ----------
    edges_ppb : (S + 1,) int array
        Edges of the stretches; whole numbers, so that the shares sum to 1 to the last bit.
    lot : (S, plies) int array
        Lots side by side.
    """
    by_colours = np.bincount(colours_side_by_side(lot) - 1, np.diff(edges_ppb), lot.shape[1])
    shares: NDArray[np.float64] = by_colours / by_colours.sum()
    return shares


def longest_of_most_colours(edges_ppb: NDArray[np.int64], lot: NDArray[np.int64]) -> int:
    """Return which is the longest of the stretches that show the most colours.

    Parameters
    ----------
    edges_ppb : (S + 1,) int array
        Edges of the stretches.
    lot : (S, plies) int array
        Lots side by side.
    """
    many = colours_side_by_side(lot)
    return int(np.where(many == many.max(), np.diff(edges_ppb), -1).argmax())
