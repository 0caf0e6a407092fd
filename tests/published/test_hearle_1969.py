"""A twisted single: Hearle, Grosberg and Backer, Structural Mechanics of Fibers, Yarns, and
Fabrics, 1969: angle, factor and contraction of idealised coaxial helices.

The book's formulas are from memory. Three witnesses beside them: what an examination prints of such
a yarn and of its contraction factor (graduate aptitude test in textile engineering and fibre
science, 2005, question 71, and 2014, question 37, with worked answers, as read); the retraction of
the helical model, as notes of a university course on the structural mechanics of yarns print it;
and the fibres themselves, integrated over the yarn's section.
"""

from math import acos, atan, cos, degrees, radians, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from yarncolor.units import diameter_mm
from yarncolor.yarn.twist import (
    STEEPEST_VALID_DEG,
    retraction,
    twist_angle_deg,
    twist_factor,
)

linear_densities = st.floats(1, 5000)
densities = st.floats(0.02, 1.4)


def mean_fibre_length(angle_deg: float) -> float:
    """Return metres of fibre in a metre of yarn, on the mean of all fibres.

    A section holds so many fibres as their own sections, cut aslant, find room in it.
    """
    slope = tan(radians(angle_deg))

    def cosine(radius: float) -> float:
        return 1 / sqrt(1 + (radius * slope) ** 2)

    fibres = quad(lambda radius: 2 * radius * cosine(radius), 0, 1)[0]
    metres = quad(lambda radius: 2 * radius * cosine(radius) / cosine(radius), 0, 1)[0]
    return metres / fibres


@given(linear_densities, densities, st.floats(1, 8000))
def test_the_tangent_is_the_printed_constant_times_the_factor(tex, density, turns):
    """1.120 998e-4 τ / √ρ derived; printed, from memory: 0.0112 √v τ with τ by the centimetre."""
    tangent = tan(radians(twist_angle_deg(turns, diameter_mm(tex, density))))
    factor = twist_factor(turns, tex)
    assert tangent == pytest.approx(1.120998e-4 * factor / sqrt(density), rel=1e-6)
    assert tangent == pytest.approx(0.0112 * sqrt(1 / density) * factor / 100, rel=0.005)


def test_an_examination_s_yarn_has_the_angle_that_was_asked():
    """20 tex, 10 turns/cm, 32°: 1.57 cm³/g is printed, reckoned with a diameter of 0.2 mm."""
    printed = twist_angle_deg(1000, diameter_mm(20, 1 / 1.57))
    assert printed == pytest.approx(32, abs=0.2)
    assert diameter_mm(20, 1 / 1.57) == pytest.approx(0.2, abs=0.0005)


def test_a_contraction_factor_is_untwisted_length_over_twisted():
    """1.06 is printed of 106,000 km that become 100,000 km."""
    angle = degrees(acos(1 / (2 * 1.06 - 1)))
    assert 106_000 * (1 - retraction(angle)) == pytest.approx(100_000, rel=1e-12)


@given(st.floats(0.01, 10))
def test_the_retraction_of_the_helical_model_is_the_same(intensity):
    """1 - 2 (√(1 + κ²) - 1) / κ² with κ = π d u, the tangent; its root is lost in the notes."""
    expected = 1 - 2 * (sqrt(1 + intensity**2) - 1) / intensity**2
    assert retraction(degrees(atan(intensity))) == pytest.approx(expected, abs=1e-11)


def test_the_figure_printed_of_the_helical_model():
    """R = 0.0605 at κ = 0.5236."""
    assert retraction(degrees(atan(0.5236))) == pytest.approx(0.0605, abs=5e-5)


@pytest.mark.parametrize("tenths", range(5, 800, 5))
def test_the_share_lost_is_that_of_all_fibres_on_the_mean(tenths):
    angle = tenths / 10
    assert 1 / (1 - retraction(angle)) == pytest.approx(mean_fibre_length(angle), rel=1e-8)


@given(st.floats(0, 85))
def test_the_share_lost_is_that_of_half_the_secant_and_one(angle):
    """c = (1 + sec α) / 2 and R = 1 - 1/c; from memory."""
    factor = (1 + 1 / cos(radians(angle))) / 2
    assert retraction(angle) == pytest.approx(1 - 1 / factor, abs=1e-13)


def test_it_is_said_to_hold_below_about_forty_degrees():
    assert STEEPEST_VALID_DEG == 40
