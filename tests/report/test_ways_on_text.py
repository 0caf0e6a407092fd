"""Does it matter, and what now, in a spinner's words."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.report.ways_on_text import matters_text, reason_text

FOUR = {"Kelp": 30.0, "Foam": 30.0, "Rust": 30.0, "Dune": 30.0}


def replanned(spun: list[dict], wound_off: int = 0, **tables):
    """Return two plies of four rows, 150 m each, of which something is spun."""
    scheme = {"name": "matched", "plies": 2}
    plying = {"contraction": 0.0, "wound_off": wound_off}
    data = by_hand(FOUR, scheme=scheme, plying=plying, spun=spun, **tables)
    return yc.wheel.replan(yc.answer(yc.plan_from_data(data)))


LATE = [{"ply": 1, "through": 2}, {"ply": 1, "row": 3, "mass_g": 17.0}, {"ply": 2, "through": 4}]
EARLY = [{"ply": 1, "row": 1, "mass_g": 17.0}, {"ply": 1, "through": 3}, {"ply": 2, "through": 4}]


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
    assert reason_text(replanned(LATE)) == told
    assert reason_text(replanned([{"ply": 1, "through": 1}])) == (
        "Carry on: there is nothing to mend."
    )


def test_what_no_row_to_come_can_mend_is_not_called_nothing():
    swapped = [{"ply": 1, "row": 1}, {"ply": 1, "row": 3}, {"ply": 1, "row": 2}]
    for spun in (swapped, [{"ply": 1, "row": 1, "lot": "Dune"}]):
        assert reason_text(replanned(spun)) == (
            "Carry on: nothing that is spun from here on mends it."
        )


def test_a_better_way_for_which_there_is_no_fibre_is_named():
    """Row 1 lacks 90 m; wound off, 9 g of Foam would put the rest right, and none is left."""
    spun = [{"ply": 1, "row": 1, "mass_g": 6.0}, {"ply": 2, "through": 4}]
    lost = [{"lot": "Kelp", "mass_g": 9.0}]
    told = reason_text(replanned(spun, 1, lost=lost))
    assert told.startswith("Carry on: to ")
    assert told.endswith("are missing.")


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
