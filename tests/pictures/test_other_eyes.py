"""Pictures as another eye sees them, and from afar."""

import numpy as np
import pytest

from tests.helpers.drawn import SMALL, each_picture, plan, small
from yarncolor.phrases import EYES
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.scene import FIXED_SRGB
from yarncolor.pictures.view import ViewSettings


@each_picture
def test_by_lightness_a_picture_is_grey_but_for_card_and_warp(picture):
    drawn = PICTURES[picture](
        plan("tideline"), **SMALL[picture], look=ViewSettings(view="lightness")
    )
    spread = np.ptp(drawn.pixels.astype(int), axis=2)
    plain = PICTURES[picture](plan("tideline"), **SMALL[picture]).pixels.astype(int)
    same = (drawn.pixels == plain).all(axis=2)
    assert spread[~same & ~shows_card(drawn.pixels)].max(initial=0) <= 2
    assert (~same).mean() > 0.1
    assert "lightness" in drawn.alt
    assert "lightness" in drawn.caption


def shows_card(pixels: np.ndarray) -> np.ndarray:
    """Return where pixels have the hue of card or warp, as edges against them do, and no more."""
    red, green, blue = np.moveaxis(pixels.astype(int), -1, 0)
    return (red >= green) & (green >= blue) & (red - blue <= np.ptp(FIXED_SRGB, axis=1).max())


def linear(srgb: np.ndarray) -> np.ndarray:
    share = srgb / 255
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


@each_picture
@pytest.mark.parametrize("distance_m", [0.5, 5.0])
def test_from_afar_a_picture_blurs_and_keeps_its_light(picture, distance_m):
    near = PICTURES[picture](plan("shore_walk"), **SMALL[picture])
    far = PICTURES[picture](
        plan("shore_walk"), **SMALL[picture], look=ViewSettings(distance_m=distance_m)
    )
    assert far.pixels.shape == near.pixels.shape
    steps = [
        sum(np.abs(np.diff(each.pixels.astype(int), axis=axis)).mean() for axis in (0, 1))
        for each in (near, far)
    ]
    assert steps[1] < steps[0]
    light = [linear(each.pixels).mean(axis=(0, 1)) for each in (near, far)]
    assert light[1] == pytest.approx(light[0], abs=0.02)
    assert f"from {distance_m:g} m" in far.alt


@pytest.mark.parametrize("view", ["protanomaly", "deuteranomaly", "tritanomaly"])
@each_picture
def test_other_eyes_see_other_colours_and_the_same_shapes(picture, view):
    drawn = PICTURES[picture](plan("tideline"), **SMALL[picture], look=ViewSettings(view=view))
    plain = small("tideline", picture)
    assert (drawn.pixels != plain.pixels).any(axis=2).mean() > 0.05
    assert f"Seen by {EYES[view]}." in drawn.alt
    paper = (plain.pixels == 255).all(axis=2)
    assert (drawn.pixels[paper] >= 254).all()
