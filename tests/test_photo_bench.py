"""The bench of photographs without a browser: what a finger does, done by setting values."""

import io
import shutil
from pathlib import Path

import pytest
from PIL import Image

from yarncolor import demo_photo, photo_bench, read_plan

SAMPLES = Path(__file__).parent.parent / "sample_data"


@pytest.fixture
def plan_file(tmp_path):
    return Path(shutil.copy(SAMPLES / "tideline.toml", tmp_path / "mine.toml"))


@pytest.fixture
def bench(plan_file, tmp_path):
    return photo_bench(demo_photo(), plan_file, tmp_path / "out")


def take(bench, name):
    bench.controls["name"].value = name
    bench.take.click()


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench) == "A bench to take colours from a photograph; it needs a live notebook."


def test_only_the_fields_that_a_way_needs_are_shown(bench):
    shown = {
        way: {key for key, one in bench.controls.items() if one.layout.display != "none"}
        for way in ("nothing", "white", "target")
        for _ in [setattr(bench.controls["by"], "value", way)]
    }
    assert "white_left" not in shown["nothing"] | shown["target"]
    assert "target_corners" not in shown["nothing"] | shown["white"]
    assert {"fibre_left", "name", "by"} <= shown["nothing"] & shown["white"] & shown["target"]


def test_a_lot_is_taken_and_written_and_the_plan_s_own_file_is_left(bench, plan_file, tmp_path):
    before = plan_file.read_bytes()
    take(bench, "Bladderwrack")
    bench.write.click()
    (written,) = (tmp_path / "out").glob("*.toml")
    lot = read_plan(written).lots[-1]
    assert (lot.name, lot.mass_g, lot.colour_unsure) == ("Bladderwrack", 25.0, 6.0)
    assert lot.source.startswith("a photograph, corrected by something white")
    assert plan_file.read_bytes() == before
    assert "# Invented for the examples" in written.read_text(encoding="utf-8")


def test_what_was_written_before_is_not_written_over(bench, tmp_path):
    for name in ("One", "Two"):
        take(bench, name)
        bench.write.click()
    assert len(list((tmp_path / "out").glob("*.toml"))) == 2


def test_a_lot_that_is_there_gets_another_colour_and_keeps_its_grams(bench):
    take(bench, "Kelp")
    assert "a lot that was there" in bench.said.value
    kelp = bench.plan.lots[0]
    assert (kelp.name, kelp.mass_g, kelp.rolags) == ("Kelp", 54.0, 18)
    assert kelp.colour is None
    assert kelp.lab is not None


def test_a_name_that_no_plan_takes_is_refused_before_anything_is_lost(bench):
    take(bench, "Good")
    take(bench, "x" * 61)
    assert "1 to 60 characters" in bench.said.value
    assert bench.plan.names[-1] == "Good"


def test_nothing_is_taken_while_a_box_or_a_target_is_wrong(bench):
    bench.controls["by"].value = "target"
    assert "left out one by one" in bench.said.value
    bench.controls["target_corners"].value = "0.1 0.1; 0.9 0.9"
    assert "four corners" in bench.said.value
    lots = len(bench.plan.lots)
    take(bench, "Never")
    assert len(bench.plan.lots) == lots
    bench.controls["by"].value = "white"
    assert "corners" not in bench.said.value


def test_another_picture_can_be_opened_and_a_bad_one_is_said(bench):
    stream = io.BytesIO()
    Image.new("RGB", (64, 48), (180, 40, 90)).save(stream, "PNG")
    shown = bench.image.value
    bench._on_upload({"new": ({"name": "mine.png", "content": stream.getvalue()},)})
    assert bench.image.value != shown
    bench._on_upload({"new": ({"name": "text.png", "content": b"Dear diary"},)})
    assert "text.png" in bench.said.value
    assert bench.photo.size_px == (64, 48)


def test_names_are_only_names(bench):
    bench.controls["name"].value = "<b>Kelp"
    assert "<b>Kelp" not in bench.read.value
    assert "&lt;b&gt;Kelp" in bench.read.value
