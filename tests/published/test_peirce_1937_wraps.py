"""Peirce's cotton as a wrapping factor: F. T. Peirce, Journal of the Textile Institute 28, 1937,
T45: d = 1 / (28 √Ne) inches and about 1.1 cm³/g, as read; the exact volume is derived.
"""

from math import sqrt

import pytest

from yarncolor.yarn.linear_density import to_tex
from yarncolor.yarn.wraps import density_of_factor, relaxed_density, wrapping_factor

PEIRCE_K = 28 / sqrt(840)
"""Ne is yd/lb over 840, and 28 √Ne diameters lie in an inch."""


def test_the_volume_that_his_rule_implies():
    """1.0944 cm³/g, printed as 1.1; 0.914 g/cm³; 0.60 of cotton's 1.52."""
    density = density_of_factor(PEIRCE_K)
    assert 1 / density == pytest.approx(1.0944, abs=1e-4)
    assert 1 / density == pytest.approx(1.1, abs=0.05)
    assert density == pytest.approx(0.914, abs=5e-4)
    assert density / 1.52 == pytest.approx(0.60, abs=0.005)


def test_every_count_of_cotton_laid_side_by_side_has_that_density():
    for count in range(2, 201):
        tex = to_tex(count, "cotton count")
        found = relaxed_density(28 * sqrt(count), tex)
        assert 1 / found == pytest.approx(1.0944, abs=1e-4)
        assert wrapping_factor(found) == pytest.approx(PEIRCE_K, rel=1e-7)
