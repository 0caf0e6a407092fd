"""A single that is let go and plies itself: elastic rods; cf. W. B. Fraser and D. M. Stump, 1998
(from memory, no open copy found). The energy C (tan α - sin β cos β)² + B sin⁴ β and its minima are
derived.

The least energy is found here by trying every angle, and again by scipy.
"""

from math import degrees, isfinite, isnan, pi, radians, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from yarncolor.yarn.balance import STIFFNESS_RATIO, balanced_tpm, self_plied
from yarncolor.yarn.helix import Single, helix_angle_deg

MINIMA = [(1.3, 0.857), (4.0, 0.691)]  # bending over torsion, ply twist over twist at 20°; derived

angles = st.floats(0.5, 45)
stiffnesses = st.floats(0.2, 20)


def single_at(angle_deg: float, diameter_mm: float = 1.0) -> Single:
    return Single(diameter_mm, tan(radians(angle_deg)) / (pi * diameter_mm / 1000))


def ratio(angle_deg: float, stiffness: float) -> float:
    single = single_at(angle_deg)
    return self_plied(single, 2, stiffness) / single.twist_tpm


def energy(beta: np.ndarray, angle_deg: float, stiffness: float) -> np.ndarray:
    torsion = tan(radians(angle_deg)) - np.sin(beta) * np.cos(beta)
    return torsion**2 + stiffness * np.sin(beta) ** 4


@pytest.mark.parametrize(("stiffness", "expected"), MINIMA)
def test_a_single_of_twenty_degrees(stiffness, expected):
    assert ratio(20, stiffness) == pytest.approx(expected, abs=5e-4)


@pytest.mark.parametrize("stiffness", [0.2, 0.5, 1.0, 1.3, 2.0, 4.0, 10.0])
def test_no_angle_of_all_has_less_energy(stiffness):
    beta = np.linspace(0, pi / 2, 200_001)
    for angle in range(1, 61):
        single = single_at(angle)
        found = helix_angle_deg(0.5, self_plied(single, 2, stiffness))
        best = beta[energy(beta, angle, stiffness).argmin()]
        assert found == pytest.approx(degrees(best), abs=0.002)


@given(angles, stiffnesses)
def test_scipy_finds_the_same_angle(angle, stiffness):
    least = minimize_scalar(
        lambda beta: energy(beta, angle, stiffness), bounds=(0, pi / 2), method="bounded",
        options={"xatol": 1e-10},
    )  # fmt: skip
    found = helix_angle_deg(0.5, self_plied(single_at(angle), 2, stiffness))
    assert found == pytest.approx(degrees(least.x), abs=1e-4)


@given(angles, stiffnesses, st.floats(1.05, 5))
def test_a_single_that_bends_less_easily_plies_itself_with_fewer_turns(angle, stiffness, stiffer):
    assert ratio(angle, stiffness * stiffer) < ratio(angle, stiffness)


@given(angles, stiffnesses, st.floats(1.05, 2))
def test_a_harder_spun_single_plies_itself_with_more_turns(angle, stiffness, more):
    single = single_at(angle)
    harder = Single(1.0, single.twist_tpm * more)
    assert self_plied(harder, 2, stiffness) > self_plied(single, 2, stiffness)


@given(angles, stiffnesses, st.floats(0.05, 10))
def test_singles_of_one_angle_have_one_ratio(angle, stiffness, diameter):
    single = single_at(angle, diameter)
    found = self_plied(single, 2, stiffness) / single.twist_tpm
    assert found == pytest.approx(ratio(angle, stiffness), rel=1e-9)


def test_while_angles_are_small_bending_costs_nothing():
    assert ratio(0.1, 1.3) == pytest.approx(1, abs=1e-4)
    assert ratio(0.1, 20) == pytest.approx(1, abs=1e-3)


@pytest.mark.parametrize("stiffness", [0.2, 0.5, 1.0, 1.3, 4.0, 10.0])
def test_the_first_step_away_from_that_is_the_series_of_the_energy(stiffness):
    """1 + (1 - 2 B/C) tan² α: above 1 for a rod that bends more easily than half its torsion."""
    for angle in (1.0, 1.5, 2.0):
        squared = tan(radians(angle)) ** 2
        first = (ratio(angle, stiffness) - 1) / squared
        assert first == pytest.approx(1 - 2 * stiffness, abs=15 * (1 + stiffness) ** 2 * squared)


def test_a_solid_rod_is_assumed_unless_said_otherwise():
    single = single_at(20)
    assert STIFFNESS_RATIO == 1.3
    assert self_plied(single, 2) == self_plied(single, 2, 1.3)


@pytest.mark.parametrize("plies", [3, 4, 5, 6])
def test_of_more_than_two_plies_the_theory_says_nothing(plies):
    single = single_at(20)
    assert isnan(self_plied(single, plies))
    assert "self_plied" not in balanced_tpm(single, plies)
    assert isfinite(balanced_tpm(single, 2)["self_plied"])
