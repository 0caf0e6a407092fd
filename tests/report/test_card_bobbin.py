"""The card's bobbins: which end comes off, twist, weights with the bobbin, when one is full."""

import re

import pytest

import yarncolor as yc
from tests.helpers.card_reader import THREE, TWISTS, answered, bobbin, card, lines, words
from tests.helpers.strategies import by_hand

# --- which end comes off first ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("wound_off", "said", "first", "off"),
    [
        (0, "Straight from the bobbin: Wrack, spun last, comes off first (arrow).", False, "no"),
        (1, "Wound off once: Kelp, spun first, comes off first (arrow).", True, "once"),
        (2, "Wound off twice: Wrack, spun last, comes off first (arrow).", False, "twice"),
        (3, "Wound off 3 times: Kelp, spun first, comes off first (arrow).", True, "3 times"),
    ],
)
def test_the_end_that_comes_off_first_is_said_and_pointed_at(wound_off, said, first, off):
    page = card(by_hand(THREE, plying={"wound_off": wound_off}))
    section = bobbin(page, 2)
    assert said in section.text
    assert "first colour on Kelp" in section.text
    assert "last colour on Wrack" in section.text
    drawn = [node.about["class"] for node in section.all("div", "ends")[0].all("svg")]
    assert drawn == (["arrow", "bar"] if first else ["bar", "arrow"])
    ends = ["Kelp", "Wrack"] if first else ["Wrack", "Kelp"]
    (order,) = page.all("table", "order")
    assert [row.cells()[1:] for row in order.all("tr")[1:]] == [
        [str(ply), *ends, off] for ply in (1, 2, 3)
    ]


def test_a_bobbin_is_drawn_in_spinning_order_and_to_scale():
    masses = {"Kelp": 30.0, "Foam": 60.0, "Wrack": 10.0}
    (bar,) = bobbin(card(by_hand(masses, scheme={"plies": 2})), 1).all("svg", "bar")
    drawn = [(rect.about["fill"], float(rect.about["width"])) for rect in bar.all("rect")]
    assert drawn == [("#56612d", 300), ("#dcdad0", 600), ("#3b2f2a", 100)]


def test_twist_is_left_to_tick():
    page = card(by_hand(THREE))
    assert "Spun, all alike: clockwise (Z) anticlockwise (S)" in bobbin(page, 1).text
    assert "Empty bobbin g" in bobbin(page, 1).text
    (plying,) = page.all("section", "plying")
    assert "Plied, the other way from the singles: anticlockwise (S) clockwise (Z)" in plying.text


def test_twist_is_said_where_the_plan_says_it():
    """4.8 turns of three plies are 14.4 bumps to the inch."""
    page = card(by_hand(THREE, **TWISTS))
    own = "Spun, all alike: clockwise (Z) anticlockwise (S), 7.6 turns to the inch"
    assert own in bobbin(page, 2).text
    (plying,) = page.all("section", "plying")
    assert (
        "Plied, the other way from the singles: anticlockwise (S) clockwise (Z), 4.8 turns to the "
        "inch: count 14 bumps to the inch along one side."
    ) in plying.text


@pytest.mark.parametrize(
    ("tables", "spun", "plied"),
    [
        ({"spinning": {"direction": "Z"}}, "clockwise (Z)", "anticlockwise (S)"),
        ({"spinning": {"direction": "S"}}, "anticlockwise (S)", "clockwise (Z)"),
        ({"plying": {"direction": "Z"}}, "anticlockwise (S)", "clockwise (Z)"),
    ],
)
def test_a_direction_that_the_plan_gives_is_no_longer_left_to_tick(tables, spun, plied):
    page = card(by_hand(THREE, **tables))
    for number in (1, 2, 3):
        assert f"Spun {spun}" in bobbin(page, number).text
        assert "all alike" not in bobbin(page, number).text
    (plying,) = page.all("section", "plying")
    assert f"Plied {plied}." in plying.text


