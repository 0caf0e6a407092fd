"""Metres in a gram and yards in a pound, derived from the yard, the pound and the tex."""

from fractions import Fraction

import pytest

from yarncolor.units import m_per_100g, yd_per_lb

YARD_M, POUND_G = Fraction("0.9144"), Fraction("453.59237")


def every_grist():
    """Return tex from a sewing thread to a rope."""
    return [10 ** (exponent / 20) for exponent in range(95)]


@pytest.mark.parametrize(("yards", "ounces", "derived"), [(254, 2.125, 1912), (261, 2.375, 1758)])
def test_a_weighed_skein_has_its_grist(yards, ounces, derived):
    """Two skeins in print, there rounded to 1900 and 1700 yd/lb; common practice, no source."""
    grams, metres = ounces * float(POUND_G) / 16, yards * float(YARD_M)
    assert yd_per_lb(grams / metres * 1000) == pytest.approx(derived, abs=0.5)


def test_from_thread_to_rope_both_grists_agree_with_exact_fractions():
    for tex in every_grist():
        metres_in_a_gram = 1000 / Fraction(tex)
        assert m_per_100g(tex) == pytest.approx(float(100 * metres_in_a_gram), rel=1e-14)
        yards = metres_in_a_gram * POUND_G / YARD_M
        assert yd_per_lb(tex) == pytest.approx(float(yards), rel=1e-14)


def test_a_thicker_strand_always_runs_shorter():
    for grist in (m_per_100g, yd_per_lb):
        found = [grist(tex) for tex in every_grist()]
        assert found == sorted(found, reverse=True)
        assert len(set(found)) == len(found)
