"""Which orders are allowed: held places, neighbours, never neighbours, where it closes."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.plan import Orders
from yarncolor.search.way import Way


@dataclass(frozen=True, eq=False)
class Rules:
    """What an order has to obey, by numbers of lots; of lots that are left out nothing is asked.

    Parameters
    ----------
    lot : (E,) int array
        Lot of each place.
    hold : tuple of pairs
        Lot and place, from 0.
    neighbours, apart : tuples of pairs
        Two lots.
    closes : bool
        Whether the order ends on the lot that it begins with.
    goes_round : bool
        Whether its last place lies beside its first.
    """

    lot: NDArray[np.int64]
    hold: tuple[tuple[int, int], ...]
    neighbours: tuple[tuple[int, int], ...]
    apart: tuple[tuple[int, int], ...]
    closes: bool
    goes_round: bool

    def obeyed(self, orders: NDArray[np.integer]) -> NDArray[np.bool_]:
        """Return which of many orders are allowed: (V,).

        Parameters
        ----------
        orders : (V, E) int array
            For each order, the place from which each place has what stands there.
        """
        allowed = np.ones(len(orders), dtype=np.bool_)
        for each in self._each(orders):
            allowed &= each
        return allowed

    def broken(self, orders: NDArray[np.integer]) -> NDArray[np.int64]:
        """Return how many rules each of many orders breaks: (V,).

        Parameters
        ----------
        orders : (V, E) int array
            As of `obeyed`.
        """
        count = np.zeros(len(orders), dtype=np.int64)
        for each in self._each(orders):
            count += ~each
        return count

    def _each(self, orders: NDArray[np.integer]) -> Iterator[NDArray[np.bool_]]:
        """Yield for each rule which orders obey it."""
        lot = self.lot[orders]
        if lot.shape[1] > 1:
            is_closed: NDArray[np.bool_] = lot[:, 0] == lot[:, -1]
            yield is_closed if self.closes else ~is_closed
        for one, place in self.hold:
            is_held = np.zeros(len(lot), dtype=np.bool_)
            if place < lot.shape[1]:
                is_held |= lot[:, place] == one
            yield is_held
        for one, other in self.neighbours:
            yield np.logical_or.reduce(_side_by_side(lot, one, other), axis=1)
        for one, other in self.apart:
            yield ~np.logical_or.reduce(_side_by_side(lot, one, other), axis=1)
            if self.goes_round:
                yield ~_are(lot[:, -1], lot[:, 0], one, other)


def rules_of(way: Way, asked: Orders, closes: bool) -> Rules:
    """Return what every order of a way has to obey.

    Parameters
    ----------
    way : Way
        Whose places are put in order.
    asked : Orders
        Of the plan.
    closes : bool
        Whether orders end on the lot that they begin with.
    """
    at = {name: way.plan.names.index(name) for name in way.plan.names if name not in way.left_out}
    neighbours, apart = (
        tuple((at[one], at[other]) for one, other in asked_of if one in at and other in at)
        for asked_of in (asked.neighbours, asked.apart)
    )
    hold = tuple((at[name], place - 1) for name, place in asked.hold if name in at)
    return Rules(way.lot, hold, neighbours, apart, closes, way.goes_round)


def _side_by_side(lot: NDArray[np.int64], one: int, other: int) -> NDArray[np.bool_]:
    return _are(lot[:, :-1], lot[:, 1:], one, other)


def _are(
    first: NDArray[np.int64], then: NDArray[np.int64], one: int, other: int
) -> NDArray[np.bool_]:
    are: NDArray[np.bool_] = ((first == one) & (then == other)) | ((first == other) & (then == one))
    return are


def once_each(
    orders: NDArray[np.integer], alike: NDArray[np.int64], rules: Rules, same_reversed: bool
) -> NDArray[np.bool_]:
    """Return which orders are allowed, of those that make the same yarn one: (V,).

    Places of one lot and equal grams stand in today's order. Of an order and its reverse, where
    they make the same yarn, that one stands which begins nearer to where today's begins; the
    other one where that is not allowed.

    Parameters
    ----------
    orders : (V, E) int array
        For each order, the place from which each place has what stands there.
    alike : (E,) int array
        For each place the first that it is alike.
    rules : Rules
        What is allowed.
    same_reversed : bool
        Whether an order and its reverse make the same yarn.
    """
    kept = rules.obeyed(orders)
    for place in np.flatnonzero(alike != np.arange(len(alike))).tolist():
        before = max(at for at in range(place) if alike[at] == alike[place])
        kept &= (orders == before).argmax(axis=1) < (orders == place).argmax(axis=1)
    if same_reversed:
        later = _reverse_comes_first(alike[orders])
        if later.any():
            later[later] = rules.obeyed(orders[later, ::-1]) if rules.hold else True
        kept &= ~later
    return kept


def _reverse_comes_first(alike: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Return which rows are larger, by their first difference, than themselves reversed."""
    larger = np.zeros(len(alike), dtype=np.bool_)
    open_still = np.ones(len(alike), dtype=np.bool_)
    for at in range(alike.shape[1] // 2):
        first, last = alike[:, at], alike[:, -1 - at]
        larger |= open_still & (first > last)
        open_still &= first == last
        if not open_still.any():
            break
    return larger
