"""The shortest of plies, derived: half a range, its quantiles, and laws."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from yarncolor.answers.spread import expected_shortest, shortest_quantiles

BELOW_MEAN = [(2, 0.5642), (3, 0.8463), (4, 1.0294), (5, 1.1630), (6, 1.2672)]
USABLE = [(2, 97.2), (3, 95.8), (4, 94.9)]  # per cent of the mean, at a CV of 5 %; derived
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


@pytest.mark.parametrize(("plies", "below"), BELOW_MEAN)
def test_the_shortest_lies_so_far_below_the_mean(plies, below):
    assert shortest_constant(plies) == pytest.approx(below, abs=5e-5)


@pytest.mark.parametrize(("plies", "per_cent"), USABLE)
def test_so_much_of_equal_plies_can_be_used(plies, per_cent):
    assert 100 * (1 - 0.05 * shortest_constant(plies)) == pytest.approx(per_cent, abs=0.05)
    found = expected_shortest(np.full(plies, 100.0), np.full(plies, 5.0))
    assert found == pytest.approx(per_cent, abs=0.05)


def test_of_three_plies_four_per_cent_and_a_quarter_cannot_be_used():
    """CV 5 %, N = 3: 4.23 %; derived."""
    assert 5 * shortest_constant(3) == pytest.approx(4.23, abs=0.005)


def test_more_plies_waste_more_and_each_ply_adds_less():
    constants = np.array([shortest_constant(plies) for plies in range(1, 31)])
    assert constants[0] == 0
    assert (np.diff(constants) > 0).all()
    assert (np.diff(constants, 2) < 0).all()


@given(st.integers(2, 9), means, deviations)
def test_equal_lengths_follow_the_constant_whatever_their_mean_and_sd(plies, mean, sd):
    found = expected_shortest(np.full(plies, mean), np.full(plies, sd))
    assert found == pytest.approx(mean - mean_shortest(plies) * sd, abs=1e-4 * sd + 1e-9)


@given(st.lists(means, min_size=1, max_size=6))
def test_of_lengths_all_known_it_is_the_shortest(lengths):
    mean, sd = np.array(lengths), np.zeros(len(lengths))
    assert expected_shortest(mean, sd) == pytest.approx(min(lengths), rel=1e-11)
    found = shortest_quantiles(mean, sd, np.array([0.1, 0.5, 0.9]))
    assert found == pytest.approx(min(lengths), rel=1e-11)


LOTS = [  # means, SD of lengths
    ((100, 100), (5, 5)),
    ((100, 104, 98), (5, 8, 2)),
    ((200, 210, 190, 205), (20, 5, 10, 15)),
    ((80, 81, 82, 83, 84, 85), (4, 4, 4, 4, 4, 4)),
]


@pytest.mark.parametrize(("mean", "sd"), LOTS)
def test_so_many_drawn_lots_have_that_shortest_on_the_mean(mean, sd):
    drawn = np.random.default_rng(1925).normal(mean, sd, (400_000, len(mean))).min(axis=1)
    found = expected_shortest(np.array(mean), np.array(sd))
    assert found == pytest.approx(drawn.mean(), abs=4 * drawn.std() / sqrt(len(drawn)))


@pytest.mark.parametrize(("mean", "sd"), LOTS)
def test_so_many_drawn_lots_stay_below_the_quantiles(mean, sd):
    chances = np.array([0.05, 0.25, 0.5, 0.75, 0.95])
    drawn = np.random.default_rng(1961).normal(mean, sd, (400_000, len(mean))).min(axis=1)
    found = shortest_quantiles(np.array(mean), np.array(sd), chances)
    np.testing.assert_allclose((drawn[:, None] < found).mean(axis=0), chances, atol=0.004)


@given(st.lists(st.tuples(means, deviations), min_size=1, max_size=5))
def test_the_chance_of_all_being_longer_than_a_quantile_is_the_rest(lots):
    mean, sd = np.transpose(lots)
    assume(sd.max() / sd.min() < 30)
    chances = np.array([0.05, 0.3, 0.5, 0.7, 0.95])
    found = shortest_quantiles(mean, sd, chances)
    assert (np.diff(found) > 0).all()
    longer = norm.sf((found[:, None] - mean) / sd).prod(axis=1)
    steepest = (norm.pdf(0) / sd).sum() * STEP * sd.max()
    np.testing.assert_allclose(1 - longer, chances, atol=steepest / 2 + 1e-6)


@given(st.lists(st.tuples(means, deviations), min_size=1, max_size=5), st.floats(0.1, 20))
def test_the_shortest_is_never_longer_than_any_and_another_ply_never_lengthens_it(lots, sd_more):
    mean, sd = np.transpose(lots)
    found = expected_shortest(mean, sd)
    near = STEP * max(sd.max(), sd_more)
    assert found <= mean.min() + near
    more = expected_shortest(np.append(mean, mean.max()), np.append(sd, sd_more))
    assert more <= found + near


@given(st.lists(st.tuples(means, deviations), min_size=2, max_size=5), st.floats(0.01, 100))
def test_neither_the_order_nor_the_unit_of_the_lengths_matters(lots, unit):
    mean, sd = np.transpose(lots)
    found = expected_shortest(mean, sd)
    assert expected_shortest(mean[::-1], sd[::-1]) == pytest.approx(found, abs=1e-9 * abs(found))
    scaled = expected_shortest(unit * mean, unit * sd) / unit
    assert scaled == pytest.approx(found, abs=1e-6 * sd.max() + 1e-9)
