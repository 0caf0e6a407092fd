"""The card's stash: what to card, and how it is divided."""

import pytest

import yarncolor as yc
from tests.helpers.card_reader import THREE, answered, card, short_card, words
from tests.helpers.strategies import by_hand
from yarncolor.report.card.stash import plies_in_words

# --- the stash -------------------------------------------------------------------------------


def stash_of(data: dict) -> list[list[str]]:
    return [row.cells()[1:] for row in card(data).all("tr", "lot-row")]


def test_rolags_are_a_multiple_of_the_plies():
    lot = {"name": "Kelp", "colour": "#56612d", "rolags": 18, "rolag_g": 3.0}
    data = {"lots": [lot], "scheme": {"name": "fractal", "divisions": [1, 3, 6]}}
    then = "then ply 1: whole; ply 2: 3 equal pieces; ply 3: 6 equal pieces"
    assert stash_of(data) == [["Kelp", "54.0 g", "–", f"18 rolags: 6 for each ply {then}"]]


def test_less_than_a_rolag_for_each_ply_is_a_part_of_it():
    lot = {"name": "Kelp", "colour": "#56612d", "rolags": 1, "rolag_g": 3.0}
    ((_, _, _, how),) = stash_of({"lots": [lot], "scheme": {"plies": 2}})
    assert how == "1 rolag: ½ for each ply"


def test_rolags_that_hands_cannot_divide_say_how_many_are_needed():
    lot = {"name": "Kelp", "colour": "#56612d", "rolags": 7, "rolag_g": 3.0}
    ((_, _, _, how),) = stash_of({"lots": [lot], "scheme": {"plies": 5}})
    weigh = "4.2 g for each ply"
    assert how == f"7 rolags: {weigh} 5 rolags would divide by hand"


def test_the_stash_page_and_the_rows_agree_on_what_hands_can_divide():
    """A third of 60 g in two and in five: hands halve, and need a scale for fifths."""
    data = by_hand({"Kelp": 60.0}, scheme={"name": "fractal", "divisions": [1, 2, 5]})
    page = card(data)
    ((_, _, _, how),) = stash_of(data)
    assert "ply 2: 2 equal pieces; ply 3: 5 equal pieces, by the scale" in how
    rows = [section.all("tr", "portion")[0].cells()[4] for section in page.all("section", "bobbin")]
    assert rows == ["⅓ of the lot", "½ of ⅓ of the lot", "needs a scale"]


def test_equal_pieces_that_the_scale_cannot_show_equal_are_told():
    """46 g in three on whole grams: the lot's total is exact, so one piece is a gram more."""
    tables = {"scheme": {"name": "fractal", "divisions": [3]}, "scale": {"step_g": 1.0}}
    ((_, _, _, how),) = stash_of(by_hand({"Kelp": 46.0}, **tables))
    assert how.endswith("3 equal pieces by hand, 15 and 16 g by the scale")


def test_what_the_scale_cannot_show_stays_over_and_is_said_wherever_it_is_weighed():
    """24.5 g in three on whole grams: 8 g each, and half a gram is no step; by hand."""
    tables = {"scheme": {"name": "fractal", "divisions": [1, 1, 1]}, "scale": {"step_g": 1.0}}
    data = by_hand({"Kelp": 24.5, "Foam": 30.0}, **tables)
    found = answered(data)
    said = "Weighed in whole steps of the scale, this stays over: 0.5 g of Kelp."
    assert said in yc.summary_text(found)
    assert said in yc.show.weigh_out(found).html
    kelp, foam = card(data).all("tr", "lot-row")
    assert "0.5 g stays over: the scale cannot show it" in kelp.text
    assert "24.5 g" in kelp.text
    assert "stays over" not in foam.text
    assert "0.5 g of Kelp stays over: the scale cannot show it." in words(short_card(data))
    both = by_hand({"Kelp": 24.5, "Foam": 30.7}, **tables)
    assert "Up to 0.7 g of a lot stays over" in words(short_card(both))


