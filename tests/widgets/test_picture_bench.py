"""The picture bench without a browser: what a finger does, done by setting values."""

import io
import re
import shutil
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from tests.helpers.paths import SAMPLE_DATA as SAMPLES
from yarncolor import answer, read_plan
from yarncolor.colour.palette import VIEWS
from yarncolor.editing.editor import Editor
from yarncolor.pictures.as_knitted import SWATCH_STITCHES, WORN
from yarncolor.pictures.captions import captioned_png
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.knit_scenes import KINDS
from yarncolor.widgets.order.order_painter import OrderPainter
from yarncolor.widgets.parts import Folded
from yarncolor.widgets.picture_bench import PictureBench, picture_bench

EVERYWHERE = {"picture", "view", "distance_m", "mottle_percent", "joins_cm"}
TAKES = {
    "portrait": {"from_m", "length_mm"},
    "yarn": {"from_m", "length_mm"},
    "whole": set(),
    "wraps": set(),
    "skein": set(),
    "ball": set(),
    "knitted": {"part", "kind", "stitches", "rows", "gauge_stitches", "gauge_rows"},
    "woven": {"part", "width_mm"},
}


@pytest.fixture
def path(tmp_path):
    return Path(shutil.copy(SAMPLES / "tideline.toml", tmp_path / "mine.toml"))


@pytest.fixture
def bench(path, tmp_path):
    return picture_bench(path, tmp_path / "out")


def opened(png: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(png))
    image.load()
    return image


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert "0x" not in repr(bench)
    assert repr(bench).endswith("it needs a live notebook.")


