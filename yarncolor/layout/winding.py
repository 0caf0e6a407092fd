"""Which end of each single comes off first when the plies meet."""

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import Portions
from yarncolor.plan import STRANDS_OF_A_CHAIN

LAST_FIRST, FIRST_FIRST = "last spun first", "first spun first"
_A_LOOP_MORE = 1e-12
"""A single is not folded once more for the rounding of its length: this is no part of a loop."""


@dataclass(frozen=True)
class Strands:
    """Lengths of one lot along each strand, in the order in which they enter the yarn.

    Parameters
    ----------
    starts : (plies + 1,) int array
        Where each strand's pieces begin among the N, and N at the end.
    length_m : (..., N) array
        Metres of single; leading axes hold variants.
    lot : (..., N) int array
        Lot of each piece.
    copy : (N,) int array or None
        Which of several alike it belongs to, from 1 as they were spun; None where there is one.
    """

    starts: NDArray[np.int64]
    length_m: NDArray[np.float64]
    lot: NDArray[np.int64]
    copy: NDArray[np.int64] | None = None


def comes_off(wound_off: int) -> str:
    """Return which end comes off first: a bobbin is last in, first out, a winding turns it."""
    return FIRST_FIRST if wound_off % 2 else LAST_FIRST


def end_of_all(wound_off: NDArray[np.int64]) -> str | None:
    """Return which end of every single comes off first; None where they are not alike.

    Parameters
    ----------
    wound_off : (plies,) int array
        How often each single was wound to another bobbin before plying.
    """
    ends = {comes_off(wound) for wound in wound_off.tolist()}
    return ends.pop() if len(ends) == 1 else None


def strands(portions: Portions, wound_off: NDArray[np.int64]) -> Strands:
    """Return what comes off each bobbin, in that order.

    Parameters
    ----------
    portions : Portions
        In spinning order.
    wound_off : (plies,) int array
        How often each single was wound to another bobbin before plying.
    """
    order = off_order(portions.starts, wound_off)
    copy = portions.copy[order] if portions.copy.max() > 1 else None
    return Strands(portions.starts, portions.length_m[order], portions.lot[order], copy)


def as_in_the_yarn(strands: Strands, share: NDArray[np.float64] | None) -> Strands:
    """Return strands whose lengths are changed as plying changes them, each its own way.

    Parameters
    ----------
    strands : Strands
        As they come off.
    share : (plies,) array or None
        By what each is multiplied; None where all are alike.
    """
    if share is None:
        return strands
    length_m = strands.length_m * np.repeat(share, np.diff(strands.starts))
    return replace(strands, length_m=length_m)


