"""Every order that was valued, as it comes in: way, places and measures."""

import numpy as np
from numpy.typing import NDArray


class Tally:
    """Orders and what they are worth, in the order in which they were valued.

    Parameters
    ----------
    places : int
        Of the longest order.
    measures : int
        How many are kept of each.
    room : int
        For how many orders to begin with.
    """

    def __init__(self, places: int, measures: int, room: int) -> None:
        self._count = 0
        self._orders = np.empty((room, places), dtype=np.int16 if places > 127 else np.int8)
        self._values = np.empty((measures, room))
        self._begins: list[tuple[int, int]] = []

    def __len__(self) -> int:
        return self._count

    @property
    def values(self) -> NDArray[np.float64]:
        """Each measure of every order: (measures, N)."""
        return self._values[:, : self._count]

    def add(self, way: int, orders: NDArray[np.integer], values: NDArray[np.float64]) -> None:
        """Take orders in.

        Parameters
        ----------
        way : int
            Number of the way that they are of; ways come one after the other, or again.
        orders : (V, E) int array
            The place from which each place has what stands there.
        values : (measures, V) array
            What they are worth.
        """
        start, end = self._count, self._count + len(orders)
        if end > len(self._orders):
            self._grow(end)
        self._orders[start:end, : orders.shape[1]] = orders
        self._values[:, start:end] = values
        if not self._begins or self._begins[-1][1] != way:
            self._begins.append((start, way))
        self._count = end

    def _grow(self, least: int) -> None:
        room = max(least, 2 * len(self._orders))
        orders, values = self._orders, self._values
        self._orders = np.empty((room, orders.shape[1]), dtype=orders.dtype)
        self._values = np.empty((len(values), room))
        self._orders[: self._count] = orders[: self._count]
        self._values[:, : self._count] = values[:, : self._count]

    def ways_of(self, at: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return the way of each of some orders.

        Parameters
        ----------
        at : (K,) int array
            Their numbers.
        """
        starts, ways = np.array(self._begins, dtype=np.int64).T
        found: NDArray[np.int64] = ways[np.searchsorted(starts, at, side="right") - 1]
        return found

    def orders_of(self, at: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return some orders, those of fewer places with anything behind them: (K, places).

        Parameters
        ----------
        at : (K,) int array
            Their numbers.
        """
        return self._orders[at].astype(np.int64)
