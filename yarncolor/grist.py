"""How thick the singles are, from any one thing that the spinner knows.

Ways are tried in this order, the first that is given counts; `ways` returns all of them, so
that two that contradict each other can be told.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from yarncolor.plan import Fabric, PerPly, Plying, Spinning
from yarncolor.wraps import relaxed_density, tex_from_wraps

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


def each(given: PerPly, singles: int) -> np.ndarray:
    """Return one number for each single: (singles,)."""
    if isinstance(given, tuple):
        return np.array(given, dtype=float)
    return np.full(singles, float(given))


def agree(one: np.ndarray | float, other: np.ndarray | float) -> bool:
    """Return whether two values of one quantity agree well enough, in the mean over the plies."""
    low, high = sorted((float(np.mean(one)), float(np.mean(other))))
    return high <= low * (1 + AGREE) * (1 + 1e-9)


@dataclass(frozen=True)
class Known:
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


def ways(known: Known) -> dict[str, np.ndarray]:
    """Return tex of one strand of each single by every way that is given: (singles,) each."""
    spinning, singles = known.spinning, len(known.strands)
    found = {}
    if spinning.single_tex is not None:
        found["single_tex"] = each(spinning.single_tex, singles)
    if spinning.single_m_per_g is not None:
        found["single_m_per_g"] = 1000 / each(spinning.single_m_per_g, singles)
    if spinning.sample is not None:
        tex = spinning.sample.mass_g / spinning.sample.length_m * 1000
        found["sample"] = np.full(singles, tex)
    if spinning.yarn_m_per_100g is not None:
        found["yarn_m_per_100g"] = _from_yarn(known, 1e5 / spinning.yarn_m_per_100g)
    if spinning.single_wpi is not None:
        wraps = each(spinning.single_wpi, singles)
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


def kept_in_finishing(plying: Plying, fabric: Fabric) -> float:
    """Return what is left of a metre of yarn, as plied, when it has rested and been washed."""
    return (1 - (plying.resting_shrinkage or 0.0)) * (1 - (fabric.finishing_shrinkage or 0.0))


def _from_yarn(known: Known, finished_tex: float) -> np.ndarray:
    """Return tex of equal singles that make a finished yarn of these tex.

    T = R (1 - c) / P, with c itself a matter of T where a model gives it: found by repeating.
    """
    singles = len(known.strands)
    plied = finished_tex * kept_in_finishing(known.plying, known.fabric) / known.strands.sum()
    tex = np.full(singles, plied)
    for _ in range(_MOST_ROUNDS):
        before = tex[0]
        tex = np.full(singles, plied * (1 - known.contraction(tex)))
        if abs(tex[0] - before) <= 1e-15 * before:
            break
    return tex
