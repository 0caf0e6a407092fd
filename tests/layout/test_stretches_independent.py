"""The stretch table against something that knows nothing of it: look-ups along each bobbin.

A bobbin is last in, first out: at s metres from the start of spinning a single of L metres comes
off at u = L - s for an even number of windings, at u = s for an odd one; its place in the yarn is
u · (1 - contraction). A chain is at 3nl + t, 3nl + 2l - t and 3nl + 2l + t of what comes off.
"""

from fractions import Fraction
from itertools import accumulate
from math import ceil, floor

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.examples import times
from tests.helpers.strategies import EVERY_SCHEME, answered, by_hand, plan_data
from yarncolor.layout.stretches import sections, stretches, stretches_of_many
from yarncolor.layout.winding import Strands
from yarncolor.plan.limits import MOST_PLIES

SAMPLES = 3000
TOO_NEAR = 2e-9
GOLDEN = (5**0.5 - 1) / 2


def lots_at(single: dict, off_m: np.ndarray) -> np.ndarray:
    """Return the lots at metres of what comes off a bobbin, by its running total."""
    spun_m = off_m if single["wound_off"] % 2 else single["length_m"] - off_m
    ends_m = np.cumsum([portion["end_m"] - portion["start_m"] for portion in single["portions"]])
    gone_by = (ends_m[:-1, None] <= spun_m).sum(axis=0)
    return np.array([portion["lot"] for portion in single["portions"]])[gone_by]


def loops_of(length_m: float, loop_m: float) -> int:
    """Return ceil(length / (3 · loop)), where a whole number but for the last bits is whole."""
    loops = length_m / (3 * loop_m)
    return round(loops) if abs(loops - round(loops)) < 1e-9 * loops else ceil(loops)


def chain_at(length_m: float, loop_m: float, single_m: np.ndarray) -> list[np.ndarray]:
    """Return where the three strands are, so many metres along the yarn before contraction."""
    third = length_m / (3 * loops_of(length_m, loop_m))
    n = np.floor(single_m / third)
    t = single_m - n * third
    return [3 * n * third + t, 3 * n * third + 2 * third - t, 3 * n * third + 2 * third + t]


def looked_up(data: dict, found: dict, yarn_m: np.ndarray) -> np.ndarray:
    """Return the lot of each ply at metres of yarn, without the stretch table: (plies, n)."""
    single_m = yarn_m / (1 - data["plying"]["contraction"])
    singles = found["singles"]
    if data["scheme"]["name"] == "chain":
        along = chain_at(singles[0]["length_m"], data["scheme"]["loop_m"], single_m)
        return np.array([lots_at(singles[0], off_m) for off_m in along])
    return np.array([lots_at(single, single_m) for single in singles])


def sampled(found: dict) -> tuple[np.ndarray, np.ndarray]:
    """Return places of the yarn, none near an edge, and the stretch that each lies in.

    They are spread over the whole yarn, and one lies in the middle of each stretch.
    """
    edges = np.array([0.0, *(stretch["end_m"] for stretch in found["stretches"])])
    spread = (np.arange(SAMPLES) * GOLDEN % 1) * edges[-1]
    yarn_m = np.sort(np.append(spread, (edges[1:] + edges[:-1]) / 2))
    apart = np.abs(yarn_m[:, None] - edges[None, :]).min(axis=1)
    yarn_m = yarn_m[apart > TOO_NEAR * edges[-1]]
    return yarn_m, np.searchsorted(edges, yarn_m) - 1


def assert_every_sample_agrees(data: dict) -> dict:
    found = answered(data)
    yarn_m, stretch = sampled(found)
    table = np.array([row["lots"] for row in found["stretches"]])
    assert len(yarn_m) > SAMPLES / 2
    np.testing.assert_array_equal(table[stretch].T, looked_up(data, found, yarn_m))
    return found


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_the_table_says_what_a_look_up_along_each_bobbin_says(scheme, data):
    drawn = data.draw(plan_data(scheme))
    if scheme == "chain":
        drawn.pop("target", None)  # has its own test, below
    assert_every_sample_agrees(drawn)


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_the_yarn_ends_where_the_first_ply_runs_out(scheme, data):
    drawn = data.draw(plan_data(scheme))
    found = answered(drawn)
    shortest = min(single["length_m"] for single in found["singles"])
    folds = 3 if scheme == "chain" else 1
    expected = shortest / folds * (1 - drawn["plying"]["contraction"])
    assert found["yarn"]["length_m"] == pytest.approx(expected, rel=1e-12)
    assert found["stretches"][-1]["end_m"] == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("loop_m", "loops"), [(100.0, 1), (60.0, 1), (59.0, 2), (20.0, 3), (0.7, 86), (0.01, 6000)]
)
@pytest.mark.parametrize("wound_off", [0, 1])
def test_a_chain_of_few_or_many_loops_is_where_its_formula_says(loop_m, loops, wound_off):
    masses = {"Kelp": 5.0, "Foam": 2.3, "Wrack": 10.7}
    data = by_hand(
        masses,
        scheme={"name": "chain", "loop_m": loop_m},
        plying={"wound_off": wound_off, "contraction": 0.1},
    )
    assert loops_of(180.0, loop_m) == loops
    found = assert_every_sample_agrees(data)
    assert found["singles"][0]["length_m"] == pytest.approx(180.0)


