"""Which end of each single comes off first when the plies meet."""

from dataclasses import dataclass

import numpy as np

from yarncolor.layout.portions import Portions
from yarncolor.plan import STRANDS_OF_A_CHAIN

LAST_FIRST, FIRST_FIRST = "last spun first", "first spun first"


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
    """

    starts: np.ndarray
    length_m: np.ndarray
    lot: np.ndarray


def comes_off(wound_off: int) -> str:
    """Return which end comes off first: a bobbin is last in, first out, a winding turns it."""
    return FIRST_FIRST if wound_off % 2 else LAST_FIRST


def end_of_all(wound_off: np.ndarray) -> str | None:
    """Return which end of every single comes off first; None where they are not alike."""
    ends = {comes_off(wound) for wound in wound_off.tolist()}
    return ends.pop() if len(ends) == 1 else None


def strands(portions: Portions, wound_off: np.ndarray) -> Strands:
    """Return what comes off each bobbin, in that order.

    Parameters
    ----------
    portions : Portions
        In spinning order.
    wound_off : (plies,) int array
        How often each single was wound to another bobbin before plying.
    """
    order = off_order(portions.starts, wound_off)
    return Strands(portions.starts, portions.length_m[order], portions.lot[order])


def off_order(starts: np.ndarray, wound_off: np.ndarray) -> np.ndarray:
    """Return the permutation (N,) from spinning order to the order of coming off."""
    turned = [
        np.arange(first, end) if wound % 2 else np.arange(end - 1, first - 1, -1)
        for first, end, wound in zip(starts[:-1], starts[1:], wound_off, strict=True)
    ]
    return np.concatenate(turned)


def folded_in_three(single: Strands, loop_m: float) -> Strands:
    """Return the three strands of a chain-plied single.

    The single, of length L, is laid in N = ceil(L / (3 · loop_m)) equal loops, each with
    thirds of l = L / (3 N). At y = n·l + t along the yarn (0 ≤ t < l) the strands are at
    3nl + t, 3nl + 2l - t and 3nl + 2l + t of what comes off: the middle strand runs back.

    Parameters
    ----------
    single : Strands
        One strand, in the order of coming off.
    loop_m : float
        Longest third of a loop, in metres.
    """
    edges = np.concatenate([[0.0], np.cumsum(single.length_m)])
    third, at = _critical_places(edges, loop_m)
    middle = (at[1:] + at[:-1]) / 2
    loop = np.floor(middle / third)
    t = middle - loop * third
    along = np.stack([t, 2 * third - t, 2 * third + t]) + 3 * third * loop
    piece = np.searchsorted(edges, along, side="right") - 1
    lot = single.lot[np.clip(piece, 0, len(single.lot) - 1)]
    count = len(middle)
    lengths = np.tile(np.diff(at), STRANDS_OF_A_CHAIN)
    return Strands(np.arange(STRANDS_OF_A_CHAIN + 1) * count, lengths, lot.ravel())


def _critical_places(edges: np.ndarray, loop_m: float) -> tuple[float, np.ndarray]:
    """Return the third of a loop and the sorted places of the yarn where a strand may change.

    Only a loop that holds an edge can show two lots; all others need no place of their own.
    """
    length = edges[-1]
    loops = max(1.0, np.ceil(length / (3 * loop_m) * (1 - 1e-12)))
    third = length / (3 * loops)
    loop = np.clip(np.floor(edges / (3 * third)), 0, loops - 1)
    within = edges - 3 * third * loop
    y = loop * third + np.abs(np.where(within < third, within, within - 2 * third))
    at = np.unique(np.concatenate([y, loop * third, (loop + 1) * third, [0.0, length / 3]]))
    return third, np.clip(at, 0.0, length / 3)
