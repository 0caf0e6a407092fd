"""The section that looks for the best order, without a browser: what a finger does, by values."""

import asyncio
from dataclasses import replace

import pytest

from tests.helpers.paths import SAMPLE_DATA
from yarncolor import plan_from_data, read_plan
from yarncolor.editing.editor import Editor
from yarncolor.plan import to_data
from yarncolor.search.looking import looked
from yarncolor.widgets.orders_bench import OrdersBench, orders_bench

NAMES = ("Kelp", "Foam", "Gull", "Rust", "Anemone")
COLOURS = ("#56612d", "#e9e2d5", "#b0b4b8", "#a04020", "#8c2d48")


def five(**scheme) -> Editor:
    lots = [
        {"name": name, "colour": colour, "mass_g": 20.0 + 3 * at}
        for at, (name, colour) in enumerate(zip(NAMES, COLOURS, strict=True))
    ]
    scheme = {"name": "fractal", "divisions": [1, 2], **scheme}
    return Editor(plan_from_data({"lots": lots, "scheme": scheme}))


@pytest.fixture
def bench() -> OrdersBench:
    editor = five()
    bench = OrdersBench(editor)
    editor.watch(bench.refresh)
    return bench


def look(bench) -> None:
    """Look for the best order, and wait for it."""

    async def looked() -> None:
        bench.look()
        if bench.task is not None:
            await bench.task

    asyncio.run(looked())


def heading(panel) -> str:
    return panel.children[0].value


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench) == "A bench that looks for the best order; it needs a live notebook."


def test_looking_shows_todays_order_and_the_best_each_with_its_picture(bench):
    look(bench)
    best = looked(bench.editor.plan).best
    assert len(bench.orders.children) == 1 + len(best)
    assert "Today: Kelp, Foam, Gull, Rust, Anemone" in heading(bench.orders.children[0])
    for panel, one in zip(bench.orders.children[1:], best, strict=True):
        assert ", ".join(one.names) in heading(panel)
        assert bytes(panel.children[1].value).startswith(b"\x89PNG")
    assert "All 60 orders that are allowed were valued" in bench.said.value
    assert bench.progress.value == 1
    assert bench.stop.disabled


def test_one_click_takes_an_order_and_undo_brings_back_what_was(bench):
    look(bench)
    before = bench.editor.plan
    bench.orders.children[1].children[2].click()
    assert bench.editor.plan.scheme.sequence == looked(before).best[0].names
    assert "Undo brings back what was" in bench.said.value
    assert len(bench.orders.children) > 1
    bench.editor.undo()
    assert bench.editor.plan == before


def test_a_slider_is_an_aim_of_the_plan_and_undone_with_it(bench):
    assert (bench.aims["smooth"].value, bench.aims["even"].value) == (1, 1)
    bench.aims["lively"].value = 2.5
    aims = to_data(bench.editor.plan)["orders"]["aims"]
    assert aims == {"smooth": 1.0, "lively": 2.5, "even": 1.0}
    bench.editor.undo()
    assert bench.aims["lively"].value == 0


def test_all_aims_at_nothing_are_refused_and_the_slider_goes_back(bench):
    bench.aims["even"].value = 0
    bench.aims["smooth"].value = 0
    assert "give one a number above 0" in bench.said.value
    assert bench.aims["smooth"].value == 1


def test_what_was_found_of_another_plan_goes(bench):
    look(bench)
    bench.editor.change("plying", wound_off=1)
    assert bench.orders.children == ()
    assert "The plan is another by now: look again." in bench.said.value
    assert bench.trade_off.layout.display == "none"


def test_rules_are_put_together_and_taken_away(bench):
    rules = bench.rules
    rules.lot.value, rules.kind.value, rules.other.value = "Gull", "hold", 1
    rules.add.click()
    rules.kind.value, rules.other.value = "apart", "Rust"
    rules.add.click()
    rules.kind.value = "neighbours"
    rules.other.value = "Foam"
    rules.add.click()
    rules.lot.value, rules.kind.value = "Anemone", "may_leave_out"
    assert rules.other.layout.display == "none"
    rules.add.click()
    assert to_data(bench.editor.plan)["orders"] == {
        "hold": {"Gull": 1},
        "neighbours": [["Gull", "Foam"]],
        "apart": [["Gull", "Rust"]],
        "may_leave_out": ["Anemone"],
    }
    told = [row.children[0].description for row in rules.rows.children]
    assert told == [
        "No longer: Gull stays in place 1",
        "No longer: Gull is always beside Foam",
        "No longer: Gull is never beside Rust",
        "No longer: Anemone may be left out",
    ]
    look(bench)
    for one in bench.found.best:
        assert one.names[0] == "Gull"
        assert one.names[1] == "Foam"
    for row in rules.rows.children:
        row.children[0].click()
    assert "orders" not in to_data(bench.editor.plan)


