"""What a phone took home, pasted on the bench or opened as a file: one step for undo."""

import pytest

import yarncolor as yc
from tests.helpers.phone import plan_of
from tests.helpers.taken import spun, text_of
from yarncolor.editing.editor import Editor
from yarncolor.widgets.bring_home import BringHome

SHORE = plan_of("Kelp", "Foam", "Dune", "Gorse")
TEXT = text_of(SHORE, spun(1, "through = 2"), spun(2, "row = 1"))


@pytest.fixture
def place() -> BringHome:
    return BringHome(Editor(yc.plan_from_data(SHORE)))


def test_a_text_is_brought_in_as_one_step(place):
    place.text.value = TEXT
    place.button.click()
    assert [(each.ply, each.row, each.through) for each in place.editor.plan.spun] == [
        (1, None, 2),
        (2, 1, None),
    ]
    assert "Brought home: 3 pieces spun." in place.said.value
    assert place.text.value == ""
    place.editor.undo()
    assert place.editor.plan.spun == ()


def test_a_file_is_brought_in_as_it_is_opened(place):
    file = {"name": "taken_home.txt", "content": memoryview(TEXT.encode())}
    place._open_all([file])
    assert len(place.editor.plan.spun) == 2


@pytest.mark.parametrize("text", [TEXT[:-70], "<b>", ""])
def test_what_cannot_be_brought_in_is_told_and_stays_to_be_mended(place, text):
    place.text.value = text
    place.button.click()
    assert place.text.value == text
    assert place.editor.plan.spun == ()
    assert "the text: " in place.said.value
    assert "<b>" not in place.said.value


def test_a_file_that_is_no_text_is_told(place):
    place._open_all([{"name": "<i>.txt", "content": memoryview(b"\xff\xfe")}])
    assert "is not UTF-8" in place.said.value
    assert "<i>" not in place.said.value
