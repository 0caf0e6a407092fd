"""Yarns of small plans, and their formulas written out anew.

d = √(4 T / (π ρ 1000)) mm, R = r / sin(π/P), tan β = 2π R U, u' = u - U cos² β, k = tan²(α/2),
c = 1 - cos β (1 - k') / (1 - k).
"""

from math import atan, cos, pi, radians, sin, sqrt, tan

import yarncolor as yc
from tests.helpers.strategies import answered, by_hand
from yarncolor.yarn.structure import YarnStructure, yarn_structure

MM1_TEX = pi / 4 * 500
"""Tex of a single of 1 mm at 0.5 g/cm³."""

SHRINKING = {"finishing_shrinkage": 0.08}
TWO = {"name": "matched", "plies": 2}
THREE = {"name": "matched", "plies": 3}
FOUR = {"name": "matched", "plies": 4}
CHAIN = {"name": "chain"}
SCHEMES = {
    "one ply": {"plies": 1},
    "two": TWO,
    "three": THREE,
    "chain": CHAIN,
    "seven": {"name": "matched", "plies": 7},
}
SPUN, PLIED = {"twist_tpm": 300.0}, {"twist_tpm": 190.0}


def plan_of(**tables) -> dict:
    return by_hand({"Kelp": 30.0, "Foam": 30.0}, **tables)


def yarn_of(**tables) -> dict:
    """Return the yarn of a plan of two lots, as it stands in ``plan.json``."""
    return answered(plan_of(**tables))["yarn"]


def body_of(**tables) -> YarnStructure:
    return yarn_structure(yc.plan_from_data(plan_of(**tables)))


def diameter(tex: float, density: float = 0.5) -> float:
    return sqrt(4 * tex / (pi * density * 1000))


def turns_at(angle_deg: float, tex: float) -> float:
    """Return turns a metre of a single of 0.5 g/cm³ whose outer fibres stand at an angle."""
    return tan(radians(angle_deg)) / (pi * diameter(tex) / 1000)


def lost_by_helix(tex: float, plies: int, ply_twist: float) -> float:
    ring_m = diameter(tex) / 2 / sin(pi / plies) / 1000
    return 1 - cos(atan(2 * pi * ring_m * ply_twist))


def lost_by_untwisting(
    tex: float, plies: int, twist: float, ply_twist: float, opposed: bool = True
) -> float:
    """Return the net length lost of equal singles of 0.5 g/cm³."""
    wide_m = diameter(tex) / 1000
    flat = cos(atan(2 * pi * wide_m / 2 / sin(pi / plies) * ply_twist))
    left = abs(twist - ply_twist * flat**2 * (1 if opposed else -1))
    k, k_left = (tan(atan(pi * wide_m * turns) / 2) ** 2 for turns in (twist, left))
    return 1 - flat * (1 - k_left) / (1 - k)
