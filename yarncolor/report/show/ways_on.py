"""What a notebook shows of the ways to go on: whether it matters, a table, one picture."""

from yarncolor.answers.choices import Replan
from yarncolor.report.hands_words import hands_text
from yarncolor.report.show.fragment import Fragment, Picture, below, sentences, small_picture, table
from yarncolor.report.ways_on import ways_alt, ways_picture
from yarncolor.report.ways_on_text import (
    matters_text,
    possible_text,
    reason_text,
    way_words,
    worth_text,
)

_SHOWN_PX = 1000


def show_ways_on(found: Replan) -> Fragment:
    """Return whether it matters, what is best, and every way to go on with what it takes."""
    rows = [
        (
            f"{way_words(found, one)}{' (best)' if one is found.recommended else ''}",
            worth_text(found, one),
            hands_text(found, one),
            possible_text(found, one),
        )
        for one in found.choices
    ]
    head = ("to go on", "the yarn", "at the wheel", "fibre")
    told = sentences(matters_text(found), reason_text(found))
    return below(told, table("ways to go on", head, rows))


def show_yarns_on(found: Replan) -> Picture:
    """Return the yarn as planned, as it stands and under each way to go on, on one scale."""
    return small_picture(ways_picture(found, _SHOWN_PX), ways_alt(found))
