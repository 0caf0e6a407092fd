"""Spaces that the package does not use, checked in the library behind its door.

They stand here so that whoever takes one up knows that colour-science meets the published values:
B. Ottosson, A perceptual color space for image processing, 2020 (table from memory), and the
worked set of C. Li and others, Color Research and Application 42, 2017 (from memory).
"""

import numpy as np
import pytest

from yarncolor.colour.science import lab_from_srgb

lab_from_srgb(np.zeros((1, 3)))  # opens the door, so that the library is imported as it should be
colour = pytest.importorskip("colour")


@pytest.mark.parametrize(
    ("xyz", "expected"),
    [
        ((1, 0, 0), (0.450, 1.236, -0.019)),
        ((0, 1, 0), (0.922, -0.671, 0.263)),
        ((0, 0, 1), (0.153, -1.415, -0.449)),
    ],
)
def test_oklab_of_the_three_stimuli(xyz, expected):
    np.testing.assert_allclose(colour.XYZ_to_Oklab(np.array(xyz, float)), expected, atol=1e-3)


def test_oklab_of_a_colour():
    """As in the tests of colour-science itself, read there."""
    found = colour.XYZ_to_Oklab(np.array([0.20654008, 0.12197225, 0.05136952]))
    np.testing.assert_allclose(found, [0.51634019, 0.15469500, 0.06289579], atol=1e-7)


def test_cam16_of_the_worked_set():
    found = colour.XYZ_to_CAM16(
        np.array([19.01, 20, 21.78]), np.array([95.05, 100, 108.88]), 318.31, 20
    )
    expected = {"J": 41.731208, "C": 0.103356, "h": 217.067960, "s": 2.345015}
    expected |= {"Q": 195.371709, "M": 0.107437, "H": 275.594986}
    for name, value in expected.items():
        assert getattr(found, name) == pytest.approx(value, abs=1e-5)
