"""A plan without a title is called after the file that it is kept in, wherever a title stands."""

import io
import json

import pytest
from PIL import Image

import yarncolor as yc
from tests.helpers.phone import plan_of
from tests.helpers.taken import spun, text_of
from yarncolor.editing.editor import Editor
from yarncolor.editing.new_plan import NEW_PLAN
from yarncolor.phrases import title_of
from yarncolor.pictures.strip import strip_png
from yarncolor.planfile.taken_home import brought_home
from yarncolor.report.as_dict import to_dict
from yarncolor.report.card.card import card_html
from yarncolor.report.phone.page import wheel_html
from yarncolor.report.summary import summary_text


@pytest.fixture
def kept(tmp_path):
    path = tmp_path / "north-shore_shawl.toml"
    path.write_text(NEW_PLAN)
    return path


def png_title(png: bytes) -> str:
    return Image.open(io.BytesIO(png)).text["Title"]


def test_everything_written_for_it_bears_its_files_name(kept):
    found = yc.answer(yc.read_plan(kept))
    assert summary_text(found).splitlines()[0] == "North shore shawl"
    assert '<h1 dir="auto">North shore shawl</h1>' in card_html(found).decode()
    assert "<title>At the wheel: North shore shawl</title>" in wheel_html(found).decode()
    assert png_title(strip_png(found)) == "North shore shawl"


def test_what_the_plan_says_is_as_before(kept):
    plan = yc.read_plan(kept)
    assert json.loads(json.dumps(to_dict(yc.answer(plan))))["title"] == ""
    assert plan == yc.plan_from_data(
        {"lots": [{"name": "Lot 1", "colour": "#808080", "mass_g": 20}]}
    )


def test_a_title_of_its_own_wins(kept):
    kept.write_text(f'title = "Ebb"\n{NEW_PLAN}')
    assert title_of(yc.read_plan(kept)) == "Ebb"


@pytest.mark.parametrize(
    ("file", "called"),
    [("ebb", "Ebb"), ("_", "Untitled plan"), ("Ölfarben 2", "Ölfarben 2"), ("a\nb", "A b")],
)
def test_a_files_name_is_made_readable(file, called, tmp_path):
    (tmp_path / f"{file}.toml").write_text(NEW_PLAN)
    assert title_of(yc.read_plan(tmp_path / f"{file}.toml")) == called


def test_a_plan_saved_under_a_name_is_called_so_and_all_who_look_are_told(kept, tmp_path):
    editor = Editor.opened(kept)
    editor.open_text(NEW_PLAN, "a new plan")
    assert title_of(editor.plan) == "Untitled plan"
    told = []
    editor.watch(lambda: told.append(title_of(editor.answer.plan)))
    editor.change(plies=2)
    editor.save_beside("eight lots", tmp_path)
    editor.change(plies=4)
    editor.undo()
    editor.undo()
    names = ["Untitled plan", *["Eight lots"] * 4]
    assert told == names


def test_saving_once_more_tells_nobody_anew(kept):
    editor, told = Editor.opened(kept), []
    editor.change(plies=2)
    editor.watch(lambda: told.append(None))
    editor.save()
    assert told == []


def test_undo_of_opening_brings_the_name_back(kept, tmp_path):
    editor = Editor.opened(kept)
    editor.open_text(NEW_PLAN, "a new plan")
    editor.save_beside("other", tmp_path)
    assert title_of(editor.plan) == "Other"
    editor.undo()
    assert title_of(editor.plan) == "North shore shawl"


def test_what_was_taken_home_before_it_had_a_name_is_told_by_its_rows():
    data = plan_of("Kelp", "Foam")
    data.pop("title", None)
    text = text_of({**data, "title": "Untitled plan"}, spun(1, "row = 1"))
    assert len(brought_home(text, yc.plan_from_data(data), "home.txt").plan.spun) == 1
