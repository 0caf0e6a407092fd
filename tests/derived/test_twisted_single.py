"""A twisted single of coaxial helices, derived: angles, and what is lost of its length."""

from math import cos, isclose, pi, radians, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.units import diameter_mm
from yarncolor.yarn.twist import (
    retraction,
    twist_angle_deg,
    twist_from_angle,
    twist_from_factor,
)

ANGLES = [  # tex^½·turns/m, g/cm³, degrees; derived
    (2500, 0.4, 23.90),
    (3000, 0.5, 25.44),
    (2000, 0.25, 24.15),
]
RETRACTIONS = [  # degrees, contraction factor, per cent; arithmetic of the helical model
    (5, 1.00191, 0.1906),
    (10, 1.00771, 0.7654),
    (15, 1.01764, 1.7332),
    (20, 1.03209, 3.1091),
    (25, 1.05169, 4.9149),
    (30, 1.07735, 7.1797),
    (40, 1.15270, 13.2474),
]
angles = st.floats(0.01, 60)
linear_densities = st.floats(1, 5000)
densities = st.floats(0.02, 1.4)


@pytest.mark.parametrize(("factor", "density", "angle"), ANGLES)
def test_a_factor_and_a_density_stand_for_an_angle_whatever_the_count(factor, density, angle):
    for tex in (5, 30, 88.6, 310, 1000, 4000):
        turns = twist_from_factor(factor, tex)
        found = twist_angle_deg(turns, diameter_mm(tex, density))
        assert found == pytest.approx(angle, abs=0.01)


@given(angles, linear_densities, densities)
def test_angle_and_twist_are_inverse(angle, tex, density):
    turns = twist_from_angle(angle, tex, density)
    assert twist_angle_deg(turns, diameter_mm(tex, density)) == pytest.approx(angle, rel=1e-12)


@given(st.floats(1, 4000), st.floats(0.05, 5), st.floats(1.01, 3))
def test_more_twist_and_a_thicker_single_both_stand_steeper(turns, thick, more):
    angle = twist_angle_deg(turns, thick)
    assert twist_angle_deg(turns * more, thick) > angle
    assert isclose(twist_angle_deg(turns, thick * more), twist_angle_deg(turns * more, thick))


def test_a_surface_fibre_of_a_turn_is_as_long_as_its_slope_says():
    """A turn unrolled: 1 mm of yarn and π d u of girth."""
    for turns in range(50, 1001, 50):
        girth = pi * 0.6 / 1000 * turns
        angle = twist_angle_deg(turns, 0.6)
        assert 1 / cos(radians(angle)) == pytest.approx(sqrt(1 + girth**2), rel=1e-12)


@pytest.mark.parametrize(("angle", "factor", "per_cent"), RETRACTIONS)
def test_the_share_lost_at_a_printed_angle(angle, factor, per_cent):
    assert 100 * retraction(angle) == pytest.approx(per_cent, abs=1e-4)
    assert 1 / (1 - retraction(angle)) == pytest.approx(factor, abs=5e-6)


@given(st.floats(0, 80), st.floats(0.01, 5))
def test_a_steeper_single_loses_more(angle, more):
    assert 0 <= retraction(angle) < retraction(angle + more) < 1


def test_no_twist_takes_nothing_and_a_little_twist_takes_a_quarter_of_the_square():
    assert retraction(0) == 0
    for angle in (0.01, 0.1, 1.0):
        assert retraction(angle) == pytest.approx(radians(angle) ** 2 / 4, rel=1e-3)
