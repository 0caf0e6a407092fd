"""How far lengths, run-out and shares may stray: first-order bands from the spinner's own spread.

What strays is said in `straying`; plies stray each for itself. What is plied first has strayed
least: the spread grows away from the end where plying begins. A common fault, as a grist
misjudged on all bobbins, is not in it. Shares are counted on some hundred yarns laid out at once.
Where more strays than each portion by itself, the bands are those of many spins.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from yarncolor.answers.spins import Spins, spins
from yarncolor.answers.straying import Straying, goes_beyond_portions, ply_by_ply, straying
from yarncolor.layout.layout import Layout
from yarncolor.layout.stretches import WHOLE_PPB, sections
from yarncolor.layout.winding import Strands, as_in_the_yarn, off_order

BAND = (0.05, 0.95)
"""Nine yarns of ten lie between, spun as the plan says."""

_SEED, _FEWEST_DRAWS, _MOST_DRAWS, _MOST_DRAWN = 20, 50, 500, 200_000
_LEAST_LENGTH = 0.01
"""No portion is spun shorter than this share of its plan."""


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
    """

    low_m: float
    high_m: float
    expected_m: float
    left_m: np.ndarray
    point_sd_m: np.ndarray


def spread(laid: Layout, on_scale_g: np.ndarray) -> Spread | None:
    """Return the bands of a plan; None where it does not say how uneven the spinner spins.

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    on_scale_g : (N,) array
        What went on the scale with each portion: its own mass, or that of its heap.
    """
    strays = straying(laid, on_scale_g)
    if strays is None:
        return None
    if goes_beyond_portions(laid):
        return _of_spins(spins(laid, strays))
    kept = (1 - laid.resolved.yarn.contractions) / laid.folds
    starts, single_m = laid.portions.starts, laid.portions.single_m
    each = (np.arange(*ends) for ends in pairwise(starts))
    plied_sd_m = np.sqrt([strays.running_variance(own)[-1] for own in each]) * kept
    expected_m = expected_shortest(single_m * kept, plied_sd_m)
    low, high = shortest_quantiles(single_m * kept, plied_sd_m, np.array(BAND))
    return Spread(
        low_m=float(low),
        high_m=float(high),
        expected_m=expected_m,
        left_m=np.maximum(single_m - expected_m / kept, 0.0),
        point_sd_m=_point_sd_m(laid, strays),
    )


def _of_spins(spun: Spins) -> Spread:
    """Return the bands of a plan as many spins of it have them."""
    laid, along = spun.laid, spun.laid.stretches
    low, high = np.quantile(spun.yarn_m, BAND)
    changes = along.lot[1:] != along.lot[:-1]
    point_sd_m = np.full(changes.shape, np.nan)
    for ply in range(changes.shape[1]):
        own = changes[:, ply]
        single = 0 if laid.resolved.is_chain else ply
        point_sd_m[own, ply] = spun.lies_at_m(single, along.edges_m[1:-1][own]).std(axis=0)
    return Spread(
        low_m=float(low),
        high_m=float(high),
        expected_m=float(spun.yarn_m.mean()),
        left_m=(spun.single_m - spun.yarn_m[:, None] / spun.kept).mean(axis=0),
        point_sd_m=point_sd_m,
    )


def _point_sd_m(laid: Layout, strays: Straying) -> np.ndarray:
    along, kept = laid.stretches, (1 - laid.resolved.yarn.contractions) / laid.folds
    changes = along.lot[1:] != along.lot[:-1]
    point_sd_m = np.full(changes.shape, np.nan)
    order = off_order(laid.portions.starts, laid.resolved.wound_off)
    for ply in range(changes.shape[1]):
        single = 0 if laid.resolved.is_chain else ply
        own = order[laid.portions.of_ply(single)]
        ends = np.cumsum(laid.portions.length_m[own])
        places = along.edges_m[1:-1] / kept[single]
        sd = np.sqrt(np.interp(places, ends, strays.running_variance(own))) * kept[single]
        point_sd_m[:, ply] = np.where(changes[:, ply], sd, np.nan)
    return point_sd_m


def matched_band(laid: Layout, on_scale_g: np.ndarray) -> tuple[float, float] | None:
    """Return between which matched shares nine yarns of ten lie, spun as unevenly as the plan says.

    Where plies should change together, the first order says nothing of how far they fall
    apart; so some hundred yarns are laid out at once, from a fixed seed. None without a
    variation, and for a chain, whose loops hide its joins. Where more strays than each portion
    by itself, `Drift.matched` says it.

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    on_scale_g : (N,) array
        What went on the scale with each portion.
    """
    strays, portions = straying(laid, on_scale_g), laid.portions
    if strays is None or laid.resolved.is_chain:
        return None
    order = off_order(portions.starts, laid.resolved.wound_off)
    draws = int(np.clip(_MOST_DRAWN // len(order), _FEWEST_DRAWS, _MOST_DRAWS))
    off = strays.in_order(order)
    stray_m = off.drawn(np.random.default_rng(_SEED), draws, ply_by_ply(portions.starts))
    planned_m = portions.length_m[order]
    length_m = np.maximum(planned_m + stray_m, _LEAST_LENGTH * planned_m)
    singles = Strands(portions.starts, length_m, portions.lot[order])
    ticks, lot = sections(as_in_the_yarn(singles, laid.resolved.as_in_the_yarn))
    matched = (lot == lot[..., :1]).all(axis=-1)
    shares = (np.diff(ticks, axis=-1, prepend=0) * matched).sum(axis=-1) / WHOLE_PPB
    low, high = np.quantile(shares, BAND)
    return float(low), float(high)


_SHARES_OF_SD = np.linspace(-7.0, 7.0, 1401)


def expected_shortest(mean: np.ndarray, sd: np.ndarray) -> float:
    """Return the expected shortest of independent normal lengths.

    Of equal ones it lies 1/√π SD below the mean for two, 3/(2√π) for three.

    Parameters
    ----------
    mean, sd : (N,) arrays
        Of each length; an SD of 0 is a length that is known.
    """
    grid, longer = _chance_longer(mean, sd)
    return float(grid[0] + np.trapezoid(longer, grid))


def shortest_quantiles(mean: np.ndarray, sd: np.ndarray, chances: np.ndarray) -> np.ndarray:
    """Return lengths which the shortest stays below with these chances, 0 to 1, rising.

    Parameters
    ----------
    mean, sd : (plies,) array
        Of the length of each ply, in any one unit.
    chances : (n,) array
        Rising.
    """
    grid, longer = _chance_longer(mean, sd)
    return np.asarray(np.interp(chances, 1 - longer, grid))


def _chance_longer(mean: np.ndarray, sd: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return a grid of lengths and the chance that every one of the N is longer."""
    from scipy.special import ndtr

    if not sd.any():
        shortest = mean.min()
        return np.array([shortest, shortest + 1e-12 * max(1.0, shortest)]), np.array([1.0, 0.0])
    grid = np.unique(mean.min() + _SHARES_OF_SD * sd.max())
    known = sd == 0
    z = (grid[:, None] - mean[~known]) / sd[~known]
    longer = np.prod(ndtr(-z), axis=1) * (grid[:, None] < mean[known]).all(axis=1)
    return grid, longer
