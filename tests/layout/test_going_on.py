"""Ways to go on from bobbins that strayed: laws, and cases reckoned by hand.

One metre weighs a tenth of a gram throughout.
"""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.helpers.examples import times
from tests.helpers.wheels import Bobbin, as_planned, at_wheel, bobbins, lengths_m
from yarncolor.layout.going_on import (
    WAYS,
    carry_on,
    follow,
    in_step,
    make_up,
    pull_off,
    pulled_off_m,
    run_out,
)
from yarncolor.layout.off_plan import largest_shift_m, ply_states

STRAIGHT, WOUND_OFF = 0, 1
SIX = [(0, 5.0), (1, 4.0), (2, 6.0), (0, 5.0), (1, 4.0), (2, 6.0)]
"""Three colours twice over: 30 m, a change after every row."""


def rows_of_other_colours(metres: list[float]) -> list[tuple[int, float]]:
    """Return rows of which each has another colour than the one before."""
    return [(at % 3, length_m) for at, length_m in enumerate(metres)]


long_plies = st.lists(st.integers(20, 90).map(float), min_size=4, max_size=14).map(
    rows_of_other_colours
)
slips = st.integers(1, 15).flatmap(lambda metres: st.sampled_from((-float(metres), float(metres))))


@st.composite
def one_slip(draw) -> tuple[Bobbin, int, int, float]:
    """Draw a ply of which one row came out too long or too short: it, rows, the row, metres."""
    planned = draw(long_plies)
    spun = draw(st.integers(2, len(planned) - 1))
    row, slip_m = draw(st.integers(1, spun)), draw(slips)
    return (
        as_planned(planned, spun, **{f"row_{row}": planned[row - 1][1] + slip_m}),
        spun,
        row,
        slip_m,
    )


@times(3)
@given(one_slip())
def test_straight_off_one_slip_late_is_taken_out_whole(drawn):
    bobbin, spun, row, slip_m = drawn
    before, after = row - 1, spun - row + 1
    assume(before > after)
    start = at_wheel([bobbin], STRAIGHT)
    mended = in_step(start)
    next_m = bobbin.planned[spun][1]
    assert lengths_m(mended)[spun] == pytest.approx(next_m - slip_m)
    (state,) = ply_states(mended, start.wound_off)
    assert state.shifts_m[:before] == pytest.approx(np.zeros(before), abs=1e-9)


@times(3)
@given(one_slip())
def test_straight_off_one_slip_early_is_left_alone(drawn):
    bobbin, spun, row, _ = drawn
    assume(row - 1 <= spun - row + 1)
    start = at_wheel([bobbin], STRAIGHT)
    assert in_step(start) is start.wheel


@times(3)
@given(one_slip())
def test_wound_off_every_slip_is_taken_out_at_the_next_row(drawn):
    bobbin, spun, _, slip_m = drawn
    start = at_wheel([bobbin], WOUND_OFF)
    mended = in_step(start)
    assert lengths_m(mended)[spun] == pytest.approx(bobbin.planned[spun][1] - slip_m)
    (state,) = ply_states(mended, start.wound_off)
    assert state.shifts_m[spun:] == pytest.approx(np.zeros(len(state.shifts_m) - spun), abs=1e-9)


def test_what_the_next_row_cannot_give_is_taken_off_the_row_after_it():
    """15 m too many; the next row gives its 4 m and falls away, the last gives its 6 m too."""
    start = at_wheel([as_planned(SIX, 4, row_4=10.0)], STRAIGHT)
    assert lengths_m(in_step(start)) == pytest.approx([5, 4, 6, 10, 5])
    assert in_step(start).row.tolist() == [1, 2, 3, 4, 6]
    start = at_wheel([as_planned(SIX, 4, row_4=20.0)], STRAIGHT)
    assert lengths_m(in_step(start)) == pytest.approx([5, 4, 6, 20])


