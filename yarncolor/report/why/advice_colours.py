"""Why it is told so that lots are alike, not sure, or lost to some eyes: pairs, counts, limits."""

from collections.abc import Iterator, Sequence

from yarncolor.answers.answer import Answer
from yarncolor.answers.near_twins import (
    TWINS_BELOW,
    Twins,
    lost_to_other_eyes,
    near_twins,
    unsure_contrasts,
)
from yarncolor.colour.colour_vision import DEFICIENCIES
from yarncolor.colour.difference import ALIKE_BELOW, CLOSE_BELOW
from yarncolor.phrases import EYES
from yarncolor.report.advice import MOST_PAIRS
from yarncolor.report.why import equations_of_advice as told_by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source

_ALIKE = f"used lots under CIEDE2000 {ALIKE_BELOW:g}, steps of a gradient aside; the nearest first"
_CLOSE = f"used lots from CIEDE2000 {ALIKE_BELOW:g} to {TWINS_BELOW:g}, steps of a gradient aside"
_UNSURE = (
    f"used lots from CIEDE2000 {TWINS_BELOW:g} to that by which their difference may be out: the "
    "root of the sum of the squares of both"
)
_LOST = "used lots from CIEDE2000 {close:g} to most eyes, and under {twins:g} to {eyes}"
_SURER = "photograph both side by side in one picture, with a target"


def twins_told(answer: Answer) -> Iterator[Reason]:
    """Yield why lots are told to be alike or close, and how far apart each pair is."""
    pairs, colours = near_twins(answer), (sources.colours(answer),)
    for is_one, figure, limit in ((True, "alike", _ALIKE), (False, "close", _CLOSE)):
        these = [twins for twins in pairs if twins.pass_for_one == is_one]
        if these:
            yield Reason(
                figure, colours, more(len(these), MOST_PAIRS, "pairs"), _told(answer, these, limit)
            )


def unsure_told(answer: Answer) -> Iterator[Reason]:
    """Yield why a contrast is told to be smaller than how surely it is known."""
    pairs, lots = unsure_contrasts(answer), answer.plan.lots
    lines = tuple(
        Working(
            told_by.SURELY,
            {
                "unsure_of_one": lots[twins.one].colour_unsure or 0.0,
                "unsure_of_other": lots[twins.other].colour_unsure or 0.0,
            },
            _pair(answer, twins),
            "may be out by",
        )
        for twins in pairs[:MOST_PAIRS]
    )
    doubt = Source(
        "how far each colour may be out", "given", "with the lot", _SURER, sources.PHOTOGRAPHS
    )
    known = (doubt, sources.colours(answer))
    counted = more(len(pairs), MOST_PAIRS, "pairs")
    yield Reason("not sure", known, (*lines, *counted), _told(answer, pairs, _UNSURE))


def lost_told(answer: Answer) -> Iterator[Reason]:
    """Yield why stripes are told to be lost to eyes that are weak in a colour."""
    for eyes in DEFICIENCIES:
        these = [twins for twins in lost_to_other_eyes(answer) if twins.eyes == eyes]
        if these:
            limit = _LOST.format(close=CLOSE_BELOW, twins=TWINS_BELOW, eyes=EYES[eyes])
            counted = more(len(these), MOST_PAIRS, "pairs")
            yield Reason(
                f"to {EYES[eyes]}", (sources.colours(answer),), counted, _told(answer, these, limit)
            )


def more(count: int, named: int, of: str) -> tuple[Working, ...]:
    """Return how many more there are than are named; nothing where all are.

    Parameters
    ----------
    count : int
        How many there are.
    named : int
        How many are named at most.
    of : str
        What is counted.
    """
    if count <= named:
        return ()
    return (Working(told_by.MORE, {"there_are": count, "named": named}, "", f"more {of}"),)


def _told(answer: Answer, pairs: Sequence[Twins], limit: str) -> str:
    """Return the limit, and how far apart each pair is that is named."""
    each = (f"{_pair(answer, one)} {one.ciede2000:.1f}" for one in pairs[:MOST_PAIRS])
    return f"{limit}: {'; '.join(each)}"


def _pair(answer: Answer, twins: Twins) -> str:
    names = answer.plan.names
    return f"{names[twins.one]} and {names[twins.other]}"