def test_hairs_that_a_fine_scale_cannot_show_are_not_worth_a_word():
    assert "stays over" not in yc.summary_text(answered(by_hand({"Kelp": 24.55})))


def test_the_page_says_what_of_its_stash_the_scale_cannot_show_equal():
    """46 g in three are 15⅓ g; the halves of one are 7 and 8 g, or of 16 g, 8 and 8."""
    scheme = {"name": "fractal", "divisions": [1, 2, 4]}
    found = answered(by_hand({"Kelp": 46.0}, scheme=scheme, scale={"step_g": 1.0}))
    told = yc.show.stash(found).text
    assert "about ⅓ of the lot for each ply" in told
    assert "ply 2: 2 equal pieces by hand, 7 and 8 g by the scale" in told
    assert "ply 3: 4 equal pieces" in told
    even = yc.show.stash(answered(by_hand({"Kelp": 48.0}, scheme=scheme))).text
    assert "about" not in even
    assert "ply 2: 2 equal pieces; ply 3: 4 equal pieces" in even


def test_what_is_kept_back_lost_and_left_over_is_told_apart():
    lots = [{"name": "Kelp", "colour": "#56612d", "mass_g": 30.0, "reserve_g": 2.0}]
    data = {"lots": lots, "spinning": {"card_loss": 0.1}, "scheme": {"plies": 2}}
    quarter = "¼ of what is left for each ply"
    assert stash_of(data | {"target": {"yarn_g": 12.6}}) == [
        ["Kelp", "28.0 g", "2.0 g", f"{quarter} after carding 25.2 g; 12.6 g stay over"]
    ]
    assert "What is lost in carding, 10%, is taken off." in words(card(data))


def test_plies_that_get_the_same_are_named_together():
    data = by_hand({"Kelp": 40.0}, scheme={"plies": 3}, spinning={"single_tex": [100, 200, 100]})
    assert stash_of(data)[0][3] == "¼ of the lot for plies 1 and 3; ½ of the lot for ply 2"


def test_a_lot_that_is_not_used_is_not_carded():
    assert stash_of(by_hand(THREE, scheme={"sequence": ["Kelp", "Foam"]}))[2] == [
        *("Wrack", "none", "–", "not used in this plan")
    ]


def test_a_blend_says_what_it_is_carded_from_and_its_lots_what_goes_into_it():
    data = by_hand({"Kelp": 24.0, "Foam": 24.0}, scheme={"plies": 2})
    data["lots"].append({"name": "Wrack", "blend": {"Kelp": 2, "Foam": 1}, "mass_g": 18.0})
    rest, half = "½ of what is left for each ply", "½ of the lot for each ply"
    assert stash_of(data) == [
        ["Kelp", "12.0 g", "–", f"12.0 g into blends {rest}"],
        ["Foam", "18.0 g", "–", f"6.0 g into blends {rest}"],
        ["Wrack", "18.0 g", "–", f"carded from 12.0 g of Kelp and 6.0 g of Foam {half}"],
    ]
    data["scheme"]["sequence"] = ["Wrack"]
    assert stash_of(data)[0] == ["Kelp", "none", "–", "12.0 g into blends not spun by itself"]


def test_a_carded_step_of_a_gradient_stands_in_the_stash():
    data = by_hand({"Kelp": 24.0, "Foam": 24.0})
    *_, step = stash_of(data | {"scheme": {"name": "gradient", "plies": 2, "blend_steps": 1}})
    assert step[1:] == [
        *("12.0 g", "–"),
        "carded from 6.0 g of Kelp and 6.0 g of Foam 1 of 2 strips for each ply",
    ]


@pytest.mark.parametrize(
    ("numbers", "plies", "said"),
    [
        ([1], 1, ""),
        ([1, 2], 2, "each ply"),
        ([2], 3, "ply 2"),
        ([1, 3], 3, "plies 1 and 3"),
        ([1, 2, 4], 5, "plies 1, 2 and 4"),
    ],
)
def test_plies_in_words(numbers, plies, said):
    assert plies_in_words(numbers, plies) == said
