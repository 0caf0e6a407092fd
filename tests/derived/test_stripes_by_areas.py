"""S-CIELAB by a second way: X. Zhang and B. A. Wandell, Journal of the SID 5, 1997, 61-63.

Beside the printed rows of test_zhang_wandell_1997. Kernels as read in the authors' code of 1996;
what stands as a number here was computed apart, no published figure.
"""

from math import erf, log, pi, sqrt

import numpy as np
import pytest
from coloraide import Color

from tests.helpers.endless import endless
from yarncolor.colour.optical_mixing import (
    contrast_left,
    far_lab,
    stripe_contrast,
    stripes_lab,
)

MATRIX = np.array(
    [
        [0.2787336, 0.7218031, -0.1065520],
        [-0.4487736, 0.2898056, 0.0771569],
        [0.0859513, -0.5899859, 0.5011089],
    ]
)
PLANES = [  # half-width in degrees, weight
    [(0.05, 1.00327), (0.225, 0.114416), (7.0, -0.117686)],
    [(0.0685, 0.616725), (0.826, 0.383275)],
    [(0.0920, 0.567885), (0.6451, 0.432115)],
]
REFERENCE_CODE = {  # cycles a degree: the code's cut kernels at 224 samples a degree
    1: (1.0913, 0.6826, 0.6817),
    2: (1.0319, 0.5709, 0.5004),
    4: (0.8992, 0.4850, 0.3638),
    8: (0.6261, 0.2409, 0.0979),
    16: (0.1522, 0.0137, -0.0002),
}
YARNS = [
    [(85, 1, 10), (35, 10, 15)],
    [(45, 40, 30), (35, -2, -25)],
    [(60, 20, -10), (30, -5, 25), (80, 0, 8)],
    [(50, 0, 0), (60, 30, 0), (40, 0, -30), (70, 0, 40)],
]


def kernel_between(start: float, end: float, half_width: float) -> float:
    """Return how much of a Gaussian lies between two places, in degrees from its middle."""
    spread = half_width / (2 * sqrt(log(2)))
    return (erf(end / spread) - erf(start / spread)) / 2


def blurred(lab: list, cpd: float) -> np.ndarray:
    """Return the middle of each stripe, by areas under the kernels: no Fourier transform."""
    xyz = np.array([Color("lab-d65", row).convert("xyz-d65").coords() for row in lab])
    stripes, width = xyz @ MATRIX.T, 1 / cpd / len(lab)
    seen = np.zeros_like(stripes)
    for plane, kernels in enumerate(PLANES):
        for half_width, weight in kernels:
            reach = int(3 * half_width / width) + len(lab)
            for away in range(-reach, reach + 1):
                inside = kernel_between((away - 0.5) * width, (away + 0.5) * width, half_width)
                seen[:, plane] += weight * inside * np.roll(stripes[:, plane], -away)
    back = seen @ np.linalg.inv(MATRIX).T
    return np.array([Color("xyz-d65", row).convert("lab-d65").coords() for row in back])


@pytest.mark.parametrize("lab", YARNS)
@pytest.mark.parametrize("cpd", [1.0, 4.0, 10.0, 20.0])
def test_the_blur_of_stripes_is_the_area_under_the_kernels(lab, cpd):
    found = stripes_lab(np.array(lab, float), endless(cpd, len(np.array(lab, float))))
    np.testing.assert_allclose(found, blurred(lab, cpd), atol=0.05)


@pytest.mark.parametrize("cpd", [0.02, 0.05, 0.3, 1.0, 5.0, 13.3, 30.0])
def test_each_plane_passes_on_what_its_kernels_leave_of_a_cosine(cpd):
    """The integral of the kernel times a cosine, by sums over a fine grid."""
    place = np.linspace(-30, 30, 600_001)
    for plane, kernels in enumerate(PLANES):
        passed = 0.0
        for half_width, weight in kernels:
            spread = half_width / (2 * sqrt(log(2)))
            kernel = np.exp(-((place / spread) ** 2)) / (spread * sqrt(pi)) * 1e-4
            passed += weight * float(kernel @ np.cos(2 * pi * cpd * place))
        assert contrast_left(np.array(cpd))[plane] == pytest.approx(passed, abs=1e-4)


@pytest.mark.parametrize("cpd", REFERENCE_CODE)
def test_the_authors_code_with_its_cut_kernels_lies_near(cpd):
    """Within 0.06: the code narrows each kernel by a sample and cuts the widest to a degree."""
    np.testing.assert_allclose(contrast_left(np.array(cpd)), REFERENCE_CODE[cpd], atol=0.06)


@pytest.mark.parametrize("plies", [2, 3, 12])
@pytest.mark.parametrize("lab", [(50, 20, -10), (90, 0, 5), (20, 0, 0), (45, 50, 30)])
def test_a_uniform_field_is_not_changed(lab, plies):
    """Whatever its colour."""
    field = np.repeat([lab], plies, axis=0).astype(float)
    for cpd in (0.0, 0.2, 3.0, 30.0, 300.0):
        np.testing.assert_allclose(stripes_lab(field, endless(cpd, len(field))), field, atol=1e-5)


@pytest.mark.parametrize("lab", YARNS)
def test_no_distance_changes_nothing_and_the_farthest_is_the_linear_mean(lab):
    lab = np.array(lab, float)
    np.testing.assert_allclose(stripes_lab(lab, endless(0.0, len(lab))), lab, atol=1e-9)
    mean = np.array([Color("lab-d65", row).convert("xyz-d65").coords() for row in lab]).mean(axis=0)
    expected = Color("xyz-d65", mean).convert("lab-d65").coords()
    np.testing.assert_allclose(
        stripes_lab(lab, endless(1000.0, len(lab))), np.tile(expected, (len(lab), 1)), atol=0.03
    )
    np.testing.assert_allclose(far_lab([np.ones(len(lab))], lab)[0], expected, atol=0.03)


def test_four_plies_of_two_colours_are_two_plies_twice_as_fine():
    """A, B, A, B shows each colour in half a turn of twist."""
    pair = np.array(YARNS[0], float)
    for cpd in (2.0, 5.0, 9.0):
        four = stripes_lab(np.tile(pair, (2, 1)), endless(cpd, len(np.tile(pair, (2, 1)))))
        np.testing.assert_allclose(
            four, np.tile(stripes_lab(pair, endless(2 * cpd, len(pair))), (2, 1)), atol=1e-6
        )


def test_where_the_twist_begins_does_not_matter():
    lab = np.array(YARNS[3], float)
    for turn in range(4):
        turned = stripes_lab(
            np.roll(lab, turn, axis=0), endless(4.0, len(np.roll(lab, turn, axis=0)))
        )
        np.testing.assert_allclose(
            turned, np.roll(stripes_lab(lab, endless(4.0, len(lab))), turn, axis=0), atol=1e-9
        )


@pytest.mark.parametrize("pair", YARNS[:2])
def test_stripes_are_never_told_apart_better_from_farther(pair):
    """From 2 cycles a degree up: below, luminance rises above 1, which is no error."""
    left = [
        float(stripe_contrast(np.array(pair, float), endless(cpd, len(np.array(pair, float)))))
        for cpd in np.arange(2, 60, 0.5)
    ]
    assert (np.diff(left) <= 1e-6).all()


@pytest.mark.parametrize("lab", [[(np.nan, 0, 0), (50, 0, 0)], [(5000, 0, 0), (50, 0, 0)]])
def test_a_colour_that_is_none_is_refused(lab):
    with pytest.raises(ValueError, match="colour values"):
        stripes_lab(np.array(lab, float), endless(4.0, len(np.array(lab, float))))
