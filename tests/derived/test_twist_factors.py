"""Twist and its factors, derived: one factor is one angle of a single of one density."""

from math import atan, degrees, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.twist import twist_factor, twist_from_factor

WORKED = [  # system, multiplier, factor in tex^½·turns/m; derived
    ("cotton", 1.0, 956.73, 0.005),
    ("cotton", 3.5, 3348.6, 0.05),
    ("worsted", 2.5, 2929.4, 0.05),
    ("metric", 80.0, 2529.8, 0.05),
]
linear_densities = st.floats(1, 5000)


@pytest.mark.parametrize(("system", "multiplier", "factor", "digit"), WORKED)
def test_worked_multipliers(system, multiplier, factor, digit):
    for tex in (10, 100, 1000):
        found = twist_factor(twist_from_factor(multiplier, tex, system), tex)
        assert found == pytest.approx(factor, abs=digit)


@given(st.floats(1, 8000), linear_densities)
def test_factor_and_turns_are_inverse(factor, tex):
    turns = twist_from_factor(factor, tex)
    assert twist_factor(turns, tex) == pytest.approx(factor, rel=1e-13)
    assert twist_from_factor(twist_factor(factor, tex), tex) == pytest.approx(factor, rel=1e-13)


@given(st.floats(100, 6000), linear_densities, st.floats(1.01, 20))
def test_of_one_factor_the_finer_yarn_has_more_turns(factor, tex, coarser):
    fine, coarse = (twist_from_factor(factor, t) for t in (tex, tex * coarser))
    assert fine > coarse
    assert fine / coarse == pytest.approx(sqrt(coarser), rel=1e-12)


def test_of_one_factor_and_density_every_yarn_cut_open_has_one_angle():
    """One turn of the cylinder unrolled: a right triangle of its girth and the turn's length."""
    angles = set()
    for tex in (5, 30, 88.6, 310, 1000, 4000):
        turn_mm = 1000 / twist_from_factor(3000, tex)
        girth_mm = sqrt(4 * pi * tex / 1000 / 0.5)
        angles.add(round(degrees(atan(girth_mm / turn_mm)), 9))
    assert len(angles) == 1
