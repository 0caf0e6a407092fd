"""Wraps and density, derived: a strand is a cylinder that lies so many times in an inch."""

from math import pi, sqrt

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.units import diameter_mm, wraps_per_inch, yd_per_lb
from yarncolor.yarn.linear_density import from_tex
from yarncolor.yarn.wraps import (
    WRAPPING_FACTORS,
    density_of_factor,
    relaxed_density,
    tex_from_wraps,
    wrapping_factor,
    wraps_by_convention,
)

UNITS = pint.UnitRegistry()
TRADES = [(0.84, 0.691), (0.86, 0.724), (0.90, 0.793), (0.91, 0.811)]  # k read, density derived
linear_densities = st.floats(1, 20_000)
densities = st.floats(0.01, 1.4)
wraps = st.floats(1, 120)


def test_the_constant_of_a_factor_of_one():
    """0.978 976, derived: a cylinder an inch over so many, of a pound over so many yards."""
    assert density_of_factor(1.0) == pytest.approx(0.978976, abs=5e-7)
    pound_of_yarn = UNITS("1 pound/yard") / (pi / 4 * UNITS("1 inch") ** 2)
    assert density_of_factor(1.0) == pytest.approx(
        pound_of_yarn.to("gram/centimeter**3").magnitude, rel=1e-8
    )


@pytest.mark.parametrize(("k", "density"), TRADES)
def test_the_density_that_a_trade_s_factor_stands_for(k, density):
    assert density_of_factor(k) == pytest.approx(density, abs=5e-4)
    assert wrapping_factor(density) == pytest.approx(k, abs=5e-4)


@given(densities)
def test_factor_and_density_are_inverse(density):
    assert density_of_factor(wrapping_factor(density)) == pytest.approx(density, rel=1e-13)
    assert wrapping_factor(density_of_factor(density)) == pytest.approx(density, rel=1e-13)


@given(linear_densities, densities)
def test_the_factor_is_wraps_over_the_root_of_yards_in_a_pound(tex, density):
    wpi = wraps_per_inch(diameter_mm(tex, density))
    assert wrapping_factor(density) == pytest.approx(wpi / sqrt(yd_per_lb(tex)), rel=1e-8)


@given(wraps, densities)
def test_wraps_make_a_strand_and_the_strand_makes_the_wraps(wpi, density):
    tex = tex_from_wraps(wpi, density)
    assert wraps_per_inch(diameter_mm(tex, density)) == pytest.approx(wpi, rel=1e-12)
    assert relaxed_density(wpi, tex) == pytest.approx(density, rel=1e-12)


@given(wraps, densities)
def test_a_metre_of_the_wrapped_cylinder_weighs_its_tex(wpi, density):
    area_cm2 = pi / 4 * (2.54 / wpi) ** 2
    assert tex_from_wraps(wpi, density) == pytest.approx(area_cm2 * density * 1e5, rel=1e-12)


@given(wraps, densities, st.floats(1.01, 5))
def test_more_wraps_mean_a_finer_strand_and_a_denser_one_a_heavier(wpi, density, more):
    assert tex_from_wraps(wpi * more, density) < tex_from_wraps(wpi, density)
    assert tex_from_wraps(wpi, density * more) > tex_from_wraps(wpi, density)
    tex = tex_from_wraps(wpi, density)
    assert relaxed_density(wpi * more, tex) == pytest.approx(density * more**2, rel=1e-9)


@given(linear_densities, st.sampled_from(sorted(WRAPPING_FACTORS)))
def test_each_convention_is_a_strand_of_a_density_of_its_own(tex, way):
    found = wraps_by_convention(tex)[way]
    strand = diameter_mm(tex, density_of_factor(WRAPPING_FACTORS[way]))
    assert found == pytest.approx(wraps_per_inch(strand), rel=1e-8)


@pytest.mark.parametrize(("k", "density"), TRADES)
def test_every_yarn_of_a_trade_lies_as_often_in_an_inch_as_the_rule_says(k, density):
    for tex in (10, 30, 75, 88.6, 220, 500, 1000, 2200):
        found = wraps_per_inch(diameter_mm(tex, density))
        assert found == pytest.approx(k * sqrt(from_tex(tex, "yd/lb")), rel=1e-3)
