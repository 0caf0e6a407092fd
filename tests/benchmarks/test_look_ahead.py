"""Every single move of twelve places laid out and merged at once, against one after the other."""

import numpy as np
import pytest

from tests.helpers.sized_plans import fractal_of
from yarncolor import plan_from_data
from yarncolor.editing.order import Order
from yarncolor.editing.sequence import reordered
from yarncolor.layout.layout import layout
from yarncolor.layout.many_orders import stretches_of_orders
from yarncolor.layout.resolved import resolve

PLACES = 12
SCHEMES = ("fractal", "matched", "chain")


def moves_of(scheme: str):
    data = fractal_of([f"Lot {at}" for at in range(PLACES)])
    plan = plan_from_data(data | {"scheme": {"name": scheme}})
    order = Order.of_places(PLACES)
    moved = [order.moved(i, j) for i, j in order.moves(range(PLACES))]
    return plan, np.array([each.sources(order) for each in moved])


def one_by_one(plan, sources):
    return [layout(resolve(reordered(plan, order))).stretches for order in sources.tolist()]


def measured(benchmark, scheme, against):
    benchmark.group = f"all moves of {PLACES} places, {scheme}"
    benchmark.extra_info["against"] = against
    return moves_of(scheme)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_all_moves_at_once(benchmark, scheme):
    plan, sources = measured(benchmark, scheme, "ours")
    found = benchmark(stretches_of_orders, plan, resolve(plan), sources)
    assert len(found) == PLACES * (PLACES - 1)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_all_moves_one_by_one(benchmark, scheme):
    plan, sources = measured(benchmark, scheme, "one after the other")
    found = benchmark.pedantic(one_by_one, args=(plan, sources), rounds=3)
    together = stretches_of_orders(plan, resolve(plan), sources)
    for one, other in zip(found, together, strict=True):
        np.testing.assert_array_equal(one.edges_ppb, other.edges_ppb)
        np.testing.assert_array_equal(one.lot, other.lot)
