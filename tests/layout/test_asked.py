"""What was decided at the wheel, put onto the rows still to spin: reckoned by hand.

On each of two plies of 100 tex lie 12 g, 120 m, of Kelp, Foam and Dune.
"""

import pytest

import yarncolor as yc
from tests.helpers.strategies import answered, by_hand
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve

PLAN = by_hand(
    {"Kelp": 24.0, "Foam": 24.0, "Dune": 24.0},
    scheme={"plies": 2},
    spinning={"single_tex": 100.0},
)


def pieces(ply: int, spun: list[dict], to_spin: list[dict]) -> list[tuple]:
    """Return row, lot, grams and metres of each piece of a ply."""
    portions = answered(PLAN | {"spun": spun, "to_spin": to_spin})["singles"][ply - 1]["portions"]
    return [
        (one["row"], one["lot"], pytest.approx(one["mass_g"]), one["end_m"] - one["start_m"])
        for one in portions
    ]


def near(*told: tuple) -> list[tuple]:
    return [(row, lot, mass_g, pytest.approx(length_m)) for row, lot, mass_g, length_m in told]


def test_a_row_takes_the_grams_and_the_metres_decided_on_and_may_fall_away():
    asked = [
        {"ply": 1, "row": 2, "mass_g": 10.0},
        {"ply": 1, "row": 3, "mass_g": 12.0, "length_m": 150.0},
        {"ply": 2, "row": 2, "mass_g": 0.0},
    ]
    spun = [{"ply": 1, "row": 1}]
    assert pieces(1, spun, asked) == near(
        (1, "Kelp", 12.0, 120.0), (2, "Foam", 10.0, 100.0), (3, "Dune", 12.0, 150.0)
    )
    assert pieces(2, spun, asked) == near((1, "Kelp", 12.0, 120.0), (3, "Dune", 12.0, 120.0))


def test_a_row_spun_as_decided_keeps_that_and_what_was_measured_wins():
    asked = [{"ply": 1, "row": 1, "mass_g": 10.0, "length_m": 125.0}]
    as_decided = pieces(1, [{"ply": 1, "through": 1}], asked)
    assert as_decided[0] == near((1, "Kelp", 10.0, 125.0))[0]
    measured = pieces(1, [{"ply": 1, "row": 1, "mass_g": 11.0}], asked)
    assert measured[0] == near((1, "Kelp", 11.0, 110.0))[0]


def test_a_row_that_fell_away_and_was_spun_all_the_same_lies_there():
    asked = [{"ply": 1, "row": 1, "mass_g": 0.0}]
    assert pieces(1, [{"ply": 1, "row": 1}], asked)[0] == near((1, "Kelp", 12.0, 120.0))[0]


def test_a_piece_beside_the_rows_is_spun_as_fine_as_was_decided():
    asked = [{"ply": 1, "after_pieces": 1, "lot": "Foam", "mass_g": 3.0, "length_m": 36.0}]
    assert pieces(1, [{"ply": 1, "row": 1}], asked)[1] == near((None, "Foam", 3.0, 36.0))[0]


LOSSY = PLAN | {"spinning": {"single_tex": 100.0, "spin_loss": 0.1}}
"""12 g are 10.8 g of single then, 108 m."""


def wheel_of(spun: list[dict], to_spin: list[dict]) -> BobbinPieces:
    plan = yc.plan_from_data(LOSSY | {"spun": spun, "to_spin": to_spin})
    return layout(resolve(plan)).wheel


DECIDED = [
    {"ply": 1, "row": 1, "mass_g": 10.0, "length_m": 125.0},
    {"ply": 1, "row": 2, "mass_g": 12.0, "length_m": 150.0},
    {"ply": 1, "row": 3, "mass_g": 10.0},
]


def test_what_is_lost_in_spinning_is_lost_of_what_was_decided_too():
    """9 g on 125 m and 10.8 g on 150 m are 72 tex; 9 g at the plan's 100 tex are 90 m."""
    wheel = wheel_of([{"ply": 1, "row": 1}], DECIDED)
    own, other = wheel.pieces.of_ply(0), wheel.pieces.of_ply(1)
    assert wheel.pieces.mass_g[own].tolist() == [10, 12, 10]
    assert wheel.pieces.length_m[own] == pytest.approx([125, 150, 90])
    assert wheel.pieces.tex[own] == pytest.approx([72, 72, 100])
    assert wheel.pieces.length_m[other] == pytest.approx([108, 108, 108])
    assert wheel.pieces.tex[other] == pytest.approx([100, 100, 100])


def test_a_row_spun_as_decided_weighs_so_and_is_no_more_as_planned():
    wheel = wheel_of([{"ply": 1, "row": 1}, {"ply": 2, "row": 1}], DECIDED)
    own = wheel.pieces.of_ply(0)
    assert wheel.as_planned[own].tolist() == [False, True, True]
    assert wheel.net_g[own][0] == pytest.approx(9)
    assert wheel.as_planned[wheel.pieces.of_ply(1)][0]


def test_where_the_grist_was_measured_it_says_the_metres_of_what_is_spun():
    """0.18 g on 2 m are 90 tex: 9 g are 100 m and 10.8 g are 120 m, whatever was decided."""
    sample = {"length_m": 2.0, "mass_g": 0.18}
    wheel = wheel_of([{"ply": 1, "row": row, "sample": sample} for row in (1, 2, 3)], DECIDED)
    assert wheel.pieces.length_m[:3] == pytest.approx([100, 120, 100])
