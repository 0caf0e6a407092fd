"""Orders in a spinner's words: what was looked for, what each is worth, how sure that is."""

from yarncolor.phrases import counted, join_words, percent
from yarncolor.plan.key import keys_of
from yarncolor.plan.orders import Aims
from yarncolor.said import Figure, Said, said
from yarncolor.search.found import FoundOrder, FoundOrders

SCORE = "score"
"""What the points of an order are of, beside its aims."""

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


def worth_told(order: FoundOrder) -> Said:
    """Return points and values of an order, as figures by their aims."""
    values = {aim: Figure(value_text(aim, value), aim) for aim, value in order.values.items()}
    told = ", ".join(f"{{{aim}}}" for aim in values)
    score = Figure(f"{score_text(order.score)} points", SCORE)
    return Said(f"{{{SCORE}}}; {told}", {SCORE: score, **values})


def worth_text(order: FoundOrder) -> str:
    """Return points and values of an order."""
    return str(worth_told(order))


def asked_text(found: FoundOrders) -> str:
    """Return what was looked for, and how much each counts."""
    each = [f"{aim_words(aim)} ({weight:g})" for aim, weight in found.question.plan.orders.weights]
    return f"Looked for: {'; '.join(each)}."


def sure_text(found: FoundOrders) -> str:
    """Return how many orders were valued, and whether those were all."""
    return str(sure_told(found))


def sure_told(found: FoundOrders) -> Said:
    """Return the same, its numbers as figures."""
    orders = Figure(counted(found.tried, "order"), "tried")
    if found.exact:
        same = ", one of each and its reverse" if found.question.same_reversed else ""
        all_of_them = f"All {{orders}} that are allowed were valued{same}: these are the best."
        return said(all_of_them, orders=orders)
    if not found.question.exact:
        return said(
            "{orders} of far too many were valued: a search, so a better one may be missing."
            "{bound}{ways}",
            orders=orders,
            bound=_bound(found),
            ways=_ways(found),
        )
    stopped = "{orders} were valued when the search was stopped: a better one may be missing."
    return said(stopped, orders=orders)


def _bound(found: FoundOrders) -> Said | str:
    if found.least_smooth is None:
        return ""
    least = Figure(f"ΔE {found.least_smooth:.1f}", "least_smooth")
    return said(" No order whatever has softer changes than {least}.", least=least)


def _ways(found: FoundOrders) -> Said | str:
    tried, in_all = len(found.question.ways), found.question.ways_in_all
    if tried == in_all:
        return ""
    searched = " {tried} of {in_all} ways to leave lots out were searched, the fewest lots first."
    return said(searched, tried=Figure(f"{tried}", "ways"), in_all=Figure(f"{in_all:,}", "ways"))


def now_text(found: FoundOrders) -> str:
    """Return what today's order is worth, and whether it is one of those that are allowed."""
    outside = "" if found.now_allowed else " It does not obey all that is asked of an order."
    return f"{worth_text(found.now)}.{outside}"


def orders_alt(found: FoundOrders) -> str:
    """Return the picture of today's and the best orders in words."""
    each = [f"{number}: {names_text(one)}" for number, one in enumerate(found.best, 1)]
    return f"Today: {names_text(found.now)}. Best: {'. '.join(each)}. {sure_text(found)}"
