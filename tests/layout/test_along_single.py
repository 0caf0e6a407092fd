"""Grams and metres along singles, what marks rows, where copies end and most is seen: by hand."""

from dataclasses import replace
from zlib import crc32

import numpy as np
import pytest

from yarncolor.layout.along_single import keeps_grist, net_g_at, place_m_of
from yarncolor.layout.portions import Portions
from yarncolor.layout.rows_mark import rows_mark
from yarncolor.layout.stretches import (
    colours_side_by_side,
    longest_of_most_colours,
    stretches,
)
from yarncolor.layout.winding import Strands

NAMES = ("Kelp", "Foam")


def two_plies() -> Portions:
    """Return 10 m of 100 tex and 20 m of 200 tex on the first ply, 5 m of 100 tex on the other.

    They weigh 1 g, 4 g and half a gram.
    """
    whole = np.ones(3, dtype=np.int64)
    return Portions(
        ply=np.array([0, 0, 1]),
        place=np.array([1, 2, 1]),
        repeat=whole,
        copy=whole,
        lot=np.array([0, 1, 0]),
        mass_g=np.array([1.0, 4.0, 0.5]),
        tex=np.array([100.0, 200.0, 100.0]),
        length_m=np.array([10.0, 20.0, 5.0]),
        weigh_g=np.array([1.0, 4.0, 0.5]),
    )


@pytest.mark.parametrize(("at_m", "net_g"), [(0, 0), (5, 0.5), (10, 1), (15, 2), (30, 5), (99, 5)])
def test_grams_along_a_single_of_two_grists(at_m, net_g):
    assert net_g_at(two_plies(), 0, at_m) == pytest.approx(net_g)


def test_so_many_grams_reach_to_where_they_were_spun():
    places_m = place_m_of(two_plies(), 0, np.array([0.0, 0.25, 1.0, 3.0, 5.0, 6.0]))
    assert places_m == pytest.approx([0.0, 2.5, 10.0, 20.0, 30.0, 30.0])
    assert place_m_of(two_plies(), 1, np.array([0.25])) == pytest.approx([2.5])


def test_metres_to_grams_and_back():
    at_m = np.linspace(0.0, 30.0, 61)
    again_m = place_m_of(two_plies(), 0, net_g_at(two_plies(), 0, at_m))
    assert again_m == pytest.approx(at_m)


def test_a_single_is_of_one_grist_or_is_not():
    assert not keeps_grist(two_plies(), 0, 100.0)
    assert keeps_grist(two_plies(), 1, 100.0)
    assert not keeps_grist(two_plies(), 1, 200.0)


def test_rows_are_marked_by_what_stands_on_their_page():
    """CRC-32 (ISO 3309), eight hexadecimal digits, of ply, row, grams and lot, a row a line."""
    text = "0 1 1.000000 Kelp\n0 2 4.000000 Foam\n1 1 0.500000 Kelp"
    assert int(rows_mark(two_plies(), NAMES), 16) == crc32(text.encode())
    assert len(rows_mark(two_plies(), NAMES)) == 8


def test_a_mark_has_eight_digits_even_where_the_first_is_naught():
    some = (replace(two_plies(), mass_g=np.array([1.0, 4.0, g / 100])) for g in range(1, 60))
    marks = [rows_mark(one, NAMES) for one in some]
    assert {len(mark) for mark in marks} == {8}
    assert any(mark.startswith("0") for mark in marks)
    assert len({*marks}) == 59


@pytest.mark.parametrize(
    "change",
    [
        {"mass_g": np.array([1.0, 4.0, 0.500001])},
        {"lot": np.array([0, 1, 1])},
        {"ply": np.array([0, 1, 1])},
    ],
    ids=["a microgram", "another lot", "another ply"],
)
def test_other_rows_have_another_mark(change):
    assert rows_mark(replace(two_plies(), **change), NAMES) != rows_mark(two_plies(), NAMES)


