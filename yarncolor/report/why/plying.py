"""Why it is so far to the next change, and what can be made when a single runs out."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import if_single_is
from yarncolor.answers.marl import ply_changes
from yarncolor.answers.rescues import RescuedYarn
from yarncolor.answers.where import Where, where
from yarncolor.defaults import plying_tare_g
from yarncolor.phrases import plies_words
from yarncolor.plan import Plied
from yarncolor.report.plying_words import (
    changes_told,
    ended_lines,
    skein_told,
    where_told,
)
from yarncolor.report.rescue_hands import rescue_words
from yarncolor.report.rescues_text import stands_text, worth_text
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.seen import Seen, seen_in
from yarncolor.report.why.wheel import skeins_whys

_CHANGES = (
    "where portions end on each single, in the order of coming off, as plied; a turn is so much "
    "yarn, over how much one turn is"
)
_SAID = "the single that ran out, and what lies on it by your own account"
_STRANDS = {
    "fewer_plies": "as far as the shortest of the other singles goes",
    "fold": "as far as half of that single goes, or the others if they are shorter",
    "halves": "as far as half of that single goes, or the others if they are shorter",
    "both_ends": "each end goes as far as half of that single",
    "chain": "each of three strands goes as far as a third of that single",
    "top_up": "as far as the other singles go, or what can be spun of the lot if that is shorter",
}
"""How long the strands of each rescue are."""
_OVER = "what finds no partner stays over, weighed at the thickness that was spun"
_AS_IT_IS = "say it again after each stop"


def plying_seen(
    answer: Answer, yarns: tuple[RescuedYarn, ...], most_changes: int
) -> tuple[Seen, ...]:
    """Return every figure that is told at the plying wheel, with its reason.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    yarns : tuple of RescuedYarn
        What can still be made when a single has run out.
    most_changes : int
        How many changes to come are told.
    """
    told = [one for one in (where_told(answer), skein_told(answer)) if one is not None]
    seen = [*seen_in(told, where_reasons(answer)), *_ended(answer)]
    if hangs := if_single_is(answer):
        seen.append(Seen(hangs, Reason("how thick the single is", (sources.grist(answer),))))
    seen += seen_in(changes_told(answer, most_changes), {"changes": _coming(answer)})
    if yarns and len(answer.resolved.tex) > 1:
        seen.append(Seen(stands_text(answer, yarns), left_on_singles(answer)))
    return (*seen, *(_rescue(answer, one) for one in yarns))


def _rescue(answer: Answer, one: RescuedYarn) -> Seen:
    """Return a rescue, and why it comes to so much."""
    words = f"{rescue_words(answer, one)}: {worth_text(answer, one)}"
    if not one.plies:
        return Seen(words, Reason("what is kept", _made_of(answer), (), _OVER))
    values = {"strand_m": one.rescue.single_m, "contraction": answer.resolved.contraction}
    line = Working(by.OF_STRANDS, values, figure="yarn of it")
    method = f"{_STRANDS[one.kind]}; {_OVER}"
    return Seen(words, Reason("what it comes to", _made_of(answer), (line,), method))


def where_reasons(answer: Answer) -> dict[str, Reason]:
    """Return the reasons for how far it is, by what a figure is of; none where nothing is said.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    place, plied = where(answer), answer.plan.plied
    if place is None or plied is None:
        return {}
    so_far, makes = _so_far(answer, plied), _made_of(answer)
    known = so_far.rests_on
    return {
        "so_far": so_far,
        "to_come": Reason("to come", (*known, *makes), _to_come(answer, place)),
        "next": Reason("to the next change", (*known, *makes), _next(place), _CHANGES),
        "skein": skeins_whys(answer).heads["skein"],
    }


def _so_far(answer: Answer, plied: Plied) -> Reason:
    """Return why so much is plied: said, by turns, by weight, or as far as a single went."""
    words, section = "how much is plied", "At the plying wheel"
    given = Source(words, "measured", "", _AS_IT_IS, section)
    if plied.so_far_m is not None:
        return Reason(words, (given,))
    if plied.turns is not None and plied.turn_m is not None:
        values = {"turns": plied.turns, "turn_m": plied.turn_m}
        turns = Source("turns of the counter, and yarn in one", "measured", "", _AS_IT_IS, section)
        return Reason(words, (turns,), (Working(by.BY_TURNS, values),))
    if plied.gross_g is None:
        return Reason(words, _made_of(answer), (), "as far as the shortest single goes")
    values = {
        "gross_g": plied.gross_g,
        "tare_g": plying_tare_g(answer.plan) or 0.0,
        "linear_density_tex": answer.layout.yarn_tex,
    }
    weight = Source("weight of yarn and bobbin", "measured", "", _AS_IT_IS, section)
    rests_on = (weight, sources.tare(answer, "plying_tare_g"), *_made_of(answer))
    return Reason(words, rests_on, (Working(by.BY_WEIGHT, values),))


def _made_of(answer: Answer) -> tuple[Source, ...]:
    return (sources.grist(answer), sources.masses(answer), sources.length_lost(answer))


def _to_come(answer: Answer, place: Where) -> tuple[Working, ...]:
    yarn_m = answer.layout.stretches.yarn_m
    if place.yarn_m > yarn_m:
        return ()
    return (Working(by.TO_COME, {"yarn_m": yarn_m, "so_far_m": place.yarn_m}),)


def _next(place: Where) -> tuple[Working, ...]:
    if place.next_change is None:
        return ()
    values = {"change_m": place.next_change.yarn_m, "so_far_m": place.yarn_m}
    return (Working(by.TO_CHANGE, values),)


def _coming(answer: Answer) -> Reason:
    """Return why colours change where they do, with the turn of the next change."""
    plied, place = answer.plan.plied, where(answer)
    from_m = 0.0 if place is None else place.yarn_m
    coming = [one.yarn_m for one in ply_changes(answer) if one.yarn_m > from_m]
    lines: tuple[Working, ...] = ()
    if coming and plied is not None and plied.turn_m:
        values = {"change_m": coming[0], "turn_m": plied.turn_m}
        lines = (Working(by.TURN, values, figure="turn of the next change"),)
    rests_on = (*_made_of(answer), sources.order(answer))
    return Reason("changes to come", rests_on, lines, _CHANGES)


def left_on_singles(answer: Answer) -> Reason:
    """Return what the singles have left when the first runs out."""
    laid = answer.layout
    left_m = laid.portions.single_m - laid.single_used_m
    lines = tuple(
        Working(
            by.LEFT_ON_SINGLE,
            {
                "own_single_m": float(laid.portions.single_m[ply]),
                "yarn_m": laid.stretches.yarn_m,
                "folds": laid.folds,
                "contraction": float(answer.resolved.yarn.contractions[ply]),
            },
            plies_words([ply]),
        )
        for ply in np.flatnonzero(left_m > _SEEN_M).tolist()
    )
    return Reason("single that is left", _made_of(answer), lines, "the shortest single ends it")


_SEEN_M = 0.05


def _ended(answer: Answer) -> list[Seen]:
    """Return what the end of a single tells, where one ran out."""
    told = " ".join(ended_lines(answer))
    if not told:
        return []
    by_you = Source("where a single ran out", "measured", "", _AS_IT_IS, "At the plying wheel")
    return [Seen(told, Reason("the single", (by_you, *_made_of(answer)), (), _SAID))]
