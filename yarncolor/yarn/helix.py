"""How plies lie round each other: ring of plies, helix, and the length lost in plying.

References
----------
.. [1] Two-fold staple yarn, Journal of the Textile Machinery Society of Japan 14, 1961, 115: the
   form of the net take-up and the factor 1 - (U/u) cos² β. Abstract.
.. [2] Hearle, Grosberg & Backer 1969, Structural Mechanics of Fibers, Yarns, and Fabrics: the
   retraction used in it (see `twist`).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import asin, atan, cos, degrees, pi, radians, sin

from yarncolor.yarn.bisection import bisect
from yarncolor.yarn.twist import retraction, twist_angle_deg

_TOLERANCE = 1e-9


def ply_helix_radius_mm(radii_mm: Sequence[float]) -> float:
    """Return the radius of the ring on which the centres of touching plies lie, seen end on.

    Equal plies: r / sin(π/P). Unequal ones: neighbours touch and all centres lie on one circle,
    Σ asin((r_i + r_j) / 2R) = π, so that every ply is as long as the others. A thin ply beside
    two thick ones lies in the groove between them; no two plies overlap; one ply has no ring.

    Parameters
    ----------
    radii_mm : (plies,) sequence of float
        Packed radii, in the order round the yarn.
    """
    plies = len(radii_mm)
    if plies == 1:
        return 0.0
    if max(radii_mm) == min(radii_mm):
        return radii_mm[0] / sin(pi / plies)
    chords = [one + other for one, other in pairwise((*radii_mm, radii_mm[0]))]
    touching = _least_radius_mm(max(chords), lambda radius: _angles_of(chords, radius))
    widest = sum(sorted(radii_mm)[-2:])
    if touching >= widest / 2 and _widest_round(radii_mm, touching) <= 2 * pi * (1 + _TOLERANCE):
        return touching
    return _least_radius_mm(widest, lambda radius: _widest_round(radii_mm, radius))


def _least_radius_mm(widest_mm: float, angles: Callable[[float], float]) -> float:
    """Return the least radius, from half the widest chord on, at which all plies go round."""
    return bisect(lambda at: angles(at) > 2 * pi, widest_mm / 2, 12 * widest_mm)


def _angles_of(chords_mm: Sequence[float], radius_mm: float) -> float:
    return sum(2 * asin(min(1.0, chord / (2 * radius_mm))) for chord in chords_mm)


def _widest_round(radii_mm: Sequence[float], radius_mm: float) -> float:
    """Return the most angle that any choice of plies, taken in turn once round, needs.

    Thick plies may touch across a thin one between them, so that all choices count.
    """
    plies = len(radii_mm)
    need = [[_angles_of((one + other,), radius_mm) for other in radii_mm] for one in radii_mm]
    widest = 0.0
    for start in range(plies):
        reach = [0.0] * (plies + 1)
        for to in range(1, plies + 1):
            reach[to] = max(
                reach[before] + need[(start + before) % plies][(start + to) % plies]
                for before in range(to)
                if to - before < plies
            )
        widest = max(widest, reach[plies])
    return widest


def helix_angle_deg(radius_mm: float, twist_tpm: float) -> float:
    """Return the angle of a ply's centre line from the yarn's axis: tan β = 2π R U.

    Parameters
    ----------
    radius_mm : float
        Of the ring of plies, R; see `ply_helix_radius_mm`.
    twist_tpm : float
        Turns in a metre of plied yarn, U.
    """
    return degrees(atan(2 * pi * radius_mm / 1000 * twist_tpm))


def helix_contraction(angle_deg: float) -> float:
    """Return the share of a single's length that its helix takes up, at an angle β: 1 - cos β."""
    return 1 - cos(radians(angle_deg))


@dataclass(frozen=True)
class Single:
    """One single before plying.

    Parameters
    ----------
    diameter_mm : float
        Packed.
    twist_tpm : float
        Turns in a metre of single.
    opposed : bool
        Whether it is plied the other way than it was spun, as usual.
    """

    diameter_mm: float
    twist_tpm: float
    opposed: bool = True


def left_in_single_tpm(single: Single, angle_deg: float, twist_tpm: float) -> float:
    """Return turns left in a metre of single when plied: u' = u - U cos² β [1]_.

    Below 0 the single has come round the other way; plied the same way it gains instead.

    Parameters
    ----------
    single : Single
        As spun, with u turns in a metre.
    angle_deg : float
        Helix angle β of the ply.
    twist_tpm : float
        Turns in a metre of plied yarn, U.
    """
    turned = twist_tpm * cos(radians(angle_deg)) ** 2
    return single.twist_tpm - turned if single.opposed else single.twist_tpm + turned


def untwisting_contraction(single: Single, angle_deg: float, twist_tpm: float) -> float:
    """Return the net share of a twisted single's length that plying takes up.

    c = 1 - cos β · (1 - k') / (1 - k), with k the retraction [2]_ of the single before and k'
    after plying [1]_: the helix shortens it while its own untwisting lengthens it again. Below
    0 the yarn is longer than its singles.

    Parameters
    ----------
    single : Single
        As spun.
    angle_deg : float
        Helix angle β of the ply.
    twist_tpm : float
        Turns in a metre of plied yarn.
    """
    left = abs(left_in_single_tpm(single, angle_deg, twist_tpm))
    before = retraction(twist_angle_deg(single.twist_tpm, single.diameter_mm))
    after = retraction(twist_angle_deg(left, single.diameter_mm))
    return 1 - cos(radians(angle_deg)) * (1 - after) / (1 - before)


def contraction(single: Single, plies: int, twist_tpm: float) -> float:
    """Return the share of their length that equal singles lose when they are plied.

    `untwisting_contraction` on the ring of touching plies: R = d / (2 sin(π/P)), and
    tan β = 2π R U. Below 0 the yarn is longer than its singles. Idealised: below about 40° of
    twist and helix angle; a measured length is better.

    Parameters
    ----------
    single : Single
        As spun.
    plies : int
        How many, P, 2 or more.
    twist_tpm : float
        Turns in a metre of plied yarn, U.
    """
    radius_mm = ply_helix_radius_mm([single.diameter_mm / 2] * plies)
    return untwisting_contraction(single, helix_angle_deg(radius_mm, twist_tpm), twist_tpm)


def ply_spacing_mm(twist_tpm: float, plies: int) -> float:
    """Return the distance from one ply to the next along one side of the yarn: 1 / (P U).

    Parameters
    ----------
    twist_tpm : float
        Turns in a metre of plied yarn, U, above 0.
    plies : int
        How many, P.
    """
    return 1000 / (plies * twist_tpm)
