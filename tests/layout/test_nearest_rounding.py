"""Rounded is as near as can be: the least squares of errors that rows, shares and totals allow.

They are found apart, by trying every way to round up and down. What a ply has of a lot is its
share; beside them laws over thousands of drawn plans in which going to the nearer step breaks a
total.
"""

from itertools import pairwise
from math import floor

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.examples import times
from tests.helpers.strategies import answered, by_hand
from yarncolor.layout.portions import PlyPieces, stacked
from yarncolor.layout.rounding import rounded
from yarncolor.layout.weighing import weighed

NEAR = 1e-6
NONE = np.zeros(0, dtype=int)
MOST_UNDECIDED = 14


def fractal(masses: list[float], divisions: tuple[int, ...]) -> list[list[tuple[int, float]]]:
    """Return lot and steps of each row, ply by ply: whole turns through lots of so many steps."""
    plies = len(divisions)
    return [
        [(lot, mass / plies / turns) for _ in range(turns) for lot, mass in enumerate(masses)]
        for turns in divisions
    ]


def on_the_scale(plies: list[list[tuple[int, float]]], lots: int) -> np.ndarray:
    """Return whole steps of each row, ply after ply."""
    given = stacked(
        [
            PlyPieces(
                lot=np.array([lot for lot, _ in ply]),
                place=np.arange(1, len(ply) + 1),
                repeat=np.ones(len(ply), dtype=int),
                mass_g=np.array([mass for _, mass in ply]),
            )
            for ply in plies
        ]
    )
    return weighed(given, lots, 1.0).portions.weigh_g


def every_rounding(plies: list[list[tuple[int, float]]], lots: int) -> np.ndarray:
    """Return all roundings that the laws of weighing allow: (roundings, N)."""
    lot = np.array([lot for ply in plies for lot, _ in ply])
    exact = np.array([mass for ply in plies for _, mass in ply])
    may_go_up = np.flatnonzero(np.abs(exact - np.rint(exact)) > NEAR)
    ups = (np.arange(2 ** len(may_go_up))[:, None] >> np.arange(len(may_go_up))) & 1
    tried = np.tile(np.floor(exact + NEAR), (len(ups), 1))
    tried[:, may_go_up] += ups
    allowed = np.ones(len(ups), dtype=bool)
    for one in range(lots):
        allowed &= np.abs(tried[:, lot == one].sum(axis=1) - exact[lot == one].sum()) < NEAR
    ends = np.cumsum([0] + [len(ply) for ply in plies])
    for first, end in pairwise(ends):
        away = np.cumsum(tried[:, first:end], axis=1) - np.cumsum(exact[first:end])
        allowed &= (np.abs(away) < 1 - NEAR).all(axis=1)
        for one in range(lots):
            own = first + np.flatnonzero(lot[first:end] == one)
            away = tried[:, own].sum(axis=1) - exact[own].sum()
            allowed &= np.abs(away) < 1 - NEAR
    return tried[allowed]


def squares(plies: list[list[tuple[int, float]]], steps: np.ndarray) -> np.ndarray:
    """Return the sum of squared errors of each of many roundings: (..., N)."""
    exact = np.array([mass for ply in plies for _, mass in ply])
    return ((steps - exact) ** 2).sum(axis=-1)


small = st.one_of(
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=2), st.just((1, 2, 4))),
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=4), st.just((1, 2))),
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=2), st.just((2, 5))),
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=3), st.just((1, 1, 2))),
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=3), st.just((4,))),
)


@times(3)
@given(small)
def test_no_rounding_that_the_laws_allow_is_nearer(case):
    masses, divisions = case
    plies = fractal(masses, divisions)
    allowed = every_rounding(plies, len(masses))
    chosen = on_the_scale(plies, len(masses))
    assert (allowed == chosen).all(axis=1).any()
    assert squares(plies, chosen) == pytest.approx(squares(plies, allowed).min())


sizes = st.lists(
    st.lists(st.tuples(st.integers(0, 2), st.sampled_from((2.5, 3.2, 4.75, 6.0))), min_size=1),
    min_size=1,
    max_size=3,
).filter(lambda plies: sum(map(len, plies)) <= MOST_UNDECIDED)


@times(3)
@given(sizes)
def test_nor_in_any_order_and_of_any_sizes(drawn):
    """Lots are made whole first, as the scale has them."""
    total = {lot: sum(mass for ply in drawn for own, mass in ply if own == lot) for lot in range(3)}
    plies = [
        [(lot, mass * floor(total[lot] + NEAR) / total[lot]) for lot, mass in p] for p in drawn
    ]
    if min(mass for ply in plies for _, mass in ply) < 2:
        return
    allowed, chosen = every_rounding(plies, 3), on_the_scale(drawn, 3)
    assert (allowed == chosen).all(axis=1).any()
    assert squares(plies, chosen) == pytest.approx(squares(plies, allowed).min())


def weighed_in_turns(masses: dict[str, float]) -> list[dict[str, list[float]]]:
    """Return grams of each lot's pieces on each ply: one, two and four times, on whole grams."""
    scheme = {"name": "fractal", "divisions": [1, 2, 4]}
    found = answered(by_hand(masses, scheme=scheme, scale={"step_g": 1.0}))
    return [
        {
            name: [row["weigh_g"] for row in single["portions"] if row["lot"] == name]
            for name in masses
        }
        for single in found["singles"]
    ]


