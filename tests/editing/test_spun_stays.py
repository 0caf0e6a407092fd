"""What lies on the bobbins is a fact: a plan that changes under it leaves it as it went in."""

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.spun import planned, spun_entries, with_bobbins
from tests.helpers.strategies import by_hand, plan_data
from yarncolor.editing.at_the_wheel_pieces import pieces_on
from yarncolor.editing.editor import Editor
from yarncolor.editing.fault_words import in_form_words
from yarncolor.editing.lot_rows import needed_words, plan_with_rows, rows_of
from yarncolor.editing.merging import merged
from yarncolor.editing.step_words import stays_words
from yarncolor.editing.variants import variant
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plied, Spun, ToSpin
from yarncolor.widgets.order.order_frames import look_ahead, numbers_of, table_now

ORDERED = ("matched", "staggered", "fractal", "flipped", "stepped", "mirrored", "chain", "shuffled")
LOTS = {"Kelp": 24.0, "Foam": 12.0, "Dune": 24.0}
DATA = by_hand(
    LOTS,
    scheme={"name": "matched", "plies": 2},
    spinning={"single_tex": 100.0},
    spun=[{"ply": 1, "through": 2, "note": "first evening"}, {"ply": 2, "row": 1}],
)
"""On each of two plies 12 g of Kelp, 6 g of Foam, 12 g of Dune."""


@pytest.fixture
def editor():
    return Editor(yc.plan_from_data(DATA))


def on_bobbins(plan):
    """Return lot, grams and metres of every piece that was spun, ply by ply, in its order."""
    laid = layout(resolve(replace(plan, pull_off=())))
    pieces, names = laid.wheel.pieces, laid.resolved.plan.names
    return [
        [(names[pieces.lot[at]], pieces.mass_g[at], pieces.length_m[at]) for at in own]
        for own in map(laid.wheel.spun_at, range(len(laid.resolved.tex)))
    ]


def assert_lies_the_same(one, other, measured=()):
    """Pieces that were measured, and weighed only together with others, share grams anew."""
    assert [[lot for lot, *_ in ply] for ply in one] == [[lot for lot, *_ in ply] for ply in other]
    for ply, (there, here) in enumerate(zip(one, other, strict=True)):
        for at, (found, wanted) in enumerate(zip(there, here, strict=True)):
            known = slice(2, 3) if (ply, at) in measured else slice(1, 3)
            assert found[known] == pytest.approx(wanted[known], rel=1e-7)
        grams = [sum(mass_g for _, mass_g, _ in each) for each in (there, here)]
        assert grams[0] == pytest.approx(grams[1], rel=1e-7)


def measured_without_grams(plan):
    """Return ply and place, both from 0, of pieces whose metres were measured and not weighed."""
    plies = [pieces_on(plan, ply + 1) for ply in range(len(resolve(plan).tex))]
    return {
        (ply, at)
        for ply, pieces in enumerate(plies)
        for at, one in enumerate(pieces)
        if one.length_m and not one.mass_g
    }


def test_an_order_that_is_moved_leaves_what_was_spun(editor):
    before = on_bobbins(editor.plan)
    editor.move(0, 2)
    assert editor.names() == ("Foam", "Dune", "Kelp")
    assert_lies_the_same(on_bobbins(editor.plan), before)
    assert editor.plan.spun == (
        Spun(1, row=1, lot="Kelp", mass_g=12.0, note="first evening"),
        Spun(2, row=1, lot="Kelp", mass_g=12.0),
        Spun(1, row=2, lot="Foam", mass_g=6.0, note="first evening"),
    )
    editor.undo()
    assert editor.plan == yc.plan_from_data(DATA)


def test_rows_that_ask_for_the_same_as_before_stay_as_they_were_said(editor):
    editor.move(1, 2)
    assert editor.names() == ("Kelp", "Dune", "Foam")
    assert editor.plan.spun == (
        Spun(1, through=1, note="first evening"),
        Spun(2, row=1),
        Spun(1, row=2, lot="Foam", mass_g=6.0, note="first evening"),
    )


