"""The bench for photographs without a browser: what is asked, what is sent."""

import io
import json

import numpy as np
import pytest
from PIL import Image

import yarncolor as yc
from tests.helpers.paths import TIDELINE
from yarncolor.colour.photo.demo import heap_box
from yarncolor.colour.photo.image import Photo
from yarncolor.editing.editor import Editor
from yarncolor.widgets.photo.photo_bench import PhotoBench

BAD = "my <b>picture</b>.jpg"


class Heard(PhotoBench):
    """A bench whose messages are kept."""

    def __init__(self, photo, editor):
        self.sent = []
        super().__init__(photo, editor)
        editor.watch(self.refresh)

    def send(self, content, buffers=None, **_):
        json.dumps(content, allow_nan=False)
        self.sent.append((content, buffers or []))

    def ask(self, ask, *buffers, **more):
        self.sent.clear()
        self.handle({"do": ask, "view": "here", "serial": 7, **more}, list(buffers))
        return self.sent[-1][0]

    def take(self, *names, mass_g=25.0):
        boxes = [
            {"key": str(at), "kind": "fibre", "box": heap_box(at), "name": name, "mass_g": mass_g}
            for at, name in enumerate(names)
        ]
        return self.ask("take", drawn={"boxes": boxes})


@pytest.fixture(scope="module")
def photo():
    return yc.photo.demo_photo(yc.photo.Conditions(illuminant="A", balanced=False), (600, 450))


@pytest.fixture
def plan_file(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_bytes(TIDELINE.read_bytes())
    return path


@pytest.fixture
def bench(photo, plan_file):
    return Heard(photo, Editor.opened(plan_file))


def png(srgb) -> bytes:
    stream = io.BytesIO()
    Image.fromarray(np.asarray(srgb, np.uint8)).save(stream, "PNG")
    return stream.getvalue()


def sent_picture(buffers) -> np.ndarray:
    (data,) = buffers
    return np.asarray(Image.open(io.BytesIO(data)).convert("RGB")).astype(int)


# --- asked and answered -------------------------------------------------------------------------


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    assert repr(bench) == "A bench to take colours from a photograph; it needs a live notebook."


def test_a_page_that_opens_gets_the_picture_the_plan_and_what_was_drawn(bench, photo):
    drawn = {"boxes": [{"key": "1", "kind": "fibre", "box": heap_box(0), "name": "", "mass_g": 1}]}
    bench.ask("read", drawn=drawn)
    told = bench.ask("open")
    assert told["photo"] == {"width": 600, "height": 450, "is_example": True}
    assert told["drawn"] == drawn
    assert [name for name, _ in told["plan"]["lots"]] == list(bench.editor.plan.names)
    assert len(told["readings"]["rows"]) == 1
    assert told["editions"] == ["newer values", "older values", "values from a file"]
    assert np.abs(sent_picture(bench.sent[0][1]) - photo.srgb).mean() < 4


def test_an_answer_says_what_it_answers_and_to_whom(bench):
    told = bench.ask("read", drawn={"boxes": []})
    assert (told["do"], told["view"], told["serial"]) == ("read", "here", 7)
    assert "photo" not in told
    assert bench.sent[0][1] == []


def test_a_large_picture_is_shown_small_and_read_whole(plan_file, tmp_path):
    srgb = np.full((1500, 2400, 3), (150, 60, 50), np.uint8)
    srgb[:5, :8] = (20, 90, 160)
    bench = Heard(Photo(srgb), Editor.opened(plan_file))
    box = [0, 0, 8 / 2400, 5 / 1500]
    told = bench.ask("read", drawn={"boxes": [{"key": "1", "kind": "fibre", "box": box}]})
    assert told["readings"]["rows"][0]["colour"] == "#145aa0"
    bench.ask("open")
    assert max(sent_picture(bench.sent[0][1]).shape) == 900


def test_lots_are_proposed_and_nothing_is_taken_or_drawn(bench):
    before = bench.editor.plan
    told = bench.ask("find", count=6, drawn={"boxes": []})
    assert [one["number"] for one in told["proposed"]] == list(range(1, 7))
    assert told["said"].startswith("Proposed: 6.")
    assert bench.editor.plan is before
    assert bench.ask("open")["drawn"] == {"boxes": []}


@pytest.mark.parametrize("count", [0, 25, None, 2.5, "six"])
def test_a_number_of_lots_that_is_none_is_said_beside_it(bench, count):
    (words,) = bench.ask("find", count=count)["faults"].values()
    assert words.endswith("give 1 to 24 lots")


def test_a_reading_says_of_which_box_it_is(bench):
    boxes = [
        {"key": "7", "kind": "fibre", "box": [2, 0, 0.1, 0.1], "name": "Rope", "mass_g": 1},
        {"key": "9", "kind": "fibre", "box": heap_box(0), "name": "Rust", "mass_g": 1},
    ]
    (row,) = bench.ask("read", drawn={"boxes": boxes})["readings"]["rows"]
    assert (row["key"], row["name"]) == ("9", "Rust")


def test_why_is_told_when_it_is_asked_and_not_while_boxes_are_read(bench):
    drawn = {"boxes": [{"key": "9", "kind": "fibre", "box": heap_box(0), "name": "Rust"}]}
    assert "why" not in bench.ask("read", drawn=drawn)
    told = bench.ask("why", drawn=drawn)["why"]
    assert [heading for heading, _ in told if heading.startswith("Rust: #")]
    assert told[-1][0] == "Every box"
    assert all(lines for _, lines in told)


def test_proposals_answer_why_until_they_are_left(bench):
    proposed = bench.ask("find", count=6, drawn={"boxes": []})["proposed"]
    told = bench.ask("why", drawn={"boxes": [], "proposed": proposed})["why"]
    assert all(one["words"].split(";")[0] in str(told) for one in proposed)
    assert "of the picture" not in str(bench.ask("why", drawn={"boxes": [], "proposed": []})["why"])


# --- another picture ----------------------------------------------------------------------------


def test_another_picture_takes_the_place_of_the_old_and_what_is_drawn_stays(bench):
    drawn = {"boxes": [{"key": "1", "kind": "fibre", "box": [0.2, 0.2, 0.5, 0.5]}]}
    srgb = np.full((300, 400, 3), (150, 60, 50))
    told = bench.ask("picture", memoryview(png(srgb)), name="mine.png", drawn=drawn)
    assert told["photo"]["width"] == 400
    assert told["photo"]["notes"] == ""
    assert told["photo"]["is_example"] is False
    assert told["readings"]["rows"][0]["colour"] == "#963c32"
    assert np.abs(sent_picture(bench.sent[-1][1]) - srgb).max() < 4
    assert bench.ask("open")["drawn"] == drawn


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "is no picture in JPEG, PNG, WEBP or TIFF, or is too large"),
        (b"a letter", "is no picture in JPEG, PNG, WEBP or TIFF, or is too large"),
        (png(np.full((300, 400, 3), 99)), "is greyscale; give one in colour"),
        (png(np.full((8, 8, 3), (150, 60, 50))), "is 8 × 8 pixels; give at least 16 either way"),
        (png(np.full((300, 400, 3), (150, 60, 50)))[:-70], "is broken and cannot be decoded"),
    ],
)
def test_a_bad_picture_is_said_and_the_old_one_stays(bench, photo, data, words):
    told = bench.ask("picture", data, name=BAD)
    assert told["faults"] == {"picture": f"{BAD}: {words}"}
    assert bench.photo is photo
    assert "photo" not in told
    assert bench.ask("open")["photo"]["is_example"] is True


