"""Sections of a plan in ounces and yards: rows of lots, the wheel, plying, sliders, the plan's bar.

Sizes by the agreement of 1959: 1 oz = 28.349523125 g, 1 yd = 0.9144 m, 1 in = 25.4 mm.
"""

from pathlib import Path

import numpy as np
import pytest

from tests.helpers.asked import read
from tests.helpers.heard_form import HeardForm
from tests.helpers.metric_words import metric_words, texts_in
from yarncolor import plan_from_data, read_plan, save_plan
from yarncolor.colour.photo.image import Photo
from yarncolor.editing.editor import Editor
from yarncolor.measures import IMPERIAL, METRIC
from yarncolor.widgets.lots.lots_bench import LotsBench
from yarncolor.widgets.mixing_bench import MixingBench
from yarncolor.widgets.options.options_bench import OptionsBench
from yarncolor.widgets.photo.photo_bench import PhotoBench
from yarncolor.widgets.picture_bench import PictureBench
from yarncolor.widgets.plan_bar import PlanBar
from yarncolor.widgets.plying.plying_bench import PlyingBench
from yarncolor.widgets.spinning.spinning_bench import SpinningBench
from yarncolor.widgets.yarn_bench import YarnBench

OUNCE_G, YARD_M, INCH_MM = 28.349523125, 0.9144, 25.4
LOTS = [
    {"name": "Kelp", "colour": "#56612d", "mass_g": 50.0, "rolag_g": 7.0},
    {"name": "אצה", "colour": "#e8e4d8", "mass_g": 40.0, "reserve_g": 3.0},
]
DATA = {
    "lots": LOTS,
    "scheme": {"name": "fractal", "divisions": [1, 2]},
    "bobbins": {"tare_g": 31.5, "plying_tare_g": 60.0},
    "spinning": {"single_m_per_g": 7.3},
    "spun": [{"ply": 1, "row": 1, "mass_g": 20.0, "sample": {"length_m": 2.0, "mass_g": 0.2}}],
    "plied": {"so_far_m": 12.0},
}


def editor_in(units: str = "imperial", **tables) -> Editor:
    return Editor(plan_from_data({"units": units, **DATA, **tables}))


class Heard:
    """A section whose messages are kept."""

    def __init__(self, bench):
        self.bench, self.said = bench, []
        bench.send = lambda content, *_: self.said.append(content)
        bench.editor.watch(bench.refresh)
        bench.handle({"do": "ready", "view": ""}, [])

    def ask(self, **message):
        self.bench.handle({"view": "", **message}, [])
        return self.said[-1]

    def last(self, kind):
        return next(told for told in reversed(self.said) if told["kind"] == kind)

    def with_fields(self):
        return next(told for told in reversed(self.said) if "fields" in told)


class Rows(Heard):
    """Rows of lots, and what is typed into one of them."""

    def type(self, at, version=None, **fields):
        told = self.last("rows")
        rows = [{"key": key, **row} for key, row in enumerate(map(dict, told["rows"]))]
        rows[at] |= fields
        version = told["version"] if version is None else version
        return self.ask(do="rows", serial=1, version=version, rows=rows)


@pytest.mark.parametrize("made", [LotsBench, OptionsBench, SpinningBench, PlyingBench])
def test_no_message_of_a_section_says_gram_or_metre(made):
    section = Heard(made(editor_in()))
    (told, *_) = section.said
    told = {key: value for key, value in told.items() if key not in ("hint", "palette", "why")}
    said = [text for text in texts_in(told) if text != "grams and metres"]
    left = [text for text in said if metric_words(text) and "grams and metres (" not in text]
    assert left == []


def test_a_lots_ounces_are_taken_exactly_and_other_lots_keep_their_grams(tmp_path):
    editor = editor_in()
    rows = Rows(LotsBench(editor))
    shown = rows.last("rows")["rows"]
    assert [row["mass_g"] for row in shown] == ["1.764", "1.411"]
    assert (shown[0]["rolag_g"], shown[1]["reserve_g"]) == ("0.2469", "0.1058")
    told = rows.type(0, mass_g="1.25")
    assert told["rows"][0]["mass_g"] == "1.25"
    assert [lot.mass_g for lot in editor.plan.lots] == [1.25 * OUNCE_G, 40.0]
    assert (editor.plan.lots[0].rolag_g, editor.plan.lots[1].reserve_g) == (7.0, 3.0)
    again = Editor(read_plan(save_plan(editor.plan, tmp_path / "plan.toml")))
    assert Rows(LotsBench(again)).last("rows")["rows"] == told["rows"]
    editor.undo()
    assert rows.last("rows")["rows"] == shown


def test_rows_that_say_what_is_shown_are_no_step():
    data = {key: table for key, table in DATA.items() if key not in ("spun", "plied")}
    editor = Editor(plan_from_data({"units": "imperial", **data}))
    before = editor.plan
    Rows(LotsBench(editor)).type(0)
    assert editor.plan == before


