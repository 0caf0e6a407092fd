"""Spinners' units at the edge, SI inside: exact conversions and the size of a yarn.

References
----------
.. [1] ISO 1144, Textiles. Universal system for designating linear density (Tex System).
.. [2] International yard and pound agreement, 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg.
"""

from math import pi, sqrt
from typing import TypeVar

import numpy as np

Numbers = TypeVar("Numbers", float, np.ndarray)
"""One number, or an array of them: what goes in comes out."""

METRES_PER_YARD = 0.9144
GRAMS_PER_POUND = 453.59237
MM_PER_INCH = 25.4


def m_per_100g(linear_density_tex: float) -> float:
    """Return metres in 100 g of a strand of so many tex (g per 1000 m) [1]_."""
    return 1e5 / linear_density_tex


def yd_per_lb(linear_density_tex: float) -> float:
    """Return yards in a pound of a strand of so many tex [1]_ [2]_."""
    return 1000 / linear_density_tex * GRAMS_PER_POUND / METRES_PER_YARD


def diameter_mm(linear_density_tex: float, density_g_per_cm3: float) -> float:
    """Return the diameter of a round strand of even density.

    A metre of T tex holds T/1000 g; as a cylinder of density ρ that is
    d = sqrt(4 T / (π ρ · 1000)) mm. Packed density (about 0.5) gives the strand in a
    twisted yarn, relaxed density (about 0.16) the strand as wrapped on a ruler.

    Parameters
    ----------
    linear_density_tex : float
        T, grams in 1000 m, above 0.
    density_g_per_cm3 : float
        ρ, above 0.
    """
    return sqrt(4 * linear_density_tex / (pi * density_g_per_cm3 * 1000))


def wraps_per_inch(diameter_mm: float) -> float:
    """Return how many strands of that diameter lie side by side in an inch."""
    return MM_PER_INCH / diameter_mm


TPM_PER_TPI = 1000 / MM_PER_INCH


def tpi(twist_tpm: Numbers) -> Numbers:
    """Return turns to the inch of turns to the metre.

    Parameters
    ----------
    twist_tpm : float or array
        Turns in a metre.
    """
    return twist_tpm / TPM_PER_TPI


def tpm(twist_tpi: Numbers) -> Numbers:
    """Return turns to the metre of turns to the inch.

    Parameters
    ----------
    twist_tpi : float or array
        Turns in an inch.
    """
    return twist_tpi * TPM_PER_TPI
