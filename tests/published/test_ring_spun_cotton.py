"""Ring-spun cotton: a textile technical handbook, p. 150, formulae of knitting, as read:
d = 4.44e-3 √(T/ρ) cm, with ρ the fibre's density.
"""

from math import sqrt

import pytest

from yarncolor.units import diameter_mm, wraps_per_inch
from yarncolor.yarn.wraps import relaxed_density


@pytest.mark.parametrize("fibre", [1.14, 1.31, 1.52])
def test_the_rule_implies_that_two_thirds_of_the_yarn_is_fibre(fibre):
    """0.646, derived, whatever the fibre and the count."""
    for tex in (5, 10, 29.5, 60, 100):
        printed_mm = 10 * 4.44e-3 * sqrt(tex / fibre)
        packed = relaxed_density(wraps_per_inch(printed_mm), tex) / fibre
        assert packed == pytest.approx(0.646, abs=5e-4)
        assert diameter_mm(tex, 0.646 * fibre) == pytest.approx(printed_mm, rel=1e-3)
