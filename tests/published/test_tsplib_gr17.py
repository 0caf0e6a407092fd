"""Seventeen places whose shortest round is published: soft changes are such a way.

G. Reinelt, TSPLIB, a traveling salesman problem library, ORSA Journal on Computing 3, 1991,
376-384: the instance gr17, with its optimum 2085. The distances were compared number by number
with published copies of the file. That their shortest round is 2085 is reckoned below by the
dynamic programme of M. Held and R. M. Karp, A dynamic programming approach to sequencing problems,
Journal of SIAM 10, 1962, 196-210.
"""

from dataclasses import replace
from itertools import pairwise, permutations

import numpy as np
import pytest

from yarncolor import plan_from_data
from yarncolor.plan import Aims, Orders
from yarncolor.search.between import Between
from yarncolor.search.lower_bound import least_smooth, shortest_round, shortest_way
from yarncolor.search.question import question_of
from yarncolor.search.seeking import seek
from yarncolor.search.tally import Tally

BELOW_THE_DIAGONAL = (
    *(633, 257, 390, 91, 661, 228, 412, 227, 169, 383, 150, 488, 112, 120, 267),
    *(80, 572, 196, 77, 351, 63, 134, 530, 154, 105, 309, 34, 29),
    *(259, 555, 372, 175, 338, 264, 232, 249, 505, 289, 262, 476, 196, 360, 444, 402, 495),
    *(353, 282, 110, 324, 61, 208, 292, 250, 352, 154),
    *(324, 638, 437, 240, 421, 329, 297, 314, 95, 578, 435),
    *(70, 567, 191, 27, 346, 83, 47, 68, 189, 439, 287, 254),
    *(211, 466, 74, 182, 243, 105, 150, 108, 326, 336, 184, 391, 145),
    *(268, 420, 53, 239, 199, 123, 207, 165, 383, 240, 140, 448, 202, 57),
    *(246, 745, 472, 237, 528, 364, 332, 349, 202, 685, 542, 157, 289, 426, 483),
    *(121, 518, 142, 84, 297, 35, 29, 36, 236, 390, 238, 301, 55, 96, 153, 336),
)
PLACES, SHORTEST_ROUND = 17, 2085.0


def distances() -> np.ndarray:
    table = np.zeros((PLACES, PLACES))
    table[np.tril_indices(PLACES, -1)] = BELOW_THE_DIAGONAL
    return table + table.T


def shortest_by_subsets(cost: np.ndarray) -> float:
    """Return the shortest round, by the best way from place 0 through each subset to its last."""
    count = len(cost) - 1
    own, bits = cost[1:, 1:], 1 << np.arange(count)
    best = np.full((1 << count, count), np.inf)
    best[bits, np.arange(count)] = cost[0, 1:]
    subsets = np.arange(1 << count)
    sizes = np.array([bin(subset).count("1") for subset in subsets])
    for size in range(2, count + 1):
        some = subsets[sizes == size]
        for at in range(count):
            with_it = some[some & bits[at] > 0]
            best[with_it, at] = (best[with_it ^ bits[at]] + own[:, at]).min(axis=1)
    return float((best[-1] + cost[1:, 0]).min())


@pytest.mark.oracle
def test_the_distances_are_those_of_the_instance():
    assert len(BELOW_THE_DIAGONAL) == PLACES * (PLACES - 1) // 2
    assert shortest_by_subsets(distances()) == SHORTEST_ROUND


def test_no_round_is_shorter_than_the_bound_and_the_bound_is_near():
    bound = shortest_round(distances())
    assert 0.99 * SHORTEST_ROUND < bound <= SHORTEST_ROUND + 1e-6


def test_the_search_finds_the_shortest_round():
    """A single that runs through the same places over and over is nearly all rounds."""
    lots = [{"name": f"Lot {at}", "colour": "#888", "mass_g": 5.0 + at} for at in range(PLACES)]
    scheme = {"name": "fractal", "divisions": [64]}
    plan = plan_from_data({"lots": lots, "scheme": scheme})
    asked = replace(plan, orders=Orders(aims=Aims(smooth=1)))
    table = distances()
    question = replace(question_of(asked), between=Between(np.zeros((PLACES, 3)), table))
    (way,) = question.ways
    tally = Tally(PLACES, 1, 8)
    for _ in seek(question, tally, effort=4e6, seed=1):
        pass
    number = int(tally.values[0].argmin())
    (order,) = tally.orders_of(np.array([number]))
    along = table[order[:-1], order[1:]].sum()
    closed = along + table[order[-1], order[0]]
    pairs = 64 * 16 + 63
    whole = 64 * along + 63 * table[order[-1], order[0]]
    assert tally.values[0, number] == pytest.approx(whole / pairs)
    assert closed == SHORTEST_ROUND
    bound = least_smooth(way, question.between)
    assert bound <= tally.values[0, number] < 1.01 * bound


def test_the_bound_of_a_way_is_below_every_way():
    table = distances()[:8, :8]
    shortest = shortest_way_of_eight(table)
    assert 0.9 * shortest < shortest_way(table) <= shortest + 1e-9


def shortest_way_of_eight(cost: np.ndarray) -> float:
    """Return the shortest way through eight places, by looking at every one."""
    return min(sum(cost[a, b] for a, b in pairwise(order)) for order in permutations(range(8)))
