"""Advice that takes itself, without a browser."""

from dataclasses import replace

import pytest

from tests.helpers.paths import SAMPLE_DATA as SAMPLES
from yarncolor import answer, read_plan
from yarncolor.editing.editor import Editor
from yarncolor.report.advice import advice_on
from yarncolor.widgets.remedies import Remedies


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
