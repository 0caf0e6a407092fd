"""Why numbers of yarns that lie side by side are what they are, each of every yarn."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.marl import contrast_words
from yarncolor.layout.stretches import colours_side_by_side
from yarncolor.measures import METRIC
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.colours import CALLED
from yarncolor.report.why.equation import Working
from yarncolor.report.why.hands import matched_reason
from yarncolor.report.why.reason import Reason, Source, Whys
from yarncolor.report.why.stash import left_whys
from yarncolor.report.why.yarn import length_reason, thickness_reason

_CHANGES = "places of the yarn at which at least one ply changes colour"
_CLASS = "the class that charts of makers and shops give to these wraps, or to this gauge"
_FIRST = "what each ply shows at that end"


def compared_whys(plans: Mapping[str, Answer], most_colours: int) -> Whys:
    """Return the reasons for each number of yarns side by side, with the lines of all yarns.

    Parameters
    ----------
    plans : mapping of str to Answer
        Each under what it is called.
    most_colours : int
        The most colours that lie side by side in any.
    """
    counts = range(2, most_colours + 1)
    rows = {words: _of_all(plans, of) for words, of in _ROWS.items()}
    for count in counts:
        many = f"{count} colours side by side"
        rows[many] = _of_all(plans, partial(many_reason, count=count))
    measures = next(iter(plans.values())).say if plans else METRIC
    return Whys(rows=rows, measures=measures, column=0)


def shorter_reason(plans: Mapping[str, Answer]) -> Reason:
    """Return why yarns are shorter by so much than the longest.

    Parameters
    ----------
    plans : mapping of str to Answer
        Each under what it is called.
    """
    lengths_m = {name: answer.layout.stretches.yarn_m for name, answer in plans.items()}
    longest_m = max(lengths_m.values())
    lines = tuple(
        Working(by.LONGER, {"longest_m": longest_m, "shorter_m": length_m}, name)
        for name, length_m in lengths_m.items()
        if length_m < longest_m
    )
    reason = _of_all(plans, length_reason)
    return replace(reason, figure="shorter by", workings=lines)


def _of_all(plans: Mapping[str, Answer], of: Callable[[Answer], Reason]) -> Reason:
    """Return one reason with the lines of every yarn, each under its name."""
    each = {name: of(answer) for name, answer in plans.items()}
    lines = tuple(
        replace(working, of=", ".join(filter(None, (name, working.of))))
        for name, reason in each.items()
        for working in reason.workings
    )
    rests_on = sources.unlike(one for reason in each.values() for one in reason.rests_on)
    return replace(next(iter(each.values())), workings=lines, rests_on=rests_on)


def many_reason(answer: Answer, count: int) -> Reason:
    """Return why so many colours lie side by side over a share of a yarn.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    count : int
        How many, 2 or more.
    """
    along = answer.layout.stretches
    return _share(answer, f"{count} colours", colours_side_by_side(along.lot) == count, "")


def marl_reason(answer: Answer, word: str) -> Reason:
    """Return why a yarn's marl is called so over a share of its length.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    word : str
        loud, clear, close or alike.
    """
    is_so = np.array([one == word for one in contrast_words(answer)], np.bool_)
    return _share(answer, f"{word} over", is_so, CALLED)


def _share(answer: Answer, figure: str, shows: np.ndarray, method: str) -> Reason:
    """Return why a yarn shows something over a share of its length."""
    along = answer.layout.stretches
    shows_m = float(np.diff(along.edges_m)[shows].sum())
    line = Working(by.SHOWS, {"shows_m": shows_m, "yarn_m": along.yarn_m})
    return Reason(figure, _laid(answer), (line,), method)


def _laid(answer: Answer) -> tuple[Source, ...]:
    """Return what everything rests on that is seen along a yarn."""
    return (sources.order(answer), sources.masses(answer), sources.colours(answer))


def _left(answer: Answer) -> Reason:
    return left_whys(answer).heads["left over"]


def _wraps(answer: Answer) -> Reason:
    return thickness_reason(answer, "wraps to the inch")


def class_reason(answer: Answer) -> Reason:
    """Return why a yarn is sold under such a name."""
    rests_on = (sources.grist(answer), sources.ruler_density(answer), sources.wash(answer))
    return Reason("on a shop’s label", rests_on, (), _CLASS)


_ROWS: dict[str, Callable[[Answer], Reason]] = {
    "yarn": length_reason,
    "matched": matched_reason,
    "loudest marl": lambda answer: Reason("loudest marl", _laid(answer), (), CALLED),
    "loud over": partial(marl_reason, word="loud"),
    "changes of colour": lambda answer: Reason("changes", _laid(answer), (), _CHANGES),
    "left over": _left,
    "wraps to the inch": _wraps,
    "on a shop's label": class_reason,
    "plying begins with": lambda answer: Reason("begins with", _laid(answer), (), _FIRST),
    "the yarn ends with": lambda answer: Reason("ends with", _laid(answer), (), _FIRST),
}
