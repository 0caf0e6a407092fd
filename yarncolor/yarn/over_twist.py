"""What a single gains that catches on the flyer hooks: more twist, less length, another balance."""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.yarn.helix import Single, helix_contraction
from yarncolor.yarn.structure import YarnStructure, untwisting_of
from yarncolor.yarn.twist import retraction, surface_angle_deg


@dataclass(frozen=True)
class OverTwist:
    """A yarn whose singles got more twist than was planned, plied as planned.

    Parameters
    ----------
    excess : float
        Share by which the singles' twist is above the plan; below 0 for too little.
    twist_tpm : float
        Turns in a metre of single, in the mean.
    angle_deg : float
        Of its outer fibres.
    single_length : float
        Length of the single over that of the plan: added twist draws it in.
    yarn_length : float
        Length of the plied yarn over that of the plan.
    contraction : float
        Share of the single's length lost in plying.
    balanced_tpm : tuple of float
        Least and most ply twist that the criteria of balance ask for now.
    """

    excess: float
    twist_tpm: float
    angle_deg: float
    single_length: float
    yarn_length: float
    contraction: float
    balanced_tpm: tuple[float, float]


def over_twisted(yarn: YarnStructure, excess: float) -> OverTwist | None:
    """Return what so much more twist in the singles does to length and balance.

    The single shortens from 1 - k(α) to 1 - k(α') of its untwisted length, with k the
    retraction of `yarncolor.yarn.twist.retraction`; then it is plied with the twist of the plan.

    Parameters
    ----------
    yarn : Physics
        As planned.
    excess : float
        Share of the planned twist, above -1.

    Returns
    -------
    OverTwist or None
        None where the singles' twist is not known, or nothing is plied.
    """
    if yarn.single is None or yarn.helix_angle_deg is None:
        return None
    planned = yarn.strands_of_plies
    single = [replace(one, twist_tpm=one.twist_tpm * (1 + excess)) for one in planned]
    drawn_in = _length_kept(single) / _length_kept(planned)
    contraction = _contraction(yarn, single)
    balanced = replace(yarn, twist_tpm=yarn.twist_tpm * (1 + excess)).balanced_tpm.values()
    return OverTwist(
        excess=excess,
        twist_tpm=float(np.mean([one.twist_tpm for one in single])),
        angle_deg=float(np.mean([_angle_deg(one) for one in single])),
        single_length=drawn_in,
        yarn_length=drawn_in * (1 - contraction) / (1 - _contraction(yarn, planned)),
        contraction=contraction,
        balanced_tpm=(min(balanced), max(balanced)),
    )


def _contraction(yarn: YarnStructure, singles: list[Single]) -> float:
    if yarn.model == "helix":
        return helix_contraction(yarn.helix_angle_deg)
    return untwisting_of(singles, yarn.tex, (yarn.helix_angle_deg, yarn.ply_twist_tpm))


def _angle_deg(single: Single) -> float:
    return surface_angle_deg(single.twist_tpm, single.diameter_mm)


def _length_kept(singles: list[Single]) -> float:
    """Return what is left of an untwisted length, in the mean over the plies."""
    return float(np.mean([1 - retraction(_angle_deg(one)) for one in singles]))
