"""What an eye passes on of stripes, derived from the published matrix and kernels."""

import numpy as np
import pytest

from tests.helpers.endless import endless
from yarncolor.colour.optical_mixing import (
    OPPONENT,
    contrast_left,
    far_lab,
    stripe_contrast,
    stripes_lab,
)
from yarncolor.colour.science import linear_from_srgb, srgb_from_linear


def test_the_inverse_of_the_matrix():
    expected = [[0.979596, -1.534716, 0.444598], [1.188978, 0.764355, 0.135126],
                [1.231833, 1.163159, 2.078408]]  # fmt: skip
    np.testing.assert_allclose(np.linalg.inv(OPPONENT), expected, atol=1e-5)


def test_a_finer_pattern_is_never_passed_on_better_above_one_cycle_a_degree():
    left = contrast_left(np.linspace(1, 60, 600))
    assert (np.diff(left, axis=0) <= 0).all()


def test_no_distance_changes_nothing_and_a_uniform_field_never_changes():
    lab = np.array([[60.0, 20, -10], [30.0, -5, 25], [85.0, 0, 8]])
    np.testing.assert_allclose(stripes_lab(lab, endless(0.0, 3)), lab, atol=1e-9)
    uniform = np.repeat([[50.0, 20, -10]], 3, axis=0)
    for cpd in (0.5, 4.0, 30.0):
        np.testing.assert_allclose(stripes_lab(uniform, endless(cpd, 3)), uniform, atol=1e-4)


def test_from_infinitely_far_every_stripe_is_the_mean_of_the_lights():
    """Grassmann 1853: lights add."""
    lab = np.array([[60.0, 20, -10], [30.0, -5, 25]])
    seen = stripes_lab(lab, endless(500.0, 2))
    np.testing.assert_allclose(seen, np.repeat(far_lab([[1, 1]], lab), 2, axis=0), atol=1e-3)
    assert stripe_contrast(lab, endless(500.0, 2)) < 1e-2


def test_half_white_and_half_black_in_linear_light():
    """L* 76.069, not 50: Grassmann's law and CIE 15."""
    found = far_lab([[1, 1]], np.array([[100.0, 0, 0], [0.0, 0, 0]]))
    assert found[0, 0] == pytest.approx(76.069, abs=1e-3)


def test_red_and_green_light_half_and_half():
    """Grassmann 1853: the mean of linear light encodes to 0.73536."""
    linear = linear_from_srgb(np.array([[1.0, 0, 0], [0, 1.0, 0]])).mean(axis=0)
    np.testing.assert_allclose(srgb_from_linear(linear), [0.73536, 0.73536, 0], atol=1e-4)
