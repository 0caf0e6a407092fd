"""Advice at the wheel: what is told of each slip, and silence where there is none."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import advised, by_hand
from yarncolor import answer, plan_from_data
from yarncolor.report.summary import summary_text

KINDS = (
    *("left_out_row", "extra_piece", "other_lot", "grist_drifts", "short_lot", "more_than_said"),
    "other_order",
)
PLAN = by_hand(
    {"Kelp": 24.0, "Foam": 24.0, "Dune": 24.0},
    scheme={"plies": 2},
    spinning={"single_tex": 100.0},
    bobbins={"tare_g": 60.0},
)
"""On each of two plies 12 g, which is 120 m, of Kelp, Foam and Dune."""


_FOAM_15 = {"ply": 2, "row": 2, "mass_g": 15.0}


def told(*spun: dict, **tables: dict) -> dict[str, str]:
    """Return the advice of the wheel by its kind."""
    entries = [{"ply": 2} | one for one in spun]
    every = advised(PLAN | {"spun": entries} | tables)
    return {kind: text for kind, text in every if kind in KINDS}


@pytest.mark.parametrize(
    "spun",
    [
        [],
        [{"through": 3}],
        [{"row": 1, "mass_g": 12.0, "length_m": 120.0}, {"row": 2, "gross_g": 84.0}],
        [{"row": 1, "mass_g": 12.0, "gross_g": 71.0}],
        [{"row": 1, "sample": {"length_m": 10.0, "mass_g": 1.1}}],
        [{"row": 1, "mass_g": 12.05}],
    ],
    ids=["nothing", "as planned", "measured", "something lost", "a tenth thicker", "half a step"],
)
def test_where_nothing_is_wrong_nothing_is_said(spun):
    assert told(*spun) == {}


def test_a_row_left_out_is_told_with_its_grams():
    assert told({"row": 1}, {"row": 3}) == {
        "left_out_row": "Left out on ply 2: row 2 (12.0 g of Foam). That lies in the drawer, and "
        "what was spun on either side follows on one another."
    }


def test_a_piece_too_many_is_told_with_its_place():
    extra = {"lot": "Dune", "mass_g": 3.0}
    lost = {"lots": [{**lot, "mass_g": 30.0} for lot in PLAN["lots"]], "target": {"yarn_m": 300.0}}
    assert told(extra, {"row": 1}, extra | {"mass_g": 2.5}, **lost) == {
        "extra_piece": "Too many on ply 2: 3.0 g of Dune (30 m of single) before row 1 and 2.5 g "
        "of Dune (25 m of single) after row 1. The last piece on the bobbin of ply 2 is one too "
        "many: draw it off, take it out of what was spun, and nothing has moved."
    }


def test_another_lot_is_told_with_the_one_it_should_be():
    told_of = told({"row": 1, "lot": "Foam"})
    assert told_of["other_lot"] == "Another lot on ply 2: row 1 is Foam, not Kelp."
    assert told_of["short_lot"] == (
        "Foam runs short by 12.0 g: its rows to spin take 24.0 g, and 12.0 g are left. Weigh out "
        "50% of each of them; or take 12.0 g of Kelp instead, of which 12.0 g are over; or make "
        "12.0 g more of it."
    )


@pytest.mark.parametrize(
    ("mass_g", "thick", "now", "mend"),
    [(1.12, "thicker", "8.9", "finer"), (0.88, "finer", "11.4", "thicker")],
)
def test_a_single_that_drifts_is_told_with_what_brings_it_back(mass_g, thick, now, mend):
    sample = {"length_m": 10.0, "mass_g": mass_g}
    assert told({"row": 1, "sample": sample})["grist_drifts"] == (
        f"Ply 2 is spun {thick} than planned: {now} m to the gram, not 10.0, by 1 measure. From "
        "three measures on, all that was not measured is reckoned by them. Draft a little "
        f"{mend} to come back to the plan."
    )
    three = [{"row": row, "sample": sample} for row in (1, 2, 3)]
    assert (
        "by 3 measures. What was not measured is reckoned by that." in told(*three)["grist_drifts"]
    )


def test_metres_and_grams_that_changed_places_are_asked_after():
    """10.5 m that weigh 2 g, written the other way round: the advice is not to draft finer."""
    said = told({"row": 1, "sample": {"length_m": 2.0, "mass_g": 10.5}})["grist_drifts"]
    assert said.endswith("That is hardly so: see whether metres and grams changed places.")


def test_a_lot_that_runs_short_draws_on_what_was_kept_back():
    """24 g to divide and 2 g kept back: of 12 g to spin, 0.5 g come out of those, or 1 g lacks."""
    lots = [PLAN["lots"][0] | {"mass_g": 26.0, "reserve_g": 2.0}, *PLAN["lots"][1:]]
    assert told({"row": 1, "mass_g": 13.5}, lots=lots) == {
        "short_lot": "Kelp: what is spun and still to spin takes 1.5 g more than there was to "
        "divide. That comes out of the 2.0 g you kept back."
    }
    assert told({"row": 1, "mass_g": 15.0}, lots=lots)["short_lot"] == (
        "Kelp runs short by 1.0 g: its rows to spin take 12.0 g, and 11.0 g are left, what you "
        "kept back counted. Spin those rows 9% finer; or weigh out 92% of each of them; or make "
        "1.0 g more of it."
    )


def test_one_spare_lot_stands_in_for_two_only_where_it_has_enough_for_both():
    """Kelp and Foam lack 12 g each; 20 g of Dune are over, which is enough for one of them."""
    lots = [
        *PLAN["lots"][:2],
        PLAN["lots"][2] | {"mass_g": 44.0},
    ]
    rows = [
        {"ply": ply, "lot": lot, "mass_g": 12.0}
        for lot in ("Kelp", "Foam", "Dune")
        for ply in (1, 2)
    ]
    free = {"scheme": {"name": "free", "portions": rows}, "lots": lots}
    slips = [{"row": 1, "lot": "Foam"}, {"row": 2, "lot": "Kelp"}]
    lost = {"lost": [{"lot": "Kelp", "mass_g": 12.0}, {"lot": "Foam", "mass_g": 12.0}]}
    said = told(*slips, **free, **lost)
    both = [text for kind, text in advised(PLAN | free | lost) if kind == "short_lot"]
    assert len(both) == 2, said
    assert [text.count("of Dune instead") for text in both] == [1, 0]
    more = {"lots": [*PLAN["lots"][:2], PLAN["lots"][2] | {"mass_g": 48.0}]}
    both = [text for kind, text in advised(PLAN | free | lost | more) if kind == "short_lot"]
    assert ["of which 24.0 g are over" in both[0], "of which 12.0 g are over" in both[1]] == [1, 1]
    stash = yc.show.stash(answer(plan_from_data(PLAN | free | lost))).text
    assert stash.count("runs short by 12.0 g") == 2


def test_what_lacks_on_a_coarse_scale_is_the_difference_of_what_is_said():
    """By hand: of 24 g 13.4 g lie spun, so 10.6 g are left for 12 g; 11 g and 12 g on the scale."""
    lots = [PLAN["lots"][0] | {"mass_g": 24.0}, PLAN["lots"][1] | {"reserve_g": 5.0}]
    coarse = {"lots": [*lots, PLAN["lots"][2]], "scale": {"step_g": 1.0}}
    entry = {"row": 1, "mass_g": 13.4}
    assert told(entry, **coarse)["short_lot"].startswith(
        "Kelp runs short by 1 g: its rows to spin take 12 g, and 11 g are left. "
    )
    thick = {"row": 1, "mass_g": 14.6}
    said = told(thick, **coarse)["short_lot"]
    assert said.startswith("Kelp runs short by 3 g: its rows to spin take 12 g, and 9 g are left.")
    assert "take 3 g of Foam instead, of which 5 g are over, what you kept back counted;" in said


def test_what_went_in_too_much_is_not_missing():
    """24 g of Foam there were; 11 g and 15 g of it lie on the bobbins, and none is to spin."""
    spun = [{"ply": 1, "row": 1}, {"ply": 1, "row": 2, "mass_g": 11.0}]
    every = advised(PLAN | {"spun": [*spun, {"ply": 2, "through": 1}, _FOAM_15]})
    assert [text for kind, text in every if kind == "short_lot"] == [
        "Foam: 2.0 g more than you had went in. Nothing of it is still to spin; see whether a "
        "weight is written down wrong."
    ]


def test_where_more_went_in_than_there_was_nothing_is_left_for_rows_to_spin():
    every = advised(PLAN | {"spun": [{"ply": 2, "row": 2, "mass_g": 25.0}]})
    assert [text for kind, text in every if kind == "short_lot"] == [
        "Foam: 1.0 g more than you had went in. None is left for its rows to spin, which take "
        "12.0 g. Take 12.0 g of Kelp instead, of which 12.0 g are over; or make 12.0 g more of it."
    ]


def test_of_a_lot_that_lies_spun_what_was_kept_back_came_out():
    lots = [PLAN["lots"][0] | {"mass_g": 26.0, "reserve_g": 2.0}, *PLAN["lots"][1:]]
    spun = [{"ply": 1, "row": 1, "mass_g": 12.5}, {"ply": 2, "row": 1, "mass_g": 12.5}]
    every = advised(PLAN | {"lots": lots, "spun": spun})
    assert [text for kind, text in every if kind == "short_lot"] == [
        "Kelp: 1.0 g more than there was to divide went in. That comes out of the 2.0 g you kept "
        "back."
    ]


def test_a_bobbin_heavier_than_what_went_in_is_told():
    said = told({"row": 1, "mass_g": 11.0}, {"row": 2, "mass_g": 12.0, "gross_g": 84.5})
    assert said == {
        "more_than_said": "The bobbin of ply 2 was 1.5 g heavier than all that was weighed out "
        "for it: look for a piece that was not written down, for an empty bobbin of another "
        "weight, or for damp fibre."
    }


def test_the_summary_says_what_is_spun_and_what_is_next():
    spun = [{"ply": 2, "row": 1}, {"ply": 2, "row": 3, "lot": "Kelp"}]
    lines = summary_text(answer(plan_from_data(PLAN | {"spun": spun}))).splitlines()
    assert "Spun so far: 40% of the grams." in lines
    assert (
        "  Ply 1: nothing yet. Next is row 1, Kelp, 12.0 g; after it bobbin and single "
        "weigh 72.0 g." in lines
    )
    assert "  Ply 2: 2 pieces, 24.0 g, 240 m; all spun." in lines
    assert "    3  Kelp      12.0 g       24.0 g  spun, in the place of Dune" in lines


def test_the_summary_says_of_a_row_spun_as_planned_the_grams_that_add_up():
    """17 g in three plies on whole grams: each weighed out as 5 or 6 g, never as 5.67 g."""
    plan = by_hand(
        {"Kelp": 23.0, "Foam": 31.0, "Dune": 17.0},
        scheme={"plies": 3},
        scale={"step_g": 1.0},
        spun=[{"ply": ply, "through": 3} for ply in (1, 2, 3)],
    )
    lines = summary_text(answer(plan_from_data(plan))).splitlines()
    rows = [line.split() for line in lines if line.endswith("  spun")]
    assert len(rows) == 9
    weighed = [int(row[2]) for row in rows]
    assert sum(weighed) == 71
    for first in (0, 3, 6):
        running = [int(row[4]) for row in rows[first : first + 3]]
        assert running == [sum(weighed[first : first + n]) for n in (1, 2, 3)]
