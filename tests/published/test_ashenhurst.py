"""Diameters in an inch: T. R. Ashenhurst's rule, 19th century, as weaving manuals print it:
k √(yards in a pound), k = 0.84 to 0.86 woollen, 0.90 worsted, 0.91 silk, cotton and linen.

A strand of k has a density of 0.97898 k² g/cm³ (derived).
"""

from math import sqrt

import pytest

from yarncolor.units import diameter_mm, wraps_per_inch, yd_per_lb

TEX_TIMES_YD_PER_LB = 496_054.65
DENSITIES = [(0.84, 0.691), (0.86, 0.724), (0.90, 0.793), (0.91, 0.811)]


def test_the_printed_worsted_yarn_lies_thirty_seven_times_in_an_inch():
    """425 yd in a quarter of a pound, k = 0.9: inputs as printed, 37.1 derived from them."""
    tex = TEX_TIMES_YD_PER_LB / (4 * 425)
    assert wraps_per_inch(diameter_mm(tex, 0.793)) == pytest.approx(37.1, abs=0.1)


@pytest.mark.parametrize(("k", "density"), DENSITIES)
def test_every_yarn_of_a_trade_lies_as_often_in_an_inch_as_the_rule_says(k, density):
    for tex in (10, 30, 75, 88.6, 220, 500, 1000, 2200):
        found = wraps_per_inch(diameter_mm(tex, density))
        assert found == pytest.approx(k * sqrt(yd_per_lb(tex)), rel=1e-3)
