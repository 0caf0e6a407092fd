"""Ply twist over singles' twist by four criteria of a yarn at rest: derived, no published figure.

Each is checked against what it asks for: a fibre's path in the yarn, the twist factor of the
resultant count, the single's angle against its helix's.
"""

from math import cos, isfinite, pi, radians, sin, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from yarncolor.yarn.balance import (
    CRITERIA,
    WORDS,
    balanced_tpm,
    equal_angles,
    equal_factor,
    equal_length,
    parallel_fibres,
)
from yarncolor.yarn.helix import Single, contraction, helix_angle_deg
from yarncolor.yarn.twist import twist_angle_deg, twist_factor

EQUAL_FACTOR = [(2, 0.707), (3, 0.577), (4, 0.500)]
PARALLEL_FIBRES = [(2, 0.500), (3, 0.464), (4, 0.414)]
EQUAL_ANGLES = [(10, 0.508), (20, 0.531), (30, 0.571)]  # of the helix, two plies
EQUAL_LENGTH = [(2, 0.667), (3, 0.545), (4, 0.400)]

ply_counts = st.integers(2, 8)
angles = st.floats(0.5, 40)
diameters = st.floats(0.05, 5)


def single_at(angle_deg: float, diameter_mm: float = 1.0) -> Single:
    return Single(diameter_mm, tan(radians(angle_deg)) / (pi * diameter_mm / 1000))


def slope_of_outermost_fibre(single: Single, plies: int, ply_tpm: float) -> float:
    """Return how far the outermost fibre slopes, from two points of its path in the yarn.

    The single is turned as a whole by the plying, the other way than it was spun.
    """
    fibre = single.diameter_mm / 2
    ring = fibre / sin(pi / plies)
    height_mm = np.array([-1e-4, 1e-4])
    place = -2 * pi * ply_tpm / 1000 * height_mm
    inside = 2 * pi * (single.twist_tpm - ply_tpm) / 1000 * height_mm
    across = ring * np.sin(place) + fibre * np.sin(inside)
    return float(np.diff(across)[0] / np.diff(height_mm)[0])


@pytest.mark.parametrize(("plies", "ratio"), EQUAL_FACTOR)
def test_the_same_twist_factor(plies, ratio):
    assert equal_factor(Single(0.8, 300.0), plies) / 300 == pytest.approx(ratio, abs=5e-4)


@pytest.mark.parametrize(("plies", "ratio"), PARALLEL_FIBRES)
def test_outermost_fibres_along_the_yarn(plies, ratio):
    assert parallel_fibres(Single(0.8, 300.0), plies) / 300 == pytest.approx(ratio, abs=5e-4)


@pytest.mark.parametrize(("helix", "ratio"), EQUAL_ANGLES)
def test_the_angle_of_the_single_is_that_of_its_helix(helix, ratio):
    ply_tpm = tan(radians(helix)) / (pi / 1000)
    spun_tpm = ply_tpm * (1 + cos(radians(helix)) ** 2)
    assert equal_angles(Single(1.0, spun_tpm), 2) / spun_tpm == pytest.approx(ratio, abs=5e-4)


@pytest.mark.parametrize(("plies", "ratio"), EQUAL_LENGTH)
def test_nothing_lost_in_plying(plies, ratio):
    single = single_at(0.5)
    assert equal_length(single, plies) / single.twist_tpm == pytest.approx(ratio, abs=1e-3)


@given(st.floats(1, 2000), ply_counts, st.floats(5, 2000))
def test_single_and_yarn_have_one_twist_factor_by_their_tex(turns, plies, tex):
    yarn = twist_factor(equal_factor(Single(0.5, turns), plies), plies * tex)
    assert yarn == pytest.approx(twist_factor(turns, tex), rel=1e-12)


