"""What single is left: pieces of one lot each, in the order in which they come off."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.portions import Portions
from yarncolor.layout.winding import Strands, off_order

_NOTHING = 1e-9
"""Parts of a length that are nothing."""


@dataclass(frozen=True, eq=False)
class Rest:
    """A length of single.

    Parameters
    ----------
    length_m : (n,) array
        Of each piece, in the order of coming off.
    lot : (n,) int array
        Lot of each piece.
    tex : (n,) array
        Linear density of each piece.
    """

    length_m: NDArray[np.float64]
    lot: NDArray[np.int64]
    tex: NDArray[np.float64]

    @property
    def single_m(self) -> float:
        """How long it is in all."""
        return float(self.length_m.sum())

    def between(self, start_m: float, end_m: float) -> "Rest":
        """Return what lies between two places of it.

        Parameters
        ----------
        start_m, end_m : float
            From the end that comes off first.
        """
        edges_m = np.append(0.0, np.cumsum(self.length_m)).clip(start_m, max(start_m, end_m))
        length_m = np.diff(edges_m)
        own = length_m > _NOTHING * self.single_m
        return Rest(length_m[own], self.lot[own], self.tex[own])

    def scaled(self, share: float) -> "Rest":
        """Return it longer or shorter, with the same grams."""
        return Rest(self.length_m * share, self.lot, self.tex / share)

    def turned(self) -> "Rest":
        """Return it from its other end."""
        return Rest(self.length_m[::-1], self.lot[::-1], self.tex[::-1])

    def by_lot_g(self, lots: int) -> NDArray[np.float64]:
        """Return grams of single of each lot: (lots,)."""
        each_g = self.length_m * self.tex / 1000
        return np.bincount(self.lot, each_g, lots).astype(np.float64)


def off_each(portions: Portions, wound_off: NDArray[np.int64]) -> tuple[Rest, ...]:
    """Return every single whole, as it comes off its bobbin.

    Parameters
    ----------
    portions : Portions
        Spun.
    wound_off : (singles,) int array
        How often each single is wound off before plying.
    """
    order, starts = off_order(portions.starts, wound_off), portions.starts
    each = (order[first:end] for first, end in pairwise(starts.tolist()))
    return tuple(Rest(portions.length_m[at], portions.lot[at], portions.tex[at]) for at in each)


def side_by_side(rests: Sequence[Rest]) -> Strands:
    """Return lengths of single as the strands of a yarn."""
    sizes = [len(rest.lot) for rest in rests]
    return Strands(
        starts=np.append(0, np.cumsum(sizes)),
        length_m=np.concatenate([rest.length_m for rest in rests]),
        lot=np.concatenate([rest.lot for rest in rests]),
    )
