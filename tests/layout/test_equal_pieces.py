"""Pieces that are equally large weigh alike where rows, running totals and lots allow it.

The fewest unequal pairs are found apart, by trying every way to round up and down.
"""

from itertools import combinations, pairwise
from math import floor

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.examples import times
from tests.helpers.strategies import NAMES, answered, by_hand
from yarncolor.layout.portions import PlyPieces, stacked
from yarncolor.layout.weighing import weighed

NEAR = 1e-6
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


def unequal_pairs(plies: list[list[tuple[int, float]]], steps: np.ndarray) -> np.ndarray:
    """Return how many pairs of a lot's equal rows differ, for each of many roundings: (..., N)."""
    rows = [row for ply in plies for row in ply]
    pairs = [
        (one, other)
        for one, other in combinations(range(len(rows)), 2)
        if rows[one][0] == rows[other][0] and abs(rows[one][1] - rows[other][1]) < NEAR
    ]
    return sum((steps[..., one] != steps[..., other] for one, other in pairs), np.array(0))


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
    return tried[allowed]


small = st.one_of(
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=2), st.just((1, 2, 4))),
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=4), st.just((1, 2))),
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=2), st.just((2, 5))),
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=3), st.just((1, 1, 2))),
    st.tuples(st.lists(st.integers(24, 90), min_size=1, max_size=3), st.just((4,))),
)


@times(3)
@given(small)
def test_no_rounding_that_the_laws_allow_has_fewer_unequal_pairs(case):
    masses, divisions = case
    plies = fractal(masses, divisions)
    allowed = every_rounding(plies, len(masses))
    chosen = on_the_scale(plies, len(masses))
    assert (allowed == chosen).all(axis=1).any()
    assert unequal_pairs(plies, chosen) == unequal_pairs(plies, allowed).min()


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
    assert unequal_pairs(plies, chosen) == unequal_pairs(plies, allowed).min()


def test_46_g_on_whole_grams_go_one_two_and_four_times_with_one_pair_unequal():
    """15⅓ g on each ply: running totals allow 15 or 16, so the halves are 7 and 8; by hand."""
    scheme = {"name": "fractal", "divisions": [1, 2, 4]}
    found = answered(by_hand({"Kelp": 46.0}, scheme=scheme, scale={"step_g": 1.0}))
    whole, halves, quarters = (
        [row["weigh_g"] for row in single["portions"]] for single in found["singles"]
    )
    assert (whole, sorted(halves), quarters) == ([15], [7, 8], [4, 4, 4, 4])


@pytest.mark.oracle
def test_46_g_in_three_on_whole_grams_cannot_be_equal():
    (only,) = {tuple(sorted(each)) for each in every_rounding(fractal([46.0], (1, 1, 1)), 1)}
    assert only == (15, 15, 16)


@pytest.mark.parametrize("step_g", [0.1, 1.0])
def test_in_a_large_plan_few_pairs_differ_beside_rounding_by_chance(step_g):
    """By chance a pair of pieces, each a share f of a step above, differs with 2 f (1 - f)."""
    masses = {name: 31.0 + 1.7 * at for at, name in enumerate(NAMES)}
    scheme = {"name": "fractal", "divisions": [1, 2, 4]}
    found = answered(by_hand(masses, scheme=scheme, scale={"step_g": step_g}))
    unlike = by_chance = 0.0
    for single in found["singles"]:
        for one, other in combinations(single["portions"], 2):
            if one["lot"] == other["lot"]:
                above = one["mass_g"] / step_g % 1
                by_chance += 2 * above * (1 - above)
                unlike += abs(one["weigh_g"] - other["weigh_g"]) > step_g / 2
    assert by_chance > 10
    assert unlike < by_chance * 2 / 3
