"""The search itself, step by step: whoever runs it sees the best so far, and may stop."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from yarncolor.errors import Fault, PlanError
from yarncolor.plan import Plan
from yarncolor.search.aims import SMOOTH
from yarncolor.search.exactly import every_order, orders_in_all
from yarncolor.search.found import FoundOrders
from yarncolor.search.lower_bound import least_smooth
from yarncolor.search.question import question_of
from yarncolor.search.scoring import Scoring, scoring_of
from yarncolor.search.seeking import EFFORT, seek
from yarncolor.search.tally import Tally

_ROOM = 1 << 16


@dataclass(frozen=True)
class SoFar:
    """How far a search is.

    Parameters
    ----------
    share : float
        Of what it is going to do.
    tried : int
        Orders valued.
    names : tuple of str
        Lots of the best order so far, as they are spun; none where none was allowed yet.
    """

    share: float
    tried: int
    names: tuple[str, ...]


class Looking:
    """A search for the best orders of a plan.

    Run through `steps`, as far as one likes; `found` is what has been found by then.

    Parameters
    ----------
    plan : Plan
        Of a scheme with a sequence; what was spun of it does not count.
    effort : float
        Edges of yarns to value where not every order can be.
    seed : int
        What a search that is not exact draws from.

    Raises
    ------
    PlanError
        Where the scheme has no order.
    """

    def __init__(self, plan: Plan, effort: float = EFFORT, seed: int = 1) -> None:
        self.question = question_of(plan)
        self._effort, self._seed = effort, seed
        room = orders_in_all(self.question) if self.question.exact else _ROOM
        self._tally = Tally(self.question.places, len(self.question.measures), room)
        self._is_done = False
        self._seen, self._best = 0, (np.inf, -1)
        self._scoring: Scoring | None = None

    @property
    def tried(self) -> int:
        """How many orders were valued so far."""
        return len(self._tally)

    def steps(self) -> Iterator[SoFar]:
        """Search, and yield how far that is, several times a second.

        Raises
        ------
        PlanError
            At the end, where no order is allowed.
        """
        question, tally = self.question, self._tally
        exactly = every_order(question, tally)
        for share in exactly if question.exact else seek(question, tally, self._effort, self._seed):
            yield self._so_far(share)
        if not len(tally):
            remedy = "no order obeys all that is asked; ask for less"
            raise PlanError([Fault("", "orders", "", remedy)])
        self._is_done = True

    def found(self) -> FoundOrders:
        """Return what has been found so far.

        Raises
        ------
        PlanError
            Where no order is allowed, or none was met yet.
        """
        question, tally = self.question, self._tally
        if not len(tally):
            raise PlanError([Fault("", "orders", "", "no order was valued yet; go on")])
        first = question.ways[0]
        today = np.arange(first.places)[None]
        return FoundOrders(
            question=question,
            exact=question.exact and self._is_done,
            tally=tally,
            scoring=scoring_of(question.plan.orders.weights, question.measures, tally.values),
            now_values=question.values(first, today)[:, 0],
            now_allowed=bool(question.rules(first).obeyed(today)[0]),
            least_smooth=self._least_smooth(),
        )

    def _least_smooth(self) -> float | None:
        question = self.question
        if SMOOTH not in question.measures or (question.exact and self._is_done):
            return None
        if len(question.ways) < question.ways_in_all:
            return None
        return min(least_smooth(way, question.between) for way in question.ways)

    def _so_far(self, share: float) -> SoFar:
        values = self._tally.values[:, self._seen :]
        if values.shape[1]:
            weights, measures = self.question.plan.orders.weights, self.question.measures
            self._scoring = self._scoring or scoring_of(weights, measures, values)
            score = self._scoring.score(values)
            at = int(score.argmin())
            if score[at] < self._best[0]:
                self._best = (float(score[at]), self._seen + at)
            self._seen = len(self._tally)
        if self._best[1] < 0:
            return SoFar(share, 0, ())
        numbers = np.array([self._best[1]])
        way = self.question.ways[int(self._tally.ways_of(numbers)[0])]
        (order,) = self._tally.orders_of(numbers)
        return SoFar(share, self._seen, way.names_in(order[: way.places]))


def looked(plan: Plan, effort: float = EFFORT, seed: int = 1) -> FoundOrders:
    """Return the best orders of a plan, the whole search made.

    Parameters
    ----------
    plan : Plan
        Of a scheme with a sequence.
    effort : float
        Edges of yarns to value where not every order can be.
    seed : int
        What a search that is not exact draws from.

    Raises
    ------
    PlanError
        Where the scheme has no order, or none is allowed.
    """
    looking = Looking(plan, effort, seed)
    for _ in looking.steps():
        pass
    return looking.found()
