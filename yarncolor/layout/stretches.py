"""Portions to stretches: the one merge of all plies' changes, batch first."""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.layout.portions import along_plies
from yarncolor.layout.winding import Strands

WHOLE_PPB = 10**9
"""Edges are rounded to billionths of the yarn, then compared exactly."""

_PLY_BITS = 4
_HALF_UP = 0.5 + 1e-5
"""A little over a half: an edge on the half tick, as the 1024th part of a yarn is, goes the
same way on every ply, whatever the last bit of its running total."""


@dataclass(frozen=True)
class Stretches:
    """Lengths of plied yarn over which no ply changes, from the start of plying.

    Parameters
    ----------
    edges_ppb : (S + 1,) int array
        Edges in billionths of the yarn, strictly rising from 0 to 10**9.
    lot : (S, plies) int array
        Lot of each ply over each stretch; neighbours differ.
    yarn_m : float
        Length of the plied yarn.
    """

    edges_ppb: np.ndarray
    lot: np.ndarray
    yarn_m: float

    @property
    def edges_m(self) -> np.ndarray:
        """Edges in metres of yarn: (S + 1,)."""
        return self.edges_ppb / WHOLE_PPB * self.yarn_m


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
    yarn_m = (shortest_m(strands) * (1 - contraction)).tolist()
    return [
        Stretches(np.append(0, end_ppb[first:end]), lot[first:end], metres)
        for first, end, metres in zip([0, *ends[:-1]], ends, yarn_m, strict=True)
    ]


def shortest_m(strands: Strands) -> np.ndarray:
    """Return the length of the shortest strand, for each variant."""
    ends = along_plies(strands.length_m, strands.starts)
    shortest: np.ndarray = ends[..., strands.starts[1:] - 1].min(axis=-1)
    return shortest


def sections(strands: Strands) -> tuple[np.ndarray, np.ndarray]:
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


def _edge_keys(strands: Strands) -> np.ndarray:
    ends = along_plies(strands.length_m, strands.starts)
    shortest = ends[..., strands.starts[1:] - 1].min(axis=-1, keepdims=True)
    key: np.ndarray = np.minimum(ends / shortest * WHOLE_PPB + _HALF_UP, WHOLE_PPB).astype(np.int64)
    ply = np.repeat(np.arange(len(strands.starts) - 1), np.diff(strands.starts))
    key <<= _PLY_BITS
    key |= ply
    return key


def _taken(lot: np.ndarray, piece: np.ndarray) -> np.ndarray:
    taken: np.ndarray = lot[piece] if lot.ndim == 1 else np.take_along_axis(lot, piece, axis=-1)
    return taken


def colours_side_by_side(lot: np.ndarray) -> np.ndarray:
    """Return how many different lots lie side by side in (..., plies) lots: (...)."""
    ordered = np.sort(lot, axis=-1)
    changes: np.ndarray = (ordered[..., 1:] != ordered[..., :-1]).sum(axis=-1)
    return 1 + changes


def shares_by_colours(edges_ppb: np.ndarray, lot: np.ndarray) -> np.ndarray:
    """Return the share of the yarn's length that shows 1, 2, … colours: (plies,).

    Parameters
    ----------
    edges_ppb : (S + 1,) int array
        Edges of the stretches; whole numbers, so that the shares sum to 1 to the last bit.
    lot : (S, plies) int array
        Lots side by side.
    """
    shares: np.ndarray = np.bincount(
        colours_side_by_side(lot) - 1, np.diff(edges_ppb), lot.shape[1]
    )
    return shares / float(shares.sum())


def longest_of_most_colours(edges_ppb: np.ndarray, lot: np.ndarray) -> int:
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
