"""A plan that is changed on the bench keeps what was spun, or is told why it cannot."""

from dataclasses import replace

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_rows import plan_with_rows, rows_of
from yarncolor.editing.sequence import reordered
from yarncolor.editing.variants import miniature
from yarncolor.layout.layout import layout
from yarncolor.layout.many_orders import stretches_of_orders
from yarncolor.layout.resolved import resolve
from yarncolor.plan import PullOff, ToSpin, to_data

DATA = by_hand(
    {"Kelp": 24.0, "Foam": 24.0, "Dune": 24.0},
    scheme={"name": "fractal", "divisions": [1, 2]},
    spun=[{"ply": 2, "row": 6, "lot": "Foam", "mass_g": 5.0}],
    lost=[{"lot": "Foam", "mass_g": 1.0}],
)


@pytest.fixture
def editor():
    return Editor(yc.plan_from_data(DATA))


def test_an_option_is_changed_beside_what_was_spun(editor):
    spun = editor.plan.spun
    editor.change("spinning", single_tex=120.0)
    assert (editor.plan.spun, editor.undo_words) == (spun, "single, tex (g in 1,000 m)")


def test_a_change_that_leaves_no_such_row_is_told_and_nothing_changes(editor):
    before = editor.plan
    with pytest.raises(yc.PlanError, match="spun 1: row = 6: ply 2 of the plan has rows 1 to 3"):
        editor.change(divisions=[1, 1])
    assert editor.plan == before
    with pytest.raises(yc.PlanError, match="spun 1: ply = 2: the plan has one single"):
        editor.change(name="chain", divisions=None)
    assert editor.plan == before


def test_an_order_whose_made_lot_is_named_is_told_and_nothing_changes():
    data = by_hand(
        {"Kelp": 20.0, "Foam": 20.0, "Dune": 20.0},
        scheme={"name": "gradient", "blend_steps": 1, "plies": 1},
        spun=[{"ply": 1, "row": 1, "lot": "Kelp 1:1 Foam"}],
    )
    editor = Editor(yc.plan_from_data(data))
    before = editor.plan
    with pytest.raises(yc.PlanError, match='"Kelp 1:1 Foam": no lot has that name'):
        editor.move(1, 2)
    assert editor.plan == before


def test_a_lot_that_is_renamed_is_renamed_where_it_was_spun_and_lost(editor):
    rows = [
        replace(row, name="Spume") if row.name == "Foam" else row for row in rows_of(editor.plan)
    ]
    plan = plan_with_rows(editor.plan, rows)
    assert (plan.spun[0].lot, plan.lost[0].lot) == ("Spume", "Spume")


def test_what_was_spun_is_undone_in_words(editor):
    editor.replace_plan(replace(editor.plan, spun=()))
    assert editor.undo_words == "what was spun"
    editor.replace_plan(replace(editor.plan, lost=()))
    assert editor.undo_words == "what was lost"


def test_the_user_s_own_portions_begin_with_the_rows_as_planned(editor):
    editor.change(name="free")
    assert [one.mass_g for one in editor.plan.scheme.portions] == [12.0] * 3 + [6.0] * 6
    assert editor.plan.spun[0].row == 6


def test_orders_looked_at_ahead_show_what_lies_on_the_bobbins(editor):
    sources = np.array([[0, 1, 2], [1, 0, 2], [2, 1, 0]])
    found = stretches_of_orders(editor.plan, editor.resolved, sources)
    for one, order in zip(found, sources, strict=True):
        alone = layout(resolve(reordered(editor.plan, order.tolist()))).stretches
        np.testing.assert_array_equal(one.edges_ppb, alone.edges_ppb)
        np.testing.assert_array_equal(one.lot, alone.lot)


def test_a_miniature_is_spun_anew(editor):
    assert miniature(editor.plan).spun == ()


def test_a_miniature_is_a_plan_of_its_own_whatever_was_decided_at_the_wheel(editor):
    decided = replace(editor.plan, to_spin=(ToSpin(1, 2, mass_g=3.0),), pull_off=(PullOff(2, 1.0),))
    small = miniature(decided)
    assert yc.plan_from_data(to_data(small)) == small


def test_the_file_is_saved_with_what_was_spun(editor, tmp_path):
    path = editor.save_as(tmp_path / "plan.toml")
    assert yc.read_plan(path) == editor.plan
    editor.change("scale", step_g=0.5)
    editor.save()
    assert yc.read_plan(path).spun == editor.plan.spun
