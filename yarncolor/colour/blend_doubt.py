"""How far a carded blend may come out from the colour that is reckoned for it.

No measured blend with its lots stands here. Looked for were reflectances or CIELAB of dyed fibres
and of their mixtures, in open papers on blends of coloured fibre from 1944 to 2025 and in open
data sets: what could be read prints mean differences alone. So the doubt is put together: what
trials print for this formula, on spectra that they had measured [1]_ [2]_; and what is not known
here, the constant of the lots' fibre [3]_ and the spectra behind their colours [4]_.

References
----------
.. [1] C. Wei, X. Wan and J. Li, Color prediction model for pre-colored fiber blends based on
   modified Stearns-Noechel function, Dyes and Pigments 147, 2017, 544-551 (abstract): CIEDE2000
   1.23 in the mean of 44 blends.
.. [2] Textile Research Journal 2025, doi 10.1177/00405175251397599 (abstract): 1.14 and at most
   3.51 in 87 yarns, 1.02 and at most 4.09 in 87 fabrics.
.. [3] R. Philips-Invernizzi and others 2002 (from memory, as quoted in later work): M from 0.091
   at 400 nm to 0.127 at 700 nm. R. Yang, Z. Wang and B. Pan, Silk, 2021, number 9 (abstract): 0.136
   for viscose.
.. [4] H. Otsu, M. Yamamoto and T. Hachisuka, Reproducing spectral reflectances from tristimulus
   colours, Computer Graphics Forum 37, 2018: spectra like those that were measured.
"""

import numpy as np
from numpy.typing import ArrayLike

from yarncolor.colour.carding import blended_lab, blended_reflectance
from yarncolor.colour.reflectance import lab_from_reflectance, smooth_reflectance_from_lab
from yarncolor.colour.science import ciede2000

OF_MEASURED_SPECTRA = 1.2
"""CIEDE2000 of prediction and blend in the mean of trials that measured spectra [1]_ [2]_."""

LEAST_M = 0.09
"""The least constant that is printed for a fibre [3]_; the most is that of wool, 0.15."""


def blend_doubt(
    parts: ArrayLike,
    lab: ArrayLike,
    model: str = "stearns-noechel",
    constant: float | None = None,
) -> np.ndarray:
    """Return the CIEDE2000 (k,) within which k carded blends are to be expected.

    √(d₀² + d²), with d₀ that of trials [1]_ [2]_ and d the distance to the farthest of three
    other reckonings by Stearns and Noechel: their constant for wool, the least that is printed
    [3]_, and spectra as smooth as measured ones [4]_ behind the same colours. 0 where a blend is
    of one lot alone.

    Parameters
    ----------
    parts : (k, n) array
        Parts by mass.
    lab : (n, 3) array
        CIELAB of each lot.
    model : str
        By which the blend is reckoned: stearns-noechel, friele or linear.
    constant : float, optional
        Its M or s; theirs for wool where none is given.

    Raises
    ------
    ValueError
        As `yarncolor.colour.carding.blended_reflectance`.
    """
    return doubt_of(farthest_other(parts, lab, model, constant))


def doubt_of(farthest: ArrayLike) -> np.ndarray:
    """Return how near blends may be expected, of how far other reckonings of them come out.

    Parameters
    ----------
    farthest : (k,) array
        As `farthest_other` has it; where that is NaN nothing is in doubt.
    """
    doubt = np.hypot(OF_MEASURED_SPECTRA, farthest)
    return np.where(np.isnan(doubt), 0.0, doubt)


def farthest_other(
    parts: ArrayLike,
    lab: ArrayLike,
    model: str = "stearns-noechel",
    constant: float | None = None,
) -> np.ndarray:
    """Return the d (k,) of `blend_doubt`: how far the farthest other reckoning comes out.

    NaN where a blend is of one lot alone.

    Parameters
    ----------
    parts : (k, n) array
        Parts by mass.
    lab : (n, 3) array
        CIELAB of each lot.
    model : str
        By which the blend is reckoned: stearns-noechel, friele or linear.
    constant : float, optional
        Its M or s; theirs for wool where none is given.
    """
    share, said = np.atleast_2d(np.asarray(parts, float)), blended_lab(parts, lab, model, constant)
    smooth = blended_reflectance(share, smooth_reflectance_from_lab(lab))
    others = [blended_lab(share, lab), blended_lab(share, lab, constant=LEAST_M)]
    others.append(lab_from_reflectance(smooth))
    farthest = np.max([ciede2000(said, other) for other in others], axis=0)
    is_mixed = (share > 0).sum(axis=1) > 1
    return np.where(is_mixed, farthest, np.nan)