def test_what_a_row_is_called_on_the_scale_does_not_change_its_mark():
    spun = replace(two_plies(), length_m=np.array([1.0, 2.0, 3.0]), weigh_g=np.zeros(3))
    assert rows_mark(spun, NAMES) == rows_mark(two_plies(), NAMES)
    assert rows_mark(two_plies(), ("Kelp", "Ebb")) != rows_mark(two_plies(), NAMES)


@pytest.mark.parametrize(
    ("edges", "lot", "at"),
    [
        ([0, 50, 60, 80, 100], [[0, 0], [0, 1], [1, 0], [1, 1]], 2),
        ([0, 50, 70, 80, 100], [[0, 0], [0, 1], [1, 0], [1, 1]], 1),
        ([0, 30, 100], [[0, 0], [1, 1]], 1),
        ([0, 60, 80, 100], [[0, 1, 0], [0, 1, 2], [2, 1, 2]], 1),
        ([0, 100], [[3, 3]], 0),
    ],
    ids=["longer marl", "first marl", "no marl", "three colours", "one stretch"],
)
def test_the_longest_stretch_of_the_most_colours(edges, lot, at):
    assert longest_of_most_colours(np.array(edges), np.array(lot)) == at


def test_colours_side_by_side_are_counted_once_wherever_they_lie():
    lot = [[0, 0, 0], [0, 1, 0], [2, 0, 1], [1, 1, 0]]
    assert colours_side_by_side(np.array(lot)).tolist() == [1, 2, 3, 2]
    of_two_yarns = np.array([lot, lot[::-1]])
    assert colours_side_by_side(of_two_yarns).tolist() == [[1, 2, 3, 2], [2, 3, 2, 1]]


def copy_ends_m(*plies: tuple[list[int], list[float]]) -> list[float]:
    """Return where copies end in the yarn of plies: the copy and the metres of each piece."""
    copies, metres = zip(*plies, strict=True)
    length_m = np.concatenate(metres)
    off = Strands(
        starts=np.cumsum([0, *map(len, metres)]),
        length_m=length_m,
        lot=np.arange(len(length_m)),
        copy=np.concatenate(copies),
    )
    return stretches(off, contraction=0.1).copy_ends_m.tolist()


IN_TURN = [10.0, 20.0, 30.0, 40.0]


@pytest.mark.parametrize(
    ("plies", "ends_m"),
    [
        ([([1, 1, 2, 2], IN_TURN)], [27.0]),
        ([([2, 2, 1, 1], IN_TURN)], [27.0]),
        ([([1, 2], [40.0, 60.0])], [36.0]),
        ([([2, 1], [40.0, 60.0])], [36.0]),
        ([([3, 2, 1], [20.0, 30.0, 50.0])], [18.0, 45.0]),
        ([([1, 2, 2, 3], IN_TURN)], [9.0, 54.0]),
    ],
)
def test_a_copy_ends_where_its_last_piece_has_come_off(plies, ends_m):
    """Plying takes a tenth; what comes off first is the first copy or, off a bobbin, the last."""
    assert copy_ends_m(*plies) == pytest.approx(ends_m, abs=1e-6)


@pytest.mark.parametrize(
    ("first_m", "end_m"), [([40.0, 50.0], 50), ([30.0, 60.0, 45.0], 45), ([60.0, 20.0, 40.0], 40)]
)
def test_where_plies_do_not_agree_a_copy_ends_at_the_middle_one(first_m, end_m):
    plies = [([2, 1], [own_m, 100.0 - own_m]) for own_m in first_m]
    assert copy_ends_m(*plies) == pytest.approx([0.9 * end_m], abs=1e-6)


def test_a_copy_ends_by_the_yarn_there_is_not_by_a_ply_that_goes_on():
    """The second ply has 50 m too many: the yarn is 90 m, and the copy ends in its middle."""
    short, long = ([1, 2], [50.0, 50.0]), ([1, 2], [50.0, 100.0])
    assert copy_ends_m(short, long) == pytest.approx([45.0], abs=1e-6)
