"""What hands do to a plan, as a notebook shows it: in words, in yarns, and how plies fall apart."""

from collections.abc import Callable
from typing import Any

from yarncolor.answers.answer import Answer
from yarncolor.answers.spins import spins_of
from yarncolor.errors import Fault, PlanError, suggestion
from yarncolor.phrases import counted, join_words
from yarncolor.pictures.drifting import YARNS, misfit, yarns_in_hand
from yarncolor.report.drift_words import help_words, what_happens
from yarncolor.report.show.fragment import (
    Fragment,
    Picture,
    below,
    sentences,
    small_picture,
    table,
)

_SHOWN_PX = 1000
NOTHING_SAID = (
    "The plan does not say how even your hands are: give an unevenness between portions, or say "
    "that fibre is divided by eye."
)


def show_drift(answer: Answer, what: str = "words", **options: Any) -> Fragment | Picture:
    """Return what hands do to a plan: in words, as yarns, or how far plies fall apart.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    what : str
        words, yarns or apart.
    options : dict
        Of a picture: its ``width_px``, and how many ``yarns``.

    Raises
    ------
    PlanError
        For something that is not shown.
    """
    if what not in _SHOWS:
        known = f"{suggestion(what, tuple(_SHOWS)) or ''}; there are {', '.join(_SHOWS)}"
        raise PlanError([Fault("", "what", what, f"nothing of that name is shown{known}")])
    return _SHOWS[what](answer, **options)


def drift_in_words(answer: Answer) -> Fragment:
    """Return what becomes of a plan in these hands, and what would help, most first."""
    found = answer.drift_at_hand
    if found is None:
        return sentences(NOTHING_SAID)
    told = sentences(*what_happens(answer, found))
    if not found.helps:
        return told
    rows = []
    for one in found.helps:
        words = help_words(answer, one, found)
        off = " / ".join(answer.say.long(float(each)) for each in one.off_m)
        won = words.won if words.is_won else "nothing to speak of"
        rows.append((words.what, won, words.costs, off))
    head = ("to do otherwise", "won", "work", "apart at 10 / 50 / 90 %")
    return below(told, table("what would help, most first", head, rows))


def yarns_shown(
    answer: Answer, yarns: int = YARNS, width_px: int = _SHOWN_PX
) -> Picture | Fragment:
    """Return yarns as these hands would make them, under the one that was planned.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    yarns : int
        How many.
    width_px : int
        Of the picture.
    """
    spun = spins_of(answer.layout, answer.on_scale_g)
    if spun is None:
        return sentences(NOTHING_SAID)
    lengths = sorted(spun.along(number).yarn_m for number in range(yarns))
    long = answer.say.long
    alt = (
        f"The yarn as planned, {long(answer.layout.stretches.yarn_m)}, and under it "
        f"{counted(yarns, 'yarn')} as these hands would make them, {long(lengths[0])} to "
        f"{long(lengths[-1])} long."
    )
    return small_picture(yarns_in_hand(answer, spun, width_px, yarns), alt)


def misfit_shown(answer: Answer, width_px: int = _SHOWN_PX) -> Picture | Fragment:
    """Return how far plies fall apart from where plying begins.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    width_px : int
        Of the picture.
    """
    spun = spins_of(answer.layout, answer.on_scale_g)
    if spun is None:
        return sentences(NOTHING_SAID)
    if len(spun.kept) == 1:
        return sentences("There is one single: nothing can fall apart.")
    off_m = answer.drift_at_hand.off_m if answer.drift_at_hand is not None else ()
    places = [answer.say.long(float(off)) for off in off_m]
    alt = (
        "How far apart what lies side by side in the plan comes to lie: "
        f"{join_words(places)} after a tenth, half and nine tenths of the yarn."
    )
    return small_picture(misfit(answer, spun, width_px), alt)


_SHOWS: dict[str, Callable[..., Fragment | Picture]] = {
    "words": drift_in_words,
    "yarns": yarns_shown,
    "apart": misfit_shown,
}
