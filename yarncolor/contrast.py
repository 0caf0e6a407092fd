"""How the plies match or marl: colours side by side, and how far apart they are."""

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from yarncolor import grey_scale
from yarncolor.colours import ciede2000


@dataclass(frozen=True)
class Differences:
    """Differences between any two lots, as (lots, lots) tables."""

    ciede2000: np.ndarray
    lightness: np.ndarray
    grey_scale_f: np.ndarray
    hyab: np.ndarray


@dataclass(frozen=True)
class Contrast:
    """Contrast of each stretch, of the farthest pair of plies: (S,) arrays."""

    ciede2000: np.ndarray
    lightness_range: np.ndarray
    grey_scale: np.ndarray
    hyab: np.ndarray


def differences(lab: np.ndarray) -> Differences:
    """Return the differences between any two of n colours, given as CIELAB (n, 3)."""
    one, other = np.triu_indices(len(lab), 1)
    return Differences(
        _table(ciede2000(lab[one], lab[other]), len(lab)),
        np.abs(lab[:, None, 0] - lab[None, :, 0]),
        _table(grey_scale.difference_f(lab[one], lab[other]), len(lab)),
        _table(hyab(lab[one], lab[other]), len(lab)),
    )


def hyab(lab_1: np.ndarray, lab_2: np.ndarray) -> np.ndarray:
    """Return |ΔL*| + sqrt(Δa*² + Δb*²) of CIELAB (..., 3) arrays: for large differences.

    Abasi, Tehran and Fairchild, Distance metrics for very large color differences, Color
    Research and Application 45, 2020 (from memory).
    """
    apart = np.asarray(lab_1, dtype=float) - np.asarray(lab_2, dtype=float)
    return np.abs(apart[..., 0]) + np.hypot(apart[..., 1], apart[..., 2])


def contrast(lot: np.ndarray, between: Differences) -> Contrast:
    """Return the contrast of stretches, given the lots (S, plies) that lie side by side."""
    return Contrast(
        _farthest(lot, between.ciede2000),
        _farthest(lot, between.lightness),
        grey_scale.grade(_farthest(lot, between.grey_scale_f)),
        _farthest(lot, between.hyab),
    )


def colours_side_by_side(lot: np.ndarray) -> np.ndarray:
    """Return how many different lots lie side by side in (..., plies) lots: (...)."""
    ordered = np.sort(lot, axis=-1)
    return 1 + (ordered[..., 1:] != ordered[..., :-1]).sum(axis=-1)


def shares_by_colours(ticks: np.ndarray, lot: np.ndarray) -> np.ndarray:
    """Return the share of the yarn's length that shows 1, 2, … colours: (plies,).

    Parameters
    ----------
    ticks : (S + 1,) int array
        Edges of the stretches; whole numbers, so that the shares sum to 1 to the last bit.
    lot : (S, plies) int array
        Lots side by side.
    """
    by_colours = np.bincount(colours_side_by_side(lot) - 1, np.diff(ticks), lot.shape[1])
    return by_colours / by_colours.sum()


def longest_of_most_colours(ticks: np.ndarray, lot: np.ndarray) -> int:
    """Return which is the longest of the stretches that show the most colours.

    Parameters
    ----------
    ticks : (S + 1,) int array
        Edges of the stretches.
    lot : (S, plies) int array
        Lots side by side.
    """
    many = colours_side_by_side(lot)
    return int(np.where(many == many.max(), np.diff(ticks), -1).argmax())


def _farthest(lot: np.ndarray, table: np.ndarray) -> np.ndarray:
    farthest = np.zeros(len(lot))
    for one, other in combinations(range(lot.shape[1]), 2):
        np.maximum(farthest, table[lot[:, one], lot[:, other]], out=farthest)
    return farthest


def _table(pairs: np.ndarray, count: int) -> np.ndarray:
    table = np.zeros((count, count))
    table[np.triu_indices(count, 1)] = pairs
    return table + table.T