@given(st.floats(0.5, 40), ply_counts, diameters)
def test_the_path_of_the_outermost_fibre_runs_along_the_yarn(angle, plies, diameter):
    single = single_at(angle, diameter)
    found = parallel_fibres(single, plies)
    spun = slope_of_outermost_fibre(single, plies, 0.0)
    assert abs(slope_of_outermost_fibre(single, plies, found)) < 1e-6 * abs(spun) + 1e-9
    less, more = (slope_of_outermost_fibre(single, plies, found * by) for by in (0.9, 1.1))
    assert less * more < 0


@given(angles, ply_counts, diameters)
def test_the_angle_left_in_the_single_is_its_helix_angle(angle, plies, diameter):
    single = single_at(angle, diameter)
    found = equal_angles(single, plies)
    beta = helix_angle_deg(diameter / 2 / sin(pi / plies), found)
    left = single.twist_tpm - found * cos(radians(beta)) ** 2
    assert twist_angle_deg(left, diameter) == pytest.approx(beta, rel=1e-9)


@given(angles, ply_counts)
def test_equal_angles_are_found_by_another_search_too(angle, plies):
    single, ring = single_at(angle), 1 / sin(pi / plies)

    def apart(ratio: float) -> float:
        helix = ring * ratio * tan(radians(angle))
        return ratio * (ring + 1 / (1 + helix**2)) - 1

    expected = brentq(apart, 0, 1)
    assert equal_angles(single, plies) / single.twist_tpm == pytest.approx(expected, rel=1e-9)


@given(angles, ply_counts, diameters)
def test_every_criterion_asks_for_some_twist_and_for_less_than_the_single_s(angle, plies, diameter):
    single = single_at(angle, diameter)
    found = balanced_tpm(single, plies)
    assert set(found) == set(CRITERIA) - ({"self_plied"} if plies > 2 else set())
    assert all(isfinite(twist) for twist in found.values())
    assert all(0 < twist < single.twist_tpm for twist in found.values())


@given(angles, st.integers(2, 7))
def test_more_plies_ask_for_less_twist(angle, plies):
    """By geometry, that is; the spinners' rule knows one number."""
    single = single_at(angle)
    for of in (equal_factor, parallel_fibres, equal_angles, equal_length):
        assert of(single, plies + 1) < of(single, plies)


@given(angles, ply_counts, st.floats(0.05, 20))
def test_singles_of_one_angle_have_the_same_ratios(angle, plies, larger):
    small, large = single_at(angle), single_at(angle, larger)
    for name, twist in balanced_tpm(small, plies).items():
        scaled = balanced_tpm(large, plies)[name] / large.twist_tpm
        assert scaled == pytest.approx(twist / small.twist_tpm, rel=1e-7)


def test_equal_angles_are_parallel_fibres_while_angles_are_small():
    for plies in range(2, 9):
        single = single_at(0.1)
        ratio = equal_angles(single, plies) / parallel_fibres(single, plies)
        assert ratio == pytest.approx(1, abs=1e-4)
        assert ratio > 1


def test_of_two_plies_the_criteria_range_from_a_half_to_nearly_all():
    """None is exact: at 20° they differ by more than 0.3 of the singles' twist."""
    single = single_at(20)
    ratios = [twist / single.twist_tpm for twist in balanced_tpm(single, 2).values()]
    assert min(ratios) == pytest.approx(0.5, abs=1e-9)
    assert max(ratios) == pytest.approx(0.857, abs=5e-4)


def test_every_criterion_has_words():
    assert set(WORDS) == set(CRITERIA)
    assert len(set(WORDS.values())) == len(WORDS)


@pytest.mark.parametrize("plies", [2, 3, 6, 12])
@pytest.mark.parametrize("angle", [1, 30, 60, 75, 85, 88])
def test_however_steep_the_single_there_is_a_twist_at_which_nothing_is_lost(plies, angle):
    """A trace of ply twist always makes the yarn longer than its singles: they untwist at once, and
    the helix takes up its length only by the square of the twist."""
    single = single_at(angle)
    found = equal_length(single, plies)
    assert isfinite(found)
    assert contraction(single, plies, found) == pytest.approx(0, abs=1e-9)
    assert contraction(single, plies, found / 2) < 0 < contraction(single, plies, found * 1.1)
