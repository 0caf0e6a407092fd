"""Ply twist for a yarn that hangs straight, under each of the criteria in use; none is exact.

Wool's torque fades within hours, and how much of it is set is not known beforehand: a fresh
self-plied test is the practical way, and these are where to begin.

References
----------
.. [1] Common practice, no source: two thirds of the singles' twist, for two plies.
.. [2] Twist factor on the resultant count alike in single and yarn: U/u = 1/√P. Derived.
.. [3] Outermost fibres parallel to the yarn's axis, small angles: U/u = 1 / (1 + R/r). Derived.
.. [4] Angle left in the single equal to the helix angle: U/u = 1 / (R/r + cos² β). Derived.
.. [5] Nothing lost in plying: `helix.contraction` is 0.
.. [6] Elastic rods that ply themselves freely: the least of C (tan α - sin β cos β)² +
   B sin⁴ β, bending over torsional stiffness B/C. Derived; cf. Fraser & Stump 1998, from memory.
.. [7] Textile Research Journal 2024, doi 10.1177/00405175241246269 (abstract): a counter-plied
   two-ply yarn is longer than its singles up to a ratio of twist coefficients, ply over single,
   of about 1.2. No curve of measured length lost against twist could be had.
"""

from collections.abc import Callable
from math import cos, nan, pi, radians, sin, sqrt, tan

import numpy as np

from yarncolor.plan.reference import KEYS
from yarncolor.yarn.bisection import bisect
from yarncolor.yarn.helix import Single, contraction, helix_angle_deg
from yarncolor.yarn.twist import twist_angle_deg

STIFFNESS_RATIO = 1.3
"""Bending over torsional stiffness of a solid rod; that of hand-spun yarn is not known."""

MEASURED_LATER = 1.2 / (2 / 3 * sqrt(2))
"""Ply twist at which a measured two-ply was as long as its singles, over that of the model.

1.2 as measured [7]_; small angles give 2/3 of the singles' twist, on √2 the root of tex."""

_MOST_RATIO, _SCANNED = 3.0, 300


def two_thirds(single: Single, plies: int) -> float:  # noqa: ARG001
    """Return ply twist by the spinners' rule, in turns a metre [1]_.

    Parameters
    ----------
    single : Single
        As spun.
    plies : int
        How many, 2 or more.
    """
    return single.twist_tpm * 2 / 3


def equal_factor(single: Single, plies: int) -> float:
    """Return ply twist of the same twist factor as the singles, in turns a metre [2]_.

    Parameters
    ----------
    single : Single
        As spun.
    plies : int
        How many, 2 or more.
    """
    return single.twist_tpm / sqrt(plies)


def parallel_fibres(single: Single, plies: int) -> float:
    """Return ply twist that lays the outermost fibres along the yarn, in turns a metre [3]_.

    Parameters
    ----------
    single : Single
        As spun.
    plies : int
        How many, 2 or more.
    """
    return single.twist_tpm / (1 + 1 / sin(pi / plies))


def equal_angles(single: Single, plies: int) -> float:
    """Return ply twist at which the single's own angle is that of its helix [4]_.

    Parameters
    ----------
    single : Single
        As spun.
    plies : int
        How many, 2 or more.
    """
    ring = 1 / sin(pi / plies)

    def excess(twist_tpm: float) -> float:
        flat = cos(radians(helix_angle_deg(ring * single.diameter_mm / 2, twist_tpm))) ** 2
        return twist_tpm * (ring + flat) - single.twist_tpm

    return _root(excess, single.twist_tpm)


def equal_length(single: Single, plies: int) -> float:
    """Return ply twist at which a yarn is as long as its singles [5]_, in turns a metre.

    Parameters
    ----------
    single : Single
        As spun.
    plies : int
        How many, 2 or more.
    """
    return _root(lambda twist_tpm: contraction(single, plies, twist_tpm), single.twist_tpm)


def said_too_much(single: Single, plies: int) -> float:
    """Return the share of length that the model takes where a measured yarn had lost none.

    `helix.contraction` at `MEASURED_LATER` times the ply twist of `equal_length`: the one place at
    which its error is known [7]_, found on two plies and taken over to more. 0 where nothing is
    lost at no twist.

    Parameters
    ----------
    single : Single
        As spun, and plied the other way.
    plies : int
        How many, 2 or more.
    """
    twist_tpm = MEASURED_LATER * equal_length(single, plies)
    return contraction(single, plies, twist_tpm) if np.isfinite(twist_tpm) else 0.0


def self_plied(single: Single, plies: int, stiffness_ratio: float = STIFFNESS_RATIO) -> float:
    """Return the twist of a single that is let go and plies itself; two plies only, else nan [6]_.

    Parameters
    ----------
    single : Single
        As spun.
    plies : int
        How many.
    stiffness_ratio : float
        Bending over torsional stiffness of the single, above 0.
    """
    if plies != 2:
        return nan
    alpha = tan(radians(twist_angle_deg(single.twist_tpm, single.diameter_mm)))

    def slope(angle: float) -> float:
        twisting = -2 * (alpha - sin(angle) * cos(angle)) * cos(2 * angle)
        return twisting + 4 * stiffness_ratio * sin(angle) ** 3 * cos(angle)

    angle = bisect(lambda angle: slope(angle) < 0, 0.0, pi / 4)
    return tan(angle) / (pi * single.diameter_mm / 1000)


CRITERIA: dict[str, Callable[[Single, int], float]] = {
    "two_thirds": two_thirds,
    "equal_factor": equal_factor,
    "parallel_fibres": parallel_fibres,
    "equal_angles": equal_angles,
    "equal_length": equal_length,
    "self_plied": self_plied,
}

WORDS: dict[str, str] = dict(KEYS["plying", "balance"].choices)


def balanced_tpm(single: Single, plies: int) -> dict[str, float]:
    """Return the ply twist that each criterion asks for; those that say nothing are left out.

    Nothing balances one ply, or a single that is plied the way it was spun.

    Parameters
    ----------
    single : Single
        As spun.
    plies : int
        How many, 2 or more.
    """
    if plies == 1 or not single.opposed:
        return {}
    asked = {name: of(single, plies) for name, of in CRITERIA.items()}
    return {name: twist for name, twist in asked.items() if np.isfinite(twist)}


def _root(function: Callable[[float], float], scale: float) -> float:
    """Return where a function that begins below 0 first rises through it; nan if nowhere."""
    low = 0.0
    for step in range(1, _SCANNED + 1):
        high = _MOST_RATIO * scale * step / _SCANNED
        if function(high) >= 0:
            break
        low = high
    else:
        return nan
    return bisect(lambda at: function(at) < 0, low, high)
