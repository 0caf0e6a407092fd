"""Colours of a photograph answer why: every figure, by lines that come to what is told."""

import re

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.asked import numbers_without, read
from tests.helpers.lines_reckoned import lines_give_their_numbers
from tests.helpers.tables_read import figures_in
from yarncolor.colour.photo.annotations import read_annotations
from yarncolor.colour.photo.demo import heap_box
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.readings import correction_told, fit_told, said_of, seen_on
from yarncolor.colour.photo.target import fit_target
from yarncolor.colour.photo.target_values import preset_values
from yarncolor.report.why.photographs import correction_reasons, light_reasons, reading_reasons
from yarncolor.report.why.photographs_seen import photo_told

CORNERS = [[0.06, 0.08], [0.48, 0.08], [0.48, 0.50], [0.06, 0.50]]
WHITE, GREY = [0.62, 0.18, 0.2, 0.2], [0.0, 0.0, 0.04, 0.05]
PLACES = [[0.0, 0.0, 0.02, 0.03], [0.975, 0.0, 0.02, 0.03], [0.5, 0.56, 0.02, 0.03]]
STRAYING = [*PLACES[:2], [0.1, 0.7, 0.04, 0.04], [0.97, 0.95, 0.02, 0.03]]
NAMES = ("Kelp 2", "", "<b>Rope")

WAYS = {
    "nothing": {},
    "white": {"way": "white"},
    "grey": {"way": "grey"},
    "even light": {"way": "white", "even": True},
    "a place that strays": {"even": True, "places": STRAYING},
    "target": {"way": "target"},
    "target, closely": {"way": "target", "degree": 2},
    "target in even light": {"way": "target", "even": True},
}


@pytest.fixture(scope="module")
def photo():
    conditions = yc.photo.Conditions(illuminant="A", balanced=False, falls_off=0.15)
    return yc.photo.demo_photo(conditions, (600, 450))


@pytest.fixture(params=WAYS.values(), ids=WAYS)
def seen(request, photo):
    return drawn_on(photo, **request.param)


def drawn_on(photo, places=PLACES, fibre=(), **asked):
    fibre = fibre or [heap_box(at) for at in range(3)]
    boxes = [("fibre", box) for box in fibre]
    boxes += [("white", WHITE), ("grey", GREY), *(("place", box) for box in places)]
    drawn = [
        {"key": str(at), "kind": kind, "box": list(box), "mass_g": 20}
        for at, (kind, box) in enumerate(boxes)
    ]
    for one, name in zip(drawn, NAMES, strict=False):
        one["name"] = name
    asked = {"corners": CORNERS, "edition": "newer values", "degree": 1, **asked}
    found = seen_on(photo, read_annotations({"boxes": drawn, **asked}))
    assert found.faults == {}
    return found


def reasons_of(seen):
    correction = seen.correction
    yield from correction_reasons(correction).values()
    if seen.light is not None:
        yield from light_reasons(seen.light).values()
    for reading in seen.readings.values():
        yield from reading_reasons(reading, correction).values()


def test_no_figure_of_a_photograph_is_without_an_answer(seen, photo):
    said = said_of(seen, photo.size_px)
    rows = [f"{value}" for row in said["rows"] for key, value in row.items() if key != "key"]
    words = "\n".join([*rows, *said["correction"], said["fit"], said["light"]])
    told = photo_told(seen)
    assert len(said["rows"]) == 3
    assert numbers_without(words, "\n".join(heading for heading, _ in told), NAMES[:1]) == []
    assert all(lines for _, lines in told)


def test_each_line_gives_its_number(seen):
    assert sum(map(lines_give_their_numbers, reasons_of(seen))) >= 3 * 5


def test_lines_of_a_box_come_to_what_is_told_of_it(seen, photo):
    for reading, row in zip(
        seen.readings.values(), said_of(seen, photo.size_px)["rows"], strict=True
    ):
        reasons = reading_reasons(reading, seen.correction)
        channels = [line.result for line in reasons["colour"].workings if "255" in line.figure]
        written = [int(row["colour"][at : at + 2], 16) for at in (1, 3, 5)]
        assert channels == pytest.approx(written, abs=0.51)
        assert reasons["out_by"].workings[-1].result == pytest.approx(
            seen.correction.unsure_of(reading)
        )
        assert reasons["even"].workings[-1].result == pytest.approx(reading.spread)
        assert f"{reading.pixels:,} of {reading.in_box:,}" in reasons["pixels"].method


def test_a_photograph_as_it_comes_needs_no_gain_and_says_that_it_is_taken_so(photo):
    seen = drawn_on(photo)
    reasons = correction_reasons(seen.correction)
    assert reasons["way"].workings == ()
    assert reasons["way"].how == "assumed"
    assert all(
        len(reading_reasons(one, seen.correction)["colour"].workings) == 3
        for one in seen.readings.values()
    )


