"""Advice on the stripes of a knitted piece: fibre, rows, and stripes too short to be spun."""

from collections.abc import Callable, Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import missing_for_stripes
from yarncolor.phrases import counted, join_first, join_words

STAPLE_M = 0.1
"""Of wool, the middle of what hands spin most; common practice, no source."""
MOST_NAMED = 6


def short_of_stripes(answer: Answer) -> Iterator[str]:
    """Yield after which stripe the fibre gives out, and what is missing for the rest."""
    laid = answer.resolved.scheme_input.striped
    if laid is None or laid.count == len(laid.rows):
        return
    names = answer.plan.names
    lots = join_words(
        [
            f"{answer.say.mass(lack.mass_g)} of {names[lack.lot]}"
            for lack in missing_for_stripes(answer)
        ]
    )
    rows = counted(laid.rows_in_all, _row_word(answer))
    yield (
        f"The fibre gives {laid.count} of {counted(len(laid.rows), 'stripe')}, {laid.rows_spun} "
        f"of {rows}: the piece is bound off there. Missing for all of it, before carding: {lots}."
    )


def other_rows(answer: Answer) -> Iterator[str]:
    """Yield where stripes come to more or fewer rows than the piece is to have."""
    laid, rows = answer.resolved.scheme_input.striped, answer.plan.fabric.rows
    if laid is None or rows is None or rows == laid.rows_in_all:
        return
    word = _row_word(answer)
    all_of_it = "The stripes come to"
    fewer = "knit them once more, or let them go round until it is full"
    more = "leave some out, or give the piece as many"
    yield (
        f"{all_of_it} {counted(laid.rows_in_all, word)}, and the piece is to have {rows}: "
        f"{fewer if laid.rows_in_all < rows else more}."
    )


def short_stripes(answer: Answer) -> Iterator[str]:
    """Yield which stripes are shorter, as single, than two staples."""
    short = too_short(answer)
    if not short:
        return
    which = join_first([str(number) for number in short], MOST_NAMED)
    are = f"Stripes {which} are" if len(short) > 1 else f"Stripe {which} is"
    staples = answer.say.width(2 * STAPLE_M * 100, 0)
    yield (
        f"{are} shorter than two staples, {staples} of single: the fibre of one "
        "colour reaches through it into the next. Knit it higher, or splice it in while knitting."
    )


def too_short(answer: Answer) -> list[int]:
    """Return which stripes, from 1, are shorter as single than two staples."""
    laid, portions = answer.resolved.scheme_input.striped, answer.layout.planned
    if laid is None:
        return []
    return [int(place) for place in np.unique(portions.place[portions.length_m < 2 * STAPLE_M])]


def _row_word(answer: Answer) -> str:
    return "round" if answer.plan.fabric.kind == "round" else "row"


KINDS: dict[str, Callable[[Answer], Iterator[str]]] = {
    "short_of_stripes": short_of_stripes,
    "rows_of_stripes": other_rows,
    "short_stripes": short_stripes,
}
"""In the order in which they are told."""
