"""The bench of mixtures without a browser: what a finger does, done by setting values."""

import re

import pytest

from tests.helpers.paths import SAMPLE_DATA as SAMPLES
from yarncolor.editing.editor import Editor
from yarncolor.widgets.mixing_bench import MixingBench, mixing_bench

BATHS = """
[[lots]]
name = "First <bath>"
lab = [42.0, 38.0, 28.0]
mass_g = 10.0
[[lots]]
name = "Fleece"
lab = [85.0, 1.0, 10.0]
mass_g = 10.0
[[lots]]
name = "Second bath"
bath = { of = "First <bath>", number = 2, exhaustion = 0.6, undyed = "Fleece" }
mass_g = 10.0
"""


@pytest.fixture
def bench():
    return mixing_bench(SAMPLES / "tideline.toml").bench


@pytest.fixture
def baths(tmp_path):
    path = tmp_path / "baths.toml"
    path.write_text(BATHS)
    return mixing_bench(path).bench


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench).startswith("A bench to mix two lots by carding, plying and dyeing")


def test_it_begins_with_the_lightest_and_the_darkest_lot_half_and_half(bench):
    assert bench.controls["one"].value == "Foam"
    assert bench.controls["other"].value == "Mussel"
    assert bench.recipe.shares == (0.5, 0.5)


def test_each_mixture_has_its_title(bench):
    titles = re.findall(r"<h3[^>]*>([^<]+)</h3>", bench.pictures.value)
    assert titles == [
        "Carded together before spinning",
        "Plied side by side",
        "Dyed paler in a second bath",
    ]


def test_parts_are_said_as_per_cent_and_as_grams(bench):
    bench.controls["parts_one"].value = 3
    assert bench.controls["share_percent"].value == 25
    assert "3 parts Foam to 1 part Mussel: 75% and 25%, or 7.5 g and 2.5 g" in bench.pictures.value


@pytest.mark.parametrize(
    ("percent", "parts"), [(0, (1, 0)), (20, (4, 1)), (33, (67, 33)), (75, (1, 3)), (100, (0, 1))]
)
def test_per_cent_are_said_as_parts_without_changing(bench, percent, parts):
    bench.controls["share_percent"].value = percent
    assert bench.recipe.parts == parts
    assert bench.controls["share_percent"].value == percent


def test_no_parts_at_all_are_told_and_the_pictures_stay(bench):
    before = bench.pictures.value
    bench.controls["parts_one"].value = 0
    after_one = bench.pictures.value
    bench.controls["parts_other"].value = 0
    assert "Give at least one part" in bench.words.value
    assert after_one != before
    assert bench.pictures.value == after_one
    bench.controls["parts_other"].value = 2
    assert "Give" not in bench.words.value


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("share_percent", 20),
        ("parts_one", 3),
        ("m", 0.3),
        ("exhaustion_percent", 30),
        ("other", "Kelp"),
        ("model", "friele"),
    ],
)
def test_each_control_of_a_mixture_changes_the_pictures(bench, name, value):
    before = bench.pictures.value
    bench.controls[name].value = value
    assert bench.pictures.value != before


@pytest.mark.parametrize(("name", "value"), [("distance_m", 4.0), ("turn_mm", 12.0)])
def test_distance_and_twist_change_the_picture_of_the_marl(bench, name, value):
    before = marl(bench)
    bench.controls[name].value = value
    assert marl(bench) != before


def test_the_marl_is_one_ply_of_each_whatever_is_carded(bench):
    before = marl(bench)
    bench.controls["share_percent"].value = 10
    assert marl(bench) == before


def test_the_marl_says_which_lot_is_which_and_where_they_merge(bench):
    legend = re.search(r"<ul.*?</ul>", bench.pictures.value).group()
    assert re.sub(r"<[^>]+>", "", legend).split()[:2] == ["Foam", "Mussel"]
    near, afar = (distances(bench, turn_mm) for turn_mm in (5.0, 10.0))
    assert near <= afar < 1.9 * near


def distances(bench, turn_mm):
    bench.controls["turn_mm"].value = turn_mm
    return float(re.search(r"merged, from ([\d.]+) m on", bench.pictures.value).group(1))


def marl(bench):
    return re.search(r"base64,([^\"]+)", bench.pictures.value).group(1)


def test_the_turn_of_ply_twist_is_the_plan_s():
    bench = mixing_bench(SAMPLES / "slack_water.toml").bench
    assert bench.controls["turn_mm"].value == pytest.approx(25.4 / 4.8, abs=0.05)
    assert "the plan's own ply twist" in bench.turn_words.value
    assert "the plan stays" not in bench.turn_words.value
    bench.controls["turn_mm"].value = 8.0
    assert "the plan stays" in bench.turn_words.value


def test_a_plan_without_a_ply_twist_says_so(bench):
    assert "The plan gives no ply twist" in bench.turn_words.value


