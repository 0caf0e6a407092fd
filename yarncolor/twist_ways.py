"""Twist of singles and yarn, from any one way that a plan says it."""

import numpy as np

from yarncolor.grist import each
from yarncolor.plan import Plying, Spinning
from yarncolor.twist import tpm, twist_from_angle, twist_from_factor

WAYS = ("twist_tpm", "twist_tpi", "twist_angle_deg", "twist_factor")
"""Keys of the ways to a single's twist, in the order in which they count."""


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
    singles, found = len(tex), {}
    if spinning.twist_tpm is not None:
        found["twist_tpm"] = each(spinning.twist_tpm, singles)
    if spinning.twist_tpi is not None:
        found["twist_tpi"] = tpm(each(spinning.twist_tpi, singles))
    if spinning.twist_angle_deg is not None:
        angles = each(spinning.twist_angle_deg, singles)
        pairs = zip(angles, tex, strict=True)
        found["twist_angle_deg"] = np.array(
            [twist_from_angle(angle, density, packed_density_g_per_cm3) for angle, density in pairs]
        )
    if spinning.twist_factor is not None:
        factors = zip(each(spinning.twist_factor, singles), tex, strict=True)
        found["twist_factor"] = np.array([twist_from_factor(*pair) for pair in factors])
    return found


def ply_twists(plying: Plying) -> dict[str, float]:
    """Return turns a metre of yarn by every way that is given."""
    found = {}
    if plying.twist_tpm is not None:
        found["twist_tpm"] = plying.twist_tpm
    if plying.twist_tpi is not None:
        found["twist_tpi"] = tpm(plying.twist_tpi)
    return found
