"""Several lots from one photograph, light made even, and lots as a plan keeps them."""

import numpy as np
import pytest

import yarncolor as yc
from yarncolor.colour.photo.demo import DEMO_LOTS, Conditions, demo_photo, heap_box
from yarncolor.colour.photo.illumination import flat_fielded, light_of
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.science import ciede2000, lab_from_srgb, srgb_from_hex

WHITE = yc.photo.Box(0.62, 0.18, 0.25, 0.25)
BOXES = {name: yc.photo.Box(*heap_box(at)) for at, name in enumerate(DEMO_LOTS)}
TRUE_LAB = dict(zip(DEMO_LOTS, lab_from_srgb(srgb_from_hex(list(DEMO_LOTS.values()))), strict=True))
KELP = {"name": "Kelp", "colour": "#445533", "mass_g": 20.0, "note": "first pot"}


def test_a_plane_of_light_is_found_as_it_was_made():
    places = np.random.default_rng(3).uniform(0.05, 0.95, (9, 2))
    places[:2] = (0.05, 0.05), (0.95, 0.95)
    light = light_of(places, 0.7 * np.exp((places - 0.5) @ (-0.5, -0.4)))
    assert light.slope == pytest.approx((-0.5, -0.4), abs=1e-9)
    assert light.left_over < 1e-9
    assert flat_fielded(np.ones(3), light, (0.5, 0.5)) == pytest.approx(1)
    assert light.reaches((1.0, 0.5))
    assert flat_fielded(np.ones(3), light, (1.0, 0.5)) == pytest.approx(np.exp(0.25))


@pytest.mark.parametrize("line", [[(0.1, 0.1), (0.5, 0.5), (0.9, 0.9)], [(0.2, 0.5)] * 3])
def test_places_in_one_line_tell_no_plane(line):
    with pytest.raises(yc.PlanError, match="one line"):
        light_of(np.array(line), np.ones(3))


def test_fibre_and_white_in_uneven_light_agree_when_both_are_made_even():
    """The same picture with light that falls to the right by a third; the table is one grey."""
    plain = demo_photo()
    x = np.linspace(0, 1, plain.size_px[0])[None, :, None]
    linear = (plain.srgb / 255.0) ** 2.2 * np.exp(-0.4 * x)
    falling = Photo(np.rint(255 * linear ** (1 / 2.2)).astype(np.uint8))
    spots = [yc.photo.Box(x, y, 0.03, 0.03) for x in (0.01, 0.97) for y in (0.01, 0.96)]
    light = yc.photo.light_by_white(falling, spots)
    assert light.falls_by == pytest.approx(1 - np.exp(-0.4 * 0.96), abs=0.02)
    wanted = yc.photo.read_boxes(plain, BOXES, yc.photo.by_white(plain, WHITE))
    found = yc.photo.read_boxes(
        falling, BOXES, yc.photo.by_white(falling, WHITE, light=light), light
    )
    for name in BOXES:
        assert float(ciede2000(found[name].lab, wanted[name].lab)) < 1.5


@pytest.mark.parametrize("illuminant", ["D65", "A", "FL2"])
def test_a_target_brings_every_lot_nearer_than_nothing_does(illuminant):
    photo = demo_photo(Conditions(illuminant, balanced=False))
    corners = [(0.06, 0.08), (0.48, 0.08), (0.48, 0.50), (0.06, 0.50)]
    by_target = yc.photo.by_target(photo, corners, "newer values").correction
    far = {
        kind: np.mean(
            [
                float(ciede2000(reading.lab, TRUE_LAB[name]))
                for name, reading in yc.photo.read_boxes(photo, BOXES, correction).items()
            ]
        )
        for kind, correction in (("none", yc.photo.uncorrected()), ("target", by_target))
    }
    assert far["target"] < min(far["none"], 5.0)


def test_proposals_lie_on_heaps_and_have_their_colours():
    photo = demo_photo()
    heaps = [
        one
        for one in yc.photo.proposals(photo, 8)
        if one.box.top > 0.55 and one.box.top + one.box.height < 0.99
    ]
    assert len(heaps) >= 4
    for one in heaps:
        near = min(float(ciede2000(one.lab, lab)) for lab in TRUE_LAB.values())
        assert near < 12


@pytest.mark.parametrize("count", [0, 25, -1])
def test_so_many_lots_cannot_be_proposed(count):
    with pytest.raises(yc.PlanError, match="give 1 to 24 lots"):
        yc.photo.proposals(demo_photo(), count)


def test_a_picture_of_one_colour_proposes_nothing():
    assert yc.photo.proposals(Photo(np.full((60, 80, 3), (120, 40, 60), np.uint8)), 3) == []


def test_a_lot_comes_back_from_its_file_with_where_it_came_from(tmp_path):
    photo = demo_photo()
    white = yc.photo.by_white(photo, WHITE)
    reading = yc.photo.read_boxes(photo, {"Rope": BOXES["Rope"]}, white)["Rope"]
    plan = yc.photo.with_lot(
        yc.plan_from_data({"lots": [KELP]}), yc.photo.lot_from("Rope", 12.5, reading, white)
    )
    again = yc.read_plan(yc.save_plan(plan, tmp_path / "plan.toml"))
    rope = again.lots[1]
    assert rope.lab == pytest.approx(reading.lab, abs=0.006)
    assert (rope.mass_g, rope.colour_unsure) == (12.5, 6.0)
    assert rope.source.startswith("a photograph, corrected by something white; loose fibre")


def test_contrasts_smaller_than_they_are_known_are_told_and_only_those():
    lots = [
        {"name": "Kelp", "lab": [40.0, 0.0, 10.0], "mass_g": 20.0, "colour_unsure": 6.0},
        {"name": "Wrack", "lab": [40.0, 4.0, 15.0], "mass_g": 20.0, "colour_unsure": 6.0},
        {"name": "Foam", "lab": [90.0, 0.0, 5.0], "mass_g": 20.0, "colour_unsure": 6.0},
    ]
    told = {
        one.kind: one.text for one in yc.advice_on(yc.answer(yc.plan_from_data({"lots": lots})))
    }
    assert told["unsure"] == (
        "Closer in colour than a photograph can tell: Kelp and Wrack. Lay the fibre side by side "
        "in daylight before you count on that contrast."
    )
    sure = [{**lot, "colour_unsure": 1.0} for lot in lots]
    kinds = [one.kind for one in yc.advice_on(yc.answer(yc.plan_from_data({"lots": sure})))]
    assert "unsure" not in kinds


def test_readings_are_shown_with_escaped_names_and_their_doubts():
    photo = demo_photo()
    white = yc.photo.by_white(photo, WHITE)
    name = "<i>Rust"
    shown = yc.show.readings(yc.photo.read_boxes(photo, {name: BOXES["Rust"]}, white), white)
    assert name not in shown.html
    assert "&lt;i&gt;Rust" in shown.html
    assert "each colour may be out by 6" in shown.text
