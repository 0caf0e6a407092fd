"""All orders of ten lots, valued at once, against every permutation its own plan."""

from dataclasses import replace
from itertools import islice, permutations
from time import process_time

import pytest

from tests.helpers.one_by_one import values_of
from tests.helpers.sized_plans import EIGHT_LOTS, fractal_of
from yarncolor import plan_from_data
from yarncolor.plan import Aims, Orders
from yarncolor.search.looking import looked

TEN = (*EIGHT_LOTS, "Rust", "Gull")
ASKED = Orders(aims=Aims(smooth=1, quiet=1, even=1, matched=1))
ALONE = 200


def plan_of(names):
    return replace(plan_from_data(fractal_of(names)), orders=ASKED)


@pytest.mark.parametrize(("names", "times"), [(TEN[:9], 150), (TEN, 350)], ids=["nine", "ten"])
def test_every_order_at_once_is_faster_than_each_alone(benchmark, names, times):
    benchmark.group = f"all orders of {len(names)} lots x (1, 2, 4)"
    benchmark.extra_info["against"] = "ours"
    plan = plan_of(names)
    found = benchmark.pedantic(looked, (plan,), rounds=3)
    started = process_time()
    looked(plan)
    at_once = (process_time() - started) / found.tried
    orders = [
        replace(plan, scheme=replace(plan.scheme, sequence=order))
        for order in islice(permutations(names), 0, None, 1799)
    ][:ALONE]
    started = process_time()
    alone = [values_of(one) for one in orders]
    each = (process_time() - started) / len(orders)
    assert found.exact
    low, high = found.ranges["quiet"]
    assert all(low - 1e-6 <= one["contrast"] <= high + 1e-6 for one in alone)
    assert each / at_once > times


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
