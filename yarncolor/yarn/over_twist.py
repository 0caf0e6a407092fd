"""What a single gains that catches on the flyer hooks: more twist, less length, another balance."""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.yarn.structure import YarnStructure
from yarncolor.yarn.twist import retraction, twist_angle_deg


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
    yarn : YarnStructure
        As planned.
    excess : float
        Share of the planned twist, above -1.

    Returns
    -------
    OverTwist or None
        None where the singles' twist is not known, nothing is plied, or no ply twist balances
        singles that are plied the way they were spun.
    """
    if yarn.twist_tpm is None or yarn.ply_twist_tpm is None or not yarn.balanced_tpm:
        return None
    got = replace(yarn, twist_tpm=yarn.twist_tpm * (1 + excess))
    drawn_in = _length_kept(got) / _length_kept(yarn)
    model = "helix" if yarn.model == "helix" else "untwisting"
    planned, contraction = (one.contraction_by_model[model] for one in (yarn, got))
    balanced = got.balanced_tpm.values()
    return OverTwist(
        excess=excess,
        twist_tpm=float(np.mean([one.twist_tpm for one in got.each_single])),
        angle_deg=float(np.mean(_angles_deg(got))),
        single_length=drawn_in,
        yarn_length=drawn_in * (1 - contraction) / (1 - planned),
        contraction=contraction,
        balanced_tpm=(min(balanced), max(balanced)),
    )


def _angles_deg(yarn: YarnStructure) -> list[float]:
    return [twist_angle_deg(one.twist_tpm, one.diameter_mm) for one in yarn.each_single]


def _length_kept(yarn: YarnStructure) -> float:
    """Return what is left of an untwisted length of single, in the mean over the plies."""
    return float(np.mean([1 - retraction(angle) for angle in _angles_deg(yarn)]))
