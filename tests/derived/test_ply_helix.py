"""A ply's centre line on its helix: derived from tan β = 2π R U, no published figure.

Beside it the curve itself, cut into short straight pieces, and the cylinder unrolled.
"""

from math import hypot, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.units import tpm
from yarncolor.yarn.helix import (
    helix_angle_deg,
    helix_contraction,
    ply_helix_radius_mm,
    ply_spacing_mm,
)

HELICES = [  # plies of 1 mm, 100 turns/m: degrees, single in a metre of yarn, per cent shorter
    (2, 17.441, 1.048187, 4.597),
    (3, 19.939, 1.063764, 5.994),
    (4, 23.955, 1.094254, 8.614),
]

radii = st.floats(0.02, 5)
twists = st.floats(1, 1500)


def metres_of_single(radius_mm: float, twist_tpm: float) -> float:
    """Return metres of single in a metre of yarn, by adding up short pieces of one turn."""
    turn = np.linspace(0, 2 * pi, 5001)
    curve = [np.cos(turn) * radius_mm, np.sin(turn) * radius_mm, turn / (2 * pi) * 1000 / twist_tpm]
    return np.sqrt((np.diff(curve, axis=1) ** 2).sum(axis=0)).sum() * twist_tpm / 1000


@pytest.mark.parametrize(("plies", "angle", "length", "per_cent"), HELICES)
def test_plies_of_a_millimetre_at_a_hundred_turns(plies, angle, length, per_cent):
    ring = ply_helix_radius_mm((0.5,) * plies)
    found = helix_angle_deg(ring, 100)
    assert found == pytest.approx(angle, abs=5e-4)
    assert 1 / (1 - helix_contraction(found)) == pytest.approx(length, abs=1e-6)
    assert 100 * helix_contraction(found) == pytest.approx(per_cent, abs=5e-4)


@pytest.mark.parametrize("plies", range(2, 9))
@pytest.mark.parametrize("twist", [5, 30, 100, 250, 600])
def test_the_curve_is_as_long_as_its_angle_says(plies, twist):
    ring = ply_helix_radius_mm((0.4,) * plies)
    share = helix_contraction(helix_angle_deg(ring, twist))
    assert 1 / (1 - share) == pytest.approx(metres_of_single(ring, twist), rel=1e-6)


@given(radii, twists)
def test_a_turn_unrolled_is_a_right_triangle(radius, twist):
    rise, girth = 1000 / twist, 2 * pi * radius
    share = helix_contraction(helix_angle_deg(radius, twist))
    assert 1 - share == pytest.approx(rise / hypot(rise, girth), rel=1e-12)


@given(radii, twists, st.floats(1.001, 10))
def test_more_ply_twist_or_a_wider_ring_never_makes_a_longer_yarn(radius, twist, more):
    share = helix_contraction(helix_angle_deg(radius, twist))
    assert 0 <= share <= helix_contraction(helix_angle_deg(radius, twist * more)) < 1
    wider = helix_contraction(helix_angle_deg(radius * more, twist))
    assert wider == pytest.approx(helix_contraction(helix_angle_deg(radius, twist * more)))


@given(st.floats(0.05, 2), st.integers(2, 11), twists)
def test_of_like_singles_more_plies_lose_more(thick, plies, twist):
    one, more = (
        helix_contraction(helix_angle_deg(ply_helix_radius_mm((thick / 2,) * count), twist))
        for count in (plies, plies + 1)
    )
    assert one < more


def test_no_twist_or_no_ring_takes_nothing():
    assert helix_contraction(helix_angle_deg(0.7, 0.0)) == 0
    assert helix_contraction(helix_angle_deg(ply_helix_radius_mm((0.5,)), 300.0)) == 0


def test_a_little_twist_takes_half_the_square_of_the_angle():
    for twist in (0.1, 1.0, 5.0):
        slope = 2 * pi * 0.5 / 1000 * twist
        assert helix_contraction(helix_angle_deg(0.5, twist)) == pytest.approx(
            slope**2 / 2, rel=1e-3
        )


def test_two_plies_at_four_turns_to_the_inch_show_stripes_of_three_millimetres():
    """6.35 mm from one colour to itself, 3.175 mm from ply to ply; derived."""
    assert ply_spacing_mm(tpm(4), 2) == pytest.approx(3.175, abs=5e-4)
    assert ply_spacing_mm(tpm(4), 1) == pytest.approx(6.35, abs=5e-3)


@pytest.mark.parametrize("plies", range(1, 9))
def test_stripes_seen_along_a_side_are_as_far_apart_as_said(plies):
    """Each ply passes the side at a height of its own: counted along a metre."""
    for twist in (40.0, 157.48, 333.0):
        turns = np.arange(0, 400)
        passes = np.sort(np.concatenate([(turns + at / plies) / twist for at in range(plies)]))
        seen = passes[passes < 1.0]
        assert np.diff(seen).mean() * 1000 == pytest.approx(ply_spacing_mm(twist, plies), rel=1e-9)
        assert np.diff(seen).std() < 1e-12


@given(st.floats(1, 1500), st.integers(1, 12))
def test_a_turn_holds_one_stripe_of_each_ply(twist, plies):
    assert ply_spacing_mm(twist, plies) * plies * twist == pytest.approx(1000, rel=1e-12)
