"""How soft the changes along the plies can be at most: a bound below every order's value.

Along a ply every place follows another: a way through all places, once or round and round. No
such way is shorter than the cheapest tree with one edge more, whatever is added to the edges of a
place and taken off again. [1]_

References
----------
.. [1] M. Held and R. M. Karp, The traveling-salesman problem and minimum spanning trees,
   Operations Research 18, 1970, 1138-1162.
"""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from yarncolor.search.between import Between
from yarncolor.search.way import Way

_STEPS = 300
_SLACK = 1e-9
"""What rounding may add to a sum."""


def least_smooth(way: Way, between: Between) -> float:
    """Return a value of `smooth` below which no order of a way lies.

    Parameters
    ----------
    way : Way
        Whose places are put in order.
    between : Between
        How far its lots are apart.
    """
    places = way.places
    if places < 2 or way.resolved.scheme.name == "shuffled":
        return 0.0
    cost = _from_one_to_the_next(way, between)
    beside = np.diagonal(way.follows, 1)
    each = int(beside.min())
    rounds = min(int(way.follows[0, -1]), each) if places > 2 else 0
    total = rounds * shortest_round(cost) + (each - rounds) * shortest_way(cost)
    most_pairs = way.pairs
    if way.resolved.scheme.is_carded:
        steps = way.resolved.scheme.blend_steps
        most_pairs = (places - 1) * (steps + 1) * way.plies
        total = way.plies * shortest_way(cost)
    return max(0.0, total / max(most_pairs, 1) * (1 - _SLACK))


def _from_one_to_the_next(way: Way, between: Between) -> NDArray[np.float64]:
    """Return the difference from each place to each other, carded steps between them summed.

    The smaller of both directions.
    """
    one, other = np.meshgrid(way.lot, way.lot, indexing="ij")
    scheme, lots = way.resolved.scheme, len(way.plan.names)
    if not scheme.is_carded:
        return between.of(one, other)
    steps = scheme.blend_steps
    made = lots + (one * lots + other) * steps
    chain = [one, *(made + j for j in range(steps)), other]
    cost = sum(between.of(a, b) for a, b in pairwise(chain))
    cost = np.where(one == other, 0.0, cost)
    return np.minimum(cost, cost.T)


def shortest_round(cost: NDArray[np.float64]) -> float:
    """Return a length below that of every round through all places.

    Parameters
    ----------
    cost : (n, n) array
        From each place to each other, the same both ways.
    """
    count = len(cost)
    if count < 3:
        return float(2 * cost[0, -1]) if count == 2 else 0.0
    best, added = -np.inf, np.zeros(count)
    step = cost.max() / 2
    for _ in range(_STEPS):
        length, degree = _tree_and_one(cost + added[:, None] + added)
        best = max(best, length - 2 * float(added.sum()))
        if (degree == 2).all():
            break
        added = added + step * (degree - 2)
        step *= 0.97
    return best


def shortest_way(cost: NDArray[np.float64]) -> float:
    """Return a length below that of every way through all places, from any to any.

    It is a round with one place more, which is as near to all as can be.

    Parameters
    ----------
    cost : (n, n) array
        From each place to each other, the same both ways.
    """
    with_one = np.zeros((len(cost) + 1, len(cost) + 1))
    with_one[1:, 1:] = cost
    return max(0.0, shortest_round(with_one))


def _tree_and_one(cost: NDArray[np.float64]) -> tuple[float, NDArray[np.int64]]:
    """Return the cheapest tree of all places but the first with its two cheapest edges.

    Its length, and how many edges each place has.
    """
    count = len(cost)
    degree = np.zeros(count, dtype=np.int64)
    nearest, by = cost[1].copy(), np.ones(count, dtype=np.int64)
    outside = np.ones(count, dtype=np.bool_)
    outside[:2] = False
    length = 0.0
    for _ in range(count - 2):
        one = int(np.where(outside, nearest, np.inf).argmin())
        length += float(nearest[one])
        degree[one] += 1
        degree[by[one]] += 1
        outside[one] = False
        closer = outside & (cost[one] < nearest)
        nearest[closer], by[closer] = cost[one][closer], one
    two = np.argsort(cost[0, 1:])[:2] + 1
    degree[two] += 1
    degree[0] = 2
    return length + float(cost[0, two].sum()), degree
