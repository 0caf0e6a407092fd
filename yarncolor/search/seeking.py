"""Where there are too many orders to value: from good beginnings, move by move, while it helps.

Where no move helps, some places are shaken and it begins again. What is spent is counted in edges
of yarns, not in seconds, so that the same plan finds the same orders on every machine.
"""

from collections.abc import Generator, Iterator
from functools import partial

import numpy as np
from numpy.typing import NDArray

from yarncolor.search.moves import Measured, allowed_beginnings, descended, shaken
from yarncolor.search.question import Question
from yarncolor.search.scoring import scoring_of
from yarncolor.search.tally import Tally

EFFORT = 30_000_000
"""Edges of yarns that are valued: some seconds."""

_BEGINNINGS, _BEST_BEGINNINGS, _MOST_MISSES = 200, 20, 12
_FOR_RANGES = 0.3
"""Share of the effort that goes into how good and how bad each aim alone can be."""


def seek(question: Question, tally: Tally, effort: float, seed: int) -> Iterator[float]:
    """Value orders that get better and better; yield which share of the effort is spent.

    Parameters
    ----------
    question : Question
        What is looked for.
    tally : Tally
        Takes in what was valued.
    effort : float
        Edges of yarns to value.
    seed : int
        What is drawn from.
    """
    ways = len(question.ways)
    for number in range(ways):
        one = _Seeking(question, tally, number, effort / ways, seed)
        for _ in one.steps():
            yield (number + min(1.0, one.spent / one.effort)) / ways


class _Seeking:
    """A search among the orders of one way, with its share of the effort."""

    def __init__(
        self, question: Question, tally: Tally, number: int, effort: float, seed: int
    ) -> None:
        self._question, self._tally, self._number = question, tally, number
        self._way = question.ways[number]
        self._rules = question.rules(self._way)
        self._rng = np.random.default_rng([seed, number])
        self.spent, self.effort = 0.0, effort

    def steps(self) -> Iterator[None]:
        """Search, and stop for a moment now and then."""
        beginnings = allowed_beginnings(self._rules, self._way.places, _BEGINNINGS, self._rng)
        if not len(beginnings):
            return
        values = self._values(beginnings)
        yield
        yield from self._each_aim_alone(beginnings, values)
        while self.spent < self.effort:
            yield from self._all_aims(beginnings, values)

    def _each_aim_alone(
        self, beginnings: NDArray[np.int64], values: NDArray[np.float64]
    ) -> Iterator[None]:
        ends = [(row, sign) for row in range(len(values)) for sign in (1.0, -1.0)]
        for turn, (row, sign) in enumerate(ends, 1):
            until = self.effort * _FOR_RANGES * turn / len(ends)
            begin = beginnings[(sign * values[row]).argmin()]
            yield from self._down(begin, partial(self._one_aim, row, sign), until)

    def _one_aim(self, row: int, sign: float, orders: NDArray[np.int64]) -> NDArray[np.float64]:
        value: NDArray[np.float64] = sign * self._values(orders)[row]
        return value

    def _all_aims(
        self, beginnings: NDArray[np.int64], values: NDArray[np.float64]
    ) -> Iterator[None]:
        """From one of the best beginnings down, then shaken and down again while that helps."""
        weights, measures = self._question.plan.orders.weights, self._question.measures
        scoring = scoring_of(weights, measures, self._tally.values)

        def measured(orders: NDArray[np.int64]) -> NDArray[np.float64]:
            return scoring.score(self._values(orders))

        few = np.argsort(scoring.score(values))[:_BEST_BEGINNINGS]
        order = beginnings[self._rng.choice(few)]
        order, value = yield from self._down(order, measured, self.effort)
        misses = 0
        while self.spent < self.effort and misses < _MOST_MISSES:
            begin = shaken(order, self._rules, self._rng)
            other, then = yield from self._down(begin, measured, self.effort)
            misses += 1
            if then < value:
                order, value, misses = other, then, 0

    def _down(
        self, begin: NDArray[np.int64], measured: Measured, until: float
    ) -> Generator[None, None, tuple[NDArray[np.int64], float]]:
        """Go down from an order, and return where that ends, and what it is worth."""
        reached = (begin, np.inf)
        for each in descended(begin, measured, self._rules, self._rng):
            reached = each
            yield
            if self.spent >= until:
                break
        return reached

    def _values(self, orders: NDArray[np.int64]) -> NDArray[np.float64]:
        self.spent += len(orders) * self._way.cost
        values = self._question.values(self._way, orders)
        self._tally.add(self._number, orders, values)
        return values
