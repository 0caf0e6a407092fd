"""Regain, content and mass, derived: water and dry fibre add up."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.regain import content, mass_at_regain_g, regain

PAIRS = [  # regain, content, per cent; the content derived
    (16.0, 13.793),
    (18.25, 15.433),
]
CONTENTS = [  # content, regain, per cent; ASTM D2118-18, the regain derived
    (12.0, 13.636),
    (13.04, 14.995),
]
REWEIGHED = [(0.0, 86.21), (10.0, 94.83), (16.0, 100.0), (18.25, 101.94)]  # 100 g at 16 %; derived
shares = st.floats(0, 0.9)
masses = st.floats(0.1, 5000)


@pytest.mark.parametrize(("of_dry", "of_all"), PAIRS)
def test_a_regain_is_so_much_content(of_dry, of_all):
    assert 100 * content(of_dry / 100) == pytest.approx(of_all, abs=5e-4)


@pytest.mark.parametrize(("of_all", "of_dry"), CONTENTS)
def test_a_content_of_the_standard_is_so_much_regain(of_all, of_dry):
    assert 100 * regain(of_all / 100) == pytest.approx(of_dry, abs=5e-4)


@pytest.mark.parametrize(("then", "mass"), REWEIGHED)
def test_a_hundred_grams_weighed_again(then, mass):
    assert mass_at_regain_g(100, 0.16, then / 100) == pytest.approx(mass, abs=0.005)


@pytest.mark.parametrize("dry", [1, 7, 86, 1000])
def test_water_and_dry_fibre_add_up_to_what_is_weighed(dry):
    """In whole grams of water, as exact fractions."""
    for water in range(0, 3 * dry, max(1, dry // 13)):
        of_dry, of_all = Fraction(water, dry), Fraction(water, dry + water)
        assert content(float(of_dry)) == pytest.approx(float(of_all), rel=1e-14, abs=0)
        assert regain(float(of_all)) == pytest.approx(float(of_dry), rel=1e-13, abs=0)
        assert mass_at_regain_g(dry, 0, float(of_dry)) == pytest.approx(dry + water, rel=1e-14)


@given(shares)
def test_content_and_regain_are_inverse(share):
    assert regain(content(share)) == pytest.approx(share, rel=1e-12, abs=1e-15)
    assert content(regain(share)) == pytest.approx(share, rel=1e-12, abs=1e-15)


@given(st.floats(1e-6, 0.9))
def test_the_water_is_a_smaller_share_of_all_than_of_the_dry_fibre(share):
    assert 0 < content(share) < share < regain(share)


@given(masses, shares, shares, shares)
def test_by_way_of_another_air_the_mass_is_the_same(mass, before, between, after):
    there = mass_at_regain_g(mass_at_regain_g(mass, before, between), between, after)
    assert there == pytest.approx(mass_at_regain_g(mass, before, after), rel=1e-12)
    assert mass_at_regain_g(mass, before, before) == pytest.approx(mass, rel=1e-15)


@given(masses, shares, shares)
def test_the_dry_fibre_in_it_does_not_change(mass, before, after):
    dry = mass * (1 - content(before))
    found = mass_at_regain_g(mass, before, after)
    assert found * (1 - content(after)) == pytest.approx(dry, rel=1e-12)
    assert (found > mass) == (after > before) or after == pytest.approx(before)