@pytest.mark.parametrize(("way", "reflects"), [("white", 0.85), ("grey", 0.18)])
def test_gains_are_those_by_which_the_white_is_put_right(photo, way, reflects):
    """What the box showed, times its gain, is what paper or a grey card reflects."""
    seen = drawn_on(photo, way=way)
    gains = correction_reasons(seen.correction)["way"].workings
    assert [line.result for line in gains] == pytest.approx(seen.correction.matrix)
    for line in gains:
        assert line.result * line.values["seen_light"] == pytest.approx(reflects)


def test_how_near_patches_come_is_reckoned_from_the_patches(photo):
    fit = drawn_on(photo, way="target").fit
    reasons = correction_reasons(fit.correction)
    wanted = {"left_out_mean": fit.left_out_mean, "by_grey_mean": fit.by_grey_mean}
    for of, number in wanted.items():
        (line,) = reasons[of].workings
        assert line.result == pytest.approx(number)
        assert line.values["patches"] == 24
    assert reasons["unsure"].workings[-1].result == pytest.approx(fit.correction.unsure)
    wide, high = 0.42 * 600 / 6, 0.42 * 450 / 4
    assert fit.patches.pixels == pytest.approx(wide * high / 4, rel=0.1)


@pytest.mark.parametrize(("row", "column"), [(1, 5), (3, 2), (4, 1)])
def test_the_worst_patch_is_named_with_what_it_was_became_and_is(row, column):
    """All patches as they are but one, of which half the light is missing."""
    wanted = preset_values("newer values").linear
    seen = wanted.copy()
    at = (row - 1) * 6 + column - 1
    seen[at] /= 2
    fit = fit_target(seen, wanted)
    worst = correction_reasons(fit.correction)["left_out_max"].method
    was, became, is_so = re.findall(r"(?:as|others|sheet) (-?\d+ -?\d+ -?\d+)", worst)
    assert f"row {row}, column {column} of" in worst
    assert was == became  # by all the others nothing has to be put right
    lightness = [float(lab.split()[0]) for lab in (was, is_so)]
    y = [((one + 16) / 116) ** 3 for one in lightness]
    assert y[0] / y[1] == pytest.approx(0.5, abs=0.03)


def test_light_falls_off_between_places_and_one_may_stray(photo):
    light = drawn_on(photo, even=True, places=STRAYING).light
    reasons = light_reasons(light)
    assert reasons["falls_by"].workings[0].result == pytest.approx(light.falls_by)
    assert abs(reasons["strays_by"].workings[0].result) == pytest.approx(light.left_over)
    assert reasons["strays_by"].workings[0].of.startswith("place ")


def test_what_no_screen_shows_has_no_lines_to_its_digits(photo):
    """Pixels of the darkest grey that counts lie on the straight part of the curve."""
    dark = Photo(np.full((40, 40, 3), (0, 40, 0), np.uint8))
    reading = yc.photo.read_boxes(dark, {"": yc.photo.Box(0, 0, 1, 1)}, yc.photo.uncorrected())[""]
    colour = reading_reasons(reading, yc.photo.uncorrected())["colour"]
    assert colour.workings == ()
    assert "a screen does not show it, or hardly" in colour.method


def test_clipped_patches_are_answered_for(photo):
    bright = Photo(np.minimum(photo.srgb.astype(int) * 2, 255).astype(np.uint8))
    seen = drawn_on(bright, way="target", fibre=[[0.1, 0.1, 0.02, 0.02]])
    assert any("patches are clipped" in str(one) for one in correction_told(seen.correction))
    headings = "\n".join(heading for heading, _ in photo_told(seen))
    told = "\n".join(map(str, correction_told(seen.correction)))
    assert numbers_without(told, headings) == []


def test_proposals_answer_while_they_are_told(photo):
    proposed = yc.photo.proposals(photo, 4)
    headings = "\n".join(heading for heading, _ in photo_told(drawn_on(photo), proposed))
    for one in proposed:
        assert f"{one.share:.0%} of the picture" in headings


def test_in_a_notebook_each_cell_answers_and_sentences_below_them(photo):
    seen = drawn_on(photo, way="target", even=True)
    readings = dict(zip(("Kelp 2", "Foam", "<b>Rope"), seen.readings.values(), strict=True))
    shown = yc.show.readings(readings, seen.correction, seen.light, explained=True)
    figures = figures_in(shown.html)
    assert len(figures) >= 3 * 4
    assert [figure for figure, answers in figures if not answers] == []
    assert "<b>Rope" not in shown.html
    found = read(shown.html)
    assert numbers_without(found.said, found.headings) == []
    for told in (seen.light.words, str(fit_told(seen.fit.patches))):
        assert told in shown.text
    assert "Where from: " in found.told
    plain = yc.show.readings(readings, seen.correction, seen.light)
    assert "<details" not in plain.html
    assert plain.text == shown.text


def test_each_answer_says_where_from_and_what_would_be_surer(seen):
    for reason in reasons_of(seen):
        lines = list(reason.lines())
        assert [line for line in lines if line.startswith("Where from: ")]
        (surer,) = [line for line in lines if line.startswith("Surer: ")]
        said = re.findall(r"(draw [^;.]+|mark [^;.]+|come [^;.]+), in Photographs", surer)
        assert len(set(said)) == len(said)
