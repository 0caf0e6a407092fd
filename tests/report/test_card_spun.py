"""The card while a plan is spun: what lies on the bobbins is ticked, weights go on from there."""

import re

import pytest

import yarncolor as yc
from tests.helpers.card_reader import THREE, answered, bobbin, card, short_card, words
from tests.helpers.strategies import by_hand

SPUN = [
    {"ply": 1, "row": 1},
    {"ply": 1, "row": 3, "lot": "Foam", "mass_g": 10.0, "length_m": 90.0},
    {"ply": 1, "lot": "Kelp", "mass_g": 2.5},
    {"ply": 2, "row": 1, "gross_g": 71.5},
]
PLAN = by_hand(
    THREE,
    scheme={"plies": 2},
    spinning={"single_tex": 100.0, "minutes_per_g": 3.0},
    bobbins={"tare_g": 60.0},
)
"""On each of two plies 12 g of Kelp, Foam and Wrack, 120 m each."""


def rows_on(section) -> list[list[str]]:
    return [row.cells() for row in section.all("tr", "portion")]


def test_what_is_spun_is_ticked_with_what_went_in():
    page = card(PLAN | {"spun": SPUN})
    assert [row[:6] for row in rows_on(bobbin(page, 1))] == [
        ["✓", "1", "Kelp", "12.0 g", "spun", "12.0 g"],
        ["✓", "3", "Foam", "10.0 g", "spun, in the place of Wrack, 90.0 m measured", "22.0 g"],
        ["✓", "+", "Kelp", "2.5 g", "spun, a piece too many", "24.5 g"],
    ]
    assert "Spun: 3 pieces, 24.5 g, 235 m of single, without row 2 (12.0 g of Foam)." in words(page)
    assert "All of it is spun." in bobbin(page, 1).text


def test_weights_go_on_from_what_the_bobbin_weighed():
    page = card(PLAN | {"spun": SPUN})
    second = bobbin(page, 2)
    assert [row[:2] + row[3:6] for row in rows_on(second)] == [
        ["✓", "1", "11.5 g", "spun", "11.5 g"],
        ["", "2", "12.0 g", "½ of the lot", "23.5 g"],
        ["", "3", "12.0 g", "½ of the lot", "35.5 g"],
    ]
    assert "24.0 g to spin, about 240 m of single" in second.text
    assert "about 1.2 h at the wheel" in second.text
    assert "All spun: weigh: 35.5 g, with the bobbin 95.5 g" in second.text


@pytest.mark.parametrize("form", [card, short_card])
def test_a_card_of_which_nothing_is_spun_has_no_tick(form):
    assert "✓" not in words(form(PLAN))
    assert words(form(PLAN | {"spun": SPUN})).count("✓") == 5  # four pieces, the one stop passed


def test_a_heap_of_which_a_row_is_to_spin_stays_on_the_page():
    """0.1 g of Foam on each ply in two pieces: one of them is spun here, both there."""
    data = by_hand(
        {"Kelp": 24.0, "Foam": 0.2},
        scheme={"name": "fractal", "divisions": [2, 2]},
        spun=[{"ply": 1, "through": 2}, {"ply": 2, "through": 4}],
    )
    page = card(data)
    assert [len(bobbin(page, k).all("tr", "heap")) for k in (1, 2)] == [1, 0]


def test_the_stash_is_divided_as_planned_whatever_was_spun():
    (before,), (after,) = (
        form.all("section", "stash-page") for form in (card(PLAN), card(PLAN | {"spun": SPUN}))
    )
    assert [row.text for row in before.all("tr")] == [row.text for row in after.all("tr")]


def test_times_through_keep_their_number_where_one_was_left_out():
    data = by_hand(THREE, scheme={"name": "fractal", "divisions": [1, 4]})
    page = card(data | {"spun": [{"ply": 2, "row": 7}]})
    assert [row.text for row in bobbin(page, 2).all("tr", "time")] == ["time 3 of 4", "time 4 of 4"]


@pytest.mark.parametrize("form", [card, short_card])
def test_a_colour_twice_is_meant_only_where_the_plan_has_it_so(form):
    """Twice through Kelp, Foam, Kelp: rows 3 and 4 are meant to be one; a piece too many is not."""
    data = by_hand(
        {"Kelp": 24.0, "Foam": 24.0},
        scheme={"name": "fractal", "divisions": [1, 2], "sequence": ["Kelp", "Foam", "Kelp"]},
        spun=[
            {"ply": 2, "row": 1},
            {"ply": 2, "lot": "Kelp", "mass_g": 1.0},
            {"ply": 2, "row": 2, "lot": "Kelp"},
            {"ply": 2, "row": 3},
            {"ply": 2, "row": 4},
            {"ply": 2, "row": 6},
        ],
    )
    said = ["meant" in row.text for row in bobbin(form(data), 2).all("tr", "portion")]
    assert said == [False, False, False, False, True, False]


def test_the_short_card_numbers_its_rows_as_its_page_does():
    page = short_card(PLAN | {"spun": SPUN})
    numbers = [
        [row.all("span", "row-number")[0].text for row in rows]
        for rows in (bobbin(page, 1).all("tr", "portion"), bobbin(page, 2).all("tr", "portion"))
    ]
    assert numbers == [["1", "3", "+"], ["1", "2", "3"]]
    assert "row 2 (12.0 g of Foam)" in words(page)


def test_what_lies_on_a_bobbin_is_the_same_amount_on_the_card_and_in_the_summary():
    """Rows of 9.57 g on a scale of whole grams: by the scale in both places."""
    lots = [
        {"name": name, "mass_g": 19.14, "colour": "#56612d"} for name in ("Kelp", "Foam", "Dune")
    ]
    coarse = PLAN | {"lots": lots, "scale": {"step_g": 1.0}, "spun": [{"ply": 1, "through": 3}]}
    found = answered(coarse)
    (told,) = re.findall(r"Spun: (3 pieces, \d+ g, \d+ m) of single", words(card(coarse)))
    assert f"Ply 1: {told}; all spun." in yc.summary_text(found)
