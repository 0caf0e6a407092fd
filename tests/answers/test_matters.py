"""What has strayed on the bobbins and what that moves, on plies of four rows of 10 m by hand.

Straight from the bobbin the last row comes off first: a change lies as far along as what was spun
after it. Wound off once, it lies as far along as what was spun before it.
"""

import numpy as np
import pytest

from yarncolor.answers.matters import matters
from yarncolor.layout.off_plan import PlyState

ROWS = (1, 2, 3, 4)


def ply(
    *length_m: float, rows: tuple = ROWS, lots: tuple = (0, 1, 2, 0), turned: bool = False
) -> PlyState:
    return PlyState(
        planned_m=np.full(4, 10.0),
        planned_lot=np.array(lots),
        length_m=np.array(length_m),
        after_row=np.array(rows),
        spun=np.ones(len(length_m), dtype=bool),
        turned=turned,
    )


AS_PLANNED = ply(10, 10, 10, 10)


def found(*plies: PlyState):
    return matters(plies, 0.75, 34.0, 36.0, is_decided=False)


@pytest.mark.parametrize("lots", [(0, 1, 2, 0), (0, 0, 0, 0)], ids=["many", "one"])
def test_where_all_is_as_planned_no_ply_has_strayed(lots):
    told = found(ply(10, 10, 10, 10, lots=lots), AS_PLANNED)
    assert (told.ply, told.surplus_m, told.shift_m, told.moved) == (None, 0, 0, 0)
    assert (told.is_block, told.is_reordered) == (True, False)


def test_what_the_yarn_comes_to_is_told_with_it():
    told = found(AS_PLANNED)
    assert (told.as_planned, told.yarn_m, told.longer_m, told.is_decided) == (0.75, 34, -2, False)
    assert matters([AS_PLANNED], 0.75, 34.0, 36.0, is_decided=True).is_decided


@pytest.mark.parametrize(("turned", "moved"), [(False, 1), (True, 2)])
def test_a_row_too_long_moves_all_changes_that_come_off_behind_it(turned, moved):
    """2 m too many in row 2: before it lies one change, behind it lie two."""
    told = found(AS_PLANNED, ply(10, 12, 10, 10, turned=turned))
    assert (told.ply, told.turned) == (1, turned)
    assert (told.surplus_m, told.shift_m) == (2, 2)
    assert (told.moved, told.changes, told.is_block) == (moved, 3, True)


@pytest.mark.parametrize(("turned", "shift_m"), [(False, -2), (True, 2)])
def test_what_is_made_up_for_in_the_next_row_moves_the_change_between_them_only(turned, shift_m):
    told = found(ply(10, 12, 8, 10, turned=turned), AS_PLANNED)
    assert (told.ply, told.surplus_m, told.shift_m) == (0, 0, shift_m)
    assert (told.moved, told.is_block) == (1, False)


def test_of_changes_that_strayed_the_farthest_is_told():
    """Straight from the bobbin: 1 m sooner after row 3, 4 m later after rows 2 and 1."""
    told = found(ply(10, 10, 15, 9))
    assert (told.shift_m, told.moved) == (4, 3)


def test_what_is_still_to_spin_is_no_surplus():
    """Of three rows on the bobbin, the last a metre short."""
    three = PlyState(
        planned_m=np.full(4, 10.0),
        planned_lot=np.array([0, 1, 2, 0]),
        length_m=np.array([10.0, 10, 9, 10]),
        after_row=np.array(ROWS),
        spun=np.array([True, True, True, False]),
        turned=True,
    )
    assert found(three).surplus_m == -1


@pytest.mark.parametrize(("more_m", "is_told"), [(0.04, False), (0.06, True)])
def test_less_than_five_centimetres_are_as_planned(more_m, is_told):
    told = found(ply(10, 10 + more_m, 10, 10))
    assert (told.ply is not None, told.moved) == (is_told, int(is_told))


def test_a_ply_of_one_colour_strays_at_its_end():
    told = found(AS_PLANNED, ply(10, 10, 10, 13, lots=(0, 0, 0, 0)))
    assert (told.ply, told.surplus_m, told.shift_m, told.changes) == (1, 3, 0, 0)


@pytest.mark.parametrize(("rows", "is_reordered"), [((1, 3, 2, 4), True), ((1, 1, 2, 3, 4), False)])
def test_rows_are_reordered_where_one_lies_after_a_later_one(rows, is_reordered):
    """A piece too many belongs to the row before it."""
    assert found(ply(*(10.0 for _ in rows), rows=rows)).is_reordered == is_reordered
