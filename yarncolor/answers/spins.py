"""A plan spun many times over: where its fibre comes to lie in each of so many yarns.

Places are metres of plied yarn from where plying begins. Where a place of the plan lies within a
portion, its share of that portion is kept; what strays inside the portion is added to the spread.
A chain is its one single, at a third of the way: its strands come from one loop.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.straying import (
    Straying,
    along_m2,
    drawn_shares,
    is_by_eye,
    ply_by_ply,
    reach_m,
    straying,
)
from yarncolor.layout.layout import Layout, off_the_bobbins
from yarncolor.layout.portions import along_plies
from yarncolor.layout.stretches import WHOLE_PPB, Stretches, sections, stretches
from yarncolor.layout.winding import Strands, as_in_the_yarn, off_order

SPINS, SPINS_AT_HAND = 10_000, 1_000
"""How often a plan is spun for its file, and while fingers wait."""

SEED = 21
"""Of every spin: the same plan strays in the same way, whoever asks."""

_MOST_DRAWN, _MERGED_AT_ONCE = 2_000_000, 400_000
"""Portions of all spins together, of plans with many portions; and cells that are merged at once:
they keep memory below some hundred megabytes."""


@dataclass(frozen=True, eq=False)
class Spins:
    """A plan spun V times.

    Parameters
    ----------
    laid : Layout
        The plan laid out, N portions on so many singles.
    length_m : (V, N) array
        Single of each portion, in the order of coming off.
    """

    laid: Layout
    length_m: NDArray[np.float64]

    @cached_property
    def order(self) -> NDArray[np.int64]:
        """Portions in the order of coming off: (N,)."""
        return off_order(self.laid.portions.starts, self.laid.resolved.wound_off)

    @cached_property
    def kept(self) -> NDArray[np.float64]:
        """Yarn from a metre of each single: (singles,)."""
        kept: NDArray[np.float64] = (1 - self.laid.resolved.yarn.contractions) / self.laid.folds
        return kept

    @cached_property
    def ends_m(self) -> NDArray[np.float64]:
        """Where each portion ends on its single, in the order of coming off: (V, N)."""
        return along_plies(self.length_m, self.laid.portions.starts)

    @cached_property
    def single_m(self) -> NDArray[np.float64]:
        """Length of each single: (V, singles)."""
        length_m: NDArray[np.float64] = self.ends_m[:, self.laid.portions.starts[1:] - 1]
        return length_m

    @cached_property
    def plied_m(self) -> NDArray[np.float64]:
        """Yarn that each single would reach for: (V, singles)."""
        return np.asarray(self.single_m * self.kept)

    @cached_property
    def yarn_m(self) -> NDArray[np.float64]:
        """Length of each yarn: as far as its shortest single goes, (V,)."""
        return np.asarray(self.plied_m.min(axis=1))

    def lies_at_m(self, single: int, at_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return where what a single was to show at places of the yarn lies: (V, n).

        Parameters
        ----------
        single : int
            From 0.
        at_m : (n,) array
            Places of the plan.
        """
        portion, share = self._within(single, at_m)
        to_end_m = (1 - share) * self.length_m[:, portion]
        return np.asarray((self.ends_m[:, portion] - to_end_m) * self.kept[single])

    def _within(
        self, single: int, at_m: NDArray[np.float64]
    ) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
        """Return which portion of those coming off has each place, and at what share of it."""
        own = self.laid.portions.of_ply(single)
        planned_m = self.laid.portions.length_m[self.order[own]]
        ends_m, along_m = np.cumsum(planned_m), at_m / self.kept[single]
        at = np.minimum(np.searchsorted(ends_m, along_m), len(ends_m) - 1)
        lacks_m = np.clip(ends_m[at] - along_m, 0.0, planned_m[at])
        whole_m = np.where(planned_m[at] > 0, planned_m[at], 1.0)
        return own.start + at, 1 - lacks_m / whole_m

    def off_m(
        self, at_m: NDArray[np.float64], since_m: NDArray[np.float64] | None = None
    ) -> NDArray[np.float64]:
        """Return how far apart places lie that the plan has together, as a root mean square: (n,).

        Over all pairs of plies and all spins; 0 where there is one single.

        Parameters
        ----------
        at_m : (n,) array
            Places of the plan.
        since_m : (n,) array, optional
            Places at which plies were brought together again; else where plying begins.
        """
        if len(self.kept) == 1:
            return np.zeros(len(at_m))
        lies_m = self._lie_at_m(at_m)
        if since_m is not None:
            lies_m -= self._lie_at_m(since_m)
        between = 2 * lies_m.var(axis=0, ddof=1).mean(axis=0)
        return np.asarray(np.sqrt(between + self._both_inside_m2(at_m)))

    def squares_m2(self, at_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what that root mean square is made of: (2, n).

        The squares of how far apart places lie, over all pairs of plies and all spins, added; and
        the mean square of how far two plies stray inside their portions besides.

        Parameters
        ----------
        at_m : (n,) array
            Places of the plan.
        """
        lies_m = self._lie_at_m(at_m)
        one, other = np.triu_indices(len(lies_m), 1)
        apart = ((lies_m[one] - lies_m[other]) ** 2).sum(axis=(0, 1))
        return np.stack([apart, self._both_inside_m2(at_m)])

    def _lie_at_m(self, at_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return where places of the plan lie on each single in each spin: (singles, spins, n)."""
        return np.stack([self.lies_at_m(k, at_m) for k in range(len(self.kept))])

    def _both_inside_m2(self, at_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the mean square by which two plies stray inside their portions: (n,)."""
        each = [self._inside_m2(k, at_m) for k in range(len(self.kept))]
        return np.asarray(2 * np.mean(each, axis=0))

    def _inside_m2(self, single: int, at_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the variance of places that is not their share of their portion's: (n,)."""
        along_cv = self.laid.resolved.plan.spinning.variation_within or 0.0
        portion, share = self._within(single, at_m)
        whole_m, reach = self.laid.portions.length_m[self.order[portion]], reach_m(self.laid)
        beyond = along_m2(share * whole_m, reach) - share**2 * along_m2(whole_m, reach)
        return np.asarray(np.maximum(beyond, 0.0) * (along_cv * self.kept[single]) ** 2)

    def along(self, number: int) -> Stretches:
        """Return the stretches of one of the yarns, from 0."""
        portions, resolved = self.laid.portions, self.laid.resolved
        length_m = np.empty(len(portions))
        length_m[self.order] = self.length_m[number]
        singles = off_the_bobbins(resolved, replace(portions, length_m=length_m))
        return stretches(singles, resolved.contraction)

    @cached_property
    def matched(self) -> NDArray[np.float64]:
        """Share of each yarn over which all plies are alike: (V,); of a chain, as planned."""
        shares = [
            (np.diff(ticks, axis=-1, prepend=0) * (lot == lot[..., :1]).all(axis=-1)).sum(axis=-1)
            for ticks, lot in self._merged()
        ]
        return np.asarray(np.concatenate(shares) / WHOLE_PPB)

    def _merged(self) -> Iterator[tuple[NDArray[np.int64], NDArray[np.int64]]]:
        starts, lot = self.laid.portions.starts, self.laid.portions.lot[self.order]
        at_once = max(1, _MERGED_AT_ONCE // len(lot))
        for first in range(0, len(self.length_m), at_once):
            singles = Strands(starts, self.length_m[first : first + at_once], lot)
            yield sections(as_in_the_yarn(singles, self.laid.resolved.as_in_the_yarn))


def spins(laid: Layout, strays: Straying, count: int = SPINS) -> Spins:
    """Return a plan spun so many times, fewer where it has very many portions.

    Parameters
    ----------
    laid : Layout
        The plan laid out.
    strays : Straying
        How its portions stray.
    count : int
        How many times.
    """
    spun_as = ply_by_ply(laid.portions.starts, by_eye=is_by_eye(laid))
    draws = max(1, min(count, _MOST_DRAWN // len(laid.portions)))
    return of_shares(laid, drawn_shares(laid, strays, draws, spun_as, SEED))


def spins_of(
    laid: Layout, on_scale_g: NDArray[np.float64], count: int = SPINS_AT_HAND
) -> Spins | None:
    """Return a plan spun so many times; None where it does not say how its hands stray.

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed, N portions.
    on_scale_g : (N,) array
        What went on the scale with each portion: its own mass, or that of its heap.
    count : int
        How many times.
    """
    strays = straying(laid, on_scale_g)
    return None if strays is None else spins(laid, strays, count)


def of_shares(laid: Layout, share: NDArray[np.float64]) -> Spins:
    """Return the spins in which each portion is so much of its plan.

    Parameters
    ----------
    laid : Layout
        The plan laid out, N portions.
    share : (V, N) array
        Length over planned length, in spinning order.
    """
    order = off_order(laid.portions.starts, laid.resolved.wound_off)
    return Spins(laid, (share * laid.portions.length_m)[:, order])
