"""Dye depth: paler baths of one dye, by Kubelka and Munk.

What the model leaves out: a later bath often shifts in hue, because a dye is a mixture whose
parts go onto the fibre at different rates, and mordant-limited fibre takes up less than in
proportion. The exhaustion is the user's own; no published series was found.

References
----------
.. [1] P. Kubelka and F. Munk, Ein Beitrag zur Optik der Farbanstriche, Zeitschrift für
   technische Physik 12, 1931, 593-601: K/S = (1 - R)² / (2 R).
"""

import numpy as np
from numpy.typing import ArrayLike

from yarncolor.colour.reflectance import LEAST, lab_from_reflectance, reflectance_from_lab
from yarncolor.colour.science import ciede2000

_TRIED, _ROUNDS, _EDGE = 201, 3, 1e-3


def k_over_s(reflectance: np.ndarray) -> np.ndarray:
    """Return K/S = (1 - R)² / (2 R), which adds up in a dyebath [1]_: depth of dye.

    Parameters
    ----------
    reflectance : array
        R of an opaque layer, above 0 and at most 1.
    """
    ratio: np.ndarray = (1 - reflectance) ** 2 / (2 * reflectance)
    return ratio


def from_k_over_s(k: np.ndarray) -> np.ndarray:
    """Return R = 1 + k - sqrt(k² + 2 k), the inverse of `k_over_s` [1]_.

    Parameters
    ----------
    k : array
        K/S, 0 or more.
    """
    reflectance: np.ndarray = 1 + k - np.sqrt(k**2 + 2 * k)
    return reflectance


def later_baths_lab(
    dyed_lab: ArrayLike, undyed_lab: ArrayLike, exhaustion: float, numbers: ArrayLike
) -> np.ndarray:
    """Return CIELAB (n, 3) of baths of one dye, each fibre of the same mass.

    Each bath takes the share ``exhaustion`` of the dye that is left, so that bath n holds
    (1 - exhaustion)^(n - 1) of the dye of the first. The dye's own K/S is that of the first
    bath less the undyed fibre's; where that would be negative it is 0.

    Parameters
    ----------
    dyed_lab, undyed_lab : (3,) array
        CIELAB of the first bath and of the undyed fibre.
    exhaustion : float
        Above 0 and below 1.
    numbers : (n,) int array
        Which baths, the first being 1.

    Raises
    ------
    ValueError
        For an exhaustion or a number outside its range.
    """
    baths = np.asarray(numbers)
    if not 0 < exhaustion < 1 or (baths < 1).any():
        raise ValueError("an exhaustion lies between 0 and 1, and baths count from 1")
    return _baths_lab(dyed_lab, undyed_lab, (1 - exhaustion) ** (baths - 1.0))


def fitted_exhaustion(first_lab: ArrayLike, second_lab: ArrayLike, undyed_lab: ArrayLike) -> float:
    """Return the exhaustion whose second bath comes nearest, in CIEDE2000, to one's own.

    Parameters
    ----------
    first_lab, second_lab, undyed_lab : (3,) array
        CIELAB of the first bath, the second, and the undyed fibre.

    Raises
    ------
    ValueError
        Where the second bath is not paler than the first, or not darker than the fibre.
    """
    low, high = 0.0, 1.0
    for _ in range(_ROUNDS):
        tried = np.linspace(low, high, _TRIED)
        seen = _baths_lab(first_lab, undyed_lab, 1 - tried)
        best = int(np.argmin(ciede2000(seen, second_lab)))
        exhaustion = float(tried[best])
        low, high = tried[max(best - 1, 0)], tried[min(best + 1, _TRIED - 1)]
    if not _EDGE < exhaustion < 1 - _EDGE:
        raise ValueError("the second bath must lie between the first and the undyed fibre")
    return exhaustion


def _baths_lab(dyed_lab: ArrayLike, undyed_lab: ArrayLike, left: np.ndarray) -> np.ndarray:
    """Return CIELAB (n, 3) of fibre that holds so much of the first bath's dye."""
    fibre, dye = _fibre_and_dye(dyed_lab, undyed_lab)
    return lab_from_reflectance(np.clip(from_k_over_s(fibre + dye * left[:, None]), LEAST, 1))


def _fibre_and_dye(dyed_lab: ArrayLike, undyed_lab: ArrayLike) -> tuple[np.ndarray, np.ndarray]:
    dyed, undyed = k_over_s(reflectance_from_lab(np.array([dyed_lab, undyed_lab])))
    return undyed, np.maximum(dyed - undyed, 0)
