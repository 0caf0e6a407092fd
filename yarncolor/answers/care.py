"""What plied yarn shows of its twist: counted on it, and by a loop that hangs free."""

from dataclasses import dataclass, replace

from yarncolor.answers.answer import Answer

AS_PLANNED = 0.10
"""A ply twist that is off by no more than this part is as planned."""

STRAIGHT, WITH_THE_PLY, AGAINST_IT = "straight", "with", "against"
LOOPS = (STRAIGHT, WITH_THE_PLY, AGAINST_IT)
"""How a loop of fresh yarn hangs: open, or wound round itself the way of the plying or not."""


@dataclass(frozen=True)
class TwistSeen:
    """The ply twist as counted beside the one that was planned.

    Parameters
    ----------
    found_tpm : float
        Turns in a metre of yarn, as counted.
    planned_tpm : float or None
        As planned; None where that is not known.
    shorter : float or None
        Share of the yarn's length that bringing it to the plan takes, below 0 gives; None where
        no model says so.
    """

    found_tpm: float
    planned_tpm: float | None
    shorter: float | None

    @property
    def lacks_tpm(self) -> float:
        """Turns that each metre lacks; below 0 has too many; 0 where none are planned."""
        return 0.0 if self.planned_tpm is None else self.planned_tpm - self.found_tpm

    @property
    def is_as_planned(self) -> bool:
        """Whether it is off by hardly anything."""
        planned_tpm = self.planned_tpm or self.found_tpm
        return abs(self.lacks_tpm) <= AS_PLANNED * planned_tpm * (1 + 1e-9)


def twist_seen(answer: Answer, bumps: float, over_cm: float) -> TwistSeen | None:
    """Return the ply twist from bumps counted along one side; None of a yarn that is not plied.

    Along one side of the yarn each ply comes up once in a turn.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    bumps : float
        Plies that come up along one side.
    over_cm : float
        Over so much yarn.
    """
    yarn = answer.resolved.yarn
    if yarn.plies == 1:
        return None
    found_tpm = bumps / yarn.plies / over_cm * 100
    return TwistSeen(found_tpm, yarn.ply_twist_tpm, _shorter(answer, found_tpm))


def _shorter(answer: Answer, found_tpm: float) -> float | None:
    """Return the share of length that the planned twist takes of yarn that has another."""
    yarn = answer.resolved.yarn
    by_model = replace(yarn, ply_twist_tpm=found_tpm).contraction_by_model
    model = "untwisting" if "untwisting" in by_model else "helix"
    if yarn.ply_twist_tpm is None or model not in by_model:
        return None
    return 1 - (1 - yarn.contraction_by_model[model]) / (1 - by_model[model])
