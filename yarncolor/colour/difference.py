"""How the plies match or marl: how far apart two colours are, in numbers, grades and words.

No published study of perceived contrast in marled yarn was found, nor a tolerance for dyed wool
in CIEDE2000. So "alike" ends where half of 175 observers no longer let two samples pass as one
colour [4]_; that was found on dental ceramics, which are pale and smooth. Where "close" and
"clear" end is judgement. The textile trade's own words for a difference are the grades of the
grey scale.

References
----------
.. [1] ISO 105-A02, Textiles. Tests for colour fastness. Grey scale for assessing change in
   colour: grades 5 to 1 at CIELAB differences 0, 0.8, 1.7, 2.5, 3.4, 4.8, 6.8, 9.6, 13.6.
.. [2] ISO 105-A05, Instrumental assessment of change in colour for determination of grey
   scale rating: clauses 7.2 and 8 as published code has them; how much chroma and hue count, and
   D, from memory. It meets [1]_ within 0.03 grade.
.. [3] S. Abasi, M. Amani Tehran and M. D. Fairchild, Distance metrics for very large color
   differences, Color Research and Application 45(2), 2020, 208-223; as the documentation of
   colour-science has it.
.. [4] R. D. Paravina and others, Color difference thresholds in dentistry, Journal of Esthetic
   and Restorative Dentistry 27, 2015, S1-S9 (abstract read; journal and pages from memory): half
   of the observers see a difference at CIEDE2000 0.8 (CIELAB 1.2) and accept one up to 1.8
   (CIELAB 2.7).
"""

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import ArrayLike

from yarncolor.colour.science import ciede2000


def hyab(lab_1: ArrayLike, lab_2: ArrayLike) -> np.ndarray:
    """Return |ΔL*| + sqrt(Δa*² + Δb*²) of CIELAB (..., 3) arrays: for large differences [3]_.

    Parameters
    ----------
    lab_1, lab_2 : (..., 3) arrays
        CIELAB D65, 2° observer.
    """
    apart = np.asarray(lab_1, dtype=float) - np.asarray(lab_2, dtype=float)
    apart_by: np.ndarray = np.abs(apart[..., 0]) + np.hypot(apart[..., 1], apart[..., 2])
    return apart_by


def grey_scale_difference(lab_1: ArrayLike, lab_2: ArrayLike) -> np.ndarray:
    """Return the grey-scale difference ΔE_F of CIELAB (..., 3) arrays [2]_.

    Chroma and hue count for less the more colourful the pair is; D ties the two together near
    blue. The hue difference bears the sign of the turn, as CIE 15 defines it, so that it does
    not matter which of the two is the original.

    Parameters
    ----------
    lab_1, lab_2 : (..., 3) arrays
        CIELAB D65, 2° observer.
    """
    one, other = np.asarray(lab_1, dtype=float), np.asarray(lab_2, dtype=float)
    light = other[..., 0] - one[..., 0]
    chroma_1, chroma_2 = (np.hypot(lab[..., 1], lab[..., 2]) for lab in (one, other))
    hue_1, hue_2 = (np.degrees(np.arctan2(lab[..., 2], lab[..., 1])) for lab in (one, other))
    turn = (hue_2 - hue_1 + 180) % 360 - 180
    chroma, mean_chroma = chroma_2 - chroma_1, (chroma_1 + chroma_2) / 2
    hue = 2 * np.sqrt(chroma_1 * chroma_2) * np.sin(np.radians(turn / 2))
    d = chroma * mean_chroma * np.exp(-_from_blue(hue_1 + turn / 2)) / 100
    chroma_f = (chroma - d) / (1 + (20 * mean_chroma / 1000) ** 2)
    hue_f = (hue - d) / (1 + (10 * mean_chroma / 1000) ** 2)
    difference: np.ndarray = np.sqrt(light**2 + chroma_f**2 + hue_f**2)
    return difference


def _from_blue(hue_deg: np.ndarray) -> np.ndarray:
    """Return x of [2]_: the squared distance of a hue angle from 280°, in units of 30°."""
    away = np.abs(hue_deg % 360 - 280)
    weight: np.ndarray = (np.minimum(away, 360 - away) / 30) ** 2
    return weight


