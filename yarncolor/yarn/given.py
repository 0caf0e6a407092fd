"""How thick and how twisted the singles are, from any one way a plan says it, and how it is known.

Ways are tried in this order, the first that is given counts; `grist_candidates` returns all of
them, so that two that contradict each other can be told.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from yarncolor.plan import Fabric, PerPly, Plying, Spinning
from yarncolor.units import tpm
from yarncolor.yarn.twist import twist_from_angle, twist_from_factor
from yarncolor.yarn.wraps import relaxed_density, tex_from_wraps

AGREE = 0.10
"""Two ways to one quantity may differ by so much of the smaller."""

SOURCES = {
    "single_tex": "given",
    "single_m_per_g": "given",
    "sample": "measured",
    "yarn_m_per_100g": "derived",
    "single_wpi": "derived",
    "yarn_wpi": "derived",
}
_MOST_ROUNDS = 200


def per_ply(given: PerPly, singles: int) -> np.ndarray:
    """Return one number for each single: (singles,)."""
    if isinstance(given, tuple):
        return np.array(given, dtype=float)
    return np.full(singles, float(given))


def agree(one: np.ndarray | float, other: np.ndarray | float) -> bool:
    """Return whether two values of one quantity agree well enough, in the mean over the plies."""
    low, high = sorted((float(np.mean(one)), float(np.mean(other))))
    return high <= low * (1 + AGREE) * (1 + 1e-9)


@dataclass(frozen=True)
class GristInputs:
    """What a plan says of the grist.

    Parameters
    ----------
    spinning, plying, fabric : Spinning, Plying, Fabric
        Tables of the plan.
    strands : (singles,) int array
        Strands of single on each ply; for a chain three in one.
    relaxed_density_g_per_cm3 : float
        In g/cm³.
    contraction : callable
        Tex of each single to the share of length lost in plying.
    """

    spinning: Spinning
    plying: Plying
    fabric: Fabric
    strands: np.ndarray
    relaxed_density_g_per_cm3: float
    contraction: Callable[[np.ndarray], float]


def grist_candidates(known: GristInputs) -> dict[str, np.ndarray]:
    """Return tex of one strand of each single by every way that is given: (singles,) each."""
    spinning, singles = known.spinning, len(known.strands)
    found = {}
    if spinning.single_tex is not None:
        found["single_tex"] = per_ply(spinning.single_tex, singles)
    if spinning.single_m_per_g is not None:
        found["single_m_per_g"] = 1000 / per_ply(spinning.single_m_per_g, singles)
    if spinning.sample is not None:
        tex = spinning.sample.mass_g / spinning.sample.length_m * 1000
        found["sample"] = np.full(singles, tex)
    if spinning.yarn_m_per_100g is not None:
        found["yarn_m_per_100g"] = _from_yarn(known, 1e5 / spinning.yarn_m_per_100g)
    if spinning.single_wpi is not None:
        wraps = per_ply(spinning.single_wpi, singles)
        found["single_wpi"] = tex_from_wraps(wraps, known.relaxed_density_g_per_cm3)
    if spinning.yarn_wpi is not None:
        tex = tex_from_wraps(spinning.yarn_wpi, known.relaxed_density_g_per_cm3)
        found["yarn_wpi"] = _from_yarn(known, tex)
    return found


def densities(spinning: Spinning) -> dict[str, float]:
    """Return the relaxed density by every way that is given, in g/cm³."""
    found = {}
    if spinning.wrapped_skein is not None:
        skein = spinning.wrapped_skein
        found["wrapped_skein"] = relaxed_density(skein.wpi, 1e5 / skein.m_per_100g)
    if spinning.relaxed_density_g_per_cm3 is not None:
        found["relaxed_density_g_per_cm3"] = spinning.relaxed_density_g_per_cm3
    return found


def finishing_ratio(plying: Plying, fabric: Fabric) -> float:
    """Return what is left of a metre of yarn, as plied, when it has rested and been washed."""
    return (1 - (plying.resting_shrinkage or 0.0)) * (1 - (fabric.finishing_shrinkage or 0.0))


def _from_yarn(known: GristInputs, finished_tex: float) -> np.ndarray:
    """Return tex of equal singles that make a finished yarn of these tex.

    T = R (1 - c) / P, with c itself a matter of T where a model gives it: found by repeating.
    """
    singles = len(known.strands)
    plied = finished_tex * finishing_ratio(known.plying, known.fabric) / known.strands.sum()
    tex = np.full(singles, plied)
    for _ in range(_MOST_ROUNDS):
        before = tex[0]
        tex = np.full(singles, plied * (1 - known.contraction(tex)))
        if abs(tex[0] - before) <= 1e-15 * before:
            break
    return tex


def given_or_assumed(value: object) -> str:
    """Return how a number is known that is given or stands in a table of defaults."""
    return "assumed" if value is None else "given"


def density_source(spinning: Spinning) -> str:
    """Return how the relaxed density is known: by a wrapped skein, given, or assumed."""
    found = densities(spinning)
    if not found:
        return "assumed"
    return "measured" if "wrapped_skein" in found else "given"


def twist_source(spinning: Spinning, twist: np.ndarray | None) -> str | None:
    """Return how the singles' twist is known; None where it is not."""
    if twist is None:
        return None
    direct = spinning.twist_tpm is not None or spinning.twist_tpi is not None
    return "given" if direct else "derived"


def ply_twist_source(plying: Plying, twist_tpm: float | None) -> str | None:
    """Return how the ply twist is known; None where it is not."""
    if twist_tpm is None:
        return None
    return "given" if ply_twists(plying) else "derived"


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
        found["twist_tpm"] = per_ply(spinning.twist_tpm, singles)
    if spinning.twist_tpi is not None:
        found["twist_tpi"] = tpm(per_ply(spinning.twist_tpi, singles))
    if spinning.twist_angle_deg is not None:
        angles = per_ply(spinning.twist_angle_deg, singles)
        pairs = zip(angles, tex, strict=True)
        found["twist_angle_deg"] = np.array(
            [twist_from_angle(angle, density, packed_density_g_per_cm3) for angle, density in pairs]
        )
    if spinning.twist_factor is not None:
        factors = zip(per_ply(spinning.twist_factor, singles), tex, strict=True)
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
