"""Diameter of cotton yarn: F. T. Peirce, The geometry of cloth structure, Journal of the Textile
Institute 28, 1937, T45: d = 1 / (28 √Ne) inches, for a specific volume of about 1.1 cm³/g.
"""

from math import sqrt

import pytest

from yarncolor.units import diameter_mm

COTTON_CM3_PER_G = 1.1  # Peirce 1937, as rounded in print
TEX_TIMES_COTTON_COUNT = 590.5412


def peirce_mm(cotton_count: float) -> float:
    return 25.4 / (28 * sqrt(cotton_count))


def test_twenties_cotton_is_a_fifth_of_a_millimetre_thick():
    """Peirce 1937: Ne 20 gives 0.2028 mm; to within his rounding of the specific volume."""
    assert peirce_mm(20) == pytest.approx(0.2028, abs=5e-5)
    found = diameter_mm(TEX_TIMES_COTTON_COUNT / 20, 1 / COTTON_CM3_PER_G)
    assert found == pytest.approx(0.2028, rel=0.005)


def test_every_count_of_cotton_is_as_thick_as_the_rule_says():
    for count in range(2, 201):
        found = diameter_mm(TEX_TIMES_COTTON_COUNT / count, 1 / COTTON_CM3_PER_G)
        assert found == pytest.approx(peirce_mm(count), rel=0.005)
