"""Rows that came onto a bobbin in another order than its page has them, and what to do."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.spun_order import SpunOrder, spun_orders
from yarncolor.phrases import capital, join_first, ply_words

_LAST_BUT_ONE, _MOST_ROWS = 2, 12


def other_orders(answer: Answer) -> Iterator[str]:
    """Yield for each ply what is in another order, and what to do about it."""
    yield from turned_round(answer)
    yield from mixed_up(answer)


def turned_round(answer: Answer) -> Iterator[str]:
    """Yield for each ply that it was spun in reverse, and how winding puts that right."""
    for order in _orders(answer):
        if order.is_reverse:
            yield from _reversed(answer, order)


def mixed_up(answer: Answer) -> Iterator[str]:
    """Yield for each ply which rows changed places."""
    for order in _orders(answer):
        if order.is_reverse:
            continue
        if order.swapped:
            yield _swapped(answer, order, *order.swapped)
        else:
            rows = join_first([str(row) for row in order.rows], _MOST_ROWS)
            yield (
                f"The rows of {_ply(answer, order)} lie in another order, {rows}. Leave them: "
                "nothing that is spun from here on moves them back."
            )


def spun_in_reverse(answer: Answer) -> set[int]:
    """Return the plies, from 0, that were spun from the last row of their page on."""
    return {one.ply for one in _orders(answer) if one.is_reverse}


def _orders(answer: Answer) -> list[SpunOrder]:
    wheel = answer.layout.wheel
    return [] if wheel is None else list(spun_orders(wheel))


def _reversed(answer: Answer, order: SpunOrder) -> Iterator[str]:
    turned = answer.resolved.wound_off % 2
    others = np.delete(turned, order.ply) if len(turned) > 1 else np.array([0])
    if (others != turned[order.ply]).all():  # it is wound so already
        return
    ply, wind = _ply(answer, order), "wind that bobbin to another one once more than the others"
    if len(turned) == 1:
        wind = "wind that bobbin to another one once more"
    before = "before plying " if answer.resolved.yarn.plies > 1 else ""
    then = (
        f"{before}{wind}: it then comes off the other way round, and every colour lies where it "
        "was planned."
    )
    if order.is_finished:
        yield f"{capital(ply)} was spun from its last row to its first. {capital(then)}"
    else:
        yield (
            f"{capital(ply)} is spun in reverse so far, from row {order.rows[0]} to row "
            f"{order.rows[-1]}. Go on so with row {order.rows[-1] - 1}"
            f"{', down to row 1' if order.rows[-1] > _LAST_BUT_ONE else ''}, and {then}"
        )


def _swapped(answer: Answer, order: SpunOrder, one: int, other: int) -> str:
    moved = "nothing else has moved"
    if not order.is_equal:
        moved = "one is longer than the other, so what lies between them has moved"
        if other == one + 1:
            moved = "one is longer than the other, so they meet at another place"
    return (
        f"Rows {one} and {other} of {_ply(answer, order)} changed places. Leave them: colours lie "
        f"otherwise there, and {moved}."
    )


def _ply(answer: Answer, order: SpunOrder) -> str:
    return ply_words(order.ply, len(answer.resolved.wound_off))
