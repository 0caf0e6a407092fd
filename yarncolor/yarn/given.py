"""What a plan's tables say of grist, density and twist: every way that is given, the first counts.

Two ways to one quantity may both be given, so that one that contradicts the other can be told.
"""

import numpy as np

from yarncolor.plan import Fabric, PerPly, Plying, Spinning
from yarncolor.plan.spinning import AGREE
from yarncolor.units import tpm
from yarncolor.yarn.twist import twist_from_angle, twist_from_factor
from yarncolor.yarn.wraps import relaxed_density, tex_from_wraps

GRIST_WAYS = ("single_tex", "single_m_per_g", "sample", "yarn_m_per_100g", "single_wpi", "yarn_wpi")
"""Keys of the ways to the grist of the singles, in the order in which they count."""

TWIST_WAYS = ("twist_tpm", "twist_tpi", "twist_angle_deg", "twist_factor")
"""Keys of the ways to a single's twist, in the order in which they count."""


def per_ply(given: PerPly, singles: int) -> np.ndarray:
    """Return one number for each single: (singles,).

    Parameters
    ----------
    given : PerPly
        One number for all, or one for each.
    singles : int
        How many.
    """
    if isinstance(given, tuple):
        return np.array(given, dtype=float)
    return np.full(singles, float(given))


def agree(one: np.ndarray | float, other: np.ndarray | float) -> bool:
    """Return whether two values of one quantity agree well enough, in the mean over the plies.

    Parameters
    ----------
    one, other : float or (singles,) array
        Above 0.
    """
    low, high = sorted((float(np.mean(one)), float(np.mean(other))))
    return high <= low * (1 + AGREE) * (1 + 1e-9)


def single_grists(
    spinning: Spinning, singles: int, relaxed_density_g_per_cm3: float
) -> dict[str, np.ndarray]:
    """Return tex of one strand of each single by every way that speaks of the singles.

    Parameters
    ----------
    spinning : Spinning
        Table of the plan.
    singles : int
        How many.
    relaxed_density_g_per_cm3 : float
        In g/cm³, as wrapped on a ruler.

    Returns
    -------
    dict of str to (singles,) array
        By key of the plan file.
    """
    by_way = {}
    if spinning.single_tex is not None:
        by_way["single_tex"] = per_ply(spinning.single_tex, singles)
    if spinning.single_m_per_g is not None:
        by_way["single_m_per_g"] = 1000 / per_ply(spinning.single_m_per_g, singles)
    if spinning.sample is not None:
        tex = spinning.sample.mass_g / spinning.sample.length_m * 1000
        by_way["sample"] = np.full(singles, tex)
    if spinning.single_wpi is not None:
        wraps = per_ply(spinning.single_wpi, singles)
        by_way["single_wpi"] = tex_from_wraps(wraps, relaxed_density_g_per_cm3)
    return by_way


def yarn_grists(spinning: Spinning, relaxed_density_g_per_cm3: float) -> dict[str, float]:
    """Return tex of the finished yarn by every way that speaks of the yarn.

    Parameters
    ----------
    spinning : Spinning
        Table of the plan.
    relaxed_density_g_per_cm3 : float
        In g/cm³, as wrapped on a ruler.
    """
    by_way = {}
    if spinning.yarn_m_per_100g is not None:
        by_way["yarn_m_per_100g"] = 1e5 / spinning.yarn_m_per_100g
    if spinning.yarn_wpi is not None:
        by_way["yarn_wpi"] = tex_from_wraps(spinning.yarn_wpi, relaxed_density_g_per_cm3)
    return by_way


def densities(spinning: Spinning) -> dict[str, float]:
    """Return the relaxed density by every way that is given, in g/cm³."""
    by_way = {}
    if spinning.wrapped_skein is not None:
        skein = spinning.wrapped_skein
        by_way["wrapped_skein"] = relaxed_density(skein.wpi, 1e5 / skein.m_per_100g)
    if spinning.relaxed_density_g_per_cm3 is not None:
        by_way["relaxed_density_g_per_cm3"] = spinning.relaxed_density_g_per_cm3
    return by_way


def twists(
    spinning: Spinning, tex: np.ndarray, packed_density_g_per_cm3: float
) -> dict[str, np.ndarray]:
    """Return turns a metre of each single by every way that is given.

    Parameters
    ----------
    spinning : Spinning
        Table of the plan.
    tex : (singles,) array
        Of one strand.
    packed_density_g_per_cm3 : float
        In g/cm³.
    """
    singles, by_way = len(tex), {}
    if spinning.twist_tpm is not None:
        by_way["twist_tpm"] = per_ply(spinning.twist_tpm, singles)
    if spinning.twist_tpi is not None:
        by_way["twist_tpi"] = tpm(per_ply(spinning.twist_tpi, singles))
    if spinning.twist_angle_deg is not None:
        angles = zip(per_ply(spinning.twist_angle_deg, singles), tex, strict=True)
        by_way["twist_angle_deg"] = np.array(
            [twist_from_angle(*pair, packed_density_g_per_cm3) for pair in angles]
        )
    if spinning.twist_factor is not None:
        factors = zip(per_ply(spinning.twist_factor, singles), tex, strict=True)
        by_way["twist_factor"] = np.array([twist_from_factor(*pair) for pair in factors])
    return by_way


def ply_twists(plying: Plying) -> dict[str, float]:
    """Return turns a metre of yarn by every way that is given."""
    by_way = {}
    if plying.twist_tpm is not None:
        by_way["twist_tpm"] = plying.twist_tpm
    if plying.twist_tpi is not None:
        by_way["twist_tpi"] = tpm(plying.twist_tpi)
    return by_way


def finishing_ratio(plying: Plying, fabric: Fabric) -> float:
    """Return what is left of a metre of yarn, as plied, when it has rested and been washed.

    Parameters
    ----------
    plying, fabric : Plying, Fabric
        Tables of the plan: what rests, and what is washed out, of the length.
    """
    return (1 - (plying.resting_shrinkage or 0.0)) * (1 - (fabric.finishing_shrinkage or 0.0))
