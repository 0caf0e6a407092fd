"""How lengths of portions stray, from what a spinner says of their own hands.

A portion's length strays by the sum of four things, each normal:

- grist between portions, CV `variation`; neighbours on a ply are alike by `variation_drift`, two
  portions n places apart by its nth power;
- grist along a portion, CV `variation_within`, alike at a distance x by exp(-x/reach), where the
  reach is `variation_reach_m`: of a portion a reaches long CV² · 2 (a - 1 + e⁻ᵃ) / a² is left;
- whole bobbins, CV `variation_bobbins`, one for each single;
- the scale's step q, an error of SD q/√12 of what was weighed.

Who divides by eye reads no scale: there each portion's mass strays by a fifth of its share, and a
lot's portions together hold what it had.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import DIVIDED, REACH_M
from yarncolor.layout.layout import Layout

BY_EYE = 0.2
"""How far a portion's mass strays from its share where fibre is divided by eye, as an SD."""

_LEAST_SHARE = 0.01
"""No portion is less than this share of its plan."""


@dataclass(frozen=True)
class SpunAs:
    """How N portions are divided and in which order they are spun; which stray as one whole.

    Parameters
    ----------
    runs : sequence of int arrays
        Indices of portions that are spun one after the other: neighbours may be alike.
    whole : (N,) int array
        Number of the whole, from 0, whose spread each portion shares: a bobbin.
    by_eye : bool
        Whether fibre is divided by eye.
    """

    runs: Sequence[NDArray[np.int64]]
    whole: NDArray[np.int64]
    by_eye: bool = False


def ply_by_ply(starts: NDArray[np.int64], *, by_eye: bool = False) -> SpunAs:
    """Return portions spun ply by ply, each on a bobbin of its own.

    Parameters
    ----------
    starts : (plies + 1,) int array
        Index of each ply's first portion, and N at the end.
    by_eye : bool
        Whether fibre is divided by eye.
    """
    plies = np.repeat(np.arange(len(starts) - 1), np.diff(starts))
    return SpunAs(np.split(np.arange(starts[-1]), starts[1:-1]), plies, by_eye)