def test_a_chain_made_to_a_target_is_folded_as_often_as_its_own_length_asks():
    """L is the length of the single that is spun: 9 m in loops of 3 · 0.5 m, not 90 m."""
    data = by_hand(
        {"Kelp": 5.0, "Foam": 4.0},
        scheme={"name": "chain", "loop_m": 0.5},
        plying={"wound_off": 1, "contraction": 0.0},
        target={"yarn_m": 3.0},
    )
    found = assert_every_sample_agrees(data)
    assert found["singles"][0]["length_m"] == pytest.approx(9.0)


def joined(ticks: list[int], lots: list[list[int]]) -> tuple[list[int], list[list[int]]]:
    """Return raw sections as stretches: without those of no length, equal neighbours as one."""
    edges, rows = [0], []
    for tick, row in zip(ticks, lots, strict=True):
        if tick == edges[-1]:
            continue
        if rows and rows[-1] == row:
            edges[-1] = tick
        else:
            edges.append(tick)
            rows.append(row)
    return edges, rows


def merged(plies: list[list[tuple[int, int]]]) -> tuple[list[int], list[list[int]]]:
    """Return edges in billionths and lots, from whole lengths, in plain exact numbers."""
    shortest = min(sum(length for length, _ in ply) for ply in plies)
    tables = []
    for ply in plies:
        ends = accumulate(length for length, _ in ply)
        parts = [Fraction(min(end, shortest), shortest) for end in ends]
        ticks = [floor(part * 10**9 + Fraction(1, 2)) for part in parts]
        tables.append(list(zip(ticks, (lot for _, lot in ply), strict=True)))
    edges = sorted({tick for table in tables for tick, _ in table})
    rows = [
        [next(lot for tick, lot in table if tick >= edge) for table in tables] for edge in edges
    ]
    return joined(edges, rows)


pieces = st.tuples(st.integers(1, 40), st.integers(0, 3))
plies_of_pieces = st.lists(st.lists(pieces, min_size=1, max_size=9), min_size=1, max_size=6)


def strands_of(plies: list[list[tuple[int, int]]]) -> Strands:
    flat = [piece for ply in plies for piece in ply]
    return Strands(
        starts=np.cumsum([0, *map(len, plies)]),
        length_m=np.array([float(length) for length, _ in flat]),
        lot=np.array([lot for _, lot in flat]),
    )


@times(5)
@given(plies_of_pieces)
def test_the_merge_is_that_of_exact_whole_numbers(plies):
    found = stretches(strands_of(plies), contraction=0.25)
    edges, lots = merged(plies)
    assert found.edges_ppb.tolist() == edges
    assert found.lot.tolist() == lots
    assert found.yarn_m == 0.75 * min(sum(length for length, _ in ply) for ply in plies)


@given(plies_of_pieces, st.data())
def test_many_yarns_at_once_are_merged_like_each_alone(plies, data):
    """The variants have the same number of pieces on each ply, other lengths and other lots."""
    variants = [plies] + [
        [[data.draw(pieces) for _ in ply] for ply in plies]
        for _ in range(data.draw(st.integers(0, 3)))
    ]
    alone = [strands_of(variant) for variant in variants]
    together = Strands(
        starts=alone[0].starts,
        length_m=np.stack([one.length_m for one in alone]),
        lot=np.stack([one.lot for one in alone]),
    )
    ticks, lots = sections(together)
    for at, one in enumerate(alone):
        single = stretches(one, contraction=0.0)
        edges, rows = joined(ticks[at].tolist(), lots[at].tolist())
        assert edges == single.edges_ppb.tolist()
        assert rows == single.lot.tolist()


def test_the_low_bits_of_the_merge_tell_all_plies_apart():
    plies = MOST_PLIES
    length_m = np.linspace(2.0, 1.0, plies)
    strands = Strands(np.arange(plies + 1), length_m, np.arange(plies))
    found = stretches(strands, 0.0)
    assert (found.lot.tolist(), found.yarn_m) == ([list(range(plies))], 1.0)


def test_yarns_of_unlike_lengths_laid_out_together_are_each_as_alone():
    """Two plies of two pieces; the second yarn is a third as long, its plies change elsewhere."""
    starts, lot = np.array([0, 2, 4]), np.array([0, 1, 0, 1])
    length_m = np.array([[30.0, 30.0, 15.0, 60.0], [4.0, 16.0, 12.0, 8.0]])
    together = stretches_of_many(Strands(starts, length_m, np.tile(lot, (2, 1))), 0.1)
    for one, own_m, edges_m in zip(
        together, length_m, ([0, 13.5, 27, 54], [0, 3.6, 10.8, 18]), strict=True
    ):
        alone = stretches(Strands(starts, own_m, lot), 0.1)
        assert one.edges_ppb.tolist() == alone.edges_ppb.tolist()
        assert one.lot.tolist() == alone.lot.tolist()
        assert one.edges_m == pytest.approx(edges_m)
    assert together[0].lot.tolist() == [[0, 0], [0, 1], [1, 1]]
    assert together[1].lot.tolist() == [[0, 0], [1, 0], [1, 1]]
