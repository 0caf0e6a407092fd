"""The yarn drawn large, asked what it shows: pitch, angles, colours, sizes."""

import io

import numpy as np
import pytest
from PIL import Image

import yarncolor as yc
from tests.helpers.pictures_asked import leaning
from tests.helpers.strategies import by_hand
from yarncolor.pictures.cross_section import HEIGHT_PX, WIDTH_PX, _twist, yarn_alt
from yarncolor.pictures.yarn_geometry import (
    GROUND,
    cross_section,
    side_view,
    single_of,
    yarn_geometry_of,
)
from yarncolor.yarn.structure import yarn_structure

THREE = {"Kelp": 30.0, "Foam": 30.0, "Wrack": 30.0}
SCALE = 40.0


def yarn_of(plies=3, tpm=200.0, ply_tpm=120.0, **spinning):
    data = by_hand(
        THREE,
        scheme={"plies": plies},
        spinning={"single_tex": 110.0, "twist_tpm": tpm, **spinning},
        plying={"twist_tpm": ply_tpm},
    )
    return yarn_structure(yc.plan_from_data(data))


def found(**tables):
    return yc.answer(yc.plan_from_data(by_hand(THREE, **tables)))


@pytest.mark.parametrize("plies", [2, 3, 4, 6])
@pytest.mark.parametrize("ply_tpm", [80.0, 200.0])
def test_the_pitch_on_the_picture_is_the_model_s(plies, ply_tpm):
    """By autocorrelation along the middle of the yarn."""
    yarn = yarn_of(plies, ply_tpm=ply_tpm)
    view = side_view(yarn_geometry_of(yarn), 3000, 160, SCALE)
    row = (view.ply[80] == 0).astype(float)
    row -= row.mean()
    far = np.correlate(row, row, "full")[len(row) :]
    lowest = int(yarn.pitch_mm * SCALE / 2)
    found_px = lowest + int(far[lowest : 3 * lowest].argmax()) + 1
    assert found_px == pytest.approx(yarn.pitch_mm * SCALE, abs=2)


def test_each_ply_shows_its_share_of_the_surface():
    view = side_view(yarn_geometry_of(yarn_of(3)), 4000, 160, SCALE)
    seen = np.bincount(view.ply[view.ply != GROUND], minlength=3)
    assert seen / seen.sum() == pytest.approx(1 / 3, abs=0.02)


@pytest.mark.parametrize("direction", ["Z", "S"])
def test_plies_and_fibres_lean_as_the_letter_of_their_twist(direction):
    """The middle stroke of Z rises to the right, that of S falls (ISO 2)."""
    other = "S" if direction == "Z" else "Z"
    yarn = yarn_of(3, direction=direction)
    assert leaning(side_view(single_of(yarn), 800, 40, SCALE).shade) == direction
    assert (
        leaning((side_view(yarn_geometry_of(yarn), 800, 120, SCALE).ply == 1).astype(float))
        == other
    )


def test_the_angle_on_the_picture_is_the_model_s():
    """A centre line that swings by R in a pitch p lies at atan(2πR / p)."""
    yarn = yarn_of(3, ply_tpm=150.0)
    view = side_view(yarn_geometry_of(yarn), 4000, 200, 80.0)
    rows = (view.ply == 0).any(axis=1).sum() / 80.0
    swing_mm = rows / 2 - yarn.diameters_mm[0] / 2
    front = ((view.ply[100, :-1] != 0) & (view.ply[100, 1:] == 0)).nonzero()[0]
    pitch_mm = np.diff(front).mean() / 80.0
    seen = np.degrees(np.arctan(2 * np.pi * swing_mm / pitch_mm))
    assert seen == pytest.approx(yarn.helix_angle_deg, abs=0.5)


@pytest.mark.parametrize("plies", [1, 2, 3, 5, 6])
def test_the_cut_shows_every_ply_at_its_area(plies):
    yarn = yarn_of(plies)
    view = cross_section(yarn, 400, 100.0)
    areas = np.bincount(view.ply[view.ply != GROUND], minlength=plies) / 100.0**2
    assert areas == pytest.approx(np.pi * (yarn.diameters_mm / 2) ** 2, rel=0.02)


def test_unlike_plies_touch_and_do_not_overlap_on_the_cut():
    yarn = yarn_of(3, single_tex=[60.0, 110.0, 180.0])
    view = cross_section(yarn, 800, 200.0)
    areas = np.bincount(view.ply[view.ply != GROUND], minlength=3) / 200.0**2
    assert areas == pytest.approx(np.pi * (yarn.diameters_mm / 2) ** 2, rel=0.02)


def test_the_yarn_fits_its_envelope():
    yarn = yarn_of(3)
    view = side_view(yarn_geometry_of(yarn), 4000, 200, 80.0)
    rows = (view.ply != GROUND).any(axis=1).sum()
    assert rows / 80.0 == pytest.approx(yarn_geometry_of(yarn).envelope_mm, rel=0.03)


def test_untwisted_plies_lie_side_by_side():
    yarn = yarn_structure(yc.plan_from_data(by_hand(THREE)))
    view = side_view(yarn_geometry_of(yarn), 300, 120, SCALE)
    assert (view.ply == view.ply[:, :1]).all()


@pytest.mark.parametrize(
    "tables",
    [
        {},
        {"scheme": {"plies": 1}},
        {"scheme": {"name": "chain"}, "plying": {"twist_tpm": 150.0}},
        {"scheme": {"plies": 12}, "spinning": {"twist_tpm": 400.0}, "plying": {"twist_tpm": 90.0}},
        {"spinning": {"single_tex": 1.0}},
        {"spinning": {"single_tex": 50_000.0}},
        {"spinning": {"single_tex": [20.0, 300.0, 2000.0]}, "plying": {"twist_tpm": 60.0}},
    ],
    ids=["plain", "one ply", "chain", "twelve plies", "finest", "thickest", "unlike"],
)
def test_any_yarn_is_drawn_with_its_words(tables):
    drawn = found(**tables)
    picture = Image.open(io.BytesIO(yc.draw.yarn_png(drawn)))
    assert picture.size == (WIDTH_PX, HEIGHT_PX)
    assert picture.text["Description"] == yarn_alt(drawn)
    assert len(picture.convert("RGB").getcolors(1 << 20)) > 20


def test_twist_that_is_not_given_is_said_in_words_that_are_true():
    """The yarn is drawn with a usual twist, a single without any."""
    assert _twist(None, "drawn without any") == "twist not given, drawn without any"
    alt = yarn_alt(found(scheme={"name": "fractal", "divisions": [1, 2, 4]}))
    assert "the ply twist is not given, a usual one is drawn" in alt


def test_the_colours_are_those_of_the_lots_where_most_plies_differ():
    drawn = found(scheme={"name": "fractal", "divisions": [1, 2, 4]}, plying={"twist_tpm": 120.0})
    alt = yarn_alt(drawn)
    assert all(name in alt for name in THREE)
    again = yc.draw.yarn_png(drawn)
    assert again == yc.draw.yarn_png(drawn)
