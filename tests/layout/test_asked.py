"""What was decided at the wheel, put onto the rows still to spin: reckoned by hand.

On each of two plies of 100 tex lie 12 g, 120 m, of Kelp, Foam and Dune.
"""

from collections import Counter
from dataclasses import replace

import pytest

import yarncolor as yc
from tests.helpers.strategies import answered, by_hand
from yarncolor.layout.asked import asked_for, pending
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.going_on import AtWheel, make_up
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plan

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


def extra(wheel: BobbinPieces) -> Counter:
    """Return ply, lot and grams of each piece that no row asks for."""
    pieces, at = wheel.pieces, wheel.is_extra
    mass_g = pieces.mass_g[at].round(9)
    return Counter(
        zip(*(each.tolist() for each in (pieces.ply[at] + 1, pieces.lot[at], mass_g)), strict=True)
    )


def lacking(spun: list[dict], to_spin: list[dict]) -> list[tuple]:
    """Return ply, lot and grams of what is spun next to make up for what the bobbins lack."""
    laid = layout(resolve(yc.plan_from_data(PLAN | {"spun": spun, "to_spin": to_spin})))
    made = make_up(AtWheel(laid.wheel, laid.resolved.wound_off, laid.resolved.spin_loss))
    return sorted((extra(made) - extra(laid.wheel)).elements())


KELP, FOAM, DUNE = range(3)


def test_what_is_lacking_counts_from_the_grams_decided_and_what_is_spun_beside_the_rows():
    """Of 11 g of Kelp 9 g lie there; 12 g of Foam left out, 5 g and 4 g asked for beside.

    On the other ply 3 g of Kelp of 12 g lack, and 2 g of Foam beside make up for none of it.
    """
    spun = [
        {"ply": 1, "row": 1, "mass_g": 9.0},
        {"ply": 1, "row": 3},
        {"ply": 2, "row": 1, "mass_g": 9.0},
    ]
    asked = [
        {"ply": 1, "row": 1, "mass_g": 11.0},
        {"ply": 1, "after_pieces": 2, "lot": "Foam", "mass_g": 5.0},
        {"ply": 1, "after_pieces": 2, "lot": "Foam", "mass_g": 4.0},
        {"ply": 2, "after_pieces": 1, "lot": "Foam", "mass_g": 2.0},
    ]
    assert lacking(spun, asked) == [(1, KELP, 2.0), (1, FOAM, 3.0), (2, KELP, 3.0)]


def test_a_decision_on_grams_alone_leaves_every_other_row_wanted_as_planned():
    plan = PLAN | {"spun": [{"ply": 2, "row": 1}], "to_spin": [{"ply": 1, "row": 2, "mass_g": 7.0}]}
    wheel = layout(resolve(yc.plan_from_data(plan))).wheel
    assert wheel.wanted_g.tolist() == [12, 7, 12, 12, 12, 12]
    assert wheel.planned.mass_g.tolist() == [12] * 6


def laid_without(plan: Plan, **tables) -> list[list[tuple[int, float]]]:
    """Return lot and grams of each ply where a plan is tried out with other tables."""
    laid = layout(resolve(replace(plan, **tables)))
    pieces = laid.portions
    plies = (pieces.of_ply(ply) for ply in range(len(pieces.starts) - 1))
    return [
        list(zip(pieces.lot[own].tolist(), pieces.mass_g[own].tolist(), strict=True))
        for own in plies
    ]


def test_what_was_decided_says_nothing_where_a_plan_is_tried_without_its_ply_lot_or_row():
    """One ply of 24 g each; two plies of two lots, of which Dune is none; two rows a ply."""
    plan = yc.plan_from_data(
        PLAN
        | {
            "spun": [{"ply": 1, "row": 1}],
            "to_spin": [
                {"ply": 2, "row": 1, "mass_g": 7.0},
                {"ply": 2, "lot": "Foam", "mass_g": 3.0},
                {"ply": 1, "row": 3, "mass_g": 5.0},
                {"ply": 1, "after_pieces": 1, "lot": "Dune", "mass_g": 2.0},
            ],
            "pull_off": [{"ply": 2, "length_m": 20.0}],
        }
    )
    one_ply = laid_without(plan, scheme=replace(plan.scheme, plies=1))
    assert one_ply == [[(KELP, 24.0), (DUNE, 2.0), (FOAM, 24.0), (DUNE, 5.0)]]
    two_lots = laid_without(plan, lots=plan.lots[:2])
    assert two_lots == [[(KELP, 12.0), (FOAM, 12.0)], [(FOAM, 3.0), (KELP, 7.0), (FOAM, 10.0)]]


