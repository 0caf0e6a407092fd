"""Cotton at the exact volume that a published rule of diameters implies."""

from math import sqrt

import pytest

from yarncolor.units import diameter_mm
from yarncolor.yarn.linear_density import to_tex
from yarncolor.yarn.wraps import density_of_factor

PEIRCE_K = 28 / sqrt(840)
"""Ne is yd/lb over 840, and 28 √Ne diameters lie in an inch."""


def test_twenties_at_that_volume_are_a_fifth_of_a_millimetre_thick():
    """0.2028 mm; and d = 0.037 329 √T mm for every count."""
    assert diameter_mm(to_tex(20, "cotton count"), 1 / 1.0944) == pytest.approx(0.2028, abs=1e-4)
    for tex in (1, 10, 29.527, 100, 500):
        found = diameter_mm(tex, density_of_factor(PEIRCE_K)) / sqrt(tex)
        assert found == pytest.approx(0.037329, abs=5e-7)