def test_46_g_on_whole_grams_go_one_two_and_four_times_with_one_pair_unequal():
    """15⅓ g on each ply: 15 or 16, so that the halves are 7 and 8; by hand."""
    whole, halves, quarters = (ply["Kelp"] for ply in weighed_in_turns({"Kelp": 46.0}))
    assert (whole, sorted(halves), quarters) == ([15], [7, 8], [4, 4, 4, 4])


def test_thirds_of_two_lots_are_nowhere_more_than_a_step_off():
    """46 and 31 g in three are 15⅓ and 10⅓: on whole grams 15 or 16, and 10 or 11, never 14."""
    plies = weighed_in_turns({"Kelp": 46.0, "Foam": 31.0})
    assert sorted(sum(ply["Kelp"]) for ply in plies) == [15, 15, 16]
    assert sorted(sum(ply["Foam"]) for ply in plies) == [10, 10, 11]


def test_pieces_that_hands_make_equal_weigh_alike_where_their_share_can_be_divided():
    """48 and 30 g in three are 16 and 10: halves of 8 and 5, and quarters of 4."""
    _, halves, quarters = weighed_in_turns({"Kelp": 48.0, "Foam": 30.0})
    assert (halves["Kelp"], halves["Foam"], quarters["Kelp"]) == ([8, 8], [5, 5], [4, 4, 4, 4])
    assert sorted(quarters["Foam"]) == [2, 2, 3, 3]


ONE_UP_IN_EACH = [  # what four plies have of four lots is above so many whole steps: all ones
    [0.2, 0.0, 0.225, 0.575],
    [0.075, 0.35, 0.225, 0.35],
    [0.35, 0.65, 0.0, 0.0],
    [0.375, 0.0, 0.55, 0.075],
]


def test_errors_count_by_their_squares():
    """Other powers of them would take another of the 24 ways to let one go up in each."""
    plies = [[(lot, 2 + above) for lot, above in enumerate(ply)] for ply in ONE_UP_IN_EACH]
    chosen = on_the_scale(plies, 4)
    assert squares(plies, chosen) == pytest.approx(squares(plies, every_rounding(plies, 4)).min())


def test_what_is_nearly_whole_goes_up():
    """14.97 and twice 7.515 steps: 15, 7 and 8; the halves alike would make 14 of 14.97."""
    plies = [[(0, 14.97)], [(0, 7.515), (0, 7.515)]]
    whole, *halves = on_the_scale(plies, 1)
    assert (whole, sorted(halves)) == (15, [7, 8])


def test_where_nothing_is_left_to_spin_nothing_is_weighed():
    assert len(rounded(np.zeros(0), NONE, NONE, 0, np.zeros(1))) == 0


@pytest.mark.oracle
def test_46_g_in_three_on_whole_grams_cannot_be_equal():
    (only,) = {tuple(sorted(each)) for each in every_rounding(fractal([46.0], (1, 1, 1)), 1)}
    assert only == (15, 15, 16)


DRAWN, TOGETHER, LOTS = 4000, 100, 3


def many_plans(seed: int) -> tuple[list[list[tuple[int, float]]], list[tuple[int, int]]]:
    """Return plies of many plans that share no lot, and first and last ply of each plan.

    Every piece is so much above a whole step, or so much below, that the nearer steps of all add
    up to more than a step.
    """
    rng = np.random.default_rng(seed)
    plies: list[list[tuple[int, float]]] = []
    ends = []
    for plan in range(TOGETHER):
        above = rng.uniform(0.1, 0.45) if rng.random() < 0.5 else rng.uniform(0.55, 0.9)
        count = int(rng.integers(1, 4))
        plies += [
            [
                (plan * LOTS + int(rng.integers(LOTS)), float(rng.integers(3, 9)) + above)
                for _ in range(rng.integers(2, 9))
            ]
            for _ in range(count)
        ]
        ends.append((len(plies) - count, len(plies)))
    return plies, ends


def farthest(error: np.ndarray, of: np.ndarray) -> float:
    """Return the largest error of a total, whatever its sign.

    Parameters
    ----------
    error : (N,) array
        Steps on the scale less those that are due, of each piece.
    of : (N,) int array
        Which total each piece counts in.
    """
    return float(np.abs(np.bincount(of, error)).max())


def test_in_thousands_of_plans_whose_bounds_bind_every_total_is_within_a_step():
    """Each of the bounds would be broken by going to the nearer step, in most plans."""
    binding = 0
    for seed in range(DRAWN // TOGETHER):
        plies, ends = many_plans(seed)
        lot = np.array([own for ply in plies for own, _ in ply])
        ply = np.repeat(np.arange(len(plies)), [len(own) for own in plies])
        mass = np.array([each for own in plies for _, each in own])
        chosen = on_the_scale(plies, TOGETHER * LOTS)
        total = np.bincount(lot, mass)
        steps = mass * (np.floor(total + NEAR) / np.where(total, total, 1))[lot]
        error = chosen - steps
        assert np.abs(error).max() < 1
        assert farthest(error, lot) < NEAR
        assert farthest(error, ply * TOGETHER * LOTS + lot) < 1
        for at in range(len(plies)):
            assert np.abs(np.cumsum(error[ply == at])).max() < 1
        nearest = np.rint(steps) - steps
        binding += sum(
            any(np.abs(np.cumsum(nearest[ply == at])).max() > 1 for at in range(*plan))
            for plan in ends
        )
    assert binding > DRAWN / 2