def test_a_drag_that_comes_back_says_no_more_than_before(editor):
    entry = editor.entries[0]
    for place in (1, 2, 1, 0):
        editor.move(editor.place_of(entry), place)
    assert editor.plan.spun == yc.plan_from_data(DATA).spun
    assert stays_words(editor.revision) == ""


def test_the_page_says_in_one_sentence_which_pieces_no_longer_match(editor):
    editor.move(0, 2)
    assert stays_words(editor.revision) == (
        "What is spun stays as it went in; its rows ask for something else now: ply 1, rows 1 "
        "and 2; ply 2, row 1."
    )
    editor.change("spinning", single_tex=90.0)
    assert stays_words(editor.revision) == ""
    editor.undo()
    assert stays_words(editor.revision) != ""
    editor.undo()
    assert stays_words(editor.revision) == ""


@pytest.mark.parametrize(
    ("table", "keys"),
    [
        ("scheme", {"name": "staggered"}),
        ("scheme", {"name": "mirrored"}),
        ("scheme", {"plies": 3}),
        ("scheme", {"parts": [1, 3, 1], "sequence": ["Kelp", "Foam", "Kelp"]}),
        ("scheme", {"reversed_plies": [1]}),
        ("target", {"yarn_m": 40.0}),
    ],
)
def test_another_way_of_spinning_leaves_what_was_spun(editor, table, keys):
    before = on_bobbins(editor.plan)
    editor.change(table, **keys)
    assert_lies_the_same(on_bobbins(editor.plan)[:2], before)
    assert stays_words(editor.revision)


def test_other_grams_in_the_stash_leave_what_was_spun(editor):
    before = on_bobbins(editor.plan)
    kelp, *others = rows_of(editor.plan)
    rows = [replace(kelp, mass_g="30"), *others]
    editor.replace_plan(plan_with_rows(editor.plan, rows))
    assert_lies_the_same(on_bobbins(editor.plan), before)
    assert editor.plan.spun[0] == Spun(1, row=1, mass_g=12.0, note="first evening")


def test_a_lot_that_is_renamed_is_no_other_fibre(editor):
    rows = [
        replace(row, name="Weed") if row.name == "Kelp" else row for row in rows_of(editor.plan)
    ]
    editor.replace_plan(plan_with_rows(editor.plan, rows))
    assert editor.plan.spun == yc.plan_from_data(DATA).spun
    editor.move(0, 2)
    assert editor.plan.spun[0].lot == "Weed"


def test_a_lot_that_lies_on_a_bobbin_stays(editor):
    rows = [row for row in rows_of(editor.plan) if row.name != "Foam"]
    assert needed_words(editor.plan, rows) == (
        "Foam stays: it is spun on ply 1 already; take that back at the wheel first."
    )
    rows = [row for row in rows_of(editor.plan) if row.name != "Dune"]
    assert needed_words(editor.plan, rows) == ""


def test_a_lot_that_passes_for_another_is_that_one_on_the_bobbins_too(editor):
    editor.move(0, 2)
    plan = merged(editor.plan, "Kelp", "Foam")
    editor.replace_plan(plan)
    lots = [lot for ply in on_bobbins(editor.plan) for lot, *_ in ply]
    assert set(lots) == {"Kelp"}


def test_another_way_of_spinning_beside_the_plan_shows_what_lies_there():
    plan = yc.plan_from_data(DATA)
    for made in (variant(plan, "mirrored"), variant(plan, order="reversed")):
        assert_lies_the_same(on_bobbins(made), on_bobbins(plan))