def test_each_bobbin_says_its_own_direction_and_twist():
    spinning = {"direction": ["Z", "S", "Z"], "twist_tpi": [7.0, 8.0, 9.0]}
    page = card(by_hand(THREE, spinning=spinning, plying={"direction": "S"}))
    for number, said in ((1, "clockwise (Z), 7.0"), (2, "anticlockwise (S), 8.0")):
        assert f"Spun {said} turns to the inch" in bobbin(page, number).text


def test_stops_weigh_with_the_bobbin_where_that_is_known():
    data = by_hand(
        THREE,
        scheme={"name": "fractal", "divisions": [1, 4]},
        spinning={"spin_loss": 0.1},
        bobbins={"tare_g": [61.0, 60.5]},
    )
    section = bobbin(card(data), 2)
    assert "Empty bobbin 60.5 g" in section.text
    assert [row.text for row in section.all("tr", "stop")] == [
        "Stop and weigh: 8.1 g, with the bobbin 68.6 g found g",
        "Stop and weigh: 16.2 g, with the bobbin 76.7 g found g",
        "Stop and weigh: 24.3 g, with the bobbin 84.8 g found g",
        "All spun: weigh: 32.4 g, with the bobbin 92.9 g found g",
    ]


@pytest.mark.parametrize(("step_g", "gross"), [(0.01, "98.00"), (0.1, "98.0"), (1.0, "98")])
def test_a_weight_with_the_bobbin_has_the_decimals_of_the_scale(step_g, gross):
    data = by_hand(THREE, scheme={"plies": 2}, scale={"step_g": step_g}, bobbins={"tare_g": 62.0})
    assert f", with the bobbin {gross} g found" in bobbin(card(data), 1).text


def test_net_and_empty_bobbin_add_up_to_what_is_weighed():
    """A tare of finer steps than the scale keeps them."""
    data = by_hand(THREE, scheme={"plies": 2}, bobbins={"tare_g": 61.25})
    assert "All spun: weigh: 36.0 g, with the bobbin 97.25 g" in bobbin(card(data), 1).text


@pytest.mark.parametrize(
    ("spinning", "said"),
    [
        ({}, "Single, a guess: 10.0 m to the gram, about 28 wraps to the inch."),
        ({"single_tex": 400.0}, "Single: 2.5 m to the gram, about 14 wraps to the inch."),
        (
            {"treadles_per_min": 60.0, "drive_ratio": 10.0, "twist_tpm": 200.0},
            "Single, a guess: 10.0 m to the gram, about 28 wraps to the inch; "
            "draft 5.0 cm for each treadle.",
        ),
    ],
)
def test_how_thick_the_single_is_and_how_it_is_drafted(spinning, said):
    """10 turns a treadle at 200 turns a metre are 5 cm."""
    page = card(by_hand(THREE, spinning=spinning))
    assert said in bobbin(page, 3).text


def test_a_bobbin_whose_weight_is_not_known_is_left_blank():
    page = card(by_hand(THREE, scheme={"plies": 2}, bobbins={"tare_g": [61.4]}))
    assert "Empty bobbin 61.4 g" in bobbin(page, 1).text
    assert "Empty bobbin g" in bobbin(page, 2).text
    assert "All spun: weigh: 36.0 g plus your empty bobbin found g" in bobbin(page, 2).text


def test_where_a_bobbin_is_full_the_next_is_taken():
    """12 + 12 + 15 g on each of two plies: 25 g fit, full after row 2."""
    data = by_hand(
        THREE | {"Wrack": 30.0},
        scheme={"plies": 2},
        bobbins={"capacity_g": 25.0, "tare_g": [61.0, 60.5, 62.3, 63.4]},
    )
    section = bobbin(card(data), 2)
    assert lines(section) == [
        *("Kelp", "Foam"),
        "Bobbin 3 is full, 24.0 g, with the bobbin 86.3 g: take the next found g",
        "Wrack",
        "All spun: weigh: 15.0 g, with the bobbin 78.4 g found g",
    ]
    assert "empty bobbin 3: 62.3 g, 4: 63.4 g" in section.text
    assert [node.text for node in section.all("p", "warning")] == [
        "This single fills 2 bobbins, numbers 3, 4: change where the list says so. In plying, they "
        "come off in this order: 4, 3."
    ]


