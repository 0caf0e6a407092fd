"""The shortest of equal plies: L. H. C. Tippett, Biometrika 17, 1925, 364: ranges of normal
samples, tabled ever since as the control charts' d2; from memory. The shortest lies half a range
below the mean. A second witness: the density of the least of so many, integrated.

Of two unequal lengths C. E. Clark, Operations Research 9, 1961, 145, has the mean (from memory).
"""

from math import erf, exp, pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from yarncolor.answers.spread import expected_shortest

RANGES = [  # Tippett 1925, from memory
    (2, 1.128), (3, 1.693), (4, 2.059), (5, 2.326), (6, 2.534),
    (7, 2.704), (8, 2.847), (9, 2.970), (10, 3.078),
]  # fmt: skip
STEP = 0.01
"""The package's grid, in SD; half of it is how far a length without SD may be missed."""
means = st.floats(50, 500)
deviations = st.floats(0.1, 50)


def shortest_constant(plies: int) -> float:
    """Return SD below the mean by the package."""
    return -expected_shortest(np.zeros(plies), np.ones(plies))


def mean_shortest(plies: int) -> float:
    """Return SD below the mean by the density of the least of so many, integrated."""

    def below(z: float) -> float:
        return -z * plies * norm.pdf(z) * norm.sf(z) ** (plies - 1)

    return quad(below, -12, 12, limit=200)[0]


def clark(one: tuple[float, float], other: tuple[float, float]) -> float:
    """Return the expected shorter of two independent normal lengths (mean, SD)."""
    spread = sqrt(one[1] ** 2 + other[1] ** 2)
    away = (other[0] - one[0]) / spread
    below = (1 + erf(away / sqrt(2))) / 2
    density = exp(-(away**2) / 2) / sqrt(2 * pi)
    return one[0] * below + other[0] * (1 - below) - spread * density


@pytest.mark.parametrize(("plies", "apart"), RANGES)
def test_the_longest_and_the_shortest_lie_a_tabled_range_apart(plies, apart):
    assert 2 * shortest_constant(plies) == pytest.approx(apart, abs=6e-4)


@pytest.mark.parametrize("plies", range(1, 41))
def test_another_integral_finds_the_same_constant(plies):
    assert shortest_constant(plies) == pytest.approx(mean_shortest(plies), abs=1e-6)


@given(st.tuples(means, deviations), st.tuples(means, deviations))
def test_of_two_unequal_lengths_the_published_mean_is_met(one, other):
    mean, sd = np.transpose([one, other])
    found = expected_shortest(mean, sd)
    assert found == pytest.approx(clark(one, other), abs=STEP / 2 * sd.max())


@given(means, st.tuples(means, deviations))
def test_a_length_that_is_known_is_one_without_deviation(known, other):
    found = expected_shortest(np.array([known, other[0]]), np.array([0.0, other[1]]))
    assert found == pytest.approx(clark((known, 0.0), other), abs=STEP / 2 * other[1] + 1e-9)
