"""The grey scale itself: ISO 105-A02 (= EN 20105-A02:1994), Grey scale for assessing change in
colour: the CIELAB difference of each grade's pair of greys, and its tolerance.

Clause 2.4, as read in the public preview of EN 20105-A02:1994 (ISO 105-A02:1993): differences and
the tolerances of the eight steps from 4-5 down to 1. The preview has lost its decimal points,
which are put back here, and the tolerance of grade 5, which is from memory; no second copy was
found.
"""

import numpy as np
import pytest

from yarncolor.colour.difference import grey_scale_difference, grey_scale_grade

STEPS = [  # grade, CIELAB difference, tolerance
    (5.0, 0.0, 0.2),
    (4.5, 0.8, 0.2),
    (4.0, 1.7, 0.3),
    (3.5, 2.5, 0.35),
    (3.0, 3.4, 0.4),
    (2.5, 4.8, 0.5),
    (2.0, 6.8, 0.6),
    (1.5, 9.6, 0.7),
    (1.0, 13.6, 1.0),
]
CLOSE = 0.03
"""How far the smooth formula of part A05 may lie from the steps of part A02, in grades."""


def grade_of_greys(lightness_1: float, lightness_2: float) -> float:
    one, two = np.array([lightness_1, 0.0, 0.0]), np.array([lightness_2, 0.0, 0.0])
    return float(grey_scale_grade(grey_scale_difference(one, two)))


@pytest.mark.parametrize(("step", "apart", "tolerance"), STEPS)
def test_two_greys_of_a_step_have_its_grade(step, apart, tolerance):
    assert grade_of_greys(40, 40 + apart) == pytest.approx(step, abs=CLOSE)


@pytest.mark.parametrize(("step", "apart", "tolerance"), STEPS)
def test_each_grade_is_met_inside_the_tolerance_of_its_step(step, apart, tolerance):
    better = grade_of_greys(40, 40 + max(0, apart - tolerance))
    worse = grade_of_greys(40, 40 + apart + tolerance)
    assert worse <= step <= better
    assert better > worse or step == 1
