"""Advice that takes itself, without a browser."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.helpers.paths import SAMPLE_DATA as SAMPLES
from tests.helpers.strategies import plan_data
from yarncolor import answer, plan_from_data, read_plan
from yarncolor.editing.editor import Editor
from yarncolor.layout.schemes import SCHEMES
from yarncolor.report.advice import advice_on
from yarncolor.widgets.remedies import Remedies, take


def remedies(editor):
    offered = Remedies(editor)
    editor.watch(lambda: offered.show(editor.answer))
    offered.show(editor.answer)
    return offered


def kinds(editor):
    return {item.kind for item in advice_on(editor.answer)}


@pytest.fixture
def doubled():
    return Editor.opened(SAMPLES / "tideline.toml")


def test_a_closing_that_mends_is_taken_by_its_button_and_undo_brings_back(doubled):
    offered, before = remedies(doubled), doubled.plan
    assert "doubled_run" in kinds(doubled)
    best = next(each for each in answer(before).closing_costs if each.mends)
    offered.buttons.children[0].click()
    assert doubled.plan.scheme.closing == best.closing
    assert "doubled_run" not in kinds(doubled)
    assert offered.said.value.count("undo brings back what was") == 1
    doubled.undo()
    assert doubled.plan == before
    assert offered.buttons.children


def test_bobbins_wound_off_unlike_are_wound_off_all_or_none():
    plan = read_plan(SAMPLES / "slack_water.toml")
    editor = Editor(replace(plan, plying=replace(plan.plying, wound_off=(1, 0, 0))))
    offered = remedies(editor)
    assert "mixed_winding" in kinds(editor)
    by_words = {button.description: button for button in offered.buttons.children}
    by_words["Wind off all bobbins"].click()
    assert "mixed_winding" not in kinds(editor)
    assert editor.resolved.wound_off.tolist() == [1, 1, 1]
    editor.undo()
    {button.description: button for button in offered.buttons.children}["Wind off none"].click()
    assert editor.resolved.wound_off.tolist() == [0, 0, 0]


def test_a_yarn_plied_as_it_was_spun_is_plied_the_other_way():
    plan = read_plan(SAMPLES / "slack_water.toml")
    spun = replace(plan.spinning, direction="Z")
    editor = Editor(replace(plan, spinning=spun, plying=replace(plan.plying, direction="Z")))
    offered = remedies(editor)
    assert "wrong_twist" in kinds(editor)
    {button.description: button for button in offered.buttons.children}["Ply the other way"].click()
    assert "wrong_twist" not in kinds(editor)


def offered_on(data):
    editor = Editor(plan_from_data(data))
    return editor, remedies(editor)


def click(offered, words):
    {button.description: button for button in offered.buttons.children}[words].click()


TWINS = {
    "lots": [
        {"name": "Kelp", "colour": "#445533", "mass_g": 30.0, "reserve_g": 2.0},
        {"name": "Foam", "colour": "#ddeeee", "mass_g": 20.0},
        {"name": "Weed", "colour": "#455634", "mass_g": 10.0, "reserve_g": 1.0},
        {"name": "Rust", "colour": "#8a4b2a", "mass_g": 12.0},
        {"name": "Slate", "colour": "#4a5866", "mass_g": 12.0},
    ],
    "scheme": {"sequence": ["Kelp", "Weed", "Foam", "Rust", "Slate"]},
}


def test_two_lots_that_pass_for_one_are_merged_with_all_their_fibre():
    editor, offered = offered_on(TWINS)
    before = editor.plan
    assert "near_twins" in kinds(editor)
    click(offered, "Merge Weed into Kelp")
    kelp = editor.plan.lots[0]
    assert editor.plan.names == ("Kelp", "Foam", "Rust", "Slate")
    assert (kelp.mass_g, kelp.reserve_g, kelp.colour) == (40, 3, "#445533")
    assert editor.plan.scheme.sequence == ("Kelp", "Foam", "Rust", "Slate")
    assert "near_twins" not in kinds(editor)
    editor.undo()
    assert editor.plan == before


def test_lots_that_are_merged_keep_the_grams_of_each_place():
    scheme = {"sequence": ["Kelp", "Foam", "Weed", "Rust"], "parts": [1, 2, 1, 4]}
    editor, offered = offered_on({**TWINS, "scheme": scheme})
    click(offered, "Merge Weed into Kelp")
    assert editor.plan.scheme.sequence == ("Kelp", "Foam", "Kelp", "Rust")
    kelp, foam, weed, rust = editor.plan.scheme.parts
    assert (kelp / weed, foam, rust) == (3, 2, 4)


def test_lots_that_pass_for_one_are_parted_in_the_order_and_what_is_held_stays():
    editor, offered = offered_on(TWINS)
    editor.hold(0)
    click(offered, "Part Kelp and Weed in the order")
    order = editor.names()
    assert order[0] == "Kelp"
    assert 2 <= order.index("Weed") <= 3
    assert sorted(order) == sorted(TWINS["scheme"]["sequence"])
    words = [button.description for button in offered.buttons.children]
    assert words == ["Merge Weed into Kelp"]
    editor.undo()
    assert editor.names() == tuple(TWINS["scheme"]["sequence"])


def test_lots_that_others_are_made_from_are_not_merged():
    mixed = {"name": "Mix", "blend": {"Weed": 1, "Foam": 1}, "mass_g": 4.0}
    _, offered = offered_on({**TWINS, "lots": [*TWINS["lots"], mixed]})
    words = [button.description for button in offered.buttons.children]
    assert not any(word.startswith("Merge Weed into Kelp") for word in words)


def test_rolags_that_do_not_divide_are_carded_into_the_nearest_number_that_does():
    lot = {"name": "Kelp", "colour": "#445533", "rolags": 7, "rolag_g": 3.0}
    other = {"name": "Foam", "colour": "#ddeeee", "mass_g": 21.0}
    editor, offered = offered_on({"lots": [lot, other], "scheme": {"plies": 5}})
    assert "rolags" in kinds(editor)
    click(offered, "Card Kelp into 5 rolags, 4.2 g each")
    assert (editor.plan.lots[0].rolags, editor.plan.lots[0].mass_g) == (5, 21)
    assert "rolags" not in kinds(editor)


YARN = {
    "lots": [{"name": "Kelp", "colour": "#445533", "mass_g": 60.0}],
    "spinning": {"single_tex": 100.0, "twist_tpm": 300.0},
}


@pytest.mark.parametrize(("twist_tpm", "words"), [(60.0, "Ply tighter"), (900.0, "Ply looser")])
def test_a_yarn_out_of_balance_is_plied_by_the_nearest_rule(twist_tpm, words):
    editor, offered = offered_on({**YARN, "plying": {"twist_tpm": twist_tpm, "contraction": 0.1}})
    assert "balance" in kinds(editor)
    (button,) = offered.buttons.children
    assert button.description.startswith(f"{words}, ")
    assert button.tooltip == "left out, as measured on another yarn: the length lost in plying"
    button.click()
    assert "balance" not in kinds(editor)
    assert editor.plan.plying.contraction is None
    assert editor.plan.plying.balance
    editor.undo()
    assert editor.plan.plying.twist_tpm == twist_tpm


@pytest.mark.parametrize(
    "words",
    [
        "Wind every single off once",
        "Borrow one more bobbin",
        "Wind ply 1 off twice",
        "Wind ply 1 off once, spun in reverse order",
    ],
)
def test_too_few_bobbins_are_mended_by_each_way_that_is_told(words):
    editor, offered = offered_on({**YARN, "scheme": {"plies": 3}, "bobbins": {"count": 3}})
    assert "few_bobbins" in kinds(editor)
    click(offered, words)
    assert not kinds(editor) & {"few_bobbins", "mixed_winding"}
    assert editor.can_undo


@pytest.mark.parametrize(
    "words", ["Wind ply 1 off once more", "Spin ply 1 in reverse order", "Wind off none"]
)
def test_one_bobbin_that_runs_backwards_is_mended_by_itself(words):
    editor, offered = offered_on(
        {**YARN, "scheme": {"plies": 3}, "plying": {"wound_off": [1, 0, 0]}}
    )
    assert "mixed_winding" in kinds(editor)
    click(offered, words)
    assert "mixed_winding" not in kinds(editor)


@given(st.sampled_from(sorted(SCHEMES)).flatmap(plan_data), st.data())
@settings(max_examples=60)
def test_every_way_that_is_offered_changes_the_plan_and_is_undone(data, drawn):
    editor = Editor(plan_from_data(data))
    told = [way for item in advice_on(editor.answer) for way in item.remedies]
    ways = [way for way in told if way.change or way.of_lots]
    if not ways:
        return
    before, way = editor.plan, drawn.draw(st.sampled_from(ways))
    take(editor, way)
    if way.of_lots and type(way.of_lots).__name__ == "Merge":
        total = sum(lot.mass_g for lot in editor.plan.lots)
        assert total == pytest.approx(sum(lot.mass_g for lot in before.lots))
    editor.undo()
    assert editor.plan == before
