"""Where colours change on bobbins that strayed, against sums made piece by piece.

A change between the rows j and j + 1 lies where the last
piece ends that belongs to a row up to j; a piece too many belongs to the row before it.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.examples import times
from tests.helpers.wheels import Bobbin, as_planned, at_wheel, bobbins, portions
from yarncolor.layout.off_plan import kept_share, largest_shift_m
from yarncolor.layout.winding import strands

wound = st.integers(0, 3)


def tenths(metres: float) -> int:
    return round(metres * 10)


def rows_of(bobbin: Bobbin) -> list[int]:
    """Return the row that each piece belongs to."""
    last, found = 0, []
    for row, _, _, _ in bobbin.pieces:
        last = row or last
        found.append(last)
    return found


def lies_at(bobbin: Bobbin, j: int) -> int:
    """Return where row j ends, in tenths of a metre, by looking at every piece."""
    belongs = rows_of(bobbin)
    last = max((i for i, row in enumerate(belongs) if row <= j), default=-1)
    return sum(tenths(metres) for _, _, metres, _ in bobbin.pieces[: last + 1])


def planned_at(bobbin: Bobbin, j: int) -> int:
    return sum(tenths(metres) for _, metres in bobbin.planned[:j])


def changes_of(bobbin: Bobbin) -> list[int]:
    lots = [lot for lot, _ in bobbin.planned]
    return [j for j in range(1, len(lots)) if lots[j - 1] != lots[j]]


def shifts(bobbin: Bobbin, wound_off: int) -> list[int]:
    planned, now = planned_at(bobbin, len(bobbin.planned)), lies_at(bobbin, len(bobbin.planned))
    if wound_off % 2:
        planned = now = 0
    sign = 1 if wound_off % 2 else -1
    return [
        (now + sign * lies_at(bobbin, j)) - (planned + sign * planned_at(bobbin, j))
        for j in changes_of(bobbin)
    ]


@times(3)
@given(bobbins(), wound)
def test_each_colour_change_is_shifted_by_the_difference_of_sums(bobbin, wound_off):
    (state,) = at_wheel([bobbin], wound_off).plies
    expected = [shift / 10 for shift in shifts(bobbin, wound_off)]
    assert state.shifts_m.tolist() == pytest.approx(expected, abs=1e-9)
    largest = max(map(abs, expected), default=0.0)
    assert largest_shift_m([state]) == pytest.approx(largest, abs=1e-9)


def best_correction(bobbin: Bobbin) -> int:
    """Return c for a ply that comes straight off, by trying every candidate in whole tenths."""
    to_spin = [metres for _, _, metres, spun in bobbin.pieces if not spun]
    h = bobbin.highest if to_spin else len(bobbin.planned)
    spun = sum(tenths(metres) for _, _, metres, lies in bobbin.pieces if lies)
    moved = [
        (spun - lies_at(bobbin, j)) - (planned_at(bobbin, h) - planned_at(bobbin, j))
        for j in changes_of(bobbin)
        if j <= h
    ]
    tried = [0, *(-sigma for sigma in moved)]
    costs = {c: sum(abs(sigma + c) for sigma in moved) for c in tried}
    least = min(costs.values())
    return min((c for c, cost in costs.items() if cost == least), key=abs)


@times(5)
@given(bobbins(rows=14))
def test_straight_from_the_bobbin_the_correction_is_the_best_that_was_tried(bobbin):
    (state,) = at_wheel([bobbin], 0).plies
    assert abs(state.correction_m) == pytest.approx(abs(best_correction(bobbin)) / 10, abs=1e-9)


@given(bobbins())
def test_wound_off_the_correction_puts_back_what_follows(bobbin):
    if not any(not spun for *_, spun in bobbin.pieces):
        return
    (state,) = at_wheel([bobbin], 1).plies
    spun = sum(tenths(metres) for _, _, metres, lies in bobbin.pieces if lies)
    expected = (planned_at(bobbin, bobbin.highest) - spun) / 10
    assert state.correction_m == pytest.approx(expected, abs=1e-9)


rows = st.lists(
    st.tuples(st.integers(0, 3), st.integers(1, 200).map(lambda tenths: tenths / 10)),
    min_size=1,
    max_size=9,
)


@given(rows, wound, st.data())
def test_what_was_spun_as_planned_shifts_nothing(planned, wound_off, data):
    spun = data.draw(st.integers(0, len(planned)))
    (state,) = at_wheel([as_planned(planned, spun)], wound_off).plies
    assert state.shifts_m == pytest.approx(0, abs=1e-9)
    assert state.correction_m == pytest.approx(0, abs=1e-9)


def tenth_by_tenth(ply: list[tuple[int, float]], wound_off: int) -> list[int]:
    """Return the lot of every tenth of a metre that comes off a bobbin."""
    spun = [lot for lot, metres in ply for _ in range(tenths(metres))]
    return spun if wound_off % 2 else spun[::-1]


@times(3)
@given(st.lists(st.tuples(rows, rows), min_size=1, max_size=4), st.data())
def test_what_is_kept_is_counted_tenth_by_tenth(plies, data):
    wound_off = np.array([data.draw(wound) for _ in plies])
    planned, now = ([pair[at] for pair in plies] for at in (0, 1))
    found = kept_share(strands(portions(planned), wound_off), strands(portions(now), wound_off))
    old = [tenth_by_tenth(ply, w) for ply, w in zip(planned, wound_off, strict=True)]
    new = [tenth_by_tenth(ply, w) for ply, w in zip(now, wound_off, strict=True)]
    yarn, reach = min(map(len, old)), min(map(len, [*old, *new]))
    kept = sum(
        a == b
        for k in range(len(plies))
        for a, b in zip(old[k][:reach], new[k][:reach], strict=True)
    )
    assert found == pytest.approx(kept / (yarn * len(plies)), abs=1e-9)


def test_pieces_swapped_lie_before_the_change_that_both_belong_to():
    """Rows 2 and 3 swapped: 3 m and 2 m. Row 2 ends where the last piece up to row 2 does."""
    planned = [(0, 1.0), (1, 2.0), (2, 3.0), (0, 4.0)]
    swapped = Bobbin(planned, [(1, 0, 1.0), (3, 2, 3.0), (2, 1, 2.0)])
    (state,) = at_wheel([swapped], 1).plies
    assert state.lies_at_m.tolist() == [0.0, 1.0, 6.0, 6.0, 10.0]
    assert state.shifts_m.tolist() == [0.0, 3.0, 0.0]


def test_either_side_of_a_row_left_out_colours_change_at_one_place():
    planned = [(0, 1.0), (1, 2.0), (2, 3.0), (0, 4.0)]
    (state,) = at_wheel([Bobbin(planned, [(1, 0, 1.0), (3, 2, 3.0)])], 1).plies
    assert state.lies_at_m.tolist() == [0.0, 1.0, 1.0, 4.0, 8.0]