def test_a_lots_limits_are_said_in_ounces():
    rows = Rows(LotsBench(editor_in()))
    told = rows.type(1, reserve_g="2")
    assert [fault["words"] for fault in told["faults"]] == ["give at most 1.41 oz, the lot's mass"]


def test_rows_in_grams_are_not_taken_for_ounces_after_the_units_changed():
    editor = editor_in("metric")
    rows = Rows(LotsBench(editor))
    version = rows.last("rows")["version"]
    assert rows.last("rows")["rows"][0]["mass_g"] == "50"
    HeardForm(editor).put(".units", "imperial")
    told = rows.last("rows")
    assert (told["rows"][0]["mass_g"], told["anew"]) == ("1.764", True)
    assert [one["words"] for one in told["fields"]][2:4] == ["ounces", "kept back, oz"]
    refused = rows.type(0, version=version, mass_g="30")
    assert (refused["kind"], editor.plan.lots[0].mass_g) == ("faults", 50.0)


def test_rows_that_are_not_right_yet_mean_the_same_when_the_units_change():
    editor = editor_in("metric")
    rows = Rows(LotsBench(editor))
    rows.type(1, mass_g="25", reserve_g="60")
    HeardForm(editor).put(".units", "imperial")
    kelp, wrong = rows.last("rows")["typed"]
    assert [kelp[name] for name in ("mass_g", "rolag_g")] == ["1.764", "0.2469"]
    assert [wrong[name] for name in ("mass_g", "reserve_g")] == ["25 g", "60 g"]
    told = rows.type(1, mass_g=wrong["mass_g"], reserve_g=wrong["reserve_g"])
    assert [fault["words"] for fault in told["faults"]] == [
        "give at most 0.8818 oz, the lot's mass"
    ]
    rows.type(1, mass_g=wrong["mass_g"], reserve_g="2 g")
    assert [(lot.mass_g, lot.reserve_g) for lot in editor.plan.lots] == [(50.0, 0.0), (25.0, 2.0)]


def test_rows_that_are_right_are_not_typed_again_when_the_units_change():
    editor = editor_in("metric")
    rows = Rows(LotsBench(editor))
    rows.type(1, reserve_g="60")
    rows.type(1, reserve_g="2")
    HeardForm(editor).put(".units", "imperial")
    assert rows.last("rows")["typed"] == []


def test_what_waits_in_a_form_means_the_same_when_the_units_change():
    editor = editor_in("metric")
    form = HeardForm(editor)
    form.put("scale.step_g", "300")
    form.put("spinning.spin_loss", "no")
    form.put(".units", "imperial")
    told = form.field("scale.step_g")
    assert (told["text"], told["fault"]) == ("300 g", "give ounces, 0.00003528 to 3.527")
    assert form.field("spinning.spin_loss")["text"] == "no"
    form.put("scale.step_g", "1 g")
    assert editor.plan.scale.step_g == 1.0
    form.put(".units", "metric")
    assert form.field("spinning.spin_loss")["text"] == "no"


@pytest.mark.parametrize(
    ("made", "name", "typed", "then", "fault"),
    [
        (SpinningBench, "bobbins.tare_g", "20000", "20000 g", "0 to 352.7"),
        (SpinningBench, "1r1.mass_g", "-3", "-3 g", "ounces"),
        (PlyingBench, "plied.so_far_m", "-2", "-2 m", "yards"),
    ],
)
def test_what_is_wrong_at_the_wheel_says_why_in_the_units_of_now(made, name, typed, then, fault):
    editor = editor_in("metric")
    wheel = Heard(made(editor))
    wheel.ask(do="put", name=name, text=typed)
    HeardForm(editor).put(".units", "imperial")
    said = str(wheel.said[-1])
    assert then in said
    assert fault in said
    assert editor.plan.units == "imperial"


def test_what_is_typed_at_the_wheel_is_in_ounces_and_yards():
    editor = editor_in()
    wheel = Heard(SpinningBench(editor))
    words = {field["name"]: field["words"] for field in wheel.with_fields()["fields"]}
    assert words["mass_g"] == "ounces weighed out"
    first = wheel.last("wheel")["plies"][0]["rows"][0]
    assert (first["fields"]["mass_g"], first["fields"]["sample"]) == ("0.7055", "2.187, 0.007055")
    wheel.ask(do="put", name="1r1.mass_g", text="0.75")
    wheel.ask(do="put", name="1r1.sample", text="2.187, 0.008")
    (spun,) = editor.plan.spun
    assert spun.mass_g == 0.75 * OUNCE_G
    assert (spun.sample.length_m, spun.sample.mass_g) == (2.0, 0.008 * OUNCE_G)
    told = wheel.ask(do="put", name="bobbins.tare_g", text="1000")
    assert told["tare"]["fault"].startswith("give ounces of the empty bobbin, 0 to 352.7")


def test_a_bobbin_on_the_scale_is_weighed_in_ounces():
    wheel = Heard(SpinningBench(editor_in()))
    gross = f"{(31.5 + 24.0) / OUNCE_G:.4f}"
    told = wheel.ask(do="weigh", ply=1, bobbin=1, text=gross)
    assert told == wheel.ask(do="weigh", ply=1, bobbin=1, text=f"{gross} oz")
    assert not told["fault"]
    assert wheel.ask(do="weigh", ply=1, bobbin=1, text="x")["words"].startswith("give ounces")


