"""What every order is to obey follows lots and scheme: renamed with them, or gone."""

from dataclasses import replace

import pytest

from yarncolor import PlanError, plan_from_data
from yarncolor.editing.asked_orders import asked
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_rows import plan_with_rows, rows_of
from yarncolor.editing.merging import merged
from yarncolor.plan import to_data

ASKED = {
    "hold": {"Kelp": 1, "Rust": 4},
    "neighbours": [["Foam", "Gull"]],
    "apart": [["Rust", "Foam"]],
    "may_leave_out": ["Gull"],
}


def plan_of():
    names = ("Kelp", "Foam", "Gull", "Rust")
    lots = [{"name": name, "colour": "#888", "mass_g": 20.0} for name in names]
    return plan_from_data({"lots": lots, "scheme": {"name": "fractal"}, "orders": ASKED})


def test_a_scheme_without_an_order_asks_for_none():
    editor = Editor(plan_of())
    editor.change(name="free")
    assert "orders" not in to_data(editor.plan)
    editor.undo()
    assert to_data(editor.plan)["orders"] == ASKED


def test_a_lot_that_is_renamed_is_so_here():
    rows = rows_of(plan_of())
    plan = plan_with_rows(plan_of(), [rows[0], replace(rows[1], name="Spume"), *rows[2:]])
    assert to_data(plan)["orders"] == {
        "hold": {"Kelp": 1, "Rust": 4},
        "neighbours": [["Spume", "Gull"]],
        "apart": [["Rust", "Spume"]],
        "may_leave_out": ["Gull"],
    }


def test_of_a_lot_that_is_gone_nothing_is_asked():
    rows = rows_of(plan_of())
    plan = plan_with_rows(plan_of(), [rows[0], rows[1], rows[3]])
    assert to_data(plan)["orders"] == {"hold": {"Kelp": 1}, "apart": [["Rust", "Foam"]]}


def test_lots_that_become_one_are_asked_for_as_one():
    plan = merged(plan_of(), "Foam", "Gull")
    assert to_data(plan)["orders"]["may_leave_out"] == ["Foam"]
    assert "neighbours" not in to_data(plan)["orders"]


def test_what_is_asked_itself_is_not_fitted_but_refused():
    with pytest.raises(PlanError, match="Rust is held in place 4 too"):
        asked(plan_of(), hold={"Rust": 4, "Kelp": 4})