def test_notes_of_an_uploaded_picture_are_said(bench):
    seen = np.full((300, 400, 4), (150, 60, 50, 255))
    seen[:50, :, 3] = 0
    told = bench.ask("picture", png(seen), name="mine.png")
    assert told["photo"]["notes"] == "what is see-through was laid on white"


# --- into the plan ------------------------------------------------------------------------------


def test_taking_is_one_step_that_undo_takes_back(bench):
    before = bench.editor.plan
    told = bench.take("Rust", "Rope", mass_g=31.5)
    assert told["said"].startswith("Taken into the plan: Rust (31.5 g), Rope (31.5 g).")
    assert bench.editor.plan.names[-2:] == ("Rust", "Rope")
    bench.editor.undo()
    assert bench.editor.plan is before


def test_the_page_hears_of_every_change_of_the_plan_whoever_made_it(bench):
    bench.take("Rust")
    (plan,) = [content["plan"] for content, _ in bench.sent if "plan" in content]
    assert plan["lots"][-1] == ("Rust", 25.0)
    bench.sent.clear()
    bench.editor.undo()
    ((told, _),) = bench.sent
    assert ("Rust", 25.0) not in told["plan"]["lots"]


def test_what_is_refused_is_said_in_its_row_and_changes_nothing(bench):
    before = bench.editor.plan
    told = bench.take("Rust", "")
    assert list(told["faults"]) == ["1"]
    assert bench.editor.plan is before
    assert not bench.editor.can_undo


# --- opened -------------------------------------------------------------------------------------


def test_it_opens_a_picture_by_its_name(plan_file, tmp_path):
    srgb = np.full((60, 90, 3), (150, 60, 50))
    (tmp_path / "mine.png").write_bytes(png(srgb))
    made = yc.bench.photo(tmp_path / "mine.png", plan_file).bench
    np.testing.assert_array_equal(made.photo.srgb, srgb)
    assert made.photo.is_example is False


def test_a_picture_or_plan_that_is_none_is_told_at_once(photo, plan_file, tmp_path):
    with pytest.raises(yc.PlanError) as told:
        yc.bench.photo(plan_file, plan_file)
    assert (
        str(told.value) == f"{plan_file}: is no picture in JPEG, PNG, WEBP or TIFF, or is too large"
    )
    with pytest.raises(yc.PlanError):
        yc.bench.photo(photo, tmp_path / "no.toml")
