"""Slips at the wheel: the entries that describe each, and what follows from them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.editing import slips
from yarncolor.editing.at_the_wheel_pieces import pieces_on, with_pieces
from yarncolor.plan import Plan, Spun, to_data
from yarncolor.report.slip_words import SLIP_WORDS

FOUR = {"Kelp": 30.0, "Foam": 30.0, "Rust": 30.0, "Dune": 30.0}


def plan_of(spun: list[dict], scheme: dict | None = None, **tables) -> Plan:
    """Return a plan of four lots on two plies, 15 g a row, 150 m each."""
    scheme = scheme or {"name": "matched", "plies": 2}
    data = by_hand(FOUR, scheme=scheme, plying={"contraction": 0.0}, spun=spun, **tables)
    return yc.plan_from_data(data)


def spun_of(plan: Plan) -> list[dict]:
    return to_data(plan)["spun"]


def read_again(plan: Plan) -> yc.answer:
    """Return the answer to a plan as it is read from its own data: it must be without fault."""
    return yc.answer(yc.plan_from_data(to_data(plan)))


def order_on(plan: Plan, ply: int = 1) -> list[tuple[str, str]]:
    """Return lot and state of each piece of a ply, in spinning order."""
    single = yc.to_dict(read_again(plan))["singles"][ply - 1]
    return [(portion["lot"], portion["state"]) for portion in single["portions"]]


def test_a_row_left_out_is_the_one_that_no_entry_names():
    plan = slips.left_out(plan_of([{"ply": 1, "through": 1}]), 1, 2)
    assert spun_of(plan) == [{"ply": 1, "through": 1}, {"ply": 1, "row": 3}]
    assert order_on(plan) == [("Kelp", "spun"), ("Rust", "spun"), ("Dune", "to_spin")]


def test_a_row_found_missing_later_is_taken_out_of_those_spun():
    plan = slips.left_out(plan_of([{"ply": 1, "through": 4}]), 1, 2)
    assert spun_of(plan) == [
        {"ply": 1, "through": 1},
        {"ply": 1, "row": 3},
        {"ply": 1, "row": 4},
    ]


def test_the_last_row_is_not_left_out_but_still_to_be_spun():
    with pytest.raises(yc.PlanError, match="row 4 is the last of ply 1"):
        slips.left_out(plan_of([{"ply": 1, "through": 3}]), 1, 4)


def test_a_piece_too_many_lies_last_on_the_bobbin():
    plan = slips.too_many(plan_of([{"ply": 1, "through": 2}]), 1, "Dune", 2.5)
    assert spun_of(plan) == [
        {"ply": 1, "through": 2},
        {"ply": 1, "lot": "Dune", "mass_g": 2.5},
    ]
    assert order_on(plan)[2] == ("Dune", "spun")


def test_two_rows_swapped_lie_each_in_the_others_place():
    plan = slips.swapped(plan_of([{"ply": 1, "through": 3}, {"ply": 2, "through": 1}]), 1, 2, 3)
    assert [lot for lot, _ in order_on(plan)] == ["Kelp", "Rust", "Foam", "Dune"]
    assert spun_of(plan)[1] == {"ply": 2, "through": 1}
    again = slips.swapped(plan, 1, 2, 3)
    assert spun_of(again) == [{"ply": 1, "through": 3}, {"ply": 2, "through": 1}]


def test_rows_that_were_not_ticked_yet_can_be_swapped():
    plan = slips.swapped(plan_of([{"ply": 2, "row": 1}]), 1, 1, 2)
    assert spun_of(plan)[1:] == [{"ply": 1, "row": 2}, {"ply": 1, "row": 1}]


def test_another_lot_went_into_a_row():
    plan = slips.another_lot(plan_of([{"ply": 1, "through": 2}]), 1, 2, "Dune")
    assert order_on(plan)[:2] == [("Kelp", "spun"), ("Dune", "spun")]


def test_a_ply_spun_in_reverse_is_put_right_by_winding_it_once_more():
    """The yarn is the planned one to the last metre, whatever of it is spun."""
    spun = [{"ply": 1, "through": 3}, {"ply": 2, "through": 1}]
    planned = yc.to_dict(yc.answer(plan_of([])))["stretches"]
    slipped = slips.in_reverse(plan_of(spun), 1)
    assert yc.to_dict(read_again(slipped))["stretches"] != planned
    mended = read_again(slips.wound_once_more(slipped, 1))
    assert yc.to_dict(mended)["stretches"] == planned
    assert "mixed_winding" not in [item.kind for item in yc.advice_on(mended)]


def test_where_no_scheme_turns_a_ply_its_rows_are_named_from_the_last():
    plan = slips.in_reverse(plan_of([], {"name": "mirrored", "plies": 2}), 2)
    rows = [entry["row"] for entry in spun_of(plan)]
    assert rows == list(range(8, 0, -1))
    assert [state for _, state in order_on(plan, 2)] == ["spun"] * 8


def test_a_single_spun_the_other_way_round_cannot_be_plied_in():
    plan = slips.other_twist(plan_of([{"ply": 1, "through": 4}]), 1)
    told = [item for item in yc.advice_on(read_again(plan)) if item.kind == "wrong_twist"]
    assert len(told) == 1
    assert "cannot be plied" in told[0].text
    assert slips.other_twist(plan, 1).spinning.direction == ("Z", "Z")


CLOSING = {
    "name": "fractal",
    "divisions": [1, 3],
    "sequence": ["Kelp", "Foam", "Kelp"],
    "parts": [1, 1, 1],
}


def rows_of(plan: Plan, ply: int) -> list[tuple[str, float]]:
    single = yc.to_dict(read_again(plan))["singles"][ply - 1]
    return [(portion["lot"], round(portion["mass_g"], 6)) for portion in single["portions"]]


def closing_plan(spun: list[dict]) -> Plan:
    """Return three rows, three times through on ply 2: 2.5, 5 and 2.5 g, the last meeting twice."""
    data = by_hand({"Kelp": 30.0, "Foam": 30.0}, scheme=CLOSING, spun=spun)
    return yc.plan_from_data(data)


def test_what_is_left_of_a_closing_colour_met_too_late_is_spun_at_the_end():
    """Row 3 is spun, rows 4 to 9 are not: row 4 and row 6 are laid aside and go to row 9."""
    plan = slips.closed_once_from_here(closing_plan([{"ply": 2, "through": 3}]))
    kelp, foam = ("Kelp", 2.5), ("Foam", 5.0)
    assert rows_of(plan, 2) == [kelp, foam, kelp, foam, kelp, foam, ("Kelp", 7.5)]
    assert rows_of(plan, 1) == [("Kelp", 7.5), ("Foam", 15.0), ("Kelp", 7.5)]
    states = [state for _, state in order_on(plan, 2)]
    assert states == ["spun"] * 3 + ["to_spin"] * 4


def of_four(spun: list[dict], **options) -> Plan:
    """Return Kelp, Foam, Rust, Kelp, three times through on ply 2: 2 g each row there."""
    scheme = CLOSING | {"sequence": ["Kelp", "Foam", "Rust", "Kelp"], "parts": [1, 1, 1, 1]}
    masses = {"Kelp": 24.0, "Foam": 12.0, "Rust": 12.0}
    return yc.plan_from_data(by_hand(masses, scheme=scheme | options, spun=spun))


@pytest.mark.parametrize(
    ("through", "order"),
    [
        (1, "KFKR KFKR KFRK"),
        (2, "KFKR KFKR KFRK"),
        (3, "KFRK FKRK FKRK"),
        (4, "KFRK FKRK FKRK"),
        (5, "KFRK KFKR KFRK"),
        (8, "KFRK KFRK FKRK"),
    ],
)
def test_the_last_two_change_places_at_every_meeting_still_to_be_spun(through, order):
    """Where one of them is spun, the first two after the meeting do, while neither is spun."""
    spun = [{"ply": 2, "through": through}]
    plan = slips.swapped_from_here(of_four(spun))
    assert "".join(lot[0] for lot, _ in rows_of(plan, 2)) == order.replace(" ", "")
    assert [state for _, state in order_on(plan, 2)].count("spun") == through


def test_pieces_that_cannot_part_the_closing_colour_stay():
    """Kelp, Foam, Kelp: whatever changes places, Kelp stands beside Kelp."""
    with pytest.raises(yc.PlanError, match="nothing is left to close otherwise"):
        slips.swapped_from_here(closing_plan([{"ply": 2, "through": 1}]))


def test_where_every_meeting_is_spun_nothing_is_left_to_close_otherwise():
    with pytest.raises(yc.PlanError, match="every meeting is spun already"):
        slips.closed_once_from_here(closing_plan([{"ply": 2, "through": 7}]))


def test_a_sequence_that_does_not_close_has_no_meeting():
    with pytest.raises(yc.PlanError, match="does not close"):
        slips.closed_once_from_here(plan_of([]))


@given(st.lists(st.integers(1, 6), unique=True, max_size=6), st.sets(st.integers(1, 6)))
def test_pieces_said_short_are_the_same_pieces(order, noted):
    """Whatever is spun in whatever order, piece by piece or rows as planned at once."""
    pieces = [Spun(1, row, note="felted" if row in noted else "") for row in order]
    plan = with_pieces(plan_of([]), 1, pieces)
    assert pieces_on(plan, 1) == pieces


def test_every_slip_says_what_to_do():
    assert tuple(SLIP_WORDS) == slips.SLIPS
