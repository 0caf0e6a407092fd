"""How lengths of portions stray, from what a spinner says of their own hands.

A portion's length strays by the sum of four things, each normal:

- grist between portions, CV `variation`; neighbours on a ply are alike by `variation_drift`, two
  portions n places apart by its nth power;
- grist along a portion, CV `variation_within`, alike at a distance x by exp(-x/reach), where the
  reach is `variation_reach_m`: of a portion a reaches long CV² · 2 (a - 1 + e⁻ᵃ) / a² is left;
- whole bobbins, CV `variation_bobbins`, one for each single;
- the scale's step q, an error of SD q/√12 of what was weighed.
"""

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import REACH_M
from yarncolor.layout.layout import Layout


@dataclass(frozen=True)
class Straying:
    """How the lengths of N portions stray.

    Parameters
    ----------
    drifting_m : (N,) array
        SD that neighbours on a ply share by `drift`.
    own_m : (N,) array
        SD of each by itself.
    bobbin_m : (N,) array
        SD that all portions of a single share wholly.
    drift : float
        Correlation of neighbours, 0 to 1.
    """

    drifting_m: NDArray[np.float64]
    own_m: NDArray[np.float64]
    bobbin_m: NDArray[np.float64]
    drift: float

    def in_order(self, order: NDArray[np.int64]) -> "Straying":
        """Return the same portions in another order, each ply's turned round or not.

        Parameters
        ----------
        order : (N,) int array
            Indices of portions, in the order of coming off.
        """
        return Straying(self.drifting_m[order], self.own_m[order], self.bobbin_m[order], self.drift)

    def running_variance(self, order: NDArray[np.int64]) -> NDArray[np.float64]:
        """Return the variance of the length up to the end of each portion of one single.

        Parameters
        ----------
        order : (n,) int array
            Indices of portions, in the order of coming off.
        """
        drifting = self.drifting_m[order]
        alone = drifting**2 + self.own_m[order] ** 2
        before = _drifted(np.append(0.0, drifting[:-1]) * self.drift, self.drift)
        together = 2 * drifting * before if self.drift else 0.0
        of_bobbin = np.cumsum(self.bobbin_m[order]) ** 2
        return np.asarray(np.cumsum(alone + together) + of_bobbin)

    def drawn(
        self, rng: np.random.Generator, draws: int, starts: NDArray[np.int64]
    ) -> NDArray[np.float64]:
        """Return by how much each portion strays in so many yarns, in metres: (draws, N).

        Parameters
        ----------
        rng : Generator
            Of what is drawn.
        draws : int
            How many yarns.
        starts : (plies + 1,) int array
            Index of each ply's first portion.
        """
        shape = (draws, len(self.own_m))
        first = rng.standard_normal(shape)
        if not self.drift and not self.bobbin_m.any():
            return np.asarray(first * np.hypot(self.drifting_m, self.own_m))
        plies = range(len(starts) - 1)
        each = [self._along(first[:, starts[k] : starts[k + 1]]) for k in plies]
        own = rng.standard_normal(shape) * self.own_m
        bobbins = rng.standard_normal((draws, len(plies)))
        whole = np.repeat(bobbins, np.diff(starts), axis=1) * self.bobbin_m
        return np.asarray(np.concatenate(each, axis=1) * self.drifting_m + own + whole)

    def _along(self, by_itself: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return draws (draws, n) in which neighbours are alike by the drift."""
        new = by_itself * sqrt(1 - self.drift**2)
        new[:, :1] = by_itself[:, :1]
        return _drifted(new, self.drift)


def _drifted(new: NDArray[np.float64], drift: float) -> NDArray[np.float64]:
    """Return running sums along the last axis of which each keeps so much of the one before."""
    from scipy.signal import lfilter

    return np.asarray(lfilter([1.0], [1.0, -drift], new, axis=-1))


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
    if hands.variation is hands.variation_within is hands.variation_bobbins is None:
        return None
    length_m = laid.portions.length_m
    if laid.wheel is not None:
        length_m = np.where(laid.wheel.is_measured, 0.0, length_m)
    reach_m = REACH_M if hands.variation_reach_m is None else hands.variation_reach_m
    within = (hands.variation_within or 0.0) * _left_along(laid.portions.length_m / reach_m)
    reading = laid.resolved.step_g / sqrt(12) / on_scale_g
    return Straying(
        drifting_m=length_m * (hands.variation or 0.0),
        own_m=length_m * np.hypot(within, reading),
        bobbin_m=length_m * (hands.variation_bobbins or 0.0),
        drift=hands.variation_drift or 0.0,
    )


def _left_along(reaches: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return what is left of unevenness along a portion so many reaches long, as a share of SD."""
    a = np.maximum(reaches, 1e-4)
    return np.asarray(np.sqrt(2 * (a - 1 + np.exp(-a)) / a**2))
