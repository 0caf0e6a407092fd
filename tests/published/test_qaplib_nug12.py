"""Twelve places to be assigned, whose best assignment is published: what moves alone can find.

C. E. Nugent, T. E. Vollmann and J. Ruml, An experimental comparison of techniques for the
assignment of facilities to locations, Operations Research 16, 1968, 150-173; as nug12 in QAPLIB
(R. E. Burkard, S. E. Karisch and F. Rendl, Journal of Global Optimization 10, 1997, 391-403) with
its optimum 578. Flows and distances, which are steps on a grid of 3 by 4, were compared number by
number with a copy of the instance in published code.
"""

import numpy as np
from scipy.optimize import quadratic_assignment

from yarncolor.search.admissible import Rules
from yarncolor.search.moves import descended, shaken

FLOWS = """
0 5 2 4 1 0 0 6 2 1 1 1
5 0 3 0 2 2 2 0 4 5 0 0
2 3 0 0 0 0 0 5 5 2 2 2
4 0 0 0 5 2 2 10 0 0 5 5
1 2 0 5 0 10 0 0 0 5 1 1
0 2 0 2 10 0 5 1 1 5 4 0
0 2 0 2 0 5 0 10 5 2 3 3
6 0 5 10 0 1 10 0 0 0 5 0
2 4 5 0 0 1 5 0 0 0 10 10
1 5 2 0 5 5 2 0 0 0 5 0
1 0 2 5 1 4 3 5 10 5 0 2
1 0 2 5 1 0 3 0 10 0 2 0
"""
OPTIMUM = 578


def instance() -> tuple[np.ndarray, np.ndarray]:
    flow = np.array([[int(each) for each in row.split()] for row in FLOWS.split("\n") if row])
    row, column = np.divmod(np.arange(12), 4)
    far = np.abs(row[:, None] - row) + np.abs(column[:, None] - column)
    return flow, far


def test_moves_find_the_published_optimum():
    flow, far = instance()
    assert (flow == flow.T).all()

    def measured(orders: np.ndarray) -> np.ndarray:
        return (flow * far[orders[:, :, None], orders[:, None, :]]).sum(axis=(1, 2)).astype(float)

    free = Rules(np.arange(12), (), (), (), closes=False, goes_round=False)
    rng = np.random.default_rng(1)
    best = np.inf
    for _ in range(8):
        order = rng.permutation(12)
        for _ in range(6):
            *_, (order, value) = descended(order, measured, free, rng)
            best = min(best, value)
            order = shaken(order, free, rng)
    assert best == OPTIMUM
    by_scipy = quadratic_assignment(
        flow, far, method="2opt", options={"rng": np.random.default_rng(1)}
    ).fun
    assert best <= by_scipy
