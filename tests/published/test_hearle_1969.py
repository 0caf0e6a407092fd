"""A twisted single: Hearle, Grosberg and Backer, Structural Mechanics of Fibers, Yarns, and
Fabrics, 1969: angle, factor and contraction of idealised coaxial helices.

Formulas from memory, definitions as read. A second witness beside them: the fibres themselves,
integrated over the yarn's section.
"""

from math import cos, radians, sqrt, tan

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
