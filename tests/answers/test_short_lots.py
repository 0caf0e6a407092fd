"""Lots of which more is taken than there was to divide, on a scale of 0.1 g, by hand."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.short_lots import short_lots

TABLES = {"scheme": {"plies": 2}, "scale": {"step_g": 0.1}}
"""Half of each lot on either ply."""


def short(reserve_g: float = 0.0, *spun: dict) -> list:
    plan = by_hand({"Kelp": 100.0 + reserve_g, "Foam": 100.0}, **TABLES, spun=list(spun))
    plan["lots"][0]["reserve_g"] = reserve_g
    return short_lots(yc.answer(yc.plan_from_data(plan)).layout)


def row_1(mass_g: float) -> dict:
    return {"ply": 1, "row": 1, "mass_g": mass_g}


def test_what_one_ply_took_too_much_the_other_lacks():
    """60 g of 50 g: of the other 50 g 10 g are not there."""
    (one,) = short(0.0, row_1(60.0))
    assert (one.lot, one.to_spin_g, one.reserve_g) == (0, 50, 0)
    assert (one.over_g, one.missing_g, one.short_g) == pytest.approx((10, 10, 10))
    assert (one.from_reserve_g, one.gone_in_g, one.left_g) == pytest.approx((0, 0, 40))


def test_what_was_kept_back_makes_up_for_it():
    (one,) = short(20.0, row_1(60.0))
    assert (one.over_g, one.from_reserve_g) == pytest.approx((10, 10))
    assert (one.missing_g, one.left_g) == pytest.approx((0, 50))


def test_what_goes_beyond_what_was_kept_back_is_missing():
    (one,) = short(4.0, row_1(60.0))
    assert (one.over_g, one.from_reserve_g, one.missing_g) == pytest.approx((10, 4, 6))


def test_more_than_there_ever_was_has_gone_in():
    """110 g of 100 g are on the bobbin already: the other 50 g are missing, and 10 g are owed."""
    (one,) = short(0.0, row_1(110.0))
    assert (one.short_g, one.left_g, one.gone_in_g) == pytest.approx((50, 0, 10))


@pytest.mark.parametrize("reserve_g", [0.0, 20.0])
def test_a_lot_that_is_spun_as_planned_is_not_short(reserve_g):
    assert short(reserve_g, row_1(50.0)) == []
    assert short(reserve_g, row_1(40.0)) == []


@pytest.mark.parametrize(("mass_g", "is_told"), [(50.05, False), (50.1, True), (50.15, True)])
def test_a_lot_is_short_from_one_step_of_the_scale(mass_g, is_told):
    assert bool(short(0.0, row_1(mass_g))) == is_told
