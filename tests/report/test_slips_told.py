"""Slips as a spinner meets them: what `plan` and `replan` say of each, beside what is true of it.

Four rows of 15 g, 150 m, of Kelp, Foam, Rust and Dune on each of two plies.
"""

import pytest

import yarncolor as yc
from tests.helpers.strategies import advised, by_hand
from yarncolor.report.card.card import card_html
from yarncolor.report.summary import summary_text
from yarncolor.report.ways_on_text import matters_text, reason_text

FOUR = {"Kelp": 30.0, "Foam": 30.0, "Rust": 30.0, "Dune": 30.0}
KINDS = ("other_order", "left_out_row", "extra_piece", "other_lot", "short_lot")


def plan(spun: list[dict], plies: int = 2, scheme: str = "matched", **tables) -> dict:
    plying = {"contraction": 0.0} | tables.pop("plying", {})
    return by_hand(
        FOUR, scheme={"name": scheme, "plies": plies}, plying=plying, spun=spun, **tables
    )


def told(data: dict) -> dict[str, str]:
    """Return the advice on what was spun, by its kind."""
    return {kind: text for kind, text in advised(data) if kind in KINDS}


def replanned(data: dict):
    return yc.wheel.replan(yc.answer(yc.plan_from_data(data)))


def rows(*numbers: int, ply: int = 1, **other) -> list[dict]:
    return [{"ply": ply, "row": row} | other for row in numbers]


WIND = "wind that bobbin to another one once more than the others: it then comes off the other way "
PUT_RIGHT = f"{WIND}round, and every colour lies where it was planned."


def test_a_ply_spun_in_reverse_is_put_right_by_winding():
    spun = rows(4, 3, 2, 1)
    (kind, text) = next(iter(told(plan(spun)).items()))
    assert (kind, text) == (
        "other_order",
        f"Ply 1 was spun from its last row to its first. Before plying {PUT_RIGHT}",
    )
    assert reason_text(replanned(plan(spun))).startswith(f"{text} If you do not, carry on: nothing")
    wound = yc.to_dict(yc.answer(_wound_once_more(spun)))
    lots = [tuple(one["lots"]) for one in wound["stretches"]]
    assert lots == [("Dune", "Dune"), ("Rust", "Rust"), ("Foam", "Foam"), ("Kelp", "Kelp")]


def _wound_once_more(spun: list[dict]):
    return yc.wheel.wound_once_more(yc.plan_from_data(plan(spun)), 1)


def test_once_it_is_wound_nothing_is_said_of_it():
    assert told(plan(rows(4, 3, 2, 1), plying={"wound_off": [1, 0]})) == {}


@pytest.mark.parametrize("scheme", ["matched", "gradient", "flipped", "mirrored", "fractal"])
@pytest.mark.parametrize("wound", [0, 1])
@pytest.mark.parametrize("plies", [2, 3, 4])
def test_a_ply_in_reverse_that_is_wound_once_more_makes_the_yarn_that_was_planned(
    scheme, wound, plies
):
    fresh = plan([], plies, scheme, plying={"wound_off": wound})
    planned = yc.to_dict(yc.answer(yc.plan_from_data(fresh)))
    ply = planned["singles"][0]
    spun = rows(*range(len(ply["portions"]), 0, -1))
    times = [wound + 1] + [wound] * (plies - 1)
    wound_data = plan(spun, plies, scheme, plying={"wound_off": times})
    found = replanned(wound_data)
    now = yc.to_dict(found.answer)
    assert [one["lots"] for one in now["stretches"]] == [
        one["lots"] for one in planned["stretches"]
    ]
    assert found.choices[0].as_planned == pytest.approx(1)
    assert found.choices[0].shift_m == pytest.approx(0, abs=1e-9)
    assert [one.name for one in found.choices] == ["carry_on"]
    assert not {"mixed_winding", "other_order"} & {kind for kind, _ in advised(wound_data)}


def test_a_single_of_the_other_twist_matters_before_anything_else():
    twisted = yc.wheel.other_twist(yc.plan_from_data(plan(rows(1, 2))), 1)
    found = yc.wheel.replan(yc.answer(twisted))
    assert matters_text(found).startswith("Ply 1 is spun ")
    assert matters_text(found).endswith("As for colours, nothing has moved.")
    assert reason_text(found) == "With the others carry on: there is nothing else to mend."


def test_rows_that_are_to_be_spun_finer_say_so_wherever_they_are_weighed():
    """15 g in 160 m are 10.7 m to the gram, not 10; spun, they say so no more."""
    asked = [{"ply": 1, "row": 2, "mass_g": 15.0, "length_m": 160.0}]
    answer = yc.answer(yc.plan_from_data(plan(rows(1), to_spin=asked)))
    for told in (card_html(answer).decode(), summary_text(answer), yc.show.weigh_out(answer).html):
        assert told.count("finer: 10.7 m to the gram") == 1
    spun = yc.answer(yc.plan_from_data(plan(rows(1, 2), to_spin=asked)))
    assert "finer: " not in summary_text(spun)


