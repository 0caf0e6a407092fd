"""The bench for photographs without a browser: what a finger does, done by setting values."""

import datetime
import io
import re
from html import unescape
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

import yarncolor as yc
from yarncolor import photo_bench
from yarncolor.photo_demo import DEMO_LOTS, heap_box
from yarncolor.photographs import Photo

TIDELINE = Path(__file__).parent.parent / "sample_data" / "tideline.toml"
SIDES = ("left", "top", "width", "height")
BAD = "good & <b>bold</b>"


@pytest.fixture(scope="module")
def photo():
    return yc.demo_photo(yc.Conditions(illuminant="A", balanced=False), (600, 450))


@pytest.fixture
def plan_file(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_bytes(TIDELINE.read_bytes())
    return path


@pytest.fixture
def bench(photo, plan_file, tmp_path):
    return photo_bench(photo, plan_file, tmp_path / "out")


def put(bench, what: str, shares) -> None:
    """Lay a box as with its four sliders."""
    for side, share in zip(SIDES, shares, strict=True):
        bench.controls[f"{what}_{side}"].value = share


def take(bench, name: str, mass_g: float = 25.0) -> None:
    bench.controls["name"].value = name
    bench.controls["mass_g"].value = mass_g
    bench.take.click()


def upload(bench, data: bytes, name: str = "mine.jpg") -> None:
    """Do as a browser does when a file was chosen."""
    now = datetime.datetime.now(datetime.UTC)
    bench.upload.value = (
        {"name": name, "type": "image/jpeg", "size": len(data), "content": memoryview(data),
         "last_modified": now},
    )  # fmt: skip


def png(srgb, **options) -> bytes:
    stream = io.BytesIO()
    Image.fromarray(np.asarray(srgb, np.uint8)).save(stream, "PNG", **options)
    return stream.getvalue()


def said(bench) -> str:
    return unescape(re.sub(r"<[^>]+>", "", bench.said.value))


def picture(bench) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(bench.image.value)).convert("RGB")).astype(int)


def chip(bench) -> str:
    return re.search(r"background:(#[0-9a-f]{6})", bench.read.value).group(1)


# --- boxes and corrections ----------------------------------------------------------------------


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench) == "A bench to take colours from a photograph; it needs a live notebook."


def test_it_begins_with_something_read_and_nothing_said(bench):
    assert re.fullmatch("#[0-9a-f]{6}", chip(bench))
    assert said(bench) == ""


@pytest.mark.parametrize("number", range(5))
def test_the_box_is_read_where_it_lies(bench, photo, number):
    box = tuple(round(share * 200) / 200 for share in heap_box(number))
    put(bench, "fibre", box)
    assert bench.box == yc.Box(*box)
    right = yc.by_white(photo, yc.Box(0.62, 0.18, 0.2, 0.2))
    shown = yc.show_readings(yc.read_boxes(photo, {"fibre": bench.box}, right), right)
    assert bench.read.value == shown.html


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("what", ["fibre", "white"])
def test_each_slider_of_a_box_moves_it_in_the_picture(bench, what, side):
    before = bench.image.value
    bench.controls[f"{what}_{side}"].value += 0.02
    assert bench.image.value != before


def test_the_box_is_drawn_on_the_picture_where_it_lies(bench, photo):
    put(bench, "fibre", (0.25, 0.1, 0.4, 0.4))
    bench.controls["by"].value = "nothing"
    changed = np.abs(picture(bench) - photo.srgb.astype(int)).max(axis=2) > 60
    y, x = np.nonzero(changed)
    assert x.min() == pytest.approx(0.25 * 600, abs=4)
    assert x.max() == pytest.approx(0.65 * 600, abs=4)
    assert y.min() == pytest.approx(0.1 * 450, abs=4)
    assert y.max() == pytest.approx(0.5 * 450, abs=4)


def test_a_box_is_cut_at_the_edge_of_the_picture(bench):
    put(bench, "fibre", (0.9, 0.8, 0.6, 0.7))
    assert bench.box.left + bench.box.width == pytest.approx(1)
    assert bench.box.top + bench.box.height == pytest.approx(1)
    assert said(bench) == ""


