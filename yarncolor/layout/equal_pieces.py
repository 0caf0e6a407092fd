"""Of all controlled roundings one in which things that are equally large are weighed alike.

How many of each group of equal things go up is pinned, group after group, and a flow tells
whether the rest can follow; what costs more unequal pairs than the best so far is left [1]_.
Small plans are searched to the end; of large ones the best is taken that some milliseconds find.

References
----------
.. [1] A. H. Land and A. G. Doig, An automatic method of solving discrete programming problems,
   Econometrica 28, 1960: branch and bound.
"""

import numpy as np
from numpy.typing import NDArray

from yarncolor.layout.rounding_flow import FREE, Ints, RoundingFlow

_MOST_THINGS = 500
"""Of more things none are sought out: no hand weighs so many."""
_FEWEST_TRIES, _TRIES_OF_THINGS = 20, 2000
"""How often a flow is asked for, and that times the number of things: some milliseconds."""

Costs = NDArray[np.float64]


def fewest_unequal(flow: RoundingFlow) -> Ints:
    """Return 0 or 1 for each thing: a rounding with few unequal pairs among equal things."""
    found = flow.ups(np.full(len(flow.size), FREE, dtype=np.int32))
    if found is None:
        raise ArithmeticError("no controlled rounding was found")
    if len(found) > _MOST_THINGS:
        return found
    search = _Search(flow, found)
    search.pin(0, search.least, found)
    return search.best


class _Search:
    """Depth first through the groups, the largest first; `best` is the best rounding so far."""

    def __init__(self, flow: RoundingFlow, found: Ints) -> None:
        self.flow, self.best, self.cost = flow, found, _unequal(flow, found)
        self.tries = max(_FEWEST_TRIES, _TRIES_OF_THINGS // max(1, len(found)))
        self.pinned = np.full(len(flow.size), FREE, dtype=np.int32)
        largest = np.argsort(-flow.size, kind="stable")
        self.order = largest[flow.size[largest] > 1]
        self.left = flow.ups_of_lot.copy()
        self.ahead, self.least = _ahead(flow, self.order)

    def pin(self, depth: int, least: float, ups: Ints) -> None:
        """Pin the ups of one group after the other, fewest unequal pairs first.

        Parameters
        ----------
        depth : int
            How many groups are pinned.
        least : float
            Unequal pairs that are met at least.
        ups : (I,) int array
            A rounding with these pins.
        """
        self._keep(ups)
        if depth == len(self.order) or self.tries < 0:
            return
        group = int(self.order[depth])
        lot, had = self.flow.lot_of_group[group], int(ups[self.flow.group == group].sum())
        for more, count in self._choices(group, int(self.left[lot]), had):
            if least + more >= self.cost:
                break
            self.pinned[group] = count
            found = ups if count == had else self._tried()
            if found is not None:
                self.left[lot] -= count
                self.pin(depth + 1, least + more, found)
                self.left[lot] += count
        self.pinned[group] = FREE

    def _keep(self, ups: Ints) -> None:
        cost = _unequal(self.flow, ups)
        if cost < self.cost:
            self.best, self.cost = ups, cost

    def _tried(self) -> Ints | None:
        self.tries -= 1
        return self.flow.ups(self.pinned) if self.tries >= 0 else None

    def _choices(self, group: int, left: int, had: int) -> list[tuple[float, int]]:
        """Return by how many more unequal pairs so many ups cost, and how many, best first."""
        size, ahead = int(self.flow.size[group]), self.ahead[group]
        counts = range(max(0, left - len(ahead) + 1), min(size, left) + 1)
        costs = [count * (size - count) + ahead[left - count] for count in counts]
        choices = zip((cost - min(costs) for cost in costs), counts, strict=True)
        return sorted(choices, key=lambda choice: (choice[0], abs(choice[1] - had)))


def _unequal(flow: RoundingFlow, ups: Ints) -> int:
    of_group = flow.of_group(ups)
    return int((of_group * (flow.size - of_group)).sum())


def _ahead(flow: RoundingFlow, order: NDArray[np.int64]) -> tuple[dict[int, Costs], float]:
    """Return what is met at least behind each group, by ups left of its lot; and in all.

    Running totals are left aside, so that each lot is looked at by itself.
    """
    alone = np.bincount(flow.lot_of_group, flow.size == 1, len(flow.ups_of_lot)).astype(int)
    of_lot = [np.zeros(count + 1) for count in alone]
    ahead = {}
    for group in order[::-1]:
        lot = flow.lot_of_group[group]
        ahead[int(group)] = of_lot[lot]
        of_lot[lot] = _with_group(of_lot[lot], int(flow.size[group]))
    least = sum(costs[ups] for costs, ups in zip(of_lot, flow.ups_of_lot, strict=True))
    return ahead, float(least)


def _with_group(ahead: Costs, size: int) -> Costs:
    """Return the least unequal pairs by ups left, with a group of so many before the others."""
    costs = np.full(len(ahead) + size, np.inf)
    for count in range(size + 1):
        here = costs[count : count + len(ahead)]
        np.minimum(here, ahead + count * (size - count), out=here)
    return costs