def off_order(starts: NDArray[np.int64], wound_off: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return the permutation (N,) from spinning order to the order of coming off.

    Parameters
    ----------
    starts : (plies + 1,) int array
        Index of each ply's first portion, and N at the end.
    wound_off : (plies,) int array
        How often each single was wound to another bobbin before plying.
    """
    turned = [
        np.arange(first, end) if wound % 2 else np.arange(end - 1, first - 1, -1)
        for first, end, wound in zip(starts[:-1], starts[1:], wound_off, strict=True)
    ]
    return np.concatenate(turned)


def folded_in_three(single: Strands, loop_m: float) -> Strands:
    """Return the three strands of a chain-plied single.

    The single, of length L, is laid in N equal loops of three thirds, each of length l:

    (1) N = ceil(L / (3 · loop_m))

    (2) l = L / (3 N)

    At y = n·l + t along the yarn, 0 ≤ t < l, the strands are at these places of what comes
    off; the middle one runs back:

    (3) 3nl + t

    (4) 3nl + 2l - t

    (5) 3nl + 2l + t

    Several alike are looped one after the other, each as a single of its own.

    Parameters
    ----------
    single : Strands
        One strand, in the order of coming off; leading axes hold variants.
    loop_m : float
        Longest third of a loop, in metres.
    """
    if single.copy is None:
        return _folded(single, loop_m)
    edges = np.flatnonzero(np.diff(single.copy, prepend=0, append=0))
    return _end_to_end(
        [
            (_folded(_part(single, first, end), loop_m), int(single.copy[first]))
            for first, end in pairwise(edges.tolist())
        ]
    )


def _part(single: Strands, first: int, end: int) -> Strands:
    """Return some pieces of a single as one by itself."""
    starts = np.array([0, end - first])
    return Strands(starts, single.length_m[..., first:end], single.lot[..., first:end])


def _end_to_end(parts: list[tuple[Strands, int]]) -> Strands:
    """Return yarns of as many strands, each with its copy's number, one after the other."""
    strands = range(len(parts[0][0].starts) - 1)
    own = [
        (part, slice(part.starts[k], part.starts[k + 1]), number)
        for k in strands
        for part, number in parts
    ]
    sizes = np.array([part.starts[1] for part, _ in parts])
    return Strands(
        starts=np.arange(len(strands) + 1) * sizes.sum(),
        length_m=np.concatenate([part.length_m[..., at] for part, at, _ in own], axis=-1),
        lot=np.concatenate([part.lot[..., at] for part, at, _ in own], axis=-1),
        copy=np.concatenate([np.full(at.stop - at.start, number) for _, at, number in own]),
    )


def _folded(single: Strands, loop_m: float) -> Strands:
    """Return the three strands of a single that is one piece."""
    edges_m = np.cumsum(single.length_m, axis=-1)
    edges_m = np.concatenate([np.zeros_like(edges_m[..., :1]), edges_m], axis=-1)
    third_m, at_m = _where_a_strand_may_change(edges_m, loop_m)
    middle_m = (at_m[..., 1:] + at_m[..., :-1]) / 2
    loop = np.floor(middle_m / third_m)
    t = middle_m - loop * third_m
    along_m = np.concatenate([t, 2 * third_m - t, 2 * third_m + t], axis=-1)
    along_m += 3 * third_m * np.concatenate([loop] * STRANDS_OF_A_CHAIN, axis=-1)  # (3) to (5)
    piece = np.minimum(_pieces_at(edges_m, along_m), single.lot.shape[-1] - 1)
    lot = np.take_along_axis(single.lot, piece, axis=-1)
    starts = np.arange(STRANDS_OF_A_CHAIN + 1) * middle_m.shape[-1]
    return Strands(starts, np.tile(np.diff(at_m), STRANDS_OF_A_CHAIN), lot)


def _pieces_at(edges_m: NDArray[np.float64], at_m: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return in which piece places along each single lie: that which begins there or before."""
    if edges_m.ndim == 1:
        return np.searchsorted(edges_m, at_m, side="right") - 1
    piece = np.full(at_m.shape, -1, dtype=np.int64)
    for edge in np.moveaxis(edges_m, -1, 0):
        piece += at_m >= edge[..., None]
    return piece


def _where_a_strand_may_change(
    edges_m: NDArray[np.float64], loop_m: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the third of a loop, and the sorted places of the yarn where a strand may change.

    Only a loop that holds an edge can show two lots; all others need no place of their own.
    Places may be told twice.
    """
    single_m = edges_m[..., -1:]
    loops = np.maximum(1.0, np.ceil(single_m / (3 * loop_m) * (1 - _A_LOOP_MORE)))  # (1)
    third_m = single_m / (3 * loops)  # (2)
    loop = np.clip(np.floor(edges_m / (3 * third_m)), 0, loops - 1)
    within_m = edges_m - 3 * third_m * loop
    t = np.abs(np.where(within_m < third_m, within_m, within_m - 2 * third_m))  # of (3) to (5)
    begins_m, ends_m = loop * third_m, (loop + 1) * third_m
    yarn_m = single_m / STRANDS_OF_A_CHAIN
    ends = (np.zeros_like(yarn_m), yarn_m)
    at_m = np.sort(np.concatenate([begins_m + t, begins_m, ends_m, *ends], axis=-1), axis=-1)
    return third_m, np.clip(at_m, 0.0, yarn_m)
