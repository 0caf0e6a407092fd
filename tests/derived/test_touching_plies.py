"""Where touching plies lie: rings of circles, derived; and their correction for the slope of the
helix, the problem of S. Neukirch and G. H. M. van der Heijden, Journal of Elasticity, 2002 (from
memory; the numbers are derived).

Beside the rings stand the circles themselves, laid out one after the other; beside the slopes
the nearest approach of two helices, found by search.
"""

from itertools import combinations, pairwise
from math import asin, cos, hypot, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from yarncolor.yarn.helix import ply_helix_radius_mm

RINGS = [  # plies, ring over radius, envelope over diameter, solid over diameter
    (2, 1.0000, 2.0000, 1.4142),
    (3, 1.1547, 2.1547, 1.7321),
    (4, 1.4142, 2.4142, 2.0000),
    (5, 1.7013, 2.7013, 2.2361),
    (6, 2.0000, 3.0000, 2.4495),
]
WRAPS = [  # plies, wraps of the yarn over those of its single: by envelope, solid
    (2, 0.500, 0.707),
    (3, 0.464, 0.577),
    (4, 0.414, 0.500),
    (5, 0.370, 0.447),
    (6, 0.333, 0.408),
]
SLOPED = [  # plies, degrees, ring over radius
    (3, 10, 1.1593),
    (3, 20, 1.1756),
    (3, 30, 1.2146),
    (4, 10, 1.4253),
    (4, 20, 1.4632),
    (4, 30, 1.5439),
]

radius = st.floats(0.05, 3)
unequal = st.lists(radius, min_size=2, max_size=8)


def sloped_ring(plies: int, angle_deg: float) -> float:
    """Return the ring, over a ply's radius, at which neighbouring helices just touch."""
    turn = np.linspace(-2 * pi, 2 * pi, 400_001)
    rise = turn / tan(radians(angle_deg))
    apart = 2 - 2 * np.cos(turn + 2 * pi / plies) + rise**2
    return 2 / sqrt(apart.min())


def laid_out(radii: list[float]) -> np.ndarray:
    """Return centres on the ring, each neighbour as far round as touching takes it."""
    ring = ply_helix_radius_mm(radii)
    steps = [
        2 * asin(min(1, (one + other) / (2 * ring))) for one, other in pairwise((*radii, radii[0]))
    ]
    round_it = np.concatenate([[0], np.cumsum(steps)])
    return np.stack([ring * np.cos(round_it), ring * np.sin(round_it)], axis=1)


@pytest.mark.parametrize(("plies", "ring", "envelope", "solid"), RINGS)
def test_equal_plies_that_touch(plies, ring, envelope, solid):
    found = ply_helix_radius_mm((1.0,) * plies)
    assert found == pytest.approx(ring, abs=5e-5)
    assert (found + 1) / 1 == pytest.approx(envelope, abs=5e-5)
    assert sqrt(plies) == pytest.approx(solid, abs=5e-5)


@pytest.mark.parametrize(("plies", "by_envelope", "solid"), WRAPS)
def test_a_yarn_lies_less_often_in_an_inch_than_its_single(plies, by_envelope, solid):
    """Between the ring's envelope and one solid strand of the same area."""
    envelope = 1 / (1 + ply_helix_radius_mm((1.0,) * plies))
    assert envelope == pytest.approx(by_envelope, abs=5e-4)
    assert envelope < solid == pytest.approx(1 / sqrt(plies), abs=5e-4)


@pytest.mark.parametrize("plies", range(2, 41))
def test_equal_plies_close_their_ring_like_a_regular_polygon(plies):
    ring = ply_helix_radius_mm((0.35,) * plies)
    corner = np.exp(2j * pi * np.arange(plies) / plies) * ring
    assert np.abs(np.diff(corner)) == pytest.approx(0.7, rel=1e-12)


@given(radius, st.integers(2, 12))
def test_nearly_equal_plies_have_nearly_the_ring_of_equal_ones(r, plies):
    """The two ways of finding it meet."""
    nearly = [r * (1 + 1e-9)] + [r] * (plies - 1)
    assert ply_helix_radius_mm(nearly) == pytest.approx(r / sin(pi / plies), rel=1e-8)
    assert ply_helix_radius_mm([r] * plies) == pytest.approx(r / sin(pi / plies), rel=1e-12)


@given(radius, radius)
def test_two_plies_lie_on_either_side_of_their_touch(one, other):
    assert ply_helix_radius_mm((one, other)) == pytest.approx((one + other) / 2, rel=1e-12)


def test_one_ply_lies_on_the_axis():
    assert ply_helix_radius_mm((0.7,)) == 0


