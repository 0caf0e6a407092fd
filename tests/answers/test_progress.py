"""How far the spinning and the plying have come, worked out by hand."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import answered, by_hand
from yarncolor.answers.progress import LIKELY, OPEN, SURE, RowReached, row_reached
from yarncolor.report.wheel_words import row_reached_words

PLAN = by_hand(
    {"Kelp": 24.0, "Foam": 24.0, "Dune": 24.0},
    scheme={"plies": 2},
    spinning={"single_tex": 100.0, "minutes_per_g": 3.0},
    bobbins={"tare_g": 60.0, "plying_tare_g": 90.0},
)
"""On each of two plies 12 g, which is 120 m, of Kelp, Foam and Dune: 360 m of yarn, 200 tex."""


def test_of_a_plan_of_which_nothing_is_said_there_is_no_progress_and_no_place():
    found = answered(PLAN)
    assert (found["progress"], found["where"]) == (None, None)
    assert {row["state"] for single in found["singles"] for row in single["portions"]} == {None}
    assert [(one["spun_g"], one["measured_tex"]) for one in found["singles"]] == [(None, None)] * 2


def test_what_is_spun_and_what_is_next_is_told_of_each_ply():
    spun = [{"ply": 1, "through": 3}, {"ply": 2, "row": 1, "gross_g": 70.0}]
    far = answered(PLAN | {"spun": spun})["progress"]
    assert far["share"] == pytest.approx(46 / 70)
    assert far["hours_left"] == pytest.approx(24 * 3 / 60)
    first, second = far["plies"]
    assert first == {
        "ply": 1,
        "pieces": 3,
        "spun_g": 36.0,
        "spun_m": 360.0,
        **dict.fromkeys(("next_row", "next_lot", "next_weigh_g", "next_gross_g")),
    }
    assert second == {
        "ply": 2,
        "pieces": 1,
        "spun_g": 10.0,
        "spun_m": 100.0,
        "next_row": 2,
        "next_lot": "Foam",
        "next_weigh_g": 12.0,
        "next_gross_g": 82.0,
    }


def test_what_is_not_known_is_null():
    data = by_hand({"Kelp": 24.0, "Foam": 0.1}, scheme={"plies": 1})
    far = answered(data | {"spun": [{"ply": 1, "row": 1}]})["progress"]
    assert far["hours_left"] is None
    assert far["plies"][0]["next_row"] == 2
    assert (far["plies"][0]["next_weigh_g"], far["plies"][0]["next_gross_g"]) == (None, None)


def test_fibre_lost_is_no_progress():
    assert answered(PLAN | {"lost": [{"lot": "Kelp", "mass_g": 1.0}]})["progress"] is None


# --- which row a weight tells ----------------------------------------------------------------


def reached(gross_g: float, **tables: dict):
    """Return what a weight of the second bobbin tells: rows end at 72, 84 and 96 g."""
    found = yc.answer(yc.plan_from_data(PLAN | tables))
    return found, row_reached(found, 1, gross_g)


@pytest.mark.parametrize(
    ("gross_g", "row", "how_sure"),
    [
        (72.0, 1, SURE),
        (84.1, 2, SURE),
        (86.0, 2, LIKELY),
        (89.5, 2, OPEN),
        (90.5, 3, OPEN),
        (61.0, 1, OPEN),
        (200.0, 3, OPEN),
    ],
)
def test_a_weight_tells_the_row_that_ends_nearest_to_it(gross_g, row, how_sure):
    found, told = reached(gross_g)
    first = found.layout.portions.of_ply(1).start
    assert (told.at - first + 1, told.how_sure) == (row, how_sure)
    assert told.off_g == pytest.approx(gross_g - (60 + 12 * row))


def test_a_weight_is_less_sure_where_scale_and_hands_are_coarse():
    assert reached(75.0)[1].how_sure == LIKELY
    assert reached(75.0, scale={"step_g": 6.0})[1].how_sure == OPEN
    uneven = PLAN["spinning"] | {"variation": 0.4}
    assert reached(75.0, spinning=uneven)[1].how_sure == OPEN


def test_a_weight_goes_by_what_really_lies_there():
    found, told = reached(74.5, spun=[{"ply": 2, "lot": "Foam", "mass_g": 2.5}])
    assert (found.layout.row[told.at], told.off_g) == (1, 0.0)


def test_a_weight_without_the_empty_bobbin_s_tells_nothing():
    assert reached(72.0, bobbins={})[1] is None


def test_the_row_is_told_in_words_with_the_next_nearest():
    assert row_reached_words(*reached(86.0)) == (
        "You are at the end of row 2, Foam: 2.0 g over what it weighs there. That is likely: "
        "the end of row 3, Dune is 10.0 g away."
    )


@pytest.mark.parametrize(
    ("off_g", "next_off_g", "how_sure"),
    [
        (1.0, 2.1, SURE),
        (-1.0, -2.1, SURE),
        (1.0, 2.0, OPEN),
        (1.1, 2.3, LIKELY),
        (1.1, -2.2, OPEN),
        (-3.0, 6.5, LIKELY),
        (3.0, 5.5, OPEN),
    ],
)
def test_a_row_is_sure_within_the_doubt_with_no_other_within_twice_of_it(
    off_g, next_off_g, how_sure
):
    """Of a gram of doubt; beyond it a row is likely where the next is more than twice as far."""
    assert RowReached(0, off_g, None, next_off_g, 1.0).how_sure == how_sure


@pytest.mark.parametrize(
    ("gross_g", "variation", "spin_loss", "doubt_g"),
    [
        (72.0, 0.0, 0.0, 2 * 6**0.5),
        (84.0, 0.0, 0.0, 2 * 9**0.5),
        (84.0, 0.25, 0.0, 2 * 18**0.5),
        (80.0, 0.25, 0.125, 2 * (9 + 2.625**2) ** 0.5),
    ],
)
def test_the_doubt_is_of_every_weighing_and_of_one_row_of_an_uneven_hand(
    gross_g, variation, spin_loss, doubt_g
):
    """A step of 6 g is 3 g² each time, the empty bobbin too; a quarter of 12 g is 3 g."""
    hands = PLAN["spinning"] | {"variation": variation, "spin_loss": spin_loss}
    _, told = reached(gross_g, scale={"step_g": 6.0}, spinning=hands)
    assert told.doubt_g == pytest.approx(doubt_g)


def test_next_to_the_nearest_row_lies_another_or_the_empty_bobbin():
    """The empty one is 60 g, rows end at 72, 84 and 96 g."""
    found, told = reached(65.0)
    first = found.layout.portions.of_ply(1).start
    assert (told.at, told.next_at, told.next_off_g) == (first, None, pytest.approx(5.0))
    _, told = reached(79.0)
    assert (told.at, told.off_g) == (first + 1, pytest.approx(-5.0))
    assert (told.next_at, told.next_off_g) == (first, pytest.approx(7.0))


def test_a_weight_is_told_by_the_bobbin_that_it_is_of():
    """Bobbins of 12 g hold a row each: all are 72 g when that is spun."""
    bobbins = PLAN["bobbins"] | {"capacity_g": 12.0}
    found = yc.answer(yc.plan_from_data(PLAN | {"bobbins": bobbins}))
    first = found.layout.portions.of_ply(1).start
    for order in (1, 2, 3):
        told = row_reached(found, 1, 72.5, order=order)
        assert (told.at, told.off_g) == (first + order - 1, pytest.approx(0.5))
    assert row_reached(found, 1, 72.5, order=4) is None


# --- where in plying -------------------------------------------------------------------------


@pytest.mark.parametrize(
    "plied",
    [
        {"so_far_m": 150.0, "turn_m": 1.5},
        {"turns": 100.0, "turn_m": 1.5},
        {"gross_g": 120.0, "turn_m": 1.5},
        {"gross_g": 121.0, "plying_tare_g": 91.0, "turn_m": 1.5},
    ],
    ids=["metres", "turns", "weight", "a plying bobbin of its own weight"],
)
def test_the_place_in_plying_is_told_by_metres_turns_or_weight(plied):
    """What was spun last comes off first: Dune to 120 m, Foam to 240 m, Kelp to 360 m."""
    assert answered(PLAN | {"plied": plied})["where"] == {
        "yarn_m": pytest.approx(150.0),
        "lots": ["Foam", "Foam"],
        "next_change": {"yarn_m": pytest.approx(240.0), "ply": 1, "from": "Foam", "to": "Kelp"},
        "left_m": pytest.approx(210.0),
        "skein": 1,
        "turn": pytest.approx(100.0),
    }


@pytest.mark.parametrize(
    ("so_far_m", "lots", "change_m", "left_m"),
    [
        (0.0, "Dune", 120.0, 360.0),
        (120.0, "Foam", 240.0, 240.0),
        (240.0, "Kelp", None, 120.0),
        (360.0, "Kelp", None, 0.0),
        (400.0, "Kelp", None, 0.0),
    ],
)
def test_at_a_change_what_begins_there_runs(so_far_m, lots, change_m, left_m):
    place = answered(PLAN | {"plied": {"so_far_m": so_far_m}})["where"]
    assert place["lots"] == [lots, lots]
    at_m = None if change_m is None else pytest.approx(change_m, abs=1e-6)
    assert (place["next_change"] and place["next_change"]["yarn_m"]) == at_m
    assert (place["left_m"], place["turn"]) == (left_m, None)


def test_the_skein_is_told_where_the_yarn_fills_several():
    bobbins = PLAN["bobbins"] | {"plying_capacity_g": 24.0}
    place = answered(PLAN | {"bobbins": bobbins, "plied": {"so_far_m": 250.0}})["where"]
    assert place["skein"] == 3
