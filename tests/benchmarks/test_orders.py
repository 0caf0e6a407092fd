"""All orders of ten lots, valued at once, against every permutation its own plan."""

import os
import subprocess
import sys
from dataclasses import replace
from itertools import islice, permutations
from time import process_time

import pytest

from tests.helpers.one_by_one import values_of
from tests.helpers.paths import ROOT
from tests.helpers.sized_plans import EIGHT_LOTS, fractal_of
from yarncolor import plan_from_data
from yarncolor.plan import Aims, Orders
from yarncolor.search.looking import looked

TEN = (*EIGHT_LOTS, "Rust", "Gull")
ASKED = Orders(aims=Aims(smooth=1, quiet=1, even=1, matched=1))
ALONE = 200


def plan_of(names):
    return replace(plan_from_data(fractal_of(names)), orders=ASKED)


@pytest.mark.parametrize("names", [TEN[:9], TEN], ids=["nine", "ten"])
def test_every_order_at_once(benchmark, names):
    benchmark.group = f"all orders of {len(names)} lots x (1, 2, 4)"
    benchmark.extra_info["against"] = "ours"
    found = benchmark.pedantic(looked, (plan_of(names),), rounds=3)
    alone = [values_of(one) for one in some_orders(names)]
    low, high = found.ranges["quiet"]
    assert found.exact
    assert all(low - 1e-6 <= one["contrast"] <= high + 1e-6 for one in alone)


def some_orders(names) -> list:
    """Return plans of some of the orders, far apart."""
    plan = plan_of(names)
    every = islice(permutations(names), 0, None, 1799)
    return [replace(plan, scheme=replace(plan.scheme, sequence=one)) for one in every][:ALONE]


def times_faster(names) -> float:
    """Return how many times as long an order alone takes as one of all at once, by this process."""
    plan, orders = plan_of(names), some_orders(names)
    found = looked(plan)
    started = process_time()
    looked(plan)
    at_once = (process_time() - started) / found.tried
    started = process_time()
    for one in orders:
        values_of(one)
    return (process_time() - started) / len(orders) / at_once


@pytest.mark.thorough
@pytest.mark.parametrize(("count", "times"), [(9, 150), (10, 350)], ids=["nine", "ten"])
def test_every_order_at_once_is_faster_than_each_alone(count, times):
    """In a process of one thread: several would wait for each other beside other tests."""
    code = (
        "from tests.benchmarks.test_orders import TEN, times_faster; "
        f"print(times_faster(TEN[:{count}]))"
    )
    one_thread = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"), "1")
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        env={**os.environ, **one_thread},
        capture_output=True,
        text=True,
        check=True,
    )
    assert float(done.stdout) > times


def test_the_front_of_two_aims(benchmark):
    benchmark.group = "scores, the best six and the front of two aims, ten lots"
    benchmark.extra_info["against"] = "ours"
    plan = replace(plan_of(TEN), orders=Orders(aims=Aims(smooth=1, quiet=1)))
    found = looked(plan)

    def shown():
        anew = replace(found)
        return anew.best, anew.front

    best, front = benchmark.pedantic(shown, rounds=3)
    assert best[0].score == min(found.score)
    assert front[0].score == pytest.approx(best[0].score)
