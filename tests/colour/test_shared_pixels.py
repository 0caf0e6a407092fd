"""Pixels that two colours share are the mean of their lights; afar all runs together.

Light of half the power is byte 188 of sRGB (IEC 61966-2-1): 1.055 · 0.5^(1/2.4) - 0.055 = 0.735.
"""

import numpy as np
import pytest

from yarncolor.colour.csf_filter import seen_from_afar, srgb_from_afar
from yarncolor.colour.science import lab_from_srgb

BLACK, WHITE, RUST = range(3)
COLOURS = np.array([[0, 0, 0], [255, 255, 255], [190, 110, 80]], dtype=np.uint8)
INDEX = np.array([[BLACK, WHITE, RUST], [WHITE, BLACK, BLACK]])


def near(expected):
    return pytest.approx(np.array(expected, dtype=float), abs=1)


def test_from_nowhere_far_each_pixel_has_the_colour_of_its_place():
    assert srgb_from_afar(INDEX, COLOURS, 0.0) == near(COLOURS[INDEX])


def test_a_pixel_that_two_colours_share_has_the_mean_of_their_lights():
    """The first pixel, half white; the last but one in the second row, a quarter white.

    A quarter of the light is 1.055 · 0.25^(1/2.4) - 0.055 = 0.537, byte 137.
    """
    second = (np.array([0, 4]), np.array([WHITE, WHITE]), np.array([0.5, 0.25]))
    seen = srgb_from_afar(INDEX, COLOURS, 0.0, second)
    wanted = COLOURS[INDEX].astype(float)
    wanted[0, 0], wanted[1, 1] = 188, 137
    assert seen == near(wanted)
    assert seen.dtype == np.uint8


def test_from_far_off_stripes_are_the_mean_of_their_lights_shared_pixels_too():
    stripes = np.tile([BLACK, WHITE], (8, 40))
    assert srgb_from_afar(stripes, COLOURS, 0.0005)[4, 40] == near([188] * 3)
    every = np.flatnonzero(stripes.ravel() == BLACK)
    second = (every, np.full(len(every), WHITE), np.ones(len(every)))
    assert srgb_from_afar(stripes, COLOURS, 0.0005, second)[4, 40] == near([255] * 3)


@pytest.mark.parametrize("degrees", [0.0, 0.01, 0.04])
def test_colours_of_a_screen_look_from_afar_as_their_cielab_does(degrees):
    index = np.kron(INDEX + np.zeros((2, 3), int), np.ones((6, 5), int))
    light = COLOURS.copy()
    light[BLACK] = 90
    by_lab = seen_from_afar(index, lab_from_srgb(light / 255), degrees)
    assert srgb_from_afar(index, light, degrees) == near(by_lab)
