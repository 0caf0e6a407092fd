"""Reflectance of a dyed lot, recovered from its colour, and back to colour.

References
----------
.. [1] I. Mallett and C. Yuksel, Spectral Primary Decomposition for Rendering with sRGB
   Reflectance, Eurographics Symposium on Rendering, 2019: three basis spectra, 380 to 780 nm.
.. [2] CIE 15, Colorimetry: tristimulus values from reflectance under D65, 2° observer.
"""

import numpy as np
from numpy.typing import ArrayLike

from yarncolor.colour.science import (
    lab_from_xyz,
    linear_from_srgb,
    mallett_basis,
    shown_srgb,
    tristimulus_weights,
)

LEAST = 1e-3
"""No wool is blacker than this; it also keeps every K/S and every blend finite."""


def reflectance_from_lab(lab: ArrayLike) -> np.ndarray:
    """Return one reflectance (n, 81), 380 to 780 nm by 5, that has each CIELAB colour (n, 3).

    One of many: it cannot tell how the colour changes in another light. A colour outside sRGB
    is taken as the nearest that a screen can show, since the basis knows no other [1]_.

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB D65, 2° observer.
    """
    srgb, _ = shown_srgb(np.asarray(lab, dtype=float))
    bands: np.ndarray = np.clip(linear_from_srgb(srgb) @ mallett_basis().T, LEAST, 1)
    return bands


def lab_from_reflectance(reflectance: np.ndarray) -> np.ndarray:
    """Return CIELAB (n, 3) of reflectances (n, 81) in D65 for the 2° observer [2]_.

    Parameters
    ----------
    reflectance : (n, 81) array
        0 to 1, 380 to 780 nm by 5.
    """
    weights = tristimulus_weights()
    return lab_from_xyz(reflectance @ weights, weights.sum(axis=0))
