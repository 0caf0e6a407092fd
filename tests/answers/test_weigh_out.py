"""The weigh-out as data: what every table of it shows."""

from fractions import Fraction

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.by_hand import ByScale, Lengthwise, Rolags, ShareOfLot, hand_division
from yarncolor.report.weigh_out_words import hand_words, heap_words, piece_words

WORDS = [
    (ByScale(), "needs a scale"),
    (Rolags(Fraction(1, 2)), "½ of a rolag"),
    (Rolags(Fraction(1)), "1 rolag"),
    (Rolags(Fraction(5, 2)), "2½ rolags"),
    (Lengthwise(3, 8, "strip"), "3 of 8 strips"),
    (ShareOfLot(Fraction(1), True), "all of the lot"),
    (ShareOfLot(Fraction(1), False), "all that is left"),
    (ShareOfLot(Fraction(2, 3), True), "⅔ of the lot"),
    (ShareOfLot(Fraction(1, 4), False), "¼ of what is left"),
    (ShareOfLot(Fraction(1, 6), True), "½ of ⅓ of the lot"),
    (ShareOfLot(Fraction(1, 9), True), "⅓ of ⅓ of the lot"),
    (ShareOfLot(Fraction(1, 16), True), "½ of ⅛ of the lot"),
    (ShareOfLot(Fraction(1, 18), True), "½ of ⅓ of ⅓ of the lot"),
    (ShareOfLot(Fraction(5, 6), True), "5 of 6 equal pieces of the lot"),
]


@pytest.mark.parametrize(("division", "words"), WORDS)
def test_how_hands_divide_is_worded_at_the_end(division, words):
    assert hand_words(division) == words


def test_a_single_has_its_rows_in_spinning_order_with_what_is_weighed_so_far():
    data = by_hand({"Kelp": 12.0, "Foam": 6.0}, scheme={"name": "fractal", "divisions": [1, 2]})
    first, second = yc.answer(yc.plan_from_data(data)).weigh_out
    assert [(row.lot, row.weigh_g, row.running_g) for row in first.rows] == [(0, 6, 6), (1, 3, 9)]
    assert [row.begins_repeat for row in first.rows] == [False, False]
    assert [row.running_g for row in second.rows] == pytest.approx([3, 4.5, 7.5, 9])
    assert [row.begins_repeat for row in second.rows] == [False, False, True, False]
    assert [row.repeat for row in second.rows] == [1, 1, 2, 2]
    assert second.rows[0].start_m == 0
    assert second.rows[0].end_m == second.rows[1].start_m


def test_a_row_says_which_piece_of_which_heap_it_is_and_adds_nothing_to_the_scale():
    data = by_hand({"Kelp": 20.0, "Foam": 0.6}, scheme={"name": "fractal", "divisions": [4, 4]})
    single, _ = yc.answer(yc.plan_from_data(data)).weigh_out
    (heap,) = single.heaps
    pieces = [row for row in single.rows if row.from_heap]
    assert (heap.lot, heap.weigh_g, heap.is_equal) == (1, pytest.approx(0.3), True)
    assert [row.weigh_g for row in pieces] == [None] * 4
    assert [(row.from_heap.heap, row.from_heap.piece) for row in pieces] == [
        (heap, piece) for piece in range(4)
    ]
    assert [row.running_g for row in single.rows] == pytest.approx(
        [2.5, 2.5, 5, 5, 7.5, 7.5, 10, 10]
    )
    assert (heap_words(heap), piece_words(heap, 0)) == (
        "divide by hand into 4 equal pieces",
        "1 of 4 pieces",
    )


def test_each_row_says_whether_it_is_spun():
    data = by_hand({"Kelp": 20.0, "Foam": 20.0}, scheme={"plies": 2}, spun=[{"ply": 1, "row": 1}])
    plies = yc.answer(yc.plan_from_data(data)).weigh_out
    states = [[row.state for row in ply.rows] for ply in plies]
    assert states == [["spun", "to_spin"], ["to_spin", "to_spin"]]


def test_portions_that_should_be_alike_are_told_where_whole_grams_make_them_unlike():
    """48 and 30 g in three: halves of 8 and of 5, quarters of 4, but of 2 and 3 for 2.5."""
    data = by_hand(
        {"Kelp": 48.0, "Foam": 30.0},
        scheme={"name": "fractal", "divisions": [1, 2, 4]},
        scale={"step_g": 1.0},
    )
    divided = hand_division(yc.answer(yc.plan_from_data(data)).layout)
    assert [one.alike_on_scale for one in divided] == [True] * 6 + [True, False] * 4