@given(unequal)
def test_neighbours_on_the_ring_touch_or_thicker_plies_hold_them_apart(radii):
    """Round once where neighbours touch; less where plies that are no neighbours fill the ring."""
    ring = ply_helix_radius_mm(radii)
    chords = [one + other for one, other in pairwise((*radii, radii[0]))]
    assert ring >= sum(sorted(radii)[-2:]) / 2 * (1 - 1e-12)
    round_once = sum(2 * asin(min(1, chord / (2 * ring))) for chord in chords)
    assert round_once <= 2 * pi * (1 + 1e-6)
    centres = laid_out(radii)
    if round_once > 2 * pi * (1 - 1e-12) and ring > max(chords) / 2 * (1 + 1e-9):
        assert np.linalg.norm(np.diff(centres, axis=0), axis=1) == pytest.approx(chords, rel=1e-9)
        assert centres[-1] == pytest.approx(centres[0], abs=1e-6 * ring)


@given(st.tuples(radius, radius, radius))
def test_three_unequal_plies_lie_on_the_circle_round_their_triangle(radii):
    """a b c / 4 A of the triangle of centres, by Heron; unless it is obtuse."""
    sides = sorted(a + b for a, b in combinations(radii, 2))
    assume(sides[2] ** 2 < 0.999 * (sides[0] ** 2 + sides[1] ** 2))
    half = sum(sides) / 2
    area = sqrt(half * (half - sides[0]) * (half - sides[1]) * (half - sides[2]))
    expected = sides[0] * sides[1] * sides[2] / (4 * area)
    assert ply_helix_radius_mm(radii) == pytest.approx(expected, rel=1e-9)


@given(unequal, st.integers(0, 7))
def test_where_the_round_begins_and_which_way_it_goes_do_not_matter(radii, by):
    turned = radii[by % len(radii) :] + radii[: by % len(radii)]
    expected = ply_helix_radius_mm(radii)
    assert ply_helix_radius_mm(turned) == pytest.approx(expected, rel=1e-12)
    assert ply_helix_radius_mm(radii[::-1]) == pytest.approx(expected, rel=1e-12)


@given(unequal, st.floats(0.01, 100))
def test_a_yarn_twice_as_thick_has_a_ring_twice_as_wide(radii, larger):
    found = ply_helix_radius_mm([larger * r for r in radii])
    assert found == pytest.approx(larger * ply_helix_radius_mm(radii), rel=1e-9)


@given(unequal, st.integers(0, 7), st.floats(1.001, 3))
def test_a_thicker_ply_never_makes_a_narrower_ring(radii, which, thicker):
    before = ply_helix_radius_mm(radii)
    radii[which % len(radii)] *= thicker
    assert ply_helix_radius_mm(radii) >= before * (1 - 1e-12)


def test_a_thin_ply_lies_in_the_groove_between_two_thick_ones():
    """The thick ones touch across the axis, and the thin one has more room than it needs."""
    assert ply_helix_radius_mm((1.0, 1.0, 0.1)) == pytest.approx(1.0, rel=1e-12)
    assert hypot(1.0, 1.0) > 1.0 + 0.1


@pytest.mark.parametrize("thin", [0.1, 0.3, 0.5, 0.8])
def test_no_two_plies_of_a_thick_and_thin_four_ply_share_their_room(thin):
    """Thick, thin, thick, thin: the two thick ones lie across from each other, 2 R apart."""
    assert ply_helix_radius_mm((1.0, thin, 1.0, thin)) >= 1.0 - 1e-12


@pytest.mark.parametrize(("plies", "angle", "ring"), SLOPED)
def test_sloping_plies_need_a_wider_ring(plies, angle, ring):
    """The package lays plies end on, and so is up to 2 % and 3.5 % short at 20°."""
    assert sloped_ring(plies, angle) == pytest.approx(ring, abs=5e-5)
    short = ring / ply_helix_radius_mm((1.0,) * plies) - 1
    assert short > 0
    if angle <= 20:
        assert short < {3: 0.02, 4: 0.035}[plies]


@pytest.mark.parametrize("plies", range(2, 7))
def test_the_less_plies_slope_the_better_is_the_ring_seen_end_on(plies):
    end_on = ply_helix_radius_mm((1.0,) * plies)
    sloped = [sloped_ring(plies, angle) for angle in (1, 5, 10, 15, 20, 25, 30)]
    assert sloped[0] == pytest.approx(end_on, rel=1e-3)
    assert all(one <= other + 1e-12 for one, other in pairwise([end_on, *sloped]))
    assert sloped[-1] < end_on / cos(radians(30)) + 1e-9


def test_two_plies_touch_across_the_axis_up_to_forty_five_degrees():
    for angle in range(1, 46):
        assert sloped_ring(2, angle) == pytest.approx(ply_helix_radius_mm((1.0, 1.0)), abs=1e-9)
    assert sloped_ring(2, 50) > 1.001
