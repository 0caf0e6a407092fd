"""The shortest of equal plies: L. H. C. Tippett, Biometrika 17, 1925, 364 (citation from memory):
ranges of normal samples, tabled ever since as the control charts' d2; here as read in the table of
Shewhart's constants beside E. L. Cano, J. M. Moguerza and A. Redchuk, Six Sigma with R, 2012. The
shortest lies half a range below the mean. A second witness: the density of the least of so many,
integrated.

Of two unequal lengths C. E. Clark, The greatest of a finite set of random variables, Operations
Research 9, 1961, 145 (abstract read), has the mean; as read in later work on the timing of
circuits, and integrated here.
"""

from math import erf, exp, pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from yarncolor.answers.spread import expected_shortest

RANGES = [  # d2, as read
    (2, 1.1284), (3, 1.6926), (4, 2.0588), (5, 2.3259), (6, 2.5344), (7, 2.7044),
    (8, 2.8472), (9, 2.9700), (10, 3.0775), (11, 3.1729), (12, 3.2585), (24, 3.8953),
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
    assert 2 * shortest_constant(plies) == pytest.approx(apart, abs=6e-5)


@pytest.mark.parametrize("plies", range(1, 41))
def test_another_integral_finds_the_same_constant(plies):
    assert shortest_constant(plies) == pytest.approx(mean_shortest(plies), abs=1e-6)


@pytest.mark.oracle
@pytest.mark.parametrize(
    ("one", "other"), [((100, 5), (100, 5)), ((100, 5), (108, 20)), ((90, 30), (250, 1))]
)
def test_the_published_mean_is_the_density_of_the_shorter_integrated(one, other):
    def density(length: float) -> float:
        first, second = norm(*one), norm(*other)
        shorter = first.pdf(length) * second.sf(length) + second.pdf(length) * first.sf(length)
        return length * float(shorter)

    expected = quad(density, -200, 500, limit=400, points=[one[0], other[0]])[0]
    assert clark(one, other) == pytest.approx(expected, rel=1e-7)


@given(st.tuples(means, deviations), st.tuples(means, deviations))
def test_of_two_unequal_lengths_the_published_mean_is_met(one, other):
    mean, sd = np.transpose([one, other])
    found = expected_shortest(mean, sd)
    assert found == pytest.approx(clark(one, other), abs=STEP / 2 * sd.max())


@given(means, st.tuples(means, deviations))
def test_a_length_that_is_known_is_one_without_deviation(known, other):
    found = expected_shortest(np.array([known, other[0]]), np.array([0.0, other[1]]))
    assert found == pytest.approx(clark((known, 0.0), other), abs=STEP / 2 * other[1] + 1e-9)
