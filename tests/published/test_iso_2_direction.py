"""The direction of twist: ISO 2, S and Z by the slope of the letter's middle stroke (as read)."""

from math import atan2, cos, pi, sin

import pytest

from yarncolor.yarn.twist import opposite


def letter_of_helix(turn: int) -> str:
    """Return the letter that a helix shows in front, drawn upright; it turns by +1 or -1."""
    angle = -pi / 2  # nearest to the eye, which looks along +y
    (left, low), (right, high) = ((cos(angle + turn * 0.1 * z), z) for z in (-1.0, 1.0))
    assert sin(angle) == -1
    return "Z" if 0 < atan2(high - low, right - left) < pi / 2 else "S"


@pytest.mark.parametrize("turn", [1, -1])
def test_a_helix_seen_in_a_mirror_has_the_other_letter(turn):
    assert opposite(letter_of_helix(turn)) == letter_of_helix(-turn)


def test_the_other_of_the_other_is_the_same():
    assert opposite("S") == "Z"
    assert opposite("Z") == "S"
