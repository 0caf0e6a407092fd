"""Rows that came onto a bobbin in another order than that of their page."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.spun_order import spun_orders

PORTIONS = [{"ply": 1, "lot": lot, "mass_g": 10.0} for lot in ("Kelp", "Foam", "Kelp", "Slate")]
"""At 1,000 tex 10 m each."""


def orders(*rows: int | tuple[int, float]) -> list:
    """Return what is told of rows spun in this order, as long as planned or as is said."""
    spun = [
        {"ply": 1, "row": one} if isinstance(one, int) else
        {"ply": 1, "row": one[0], "length_m": one[1]}
        for one in rows
    ]  # fmt: skip
    plan = by_hand(
        {"Kelp": 20.0, "Foam": 10.0, "Slate": 10.0},
        scheme={"name": "free", "plies": 1, "portions": PORTIONS},
        spinning={"single_tex": 1000.0},
        spun=spun,
    )
    return list(spun_orders(yc.answer(yc.plan_from_data(plan)).layout.wheel))


def test_two_rows_as_long_that_changed_places():
    (one,) = orders(1, 3, 2, 4)
    assert (one.ply, one.rows, one.swapped, one.last) == (0, (1, 3, 2, 4), (2, 3), 4)
    assert (one.is_equal, one.is_finished, one.is_reverse) == (True, True, False)


def test_two_rows_that_changed_places_and_are_unlike():
    (one,) = orders(1, (3, 12.0), 2)
    assert (one.is_equal, one.is_finished, one.swapped) == (False, False, (2, 3))


def test_three_rows_in_another_order_are_no_two_that_changed_places():
    (one,) = orders(2, 3, 1)
    assert (one.rows, one.swapped) == ((2, 3, 1), None)


@pytest.mark.parametrize("rows", [(1, 2, 3), (3, 2, 1)], ids=["in order", "alike"])
def test_nothing_is_told_of_an_order_that_no_eye_can_tell(rows):
    """Rows 1 and 3 are of one lot and as long."""
    assert orders(*rows) == []


def test_rows_of_one_lot_that_are_unlike_are_in_another_order():
    assert [one.rows for one in orders((3, 12.0), 2, 1)] == [(3, 2, 1)]