@pytest.mark.parametrize("sample", sorted(SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_looking_at_a_plan_changes_nothing(sample, tmp_path):
    before = sample.read_bytes()
    bench = picture_bench(sample, tmp_path / "out")
    for name in PICTURES:
        bench.controls["picture"].value = name
    assert bench.found.plan == answer(read_plan(sample)).plan
    assert sample.read_bytes() == before
    assert not (tmp_path / "out").exists()


def test_there_is_a_picture_from_the_start_with_its_words(bench):
    image = opened(bench.image.value)
    assert image.text["Title"] == "Tideline"
    assert "Kelp" in bench.caption.value
    assert 'role="status"' in bench.caption.value


def test_every_picture_can_be_chosen_and_no_other(bench):
    chosen = [value for _, value in bench.controls["picture"].options]
    assert sorted(chosen) == sorted(PICTURES)
    seen = set()
    for name in chosen:
        bench.controls["picture"].value = name
        seen.add(bench.image.value)
    assert len(seen) == len(PICTURES)


def test_every_control_says_what_it_is(bench):
    said = [control.description for control in bench.controls.values()]
    assert all(said)
    assert len(set(said)) == len(said)


@pytest.mark.parametrize("name", PICTURES)
def test_only_controls_that_a_picture_takes_are_shown(bench, name):
    bench.controls["picture"].value = name
    shown = {key for key, control in bench.controls.items() if control.layout.display != "none"}
    assert shown == EVERYWHERE | TAKES[name]


ANOTHER = {
    "from_m": 60.0,
    "length_mm": 80.0,
    "width_mm": 120.0,
    "kind": "garter",
    "stitches": 20,
    "rows": 20,
    "gauge_stitches": 33.0,
    "gauge_rows": 55.0,
    "view": "lightness",
    "distance_m": 2.0,
    "mottle_percent": 50,
    "joins_cm": 32,
    "part": "looked at",
}


@pytest.mark.parametrize(
    ("picture", "control"),
    [
        (name, key)
        for name, taken in TAKES.items()
        for key in sorted(taken | {"view", "mottle_percent"})
    ],
)
def test_every_control_changes_its_picture(bench, picture, control):
    bench.controls["picture"].value = picture
    before = bench.image.value
    bench.controls[control].value = ANOTHER[control]
    assert bench.image.value != before
    assert not opened(bench.image.value).text["Description"].endswith("None")


@pytest.mark.parametrize("picture", ["knitted", "woven", "wraps", "skein", "yarn"])
def test_from_afar_every_picture_is_another_and_says_so(bench, picture):
    bench.controls["picture"].value = picture
    before = np.asarray(opened(bench.image.value))
    bench.controls["distance_m"].value = 6.0
    assert "Seen from 6 m" in bench.caption.value
    after = np.asarray(opened(bench.image.value))
    assert after.shape != before.shape or (after != before).any()


def test_longer_joins_change_the_yarn_near_a_change(bench):
    edge = float(bench.found.layout.stretches.edges_m[1])
    bench.controls["from_m"].value = round(edge, 2) - 0.03
    bench.controls["length_mm"].value = 60.0
    shown = []
    for joins_cm in (0, 8, 32):
        bench.controls["joins_cm"].value = joins_cm
        shown.append(bench.image.value)
    assert len(set(shown)) == 3


def test_a_control_that_is_not_shown_changes_nothing(bench):
    bench.controls["picture"].value = "wraps"
    before = bench.image.value
    bench.controls["stitches"].value = 20
    bench.controls["width_mm"].value = 120.0
    assert bench.image.value == before


@pytest.mark.parametrize("name", ["yarn", "knitted", "woven"])
def test_the_whole_length_of_the_yarn_can_be_reached(bench, name):
    slider, yarn_m = bench.controls["from_m"], bench.found.layout.stretches.yarn_m
    assert slider.min == 0
    assert slider.max == pytest.approx(yarn_m, abs=0.1)
    bench.controls["part"].value = "looked at"
    bench.controls["picture"].value = name
    assert slider.layout.display is None
    slider.value = slider.max
    assert "give" not in bench.said.value


def test_the_yarn_opens_where_three_plies_first_show_three_colours(bench):
    along = bench.found.layout.stretches
    from_m = bench.controls["from_m"].value
    at = int((along.edges_m <= from_m).sum()) - 1
    assert [len(set(lots)) for lots in along.lot[:at].tolist()].count(3) == 0
    assert len(set(along.lot[at].tolist())) == 3
    assert "Kelp, Wet Sand, Sea Thrift" in bench.caption.value


@pytest.mark.parametrize("name", ["knitted", "woven"])
def test_a_swatch_shows_the_whole_yarn_in_small_or_a_part_of_it(bench, name):
    bench.controls["picture"].value = name
    every = set(bench.found.layout.stretches.lot.ravel().tolist())
    assert set(bench.drawn().lots) == every
    assert "It shows the whole yarn in small, each " in bench.caption.value
    bench.controls["part"].value = "beginning"
    assert set(bench.drawn().lots) < every
    assert re.search(r"It shows the first [\d.]+ m of the yarn\.", bench.caption.value)
    bench.controls["part"].value = "looked at"
    bench.controls["from_m"].value = 120.0
    assert re.search(r"It shows from 120 m to 1\d\d[\d.]* m of the yarn\.", bench.caption.value)


def test_the_piece_of_a_plan_is_knitted_from_the_beginning_of_the_yarn():
    bench = picture_bench(SAMPLES / "slack_water.toml")
    bench.controls["picture"].value = "knitted"
    assert bench.controls["part"].value == "beginning"
    assert "It shows the first " in bench.caption.value
    bench.controls["picture"].value = "woven"
    assert bench.controls["part"].value == "whole"


def test_another_kind_than_the_plan_s_is_as_large_as_a_swatch_until_a_finger_says_so():
    bench = picture_bench(SAMPLES / "slack_water.toml")
    bench.controls["picture"].value = "knitted"
    assert bench.controls["stitches"].value == 7
    bench.controls["kind"].value = "flat"
    assert bench.controls["stitches"].value == SWATCH_STITCHES
    bench.controls["stitches"].value = 30
    bench.controls["kind"].value = "triangle"
    assert bench.controls["stitches"].value == 30
    bench.editor.change("scheme", name="matched")
    bench.refresh()
    assert bench.controls["kind"].value == "triangle"


def test_the_mark_on_the_strip_is_where_the_bench_looks_and_the_other_way_round(tmp_path):
    editor = Editor.opened(SAMPLES / "tideline.toml")
    bench, painter = PictureBench(editor, tmp_path), OrderPainter(editor)
    painter.handle({"do": "look", "metre": 61.2, "serial": 1}, [])
    bench.refresh()
    assert bench.controls["from_m"].value == 61.2
    assert "24 mm of the yarn from 61.20 m on" in bench.caption.value
    bench.controls["from_m"].value = 300.0
    assert editor.mark_m == 300.0
    shown = bench.image.value
    bench.refresh()
    assert bench.image.value == shown


def test_finer_settings_are_folded_away_at_first(bench):
    (finer,) = (each for each in bench.children if isinstance(each, Folded))
    keys = ("view", "mottle_percent", "joins_cm")
    assert set(finer.inside.children) == {bench.controls[key] for key in keys}
    assert finer.inside.layout.display == "none"
    assert "Show" in finer.button.description
    finer.button.value = True
    assert finer.inside.layout.display is None
    assert "Hide" in finer.button.description


def test_every_view_and_every_kind_can_be_chosen(bench):
    for key, known in (("view", VIEWS), ("kind", (*KINDS, WORN))):
        assert sorted(value for _, value in bench.controls[key].options) == sorted(known)


def test_it_follows_the_plan_when_it_is_seen_again_and_keeps_what_was_chosen(tmp_path):
    editor = Editor.opened(SAMPLES / "slack_water.toml")
    bench = PictureBench(editor, tmp_path)
    bench.controls["picture"].value = "knitted"
    bench.controls["stitches"].value = 20
    bench.controls["distance_m"].value = 2.0
    before, from_m = bench.image.value, bench.controls["from_m"].value
    editor.change("scheme", name="matched")
    editor.change("fabric", rows=40)
    assert bench.image.value == before
    bench.refresh()
    assert bench.image.value != before
    assert bench.found.plan == answer(editor.plan).plan
    kept = {key: bench.controls[key].value for key in ("picture", "stitches", "distance_m")}
    assert kept == {"picture": "knitted", "stitches": 20, "distance_m": 2.0}
    assert bench.controls["rows"].value == 40
    assert bench.controls["from_m"].value != from_m
    seen = bench.image.value
    editor.reverse()
    bench.refresh()
    assert bench.image.value != seen


def test_it_is_drawn_once_for_a_plan_however_often_it_is_seen(path, tmp_path):
    editor = Editor.opened(path)
    bench = PictureBench(editor, tmp_path)
    found = bench.found
    for _ in range(2):
        bench.refresh()
    assert bench.found is found


def test_a_shorter_yarn_ends_where_it_ends(path, tmp_path):
    editor = Editor.opened(path)
    bench = PictureBench(editor, tmp_path)
    bench.controls["from_m"].value = bench.controls["from_m"].max
    editor.change("spinning", single_tex=220.0)
    bench.refresh()
    yarn_m = bench.found.layout.stretches.yarn_m
    assert bench.controls["from_m"].value == pytest.approx(yarn_m, abs=0.1)
    assert "give" not in bench.said.value


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_written_under_its_name(bench, name, tmp_path):
    bench.controls["picture"].value = name
    bench.write.click()
    written = tmp_path / "out" / f"{name}.png"
    assert [path.name for path in (tmp_path / "out").iterdir()] == [written.name]
    assert written.read_bytes() == captioned_png(bench.found, bench.drawn())
    assert f"{name}.png" in bench.said.value


def test_the_swatch_sheet_is_written_as_pdf(bench, tmp_path):
    bench.sheet.click()
    assert (tmp_path / "out" / "swatch.pdf").read_bytes().startswith(b"%PDF-")
    assert "swatch.pdf" in bench.said.value


def test_a_folder_that_cannot_be_is_said_and_nothing_is_written(path, tmp_path):
    (tmp_path / "in_the_way").write_text("mine")
    bench = picture_bench(path, tmp_path / "in_the_way")
    for button in (bench.write, bench.sheet):
        bench.said.value = ""
        button.click()
        assert "not a folder" in bench.said.value
    assert (tmp_path / "in_the_way").read_text() == "mine"


def test_what_cannot_be_is_said_and_the_picture_stays(bench):
    bench.controls["picture"].value = "knitted"
    before = bench.image.value
    bench.controls["stitches"].max = 10**7
    bench.controls["stitches"].value = 10**7
    assert "stitches" in bench.said.value
    assert "give" in bench.said.value
    assert bench.image.value == before


def test_what_was_said_goes_when_it_is_mended(bench):
    bench.controls["picture"].value = "knitted"
    bench.controls["stitches"].max = 10**7
    bench.controls["stitches"].value = 10**7
    bench.controls["stitches"].value = 30
    assert "give" not in bench.said.value


def test_no_picture_is_written_under_a_name_that_it_does_not_have(bench, tmp_path):
    """A refused value leaves the picture before it; that one is not to be saved as the new one."""
    bench.controls["stitches"].max = 10**7
    bench.controls["stitches"].value = 10**7
    bench.controls["picture"].value = "knitted"
    bench.write.click()
    written = tmp_path / "out" / "knitted.png"
    assert not written.exists() or "knitting" in opened(written.read_bytes()).text["Description"]


@pytest.mark.parametrize("scheme", ["chain", "matched"])
def test_a_plan_with_almost_nothing_in_it_has_a_bench(scheme, tmp_path):
    path = tmp_path / "least.toml"
    path.write_text(
        f'[[lots]]\nname = "Kelp"\ncolour = "#345"\nmass_g = 0.5\n[scheme]\nname = "{scheme}"\n'
    )
    bench = picture_bench(path, tmp_path / "out")
    for name in PICTURES:
        bench.controls["picture"].value = name
        assert "give" not in bench.said.value


@pytest.mark.parametrize("tex", [1, 50_000])
def test_a_very_fine_and_a_very_thick_yarn_have_a_bench(tex, tmp_path):
    path = tmp_path / "extreme.toml"
    path.write_text(
        '[[lots]]\nname = "Kelp"\ncolour = "#345"\nmass_g = 300.0\n'
        f"[spinning]\nsingle_tex = {tex}\n"
    )
    bench = picture_bench(path, tmp_path / "out")
    for name in ("yarn", "whole", "wraps", "skein", "ball", "knitted"):
        bench.controls["picture"].value = name
        assert "give" not in bench.said.value


def test_the_sliders_stand_where_the_plan_stands(tmp_path):
    path = tmp_path / "fabric.toml"
    text = (SAMPLES / "slack_water.toml").read_text()
    path.write_text(text)
    bench = picture_bench(path)
    fabric = bench.found.plan.fabric
    for key in ("stitches", "rows", "kind", "gauge_stitches"):
        assert bench.controls[key].value == getattr(fabric, key)


def test_names_are_only_names(tmp_path):
    path = tmp_path / "hostile.toml"
    path.write_text('[[lots]]\nname = "<b>Kelp"\ncolour = "#345"\nmass_g = 20.0\n')
    bench = picture_bench(path)
    for name in PICTURES:
        bench.controls["picture"].value = name
        assert "<b>Kelp" not in bench.caption.value
        assert "&lt;b&gt;Kelp" in bench.caption.value