def test_finer_settings_are_folded_away_at_first(bench):
    inside = bench.finer.inside
    assert inside.layout.display == "none"
    bench.finer.button.value = True
    assert inside.layout.display is None
    shown = set(inside.children[0].children)
    finer = ("exhaustion_percent", "own_bath", "model", "m")
    assert shown == {bench.controls[key] for key in finer}


def test_a_plan_with_one_lot_says_that_a_mixture_takes_two(tmp_path):
    path = tmp_path / "one.toml"
    path.write_text('[[lots]]\nname = "Kelp"\ncolour = "#345"\nmass_g = 20.0\n')
    bench = mixing_bench(path).bench
    assert "takes two lots" in bench.pictures.value
    for key, value in (("distance_m", 3.0), ("share_percent", 20), ("own_bath", "Kelp")):
        bench.controls[key].value = value
    assert bench.steps.value == ""
    assert bench.taken.value == ""
    for button in bench.buttons.values():
        button.click()
        assert "takes two lots" in bench.taken.value
    assert len(bench.editor.plan.lots) == 1


def test_it_follows_the_plan_when_it_is_seen_again_and_keeps_what_was_chosen():
    editor = Editor.opened(SAMPLES / "slack_water.toml")
    bench = MixingBench(editor)
    bench.controls["other"].value = "Rust"
    bench.controls["parts_one"].value = 3
    before = bench.pictures.value
    editor.change("plying", twist_tpi=2.54)
    assert bench.pictures.value == before
    bench.refresh()
    assert bench.controls["turn_mm"].value == pytest.approx(10)
    assert bench.pictures.value != before
    assert (bench.controls["other"].value, bench.recipe.parts) == ("Rust", (3, 1))


def test_a_turn_that_was_chosen_stays_when_the_plan_changes():
    editor = Editor.opened(SAMPLES / "slack_water.toml")
    bench = MixingBench(editor)
    bench.controls["turn_mm"].value = 7.0
    editor.change("plying", twist_tpi=2.54)
    bench.refresh()
    assert bench.controls["turn_mm"].value == 7.0
    assert "10.0 mm is the plan's own" in bench.turn_words.value


def test_the_constant_belongs_to_one_model_alone(bench):
    bench.controls["model"].value = "linear"
    assert bench.controls["m"].disabled


def test_the_exhaustion_is_fitted_from_a_second_bath_of_one_s_own(baths):
    baths.controls["own_bath"].value = "Second bath"
    assert baths.controls["exhaustion_percent"].value == pytest.approx(60, abs=2)


def test_a_lot_that_is_no_second_bath_is_told_so(baths):
    before = baths.controls["exhaustion_percent"].value
    baths.controls["own_bath"].value = "Fleece"
    assert "Fleece fits no bath of this pair" in baths.words.value
    assert baths.controls["exhaustion_percent"].value == before


def test_names_are_escaped(baths):
    assert "<bath>" not in baths.pictures.value + baths.words.value + baths.steps.value


def test_a_batt_is_made_a_lot_of_the_plan_with_the_grams_of_each():
    editor = Editor.opened(SAMPLES / "tideline.toml")
    bench = MixingBench(editor)
    editor.watch(bench.refresh)
    before = editor.plan
    bench.controls["share_percent"].value = 25
    bench.grams.value = 12
    assert "9.0 g of Foam and 3.0 g of Mussel" in bench.taken.value
    bench.buttons["Make the batt a lot"].click()
    assert editor.plan.lots[-1].name == "Foam and Mussel"
    assert editor.plan.lots[-1].blend == (("Foam", 3), ("Mussel", 1))
    assert editor.plan.lots[-1].mass_g == 12
    assert "Foam and Mussel is among the lots, 12 g" in bench.taken.value
    editor.undo()
    assert editor.plan == before


def test_a_paler_bath_is_made_a_lot_and_a_second_one_has_another_name():
    editor = Editor.opened(SAMPLES / "tideline.toml")
    bench = MixingBench(editor)
    editor.watch(bench.refresh)
    bench.grams.value = 5
    for name in ("Paler Mussel", "Paler Mussel 2"):
        bench.buttons["Make the paler bath a lot"].click()
        assert editor.plan.lots[-1].name == name
        assert (editor.plan.lots[-1].bath.of, editor.plan.lots[-1].bath.undyed) == (
            "Mussel",
            "Foam",
        )


def test_opened_alone_a_mixture_is_made_a_lot_too_and_undo_is_at_hand():
    alone = mixing_bench(SAMPLES / "tideline.toml")
    editor, before = alone.bar.editor, alone.bar.editor.plan
    alone.bench.buttons["Make the batt a lot"].click()
    assert len(editor.plan.lots) == len(before.lots) + 1
    alone.bar.handle({"do": "undo", "view": "v"}, [])
    assert editor.plan == before
