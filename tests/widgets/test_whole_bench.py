"""The whole bench without a browser: sections that follow one plan, and work only when seen."""

import pytest

from tests.helpers.paths import SAMPLES
from yarncolor import plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.report.exports import FILES, SHARED
from yarncolor.widgets.export_bench import GROUPS, PLAN_FILE, WORDS
from yarncolor.widgets.tables_bench import NUMBERS, WEIGH_OUT, TablesBench
from yarncolor.widgets.whole_bench import Bench, bench

SLACK_WATER = SAMPLES[0].parent / "slack_water.toml"


@pytest.fixture
def own(tmp_path):
    return Bench(Editor.opened(SLACK_WATER), tmp_path)


def see(own, section):
    own.sections.value = section
    return own.place.children[0]


def test_every_section_is_made_once_and_can_follow(own):
    made = {name: see(own, name) for name in own.sections.options}
    own.editor.change(name="staggered")
    for name, section in made.items():
        assert see(own, name) is section
        section.refresh()


def test_a_section_out_of_sight_does_no_work_until_it_is_seen(own):
    numbers = see(own, "In numbers")
    before = numbers.html.value
    see(own, "Colour order")
    own.editor.change("spinning", variation=0.2)
    assert numbers.html.value == before
    see(own, "In numbers")
    assert numbers.html.value != before


def test_the_section_in_sight_follows_at_once(own):
    weigh_out = see(own, "Weigh-out")
    before = weigh_out.html.value
    own.editor.move(0, 3)
    assert weigh_out.html.value != before
    own.editor.undo()
    assert weigh_out.html.value == before


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("shows", [WEIGH_OUT, NUMBERS], ids=["weigh-out", "numbers"])
def test_every_plan_is_told(path, shows):
    told = TablesBench(Editor.opened(path), shows)
    assert told.html.value.count("<table") >= 3


@pytest.mark.parametrize("shows", [WEIGH_OUT, NUMBERS], ids=["weigh-out", "numbers"])
def test_names_are_only_names(shows):
    lots = [{"name": f"<b>{name}", "colour": "#345", "mass_g": 9.0} for name in ("Kelp", "Foam")]
    told = TablesBench(Editor(plan_from_data({"lots": lots})), shows).html.value
    assert "<b>Kelp" not in told
    assert "&lt;b&gt;Kelp" in told


def test_what_is_carded_first_is_told_before_it_is_weighed():
    lots = [{"name": name, "colour": "#345", "mass_g": 12.0} for name in ("Kelp", "Foam")]
    scheme = {"name": "gradient", "blend_steps": 1, "plies": 2}
    told = TablesBench(
        Editor(plan_from_data({"lots": lots, "scheme": scheme})), WEIGH_OUT
    ).html.value
    assert told.index("3.0 g of Kelp and 3.0 g of Foam") < told.index("bobbin 1 of 2")


def test_every_file_has_its_button_in_one_group():
    assert sorted(WORDS) == sorted([*FILES, *SHARED, PLAN_FILE])
    assert sum(map(len, GROUPS.values())) == len(WORDS)


def test_how_far_writing_is_shows_once_something_is_written(own):
    files = see(own, "Files")
    assert files.progress.layout.visibility == "hidden"
    files.all.click()
    assert files.progress.layout.visibility == "visible"


def test_it_says_what_it_is_where_widgets_do_not_run(tmp_path):
    assert repr(bench(SLACK_WATER, tmp_path)).startswith(
        "The bench: Lots, Photographs, Mixtures, Every option"
    )
