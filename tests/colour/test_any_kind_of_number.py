"""Whole numbers, short decimal ones and lists are colours as others are, to the last digit.

The colours are so far apart that their differences leave the bytes that hold them.
"""

import numpy as np
import pytest

from yarncolor.colour.blend_doubt import blend_doubt
from yarncolor.colour.carding import blended_lab
from yarncolor.colour.colour_vision import lightness_srgb, seen_lab
from yarncolor.colour.difference import grey_scale_difference, grey_scale_grade, hyab
from yarncolor.colour.dye_depth import fitted_exhaustion, later_baths_lab
from yarncolor.colour.optical_mixing import contrast_left, far_lab, reads_as_one_m
from yarncolor.colour.reflectance import reflectance_from_lab
from yarncolor.colour.science import ciede2000, xyz_from_lab
from yarncolor.colour.srgb import coded, linear

NAVY, CREAM, GRASS = (20, 20, -75), (95, -10, 80), (60, -90, 70)
LAB = (NAVY, CREAM, GRASS)
PARTS = ((1, 2, 5), (100, 100, 100))
INK, RINSED, WOOL = (25, 5, -30), (55, 0, -15), (90, 0, 10)


@pytest.mark.parametrize(
    ("formula", "given"),
    [
        (hyab, (NAVY, CREAM)),
        (grey_scale_difference, (NAVY, CREAM)),
        (ciede2000, (NAVY, CREAM)),
        (grey_scale_grade, ((0, 2, 7),)),
        (reflectance_from_lab, (LAB,)),
        (xyz_from_lab, (LAB,)),
        (seen_lab, (LAB, "deuteranomaly")),
        (lightness_srgb, (LAB,)),
        (blended_lab, (PARTS, LAB)),
        (blend_doubt, (PARTS, LAB)),
        (later_baths_lab, (INK, WOOL, 0.6, [1, 2, 3])),
        (fitted_exhaustion, (INK, RINSED, WOOL)),
        (far_lab, (PARTS, LAB)),
        (contrast_left, ((0, 1, 40, 100),)),
        (reads_as_one_m, (LAB, 6, 2)),
    ],
)
def test_colours_in_whole_numbers_short_ones_and_lists_are_the_same_colours(formula, given):
    def as_kind(kind):
        return (np.array(one, dtype=kind) if isinstance(one, tuple) else one for one in given)

    usual = formula(*as_kind(float))
    for other in (as_kind(np.int8), as_kind(np.float32), given):
        np.testing.assert_allclose(formula(*other), usual, rtol=1e-12, atol=1e-12)


@pytest.mark.parametrize("curve", [linear, coded])
def test_the_curve_of_a_screen_is_as_exact_of_short_numbers(curve):
    light = [0.0, 0.001953125, 0.25, 1.0]
    np.testing.assert_array_equal(curve(np.array(light, dtype=np.float32)), curve(light))
