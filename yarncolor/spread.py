"""How far lengths, run-out and shares may stray: first-order bands from the spinner's own spread.

Each portion's length strays by itself with CV² = CV_T² + CV_m²: the spread of grist between
portions, and the scale's step q as a reading error of SD q/√12. What is plied first has strayed
least: the spread grows away from the end where plying begins. Normal and independent; a common
fault, as a grist misjudged throughout, is not in it.
"""

from dataclasses import dataclass
from math import sqrt

import numpy as np

from yarncolor.contrast import colours_side_by_side
from yarncolor.layout import Layout
from yarncolor.order_statistics import expected_shortest, shortest_constant, shortest_quantiles
from yarncolor.plying import TICKS
from yarncolor.winding import STRANDS_OF_A_CHAIN, off_order

BAND = (0.05, 0.95)
"""Nine yarns of ten lie between."""

_SD_OF_BAND = 1.6448536269514722


@dataclass(frozen=True)
class Spread:
    """Bands of a plan, ready to be said.

    Parameters
    ----------
    low_m, high_m : float
        Nine yarns of ten are between so long, as plied.
    expected_m : float
        Length of yarn to expect: the shortest single counts.
    left_m : (singles,) array
        Single to expect on each bobbin when the shortest has run out.
    point_sd_m : (S - 1, plies) array
        SD of the place where each ply changes at each inner edge; NaN where it does not.
    matched_low, matched_high, matched_expected : float
        Matched share; NaN for a chain, whose loops hide its joins.
    """

    low_m: float
    high_m: float
    expected_m: float
    left_m: np.ndarray
    point_sd_m: np.ndarray
    matched_low: float
    matched_high: float
    matched_expected: float


def spread(laid: Layout, on_scale_g: np.ndarray) -> Spread | None:
    """Return the bands of a plan; None where it does not say how uneven the spinner spins.

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    on_scale_g : (N,) array
        What went on the scale with each portion: its own mass, or that of its heap.
    """
    variation = laid.settled.plan.spinning.variation
    if variation is None:
        return None
    kept = 1 - laid.settled.contraction
    sd_m = portion_sd_m(laid, on_scale_g, variation)
    starts, single_m = laid.portions.starts, laid.portions.single_m
    ply_sd_m = np.sqrt(np.add.reduceat(sd_m**2, starts[:-1]))
    expected = expected_shortest(single_m, ply_sd_m)
    low, high = shortest_quantiles(single_m, ply_sd_m, np.array(BAND))
    folds = STRANDS_OF_A_CHAIN if laid.settled.is_chain else 1
    share, share_sd = _matched(laid, sd_m)
    return Spread(
        low_m=float(low * kept / folds),
        high_m=float(high * kept / folds),
        expected_m=expected * kept / folds,
        left_m=np.maximum(single_m - expected, 0.0),
        point_sd_m=_point_sd_m(laid, sd_m),
        matched_low=max(0.0, share - _SD_OF_BAND * share_sd),
        matched_high=min(1.0, share + _SD_OF_BAND * share_sd),
        matched_expected=share,
    )


def portion_sd_m(laid: Layout, on_scale_g: np.ndarray, variation: float) -> np.ndarray:
    """Return the SD of each portion's length: (N,)."""
    reading = laid.settled.step_g / sqrt(12) / on_scale_g
    return laid.portions.length_m * np.sqrt(variation**2 + reading**2)


def _point_sd_m(laid: Layout, sd_m: np.ndarray) -> np.ndarray:
    along, kept = laid.stretches, 1 - laid.settled.contraction
    changes = along.lot[1:] != along.lot[:-1]
    found = np.full(changes.shape, np.nan)
    order = off_order(laid.portions.starts, laid.settled.wound_off)
    folds = STRANDS_OF_A_CHAIN if laid.settled.is_chain else 1
    places = along.edges_m[1:-1] / kept * folds
    for ply in range(changes.shape[1]):
        own = order[laid.portions.of_ply(0 if laid.settled.is_chain else ply)]
        ends = np.cumsum(laid.portions.length_m[own])
        variance = np.cumsum(sd_m[own] ** 2)
        sd = np.sqrt(np.interp(places, ends, variance)) * kept / folds
        found[:, ply] = np.where(changes[:, ply], sd, np.nan)
    return found


def _matched(laid: Layout, sd_m: np.ndarray) -> tuple[float, float]:
    """Return the matched share to expect, and its SD to the first order.

    An edge that n plies share falls apart: the matched stretch before it ends with the first of
    them, the one after it begins with the last, c_n SD from the mean of n.
    """
    if laid.settled.is_chain or laid.settled.physics.plies == 1:
        return (float("nan"), float("nan")) if laid.settled.is_chain else (1.0, 0.0)
    along = laid.stretches
    matched = np.append(colours_side_by_side(along.lot) == 1, False).astype(float)
    share = float(np.diff(along.ticks)[matched[:-1] == 1].sum() / TICKS)
    changes = along.lot[1:] != along.lot[:-1]
    per_edge = changes.sum(axis=1)
    sd_edge = np.sqrt(np.nanmean(_point_sd_m(laid, sd_m) ** 2, axis=1)) if len(changes) else []
    constants = np.array([shortest_constant(n) for n in range(changes.shape[1] + 1) if n] or [0.0])
    slivers = (matched[:-2] + matched[1:-1]) * constants[per_edge - 1] * sd_edge
    variance = _share_variance(laid, sd_m, (matched, changes, share))
    lost = float(slivers.sum() / along.yarn_m)
    return max(0.0, share - lost), sqrt(variance) / along.yarn_m


def _share_variance(
    laid: Layout, sd_m: np.ndarray, seen: tuple[np.ndarray, np.ndarray, float]
) -> float:
    """Return the variance of the matched length less its share of the whole, in m².

    The matched length is Σ (matched before - matched after) · edge. A piece of a ply that
    strays moves every later edge of that ply, so its weight is the sum of theirs.
    """
    matched, changes, share = seen
    along, kept = laid.stretches, 1 - laid.settled.contraction
    single_m = laid.portions.single_m
    order = off_order(laid.portions.starts, laid.settled.wound_off)
    shortest = single_m <= single_m.min() * (1 + 1e-9)
    of_edge = np.append((matched[:-2] - matched[1:-1]), matched[-2] - share)
    movers = np.vstack([changes, shortest])
    weight = of_edge / movers.sum(axis=1)
    variance = 0.0
    for ply in range(changes.shape[1]):
        own = order[laid.portions.of_ply(ply)]
        ends = np.cumsum(laid.portions.length_m[own])
        moved = movers[:, ply]
        piece = np.searchsorted(ends, along.edges_m[1:][moved] / kept - 1e-6 * along.yarn_m)
        own_weight = np.bincount(np.minimum(piece, len(own) - 1), weight[moved], len(own))
        later = np.cumsum(own_weight[::-1])[::-1]
        variance += float(((later * sd_m[own] * kept) ** 2).sum())
    return variance
