"""Twist of a single: turns, factor, angle, and what twisting takes from its length.

References
----------
.. [1] Hearle, Grosberg & Backer 1969, Structural Mechanics of Fibers, Yarns, and Fabrics: twist
   angle and factor, contraction of idealised coaxial helices. Formulas from memory; the angle as
   an examination of textile engineers prints it, the contraction as notes of a university course
   have it of the helical model, 1 - 2 (√(1 + κ²) - 1) / κ² with κ = tan α.
.. [2] ISO 2, Textiles. Designation of the direction of twist in yarns: S and Z.
"""

from math import atan, degrees, pi, radians, sqrt, tan

from yarncolor.units import TPM_PER_TPI, diameter_mm

STEEPEST_VALID_DEG = 40.0
"""Surface angle above which the idealised helix no longer describes a yarn [1]_."""

_FACTORS = {
    "tex": 1.0,
    "cotton": TPM_PER_TPI * sqrt(590.5412),
    "worsted": TPM_PER_TPI * sqrt(885.8119),
    "metric": sqrt(1000),
}
"""Twist multipliers of the trades, each as so many tex^½·turns/m."""


def opposite(direction: str) -> str:
    """Return the other direction of twist [2]_."""
    return "S" if direction == "Z" else "Z"


def twist_factor(twist_tpm: float, linear_density_tex: float) -> float:
    """Return the twist factor τ = turns/m · √tex: alike in yarns of one angle and density [1]_.

    Parameters
    ----------
    twist_tpm : float
        Turns in a metre.
    linear_density_tex : float
        Grams in 1000 m, above 0.
    """
    return twist_tpm * sqrt(linear_density_tex)


def twist_from_factor(factor: float, linear_density_tex: float, system: str = "tex") -> float:
    """Return turns a metre of a twist factor.

    Parameters
    ----------
    factor : float
        In tex^½·turns/m, or as a multiplier of the cotton, worsted or metric system.
    linear_density_tex : float
        Of the single.
    system : str
        tex, cotton, worsted or metric.
    """
    return factor * _FACTORS[system] / sqrt(linear_density_tex)


def twist_angle_deg(twist_tpm: float, diameter_mm: float) -> float:
    """Return the angle of the surface fibres from the axis: tan α = π d u [1]_.

    Valid below about 40°, where the idealised helix no longer describes a yarn.

    Parameters
    ----------
    twist_tpm : float
        Turns in a metre, u.
    diameter_mm : float
        Of the single, packed, d.
    """
    return degrees(atan(pi * diameter_mm / 1000 * twist_tpm))


def twist_from_angle(
    angle_deg: float, linear_density_tex: float, density_g_per_cm3: float
) -> float:
    """Return turns a metre that stand at this angle on a single of this packed density [1]_.

    The inverse of `twist_angle_deg`: u = tan α / (π d), with d of `yarncolor.units.diameter_mm`.

    Parameters
    ----------
    angle_deg : float
        Of the surface fibres from the axis, below 90°; to be trusted below about 40°.
    linear_density_tex : float
        Grams in 1000 m, above 0.
    density_g_per_cm3 : float
        Packed density of the strand, in g/cm³: about 0.5 for wool.
    """
    return tan(radians(angle_deg)) / (
        pi * diameter_mm(linear_density_tex, density_g_per_cm3) / 1000
    )


def retraction(angle_deg: float) -> float:
    """Return the share of its length that an untwisted strand loses when twisted.

    R = tan²(α/2), the mean over coaxial helices of even density whose fibres keep their length
    [1]_. Valid below about 40°; used only where twist is *added to or taken from* a single that
    exists, since fibre that is drafted while it is twisted has no untwisted length.
    """
    return tan(radians(angle_deg) / 2) ** 2
