"""Bobbins of a single whose pieces came out unlike: they fill by grams, and change by metres.

Planned at 1,000 tex; 12 g came to 6 m, 10 g to 10 m, 14 g to 28 m: 36 g on 44 m.
"""

from itertools import pairwise

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.bobbins import weigh_points

LOTS = {"Kelp": 12.0, "Foam": 10.0, "Slate": 14.0}
SPUN = [
    {"ply": 1, "row": 1, "length_m": 6.0, "mass_g": 12.0},
    {"ply": 1, "row": 2, "length_m": 10.0, "mass_g": 10.0},
    {"ply": 1, "row": 3, "length_m": 28.0, "mass_g": 14.0},
]


def answer_to(capacity_g: float, spun: list[dict] = SPUN, **tables: object):
    plan = by_hand(
        LOTS,
        scheme={"plies": 1},
        spinning={"single_tex": 1000.0},
        bobbins={"capacity_g": capacity_g},
        spun=spun,
        **tables,
    )
    return yc.answer(yc.plan_from_data(plan))


def filled(capacity_g: float, spun: list[dict] = SPUN, **tables: object):
    return answer_to(capacity_g, spun, **tables).bobbins


def changes(found) -> list[float]:
    """Return where each ends; the next begins there, and the first of a strand at nothing."""
    begins_m = [0.0 if one.order == 1 else before.end_m for before, one in pairwise(found)]
    assert [one.start_m for one in found] == [0.0, *begins_m]
    return [one.end_m for one in found]


def test_bobbins_are_changed_where_pieces_end_that_they_hold():
    found = filled(14.0)
    assert changes(found) == pytest.approx([6, 16, 44])
    assert [one.mass_g for one in found] == pytest.approx([12, 10, 14])
    assert [one.ends_with_portion for one in found] == [True] * 3


def test_bobbins_that_end_at_no_piece_hold_as_many_grams_each():
    """Four of 9 g: after 9 g of the 12 g, 6 g of the 10 g, 5 g of the 14 g."""
    found = filled(9.5)
    assert changes(found) == pytest.approx([4.5, 12, 26, 44])
    assert [one.mass_g for one in found] == pytest.approx([9, 9, 9, 9])
    assert [one.ends_with_portion for one in found] == [False, False, False, True]


@pytest.mark.parametrize(("capacity_g", "net_g"), [(14.0, [12, 10, 14]), (9.5, [9, 9, 9, 9])])
def test_a_bobbin_is_weighed_when_it_is_full(capacity_g, net_g):
    found = answer_to(capacity_g)
    points = weigh_points(found.layout, found.bobbins)
    assert [one.net_g for one in points] == pytest.approx(net_g)


def test_each_strand_of_two_holds_half():
    """Two strands of 1,000 tex: the bobbins are changed at the same places, half as heavy."""
    found = filled(7.0, plying={"strands": 2})
    assert changes(found) == pytest.approx([6, 16, 44] * 2)
    assert [one.mass_g for one in found] == pytest.approx([6, 5, 7] * 2)


def named(capacity_g: float) -> list[float]:
    """Two bobbins are in use, of 12 g and of 10 g; row 3 is to spin as planned: 14 g on 14 m."""
    spun = [SPUN[0] | {"bobbin": 1}, SPUN[1] | {"bobbin": 2}]
    return changes(filled(capacity_g, spun))


@pytest.mark.parametrize(
    ("capacity_g", "ends_m"), [(25.0, [6, 30]), (15.0, [6, 16, 30]), (9.0, [6, 16, 23, 30])]
)
def test_the_bobbin_in_use_takes_what_is_still_to_spin_as_far_as_it_holds_it(capacity_g, ends_m):
    """What is too much for a bobbin stays on it where it was spun."""
    assert named(capacity_g) == pytest.approx(ends_m)
