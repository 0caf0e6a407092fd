"""Reflectance of a dyed lot, recovered from its colour, and back to colour.

References
----------
.. [1] I. Mallett and C. Yuksel, Spectral Primary Decomposition for Rendering with sRGB
   Reflectance, Eurographics Symposium on Rendering, 2019: three basis spectra, 380 to 780 nm.
.. [2] CIE 15, Colorimetry: tristimulus values from reflectance under D65, 2° observer.
.. [3] H. Otsu, M. Yamamoto and T. Hachisuka, Reproducing spectral reflectances from tristimulus
   colours, Computer Graphics Forum 37, 2018: of clusters of measured reflectances.
"""

import numpy as np
from numpy.typing import ArrayLike

from yarncolor.colour.science import (
    basis_of_measured,
    lab_from_xyz,
    linear_from_srgb,
    mallett_basis,
    shown_srgb,
    tristimulus_weights,
    xyz_from_lab,
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
    srgb, _ = shown_srgb(np.asarray(lab))
    bands: np.ndarray = np.clip(linear_from_srgb(srgb) @ mallett_basis().T, LEAST, 1)
    return bands


def smooth_reflectance_from_lab(lab: ArrayLike) -> np.ndarray:
    """Return another reflectance (n, 81) of each CIELAB colour (n, 3), like measured ones [3]_.

    Mean and three spectra of what was measured near a colour, so much of each that the colour is
    met. Strong and dark ones come back a little altered, since it is kept between black and white.

    Parameters
    ----------
    lab : (n, 3) array
        CIELAB D65, 2° observer.
    """
    xyz = xyz_from_lab(lab)
    basis, mean = basis_of_measured(xyz)
    weights = tristimulus_weights()
    share = np.linalg.solve(np.swapaxes(basis @ weights, 1, 2), (xyz - mean @ weights)[..., None])
    bands: np.ndarray = np.clip((share * basis).sum(axis=1) + mean, LEAST, 1)
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
