"""The card's rows: one portion each, what is weighed of it, and what is meant."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from markupsafe import Markup

from yarncolor.answers import weigh_out
from yarncolor.answers.answer import Answer
from yarncolor.answers.by_hand import ByScale
from yarncolor.report.card.sentences import OrderSentences
from yarncolor.report.weigh_out_words import heap_words
from yarncolor.report.wheel_words import row_words, stripe_words

_PIECES = {"halve": "half", "share": "equal"}


@dataclass(frozen=True)
class Row:
    """One portion as it is spun.

    Parameters
    ----------
    at : int
        From 1, in the order in which it lies on the bobbin.
    number : str
        Row of its page, from 1; a plus for a piece that is no row.
    lot : int
        Index of the lot in the stash.
    weigh, words, so_far : str
        Grams, how hands divide it, and what is on the bobbin then; no grams to weigh for a piece
        of a heap.
    by_scale : bool
        Whether hands cannot divide it.
    meant : Markup
        Why it is as it is, where that might be taken for a slip.
    is_spun : bool
        Whether it lies on the bobbin already.
    """

    at: int
    number: str
    lot: int
    weigh: str
    words: str
    so_far: str
    by_scale: bool
    meant: Markup
    is_spun: bool


@dataclass(frozen=True)
class HeapLine:
    """Fibre of one lot that is weighed once and divided by hand; no grams for a pinch."""

    lot: int
    weigh: str
    words: str


def rows_of(answer: Answer, k: int, say: OrderSentences) -> list[Row]:
    """Return the rows of a ply.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        Ply, from 0.
    say : OrderSentences
        What is said of its order.
    """
    names = answer.plan.names
    rows, step = answer.weigh_out[k].rows, answer.resolved.step_g
    return [
        Row(
            at=at,
            number=str(row.number or "+"),
            lot=row.lot,
            weigh=_weigh(answer, row),
            words=row_words(answer, row),
            so_far=answer.say.on_scale(row.on_bobbin_g, step),
            by_scale=not row.is_spun and row.from_heap is None and isinstance(row.by_hand, ByScale),
            meant=_stripe(answer, row) or say.meant(piece, names[row.lot] if goes_on else None),
            is_spun=row.is_spun,
        )
        for at, (row, goes_on, piece) in enumerate(
            zip(rows, _goes_on(answer, rows), _pieces(answer, k), strict=True), 1
        )
    ]


def _stripe(answer: Answer, row: weigh_out.Row) -> Markup:
    """Return which stripe of a knitted piece a row is; nothing of another scheme."""
    return Markup(stripe_words(answer, row.at))  # noqa: S704 - our own words and numbers


def _goes_on(answer: Answer, rows: Sequence[weigh_out.Row]) -> list[bool]:
    """Return which rows go on with the lot of the row before because the plan wants it so."""
    wanted = [_is_of_its_row(answer, row) for row in rows]
    pairs = zip(pairwise(rows), pairwise(wanted), strict=True)
    return [
        False,
        *(
            all(both) and row.lot == before.lot and abs(row.number - before.number) == 1
            for (before, row), both in pairs
        ),
    ][: len(rows)]


def _is_of_its_row(answer: Answer, row: weigh_out.Row) -> bool:
    """Return whether a piece is a row of its page, of the lot that the page has there."""
    at = answer.layout.of_planned[row.at]
    return bool(at >= 0 and answer.layout.planned.lot[at] == row.lot)


def heaps_of(answer: Answer, k: int) -> list[HeapLine]:
    """Return the heaps of ply k, counted from 0.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        The ply, from 0.
    """
    step = answer.resolved.step_g
    return [
        HeapLine(
            heap.lot,
            "" if heap.is_pinch else answer.say.on_scale(heap.weigh_g, step),
            heap_words(heap),
        )
        for heap in answer.weigh_out[k].heaps
    ]


def _weigh(answer: Answer, row: weigh_out.Row) -> str:
    """Return grams to weigh, or those that were spun; nothing for a piece of a heap."""
    if row.is_spun:
        return answer.say.on_scale(answer.put_g[row.at], answer.resolved.step_g)
    return "" if row.weigh_g is None else answer.say.on_scale(row.weigh_g, answer.resolved.step_g)


def is_band(answer: Answer, k: int) -> np.ndarray:
    """Return which portions of ply k are the band that closes once: none on a single repeat.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        The ply, from 0.
    """
    draft, portions = answer.resolved.scheme_input, answer.layout.portions
    own = portions.of_ply(k)
    if draft.closing != "tail" or portions.repeat[own].max() == 1:
        return np.zeros(own.stop - own.start, dtype=bool)
    return np.asarray(portions.place[own] == draft.place[-1])


def _pieces(answer: Answer, k: int) -> list[str]:
    draft, portions = answer.resolved.scheme_input, answer.layout.portions
    own = portions.of_ply(k)
    if draft.closing == "swap":
        meets = portions.repeat[own] < answer.layout.planned.repeat[own].max()
        swapped = meets & np.isin(portions.place[own], draft.place[-2:])
        return ["swapped" if one else "" for one in swapped]
    kind = _PIECES.get(draft.closing)
    if kind is None:
        return ["band" if last else "" for last in is_band(answer, k)]
    ends = (draft.place[0], draft.place[-1])
    return [kind if at in ends else "" for at in portions.place[own]]
