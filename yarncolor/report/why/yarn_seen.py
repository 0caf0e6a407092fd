"""Figures of a yarn in words, as under its strip: each as it is seen, with its reason."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import length_hangs
from yarncolor.layout.layout import in_words
from yarncolor.phrases import percent
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.hands import matched_reason
from yarncolor.report.why.reason import Reason
from yarncolor.report.why.seen import Seen, together
from yarncolor.report.why.yarn import length_reason

_TAKEN = "lots that the order takes, and of which there is enough to lie in the yarn"


def strip_seen(answer: Answer) -> tuple[Seen, ...]:
    """Return the figures of a yarn in words: its length, colours, and how its plies meet."""
    laid, shares, scheme = answer.layout, answer.shares, sources.order(answer)
    lots = len(np.unique(laid.portions.lot))
    figures = [
        (in_words(laid), Reason("how it is plied", (scheme,))),
        (laid.say.long(laid.stretches.yarn_m), length_reason(answer)),
        (f"{lots} colours", Reason("colours", (scheme, sources.masses(answer)), (), _TAKEN)),
        (percent(shares[0]), matched_reason(answer)),
        (percent(shares[-1]), all_different(answer)),
    ]
    if hangs := length_hangs(answer):
        figures.append(
            (hangs.lstrip(", "), Reason("how thick the single is", (sources.grist(answer),)))
        )
    return together(figures)


def all_different(answer: Answer) -> Reason:
    """Return why all plies differ over so much of a yarn."""
    along = answer.layout.stretches
    shows = {"shows_m": float(answer.shares[-1]) * along.yarn_m, "yarn_m": along.yarn_m}
    rests_on = (sources.order(answer), sources.masses(answer), sources.grist(answer))
    return Reason("all plies different", rests_on, (Working(by.SHOWS, shows),))
