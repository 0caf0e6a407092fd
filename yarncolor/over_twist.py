"""What a single gains that catches on the flyer hooks: more twist, less length, another balance."""

from dataclasses import dataclass, replace

from yarncolor.helix import helix_contraction, untwisting_contraction
from yarncolor.physics import Physics
from yarncolor.twist import retraction, surface_angle_deg


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


def over_twisted(yarn: Physics, excess: float) -> OverTwist | None:
    """Return what so much more twist in the singles does to length and balance.

    The single shortens from 1 - k(α) to 1 - k(α') of its untwisted length, with k the
    retraction of `yarncolor.twist.retraction`; then it is plied with the twist of the plan.

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
    planned = yarn.single
    single = replace(planned, twist_tpm=planned.twist_tpm * (1 + excess))
    before = surface_angle_deg(planned.twist_tpm, planned.diameter_mm)
    after = surface_angle_deg(single.twist_tpm, single.diameter_mm)
    drawn_in = (1 - retraction(after)) / (1 - retraction(before))
    contraction = _contraction(yarn, excess)
    balanced = replace(yarn, twist_tpm=yarn.twist_tpm * (1 + excess)).balanced_tpm.values()
    return OverTwist(
        excess=excess,
        twist_tpm=single.twist_tpm,
        angle_deg=after,
        single_length=drawn_in,
        yarn_length=drawn_in * (1 - contraction) / (1 - _contraction(yarn, 0.0)),
        contraction=contraction,
        balanced_tpm=(min(balanced), max(balanced)),
    )


def _contraction(yarn: Physics, excess: float) -> float:
    if yarn.model == "helix":
        return helix_contraction(yarn.helix_angle_deg)
    single = replace(yarn.single, twist_tpm=yarn.single.twist_tpm * (1 + excess))
    return untwisting_contraction(single, yarn.helix_angle_deg, yarn.ply_twist_tpm)
