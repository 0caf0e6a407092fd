"""Pieces drawn off and pieces more, reckoned by hand: a metre weighs a tenth of a gram."""

import numpy as np
import pytest

from tests.helpers.wheels import as_planned, at_wheel, lengths_m
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.pieces_changed import (
    ExtraPiece,
    ends_drawn_off,
    spun_otherwise,
    with_extra,
)

SIX = [(0, 5.0), (1, 4.0), (2, 6.0), (0, 5.0), (1, 4.0), (2, 6.0)]


def spun_of_two(first: int, second: int) -> BobbinPieces:
    """Return two plies of six rows of which so many are spun, all told to be of repeat 7, copy 3.

    Repeats and copies are no part of what lies there: they only show whose were taken.
    """
    wheel = at_wheel([as_planned(SIX, first), as_planned(SIX, second)]).wheel
    wheel.pieces.repeat[:], wheel.pieces.copy[:] = 7, 3
    return wheel


def drawn(wheel: BobbinPieces) -> list[tuple]:
    gone = wheel.drawn_off
    columns = (gone.ply, gone.lot, gone.length_m, gone.mass_g)
    return [tuple(row) for row in zip(*(one.tolist() for one in columns), strict=True)]


def test_what_is_drawn_off_is_kept_in_mind_piece_by_piece():
    """Of 6 m and 4 m on the outer end of ply 2, 8 m: the one whole, 2 m of the other."""
    left = ends_drawn_off(spun_of_two(6, 6), np.array([0.0, 8.0]))
    assert lengths_m(left, 0) == pytest.approx([5, 4, 6, 5, 4, 6])
    assert lengths_m(left, 1) == pytest.approx([5, 4, 6, 5, 2])
    assert drawn(left) == [pytest.approx(row) for row in ((1, 1, 2, 0.2), (1, 2, 6, 0.6))]


def test_what_is_drawn_off_later_comes_to_what_was_drawn_off_before():
    once = ends_drawn_off(spun_of_two(6, 6), np.array([0.0, 8.0]))
    twice = ends_drawn_off(once, np.array([1.5, 0.0]))
    rows = ((1, 1, 2, 0.2), (1, 2, 6, 0.6), (0, 2, 1.5, 0.15))
    assert sorted(drawn(twice)) == [pytest.approx(row) for row in sorted(rows)]
    assert lengths_m(twice, 0) == pytest.approx([5, 4, 6, 5, 4, 4.5])


def test_nothing_drawn_off_leaves_the_pieces_as_they_are():
    wheel = spun_of_two(6, 6)
    assert ends_drawn_off(wheel, np.zeros(2)) is wheel


EXTRA = [ExtraPiece(1, 2, 0.3), ExtraPiece(1, 0, 0.2, length_m=4.0)]
"""With a tenth lost in spinning 0.27 g, 2.7 m, and 0.18 g, drawn out to 4 m: 45 tex."""


def of_ply_2(wheel: BobbinPieces, values: np.ndarray) -> list:
    return values[wheel.pieces.of_ply(1)].tolist()


def test_pieces_more_lie_between_what_is_spun_and_what_is_to_be_spun():
    found = with_extra(spun_of_two(6, 2), EXTRA, np.array([6, 2]), 0.1)
    pieces = found.pieces
    assert lengths_m(found, 0) == [5, 4, 6, 5, 4, 6]
    assert lengths_m(found, 1) == pytest.approx([5, 4, 2.7, 4, 6, 5, 4, 6])
    assert of_ply_2(found, pieces.lot) == [0, 1, 2, 0, 2, 0, 1, 2]
    assert of_ply_2(found, pieces.tex)[2:4] == pytest.approx([100, 45])
    assert of_ply_2(found, found.row) == [1, 2, 0, 0, 3, 4, 5, 6]
    assert of_ply_2(found, found.after_row) == [1, 2, 2, 2, 3, 4, 5, 6]
    assert of_ply_2(found, found.spun) == [True, True] + [False] * 6
    assert of_ply_2(found, found.as_planned)[2:4] == [False, False]
    assert of_ply_2(found, found.is_measured)[2:4] == [False, False]
    assert of_ply_2(found, found.bobbin)[2:4] == [0, 0]
    assert of_ply_2(found, pieces.repeat) == [7] * 8
    assert of_ply_2(found, pieces.copy) == [3] * 8
    unknown = (found.net_g, found.planned_mass_g, pieces.weigh_g)
    assert np.isnan([of_ply_2(found, values)[2:4] for values in unknown]).all()


def test_before_anything_is_spun_pieces_more_come_first():
    found = with_extra(spun_of_two(6, 0), EXTRA, np.array([6, 0]), 0.1)
    assert lengths_m(found, 1)[:3] == pytest.approx([2.7, 4, 5])
    assert of_ply_2(found, found.after_row)[:3] == [0, 0, 1]
    assert of_ply_2(found, found.pieces.repeat)[:3] == [1, 1, 7]
    assert of_ply_2(found, found.pieces.copy)[:3] == [1, 1, 3]


def test_pieces_more_that_are_plied_already_weigh_what_spinning_left_of_them():
    found = with_extra(spun_of_two(6, 6), EXTRA, np.array([6, 6]), 0.1, spun=True)
    assert of_ply_2(found, found.spun) == [True] * 8
    assert of_ply_2(found, found.net_g)[6:] == pytest.approx([0.27, 0.18])
    assert of_ply_2(found, found.after_row)[6:] == [6, 6]


def test_after_the_very_first_piece_a_piece_more_belongs_to_that_one():
    wheel = spun_of_two(1, 6)
    wheel.pieces.repeat[0] = 5
    found = with_extra(wheel, [ExtraPiece(0, 2, 0.3)], np.array([1, 6]), 0.1)
    assert found.pieces.repeat[:3].tolist() == [5, 5, 7]
    assert found.after_row[:3].tolist() == [1, 1, 2]


def test_only_what_is_to_be_spun_is_spun_otherwise_and_a_ply_without_a_factor_as_before():
    found = spun_otherwise(spun_of_two(4, 5), np.array([1.25, np.nan]))
    assert lengths_m(found, 0) == pytest.approx([5, 4, 6, 5, 5, 7.5])
    assert found.pieces.tex[:6] == pytest.approx([100, 100, 100, 100, 80, 80])
    assert lengths_m(found, 1) == pytest.approx([5, 4, 6, 5, 4, 6])
    assert found.pieces.tex[6:] == pytest.approx(100)