def test_how_far_the_plying_is_is_said_in_yards():
    editor = editor_in()
    plying = Heard(PlyingBench(editor))
    far = {field["name"]: field for field in plying.last("plying")["far"]}
    assert far["plied.so_far_m"]["words"] == "yards of yarn plied so far"
    assert far["plied.so_far_m"]["text"] == "13.12"
    plying.ask(do="put", name="plied.so_far_m", text="13.12")
    assert editor.plan.plied.so_far_m == 12.0
    plying.ask(do="put", name="plied.so_far_m", text="20")
    assert editor.plan.plied.so_far_m == 20 * YARD_M
    told = plying.ask(do="put", name="plied.gross_g", text="1")
    (gross,) = (field for field in told["far"] if field["name"] == "plied.gross_g")
    assert "the empty bobbin, 2.116 oz" in gross["fault"]


def test_bumps_are_counted_over_inches():
    plying = Heard(PlyingBench(editor_in(plying={"twist_tpi": 4.0})))
    inches = plying.ask(do="look", bumps="48", over_cm="4", loop="", catches=False)
    centimetres = plying.ask(do="look", bumps="48", over_cm="10.16 cm", loop="", catches=False)
    assert inches == centimetres
    wrong = plying.ask(do="look", bumps="48", over_cm="x", loop="", catches=False)
    assert "over how many inches" in wrong["lines"][0]


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_pictures_are_looked_at_in_the_units_of_the_plan_and_drawn_alike(units):
    editor = editor_in(units)
    bench = PictureBench(editor, Path())
    say = {"metric": METRIC, "imperial": IMPERIAL}[units]
    assert bench.controls["length_mm"].words == f"length seen, {say.thickness.unit}"
    bench.controls["length_mm"].value = 50.8 / say.thickness.size
    bench.controls["distance_m"].value = 1.2192 / say.far.size
    assert bench.look.distance_m == pytest.approx(1.2192)
    assert bench._said.value("length_mm") == pytest.approx(50.8)


def test_sliders_follow_the_units_and_what_is_chosen_stays():
    editor = editor_in("metric")
    pictures, yarn, mixing = (
        PictureBench(editor, Path()),
        YarnBench(editor),
        MixingBench(editor),
    )
    pictures.controls["width_mm"].value = 254.0
    before = editor.plan
    for bench in (pictures, yarn, mixing):
        editor.watch(bench.refresh)
    HeardForm(editor).put(".units", "imperial")
    assert pictures.controls["width_mm"].value == pytest.approx(10.0)
    assert pictures.controls["width_mm"].words == "width of the cloth, in"
    assert yarn.controls["m_per_100g"].words == "grist of the singles, yd/lb"
    assert yarn.controls["m_per_100g"].value == pytest.approx(7.3 * 453.59237 / YARD_M)
    assert (mixing.grams.words, mixing.grams.value) == ("oz of the new lot", 0.71)
    HeardForm(editor).put(".units", "metric")
    assert pictures.controls["width_mm"].value == pytest.approx(254.0)
    assert yarn.controls["m_per_100g"].words == "grist of the singles, m in 100 g"
    assert editor.plan.spinning == before.spinning


def test_a_lot_that_is_mixed_has_just_the_ounces_that_were_said():
    editor = editor_in()
    bench = MixingBench(editor)
    bench.grams.value = 0.25
    bench.buttons["Make the batt a lot"].click()
    assert editor.plan.lots[-1].mass_g == 0.25 * OUNCE_G
    assert "0.25 oz" in bench.taken.value
    assert metric_words(read(bench.taken.value).said) == []


@pytest.mark.parametrize(
    ("units", "mass", "size_g"), [("metric", "grams", 1), ("imperial", "ounces", OUNCE_G)]
)
def test_a_photographs_lots_are_weighed_in_the_units_of_the_plan(units, mass, size_g):
    photo = Photo(np.zeros((8, 8, 3), np.uint8))
    told = PhotoBench(photo, editor_in(units))._plan()
    assert (told["mass"], told["mass_g"]) == (mass, size_g)


def test_units_are_chosen_in_the_bar_as_one_step():
    editor = editor_in("metric")
    before = editor.plan
    bar = PlanBar(editor, Path())
    said = []
    bar.send = lambda content, *_: said.append(content)
    bar.handle({"do": "ready", "view": ""}, [])
    assert (said[-1]["units"], len(said[-1]["systems"])) == ("metric", 2)
    bar.handle({"do": "say_in", "view": "", "units": "imperial"}, [])
    assert (said[-1]["units"], editor.plan.units) == ("imperial", "imperial")
    bar.handle({"do": "say_in", "view": "", "units": "cubits"}, [])
    assert editor.plan.units == "imperial"
    bar.handle({"do": "undo", "view": ""}, [])
    assert editor.plan == before
