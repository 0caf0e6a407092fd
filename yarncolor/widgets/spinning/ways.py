"""Whether what strayed matters, and the ways to go on, as the section at the wheel shows them."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.choice import Choice
from yarncolor.answers.choices import Replan
from yarncolor.layout.layout import Layout
from yarncolor.report.hands_words import hands_text
from yarncolor.report.ways_on_text import (
    matters_text,
    possible_text,
    reason_text,
    way_words,
    worth_text,
)
from yarncolor.report.why.at_the_wheel import wheel_seen
from yarncolor.report.why.seen import told_of
from yarncolor.widgets.protocol.spinning import WayOn, WaysOn, YarnStrip

_DECIMALS = 3


def ways_on(answer: Answer, found: Replan | None) -> WaysOn:
    """Return whether it matters, and every way to go on; none where nothing is spun.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    found : Replan or None
        Every way to go on; None where nothing is spun.
    """
    why = told_of(wheel_seen(answer, found), answer.say)
    if found is None:
        strip: YarnStrip = {"edges": [], "lots": []}
        return {
            "kind": "ways",
            "matters": "",
            "reason": "",
            "planned": strip,
            "planned_words": "",
            "choices": [],
            "why": why,
        }
    return {
        "kind": "ways",
        "matters": matters_text(found),
        "reason": reason_text(found),
        "planned": _strip(found.planned),
        "planned_words": f"{found.planned.say.long(found.planned.stretches.yarn_m)} of yarn",
        "choices": [_way(found, choice) for choice in found.choices],
        "why": why,
    }


def _way(found: Replan, choice: Choice) -> WayOn:
    return {
        "way": choice.name,
        "name": way_words(found, choice),
        "worth": worth_text(found, choice),
        "hands": hands_text(found, choice),
        "takes": possible_text(found, choice),
        "can": choice.possible is not None,
        "best": choice is found.recommended,
        "strip": _strip(choice.laid),
    }


def _strip(laid: Layout) -> YarnStrip:
    along = laid.stretches
    edges_m = along.edges_ppb / along.edges_ppb[-1] * along.yarn_m
    return {
        "edges": [round(edge, _DECIMALS) for edge in edges_m.tolist()],
        "lots": along.lot.tolist(),
    }
