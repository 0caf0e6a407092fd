"""A wound ball, by its pixels: how wide it is, which end is outside, its turns and its colours."""

import re

import coloraide
import numpy as np
import pytest

from tests.helpers.pictures_asked import (
    PLAIN,
    answered,
    extremes,
    metre_at,
    place_at,
    ply_at,
    three_pure,
)
from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.ball_scenes import Ball, ball, ball_mm
from yarncolor.pictures.painting import painted
from yarncolor.pictures.painting import rgb as as_rgb
from yarncolor.pictures.relief import LEAST_RELIEF
from yarncolor.pictures.scene import FIXED_SRGB, LEVELS
from yarncolor.pictures.skein_pictures import ball_of_yarn
from yarncolor.pictures.strands import Twist

SIZE_PX = (300, 300)


def wound(yarn_m: float = 500.0, plies: int = 3, start_outside: bool = False) -> Ball:
    return ball(yarn_m, Twist(plies, 0.3), 1.6, SIZE_PX, start_outside)


def test_a_ball_is_round_and_fills_its_picture():
    yarn = place_at(wound().scene) >= 0
    y, x = np.nonzero(yarn)
    assert np.ptp(x) == pytest.approx(np.ptp(y), abs=1)
    assert 0.9 * 300 < np.ptp(x) < 0.97 * 300
    assert yarn.sum() == pytest.approx(np.pi / 4 * (np.ptp(x) + 1) ** 2, rel=0.01)


def test_eight_times_the_yarn_is_twice_as_wide_a_ball():
    assert ball_mm(800.0, 1.6) == pytest.approx(2 * ball_mm(100.0, 1.6))
    assert ball_mm(100.0, 3.2) == pytest.approx(1.6 / 3.2 * 2 ** (2 / 3) * 2 * ball_mm(100.0, 1.6))


def test_a_ball_holds_its_yarn():
    """Volume of the yarn as it lies: a little over half of the ball's."""
    ball_mm3 = np.pi / 6 * ball_mm(500.0, 1.6) ** 3
    yarn_mm3 = 500_000 * np.pi / 4 * 1.6**2
    assert 0.5 < yarn_mm3 / ball_mm3 < 0.75


@pytest.mark.parametrize("start_outside", [False, True])
@pytest.mark.parametrize("yarn_m", [1.0, 8.0, 60.0, 500.0])
def test_outside_lies_the_end_that_is_said_to(yarn_m, start_outside):
    found = wound(yarn_m, start_outside=start_outside)
    metre = metre_at(found.scene)
    gone = metre if start_outside else yarn_m - metre
    assert np.nanmin(gone) >= 0
    assert np.nanmin(gone) < 0.02 * yarn_m + 0.5
    assert np.nanmax(gone) <= found.outside_m <= yarn_m * (1 + 1e-9)


def test_of_a_large_ball_most_of_the_yarn_lies_inside():
    assert wound(3000.0).outside_m < 0.5 * 3000.0


def test_belts_lie_in_several_directions():
    """Which way it gets darker between turns: each quarter of the half circle is there."""
    level = (wound(60.0, plies=1).scene.index % LEVELS)[60:240, 60:240].astype(float)
    down, over = np.gradient(level)
    steep = np.hypot(down, over) > 1.5
    way = np.arctan2(down, over)[steep] % np.pi
    shares = np.histogram(way, bins=4, range=(0, np.pi))[0] / steep.sum()
    assert steep.mean() > 0.1
    assert (shares > 0.08).all()


@pytest.mark.parametrize("plies", [1, 2, 3])
def test_every_ply_has_its_share_of_the_ball(plies):
    ply = ply_at(wound(60.0, plies).scene)
    area = np.bincount(ply[ply >= 0], minlength=plies)
    assert area / area.sum() == pytest.approx(1 / plies, rel=0.15)


@pytest.mark.parametrize("colour", ["#0a0a0a", "#1a1c22", "#7a2030", "#808080", "#fafafa"])
def test_a_ball_keeps_its_lot_s_colour_and_every_lot_its_relief(colour):
    lots = [{"name": "Kelp", "colour": colour, "mass_g": 60.0}]
    found = answered(lots, scheme={"name": "staggered", "plies": 3})
    scene = wound(100.0).scene
    alone = place_at(scene) >= 0
    alone.reshape(-1)[scene.edges.at] = False
    yarn = as_rgb(painted(scene, found, PLAIN))[alone]
    mean = coded(linear(yarn / 255).mean(axis=0))
    assert coloraide.Color("srgb", mean.tolist()).delta_e(colour, method="2000") < 6.0
    dark, bright = np.percentile(yarn.max(axis=1), [5, 98])
    assert bright - dark > LEAST_RELIEF / 3


def test_the_caption_says_how_wide_which_end_and_how_much():
    found = answered(three_pure(), scheme={"name": "staggered", "plies": 3})
    one, other = (ball_of_yarn(found, start, (120, 120)) for start in (False, True))
    assert "Outside lies the end where plying ended" in one.caption
    assert "Outside lies the end where plying began" in other.caption
    assert re.search(r"\d+ cm wide", one.caption)
    assert one.alt != other.alt
    assert (one.pixels != other.pixels).any()


@pytest.mark.parametrize("name", extremes())
def test_every_index_points_at_a_place_that_there_is(name):
    found = extremes()[name]()
    yarn, yarn_m = found.resolved.yarn, found.layout.stretches.yarn_m
    scene = ball(yarn_m, Twist(yarn.plies, 0.2), yarn.relaxed_diameter_mm, (120, 90), False).scene
    assert scene.shape == (90, 120)
    for index in (scene.index, scene.edges.index):
        assert index.min() >= 0
        assert index.max() < (len(scene.metre) + len(FIXED_SRGB)) * LEVELS
    assert len(scene.ply) == len(scene.metre)
    assert set(scene.ply.tolist()) <= set(range(yarn.plies))