@dataclass(frozen=True)
class Straying:
    """How the lengths of N portions stray.

    Parameters
    ----------
    drifting_m : (N,) array
        SD that neighbours on a ply share by `drift`.
    within_m : (N,) array
        SD of each by itself, of what strays along it.
    reading_m : (N,) array
        SD of each by itself, of what the scale shows.
    bobbin_m : (N,) array
        SD that all portions of a single share wholly.
    drift : float
        Correlation of neighbours, 0 to 1.
    """

    drifting_m: NDArray[np.float64]
    within_m: NDArray[np.float64]
    reading_m: NDArray[np.float64]
    bobbin_m: NDArray[np.float64]
    drift: float

    @property
    def own_m(self) -> NDArray[np.float64]:
        """SD of each portion by itself: (N,)."""
        return np.hypot(self.within_m, self.reading_m)

    def in_order(self, order: NDArray[np.int64]) -> "Straying":
        """Return the same portions in another order, each ply's turned round or not.

        Parameters
        ----------
        order : (N,) int array
            Indices of portions, in the order of coming off.
        """
        return replace(
            self,
            drifting_m=self.drifting_m[order],
            within_m=self.within_m[order],
            reading_m=self.reading_m[order],
            bobbin_m=self.bobbin_m[order],
        )

    def running_variance(self, order: NDArray[np.int64]) -> NDArray[np.float64]:
        """Return the variance of the length up to the end of each portion of one single.

        Of portions that stray each by itself: without a drift, and without bobbins that do.

        Parameters
        ----------
        order : (n,) int array
            Indices of portions, in the order of coming off.
        """
        alone = self.drifting_m[order] ** 2 + self.own_m[order] ** 2
        return np.asarray(np.cumsum(alone))

    def drawn(self, rng: np.random.Generator, draws: int, spun: SpunAs) -> NDArray[np.float64]:
        """Return by how much each portion strays in so many yarns, in metres: (draws, N).

        Parameters
        ----------
        rng : Generator
            Of what is drawn.
        draws : int
            How many yarns.
        spun : SpunAs
            In which order the portions are spun, and on which bobbins.
        """
        shape = (draws, len(self.own_m))
        stray_m = rng.standard_normal(shape)
        if not self.drift and not self.bobbin_m.any():
            stray_m *= np.hypot(self.drifting_m, self.own_m)
            return stray_m
        for run in spun.runs:
            stray_m[:, run] = self._along(stray_m[:, run])
        stray_m *= self.drifting_m
        stray_m += rng.standard_normal(shape) * self.own_m
        wholes = rng.standard_normal((draws, int(spun.whole.max()) + 1))
        stray_m += wholes[:, spun.whole] * self.bobbin_m
        return stray_m

    def _along(self, by_itself: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return draws (draws, n) in which neighbours are alike by the drift."""
        new = by_itself * sqrt(1 - self.drift**2)
        new[:, :1] = by_itself[:, :1]
        return drifted(new, self.drift)


def drifted(new: NDArray[np.float64], drift: float) -> NDArray[np.float64]:
    """Return running sums of which each keeps a share of the one before: like ``new``.

    Parameters
    ----------
    new : (n,) or (draws, n) array
        What each adds.
    drift : float
        The share that is kept, below 1.
    """
    from scipy.linalg import solve_banded

    each_less_kept = np.repeat([[0.0], [1.0], [-drift]], new.shape[-1], axis=1)
    return np.asarray(solve_banded((1, 1), each_less_kept, new.T, check_finite=False).T)


def straying(laid: Layout, on_scale_g: NDArray[np.float64]) -> Straying | None:
    """Return how a plan's portions stray, in spinning order; None where the plan does not say.

    Parameters
    ----------
    laid : Layout
        The plan laid out, N portions.
    on_scale_g : (N,) array
        What goes on the scale with each portion: its own mass, or that of its heap.
    """
    hands = laid.resolved.plan.spinning
    is_said = not hands.variation is hands.variation_within is hands.variation_bobbins is None
    if not is_said and not is_by_eye(laid):
        return None
    length_m = laid.portions.length_m
    if laid.wheel is not None:
        length_m = np.where(laid.wheel.is_measured, 0.0, length_m)
    within = (hands.variation_within or 0.0) * left_along(laid.portions.length_m / reach_m(laid))
    step_g = 0.0 if is_by_eye(laid) else laid.resolved.step_g
    return Straying(
        drifting_m=length_m * (hands.variation or 0.0),
        within_m=length_m * within,
        reading_m=length_m * (step_g / sqrt(12) / on_scale_g),
        bobbin_m=length_m * (hands.variation_bobbins or 0.0),
        drift=hands.variation_drift or 0.0,
    )


def is_by_eye(laid: Layout) -> bool:
    """Return whether fibre is divided by eye."""
    return (laid.resolved.plan.spinning.divided or DIVIDED) == "eye"


def goes_beyond_portions(laid: Layout) -> bool:
    """Return whether more strays than each portion by itself."""
    hands = laid.resolved.plan.spinning
    more = (hands.variation_drift, hands.variation_within, hands.variation_bobbins)
    return any(more) or is_by_eye(laid)


def reach_m(laid: Layout) -> float:
    """Return how far a thick or thin place reaches, in metres."""
    given_m = laid.resolved.plan.spinning.variation_reach_m
    return REACH_M if given_m is None else given_m


def drawn_shares(
    laid: Layout, strays: Straying, draws: int, spun: SpunAs, seed: int
) -> NDArray[np.float64]:
    """Return each portion's length over its plan, in so many yarns: (draws, N), spinning order.

    Parameters
    ----------
    laid : Layout
        The plan laid out, N portions.
    strays : Straying
        How they stray.
    draws : int
        How many yarns.
    spun : SpunAs
        How they are divided, in which order spun and on which bobbins.
    seed : int
        Of what is drawn.
    """
    rng, planned_m = np.random.default_rng(seed), laid.portions.length_m
    share = strays.drawn(rng, draws, spun)
    share /= np.where(planned_m > 0, planned_m, 1.0)
    share += 1
    if spun.by_eye:
        share *= _by_eye(laid, rng, draws)
    return np.maximum(share, _LEAST_SHARE, out=share)


def _by_eye(laid: Layout, rng: np.random.Generator, draws: int) -> NDArray[np.float64]:
    """Return each portion's mass over its share, divided by eye: (draws, N); lots keep theirs."""
    portions, wheel = laid.portions, laid.wheel
    share = np.ones((draws, len(portions)))
    divided = np.ones(len(portions), np.bool_)
    if wheel is not None:
        divided = wheel.as_planned & ~wheel.is_measured
    for lot in np.unique(portions.lot[divided]):
        own = np.flatnonzero(divided & (portions.lot == lot))
        seen = np.maximum(1 + BY_EYE * rng.standard_normal((draws, len(own))), _LEAST_SHARE)
        mass_g = portions.mass_g[own]
        share[:, own] = seen * (mass_g.sum() / (seen @ mass_g))[:, None]
    return share


def along_m2(length_m: NDArray[np.float64], reaches_m: float) -> NDArray[np.float64]:
    """Return the variance of lengths of a single whose grist strays along it by a CV of 1: (n,).

    With a the length in reaches of r: 2 r² (a - 1 + e⁻ᵃ), whose correlation at a distance is
    exp(-distance / r).

    Parameters
    ----------
    length_m : (n,) array
        Of single.
    reaches_m : float
        How far a thick or thin place reaches, in metres.
    """
    return np.asarray((length_m * left_along(length_m / reaches_m)) ** 2)


def left_along(reaches: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return what is left of unevenness along a portion, as a share of its SD: (n,).

    Parameters
    ----------
    reaches : (n,) array
        Length of each portion, in reaches.
    """
    a = np.maximum(reaches, 1e-4)
    return np.asarray(np.sqrt(2 * (a - 1 + np.exp(-a)) / a**2))
