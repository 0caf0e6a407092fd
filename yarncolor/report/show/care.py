"""What a notebook shows of twist that is seen in the yarn."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.care import LOOPS, twist_seen
from yarncolor.cautions import FLYER
from yarncolor.errors import Fault, PlanError, in_range, suggestion
from yarncolor.report.care_words import hook_lines, loop_lines, twist_lines
from yarncolor.report.show.fragment import Fragment, sentences


def show_care(
    answer: Answer,
    bumps: float | None = None,
    over_cm: float = 10.0,
    loop: str = "",
    *,
    catches: bool = False,
) -> Fragment:
    """Return what to do about twist that is seen in the yarn.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    bumps : float, optional
        Plies that come up along one side of the yarn, counted.
    over_cm : float
        Over so much yarn, 1 to 100.
    loop : str
        How a loop of fresh yarn hangs: straight, wound round itself with the ply, or against it.
    catches : bool
        Whether the yarn catches on hooks.
    """
    in_range("over_cm", over_cm, 1, 100, "cm")
    if loop and loop not in LOOPS:
        raise PlanError(
            [Fault("", "loop", loop, f"give one of {', '.join(LOOPS)}{suggestion(loop, LOOPS)}")]
        )
    told: list[str] = []
    if bumps is not None:
        in_range("bumps", bumps, 1, 1000, "bumps")
        seen = twist_seen(answer, bumps, over_cm)
        told += ["A single has no ply twist."] if seen is None else twist_lines(answer, seen)
    told += [*loop_lines(loop), *hook_lines(catches=catches)]
    return sentences(*(told or ["Nothing was looked at."]), FLYER)
