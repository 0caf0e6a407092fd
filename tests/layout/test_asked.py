"""What was decided at the wheel, put onto the rows still to spin: reckoned by hand.

On each of two plies of 100 tex lie 12 g, 120 m, of Kelp, Foam and Dune.
"""

import pytest

from tests.helpers.strategies import answered, by_hand

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
