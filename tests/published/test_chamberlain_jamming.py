"""Where plain knitting jams: a loop of 16.67 diameters (Chamberlain) or 16.75 (Hepworth and
Leaf), both as a later paper quotes them: Textile Research Journal, doi 10.1177/0040517516641358,
excerpt read.
"""

import pytest

from yarncolor.yarn.knitting import JAMMED_LOOP_DIAMETERS


def test_half_a_millimetre_of_yarn_jams_in_loops_of_eight():
    """d = 0.5 mm: 8.33 mm; 8.335 before rounding."""
    assert pytest.approx(8.33, abs=0.01) == JAMMED_LOOP_DIAMETERS * 0.5


def test_two_geometries_agree_to_half_a_per_cent():
    assert JAMMED_LOOP_DIAMETERS == 16.67
    assert abs(16.75 / JAMMED_LOOP_DIAMETERS - 1) < 0.005
