"""How good an order is among all that were valued: each aim on its own range, then together."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yarncolor.search.aims import AIMS

_NO_RANGE = 1e-7
"""An aim whose best and worst differ by so small a share of the larger says nothing."""


@dataclass(frozen=True, eq=False)
class Scoring:
    """From measures to scores: 0 is best in everything, 1 worst in everything.

    Parameters
    ----------
    aims : tuple of str
        Those that are looked for.
    weight : (aims,) array
        How much each counts; they sum to 1.
    row : (aims,) int array
        Which measure each looks at.
    best, worst : (aims,) arrays
        Of all orders.
    """

    aims: tuple[str, ...]
    weight: NDArray[np.float64]
    row: NDArray[np.int64]
    best: NDArray[np.float64]
    worst: NDArray[np.float64]

    @property
    def tells(self) -> NDArray[np.bool_]:
        """Which aims tell orders apart: (aims,)."""
        larger = np.maximum(np.abs(self.best), np.abs(self.worst))
        return np.asarray(np.abs(self.worst - self.best) > _NO_RANGE * larger)

    def share(self, values: NDArray[np.float64], aim: int) -> NDArray[np.float64]:
        """Return where values lie from best, 0, to worst, 1, of one aim; 0 where it tells nothing.

        Parameters
        ----------
        values : (measures, N) array
            Of orders.
        aim : int
            Number of the aim.
        """
        value = values[self.row[aim]]
        if not self.tells[aim]:
            return np.zeros(value.shape)
        found: NDArray[np.float64] = value - self.best[aim]
        found /= self.worst[aim] - self.best[aim]
        return found

    def score(self, values: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the score of orders: (N,).

        Parameters
        ----------
        values : (measures, N) array
            Of orders.
        """
        total = np.zeros(values.shape[1])
        for aim, weight in enumerate(self.weight.tolist()):
            part = self.share(values, aim)
            part *= weight
            total += part
        return total


def scoring_of(
    weights: tuple[tuple[str, float], ...],
    measures: tuple[str, ...],
    values: NDArray[np.float64],
) -> Scoring:
    """Return how orders are scored, by the best and worst among them.

    Parameters
    ----------
    weights : tuple of pairs
        Aims and how much each counts, above 0.
    measures : tuple of str
        What was valued.
    values : (measures, N) array
        Of all orders.
    """
    aims = tuple(name for name, _ in weights)
    weight = np.array([each for _, each in weights])
    row = np.array([measures.index(AIMS[name].measure) for name in aims])
    low, high = values.min(axis=1)[row], values.max(axis=1)[row]
    more = np.array([AIMS[name].more_is_better for name in aims])
    best, worst = np.where(more, high, low), np.where(more, low, high)
    return Scoring(aims, weight / weight.sum(), row, best, worst)