def test_what_was_decided_for_a_row_that_was_spun_since_went_in_so():
    plan = replace(yc.plan_from_data(DATA), to_spin=(ToSpin(1, row=2, mass_g=7.5),))
    editor = Editor(plan)
    before = on_bobbins(editor.plan)
    assert before[0][1][1] == 7.5
    editor.reverse()
    assert_lies_the_same(on_bobbins(editor.plan), before)


def test_where_plying_has_begun_all_rows_stay():
    plan = replace(yc.plan_from_data(DATA), spun=(), plied=Plied(so_far_m=3.0))
    editor = Editor(plan)
    before = on_bobbins(editor.plan)
    editor.move(1, 2)
    assert_lies_the_same(on_bobbins(editor.plan), before)
    assert len(before[0]) == 3
    editor.undo()
    editor.change("plying", wound_off=1)
    assert editor.plan.spun == ()


def test_a_weight_on_the_scale_goes_on_telling_what_it_told():
    data = with_bobbins(
        by_hand(
            LOTS,
            scheme={"name": "matched", "plies": 2},
            spun=[{"ply": 1, "row": 1}, {"ply": 1, "row": 2, "gross_g": 81.0}],
        )
    )
    editor = Editor(yc.plan_from_data(data))
    before = on_bobbins(editor.plan)
    assert [grams for _, grams, _ in before[0]] == pytest.approx([14.0, 7.0])
    editor.move(0, 1)
    assert_lies_the_same(on_bobbins(editor.plan), before)
    assert [one.mass_g for one in editor.plan.spun] == [pytest.approx(14.0), None]


def test_moves_looked_at_ahead_show_what_lies_there(editor):
    moves, tables = look_ahead(editor, numbers_of(editor))
    ends = [0, *[sum(tables.counts[: at + 1]) for at in range(len(moves))]]
    for at, (entry, place) in enumerate(moves):
        there = Editor(editor.plan)
        there.move(there.place_of(entry), place)
        assert tables.yarn_m[at] == pytest.approx(table_now(there, numbers_of(there)).yarn_m[0])
    assert len(ends) == 7


def test_a_carded_step_that_another_order_does_not_make_is_told_in_a_spinners_words():
    data = by_hand(
        {"Kelp": 20.0, "Foam": 20.0, "Dune": 20.0},
        scheme={"name": "gradient", "blend_steps": 1, "plies": 1},
        spun=[{"ply": 1, "through": 2}],
    )
    editor = Editor(yc.plan_from_data(data))
    before = editor.plan
    with pytest.raises(yc.PlanError) as refused:
        editor.move(1, 2)
    assert editor.plan == before
    assert in_form_words(refused.value.faults[0].remedy) == (
        "Kelp 1:1 Foam is spun on ply 1 already, and so no lot has that name; take it back at the "
        "wheel first"
    )


# --- laws ----------------------------------------------------------------------------------------


@st.composite
def plans_at_the_wheel(draw):
    """Draw a plan of an ordered scheme of which something was spun, as hands note it."""
    data = with_bobbins(draw(plan_data(draw(st.sampled_from(ORDERED)))))
    spun = draw(spun_entries(planned(data)))
    assume(spun)
    return yc.plan_from_data(data | {"spun": spun})


@given(plans_at_the_wheel(), st.data())
def test_whatever_order_is_tried_the_bobbins_hold_what_they_held(plan, data):
    editor = Editor(plan)
    places = len(editor.order)
    before = on_bobbins(plan)
    for _ in range(data.draw(st.integers(1, 3))):
        i, j = (data.draw(st.integers(0, places - 1)) for _ in "ij")
        entry = editor.entries[i]
        now = editor.plan
        try:
            editor.move(editor.place_of(entry), j)
        except yc.PlanError:
            assert editor.plan == now
        assert_lies_the_same(on_bobbins(editor.plan), before, measured_without_grams(plan))
        assert yc.plan_from_data(yc.plan.to_data(editor.plan)) == editor.plan
    while editor.can_undo:
        editor.undo()
    assert editor.plan == plan
