"""What stands on paper of advice: what hands can act on.

Left out is what only a plan under change can mend, or is said at its own place on the card.
"""

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import if_single_is
from yarncolor.report.advice import Advice

_FOR_THE_PLAN = {"doubled_run", "hours", "near_twins"}
_AT_ITS_PLACE = {"heap"}


def advice_on_paper(advice: list[Advice]) -> list[str]:
    """Return the texts of advice that stand on a card."""
    return [item.text for item in advice if item.kind not in _FOR_THE_PLAN | _AT_ITS_PLACE]


def no_fault(answer: Answer, advice: list[Advice]) -> str:
    """Return what a card says where there is no advice; nothing where there is some.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    advice : list of Advice
        All there is on it, on paper or not.
    """
    hangs_on = if_single_is(answer)
    if advice:
        return ""
    return f"No fault shows, {hangs_on}." if hangs_on else "Nothing to mend."
