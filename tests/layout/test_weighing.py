"""Controlled rounding: every weighed row up or down, and nothing lost along ply or lot.

Laws over portions drawn at random, then cases small enough to weigh by hand. Written in whole
steps of the scale: a lot's total is brought down to them and its portions are scaled with it.
"""

from math import floor

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.examples import times
from tests.helpers.strategies import answered, by_hand
from yarncolor.layout.portions import PlyPieces, Portions, stacked
from yarncolor.layout.weighing import WeighGroups, weighed

LOTS = 4
NEAR = 1e-6
"""Parts of a step: far above the noise of the last bits, far below what rounding does."""


def portions(plies: list[list[tuple[int, float]]]) -> Portions:
    """Return portions of (lot, grams), ply by ply."""
    return stacked(
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


def scaled_steps(given: Portions, step_g: float) -> tuple[np.ndarray, dict[int, int]]:
    """Return the portions in steps, scaled to whole totals of their lots, and those totals."""
    steps = given.mass_g / step_g
    totals = {lot: steps[given.lot == lot].sum() for lot in set(given.lot.tolist())}
    whole = {lot: floor(total * (1 + 1e-9)) for lot, total in totals.items()}
    scale = np.array([whole[lot] / totals[lot] for lot in given.lot])
    return steps * scale, whole


grams = st.one_of(
    st.floats(0.01, 60),
    st.integers(1, 200).map(lambda tenths: tenths / 10),
    st.sampled_from((0.1, 0.2, 0.3, 1 / 3, 0.7, 2.5)),
)
drawn_plies = st.lists(
    st.lists(st.tuples(st.integers(0, LOTS - 1), grams), min_size=1, max_size=12),
    min_size=1,
    max_size=4,
)
weighings = st.tuples(drawn_plies, st.sampled_from((0.01, 0.1, 0.25, 1.0, 5.0)))


def weigh(weighing: tuple) -> tuple[Portions, WeighGroups, np.ndarray, np.ndarray, dict[int, int]]:
    """Return what was weighed, in steps where the scale has a say, beside what is expected."""
    plies, step_g = weighing
    found, heaps, rest_g = weighed(portions(plies), LOTS, step_g)
    return found, heaps, rest_g / step_g, *scaled_steps(found, step_g)


@times(3)
@given(weighings)
def test_every_row_and_heap_is_its_scaled_mass_rounded_up_or_down(weighing):
    found, heaps, _, steps, _ = weigh(weighing)
    single = ~np.isnan(found.weigh_g)
    in_heap = [steps[heaps.group == at].sum() for at in range(len(heaps.ply))]
    exact = np.append(steps[single], in_heap)
    rounded = np.append(found.weigh_g[single], heaps.weigh_g) / weighing[1]
    assert rounded == pytest.approx(np.rint(rounded), abs=NEAR)
    assert (rounded > np.floor(exact + NEAR) - NEAR).all()
    assert (rounded < np.ceil(exact - NEAR) + NEAR).all()


@times(3)
@given(weighings)
def test_every_running_total_stays_within_one_step(weighing):
    found, _, _, steps, _ = weigh(weighing)
    for k in range(len(weighing[0])):
        own = (found.ply == k) & ~np.isnan(found.weigh_g)
        away = np.cumsum(found.weigh_g[own] / weighing[1]) - np.cumsum(steps[own])
        assert (np.abs(away) < 1 + NEAR).all()


@times(3)
@given(weighings)
def test_what_a_ply_has_of_a_lot_stays_within_one_step_heaps_and_all(weighing):
    found, heaps, _, steps, _ = weigh(weighing)
    for k in range(len(weighing[0])):
        for lot in range(LOTS):
            own = (found.ply == k) & (found.lot == lot)
            heap = heaps.weigh_g[(heaps.ply == k) & (heaps.lot == lot)].sum()
            on_scale = (np.nansum(found.weigh_g[own]) + heap) / weighing[1]
            assert abs(on_scale - steps[own].sum()) < 1 + NEAR


@times(3)
@given(weighings)
def test_every_lot_is_exact_and_its_rest_is_under_one_step(weighing):
    found, heaps, rest, _, whole = weigh(weighing)
    for lot in range(LOTS):
        total = np.nansum(found.weigh_g[found.lot == lot]) + heaps.weigh_g[heaps.lot == lot].sum()
        assert total / weighing[1] == pytest.approx(whole.get(lot, 0), abs=NEAR)
        assert 0 <= rest[lot] < 1
        all_of_it = found.mass_g[found.lot == lot].sum() / weighing[1]
        assert total / weighing[1] + rest[lot] == pytest.approx(all_of_it, abs=NEAR)


@times(3)
@given(weighings)
def test_what_is_below_two_steps_is_one_heap_for_each_ply_and_lot(weighing):
    found, heaps, _, steps, _ = weigh(weighing)
    clear = np.abs(steps - 2) > NEAR
    np.testing.assert_array_equal(np.isnan(found.weigh_g)[clear], (steps < 2)[clear])
    pairs = list(zip(heaps.ply.tolist(), heaps.lot.tolist(), strict=True))
    assert len(set(pairs)) == len(pairs)
    for at, pair in enumerate(zip(found.ply.tolist(), found.lot.tolist(), strict=True)):
        heap = heaps.group[at]
        assert (heap == -1) == (not np.isnan(found.weigh_g[at]))
        assert heap == -1 or pairs[heap] == pair


@given(weighings)
def test_no_row_says_nothing(weighing):
    found, *_ = weigh(weighing)
    assert not (found.weigh_g == 0).any()


whole_steps = st.lists(
    st.lists(st.tuples(st.integers(0, LOTS - 1), st.integers(2, 500)), min_size=1, max_size=12),
    min_size=1,
    max_size=4,
)


@given(whole_steps, st.sampled_from((0.01, 0.1, 0.3, 1.0, 5.0)))
def test_a_plan_in_whole_steps_is_weighed_as_it_is(plies, step_g):
    in_grams = [[(lot, steps * step_g) for lot, steps in ply] for ply in plies]
    found, heaps, rest_g = weighed(portions(in_grams), LOTS, step_g)
    assert found.weigh_g == pytest.approx(found.mass_g)
    assert len(heaps.ply) == 0
    assert not rest_g.any()


def of_two_plies(mass_g: float, divisions: list, step_g: float = 0.1) -> dict:
    return answered(
        by_hand(
            {"Kelp": mass_g},
            scheme={"name": "fractal", "divisions": divisions},
            scale={"step_g": step_g},
        )
    )


def rows_of(found: dict) -> list[list[float | None]]:
    return [[row["weigh_g"] for row in single["portions"]] for single in found["singles"]]


def test_a_lot_is_brought_down_to_whole_steps_and_the_rest_stays_over():
    """27.05 g on a scale of 0.1 g: 27 g in two, and 0.05 g that it cannot show."""
    found = of_two_plies(27.05, [1, 1])
    assert [row for (row,) in rows_of(found)] == pytest.approx([13.5, 13.5])
    assert found["lots"][0]["weigh_rest_g"] == pytest.approx(0.05)
    assert found["leftovers"] == []
    assert found["singles"][0]["mass_g"] == pytest.approx(13.525)


@pytest.mark.parametrize(("mass_g", "step_g"), [(0.3, 0.1), (0.7, 0.1), (2.3, 0.01), (64.1, 0.1)])
def test_a_lot_in_whole_steps_has_no_rest_whatever_its_last_bits(mass_g, step_g):
    """0.3 / 0.1 is below three in binary."""
    found = of_two_plies(mass_g, [1], step_g)
    assert rows_of(found) == [[pytest.approx(mass_g, abs=1e-12)]]
    assert found["lots"][0]["weigh_rest_g"] == 0


def test_odd_steps_go_up_on_one_ply_and_down_on_the_other():
    """27.1 g in two are 135.5 steps each."""
    one, other = (row for (row,) in rows_of(of_two_plies(27.1, [1, 1])))
    assert sorted([one, other]) == pytest.approx([13.5, 13.6])


def test_errors_along_a_ply_do_not_add_up():
    """10 g in four are 2.5 steps of 1 g: running totals 2.5, 5, 7.5, 10 stay within one."""
    (rows,) = rows_of(of_two_plies(10.0, [4], 1.0))
    assert set(rows) == {2, 3}
    assert rows[0] + rows[1] in (4, 5, 6)
    assert sum(rows) == 10


def test_two_steps_are_weighed_and_less_is_a_heap():
    """0.8 g in four are two steps each; 0.7 g in four are a heap of seven."""
    assert rows_of(of_two_plies(0.8, [4])) == [[pytest.approx(0.2)] * 4]
    found = of_two_plies(0.7, [4])
    assert rows_of(found) == [[None] * 4]
    (heap,) = found["heaps"]
    assert (heap["ply"], heap["lot"], heap["pieces"]) == (1, "Kelp", 4)
    assert heap["weigh_g"] == pytest.approx(0.7)
    assert heap["words"] == "divide by hand into 4 equal pieces"


def test_a_heap_takes_only_the_small_portions_of_its_ply_and_lot():
    """1.6 g: 0.8 g whole on ply 1; 0.1 g twice and 0.6 g on ply 2, by sizes of 1, 6 and 1."""
    found = of_two_plies(1.6, [1, [1, 6, 1]])
    assert rows_of(found)[0] == [pytest.approx(0.8)]
    assert rows_of(found)[1] == [None, pytest.approx(0.6), None]
    assert [(heap["ply"], heap["pieces"]) for heap in found["heaps"]] == [(2, 2)]
    assert found["heaps"][0]["weigh_g"] == pytest.approx(0.2)


def test_a_heap_that_rounds_to_nothing_is_a_pinch():
    """0.05 g is half a step: nothing to weigh, and all of it stays over."""
    found = of_two_plies(0.05, [2])
    (heap,) = found["heaps"]
    assert (heap["weigh_g"], heap["words"], heap["pieces"]) == (None, "a pinch", 2)
    assert found["lots"][0]["weigh_rest_g"] == pytest.approx(0.05)


def test_heaps_of_unequal_pieces_say_so():
    (heap,) = of_two_plies(0.3, [[2, 3]])["heaps"]
    assert heap["words"] == "divide by hand into 2 pieces, larger and smaller"


OUNCE_G = 28.349523125


@pytest.mark.parametrize(
    ("scale", "step_oz"), [({}, 0.01), ({"step_g": OUNCE_G / 8}, 0.125), ({"step_g": 0.1}, None)]
)
def test_a_plan_in_ounces_is_weighed_in_steps_of_its_scale(scale, step_oz):
    """Where nothing is said the scale shows hundredths of an ounce; what is said stays."""
    kelp = by_hand({"Kelp": 100.0}, scheme={"name": "fractal", "divisions": [1, 3]})
    found = answered({**kelp, "units": "imperial", "scale": scale})
    step_g = 0.1 if step_oz is None else step_oz * OUNCE_G
    steps = [mass_g / step_g for row in rows_of(found) for mass_g in row]
    assert steps == pytest.approx([round(step) for step in steps], abs=1e-9)
    assert sum(steps) == pytest.approx(floor(100 / step_g))


def test_two_steps_of_the_scale_are_weighed_alone_and_less_on_a_heap():
    """0.6 g of Kelp on three plies are 0.2 g each: two steps. 0.5 g are five, none alone."""
    two = answered(by_hand({"Kelp": 0.6, "Foam": 3.0}, scheme={"plies": 3}))
    assert two["heaps"] == []
    assert [[row["weigh_g"] for row in single["portions"]] for single in two["singles"]] == [
        [pytest.approx(0.2), pytest.approx(1.0)]
    ] * 3
    less = answered(by_hand({"Kelp": 0.5, "Foam": 3.0}, scheme={"plies": 3}))
    assert {heap["lot"] for heap in less["heaps"]} == {"Kelp"}
    assert sum(heap["weigh_g"] for heap in less["heaps"]) == pytest.approx(0.5)