def test_a_rule_that_clashes_is_refused(bench):
    rules = bench.rules
    for lot in ("Gull", "Rust"):
        rules.lot.value, rules.kind.value, rules.other.value = lot, "hold", 2
        rules.add.click()
    assert "Gull is held in place 2 too" in rules.said.value
    assert to_data(bench.editor.plan)["orders"] == {"hold": {"Gull": 2}}
    rules.closed.value = True
    assert "no lot stands twice" in rules.said.value
    assert rules.closed.value == "as it is"


def test_the_front_is_walked_along_and_one_is_taken(bench):
    look(bench)
    view = bench.trade_off
    assert view.layout.display is None
    assert view.point.max == len(view.front) > 1
    values = [one.values["smooth"] for one in view.front]
    assert values == sorted(values)
    view.point.value = view.point.max
    picture = view.picture.value
    assert f"{view.point.max} of {view.point.max}" in view.words.value
    view.point.value = 1
    assert view.picture.value != picture
    view.spin.click()
    assert bench.editor.plan.scheme.sequence == view.front[0].names


def test_of_one_aim_there_is_nothing_to_trade(bench):
    bench.aims["even"].value = 0
    look(bench)
    assert bench.trade_off.layout.display == "none"


def test_a_plan_without_an_order_says_so():
    bench = OrdersBench(five(name="free", portions=[{"ply": 1, "lot": "Kelp", "mass_g": 2.0}]))
    look(bench)
    assert "choose a scheme with a sequence" in bench.said.value
    assert bench.orders.children == ()


def test_rules_that_nothing_obeys_are_told(bench):
    pairs = [["Kelp", "Foam"], ["Foam", "Gull"], ["Gull", "Kelp"]]
    asked = replace(bench.editor.plan.orders, neighbours=tuple(map(tuple, pairs)))
    bench.editor.replace_plan(replace(bench.editor.plan, orders=asked))
    look(bench)
    assert "no order obeys all that is asked" in bench.said.value


def test_a_search_gives_others_their_turn_and_stops_with_what_it_has():
    bench = OrdersBench(Editor(read_plan(SAMPLE_DATA / "shore_walk.toml")))
    told = []

    async def worked() -> None:
        bench.look()
        task = bench.task
        for _ in range(40):
            await asyncio.sleep(0.01)
            told.append(bench.said.value)
        assert not task.done()
        assert not bench.stop.disabled
        bench.stop.click()
        await asyncio.gather(task, return_exceptions=True)

    asyncio.run(worked())
    assert any("orders tried. The best so far: " in words for words in told)
    assert bench.found is not None
    assert not bench.found.exact
    assert len(bench.orders.children) == 1 + len(bench.found.best)


def test_looking_changes_no_file(tmp_path):
    path = tmp_path / "ebb.toml"
    path.write_bytes((SAMPLE_DATA / "ebb.toml").read_bytes())
    before = path.read_bytes()
    bench = orders_bench(path, tmp_path / "out").bench
    look(bench)
    assert path.read_bytes() == before
    assert sorted(each.name for each in tmp_path.iterdir()) == ["ebb.toml"]


def test_one_lot_has_no_order_to_look_for_until_there_are_two():
    lot = {"name": "Kelp", "colour": "#345", "mass_g": 30.0}
    editor = Editor(plan_from_data({"lots": [lot]}))
    bench = OrdersBench(editor)
    assert bench.button.disabled
    assert "There is only one lot to put in order: add another" in bench.said.value
    editor.replace_plan(plan_from_data({"lots": [lot, {**lot, "name": "Foam"}]}))
    bench.refresh()
    assert not bench.button.disabled
    assert "only one lot" not in bench.said.value
