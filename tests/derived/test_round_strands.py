"""A bare cylinder of even density, derived from its mass: d = 0.035 682 5 √(T/ρ) mm."""

from math import pi

import pytest

from yarncolor.units import diameter_mm, wraps_per_inch

DERIVED = [  # tex, g/cm³, mm, wraps to the inch; d = 0.035 682 5 √(T/ρ), derived
    (100, 0.5, 0.5046, 50.3),
    (500, 0.25, 1.5958, 15.9),
    (500, 0.4, 1.2616, 20.1),
]


@pytest.mark.parametrize(("tex", "density", "diameter", "wraps"), DERIVED)
def test_a_round_strand_has_its_diameter_and_its_wraps(tex, density, diameter, wraps):
    assert diameter_mm(tex, density) == pytest.approx(diameter, abs=5e-5)
    assert wraps_per_inch(diameter_mm(tex, density)) == pytest.approx(wraps, abs=0.05)


def test_a_metre_of_the_cylinder_weighs_what_its_tex_say():
    for tex in (1, 30, 110, 500, 3000, 50_000):
        for density in (0.03, 0.16, 0.5, 0.914, 1.31):
            area_cm2 = pi * (diameter_mm(tex, density) / 20) ** 2
            assert area_cm2 * 100 * density == pytest.approx(tex / 1000, rel=1e-12)


def test_a_diameter_doubles_with_four_times_the_tex_and_halves_with_four_times_the_density():
    for tex in (1, 88, 496, 9000):
        one = diameter_mm(tex, 0.25)
        assert diameter_mm(4 * tex, 0.25) == pytest.approx(2 * one, rel=1e-12)
        assert diameter_mm(tex, 1.0) == pytest.approx(one / 2, rel=1e-12)


def test_so_many_wraps_fill_an_inch():
    for tenths in range(1, 300):
        assert wraps_per_inch(tenths / 10) * tenths / 10 == pytest.approx(25.4, rel=1e-14)
