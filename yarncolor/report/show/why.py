"""Why figures are what they are, as a notebook and a terminal show it."""

from difflib import get_close_matches

from yarncolor.answers.answer import Answer
from yarncolor.errors import Fault, PlanError
from yarncolor.phrases import capital, join_first
from yarncolor.report.show.asked import asked
from yarncolor.report.show.fragment import Fragment
from yarncolor.report.show.markup import Html, items, joined
from yarncolor.report.why.everything import every_reason
from yarncolor.report.why.reason import Reason

_LIST = "list-style:none;padding-left:0;margin:.2em 0 .8em"
_MOST_NAMED = 5
_Told = dict[str, dict[str, Reason]]


def show_why(answer: Answer, figure: str = "") -> Fragment:
    """Return why figures are what they are: formula with numbers, where from, what is surer.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    figure : str
        One figure as tables call it, "wraps to the inch", or what several are about, "hours";
        all where it is empty.

    Raises
    ------
    PlanError
        Where no figure is called so.
    """
    told = _of(every_reason(answer), figure)
    each = [
        joined((Html("<h4>{}</h4>").format(capital(about)), _listed(answer, reasons)))
        for about, reasons in told.items()
    ]
    return Fragment(joined(each), why_text(answer, told))


def why_text(answer: Answer, told: _Told | None = None) -> str:
    """Return the same for a terminal: every figure with its lines below.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    told : dict of str to dict of str to Reason, optional
        What is told; every reason where it is left out.
    """
    lines = ["Why"]
    for about, reasons in (told or every_reason(answer)).items():
        lines += ["", capital(about)]
        for words, reason in reasons.items():
            lines += [f"  {words}", *(f"    {line}" for line in reason.lines(answer.say))]
    return "\n".join(lines)


def _listed(answer: Answer, reasons: dict[str, Reason]) -> Html:
    each = (asked(words, reason, answer.say) for words, reason in reasons.items())
    return Html('<ul style="{}">{}</ul>').format(_LIST, items(each))


def _of(told: _Told, figure: str) -> _Told:
    if not figure:
        return told
    if figure in told:
        return {figure: told[figure]}
    found = {about: {figure: own[figure]} for about, own in told.items() if figure in own}
    if not found:
        raise PlanError([_unknown(told, figure)])
    return found


def _unknown(told: _Told, figure: str) -> Fault:
    names = [*told, *dict.fromkeys(words for own in told.values() for words in own)]
    near = get_close_matches(figure, names, cutoff=0.3) or names
    likely = join_first([f"“{name}”" for name in near], _MOST_NAMED)
    return Fault("", "figure", repr(figure), f"is no figure of this plan; it may be {likely}")