def grey_scale_grade(difference_f: ArrayLike) -> np.ndarray:
    """Return the grey-scale grade of ΔE_F, from 5 (alike) down to 1, not rounded [2]_.

    5 - ΔE_F / 1.7 up to 3.4, from there 5 - log₂(ΔE_F / 0.85).

    Parameters
    ----------
    difference_f : array
        ΔE_F of `grey_scale_difference`, 0 or more.
    """
    apart = np.asarray(difference_f, dtype=float)
    large = 5 - np.log2(np.maximum(apart, 3.4) / 0.85)
    return np.clip(np.where(apart <= 3.4, 5 - apart / 1.7, large), 1, 5)


@dataclass(frozen=True)
class Differences:
    """Differences between any two lots, as (lots, lots) tables."""

    ciede2000: np.ndarray
    lightness: np.ndarray
    grey_scale_f: np.ndarray
    hyab: np.ndarray


def differences(lab: np.ndarray) -> Differences:
    """Return the differences between any two of n colours, given as CIELAB (n, 3).

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB D65, 2° observer.
    """
    one, other = np.triu_indices(len(lab), 1)
    return Differences(
        _table(ciede2000(lab[one], lab[other]), len(lab)),
        np.abs(lab[:, None, 0] - lab[None, :, 0]),
        _table(grey_scale_difference(lab[one], lab[other]), len(lab)),
        _table(hyab(lab[one], lab[other]), len(lab)),
    )


def _table(pairs: np.ndarray, count: int) -> np.ndarray:
    table = np.zeros((count, count))
    table[np.triu_indices(count, 1)] = pairs
    return table + table.T


@dataclass(frozen=True)
class Contrast:
    """Contrast of each stretch, of the farthest pair of plies: (S,) arrays."""

    ciede2000: np.ndarray
    lightness_range: np.ndarray
    grey_scale: np.ndarray
    hyab: np.ndarray


def contrast(lot: np.ndarray, between: Differences) -> Contrast:
    """Return the contrast of stretches, given the lots (S, plies) that lie side by side.

    Parameters
    ----------
    lot : (S, plies) int array
        Lot of each ply over each stretch.
    between : Differences
        Of any two lots.
    """
    return Contrast(
        _farthest(lot, between.ciede2000),
        _farthest(lot, between.lightness),
        grey_scale_grade(_farthest(lot, between.grey_scale_f)),
        _farthest(lot, between.hyab),
    )


def _farthest(lot: np.ndarray, table: np.ndarray) -> np.ndarray:
    farthest = np.zeros(len(lot))
    for one, other in combinations(range(lot.shape[1]), 2):
        np.maximum(farthest, table[lot[:, one], lot[:, other]], out=farthest)
    return farthest


ALIKE_BELOW = 1.8
"""CIEDE2000 up to which half of all observers let two colours pass as one [4]_."""
CLOSE_BELOW = 10.0
"""CIEDE2000 up to which neighbours blur rather than draw a line."""
LOUD_FROM = 70.0
"""HyAB from which a marl is loud: about black beside cream, or red beside navy."""

EXPLAINED = (
    "alike: passes for one colour; close: told apart side by side; clear: a line is drawn; loud: "
    "seen across the room. Alike ends where half of those asked no longer let two colours pass as "
    f"one, CIEDE2000 {ALIKE_BELOW:g} (found on ceramics, not on wool); the rest is ours: close "
    f"under {CLOSE_BELOW:g}, loud from HyAB {LOUD_FROM:g}."
)


def contrast_word(ciede2000: float, hyab: float) -> str:
    """Return alike, close, clear or loud.

    Parameters
    ----------
    ciede2000 : float
        For "do these match": made for small differences.
    hyab : float
        For "how loud": made for large ones.
    """
    if ciede2000 < ALIKE_BELOW:
        return "alike"
    if ciede2000 < CLOSE_BELOW:
        return "close"
    return "loud" if hyab >= LOUD_FROM else "clear"
