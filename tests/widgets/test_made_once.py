"""What follows from a step of the editor is made once, for all who look."""

import pytest

from tests.helpers.counting import counted
from tests.helpers.paths import TIDELINE
from yarncolor.answers.answer import answer_of
from yarncolor.editing.editor import Editor
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.widgets.whole_bench import Bench
from yarncolor.widgets.yarn_bench import yarn_bench

SLACK_WATER = TIDELINE.with_name("slack_water.toml")
ALL_WHO_ASK = ("Weigh-out", "Every option", "Grist and twist", "Yarn and fabric", "In numbers")


@pytest.fixture
def calls(monkeypatch):
    return lambda function: counted(monkeypatch, function)


def see(own: Bench, section: str):
    own.sections.value = section
    return own.place.children[0]


@pytest.mark.parametrize("path", [SLACK_WATER, TIDELINE], ids=lambda path: path.stem)
def test_a_notch_of_the_twist_slider_is_answered_once(path, calls):
    bench = yarn_bench(path).bench
    answers, layouts, resolved = calls(answer_of), calls(layout), calls(resolve)
    bench.controls["single_tpi"].value = 9.0
    assert len(answers) == 1
    assert len(layouts) <= 3
    assert len(resolved) == 1


def test_in_the_whole_bench_as_well_however_many_sections_have_been_seen(calls, tmp_path):
    own = Bench(Editor.opened(SLACK_WATER), tmp_path)
    for section in ALL_WHO_ASK:
        see(own, section)
    see(own, "Colour order").painter.handle({"do": "ready"}, [])
    see(own, "Every option").handle({"do": "ready"}, [])
    twist = see(own, "Grist and twist")
    answers, layouts = calls(answer_of), calls(layout)
    twist.controls["single_tpi"].value = 9.0
    assert len(answers) == 1
    assert len(layouts) <= 3
    for section in (*ALL_WHO_ASK, "Colour order", "Mixtures"):
        see(own, section)
    assert len(answers) == 1
    assert len(layouts) <= 3


def test_side_by_side_answers_only_for_what_is_not_the_plan(calls, tmp_path):
    own = Bench(Editor.opened(SLACK_WATER), tmp_path)
    side_by_side = see(own, "Side by side")
    answers = calls(answer_of)
    own.editor.change("spinning", variation=0.2)
    assert len(answers) == len(side_by_side.columns)
    assert side_by_side.found["A"] is own.editor.answer


def test_undo_and_redo_find_the_answers_of_the_last_steps_again():
    editor = Editor.opened(TIDELINE)
    first = editor.answer
    editor.move(0, 3)
    second = editor.answer
    editor.undo()
    assert editor.answer is first
    editor.redo()
    assert editor.answer is second
    editor.hold(2)
    assert editor.answer is second


def test_an_answer_is_made_from_the_preview_that_was_shown():
    editor = Editor.opened(TIDELINE)
    assert editor.answer.layout.stretches is editor.preview.layout.stretches
    assert editor.resolved is editor.preview.layout.resolved


def test_a_rest_after_a_drag_lays_out_once_and_looks_ahead_in_one_go(calls, tmp_path):
    own = Bench(Editor.opened(SLACK_WATER), tmp_path)
    painter = see(own, "Colour order").painter
    painter.handle({"do": "ready"}, [])
    answers, layouts, resolved = calls(answer_of), calls(layout), calls(resolve)
    painter.handle({"do": "move", "moves": [[0, 3]], "serial": 1, "turn": 1}, [])
    assert (len(answers), len(layouts), len(resolved)) == (0, 1, 1)
    painter.handle({"do": "rest", "entry": 0}, [])
    assert (len(answers), len(layouts), len(resolved)) == (1, 1, 1)