def test_bobbins_that_are_full_within_one_row_are_each_told():
    """50 g in three bobbins of at most 20 g: 16.7 g each."""
    data = by_hand({"Kelp": 50.0}, scheme={"plies": 1}, bobbins={"capacity_g": 20.0})
    full = "Bobbin {} is full within this row, 16.7 g plus your empty bobbin: take the next found g"
    assert lines(bobbin(card(data), 1)) == [
        *("Kelp", full.format(1), full.format(2)),
        "All spun: weigh: 16.7 g plus your empty bobbin found g",
    ]


@pytest.mark.parametrize(("wound_off", "order"), [(0, "3, 2, 1"), (1, "1, 2, 3"), (2, "3, 2, 1")])
def test_bobbins_of_one_single_come_off_as_it_is_wound(wound_off, order):
    data = by_hand(
        THREE,
        scheme={"plies": 1},
        plying={"wound_off": wound_off},
        bobbins={"capacity_g": 24.0},
    )
    assert f"they come off in this order: {order}." in bobbin(card(data), 1).text


@pytest.mark.parametrize("scheme", [{"name": "fractal", "plies": 2}, {"name": "chain"}])
@pytest.mark.parametrize("capacity", [5.0, 11.0, 30.0])
def test_every_bobbin_of_the_plan_is_full_once_on_the_card(scheme, capacity):
    """The last of each ply is spun to its end instead."""
    data = by_hand(THREE, scheme=scheme, bobbins={"capacity_g": capacity})
    page, found = card(data), yc.to_dict(answered(data))
    told = re.findall(r"Bobbin (\d+) is full", words(page))
    expected = [one["bobbin"] for one in found["bobbins"] if one["order"] < one["of"]]
    assert [int(number) for number in told] == expected
    assert words(page).count("All spun: weigh") == len(found["singles"])


def test_strands_are_spun_alike_and_weighed_each():
    page = card(by_hand(THREE, plying={"strands": [1, 2, 1]}, bobbins={"tare_g": 60.4}))
    said = (
        "2 strands lie side by side in this ply: halve or divide every portion into 2, and spin 2 "
        "bobbins alike. Weights on the bobbin are those of one strand."
    )
    assert [said in bobbin(page, number).text for number in (1, 2, 3)] == [False, True, False]
    assert "36.0 g to spin" in bobbin(page, 2).text
    assert "All spun: weigh: 18.0 g, with the bobbin 78.4 g" in bobbin(page, 2).text
    assert "All spun: weigh: 18.0 g, with the bobbin 78.4 g" in bobbin(page, 1).text


@pytest.mark.parametrize(("count", "warned"), [(4, False), (3, True), (1, True)])
def test_too_few_bobbins_are_warned_of_where_the_yarn_is_plied(count, warned):
    data = by_hand(THREE, bobbins={"count": count})
    (plying,) = card(data).all("section", "plying")
    told = {item.kind: item.text for item in yc.advice_on(answered(data))}
    assert [node.text for node in plying.all("p", "warning")] == (
        [told["few_bobbins"]] if warned else []
    )


def test_singles_that_are_all_wound_off_leave_no_full_bobbin_to_count():
    (plying,) = card(by_hand(THREE, plying={"wound_off": 1})).all("section", "plying")
    assert "0 full" not in plying.text


def test_hours_stand_where_they_are_worked():
    """24 g at 5 minutes are 2 hours; 240 m of 150 turns at 600 a minute one."""
    data = by_hand(
        THREE,
        spinning={
            "minutes_per_g": 5.0,
            "treadles_per_min": 60.0,
            "drive_ratio": 10.0,
            "single_tex": 100.0,
        },
        plying={"twist_tpm": 150.0, "contraction": 0.0},
    )
    page = card(data)
    assert (
        "24.0 g to spin, about 240 m of single, about 2.0 h at the wheel." in bobbin(page, 1).text
    )
    (plying,) = page.all("section", "plying")
    assert "About 1.0 h at the wheel." in plying.text
