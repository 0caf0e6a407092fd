"""From order to order: beginnings that obey the rules, moves, and the way down by them.

Every move is of one of three kinds: two places change with each other, one moves elsewhere, the
places from one to another are turned round. All moves from an order are valued some at a time, in
an order drawn from a seed; the best of the first that are better is taken.
"""

from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from yarncolor.search.admissible import Rules

Measured = Callable[[NDArray[np.int64]], NDArray[np.float64]]
"""From orders (V, E) to what is to be small: (V,)."""

_AT_ONCE = 128
_REPAIRS = 60
_BEGINNINGS = 32
_SHAKEN = 3
_MOST_PAIRS = 1500


@lru_cache(maxsize=4)
def moves(places: int) -> NDArray[np.int64]:
    """Return moves as the place from which each place has what stands there: (moves, E).

    Every one, but of very many places those of some pairs of them.

    Parameters
    ----------
    places : int
        Of an order.
    """
    same = np.arange(places)
    pairs = np.array(list(combinations(range(places), 2)), dtype=np.int64).reshape(-1, 2)
    if len(pairs) > _MOST_PAIRS:
        pairs = np.random.default_rng(places).permutation(pairs)[:_MOST_PAIRS]
    found = []
    for i, j in pairs.tolist():
        between = same[i : j + 1]
        swapped = np.concatenate([[j], between[1:-1], [i]])
        puts = (swapped, between[::-1], np.roll(between, -1), np.roll(between, 1))
        found += [np.concatenate([same[:i], put, same[j + 1 :]]) for put in puts]
    return np.unique(np.array(found, dtype=np.int64).reshape(-1, places), axis=0)


def allowed_beginnings(
    rules: Rules, places: int, count: int, rng: np.random.Generator
) -> NDArray[np.int64]:
    """Return orders that obey the rules, drawn at random and mended: (V, E), V 0 where none was.

    Parameters
    ----------
    rules : Rules
        To be obeyed.
    places : int
        How many.
    count : int
        How many orders are wanted.
    rng : Generator
        What they are drawn from.
    """
    drawn = np.argsort(rng.random((8 * count, places)), axis=1)
    obeyed = drawn[rules.obeyed(drawn)]
    if len(obeyed) >= count or places < 2:
        return obeyed[:count]
    mended = [_mended(order, rules, rng) for order in drawn[: max(count // 4, 8)]]
    return np.array([*obeyed, *(one for one in mended if one is not None)], dtype=np.int64).reshape(
        -1, places
    )[:count]


def _mended(
    order: NDArray[np.int64], rules: Rules, rng: np.random.Generator
) -> NDArray[np.int64] | None:
    """Return an order moved until it obeys the rules; None where that leads nowhere."""
    every = moves(len(order))
    broken = int(rules.broken(order[None])[0])
    for _ in range(_REPAIRS):
        if not broken:
            return order
        some = order[every]
        left = rules.broken(some)
        least = np.flatnonzero(left == left.min())
        order, broken = some[rng.choice(least)], int(left.min())
    return order if not broken else None


def descended(
    order: NDArray[np.int64], measured: Measured, rules: Rules, rng: np.random.Generator
) -> Iterator[tuple[NDArray[np.int64], float]]:
    """Yield an order, and each that is better and one move away, until none is.

    Each is yielded again while nothing better is found, so that others have their turn.

    Parameters
    ----------
    order : (E,) int array
        That obeys the rules.
    measured : callable
        What is to be small.
    rules : Rules
        To be obeyed.
    rng : Generator
        In which order moves are tried.
    """
    every = moves(len(order))
    value = float(measured(order[None])[0])
    yield order, value
    at, since = 0, 0
    drawn = rng.permutation(len(every))
    while since < len(every):
        some = np.take(drawn, np.arange(at, at + min(_AT_ONCE, len(every))), mode="wrap")
        at, since = (at + len(some)) % len(every), since + len(some)
        tried = order[every[some]]
        tried = tried[rules.obeyed(tried)]
        if len(tried):
            values = measured(tried)
            if values.min() < value - 1e-12 * abs(value):
                order, value, since = tried[values.argmin()], float(values.min()), 0
        yield order, value


def shaken(order: NDArray[np.int64], rules: Rules, rng: np.random.Generator) -> NDArray[np.int64]:
    """Return an order some moves away that obeys the rules; itself where none was met.

    Parameters
    ----------
    order : (E,) int array
        That obeys them.
    rules : Rules
        To be obeyed.
    rng : Generator
        Which moves.
    """
    every = moves(len(order))
    for _ in range(_SHAKEN):
        tried = order[every[rng.integers(len(every), size=_BEGINNINGS)]]
        tried = tried[rules.obeyed(tried)]
        if len(tried):
            order = tried[0]
    return order