def test_every_correction_gives_another_colour_and_says_which(bench):
    put(bench, "fibre", heap_box(0))
    words = {
        "nothing": "The picture was not corrected",
        "white": "The picture was corrected by something white",
        "grey": "The picture was corrected by something grey",
        "target": "The picture was corrected by a 24-patch target, 3 × 3",
    }
    colours = set()
    for way, start in words.items():
        bench.controls["by"].value = way
        assert start in bench.read.value
        colours.add(chip(bench))
    assert len(colours) == 4


def test_only_what_a_correction_needs_is_shown(bench):
    def hidden(start: str) -> set:
        return {
            control.layout.display
            for key, control in bench.controls.items()
            if key.startswith(start)
        }

    for way, white, target in (
        ("nothing", "none", "none"), ("white", None, "none"), ("grey", None, "none"),
        ("target", "none", None),
    ):  # fmt: skip
        bench.controls["by"].value = way
        assert (hidden("white"), hidden("target"), hidden("fibre")) == ({white}, {target}, {None})


@pytest.mark.parametrize(
    ("name", "value"), [("target_edition", "before 2014"), ("target_degree", 2)]
)
def test_edition_and_degree_change_what_the_target_gives(bench, name, value):
    bench.controls["by"].value = "target"
    before = said(bench)
    bench.controls[name].value = value
    assert said(bench) != before


def test_the_leave_one_out_error_of_the_target_is_said(bench, photo):
    bench.controls["by"].value = "target"
    corners = [(0.06, 0.08), (0.48, 0.08), (0.48, 0.50), (0.06, 0.50)]
    fit = yc.by_target(photo, corners, "after 2014")
    assert said(bench) == (
        f"Patches left out one by one are met to {fit.left_out_mean:.1f} CIEDE2000 in the mean, "
        f"{fit.left_out_max:.1f} at worst; by the grey ones alone {fit.by_grey_mean:.1f}."
    )


BAD_CORNERS = [
    ("", "corners: give four corners as (x, y), 0 to 1"),
    ("a b c d", "corners: give four corners as (x, y), 0 to 1"),
    ("0.1 0.1; 0.5 0.1; 0.5 0.5", "corners: give four corners as (x, y), 0 to 1"),
    ("nan 0.1; 0.5 0.1; 0.5 0.5; 0.1 0.5", "corners: give four corners as (x, y), 0 to 1"),
    (
        "0.1 0.1; 1.5 0.1; 1.5 0.5; 0.1 0.5",
        "corners: a corner lies outside the picture; the whole target has to be seen",
    ),
    (
        "0.06 0.08; 0.48 0.50; 0.48 0.08; 0.06 0.50",
        "corners: the corners make no plain four-sided field; give them going round",
    ),
    (
        "0.05 0.60; 0.95 0.60; 0.95 0.94; 0.05 0.94",
        "corners: no 24-patch target is seen there, or it is badly lit; mark the patches' corners",
    ),
]


@pytest.mark.parametrize(("corners", "words"), BAD_CORNERS)
def test_a_bad_target_is_said_and_nothing_is_read(bench, corners, words):
    bench.controls["by"].value = "target"
    bench.controls["target_corners"].value = corners
    assert said(bench) == words
    assert bench.read.value == ""


def test_what_was_wrong_is_not_said_any_longer_when_it_is_right_again(bench):
    bench.controls["by"].value = "target"
    bench.controls["target_corners"].value = "nonsense"
    bench.controls["by"].value = "white"
    assert said(bench) == ""
    assert chip(bench)


def test_a_box_of_no_size_is_said(bench):
    bench.controls["fibre_left"].value = 1.0
    assert said(bench).startswith("box = 1, 0.68, 0, 0.16: give left, top, width and height")
    assert bench.read.value == ""


@pytest.mark.parametrize("name", ["white", "grey", "fibre"])
def test_a_lot_called_white_does_not_hide_the_white(bench, name):
    bench.controls["by"].value = "white"
    plain = (picture(bench) > 240).all(axis=2).sum()
    bench.controls["name"].value = name
    assert (picture(bench) > 240).all(axis=2).sum() > 0.9 * plain


