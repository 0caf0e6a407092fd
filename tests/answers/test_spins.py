"""A plan spun so many times, by hand: how each spin lies in its yarn, and what is left over."""

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.spins import SPINS_AT_HAND, of_shares, spins_of


def answer_to(scheme: dict, *, masses: dict | None = None, wound_off: int = 1, **spinning: float):
    plan = by_hand(
        masses or {"Kelp": 20.0, "Foam": 20.0},
        scheme=scheme,
        spinning={"single_tex": 1000.0} | spinning,
        plying={"wound_off": wound_off, "contraction": 0.1},
        scale={"step_g": 0.001},
    )
    return yc.answer(yc.plan_from_data(plan))


MATCHED = {"name": "matched", "plies": 2}
"""10 m of Kelp and 10 m of Foam on each of two plies: 18 m of yarn."""


@pytest.mark.parametrize("wound_off", [0, 1])
def test_spun_as_planned_a_yarn_lies_as_planned(wound_off):
    laid = answer_to(MATCHED, wound_off=wound_off).layout
    along = of_shares(laid, np.ones((2, 4))).along(1)
    assert along.edges_m == pytest.approx(laid.stretches.edges_m)
    assert along.lot.tolist() == laid.stretches.lot.tolist()


@pytest.mark.parametrize(
    ("wound_off", "edges_m", "lots"),
    [(1, [0, 9, 18, 27], [[0, 0], [0, 1], [1, 1]]), (0, [0, 9, 27], [[1, 1], [0, 0]])],
)
def test_a_portion_spun_twice_as_long_moves_what_comes_after_it(wound_off, edges_m, lots):
    """Kelp of ply 1 came to 20 m in one of two spins; on ply 2 Foam came to 20 m or Kelp did."""
    laid = answer_to(MATCHED, wound_off=wound_off).layout
    share = np.ones((2, 4))
    share[1] = [2, 1, 1, 2] if wound_off else [2, 1, 2, 1]
    along = of_shares(laid, share).along(1)
    assert along.yarn_m == pytest.approx(27)
    assert along.edges_m == pytest.approx(edges_m)
    assert along.lot.tolist() == lots
    assert of_shares(laid, share).along(0).yarn_m == pytest.approx(18)


def test_a_plan_is_spun_as_often_as_is_asked_or_a_thousand_times():
    found = answer_to(MATCHED, variation=0.05)
    several, usual = (spins_of(found.layout, found.on_scale_g, *n) for n in ((30,), ()))
    assert several.length_m.shape == (30, 4)
    assert len(usual.length_m) == SPINS_AT_HAND
    assert usual.length_m.std(axis=0) == pytest.approx([0.5] * 4, rel=0.1)
    even = answer_to(MATCHED)
    assert spins_of(even.layout, even.on_scale_g) is None


def test_what_is_left_on_a_bobbin_is_what_its_single_has_beyond_the_yarn():
    """20 m and 24 m that hardly stray: 18 m of yarn, 4 m are left of the second."""
    portions = [
        {"ply": 1, "lot": "Kelp", "mass_g": 20.0},
        {"ply": 2, "lot": "Foam", "mass_g": 24.0},
    ]
    scheme = {"name": "free", "plies": 2, "portions": portions}
    masses = {"Kelp": 20.0, "Foam": 24.0}
    bands = answer_to(scheme, masses=masses, variation=0.001, variation_bobbins=0.001).spread
    assert bands.expected_m == pytest.approx(18.0, rel=0.001)
    assert bands.left_m == pytest.approx([0.0, 4.0], abs=0.01)
