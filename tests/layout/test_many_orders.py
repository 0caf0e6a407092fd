"""Many orders at once lead to what each leads to by itself, to the last bit."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.strategies import ORDERED, bare_scheme, plan_data
from yarncolor import plan_from_data
from yarncolor.editing.sequence import names_of_places, reordered
from yarncolor.layout import many_orders
from yarncolor.layout.carded_steps import pair_parts
from yarncolor.layout.layout import layout
from yarncolor.layout.many_orders import mixes_of_orders, scheme_inputs, stretches_of_orders
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


def gradient(steps: int, *sequence: str):
    """Return a gradient of three lots with so many steps carded between neighbours."""
    order = list(sequence or ("Lot 0", "Lot 1", "Lot 2"))
    scheme = {"name": "gradient", "plies": 2, "blend_steps": steps, "sequence": order}
    return plan_from_data({"lots": lots(3), "scheme": scheme})


def test_what_is_carded_in_each_order_has_the_parts_of_its_neighbours():
    """Two steps are 2 : 1 and 1 : 2, from the lot that is spun first to the next."""
    plan = gradient(2)
    found = mixes_of_orders(plan, resolve(plan), np.array([[0, 1, 2], [2, 0, 1], [0, 1, 2]]))
    as_it_is = ((0, 1, 2, 1), (0, 1, 1, 2), (1, 2, 2, 1), (1, 2, 1, 2))
    turned = ((2, 0, 2, 1), (2, 0, 1, 2), (0, 1, 2, 1), (0, 1, 1, 2))
    assert found == [as_it_is, turned, as_it_is]


def test_parts_are_the_smallest_whole_numbers_and_a_mix_is_carded_once():
    """Of three steps the middle one is half and half; Lot 0 comes before Lot 1 twice."""
    plan = gradient(3, "Lot 0", "Lot 1", "Lot 0", "Lot 1")
    (found,) = mixes_of_orders(plan, resolve(plan), np.array([[0, 1, 2, 3]]))
    there = ((0, 1, 3, 1), (0, 1, 1, 1), (0, 1, 1, 3))
    back = ((1, 0, 3, 1), (1, 0, 1, 1), (1, 0, 1, 3))
    assert found == there + back


def test_neighbours_of_one_lot_need_no_step():
    """Orders of both kinds, answered in the order in which they were asked."""
    plan = gradient(1, "Lot 0", "Lot 1", "Lot 0", "Lot 2")
    sources = np.array([[0, 1, 2, 3], [0, 2, 1, 3], [1, 0, 2, 3], [3, 2, 1, 0]])
    found = mixes_of_orders(plan, resolve(plan), sources)
    assert found == [
        ((0, 1, 1, 1), (1, 0, 1, 1), (0, 2, 1, 1)),
        ((0, 1, 1, 1), (1, 2, 1, 1)),
        ((1, 0, 1, 1), (0, 2, 1, 1)),
        ((2, 0, 1, 1), (0, 1, 1, 1), (1, 0, 1, 1)),
    ]


def test_without_steps_nothing_is_carded_in_any_order():
    plan = gradient(0)
    sources = np.array([[0, 1, 2], [2, 1, 0]])
    assert mixes_of_orders(plan, resolve(plan), sources) == [(), ()]


def test_a_step_has_one_number_in_every_order_and_grams_of_both_its_neighbours():
    """Lots of 10, 11.7 and 13.4 g, one step: half of the lesser neighbour, half from each side."""
    plan = gradient(1)
    sources = np.array([[0, 1, 2], [2, 0, 1]])
    ((orders, given),) = scheme_inputs(plan, resolve(plan), sources)
    assert orders == [0, 1]
    assert given.place.tolist() == [1, 0, 2, 0, 3]
    assert given.lot.tolist() == [[0, 3 + 1, 1, 3 + 5, 2], [2, 3 + 6, 0, 3 + 1, 1]]
    assert given.mass_g[0] == pytest.approx([7.5, 5.0, 6.275, 5.85, 10.475])
    assert given.mass_g[1] == pytest.approx([10.9, 5.0, 5.0, 5.0, 9.2])


def test_what_a_numbered_step_is_made_of():
    """Of two lots and two steps: from each lot to each, 2 : 1 and then 1 : 2."""
    from_first = [[3, 0], [3, 0], [2, 1], [1, 2]]
    from_second = [[1, 2], [2, 1], [0, 3], [0, 3]]
    assert pair_parts(2, 2).tolist() == from_first + from_second


def test_orders_of_a_fade_that_leave_out_unlike_places_are_told_apart():
    """Lot 1 is kept back whole, so that its place has no grams, wherever it stands."""
    kept = [
        lot | ({"reserve_g": lot["mass_g"]} if at == 1 else {}) for at, lot in enumerate(lots(4))
    ]
    scheme = {"name": "fade", "from": ["Lot 0", "Lot 1"], "to": ["Lot 2", "Lot 3"]}
    plan = plan_from_data({"lots": kept, "scheme": scheme})
    sources = [[0, 1, 2, 3], [1, 0, 2, 3], [0, 2, 1, 3], [3, 2, 1, 0]]
    found = stretches_of_orders(plan, resolve(plan), np.array(sources))
    assert_the_same(found, one_by_one(plan, sources))


def test_where_nothing_is_carded_no_order_has_a_mix():
    plan = plan_from_data({"lots": lots(3)})
    sources = np.array([[0, 1, 2], [2, 1, 0]])
    assert mixes_of_orders(plan, resolve(plan), sources) == [(), ()]


def test_orders_with_carded_steps_are_each_as_by_itself():
    scheme = {"name": "gradient", "plies": 2, "blend_steps": 2}
    plan = plan_from_data({"lots": lots(3), "scheme": scheme})
    sources = [[0, 1, 2], [2, 0, 1], [1, 2, 0]]
    found = stretches_of_orders(plan, resolve(plan), np.array(sources))
    assert_the_same(found, one_by_one(plan, sources))
    assert [len(one.lot) for one in found] == [7, 7, 7]
