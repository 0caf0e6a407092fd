"""What a search found: the best orders that differ, those that nothing beats, and today's."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yarncolor.plan import Plan
from yarncolor.search.choosing import best_that_differ, front
from yarncolor.search.question import Question
from yarncolor.search.scoring import Scoring, scoring_of
from yarncolor.search.tally import Tally
from yarncolor.search.way import Way

BEST, FRONT = 6, 200
"""How many orders are shown, and how many of the front are kept."""


@dataclass(frozen=True, eq=False)
class FoundOrder:
    """One order and what it is worth.

    Parameters
    ----------
    way : Way
        What is left out, if anything.
    order : (E,) int array
        The place from which each place has what stands there.
    values : dict of str to float
        By aim.
    score : float
        From 0, best in everything, to 1; of today's order also beyond, where that is not allowed.
    """

    way: Way
    order: NDArray[np.int64]
    values: dict[str, float]
    score: float

    @property
    def names(self) -> tuple[str, ...]:
        """Its lots, as they are spun."""
        return self.way.names_in(self.order)

    @property
    def plan(self) -> Plan:
        """The plan in this order."""
        return self.way.in_order(self.order)


@dataclass(frozen=True, eq=False)
class FoundOrders:
    """What a search found.

    Parameters
    ----------
    question : Question
        What was looked for.
    exact : bool
        Whether every order that is allowed was valued.
    tally : Tally
        Every order that was valued.
    scoring : Scoring
        How orders are scored.
    now_values : (measures,) array
        What today's order is worth.
    now_allowed : bool
        Whether it obeys all that is asked.
    least_smooth : float or None
        What no order's `smooth` is below; None where that is not looked for, or is known.
    """

    question: Question
    exact: bool
    tally: Tally
    scoring: Scoring
    now_values: NDArray[np.float64]
    now_allowed: bool
    least_smooth: float | None

    @property
    def tried(self) -> int:
        """How many orders were valued; those that make the same yarn count once."""
        return len(self.tally)

    @property
    def now(self) -> FoundOrder:
        """Today's order."""
        way, values = self.question.ways[0], self.now_values[:, None]
        order = np.arange(way.places)
        return FoundOrder(way, order, self._by_aim(values), float(self.scoring.score(values)[0]))

    @cached_property
    def score(self) -> NDArray[np.float64]:
        """Of every order that was valued: (N,)."""
        return self.scoring.score(self.tally.values)

    @cached_property
    def best(self) -> tuple[FoundOrder, ...]:
        """The best orders, each with half its lots in other places than any better one."""
        return self._orders(best_that_differ(self.score, self._differ, BEST))

    @cached_property
    def front(self) -> tuple[FoundOrder, ...]:
        """Orders that no other beats on all aims, best score first."""
        return self._orders(front(self.tally.values, self.scoring, FRONT))

    def front_between(self, one: str, other: str) -> tuple[FoundOrder, ...]:
        """Return the orders that no other beats on two aims, along the first of them.

        Parameters
        ----------
        one, other : str
            Two of the aims that were looked for.
        """
        both = ((one, 1.0), (other, 1.0))
        scoring = scoring_of(both, self.question.measures, self.tally.values)
        orders = self._orders(front(self.tally.values, scoring, FRONT))
        return tuple(sorted(orders, key=lambda each: each.values[one]))

    @cached_property
    def ranges(self) -> dict[str, tuple[float, float]]:
        """Best and worst value of each aim."""
        scoring = self.scoring
        both = zip(scoring.best.tolist(), scoring.worst.tolist(), strict=True)
        return dict(zip(scoring.aims, both, strict=True))

    def _orders(self, at: list[int]) -> tuple[FoundOrder, ...]:
        numbers = np.array(at, dtype=np.int64)
        ways, orders = self.tally.ways_of(numbers), self.tally.orders_of(numbers)
        values = self.tally.values[:, numbers]
        score = self.scoring.score(values)
        found = []
        for number, way in enumerate(ways.tolist()):
            own = self.question.ways[way]
            order = orders[number][: own.places]
            by_aim = self._by_aim(values[:, number : number + 1])
            found.append(FoundOrder(own, order, by_aim, float(score[number])))
        return tuple(found)

    def _by_aim(self, values: NDArray[np.float64]) -> dict[str, float]:
        each = values[self.scoring.row, 0].tolist()
        return dict(zip(self.scoring.aims, each, strict=True))

    def _differ(self, better: int, others: NDArray[np.int64]) -> NDArray[np.bool_]:
        """Return which orders have half their lots, rounded up, elsewhere than a better one."""
        (one,) = self._lots_of(np.array([better]))
        lots = self._lots_of(others)
        many = (lots >= 0).sum(axis=1)
        found: NDArray[np.bool_] = _elsewhere(lots, one) >= (many + 1) // 2
        if self.question.same_reversed:
            length = int((one >= 0).sum())
            reverse = np.append(one[:length][::-1], one[length:])
            found &= _elsewhere(lots, reverse) >= (many + 1) // 2
        return found

    def _lots_of(self, at: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return the lot in each place of orders; -1 after the last: (K, places)."""
        ways, orders = self.tally.ways_of(at), self.tally.orders_of(at)
        lots = np.full(orders.shape, -1)
        for way in np.unique(ways).tolist():
            own = self.question.ways[way]
            lots[ways == way, : own.places] = own.lot[orders[ways == way][:, : own.places]]
        return lots


def _elsewhere(lots: NDArray[np.int64], one: NDArray[np.int64]) -> NDArray[np.int64]:
    found: NDArray[np.int64] = ((lots != one) & (lots >= 0)).sum(axis=1)
    return found
