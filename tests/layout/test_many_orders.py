"""Many orders at once lead to what each leads to by itself, to the last bit."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.strategies import ORDERED, bare_scheme, plan_data
from yarncolor import plan_from_data
from yarncolor.editing.sequence import names_of_places, reordered
from yarncolor.layout import many_orders
from yarncolor.layout.layout import layout
from yarncolor.layout.many_orders import stretches_of_orders
from yarncolor.layout.resolved import resolve


def one_by_one(plan, sources):
    return [layout(resolve(reordered(plan, order))).stretches for order in sources]


def assert_the_same(found, expected):
    assert len(found) == len(expected)
    for one, other in zip(found, expected, strict=True):
        np.testing.assert_array_equal(one.edges_ppb, other.edges_ppb)
        np.testing.assert_array_equal(one.lot, other.lot)
        assert one.yarn_m == other.yarn_m


@pytest.mark.parametrize("scheme", ORDERED)
@given(st.data())
def test_tables_of_many_orders_are_those_of_each_by_itself(scheme, data):
    plan = plan_from_data(data.draw(plan_data(scheme)))
    places = len(names_of_places(plan))
    sources = data.draw(st.lists(st.permutations(range(places)), min_size=1, max_size=6))
    found = stretches_of_orders(plan, resolve(plan), np.array(sources))
    assert_the_same(found, one_by_one(plan, sources))


def lots(count):
    return [
        {"name": f"Lot {at}", "colour": "#888", "mass_g": 10.0 + at * 1.7} for at in range(count)
    ]


@pytest.mark.parametrize("closing", ["keep", "tail", "share", "halve", "drop", "swap"])
def test_orders_that_close_and_orders_that_do_not_are_told_apart(closing):
    sequence = ["Lot 0", "Lot 1", "Lot 2", "Lot 0"]
    scheme = {"name": "fractal", "divisions": [1, 3], "sequence": sequence, "closing": closing}
    plan = plan_from_data({"lots": lots(3), "scheme": scheme})
    sources = [[0, 1, 2, 3], [1, 0, 2, 3], [3, 2, 1, 0], [0, 3, 1, 2]]
    found = stretches_of_orders(plan, resolve(plan), np.array(sources))
    assert_the_same(found, one_by_one(plan, sources))


@pytest.mark.parametrize("scheme", ["matched", "fractal", "staggered", "flipped", "stepped"])
@pytest.mark.parametrize("wound_off", [0, 1])
def test_orders_of_plies_that_lose_unlike_lengths(scheme, wound_off):
    tables = {
        "spinning": {"single_tex": [200.0, 50.0, 90.0], "twist_tpm": [200.0, 400.0, 300.0]},
        "plying": {"twist_tpm": 180.0, "wound_off": wound_off},
    }
    plan = plan_from_data({"lots": lots(4), "scheme": {"name": scheme, "plies": 3}, **tables})
    assert np.ptp(resolve(plan).yarn.contractions) > 0.01
    sources = [[0, 1, 2, 3], [1, 0, 2, 3], [3, 2, 1, 0], [0, 3, 1, 2]]
    found = stretches_of_orders(plan, resolve(plan), np.array(sources))
    assert_the_same(found, one_by_one(plan, sources))


@pytest.mark.parametrize("scheme", ORDERED)
def test_orders_of_one_kind_need_one_merge(scheme, monkeypatch):
    """A chain is merged once for each number of places where it may change, which are few."""
    merges = []
    real = many_orders.stretches_of_many
    monkeypatch.setattr(
        many_orders, "stretches_of_many", lambda *args: merges.append(1) or real(*args)
    )
    plan = plan_from_data(
        {"lots": lots(6), "scheme": bare_scheme(scheme, [lot["name"] for lot in lots(6)])}
    )
    places = len(names_of_places(plan))
    sources = np.array([np.roll(np.arange(places), shift) for shift in range(places)])
    found = stretches_of_orders(plan, resolve(plan), sources)
    assert len(found) == places
    assert len(merges) == 1 or scheme == "chain"


SPUN = {"spun": [{"ply": 1, "row": 1}]}


@pytest.mark.parametrize(
    "more",
    [
        SPUN,
        {"plied": {"so_far_m": 1.0}},
        SPUN | {"plied": {"ended_ply": 1, "at_m": 60.0}},
        {"target": {"yarn_m": 40.0}},
        {"target": {"yarn_m": 4000.0}},
        {"target": {"yarn_g": 9.0}},
    ],
    ids=["spun", "plied", "ended", "less", "more than there is", "grams"],
)
def test_orders_of_what_is_spun_plied_or_cut_off(more):
    plan = plan_from_data({"lots": lots(4), "scheme": {"name": "matched", "plies": 2}} | more)
    sources = [[0, 1, 2, 3], [1, 0, 2, 3], [0, 3, 1, 2]]
    found = stretches_of_orders(plan, resolve(plan), np.array(sources))
    assert_the_same(found, one_by_one(plan, sources))


@pytest.mark.parametrize("scheme", ["matched", "fractal"])
def test_orders_of_several_alike(scheme):
    plan = plan_from_data({"lots": lots(4), "scheme": {"name": scheme, "plies": 2, "copies": 2}})
    sources = [[0, 1, 2, 3], [1, 0, 2, 3], [0, 3, 1, 2]]
    found = stretches_of_orders(plan, resolve(plan), np.array(sources))
    assert_the_same(found, one_by_one(plan, sources))
