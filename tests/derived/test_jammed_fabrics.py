"""How tight a jammed plain fabric is, derived: loops of so many diameters of a round yarn."""

from math import pi, sqrt

import pytest

from yarncolor.units import diameter_mm
from yarncolor.yarn.knitting import JAMMED_LOOP_DIAMETERS, LOOSEST, TIGHTEST, tightness_factor


@pytest.mark.parametrize("density", [0.1, 0.16, 0.25, 0.4, 0.5, 0.8])
def test_a_jammed_fabric_of_one_density_is_as_tight_in_every_yarn(density):
    """K = √T / l at l = 16.67 d: √(π ρ 1000 / 4) / 1.667, no matter the tex; derived."""
    for tex in (20, 100, 500, 2000):
        loop_cm = JAMMED_LOOP_DIAMETERS * diameter_mm(tex, density) / 10
        expected = sqrt(pi * density * 1000 / 4) / 1.667
        assert tightness_factor(tex, loop_cm) == pytest.approx(expected, rel=1e-12)


def test_yarn_lies_far_closer_in_a_fabric_than_on_a_ruler():
    """As thick as wrapped, 0.16 g/cm³, the loosest wool in use would jam; as solid fibre, at
    1.31 g/cm³, the tightest would not quite: 6.7 and 19.2; derived.
    """
    wrapped = JAMMED_LOOP_DIAMETERS * diameter_mm(100, 0.16) / 10
    solid = JAMMED_LOOP_DIAMETERS * diameter_mm(100, 1.31) / 10
    assert tightness_factor(100, wrapped) == pytest.approx(6.7, abs=0.05)
    assert tightness_factor(100, wrapped) < LOOSEST
    assert tightness_factor(100, solid) == pytest.approx(19.2, abs=0.05)
    assert tightness_factor(100, solid) > TIGHTEST
