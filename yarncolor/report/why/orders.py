"""Why an order has so many points: what each aim looks at, and how the aims come together."""

from yarncolor.answers.answer import Answer
from yarncolor.report.orders_words import SCORE, aim_words
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source
from yarncolor.search.aims import AIMS, CONTRAST, EVEN, MATCHED, SMOOTH, TWINS, TWINS_BELOW
from yarncolor.search.found import FoundOrder, FoundOrders

_LOOKS_AT = {
    SMOOTH: "the mean difference (CIEDE2000) of portions that follow each other on a ply",
    CONTRAST: "the mean difference (CIEDE2000) of plies that lie side by side, over the length",
    EVEN: "how far that difference of plies strays along the yarn, as a standard deviation",
    MATCHED: "the share of the length over which all plies are alike",
    TWINS: f"the share of the length over which lots under CIEDE2000 {TWINS_BELOW:g} lie together",
}
_ADDED = "the points of every aim, added; 0 for the best and 100 for the worst of all valued"
_LEAST_RANGE = 0.01
"""Of the larger: below it four figures of best and worst say nothing of what lies between."""

_VALUED = "every order is laid out as the plan is, and valued by each aim; what is one yarn, once"
_BOUND = "each lot’s nearest other lots at the least, whatever the order"
_FEWEST = "where not every order can be valued, so many ways to leave lots out have their turn"


def order_reasons(found: FoundOrders, one: FoundOrder, answer: Answer) -> dict[str, Reason]:
    """Return the reasons for what an order is worth, by aim, and for its points.

    Parameters
    ----------
    found : FoundOrders
        What was found.
    one : FoundOrder
        One of its orders.
    answer : Answer
        To the plan that was looked for.
    """
    colours, masses = sources.colours(answer), sources.masses(answer)
    counts = Source("how much each aim counts", "given")
    values = {
        aim: Reason(aim_words(aim), (colours, masses), (), _LOOKS_AT[AIMS[aim].measure])
        for aim in one.values
    }
    points = tuple(_points(found, one))
    return {**values, SCORE: Reason("points", (counts, colours, masses), points, _ADDED)}


def search_reasons(answer: Answer) -> dict[str, Reason]:
    """Return the reasons for how sure a search is, by what a figure of it is of.

    Parameters
    ----------
    answer : Answer
        To the plan that was looked for.
    """
    rules = Source("what every order is to obey", "given")
    colours = sources.colours(answer)
    return {
        "tried": Reason("orders valued", (rules, sources.order(answer)), (), _VALUED),
        "least_smooth": Reason("the least that is possible", (colours,), (), _BOUND),
        "ways": Reason("ways to leave lots out", (rules,), (), _FEWEST),
    }


def front_reason() -> Reason:
    """Return why so many orders lie along the line between two aims."""
    method = "orders of which no other is as good in both aims and better in one"
    return Reason("along the line", (Source("the two aims chosen", "given"),), (), method)


def _points(found: FoundOrders, one: FoundOrder) -> list[Working]:
    """Return the points of each aim that tells orders apart."""
    each, scoring = [], found.scoring
    for at, aim in enumerate(scoring.aims):
        best, worst = float(scoring.best[at]), float(scoring.worst[at])
        if abs(worst - best) <= _LEAST_RANGE * max(abs(best), abs(worst)):
            continue
        values = {"value": one.values[aim], "best": best, "worst": worst}
        equation = by.POINTS
        if AIMS[aim].measure in (MATCHED, TWINS):
            values = {f"{name}_share": number for name, number in values.items()}
            equation = by.POINTS_OF_SHARES
        values["weight"] = float(scoring.weight[at])
        each.append(Working(equation, values, aim_words(aim)))
    return each
