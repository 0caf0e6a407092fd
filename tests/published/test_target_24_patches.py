"""The 24-patch reference target: published values of both editions, as coloraide and
colour-science turn them into light.
"""

import colour
import numpy as np
import pytest
from coloraide import Color

from yarncolor.colour.science import target_linear

AFTER, BEFORE = "newer values", "older values"
D50_LAB = [  # edition, patch, CIELAB D50 as published
    (AFTER, 0, (37.54, 14.37, 14.92)),
    (AFTER, 18, (95.19, -1.03, 2.93)),
    (BEFORE, 0, (37.986, 13.555, 14.059)),
    (BEFORE, 18, (96.539, -0.425, 1.186)),
]
CYAN = 17


@pytest.mark.parametrize(("edition", "patch", "lab"), D50_LAB)
def test_published_patches_by_coloraide(edition, patch, lab):
    right = Color("lab", lab).convert("srgb-linear").coords()
    np.testing.assert_allclose(target_linear(edition)[patch], right, atol=3e-4)


@pytest.mark.parametrize("edition", [AFTER, BEFORE])
def test_every_patch_by_colour_science(edition):
    words = {AFTER: "After", BEFORE: "Before"}[edition]
    (name,) = [
        each for each in colour.CCS_COLOURCHECKERS if each.endswith(f"24 - {words} November 2014")
    ]
    target = colour.CCS_COLOURCHECKERS[name]
    xyz = colour.xyY_to_XYZ(np.array(list(target.data.values())))
    d50, d65 = (
        colour.xy_to_XYZ(xy)
        for xy in (target.illuminant, colour.RGB_COLOURSPACES["sRGB"].whitepoint)
    )
    adapted = xyz @ colour.adaptation.matrix_chromatic_adaptation_VonKries(d50, d65, "Bradford").T
    right = colour.XYZ_to_RGB(adapted, "sRGB")
    np.testing.assert_allclose(target_linear(edition), right, atol=2e-3)


def test_the_editions_are_told_apart():
    labs = [
        colour.XYZ_to_Lab(colour.RGB_to_XYZ(target_linear(edition), "sRGB"))
        for edition in (AFTER, BEFORE)
    ]
    apart = colour.delta_E(*labs, method="CIE 2000")
    assert 0.3 < apart.mean() < 3


@pytest.mark.parametrize("edition", [AFTER, BEFORE])
def test_one_patch_alone_lies_outside_srgb(edition):
    light = target_linear(edition)
    outside = np.flatnonzero((light < -1e-3).any(axis=1) | (light > 1 + 1e-3).any(axis=1))
    assert outside.tolist() == [CYAN]


def test_cyan_lies_so_far_outside():
    assert target_linear(AFTER)[CYAN].min() == pytest.approx(-0.044, abs=5e-4)


@pytest.mark.parametrize("edition", [AFTER, BEFORE])
def test_the_last_row_is_neutral_and_falls_from_white_to_black(edition):
    lab = colour.XYZ_to_Lab(colour.RGB_to_XYZ(target_linear(edition)[18:], "sRGB"))
    assert np.hypot(lab[:, 1], lab[:, 2]).max() < 3.2
    assert (np.diff(lab[:, 0]) < -10).all()
