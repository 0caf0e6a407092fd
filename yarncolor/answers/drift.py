"""What hands do to a plan: which ply ends first, how far colours wander, what would help most."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.drift_helps import BAND, OFF_AT, Help, helps, told
from yarncolor.answers.spins import SPINS, Spins, spins
from yarncolor.answers.straying import straying
from yarncolor.layout.layout import Layout

HAND_M = 0.1
"""A hand's breadth, across the palm. Common practice, no source."""

_SAME = 1e-9
"""Plies whose lengths differ by less of the yarn end together."""


@dataclass(frozen=True)
class Stripes:
    """Stretches of the plan over which all plies are alike.

    Parameters
    ----------
    count : int
        How many there are.
    off : (3,) array
        How many of them have, in their middle, a ply more than a hand's breadth from another:
        so many or fewer in 5, 50 and 95 yarns of 100.
    """

    count: int
    off: NDArray[np.float64]


@dataclass(frozen=True)
class Drift:
    """What hands do to a plan.

    Parameters
    ----------
    spins : int
        How often it was spun.
    ends_first : (singles,) array
        Share of the spins in which each single ends first.
    short_by_m : (3,) array
        Planned yarn less the spin's, at 5, 50 and 95 %.
    changes_m : (changes, 2) array
        Between which places of the yarn nine spins of ten have each change of a ply, in the order
        of stretches, then plies.
    off_m : (3,) array
        How far apart places lie that the plan has together at 10, 50 and 90 % of the yarn, as a
        root mean square.
    squares_m2 : (2, 3) array
        What that is made of, as `Spins.squares_m2` has it.
    matched : (3,) array or None
        Share over which all plies are alike, at 5, 50 and 95 %; None for a chain.
    stripes : Stripes
        How matched stripes fare.
    helps : tuple of Help
        What would help, most first.
    """

    spins: int
    ends_first: NDArray[np.float64]
    short_by_m: NDArray[np.float64]
    changes_m: NDArray[np.float64]
    off_m: NDArray[np.float64]
    squares_m2: NDArray[np.float64]
    matched: NDArray[np.float64] | None
    stripes: Stripes
    helps: tuple[Help, ...]


def drift(laid: Layout, on_scale_g: NDArray[np.float64], times: int = SPINS) -> Drift | None:
    """Return what hands do to a plan; None where it does not say how they stray.

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed, N portions.
    on_scale_g : (N,) array
        What went on the scale with each portion: its own mass, or that of its heap.
    times : int
        How often it is spun.
    """
    strays = straying(laid, on_scale_g)
    if strays is None:
        return None
    spun = spins(laid, strays, times)
    as_it_is = told(spun)
    return Drift(
        spins=len(spun.length_m),
        ends_first=_ends_first(spun),
        short_by_m=as_it_is.short_by_m,
        changes_m=_changes_m(spun),
        off_m=as_it_is.off_m,
        squares_m2=spun.squares_m2(OFF_AT * laid.stretches.yarn_m),
        matched=None if spun.laid.resolved.is_chain else np.quantile(spun.matched, BAND),
        stripes=_stripes(spun),
        helps=helps(spun, strays, as_it_is),
    )


def _ends_first(spun: Spins) -> NDArray[np.float64]:
    ends = spun.plied_m <= spun.yarn_m[:, None] * (1 + _SAME)
    return np.asarray((ends / ends.sum(axis=1, keepdims=True)).mean(axis=0))


def _changes_m(spun: Spins) -> NDArray[np.float64]:
    along = spun.laid.stretches
    changes = along.lot[1:] != along.lot[:-1]
    between_m = np.empty((*changes.shape, 2))
    for ply in range(changes.shape[1]):
        own = np.flatnonzero(changes[:, ply])
        single = 0 if spun.laid.resolved.is_chain else ply
        lies_m = spun.lies_at_m(single, along.edges_m[1:-1][own])
        between_m[own, ply] = np.quantile(lies_m, (BAND[0], BAND[-1]), axis=0).T
    return np.asarray(between_m[changes])


def _stripes(spun: Spins) -> Stripes:
    along = spun.laid.stretches
    alike = (along.lot == along.lot[:, :1]).all(axis=1)
    middles_m = (along.edges_m[1:] + along.edges_m[:-1])[alike] / 2
    lowest = highest = spun.lies_at_m(0, middles_m)
    for single in range(1, len(spun.kept)):
        lies_m = spun.lies_at_m(single, middles_m)
        lowest, highest = np.minimum(lowest, lies_m), np.maximum(highest, lies_m)
    off = (highest - lowest > HAND_M).sum(axis=1)
    return Stripes(len(middles_m), np.quantile(off, BAND))
