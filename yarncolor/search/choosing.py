"""Which of many orders are shown: the best that differ, and those that nothing beats."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from yarncolor.search.scoring import Scoring

_BEST_OF = 50_000
_SAME = 1e-9
"""Of an aim's range: what differs by less is the same."""
_SIEVES = 12
_AT_ONCE = 1 << 18


def best_that_differ(
    score: NDArray[np.float64],
    differ: Callable[[int, NDArray[np.int64]], NDArray[np.bool_]],
    count: int,
) -> list[int]:
    """Return the best orders of which each differs enough from every better one.

    Parameters
    ----------
    score : (N,) array
        Less is better.
    differ : callable
        Of one order and some, by their numbers: which of those differ enough from it.
    count : int
        How many at most.
    """
    few = min(_BEST_OF, len(score))
    for least in (few, len(score)):
        pool = np.argpartition(score, least - 1)[:least].copy()
        left = pool[np.lexsort((pool, score[pool]))]
        found: list[int] = []
        while len(left) and len(found) < count:
            found.append(int(left[0]))
            left = left[1:][differ(found[-1], left[1:])]
        if len(found) == count or few == len(score):
            break
    return found


def front(values: NDArray[np.float64], scoring: Scoring, most: int) -> list[int]:
    """Return the orders that none beats on all aims, one for each set of values, best score first.

    Of orders that rise in score each is beaten by none or by one before it, so that the first
    that stands is always of the front.

    Parameters
    ----------
    values : (measures, N) array
        Of all orders.
    scoring : Scoring
        Which aims count, and how much.
    most : int
        So many are returned, those of the best score.
    """
    counts = np.flatnonzero(scoring.tells)
    if not len(counts):
        return [0]
    weight = scoring.weight[counts]
    sieve = _Sieve(_weights(weight))
    kept = [
        sieve.left(first, _whole_shares(values[:, first : first + _AT_ONCE], scoring, counts))
        for first in range(0, values.shape[1], _AT_ONCE)
    ]
    at = np.concatenate([each for each, _ in kept])
    return _by_score(at, np.concatenate([each for _, each in kept], axis=1), weight, most)


def _whole_shares(
    values: NDArray[np.float64], scoring: Scoring, aims: NDArray[np.int64]
) -> NDArray[np.float64]:
    """Return where values lie on the range of each aim, in whole billionths: (aims, N)."""
    return np.rint(np.stack([scoring.share(values, aim) for aim in aims.tolist()]) / _SAME)


class _Sieve:
    """The orders that are best, so far, when aims are weighed in one way and another.

    None of them is beaten by another order; most orders are beaten by one of them.
    """

    def __init__(self, weights: NDArray[np.float64]) -> None:
        self._weights = weights
        self._least = np.full(len(weights), np.inf)
        self._best = np.full((weights.shape[1], len(weights)), np.inf)

    def left(
        self, first: int, share: NDArray[np.float64]
    ) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
        """Return those of some orders that are not beaten so far, by number and share.

        Parameters
        ----------
        first : int
            Number of the first of them.
        share : (aims, N) array
            Of each.
        """
        at = np.arange(share.shape[1])
        for best in self._best.T:
            at = at[_not_beaten(share[:, at], best)]
        stand: list[int] = []
        for number, weights in enumerate(self._weights):
            if not len(at):
                break
            weighed = weights @ share[:, at]
            one = int(weighed.argmin())
            if weighed[one] < self._least[number]:
                self._least[number], self._best[:, number] = weighed[one], share[:, at[one]]
            stand.append(int(at[one]))
            at = at[_not_beaten(share[:, at], share[:, stand[-1]])]
        at = np.sort(np.append(at, np.array(stand, dtype=np.int64)))
        return at + first, share[:, at]


def _by_score(
    at: NDArray[np.int64], share: NDArray[np.float64], weight: NDArray[np.float64], most: int
) -> list[int]:
    found: list[int] = []
    score = weight @ share
    while len(at) and len(found) < most:
        one = int(score.argmin())
        found.append(int(at[one]))
        stands = _not_beaten(share, share[:, one])
        at, share, score = at[stands], share[:, stands], score[stands]
    return found


def _not_beaten(share: NDArray[np.float64], by: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which orders are better than another on one aim at least."""
    better: NDArray[np.bool_] = share[0] < by[0]
    for own, other in zip(share[1:], by[1:], strict=True):
        better |= own < other
    return better


def _weights(weight: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the aims' own weights, then others between each aim nearly alone: (K, aims)."""
    alone = np.eye(len(weight)) + 1e-3
    between = np.random.default_rng(1).dirichlet(np.ones(len(weight)), _SIEVES) + 1e-3
    return np.vstack([weight, alone, between])
