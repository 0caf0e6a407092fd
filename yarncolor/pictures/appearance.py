"""Colours along the yarn: which lot each ply shows at any metre, joins and unevenness included."""

from dataclasses import dataclass

import numpy as np

from yarncolor.layout.stretches import Stretches

JOIN_STEPS, MOTTLES = 16, 9
STAPLE_M = 0.08
"""Length over which two portions are drafted together at a join: a staple of wool."""

_PATCH_M, _TABLE = 0.12, 4096


@dataclass(frozen=True)
class ColourAt:
    """What places of the yarn show: (places,) arrays.

    Parameters
    ----------
    one, other : int arrays
        Two lots, the same away from any join.
    mix : int array
        Sixteenths of the other lot in the join, 0 to `JOIN_STEPS`.
    mottle : int array
        Unevenness within a lot, 0 (darkest) to `MOTTLES` - 1.
    """

    one: np.ndarray
    other: np.ndarray
    mix: np.ndarray
    mottle: np.ndarray


def colour_at(
    along: Stretches, ply: np.ndarray, metre: np.ndarray, *, staple_m: float = STAPLE_M, seed: int
) -> ColourAt:
    """Return what each ply shows at metres of the yarn.

    Over a staple length round each change the colours run into each other; each ply has its
    own patches of lighter and darker dye, from the seed.

    Parameters
    ----------
    along : Stretches
        Of the plied yarn.
    ply : (N,) int array
        From 0.
    metre : (N,) array
        From the start of plying; what lies beyond the yarn is taken as its nearest end.
    staple_m : float
        Length of a join; 0 cuts with a knife.
    seed : int
        Of the unevenness.
    """
    metre = np.clip(np.nan_to_num(metre), 0.0, along.yarn_m)
    one, other = np.empty(len(metre), np.intp), np.empty(len(metre), np.intp)
    mix = np.zeros(len(metre), np.intp)
    for k in range(along.lot.shape[1]):
        own = np.flatnonzero(ply == k)
        changes = np.flatnonzero(along.lot[1:, k] != along.lot[:-1, k])
        lots = np.append(along.lot[changes, k], along.lot[-1, k])
        one[own], other[own], mix[own] = _joined(
            along.edges_m[1:-1][changes], lots, metre[own], staple_m
        )
    return ColourAt(one, other, mix, unevenness_of(ply, metre, seed))


def _joined(
    edges_m: np.ndarray, lots: np.ndarray, metre: np.ndarray, staple_m: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    at = np.searchsorted(edges_m, metre, side="right")
    own = lots[at]
    if not staple_m or not len(edges_m):
        return own, own, np.zeros(len(metre), np.intp)
    half = staple_m / 2
    to_left = metre - edges_m[np.maximum(at - 1, 0)]
    to_right = edges_m[np.minimum(at, len(edges_m) - 1)] - metre
    by_left, by_right = (at > 0) & (to_left < half), (at < len(edges_m)) & (to_right < half)
    by_right &= ~by_left | (to_right < to_left)
    by_left &= ~by_right
    other = np.where(by_left, lots[np.maximum(at - 1, 0)], own)
    other = np.where(by_right, lots[np.minimum(at + 1, len(lots) - 1)], other)
    distance = np.where(by_left, to_left, np.where(by_right, to_right, half))
    mix = np.rint((0.5 - distance / staple_m) * JOIN_STEPS).astype(np.intp)
    return own, other, np.clip(mix, 0, JOIN_STEPS)


def unevenness_of(ply: np.ndarray, metre: np.ndarray, seed: int) -> np.ndarray:
    """Return patches along each ply: smooth noise, a patch about as long as a hand is wide.

    The same at the same place whatever lot is there: 0 (darkest) to `MOTTLES` - 1.

    Parameters
    ----------
    ply : (N,) int array
        From 0.
    metre : (N,) array
        From the start of plying.
    seed : int
        Of the unevenness.
    """
    noise = np.random.default_rng(seed).random(_TABLE)
    noise = noise + np.roll(noise, 1)
    at = metre / _PATCH_M + ply * 577.0
    left = np.floor(at).astype(np.intp)
    share = at - left
    value = noise[left % _TABLE] * (1 - share) + noise[(left + 1) % _TABLE] * share
    return np.clip((value * MOTTLES / 2).astype(np.intp), 0, MOTTLES - 1)
