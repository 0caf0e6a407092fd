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
    with_why,
)
from yarncolor.report.why.hands import hands_reasons, helps_whys
from yarncolor.report.why.reason import NOT_ASKED
from yarncolor.report.why.seen import Seen, as_drawn, seen_in
from yarncolor.report.why.yarn import length_reason
from yarncolor.said import Figure, Said, said

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
        Of words: whether figures answer why, ``explained``; of a picture: its ``width_px``, and how
        many ``yarns``.

    Raises
    ------
    PlanError
        For something that is not shown.
    """
    if what not in _SHOWS:
        known = f"{suggestion(what, tuple(_SHOWS)) or ''}; there are {', '.join(_SHOWS)}"
        raise PlanError([Fault("", "what", what, f"nothing of that name is shown{known}")])
    return _SHOWS[what](answer, **options)


def drift_in_words(answer: Answer, explained: bool = False, assumed: bool = False) -> Fragment:
    """Return what becomes of a plan in these hands, and what would help, most first.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    assumed : bool
        Whether the plan does not say itself how its hands stray.
    """
    found = answer.drift_at_hand
    if found is None:
        return sentences(NOTHING_SAID)
    happens = [*what_happens(answer, found)]
    told = sentences(*map(str, happens))
    if explained:
        seen = seen_in(happens, hands_reasons(answer, found, assumed))
        told = with_why(told, seen, "what hands do", answer.say)
    if not found.helps:
        return told
    rows = []
    for one in found.helps:
        words = help_words(answer, one, found)
        off = " / ".join(answer.say.long(float(each)) for each in one.off_m)
        won = words.won if words.is_won else "nothing to speak of"
        rows.append((words.what, won, words.costs, off))
    head = ("to do otherwise", "won", "work", "apart at 10 / 50 / 90 %")
    whys = helps_whys(answer, found, assumed) if explained else NOT_ASKED
    return below(told, table("what would help, most first", head, rows, whys))


def yarns_shown(
    answer: Answer, yarns: int = YARNS, width_px: int = _SHOWN_PX, assumed: bool = False
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
    assumed : bool
        Whether the plan does not say itself how its hands stray.
    """
    spun = spins_of(answer.layout, answer.on_scale_g)
    if spun is None:
        return sentences(NOTHING_SAID)
    lengths = sorted(spun.along(number).yarn_m for number in range(yarns))
    words = _yarns_words(answer, yarns, lengths)
    seen = _asked_of(answer, words, assumed)
    return small_picture(yarns_in_hand(answer, spun, width_px, yarns), str(words), seen)


def _yarns_words(answer: Answer, yarns: int, lengths_m: list[float]) -> Said:
    long = answer.say.long
    return said(
        "The yarn as planned, {planned}, and under it {yarns} as these hands would make them, "
        "{least} to {most} long.",
        planned=Figure(long(answer.layout.stretches.yarn_m), "planned"),
        yarns=Figure(counted(yarns, "yarn"), "drawn"),
        least=Figure(long(lengths_m[0]), "yarns"),
        most=Figure(long(lengths_m[-1]), "yarns"),
    )


def _asked_of(answer: Answer, words: Said, assumed: bool) -> tuple[Seen, ...]:
    found = answer.drift_at_hand
    if found is None:
        return ()
    drawn = {"drawn": as_drawn("yarns"), "planned": length_reason(answer)}
    return seen_in([words], {**hands_reasons(answer, found, assumed), **drawn})


def misfit_shown(
    answer: Answer, width_px: int = _SHOWN_PX, assumed: bool = False
) -> Picture | Fragment:
    """Return how far plies fall apart from where plying begins.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    width_px : int
        Of the picture.
    assumed : bool
        Whether the plan does not say itself how its hands stray.
    """
    spun = spins_of(answer.layout, answer.on_scale_g)
    if spun is None:
        return sentences(NOTHING_SAID)
    if len(spun.kept) == 1:
        return sentences("There is one single: nothing can fall apart.")
    off_m = answer.drift_at_hand.off_m if answer.drift_at_hand is not None else ()
    places = {
        f"at_{at}": Figure(answer.say.long(float(off)), "off") for at, off in enumerate(off_m)
    }
    words = Said(
        "How far apart what lies side by side in the plan comes to lie: "
        f"{join_words([f'{{{at}}}' for at in places])} after a tenth, half and nine tenths of the "
        "yarn.",
        places,
    )
    seen = _asked_of(answer, words, assumed)
    return small_picture(misfit(answer, spun, width_px), str(words), seen)


_SHOWS: dict[str, Callable[..., Fragment | Picture]] = {
    "words": drift_in_words,
    "yarns": yarns_shown,
    "apart": misfit_shown,
}
