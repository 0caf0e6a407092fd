"""Which ply of a yarn is in front, derived: touching circles on a ring, looked at along a line.

Beside the formula stands a line of sight that goes down in small steps until it meets a circle.
"""

import numpy as np
import pytest

from yarncolor.colour.plied_stripes import _along, _places, ply_in_front

STEP = 2e-4


def seen_along(plies: int, turn: float, height: float) -> int | None:
    """Return the ply that a line of sight at a height meets first; None for one that meets none."""
    radius = 0.5 * np.sin(np.pi / plies) / (1 + np.sin(np.pi / plies))
    angle = 2 * np.pi * (turn - np.arange(plies) / plies)
    beside, ahead = (0.5 - radius) * np.sin(angle), (0.5 - radius) * np.cos(angle)
    depth = np.arange(0.5, -0.5, -STEP)[:, None]
    meets = (height - beside) ** 2 + (depth - ahead) ** 2 <= radius**2
    met = np.flatnonzero(meets.any(axis=1))
    return int(meets[met[0]].argmax()) if len(met) else None


@pytest.mark.parametrize("plies", range(2, 7))
def test_the_ply_in_front_is_the_one_that_a_line_of_sight_meets_first(plies):
    dice = np.random.default_rng(plies)
    turns, heights = dice.uniform(-1, 1, 150), dice.uniform(-0.55, 0.55, 150)
    ply, is_there = ply_in_front(plies, turns, heights)
    met = [seen_along(plies, *place) for place in zip(turns, heights, strict=True)]
    found = [int(one) if there else None for one, there in zip(ply, is_there, strict=True)]
    assert sum(a != b for a, b in zip(found, met, strict=True)) <= 1  # a ray between two


def test_at_no_turn_the_first_ply_is_in_front_and_half_a_turn_on_the_second():
    assert ply_in_front(2, np.array([0.0, 0.5, 1.0]), np.zeros(3))[0].tolist() == [0, 1, 0]
    assert ply_in_front(2, np.array([0.25, 0.25]), np.array([0.4, -0.4]))[0].tolist() == [0, 1]


@pytest.mark.parametrize("spread", [0.01, 0.5, 3.2, 29.9])
@pytest.mark.parametrize("apart", [1.0, 2.0])
def test_threads_are_reckoned_on_both_sides_as_far_as_an_eye_blurs(spread, apart):
    """To twice the width at which a Gaussian has fallen to 1/e: e⁻⁴ of it is left there."""
    places = _places(spread, apart)
    assert np.diff(places) == pytest.approx(np.full(len(places) - 1, apart))
    assert places.tolist() == (-places[::-1]).tolist()
    assert places[-1] - apart < 2 * spread <= places[-1]


def test_threads_are_reckoned_up_to_sixty_away():
    assert _places(1e6, 2.0)[[0, -1]].tolist() == [-120, 120]


def test_a_leg_of_a_stitch_is_looked_at_from_its_middle():
    """What lies ahead weighs as what lies behind, and turns the other way: conjugates."""
    seen = _along(np.array([0.1, 0.3]), 0.5, 0.5, "knitted")
    np.testing.assert_allclose(seen, seen[:, ::-1].conj(), atol=1e-12)