def test_what_was_drawn_off_is_not_in_the_drawer():
    """Row 4 came out at 17 g for 15 g, of 32 g: 2 g lie in the drawer, and 2 g are drawn off."""
    spun = [*rows(1, 2, 3), {"ply": 1, "row": 4, "mass_g": 17.0}]
    data = plan(spun, target={"yarn_m": 600.0})
    data["lots"] = [lot | {"mass_g": 32.0} for lot in data["lots"]]
    found = replanned(data)
    drawn = yc.wheel.taken(found.answer, found.named("pull_off"))
    (left,) = [one.text for one in yc.advice_on(yc.answer(drawn)) if one.kind == "left_over"]
    assert left == "Never spun, left in the drawer: 2.0 g of Kelp, 2.0 g of Foam and 2.0 g of Rust."


def test_a_ply_in_reverse_so_far_goes_on_in_reverse():
    assert told(plan(rows(4, 3))) == {
        "other_order": "Ply 1 is spun in reverse so far, from row 4 to row 3. Go on so with row 2, "
        f"down to row 1, and before plying {PUT_RIGHT}"
    }


@pytest.mark.parametrize(
    ("spun", "moved"),
    [
        (rows(1, 3, 2, 4), "nothing else has moved"),
        (
            [*rows(1, 3), {"ply": 1, "row": 2, "mass_g": 12.0}],
            "one is longer than the other, so they meet at another place",
        ),
    ],
)
def test_two_rows_that_changed_places_are_left(spun, moved):
    assert told(plan(spun)) == {
        "other_order": "Rows 2 and 3 of ply 1 changed places. Leave them: colours lie otherwise "
        f"there, and {moved}."
    }


def test_rows_of_one_colour_that_changed_places_are_no_slip():
    twice = {"name": "matched", "plies": 2, "sequence": ["Kelp", "Foam", "Kelp"]}
    data = by_hand({"Kelp": 30.0, "Foam": 30.0}, scheme=twice, spun=rows(3, 2, 1))
    assert told(data) == {}


def test_rows_in_no_order_are_named():
    assert told(plan(rows(3, 1, 4, 2)))["other_order"] == (
        "The rows of ply 1 lie in another order, 3, 1, 4 and 2. Leave them: nothing that is spun "
        "from here on moves them back."
    )


def test_the_single_of_a_chain_is_called_so():
    data = by_hand(FOUR, scheme={"name": "chain"}, plying={"contraction": 0.0}, spun=rows(1, 3))
    assert told(data)["left_out_row"].startswith("Left out on the single: row 2 ")


def test_a_row_left_out_at_the_beginning_lies_beside_nothing():
    told_of = told(plan(rows(2)))["left_out_row"]
    assert told_of.endswith("row 1 (15.0 g of Kelp). That lies in the drawer.")


def test_the_last_piece_too_many_is_drawn_off_before_anything_else():
    spun = [*rows(1, 2), {"ply": 1, "lot": "Foam", "mass_g": 3.0}]
    first = (
        "The last piece on the bobbin of ply 1 is one too many: draw it off, take it out of what "
        "was spun, and nothing has moved."
    )
    assert told(plan(spun))["extra_piece"].endswith(first)
    assert reason_text(replanned(plan(spun))).startswith(f"{first} If you do not, ")
    assert first not in reason_text(replanned(plan([*spun, *rows(3)])))


def test_a_piece_that_was_made_up_is_not_too_many():
    found = replanned(plan(rows(1, 3)))
    asked = yc.wheel.taken(found.answer, found.named("make_up"))
    assert not [one for one in yc.advice_on(yc.answer(asked)) if one.kind == "extra_piece"]
    spun = yc.wheel.too_many(asked, 1, "Foam", 15.0)
    assert not [one for one in yc.advice_on(yc.answer(spun)) if one.kind == "extra_piece"]
    again = yc.wheel.too_many(spun, 1, "Foam", 2.0)
    (extra,) = [one.text for one in yc.advice_on(yc.answer(again)) if one.kind == "extra_piece"]
    assert extra.startswith("Too many on ply 1: 2.0 g of Foam (20 m of single) after row 3.")


def test_bobbins_are_changed_where_no_one_said_what_they_hold():
    spun = [{"ply": 1, "row": 1, "bobbin": 1}, {"ply": 1, "row": 2, "bobbin": 2}]
    told_of = dict(advised(plan(spun)))["full_bobbin"]
    assert told_of.startswith("Ply 1 (change after row 1, Kelp) fills several bobbins.")
