"""What is left of a single's twist, derived from turning it rigidly."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.helix import Single, helix_angle_deg, left_in_single_tpm

angles = st.floats(0.5, 60)
twists = st.floats(1, 2000)


@given(angles, twists, twists)
def test_plied_one_way_it_loses_what_it_gains_the_other_way(angle, twist, in_single):
    lost = left_in_single_tpm(Single(1.0, in_single), angle, twist)
    won = left_in_single_tpm(Single(1.0, in_single, opposed=False), angle, twist)
    assert (lost + won) / 2 == pytest.approx(in_single, rel=1e-12)
    assert won > in_single > lost


@given(twists, twists)
def test_flat_on_the_axis_turns_are_turns(twist, in_single):
    assert left_in_single_tpm(Single(1.0, in_single), 0.0, twist) == in_single - twist


@given(st.floats(0.05, 2), st.floats(1, 400), st.floats(1.01, 2))
def test_more_ply_twist_at_moderate_angles_leaves_less_in_the_single(radius, twist, more):
    """U cos² β rises with U only up to 45°: beyond, the coils take up more than is put in."""

    def left(turns: float) -> float:
        return left_in_single_tpm(Single(1.0, 0.0), helix_angle_deg(radius, turns), turns)

    steepest = helix_angle_deg(radius, twist * more)
    if steepest <= 45:
        assert left(twist * more) < left(twist)
    at_45 = 1000 / (2 * pi * radius)
    assert left(at_45) == pytest.approx(-at_45 / 2, rel=1e-12)
    assert left(at_45 * 1.2) > left(at_45) < left(at_45 / 1.2)
