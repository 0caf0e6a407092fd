"""Why it is told so at the wheel: how far, what a bobbin weighs, what a way to go on is worth."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.choice import Choice
from yarncolor.answers.choices import Replan
from yarncolor.answers.progress import progress
from yarncolor.phrases import hours_text, percent
from yarncolor.report.ways_on_text import matters_text, reason_text, way_words, worth_text
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.seen import Seen
from yarncolor.report.why.wheel import bobbins_whys, spinning_hours, weigh_out_whys

_WORTH = (
    "a ply keeps what shows its planned lot at its planned place; the yarn is as long as the "
    "shortest single then gives"
)
_MATTERS = (
    "the yarn laid out anew from what lies on the bobbins, and held against the yarn as planned: "
    "how far what lies together in the plan comes to lie apart, and what then ends first"
)
_STRAYED = (
    "weights and lengths that you wrote down against those of the plan; a thickness counts from "
    "when so much was measured that it holds"
)
_FOUND = "as you wrote it down; lengths that you did not measure go by the thickness known so far"
WEIGH, AFTER = "what to weigh for a row", "what the bobbin weighs after it"
FOUND, STRAYED = "what lies on the bobbin", "what has strayed"
"""What is told beside every row, and of what was spun."""


def wheel_seen(answer: Answer, found: Replan | None) -> tuple[Seen, ...]:
    """Return the figures that are told at the wheel, with their reasons.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    found : Replan or None
        Every way to go on; None where nothing is spun.
    """
    bobbin = bobbins_whys(answer).heads
    beside = (
        Seen(WEIGH, weigh_out_whys(answer).heads["weigh"]),
        Seen(AFTER, bobbin["with the bobbin"] if _has_tare(answer) else bobbin["spun on it"]),
    )
    if found is None:
        return beside
    return (*_so_far(answer), *_ways(found), *beside, *_written(answer))


def _has_tare(answer: Answer) -> bool:
    return answer.bobbins[0].tare_g is not None


def written_down(answer: Answer) -> Source:
    """Return how it is known what lies on the bobbins."""
    words = "what you wrote down of the spinning"
    return Source(words, "measured", "", sources.written_down_words(answer), sources.AT_THE_WHEEL)


def _so_far(answer: Answer) -> tuple[Seen, ...]:
    far, wheel = progress(answer), answer.layout.wheel
    if far is None or wheel is None:
        return ()
    mass_g = wheel.pieces.mass_g
    grams = {"spun_g": float(mass_g[wheel.spun].sum()), "all_g": float(np.sum(mass_g))}
    known = (written_down(answer), sources.masses(answer))
    share = Reason("spun so far", known, (Working(by.OF_THE_GRAMS, grams),))
    seen = [Seen(percent(far.share), share)]
    if far.left_h:
        seen.append(Seen(hours_text(far.left_h), _left_h(answer)))
    return tuple(seen)


def _left_h(answer: Answer) -> Reason:
    hours = spinning_hours(answer)
    known = (written_down(answer), *hours.rests_on)
    return Reason("spinning in all", known, hours.workings, "of which what is not spun is to go")


def _ways(found: Replan) -> tuple[Seen, ...]:
    answer = found.answer
    known = (
        written_down(answer),
        sources.grist(answer),
        sources.order(answer),
        sources.masses(answer),
    )
    matters = Reason("whether it matters", known, (), _MATTERS)
    told = tuple(Seen(words, matters) for words in (matters_text(found), reason_text(found)))
    return (*told, *(_way(found, one, known) for one in found.choices))


def _way(found: Replan, one: Choice, known: tuple[Source, ...]) -> Seen:
    """Return a way to go on, and why it is worth so much."""
    planned_m = found.planned.stretches.yarn_m
    values = {"kept_m": one.as_planned * planned_m, "yarn_m": planned_m}
    kept = Working(by.KEPT, values, figure="kept as planned")
    words = f"{way_words(found, one)}, {worth_text(found, one)}"
    return Seen(words, Reason("what this way is worth", known, (kept,), _WORTH))


def _written(answer: Answer) -> tuple[Seen, ...]:
    known = (written_down(answer), sources.grist(answer), sources.masses(answer))
    return (
        Seen(FOUND, Reason("a piece", known, (), _FOUND)),
        Seen(STRAYED, Reason("what has strayed", known, (), _STRAYED)),
    )