def test_rows_to_spin_go_back_to_their_planned_metres():
    """Spun thick: 30 m of rows come to 27 m; in step they are spun at 4 m and 6 m again."""
    start = at_wheel([as_planned(SIX, 4)], STRAIGHT)
    pieces = start.wheel.pieces
    thick_m = np.where(start.wheel.spun, pieces.length_m, pieces.length_m * 0.9)
    thick = at_wheel([as_planned(SIX, 4)], STRAIGHT).wheel
    thick.pieces.length_m[:] = thick_m
    thick.pieces.tex[4:] /= 0.9
    stepped = in_step(type(start)(thick, start.wound_off, 0.0))
    assert lengths_m(stepped) == pytest.approx([5, 4, 6, 5, 4, 6])
    assert stepped.pieces.mass_g[4:] == pytest.approx([0.4 / 0.9, 0.6 / 0.9])


@times(3)
@given(long_plies, st.integers(1, 19), st.integers(0, 2).map(lambda times: 2 * times))
def test_a_surplus_on_a_finished_plys_outer_end_is_pulled_off(planned, surplus_m, wound_off):
    last = {f"row_{len(planned)}": planned[-1][1] + surplus_m}
    start = at_wheel([as_planned(planned, len(planned), **last)], wound_off)
    assert pulled_off_m(start) == pytest.approx([surplus_m])
    assert lengths_m(pull_off(start)) == pytest.approx([metres for _, metres in planned])


@given(st.lists(bobbins(), min_size=1, max_size=4), st.integers(0, 3))
def test_nothing_is_pulled_off_what_is_wound_off_or_still_to_be_spun(drawn, wound_off):
    start = at_wheel(drawn, wound_off)
    for k, drawn_m in enumerate(pulled_off_m(start)):
        if wound_off % 2 or not start.plies[k].is_finished:
            assert drawn_m == 0


@times(3)
@given(st.lists(bobbins(), min_size=1, max_size=4), st.integers(0, 1))
def test_all_plies_that_still_have_rows_run_out_together(drawn, wound_off):
    start = at_wheel(drawn, wound_off)
    ran = ply_states(run_out(start), start.wound_off)
    finished = [state.single_m for state in start.plies if state.is_finished]
    for now, then in zip(start.plies, ran, strict=True):
        end_m = min(finished, default=now.planned_at_m[-1])
        stays = now.is_finished or now.spun_m >= end_m
        assert then.single_m == pytest.approx(now.single_m if stays else end_m)
        own = then.length_m[~then.spun] / now.length_m[~now.spun]
        assert own == pytest.approx(np.full(len(own), own[0] if len(own) else 1.0))


def test_what_was_left_out_and_what_is_lacking_is_spun_next():
    """Row 2 is left out, 0.4 g; row 3 lacks 2 m of 6 m, 0.2 g of its lot."""
    bobbin = Bobbin(SIX, [(1, 0, 5.0), (3, 2, 4.0), (4, 0, 5.5)])
    made = make_up(at_wheel([bobbin], STRAIGHT))
    assert made.row.tolist() == [1, 3, 4, 0, 0, 5, 6]
    assert made.spun.tolist() == [True] * 3 + [False] * 4
    assert made.after_row.tolist() == [1, 3, 4, 4, 4, 5, 6]
    assert made.pieces.lot.tolist() == [0, 2, 0, 1, 2, 1, 2]
    assert made.pieces.mass_g[3:5] == pytest.approx([0.4, 0.2])
    assert lengths_m(made)[3:5] == pytest.approx([4.0, 2.0])


def test_each_plys_lack_is_made_up_on_its_own_bobbin():
    plies = [as_planned(SIX, 2, row_1=4.0), as_planned(SIX, 6), as_planned(SIX, 6, row_2=3.0)]
    made = make_up(at_wheel(plies, STRAIGHT))
    assert [len(lengths_m(made, k)) for k in range(3)] == [7, 6, 7]
    assert lengths_m(made, 0)[2] == pytest.approx(1.0)
    assert lengths_m(made, 2)[6] == pytest.approx(1.0)


