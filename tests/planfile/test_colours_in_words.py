"""Colours in words in a plan file: what a lot is called by, is drawn in and is saved as."""

from dataclasses import replace

import pytest
from coloraide import Color

import yarncolor as yc
from yarncolor.colour.palette import display_colours
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_rows import plan_with_rows, rows_of
from yarncolor.planfile.save import save_plan
from yarncolor.report.as_dict import to_dict

TEXT = """\
[[lots]]
name = "Kelp"
colour = "Dark  olive green"  # from the rocks
mass_g = 30

[[lots]]
name = "Foam"
colour = "#DEF"
mass_g = 20
"""


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "shore.toml"
    path.write_text(TEXT)
    return path


def test_a_lot_is_drawn_in_the_colour_of_its_words(file):
    """By the table of CSS names that coloraide has."""
    css = Color("darkolivegreen").to_string(hex=True)
    plan = yc.read_plan(file)
    assert display_colours(plan.lots).srgb == (css, "#ddeeff")
    kelp = to_dict(yc.answer(plan))["lots"][0]
    assert (kelp["srgb"], kelp["in_gamut"]) == (css, True)
    assert kelp["lab"] == pytest.approx(Color(css).convert("lab-d65").coords(), abs=0.05)


def test_made_lots_take_their_colour_from_words_as_from_a_code():
    foam = {"name": "Foam", "colour": "#dddddd", "mass_g": 20.0}
    batt = {"name": "Batt", "blend": {"Kelp": 1, "Foam": 1}, "mass_g": 9.0}
    bath = {"of": "Kelp", "number": 2, "exhaustion": 0.7, "undyed": "Foam"}
    later = {"name": "Later", "bath": bath, "mass_g": 9.0}
    code = Color("rebeccapurple").to_string(hex=True)
    told = []
    for colour in ("rebecca purple", code):
        kelp = {"name": "Kelp", "colour": colour, "mass_g": 30.0}
        plan = yc.plan_from_data({"lots": [kelp, foam, batt, later]})
        told.append(to_dict(yc.answer(plan))["lots"])
    assert told[0] == told[1]


def test_words_stay_in_the_file_as_do_those_that_are_typed(file):
    editor = Editor.opened(file)
    rows = rows_of(editor.plan)
    assert rows[0].colour == "Dark olive green"
    rows[1] = replace(rows[1], colour="dark reddish brown")
    editor.replace_plan(plan_with_rows(editor.plan, rows))
    editor.save()
    saved = file.read_text()
    assert 'colour = "Dark  olive green"  # from the rocks' in saved
    assert 'colour = "dark reddish brown"' in saved
    assert rows_of(yc.read_plan(file))[1].colour == "dark reddish brown"


def test_a_plan_in_words_is_saved_anew_as_it_is(file, tmp_path):
    plan = yc.read_plan(file)
    assert yc.read_plan(save_plan(plan, tmp_path / "new.toml")) == plan


def test_words_that_mean_no_colour_are_told_as_a_spinner_says_it():
    lot = {"name": "Kelp", "colour": "verry dark brik red", "mass_g": 3.0}
    with pytest.raises(yc.PlanError) as told:
        yc.plan_from_data({"lots": [lot]})
    words = str(told.value)
    assert 'did you mean "very dark brick red"?' in words
    assert "sRGB" not in words
    assert "rrggbb" not in words
