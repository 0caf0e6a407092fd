"""What is said to hang on a guess: lengths, and hours by length, where no grist is given."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.guessed_thickness import (
    hours_hang,
    if_single_is,
    length_hangs,
    metres_hang,
    metres_told,
)

PLAIN = {"name": "matched", "plies": 2}
TREADLED = {"treadles_per_min": 60, "drive_ratio": 10, "twist_tpm": 200}
BY_GRAM = {"minutes_per_g": 3.0}


def answer_to(spinning: dict, **tables: dict):
    more = {"scheme": PLAIN, "spinning": spinning} | tables
    plan = by_hand({"Kelp": 60.0, "Foam": 60.0}, **more)
    return yc.answer(yc.plan_from_data(plan))


def test_metres_of_a_table_say_on_which_thickness_they_hang():
    """A metre is said to be a yard where the plan is in yards."""
    guessed = answer_to({})
    thick = if_single_is(guessed)
    assert thick.startswith("if your single is about ")
    assert metres_hang(guessed) == f"; metres {thick}"
    assert length_hangs(guessed) == f", {thick}"
    assert metres_told(guessed, 120.0) == "about 120 m"
    in_yards = answer_to({}, units="imperial")
    assert metres_hang(in_yards) == f"; yards {if_single_is(in_yards)}"


def test_a_thickness_that_is_given_leaves_nothing_to_hang_on():
    given = answer_to({"single_tex": 100.0} | TREADLED)
    assert (if_single_is(given), metres_hang(given), length_hangs(given)) == ("", "", "")
    assert hours_hang(given) == ""
    assert metres_told(given, 120.0) == "120 m"


def test_a_thickness_that_was_measured_on_every_ply_is_no_guess_and_on_one_half_of_one():
    """10 g to 100 m, three times over: what was measured so often is gone by."""
    rows = [
        {"ply": ply, "row": row, "length_m": 100.0, "mass_g": 10.0}
        for ply in (1, 2)
        for row in (1, 2, 3)
    ]
    three = {"scheme": PLAIN | {"sequence": ["Kelp", "Foam", "Kelp"]}}
    both, one = answer_to({}, **three, spun=rows), answer_to({}, **three, spun=rows[:3])
    assert if_single_is(both) == ""
    assert if_single_is(one).startswith("if your single is about ")
    assert if_single_is(one).partition(" where it was not measured")[1]
    assert "measured" not in if_single_is(answer_to({}, **three))


@pytest.mark.parametrize(
    ("spinning", "plying", "hangs"),
    [
        (TREADLED, {}, True),
        (BY_GRAM, {}, False),
        (BY_GRAM, {"twist_tpm": 100, "treadles_per_min": 50, "drive_ratio": 8}, True),
    ],
    ids=["by treadling", "by the gram", "by the gram, plied by treadling"],
)
def test_hours_hang_on_it_where_any_of_them_are_by_the_metre(spinning, plying, hangs):
    found = answer_to(spinning, plying=plying)
    assert found.hours.spinning_h > 0
    assert hours_hang(found) == (f"; hours {if_single_is(found)}" if hangs else "")
