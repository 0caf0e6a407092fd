"""Weighing in least squares, against the same sum from a linear programme written down plainly."""

import numpy as np
import pytest
from scipy.optimize import linprog

from tests.helpers.sized_plans import answered, fractal_of
from yarncolor.layout.weighing import weighed

LOTS, STEP_G = 24, 0.1
GROUP = "weighing, 24 lots x (1, 2, 4)"
NEAR = 1e-9


@pytest.fixture(scope="module")
def portions():
    return answered(fractal_of([f"Lot {at}" for at in range(LOTS)])).layout.planned


def exact_steps(portions) -> np.ndarray:
    """Return steps of each row, those of a lot together a whole number of them."""
    total = np.bincount(portions.lot, portions.mass_g / STEP_G)
    return portions.mass_g / STEP_G * (np.floor(total + NEAR) / total)[portions.lot]


def least_squares_by_linprog(portions) -> float:
    """Return the least sum of squared errors, in steps: one line for every bound of a total."""
    steps, rows = exact_steps(portions), len(portions)
    floor = np.floor(steps + NEAR)
    above = steps - floor
    of_lot = np.arange(LOTS)[:, None] == portions.lot
    same_ply = np.arange(3)[:, None] == portions.ply
    shares = (same_ply[:, None] & of_lot).reshape(-1, rows)
    running = np.tri(rows, dtype=bool) & same_ply[portions.ply]
    totals = np.concatenate([shares, running]).astype(float)
    least = np.floor(totals @ steps + NEAR) - totals @ floor
    most = np.ceil(totals @ steps - NEAR) - totals @ floor
    found = linprog(
        (1 - above) ** 2 - above**2,
        A_ub=np.concatenate([totals, -totals]),
        b_ub=np.concatenate([most, -least]),
        A_eq=of_lot.astype(float),
        b_eq=np.rint(of_lot @ above),
        bounds=np.column_stack([np.zeros(rows), np.ceil(above - NEAR)]),
    )
    return float(found.fun + (above**2).sum())


def measured(benchmark, against: str):
    benchmark.group = GROUP
    benchmark.extra_info["against"] = against
    return benchmark


def test_weighing(benchmark, portions):
    found = measured(benchmark, "ours")(weighed, portions, LOTS, STEP_G)
    errors = found.portions.weigh_g / STEP_G - exact_steps(portions)
    assert (errors**2).sum() == pytest.approx(least_squares_by_linprog(portions))


def test_a_linear_programme_written_down(benchmark, portions):
    measured(benchmark, "written down plainly")(least_squares_by_linprog, portions)


def test_a_whole_answer(benchmark):
    """Weighing is a part of it; the ratio is how small a part."""
    data = fractal_of([f"Lot {at}" for at in range(LOTS)])
    assert measured(benchmark, "a whole answer")(answered, data).layout.planned is not None
