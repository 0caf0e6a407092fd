"""What a notebook shows of orders: today's and the best in a table, strips, and the trade-off."""

from yarncolor.phrases import join_words
from yarncolor.plan.key import keys_of
from yarncolor.plan.orders import Aims
from yarncolor.report.orders import strips_picture, trade_off_picture
from yarncolor.report.orders_words import (
    SCORE_READ,
    aim_words,
    asked_text,
    orders_alt,
    score_text,
    sure_text,
    value_text,
)
from yarncolor.report.show.fragment import Fragment, Picture, below, sentences, small_picture, table
from yarncolor.search.found import FoundOrder, FoundOrders

_SHOWN_PX = 1000


def show_aims() -> Fragment:
    """Return every aim, and what an order is like that is good at it."""
    rows = [(name, key.words, key.meaning) for name, key in keys_of(Aims).items()]
    return table("aims", ("aim", "in words", "what it means"), rows)


def show_orders(found: FoundOrders) -> Fragment:
    """Return what was looked for, how sure it is, and today's and the best orders in a table."""
    named = [("today", found.now), *((str(at), one) for at, one in enumerate(found.best, 1))]
    head = ("order", "lots, as they are spun", "left out", "points", *map(aim_words, found.ranges))
    told = sentences(asked_text(found), sure_text(found), SCORE_READ)
    return below(told, table("orders", head, [_row(name, one) for name, one in named]))


def _row(name: str, one: FoundOrder) -> tuple[str, ...]:
    left = join_words(list(one.way.left_out)) if one.way.left_out else ""
    values = (value_text(aim, value) for aim, value in one.values.items())
    return (name, ", ".join(one.names), left, score_text(one.score), *values)


def show_order_strips(found: FoundOrders) -> Picture:
    """Return today's and the best orders as strips, on one scale."""
    return small_picture(strips_picture(found, _SHOWN_PX), orders_alt(found))


def show_trade_off(found: FoundOrders, across: str, up: str) -> Picture:
    """Return every order between two aims, with those that none beats on both.

    Parameters
    ----------
    found : FoundOrders
        What was found.
    across, up : str
        Two of its aims.
    """
    alt = (
        f"Every order that was valued, by {aim_words(across)} and {aim_words(up)}: the best of "
        "both lie on the line at the lower left."
    )
    return small_picture(trade_off_picture(found, across, up, _SHOWN_PX), alt)
