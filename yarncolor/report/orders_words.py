"""Orders in a spinner's words: what was looked for, what each is worth, how sure that is."""

from yarncolor.phrases import counted, join_words, percent
from yarncolor.plan.key import keys_of
from yarncolor.plan.orders import Aims
from yarncolor.search.found import FoundOrder, FoundOrders

_HARDLY = 0.05
_SHARES = ("matched", "marled", "no_twins")
_VALUE_WORDS = {
    "smooth": "from colour to colour",
    "quiet": "between plies",
    "lively": "between plies",
    "even": "up and down along the yarn",
    "matched": "matched",
    "marled": "matched",
    "no_twins": "near-twins",
}


def aim_words(aim: str) -> str:
    """Return an aim as its slider says it."""
    return keys_of(Aims)[aim].words


def value_text(aim: str, value: float) -> str:
    """Return what an order is worth by an aim: a difference of colours, or a share of the yarn.

    Parameters
    ----------
    aim : str
        Which.
    value : float
        CIEDE2000, or a share.
    """
    told = percent(value) if aim in _SHARES else f"ΔE {value:.1f}"
    return f"{told} {_VALUE_WORDS[aim]}"


def score_text(score: float) -> str:
    """Return a score as points of 100, 0 the best."""
    points = 100 * score
    return f"{points:.0f}" if points >= 10 or points < _HARDLY else f"{points:.1f}"


SCORE_READ = "Points: 0 is best in all that is looked for, 100 worst."


def names_text(order: FoundOrder) -> str:
    """Return the lots of an order, and what is left out of it."""
    left = f" (without {join_words(list(order.way.left_out))})" if order.way.left_out else ""
    return f"{', '.join(order.names)}{left}"


def worth_text(order: FoundOrder) -> str:
    """Return points and values of an order."""
    values = (value_text(aim, value) for aim, value in order.values.items())
    return f"{score_text(order.score)} points; {', '.join(values)}"


def asked_text(found: FoundOrders) -> str:
    """Return what was looked for, and how much each counts."""
    each = [f"{aim_words(aim)} ({weight:g})" for aim, weight in found.question.plan.orders.weights]
    return f"Looked for: {'; '.join(each)}."


def sure_text(found: FoundOrders) -> str:
    """Return how many orders were valued, and whether those were all."""
    orders = counted(found.tried, "order")
    if found.exact:
        same = ", one of each and its reverse" if found.question.same_reversed else ""
        return f"All {orders} that are allowed were valued{same}: these are the best."
    told = f"{orders} of far too many were valued: a search, so a better one may be missing."
    if not found.question.exact:
        return f"{told}{_bound_text(found)}{_ways_text(found)}"
    return f"{orders} were valued when the search was stopped: a better one may be missing."


def _bound_text(found: FoundOrders) -> str:
    if found.least_smooth is None:
        return ""
    return f" No order whatever has softer changes than ΔE {found.least_smooth:.1f}."


def _ways_text(found: FoundOrders) -> str:
    tried, in_all = len(found.question.ways), found.question.ways_in_all
    if tried == in_all:
        return ""
    return f" {tried} of {in_all:,} ways to leave lots out were searched, the fewest lots first."


def now_text(found: FoundOrders) -> str:
    """Return what today's order is worth, and whether it is one of those that are allowed."""
    outside = "" if found.now_allowed else " It does not obey all that is asked of an order."
    return f"{worth_text(found.now)}.{outside}"


def orders_alt(found: FoundOrders) -> str:
    """Return the picture of today's and the best orders in words."""
    each = [f"{number}: {names_text(one)}" for number, one in enumerate(found.best, 1)]
    return f"Today: {names_text(found.now)}. Best: {'. '.join(each)}. {sure_text(found)}"
