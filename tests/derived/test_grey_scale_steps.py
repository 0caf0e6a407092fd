"""What the steps of a grey scale imply for greys and for any two colours."""

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


def grade_of_greys(lightness_1: float, lightness_2: float) -> float:
    one, two = np.array([lightness_1, 0.0, 0.0]), np.array([lightness_2, 0.0, 0.0])
    return float(grey_scale_grade(grey_scale_difference(one, two)))


def test_twice_the_difference_is_a_whole_grade_worse_from_three_down():
    """As the steps 3.4, 6.8 and 13.6 are."""
    for apart in np.linspace(3.4, 6.8, 35):
        assert grade_of_greys(20, 20 + 2 * apart) == pytest.approx(
            grade_of_greys(20, 20 + apart) - 1
        )


def test_how_light_the_pair_is_does_not_matter_to_greys():
    for _, apart, _ in STEPS:
        found = {round(grade_of_greys(light, light + apart), 9) for light in np.arange(0, 86, 0.5)}
        assert len(found) == 1


def test_any_two_colours_have_a_grade_from_one_to_five():
    rng = np.random.default_rng(105)
    one, two = (rng.random((20_000, 3)) * [100, 256, 256] - [0, 128, 128] for _ in range(2))
    grades = grey_scale_grade(grey_scale_difference(one, two))
    assert grades.min() == 1
    assert grades.max() <= 5
    assert (grey_scale_grade(grey_scale_difference(one, one)) == 5).all()
