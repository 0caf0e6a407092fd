"""Plies spun from the last row of their page on, and those that a winding put right."""

import numpy as np
import pytest

from tests.helpers.wheels import Bobbin, at_wheel
from yarncolor.layout.turned_round import is_in_reverse, put_right_by_winding

FOUR = [(0, 5.0), (1, 4.0), (2, 6.0), (3, 5.0)]


def ply(*rows: int, planned: list = FOUR) -> Bobbin:
    """Return a ply of which these rows lie there in this order; 0 is a piece too many."""
    return Bobbin(planned, [(row, *(planned[row - 1] if row else (0, 1.0))) for row in rows])


@pytest.mark.parametrize(
    ("bobbin", "reverse"),
    [
        (ply(4, 3, 2, 1), True),
        (ply(4, 3), True),
        (ply(4, 0, 3), True),
        (ply(4), False),
        (ply(), False),
        (ply(1, 2, 3, 4), False),
        (ply(3, 2, 1), False),
        (ply(4, 2), False),
        (ply(4, 3, 1, 2), False),
        (ply(2, 1, planned=FOUR[:2]), False),
        (ply(3, 2, planned=FOUR[:3]), True),
    ],
)
def test_a_ply_is_in_reverse_that_was_spun_from_its_last_row_on(bobbin, reverse):
    wheel = at_wheel([ply(1, 2, planned=FOUR[:3]), bobbin]).wheel
    assert is_in_reverse(wheel, 1) is reverse
    assert is_in_reverse(wheel, 0) is False


STRAIGHT, TURNED = ply(1, 2, 3, planned=FOUR[:3]), ply(4, 3, 2, 1)


@pytest.mark.parametrize(
    ("bobbins", "wound_off", "right"),
    [
        ((STRAIGHT, TURNED), (0, 1), [1]),
        ((STRAIGHT, TURNED), (1, 0), [1]),
        ((STRAIGHT, TURNED), (2, 3), [1]),
        ((STRAIGHT, TURNED, STRAIGHT), (0, 1, 0), [1]),
        ((TURNED, STRAIGHT, STRAIGHT), (1, 0, 2), [0]),
        ((STRAIGHT, TURNED), (0, 0), []),
        ((STRAIGHT, TURNED), (0, 2), []),
        ((STRAIGHT, TURNED, STRAIGHT), (0, 1, 1), []),
        ((STRAIGHT, ply(4, 3, 2)), (0, 1), []),
        ((STRAIGHT, STRAIGHT), (0, 1), []),
        ((TURNED,), (1,), []),
    ],
)
def test_a_ply_in_reverse_comes_off_as_planned_where_it_alone_is_wound_otherwise(
    bobbins, wound_off, right
):
    wheel = at_wheel(list(bobbins)).wheel
    assert put_right_by_winding(wheel, np.array(wound_off)) == right
