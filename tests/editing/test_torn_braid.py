"""A braid that is torn into its colours is the same yarn, and has an order that can change."""

import numpy as np

import yarncolor as yc
from tests.helpers.paths import ROOT
from yarncolor.plan import to_data

RIPPLE = yc.read_plan(ROOT / "sample_data" / "ripple.toml")


def test_torn_it_is_the_same_yarn():
    whole, torn = yc.answer(RIPPLE), yc.answer(yc.orders.torn(RIPPLE))
    assert torn.plan.braid is None
    np.testing.assert_array_equal(whole.layout.stretches.lot, torn.layout.stretches.lot)
    assert yc.plan_from_data(to_data(torn.plan)) == torn.plan


def test_its_colours_have_orders_then():
    found = yc.orders.search(yc.variant(yc.orders.torn(RIPPLE), "matched"))
    assert len(found.best) >= 2
    assert sorted(found.best[0].names) == sorted(RIPPLE.scheme.sequence)


def test_a_plan_without_a_braid_stays():
    torn = yc.orders.torn(RIPPLE)
    assert yc.orders.torn(torn) is torn
