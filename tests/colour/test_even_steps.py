"""Even carded steps: the largest at most a tenth above the smallest, for any two lots."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.colour.even_steps import EVEN, even_fractions, plain_fractions, step_sizes

colour = st.tuples(st.floats(15, 90), st.floats(-25, 25), st.floats(-25, 25))


@given(colour, colour, st.integers(1, 12))
def test_even_steps_are_even(one, other, steps):
    lab = np.array([one, other])
    fractions = even_fractions(lab, steps)
    sizes = step_sizes(fractions, lab)
    assert (np.diff(fractions) > 0).all()
    assert fractions[0] > 0
    assert fractions[-1] < 1
    if sizes.sum() > 2 * (steps + 1):
        assert sizes.max() <= EVEN * sizes.min()


@pytest.mark.parametrize("steps", [1, 3, 5, 8, 12])
@pytest.mark.parametrize(
    "lab", [[[95.0, 0, 0], [12.0, 0, 0]], [[80.0, 5, 40], [35.0, -2, -25]]], ids=["grey", "colour"]
)
def test_steps_far_apart_are_evened_out_to_a_hundredth(lab, steps):
    sizes = step_sizes(even_fractions(np.array(lab), steps), np.array(lab))
    assert sizes.max() <= 1.01 * sizes.min()


def test_dark_into_light_takes_little_dark():
    """Fibres shade one another: half way to the eye is far less than half by mass."""
    light_to_dark = np.array([[90.0, 0, 5], [20.0, 0, 0]])
    (half,) = even_fractions(light_to_dark, 1)
    assert half < 0.35


def test_plain_steps_of_light_into_dark_are_far_from_even():
    sizes = step_sizes(plain_fractions(5), np.array([[90.0, 0, 5], [20.0, 0, 0]]))
    assert sizes.max() > 3 * sizes.min()


def test_turning_the_lots_round_turns_the_fractions_round():
    lab = np.array([[80.0, 5, 40], [35.0, -2, -25]])
    there, back = even_fractions(lab, 5), even_fractions(lab[::-1], 5)
    np.testing.assert_allclose(there, 1 - back[::-1], atol=0.02)


def test_two_lots_of_one_colour_are_mixed_in_even_parts():
    lab = np.array([[50.0, 10, 10], [50.0, 10, 10]])
    np.testing.assert_allclose(even_fractions(lab, 3), [0.25, 0.5, 0.75])


@pytest.mark.parametrize("steps", [0, 21])
def test_a_number_of_steps_outside_its_range_is_refused(steps):
    with pytest.raises(ValueError, match="give 1 to 20 steps"):
        even_fractions(np.array([[80.0, 0, 0], [20.0, 0, 0]]), steps)
