"""A braid on the bench: its order stays, its colours are typed in its own fields."""

import pytest

import yarncolor as yc
from tests.helpers.paths import ROOT
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_rows import Row, plan_with_rows, rows_of
from yarncolor.editing.variants import variant
from yarncolor.plan import SCHEME_NAMES
from yarncolor.planfile.read import plan_from_text
from yarncolor.widgets.lots.lots_bench import LotsBench
from yarncolor.widgets.options.options_bench import OptionsBench

RIPPLE = ROOT / "sample_data" / "ripple.toml"
TIDELINE = ROOT / "sample_data" / "tideline.toml"
WANTS_MORE = {"solid", "stripes"}


def field(bench: OptionsBench, name: str) -> dict:
    fields = [
        one
        for group in bench.state()["groups"]
        for part in group["parts"]
        for one in part["fields"]
    ]
    return next(one for one in fields if one["name"] == name)


def test_its_order_is_no_order_to_be_moved():
    editor = Editor.opened(RIPPLE)
    assert editor.names() == ()
    with pytest.raises(yc.PlanError, match="a braid was dyed in its order"):
        editor.close()
    with pytest.raises(yc.PlanError, match="a braid was dyed in its order"):
        variant(editor.plan, order="reversed")


@pytest.mark.parametrize("name", sorted(WANTS_MORE))
def test_a_scheme_that_wants_more_than_a_braid_says_what(name):
    with pytest.raises(yc.PlanError, match=r"name a lot beside it|is missing"):
        Editor.opened(RIPPLE).change_tables({"scheme": {"name": name}})


@pytest.mark.parametrize("name", sorted({*SCHEME_NAMES} - WANTS_MORE))
def test_every_other_scheme_that_is_chosen_keeps_the_braid(name):
    editor = Editor.opened(RIPPLE)
    editor.change_tables({"scheme": {"name": name}})
    assert editor.plan.scheme.name == name
    assert editor.answer.plan.braid == Editor.opened(RIPPLE).plan.braid
    assert plan_from_text(editor.text()).lots == editor.plan.lots


def test_lots_typed_beside_it_come_and_go():
    plan = Editor.opened(RIPPLE).plan
    assert rows_of(plan) == []
    more = plan_with_rows(plan, [Row(None, name="Gull", mass_g="20", colour="#eee")])
    assert more.names == ("Gull", *plan.names)
    assert plan_with_rows(more, []).names == plan.names


def test_the_bench_of_lots_says_where_its_colours_are_changed():
    bench = LotsBench(Editor.opened(RIPPLE))
    assert bench._rows("")["total"] == (
        "A braid of 4 colours, 113.0 g: Deep Water, Eelgrass, Wet Sand, Sea Thrift. Change it "
        "under Every option."
    )


def test_it_is_typed_line_by_line_and_waits_for_its_grams():
    editor = Editor.opened(TIDELINE)
    bench = OptionsBench(editor)
    bench.on_put({"name": "braid.segments", "text": "Deep; madder, pale; 54 cm\nPale, #ddd, 20 in"})
    assert field(bench, "braid.segments")["waits"]
    bench.on_put({"name": "braid.mass_g", "text": "100"})
    assert editor.plan.scheme.sequence == ("Deep", "Pale")
    assert [one.length_cm for one in editor.plan.braid.segments] == [54, pytest.approx(50.8)]
    bench.on_put({"name": "braid.segments", "text": "Deep, navy, 0"})
    assert field(bench, "braid.segments")["fault"]
    bench.on_put({"name": "braid.segments", "text": ""})
    bench.on_put({"name": "braid.mass_g", "text": ""})
    assert editor.plan.braid is None


@pytest.mark.parametrize(
    "line",
    ["Deep Water, #1f4a63, 54", "Deep, Water; navy; 54", "Sand, lab 70 3 20.5, 12.5", "Sand, 9"],
)
def test_a_line_is_shown_as_it_was_typed(line):
    editor = Editor.opened(RIPPLE)
    bench = OptionsBench(editor)
    first = "Sand, tan, 30\n" if line == "Sand, 9" else ""
    bench.on_put({"name": "braid.segments", "text": first + line})
    assert field(bench, "braid.segments")["text"] == first + line
    assert not field(bench, "braid.segments")["fault"]


def test_no_other_order_is_looked_for():
    with pytest.raises(yc.PlanError, match="was dyed in its order"):
        yc.orders.search(yc.read_plan(RIPPLE))