def test_names_are_escaped(bench):
    bench.controls["name"].value = BAD
    bench.take.click()
    assert "<b>" not in bench.read.value + bench.said.value
    assert "&lt;b&gt;" in bench.read.value


# --- another picture ----------------------------------------------------------------------------


def test_an_uploaded_picture_takes_the_place_of_the_old(bench):
    srgb = np.full((300, 400, 3), (150, 60, 50))
    upload(bench, png(srgb))
    bench.controls["by"].value = "nothing"
    np.testing.assert_array_equal(bench.photo.srgb, srgb)
    assert chip(bench) == "#963c32"
    assert picture(bench).shape == (300, 400, 3)
    assert said(bench) == ""


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "is no picture in JPEG, PNG, WEBP or TIFF, or is too large"),
        (b"a letter", "is no picture in JPEG, PNG, WEBP or TIFF, or is too large"),
        (png(np.full((300, 400, 3), 99)), "is greyscale; give one in colour"),
        (png(np.full((300, 400), 99)), "is greyscale; give one in colour"),
        (png(np.full((8, 8, 3), (150, 60, 50))), "is 8 × 8 pixels; give at least 16 either way"),
        (png(np.full((300, 400, 3), (150, 60, 50)))[:-70], "is broken and cannot be decoded"),
    ],
)
def test_a_bad_upload_is_said_and_the_old_picture_stays(bench, photo, data, words):
    before = bench.image.value, bench.read.value
    upload(bench, data, "my <b>picture</b>.jpg")
    assert said(bench) == f"my <b>picture</b>.jpg: {words}"
    assert "<b>" not in bench.said.value
    assert bench.photo is photo
    assert (bench.image.value, bench.read.value) == before


def test_notes_of_an_uploaded_picture_are_said(bench):
    seen = np.full((300, 400, 4), (150, 60, 50, 255))
    seen[:50, :, 3] = 0
    upload(bench, png(seen))
    assert "what is see-through was laid on white" in said(bench)


def test_after_a_bad_upload_a_good_one_is_taken(bench):
    upload(bench, b"a letter")
    upload(bench, png(np.full((300, 400, 3), (150, 60, 50))))
    assert bench.photo.size_px == (400, 300)
    assert said(bench) == ""


# --- into the plan ------------------------------------------------------------------------------


def test_a_colour_taken_and_written_is_a_lot_of_a_plan_that_reads_back(bench, plan_file, tmp_path):
    original = plan_file.read_bytes()
    bench.controls["by"].value = "target"
    bench.controls["target_edition"].value = "before 2014"
    put(bench, "fibre", (0.65, 0.68, 0.08, 0.16))
    take(bench, "Rust", 31.5)
    bench.write.click()
    path = tmp_path / "out" / "mine_with_photographs.toml"
    assert said(bench) == f"Written: {path.as_posix()}"
    found, before = yc.read_plan(path), yc.read_plan(plan_file)
    assert found.lots[:-1] == before.lots
    lot = found.lots[-1]
    assert (lot.name, lot.mass_g, lot.colour_unsure) == ("Rust", 31.5, 3.0)
    assert lot.source.startswith("a photograph, corrected by a 24-patch target, 3 × 3; ")
    assert lot.lab == pytest.approx(tuple(bench._reading.lab), abs=0.01)
    assert plan_file.read_bytes() == original


def test_several_colours_are_taken_before_the_plan_is_written(bench, plan_file, tmp_path):
    for number, name in enumerate(DEMO_LOTS):
        put(bench, "fibre", [round(share * 200) / 200 for share in heap_box(number)])
        take(bench, name)
    bench.write.click()
    found = yc.read_plan(tmp_path / "out" / "mine_with_photographs.toml")
    assert list(found.names[-5:]) == list(DEMO_LOTS)
    assert len({lot.lab for lot in found.lots[-5:]}) == 5


def test_taking_is_said_and_writes_nothing(bench, tmp_path):
    lots = len(bench.plan.lots)
    take(bench, "Rust")
    assert said(bench).startswith(f"Taken: Rust, lot {lots + 1} of the plan.")
    assert not (tmp_path / "out").exists()