BESIDE = [
    {"ply": 1, "after_pieces": 1, "lot": "Foam", "mass_g": 3.0},
    {"ply": 1, "after_pieces": 1, "lot": "Foam", "mass_g": 4.0},
    {"ply": 1, "after_pieces": 1, "lot": "Dune", "mass_g": 2.0},
    {"ply": 2, "lot": "Foam", "mass_g": 2.0},
    {"ply": 2, "after_pieces": 1, "lot": "Kelp", "mass_g": 1.0},
    {"ply": 2, "row": 3, "mass_g": 8.0},
]
"""Pieces beside the rows, and one row."""


def test_a_piece_decided_on_is_spun_once_passed_over_or_still_to_come():
    """On ply 1 one Foam and the Dune were spun and the other Foam was not; on ply 2 the Foam was
    spun first of all, and a row in place of the Kelp. Of ply 1 lie three pieces, then come the
    Foam and two rows, so that the first piece of ply 2 is the seventh."""
    spun = [
        {"ply": 1, "row": 1},
        {"ply": 1, "lot": "Foam", "mass_g": 3.0},
        {"ply": 1, "lot": "Dune", "mass_g": 2.0},
        {"ply": 2, "lot": "Foam", "mass_g": 2.0},
        {"ply": 2, "row": 1},
    ]
    plan = yc.plan_from_data(PLAN | {"spun": spun, "to_spin": BESIDE})
    wheel = layout(resolve(plan)).wheel
    assert pending(wheel, plan) == [1]
    assert asked_for(wheel, plan) == [1, 2, 6]
    assert wheel.row.tolist() == [1, 0, 0, 0, 2, 3, 0, 1, 2, 3]


def test_a_piece_of_that_lot_spun_before_it_was_decided_on_is_not_it():
    spun = [{"ply": 1, "lot": "Foam", "mass_g": 3.0}, {"ply": 1, "row": 1}]
    plan = yc.plan_from_data(
        PLAN
        | {
            "spun": spun,
            "to_spin": [
                {"ply": 1, "row": 2, "mass_g": 11.0},
                {"ply": 1, "after_pieces": 2, "lot": "Foam", "mass_g": 5.0},
            ],
        }
    )
    wheel = layout(resolve(plan)).wheel
    assert pending(wheel, plan) == [1]
    assert asked_for(wheel, plan) == []


def test_ends_drawn_off_twice_are_drawn_off_both_and_a_whole_ply_never_is():
    """Of 360 m 30 m and 50 m go: Dune, 120 m, keeps 40 m, 4 g. Tried with a third of the
    grams, 120 m, an end of 120 m would be all of it."""
    drawn = [{"ply": 1, "length_m": 30.0}, {"ply": 1, "length_m": 50.0}]
    data = PLAN | {"spun": [{"ply": 2, "row": 1}], "pull_off": drawn}
    wheel = layout(resolve(yc.plan_from_data(data))).wheel
    own, other = wheel.pieces.of_ply(0), wheel.pieces.of_ply(1)
    assert wheel.pieces.length_m[own] == pytest.approx([120, 120, 40])
    assert wheel.pieces.mass_g[own] == pytest.approx([12, 12, 4])
    assert wheel.pieces.length_m[other] == pytest.approx([120, 120, 120])
    assert wheel.drawn_off.by_lot_g(3) == pytest.approx([0, 0, 8])
    plan = yc.plan_from_data(data | {"pull_off": [{"ply": 1, "length_m": 120.0}]})
    thirds = tuple(replace(lot, mass_g=8.0) for lot in plan.lots)
    tried = layout(resolve(replace(plan, lots=thirds))).wheel
    assert tried.pieces.length_m[tried.pieces.of_ply(0)] == pytest.approx([40, 40, 40])


@pytest.mark.parametrize(("lacks_g", "told"), [(3e-7, []), (1e-5, [(1, KELP, 1e-5)])])
def test_less_than_a_hundred_millionth_of_all_is_not_lacking(lacks_g, told):
    """All that was planned on are 72 g."""
    decided = [{"ply": 2, "row": 1, "mass_g": 12.0}]
    assert lacking([{"ply": 1, "row": 1, "mass_g": 12 - lacks_g}], decided) == told
