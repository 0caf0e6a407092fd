"""Marl from afar: X. Zhang and B. A. Wandell, Journal of the SID 5, 1997, 61-63 (S-CIELAB).

The matrix and the kernels were read in the authors' published code of 1996; the tables of the
transform and of the frequencies at which a marl fades were computed apart.
"""

import numpy as np
import pytest

from yarncolor.colour.optical_mixing import (
    OPPONENT,
    contrast_left,
    cycles_per_degree,
    far_lab,
    reads_as_one_cpd,
    reads_as_one_m,
    stripe_contrast,
    stripes_lab,
)
from yarncolor.colour.science import linear_from_srgb, srgb_from_linear


def test_the_opponent_colour_of_daylight():
    found = OPPONENT @ [0.9505, 1, 1.089]
    np.testing.assert_allclose(found, [0.870704, -0.052730, 0.037418], atol=1e-5)


def test_the_inverse_of_the_matrix():
    expected = [[0.979596, -1.534716, 0.444598], [1.188978, 0.764355, 0.135126],
                [1.231833, 1.163159, 2.078408]]  # fmt: skip
    np.testing.assert_allclose(np.linalg.inv(OPPONENT), expected, atol=1e-5)


@pytest.mark.parametrize(
    ("cpd", "expected"),
    [
        (1, (1.0899, 0.6403, 0.6493)),
        (2, (1.0238, 0.5769, 0.5046)),
        (4, (0.8765, 0.4721, 0.3507)),
        (8, (0.5676, 0.2118, 0.0826)),
        (20, (0.0285, 0.0008, 0.0000)),
    ],
)
def test_what_the_eye_passes_on(cpd, expected):
    np.testing.assert_allclose(contrast_left(np.array(cpd)), expected, atol=1e-4)


def test_a_finer_pattern_is_never_passed_on_better_above_one_cycle_a_degree():
    left = contrast_left(np.linspace(1, 60, 600))
    assert (np.diff(left, axis=0) <= 0).all()


@pytest.mark.parametrize(
    ("one", "other", "cpd", "tolerance"),
    [
        ((85, 1, 10), (35, 10, 15), 19.3, 0.3),
        ((78, -3, 65), (35, -2, -25), 19.1, 0.3),
        ((45, 40, 30), (35, -2, -25), 16.1, 0.3),
        ((50, 0, 0), (60, 0, 0), 14.6, 0.3),
        ((45, 50, 30), (45, -40, 25), 13.3, 0.5),
        ((50, 0, 0), (55, 0, 0), 11.6, 0.3),
    ],
)
def test_from_where_a_two_ply_marl_reads_as_one(one, other, cpd, tolerance):
    """A model's own prediction: the sheet gives other colours of the same kind in some rows."""
    assert reads_as_one_cpd(np.array([one, other], float)) == pytest.approx(cpd, abs=tolerance)


def test_the_distance_of_a_period_by_trigonometry():
    """A period p fills one cycle of f per degree at p / tan(1/f°)."""
    lab = np.array([[85.0, 1, 10], [35.0, 10, 15]])
    cpd = float(reads_as_one_cpd(lab))
    assert reads_as_one_m(lab, 5.0) == pytest.approx(0.005 / np.tan(np.radians(1 / cpd)), rel=1e-6)


def test_no_distance_changes_nothing_and_a_uniform_field_never_changes():
    lab = np.array([[60.0, 20, -10], [30.0, -5, 25], [85.0, 0, 8]])
    np.testing.assert_allclose(stripes_lab(lab, 0.0), lab, atol=1e-9)
    uniform = np.repeat([[50.0, 20, -10]], 3, axis=0)
    for cpd in (0.5, 4.0, 30.0):
        np.testing.assert_allclose(stripes_lab(uniform, cpd), uniform, atol=1e-4)


def test_from_infinitely_far_every_stripe_is_the_mean_of_the_lights():
    """Grassmann 1853 (from memory): lights add."""
    lab = np.array([[60.0, 20, -10], [30.0, -5, 25]])
    seen = stripes_lab(lab, 500.0)
    np.testing.assert_allclose(seen, np.repeat(far_lab([[1, 1]], lab), 2, axis=0), atol=1e-3)
    assert stripe_contrast(lab, 500.0) < 1e-2


def test_half_white_and_half_black_in_linear_light():
    """L* 76.069, not 50: Grassmann's law and CIE 15."""
    found = far_lab([[1, 1]], np.array([[100.0, 0, 0], [0.0, 0, 0]]))
    assert found[0, 0] == pytest.approx(76.069, abs=1e-3)


def test_two_lots_of_one_colour_read_as_one_at_any_distance():
    assert reads_as_one_m(np.array([[50.0, 1, 1], [50.0, 1, 1]]), 6.0) == 0


@pytest.mark.parametrize(("metres", "cpd"), [(8.594, 30), (3.151, 11)])
def test_from_how_far_a_period_of_five_millimetres_fills_a_cycle(metres, cpd):
    """Letter acuity of 30 cycles a degree is from memory; 11 is Mullen (1985) for colour alone."""
    assert cycles_per_degree(5.0, metres) == pytest.approx(cpd, abs=1e-2)


def test_red_and_green_light_half_and_half():
    """Grassmann 1853 (from memory): the mean of linear light encodes to 0.73536."""
    linear = linear_from_srgb(np.array([[1.0, 0, 0], [0, 1.0, 0]])).mean(axis=0)
    np.testing.assert_allclose(srgb_from_linear(linear), [0.73536, 0.73536, 0], atol=1e-4)