def test_a_lot_that_was_there_is_recoloured_and_keeps_its_grams(bench, plan_file, tmp_path):
    take(bench, "Kelp", 999.0)
    assert said(bench) == "Taken: the colour of Kelp, a lot that was there; its grams stay."
    bench.write.click()
    found = yc.read_plan(tmp_path / "out" / "mine_with_photographs.toml")
    before = yc.read_plan(plan_file)
    assert found.names == before.names
    one, other = (plan.lots[plan.names.index("Kelp")] for plan in (found, before))
    assert (one.mass_g, one.note) == (other.mass_g, other.note)
    assert one.lab == pytest.approx(tuple(bench._reading.lab), abs=0.01)


@pytest.mark.parametrize("name", ["", "   "])
def test_a_lot_without_a_name_is_not_taken(bench, name):
    before = bench.plan
    take(bench, name)
    assert said(bench) == "Give the lot a name first, and draw the box on its fibre."
    assert bench.plan == before


@pytest.mark.parametrize("name", ["x" * 5000, "two\nlines", "\x00"])
def test_a_name_that_no_plan_takes_is_said_and_not_taken(bench, name):
    before = bench.plan
    take(bench, name)
    assert said(bench)
    assert not said(bench).startswith("Taken")
    assert bench.plan == before


def test_nothing_is_taken_while_nothing_is_read(bench):
    before = bench.plan
    bench.controls["name"].value = "Rust"
    bench.controls["by"].value = "target"
    bench.controls["target_corners"].value = "nonsense"
    bench.take.click()
    assert bench.plan == before
    assert not said(bench).startswith("Taken")


def test_written_twice_the_first_file_is_left_alone(bench, tmp_path):
    take(bench, "Rust")
    bench.write.click()
    first = (tmp_path / "out" / "mine_with_photographs.toml").read_bytes()
    take(bench, "Rope")
    bench.write.click()
    assert (tmp_path / "out" / "mine_with_photographs.toml").read_bytes() == first
    second = tmp_path / "out" / "mine_with_photographs_2.toml"
    assert said(bench) == f"Written: {second.as_posix()}"
    assert list(yc.read_plan(second).names[-2:]) == ["Rust", "Rope"]


def test_a_folder_that_is_a_file_is_said(photo, plan_file, tmp_path):
    (tmp_path / "out").write_text("a file")
    bench = photo_bench(photo, plan_file, tmp_path / "out")
    take(bench, "Rust")
    bench.write.click()
    assert said(bench)
    assert not said(bench).startswith("Written")


def test_written_beside_its_plan_the_plan_is_untouched(photo, plan_file, tmp_path):
    original = plan_file.read_bytes()
    bench = photo_bench(photo, plan_file, tmp_path)
    take(bench, "Rust")
    bench.write.click()
    assert plan_file.read_bytes() == original
    assert "Rust" in yc.read_plan(tmp_path / "mine_with_photographs.toml").names


# --- opened -------------------------------------------------------------------------------------


def test_it_opens_a_picture_by_its_name(plan_file, tmp_path):
    srgb = np.full((60, 90, 3), (150, 60, 50))
    (tmp_path / "mine.png").write_bytes(png(srgb))
    np.testing.assert_array_equal(photo_bench(tmp_path / "mine.png", plan_file).photo.srgb, srgb)


def test_a_picture_or_plan_that_is_none_is_told_at_once(photo, plan_file, tmp_path):
    with pytest.raises(yc.PlanError) as told:
        photo_bench(plan_file, plan_file)
    assert (
        str(told.value) == f"{plan_file}: is no picture in JPEG, PNG, WEBP or TIFF, or is too large"
    )
    with pytest.raises(yc.PlanError):
        photo_bench(photo, tmp_path / "no.toml")


def test_a_picture_that_cannot_be_read_in_the_box_still_opens(plan_file):
    """All white: the bench says so and waits for another box."""
    bench = photo_bench(Photo(np.full((300, 400, 3), 255, np.uint8)), plan_file)
    assert said(bench).startswith("box: every pixel in it is clipped or black")
    assert bench.read.value == ""