def test_the_other_plies_follow_the_finished_one_as_far_as_they_can():
    """Row 5 of the finished ply is 3 m longer. Straight off, the other has rows 4 to 6 to spin:
    its row 5 meets that one whole."""
    plies = [as_planned(SIX, 6, row_5=7.0), as_planned(SIX, 3)]
    led = follow(at_wheel(plies, STRAIGHT))
    assert lengths_m(led, 1) == pytest.approx([5, 4, 6, 5, 7, 6])
    assert lengths_m(led, 0) == pytest.approx([5, 4, 6, 5, 7, 6])


def test_what_lies_on_the_other_bobbin_already_cannot_follow():
    plies = [as_planned(SIX, 6, row_1=8.0), as_planned(SIX, 3)]
    start = at_wheel(plies, STRAIGHT)
    assert follow(start) is start.wheel


def test_where_rows_differ_a_ply_follows_at_the_same_place():
    """Wound off: the finished ply's first 5 m came out at 10 m. Of the other, whose rows to spin
    are of 2 m and 8 m, the first lies wholly in those, the second by 3 m of its 8 m."""
    plies = [as_planned([(0, 5.0), (1, 5.0)], 2, row_1=10.0), Bobbin([(2, 2.0), (3, 8.0)], [])]
    led = follow(at_wheel(plies, WOUND_OFF))
    assert lengths_m(led, 1) == pytest.approx([4.0, 6.0 + 5.0])


def test_a_ply_that_would_be_left_with_nothing_does_not_follow():
    """The finished ply left its first 10 m out, and all of the other lies beside these."""
    plies = [Bobbin([(0, 10.0), (1, 10.0)], [(2, 1, 10.0)]), Bobbin([(2, 4.0), (3, 5.0)], [])]
    start = at_wheel(plies, WOUND_OFF)
    assert follow(start) is start.wheel


def test_of_two_finished_plies_the_one_that_strayed_is_followed():
    plies = [as_planned(SIX, 6), as_planned(SIX, 6, row_6=8.0), as_planned(SIX, 5)]
    assert lengths_m(follow(at_wheel(plies, STRAIGHT)), 2)[-1] == pytest.approx(8.0)


def test_a_long_ply_that_did_not_stray_is_not_followed():
    """Its 60 m lie where they were planned; of the short one the last row is 2 m longer."""
    short = SIX[:3]
    plies = [as_planned([(0, 60.0)], 1), as_planned(short, 3, row_3=8.0), as_planned(short, 2)]
    assert lengths_m(follow(at_wheel(plies, STRAIGHT)), 2) == pytest.approx([5, 4, 8])


@given(st.lists(bobbins(), min_size=1, max_size=4), st.integers(0, 3))
def test_what_lies_on_the_bobbins_is_changed_by_pulling_off_alone(drawn, wound_off):
    start = at_wheel(drawn, wound_off)
    for name, way in WAYS.items():
        found = way(start)
        if name != "pull_off":
            spun = start.wheel.spun
            assert found.pieces.length_m[found.spun].tolist() == (
                start.wheel.pieces.length_m[spun].tolist()
            )


@given(st.lists(bobbins(), min_size=1, max_size=4), st.integers(0, 3))
def test_every_way_weighs_what_its_metres_weigh(drawn, wound_off):
    for way in WAYS.values():
        pieces = way(at_wheel(drawn, wound_off)).pieces
        assert pieces.mass_g == pytest.approx(pieces.length_m * 0.1)
        assert (pieces.length_m > 0).all()


@given(st.lists(long_plies, min_size=1, max_size=4), st.integers(0, 3), st.data())
def test_where_nothing_strayed_every_way_is_to_carry_on(planned, wound_off, data):
    alike = [planned[0]] * len(planned)
    spun = [data.draw(st.integers(0, len(planned[0]))) for _ in planned]
    start = at_wheel(
        [as_planned(ply, rows) for ply, rows in zip(alike, spun, strict=True)], wound_off
    )
    for name, way in WAYS.items():
        assert way(start) is start.wheel, name
    assert largest_shift_m(ply_states(carry_on(start), start.wound_off)) == 0
