"""Wraps to the inch: how thick a yarn is, as far as a ruler can tell.

The same yarn gives more than twice as many wraps pushed together as laid on loosely, so that a
number of wraps means nothing without its convention. One wrapped skein of known length and
mass settles it for one spinner: that is the relaxed density.

References
----------
.. [1] T. R. Ashenhurst, 19th century: k √(yd/lb), 0.90 for worsted yarn packed to refusal, as
   weaving manuals print it.
.. [2] Weavers' ordinary wrap, about 0.7 of that; knitters' loose wrap, about half of √(yd/lb).
   Common practice, no source.
"""

from math import pi, sqrt

from yarncolor.units import MM_PER_INCH, Numbers, yd_per_lb

WRAPPING_FACTORS = {"packed": 0.90, "weavers'": 0.62, "knitters'": 0.50}
"""Wraps to the inch over √(yd/lb), by how the yarn is wrapped [1]_ [2]_."""

_DENSITY_OF_FACTOR_1 = 4000 * 496_054.65 / 1e6 / (pi * MM_PER_INCH**2)
"""g/cm³ of a yarn whose wrapping factor is 1: its density is so much times k²."""


def tex_from_wraps(wpi: Numbers, density_g_per_cm3: float) -> Numbers:
    """Return the linear density of a strand that lies so often in an inch, in tex.

    A round strand of diameter d = 25.4/wpi mm and even density ρ: T = π d² ρ · 1000 / 4.

    Parameters
    ----------
    wpi : float or array
        Wraps to the inch, above 0.
    density_g_per_cm3 : float
        Relaxed density ρ, as wrapped: about 0.16 for knitters' wraps of wool.
    """
    return pi * (MM_PER_INCH / wpi) ** 2 * density_g_per_cm3 * 1000 / 4


def relaxed_density(wpi: float, linear_density_tex: float) -> float:
    """Return the density, in g/cm³, at which a yarn of these tex lies so often in an inch.

    Parameters
    ----------
    wpi : float
        Wraps to the inch, above 0.
    linear_density_tex : float
        Grams in 1000 m of the yarn that was wrapped.
    """
    return linear_density_tex / tex_from_wraps(wpi, 1.0)


def wrapping_factor(density_g_per_cm3: float) -> float:
    """Return k = wpi / √(yd/lb) of a relaxed density: ρ = 0.978 976 k²."""
    return sqrt(density_g_per_cm3 / _DENSITY_OF_FACTOR_1)


def density_of_factor(factor: float) -> float:
    """Return the density, in g/cm³, that a wrapping factor stands for; inverse of the other."""
    return _DENSITY_OF_FACTOR_1 * factor**2


def wraps_by_convention(linear_density_tex: float) -> dict[str, float]:
    """Return wraps to the inch of one yarn by each way of wrapping it."""
    root = sqrt(yd_per_lb(linear_density_tex))
    return {way: factor * root for way, factor in WRAPPING_FACTORS.items()}
