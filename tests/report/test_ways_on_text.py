"""Does it matter, and what now, in a spinner's words."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.report.hands_words import hands_text
from yarncolor.report.ways_on_text import matters_text, possible_text, reason_text

FOUR = {"Kelp": 30.0, "Foam": 30.0, "Rust": 30.0, "Dune": 30.0}


def replanned(spun: list[dict], wound_off: int = 0, **tables):
    """Return two plies of four rows, 150 m each, of which something is spun."""
    scheme = {"name": "matched", "plies": 2}
    plying = {"contraction": 0.0, "wound_off": wound_off}
    data = by_hand(FOUR, scheme=scheme, plying=plying, spun=spun, **tables)
    return yc.wheel.replan(yc.answer(yc.plan_from_data(data)))


LATE = [{"ply": 1, "through": 2}, {"ply": 1, "row": 3, "mass_g": 17.0}, {"ply": 2, "through": 4}]
EARLY = [{"ply": 1, "row": 1, "mass_g": 17.0}, {"ply": 1, "through": 3}, {"ply": 2, "through": 4}]


SWAPPED = [{"ply": 1, "row": 1}, {"ply": 1, "row": 3}, {"ply": 1, "row": 2}]


@pytest.mark.parametrize(
    ("spun", "wound_off", "told"),
    [
        (
            LATE,
            0,
            "It matters: straight from the bobbin, what was spun last comes off first, so 20 m too "
            "many on ply 1 move 2 of its 3 colour changes, those spun before, by up to 20 m, "
            "later, and none spun after. If you carry on, 97% of the yarn stays as planned.",
        ),
        (
            EARLY,
            0,
            "It hardly matters: straight from the bobbin, what was spun last comes off first, so "
            "20 m too many on ply 1 move no colour meeting, only the end of the yarn. If you carry "
            "on, 100% of the yarn stays as planned.",
        ),
        (
            EARLY,
            1,
            "It matters: wound off, what was spun first comes off first, so 20 m too many on ply 1 "
            "move 3 of its 3 colour changes, those spun after, by up to 20 m, later. If you carry "
            "on, 95% of the yarn stays as planned.",
        ),
        (
            [{"ply": 1, "row": 1}, {"ply": 1, "row": 3}, {"ply": 1, "row": 2}],
            0,
            "It matters: straight from the bobbin, what was spun last comes off first, so rows in "
            "another order on ply 1 move 1 of its 3 colour changes by up to 150 m, sooner. If you "
            "carry on, 75% of the yarn stays as planned.",
        ),
        (
            [{"ply": 1, "through": 3}],
            0,
            "It does not matter: every colour lies where it was planned.",
        ),
        (
            [{"ply": 1, "row": 1, "lot": "Dune"}],
            0,
            "Every colour change lies where it was planned, but another colour lies between some. "
            "If you carry on, 88% of the yarn stays as planned.",
        ),
    ],
)
def test_it_is_said_first_whether_it_matters_and_what_it_moves(spun, wound_off, told):
    assert matters_text(replanned(spun, wound_off)) == told


def test_what_is_best_is_said_with_its_reason():
    told = (
        "Best: put the next rows right. It keeps 98% of the yarn as planned, 97% if you carry on."
    )
    assert reason_text(replanned(LATE)).startswith(told)
    assert reason_text(replanned([{"ply": 1, "through": 1}])) == (
        "Carry on: there is nothing to mend."
    )


def test_what_no_row_to_come_can_mend_is_not_called_nothing():
    for spun in (SWAPPED, [{"ply": 1, "row": 1, "lot": "Dune"}]):
        assert reason_text(replanned(spun)).startswith(
            "Carry on: nothing that is spun from here on mends it."
        )


def test_a_better_way_for_which_there_is_no_fibre_is_named():
    """Row 1 lacks 90 m; wound off, 9 g of Foam would put the rest right, and none is left."""
    spun = [{"ply": 1, "row": 1, "mass_g": 6.0}, {"ply": 2, "through": 4}]
    lost = [{"lot": "Kelp", "mass_g": 9.0}]
    told = reason_text(replanned(spun, 1, lost=lost))
    assert told.startswith("Carry on: to ")
    assert "it takes 9.0 g of " in told
    assert told.endswith("more than there is.")


LOST = [{"lot": "Rust", "mass_g": 2.5}]


def test_fibre_that_was_lost_is_said_with_its_grams_and_what_helps():
    """Of 30 g of Rust 27.5 g are left for two rows of 15 g: 30/27.5 is 9 % finer."""
    found = replanned([{"ply": 1, "row": 1}], lost=LOST)
    assert matters_text(found) == (
        "It does not matter yet: every colour lies where it was planned. But Rust runs short by "
        "2.5 g."
    )
    assert reason_text(found) == (
        "Carry on: there is nothing to mend on the bobbins. Rust runs short by 2.5 g: its rows to "
        "spin take 30.0 g, and 27.5 g are left. Spin those rows 9% finer; or weigh out 92% of each "
        "of them; or make 2.5 g more of it."
    )
    (carry_on,) = found.choices
    assert carry_on.possible == "grams"
    assert possible_text(found, carry_on) == "Rust runs short by 2.5 g"
    advice = {item.kind: item.text for item in yc.advice_on(found.answer)}
    assert reason_text(found).endswith(advice["short_lot"])


def test_what_is_drawn_off_a_bobbin_is_no_fibre_again():
    """Row 4 came out 2 g too heavy and is drawn off: of Dune 2 g lack for the other ply."""
    spun = [{"ply": 1, "through": 3}, {"ply": 1, "row": 4, "mass_g": 17.0}]
    found = replanned([*spun, {"ply": 2, "through": 1}])
    drawn = found.named("pull_off")
    assert found.recommended is drawn
    assert possible_text(found, drawn) == "Dune runs short by 2.0 g"
    again = yc.wheel.replan(yc.answer(yc.wheel.taken(found.answer, drawn)))
    assert possible_text(again, again.choices[0]) == "Dune runs short by 2.0 g"


def test_done_by_grist_no_row_takes_other_grams():
    """Wound off, row 1 lacks 20 m, and there is no Foam for them: rows 2 to 4, 450 m, become 470 m:
    1044 m of 100 g in the place of 1000 m."""
    spun = [{"ply": 1, "row": 1, "mass_g": 13.0}, {"ply": 2, "through": 4}]
    found = replanned(spun, 1, lost=[{"lot": "Kelp", "mass_g": 2.0}])
    by_grist = found.named("in_step")
    assert by_grist.possible == "grist"
    assert hands_text(found, by_grist) == (
        "from here on spin ply 1 finer, the grams as they are: 1044 m in 100 g, not 1000 m"
    )
    assert possible_text(found, by_grist) == (
        "by grist alone: other grams would take 2.0 g of Foam more than there is"
    )


def test_the_other_way_by_grist_is_said_with_what_it_keeps():
    """The next row, 150 m, gives 20 m; by grist it alone is spun to 130 m: the same yarn."""
    found = replanned(LATE)
    choice = found.named("in_step")
    assert "the same grams spun otherwise, ply 1 at 867 m in 100 g (98% as planned)" in (
        possible_text(found, choice)
    )


@pytest.mark.parametrize("step_g", [0.1, 1.0, 5.0])
def test_no_row_is_said_to_change_that_the_scale_shows_alike(step_g):
    """Row 3 came out 0.3 g too heavy, and row 4 is to take 14.7 g: nothing to a scale of 1 g."""
    spun = [
        {"ply": 1, "through": 2},
        {"ply": 1, "row": 3, "mass_g": 15.3},
        {"ply": 2, "through": 4},
    ]
    found = replanned(spun, scale={"step_g": step_g})
    told = [hands_text(found, choice) for choice in found.choices if choice.name != "carry_on"]
    if step_g > 0.1:
        assert told == []
        assert {one.name for one in found.unseen} == {"in_step", "run_out"}
    else:
        assert told == ["ply 1: row 4 takes 14.7 g of Dune, not 15.0 g"] * 2


def test_a_way_too_small_for_the_scale_is_said_to_be_that():
    """Wound off, row 1 has 0.4 g, 4 m, too much, which moves three changes: 12 m of 1200 m."""
    spun = [{"ply": 1, "row": 1, "mass_g": 15.4}, {"ply": 2, "through": 4}]
    found = replanned(spun, 1, scale={"step_g": 1.0})
    assert [one.name for one in found.choices] == ["carry_on"]
    assert reason_text(found).startswith(
        "Carry on: what would mend it is less than your scale can show."
    )


def test_pinches_are_not_made_up():
    """Each of two rows lacks 0.04 g: no scale of 0.1 g shows that."""
    spun = [{"ply": ply, "row": 1, "mass_g": 14.96} for ply in (1, 2)]
    assert replanned(spun).named("make_up") is None
    assert replanned([spun[0], {"ply": 2, "row": 1, "mass_g": 14.6}]).named("make_up") is not None


def test_of_one_single_no_plies_run_out_together():
    spun = [{"ply": 1, "row": 1, "mass_g": 33.0}]
    data = by_hand(FOUR, scheme={"plies": 1}, plying={"contraction": 0.0}, spun=spun)
    told = yc.wheel.summary(yc.wheel.replan(yc.answer(yc.plan_from_data(data))))
    assert "come to the planned length (run_out)" in told
    assert "plies run out" not in told
    ended = [{"ply": 1, "through": 3}, {"ply": 1, "row": 4, "mass_g": 33.0}]
    told = yc.wheel.summary(yc.wheel.replan(yc.answer(yc.plan_from_data(data | {"spun": ended}))))
    assert "draw 30 m off the outer end of the single\n" in told


def test_once_decided_it_is_said_so():
    found = replanned(LATE)
    plan = yc.wheel.taken(found.answer, found.named("in_step"))
    told = matters_text(yc.wheel.replan(yc.answer(plan)))
    assert "with what was decided since" in told
    assert told.endswith("If you carry on, 98% of the yarn stays as planned.")


def test_hostile_names_stay_text_where_a_notebook_shows_them():
    data = by_hand({"<b>x": 30.0, "Foam": 30.0}, scheme={"plies": 2}, spun=[{"ply": 1, "row": 2}])
    shown = yc.wheel.choices(yc.wheel.replan(yc.answer(yc.plan_from_data(data))))
    assert "<b>x" not in shown.html
    assert "&lt;b&gt;x" in shown.html
