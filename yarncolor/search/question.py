"""What is looked for: a plan's aims and rules, and each way to leave lots out."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from yarncolor.defaults import scheme_name
from yarncolor.errors import Fault, PlanError
from yarncolor.plan import Plan
from yarncolor.plan.orders import AS_IT_IS
from yarncolor.plan.scheme import OWN_SEQUENCE
from yarncolor.search.admissible import Rules, once_each, rules_of
from yarncolor.search.aims import measures_of
from yarncolor.search.between import Between, between_lots
from yarncolor.search.valued import valued
from yarncolor.search.way import Way, way_without

_MOST_WAYS = 12
"""Where not every order can be valued, so many ways to leave lots out are searched."""


@dataclass(frozen=True, eq=False)
class Question:
    """What is looked for.

    Parameters
    ----------
    plan : Plan
        As planned; what was spun of it does not count.
    ways : tuple of Way
        What is left out in turn; nothing first.
    ways_in_all : int
        How many there are.
    closes : bool
        Whether orders end on the lot that they begin with.
    exact : bool
        Whether every order can be valued.
    measures : tuple of str
        What is valued of each.
    between : Between
        How far lots are apart.
    """

    plan: Plan
    ways: tuple[Way, ...]
    ways_in_all: int
    closes: bool
    exact: bool
    measures: tuple[str, ...]
    between: Between

    @property
    def places(self) -> int:
        """Of the longest order."""
        return self.ways[0].places

    @property
    def same_reversed(self) -> bool:
        """Whether an order and its reverse make the same yarn."""
        return self.ways[0].same_reversed(self.closes)

    def rules(self, way: Way) -> Rules:
        """Return what every order of a way has to obey."""
        return rules_of(way, self.plan.orders, self.closes)

    def kept(self, way: Way, orders: NDArray[np.integer]) -> NDArray[np.bool_]:
        """Return which orders are allowed, of those that make the same yarn one: (V,).

        Parameters
        ----------
        way : Way
            That they are of.
        orders : (V, E) int array
            The place from which each place has what stands there.
        """
        same = way.same_reversed(self.closes)
        return once_each(orders, way.alike, self.rules(way), same)

    def values(self, way: Way, orders: NDArray[np.integer]) -> NDArray[np.float64]:
        """Return what orders are worth, each laid out: (measures, V).

        Parameters
        ----------
        way : Way
            That they are of.
        orders : (V, E) int array
            The place from which each place has what stands there.
        """
        return valued(way, self.between, self.measures, orders.astype(np.int64)).T


def question_of(plan: Plan) -> Question:
    """Return what a plan looks for.

    Parameters
    ----------
    plan : Plan
        Of a scheme with a sequence.

    Raises
    ------
    PlanError
        Where its scheme has none.
    """
    if plan.braid is not None:
        remedy = "was dyed in its order, and there is no other to be found"
        raise PlanError([Fault("", "braid", "", remedy)])
    plan = plan.without_steps.before_the_wheel
    ways: tuple[Way, ...] = ()
    if scheme_name(plan.scheme) not in OWN_SEQUENCE:
        every = (way_without(plan, left_out) for left_out in _left_out(plan))
        ways = tuple(way for way in every if way is not None)
    if not ways or ways[0].left_out:
        remedy = "has no order of lots; choose a scheme with a sequence, and lots that have grams"
        raise PlanError([Fault("", "scheme", "", remedy)])
    first = ways[0]
    closes = _closes(plan, first)
    exact = first.places <= first.most_exact(closes)
    return Question(
        plan=plan,
        ways=ways if exact else ways[:_MOST_WAYS],
        ways_in_all=len(ways),
        closes=closes,
        exact=exact,
        measures=measures_of(tuple(name for name, _ in plan.orders.weights)),
        between=between_lots(plan.lots, first.resolved.scheme),
    )


def _left_out(plan: Plan) -> Iterator[tuple[str, ...]]:
    """Yield what is left out in turn: nothing, then one lot, then two and so on."""
    may = tuple(dict.fromkeys(plan.orders.may_leave_out))
    for count in range(len(may) + 1):
        yield from combinations(may, count)


def _closes(plan: Plan, way: Way) -> bool:
    asked = plan.orders.closed
    if asked is None or asked == AS_IT_IS:
        return way.places > 1 and bool(way.lot[0] == way.lot[-1])
    return bool(asked)
