"""The stretch table, against a plain loop and against asking every millimetre."""

import numpy as np
import pytest

from tests.benchmarks.baselines import stretches_by_a_loop, stretches_by_millimetres
from tests.helpers.sized_plans import ONE_TWO_FOUR, strands_of
from yarncolor.layout.stretches import sections, stretches
from yarncolor.layout.winding import Strands

CASES = {"8 lots x (1, 2, 4)": (8, ONE_TWO_FOUR), "100 lots x 8 x 6 plies": (100, (8,) * 6)}
every_case = pytest.mark.parametrize(("lots", "repeats"), CASES.values(), ids=CASES)
VARIANTS = 10_000


def measured(benchmark, lots, repeats, against):
    benchmark.group = f"stretches, {lots} lots x {repeats}"
    benchmark.extra_info["against"] = against


@every_case
def test_the_stretch_table(benchmark, lots, repeats):
    measured(benchmark, lots, repeats, "ours")
    strands = strands_of(lots, repeats)
    found = benchmark(stretches, strands, 0.0)
    rows = stretches_by_a_loop(strands)
    np.testing.assert_allclose(
        found.edges_ppb[1:] / 1e9, [end for _, end, _ in rows], rtol=0, atol=2e-9
    )
    np.testing.assert_array_equal(found.lot, [lot for _, _, lot in rows])


@every_case
def test_a_plain_loop(benchmark, lots, repeats):
    measured(benchmark, lots, repeats, "a plain loop over the changes")
    strands = strands_of(lots, repeats)
    rows = benchmark(stretches_by_a_loop, strands)
    assert rows[0][0] == 0
    assert rows[-1][1] == 1
    assert sum(end - start for start, end, _ in rows) == pytest.approx(1)
    assert len(rows) <= sum(lots * n for n in repeats)


@every_case
def test_asking_every_millimetre(benchmark, lots, repeats):
    measured(benchmark, lots, repeats, "asking every millimetre")
    strands = strands_of(lots, repeats)
    start_m, lot = benchmark(stretches_by_millimetres, strands)
    found = stretches(strands, 0.0)
    long_enough = np.diff(found.edges_m) > 0.002
    for edge, side_by_side in zip(
        found.edges_m[:-1][long_enough], found.lot[long_enough], strict=True
    ):
        at = np.searchsorted(start_m, edge + 0.001, side="right") - 1
        assert abs(start_m[at] - edge) < 0.0011
        np.testing.assert_array_equal(lot[at], side_by_side)


def test_many_variants_at_once(benchmark):
    measured(benchmark, 8, f"{ONE_TWO_FOUR}, {VARIANTS:,} variants", "ours")
    strands = strands_of(8, ONE_TWO_FOUR, (VARIANTS,))
    ticks, lot = benchmark(sections, strands)
    assert ticks.shape == (VARIANTS, 56)
    for at in range(0, VARIANTS, 500):
        one = Strands(strands.starts, strands.length_m[at], strands.lot[at])
        for share, side_by_side in shares_of(stretches_by_a_loop(one)):
            section = np.searchsorted(ticks[at], share * 1e9)
            assert tuple(lot[at, section]) == side_by_side


def test_many_variants_one_at_a_time(benchmark):
    measured(benchmark, 8, f"{ONE_TWO_FOUR}, {VARIANTS:,} variants", "one at a time")
    strands = strands_of(8, ONE_TWO_FOUR, (VARIANTS,))
    together = benchmark.pedantic(one_at_a_time, args=(strands,), rounds=3)
    ticks, lot = sections(strands)
    np.testing.assert_array_equal([one for one, _ in together], ticks)
    np.testing.assert_array_equal([one for _, one in together], lot)


def one_at_a_time(strands: Strands) -> list[tuple[np.ndarray, np.ndarray]]:
    return [
        sections(Strands(strands.starts, length_m, lot))
        for length_m, lot in zip(strands.length_m, strands.lot, strict=True)
    ]


def shares_of(rows):
    """Return the middle of each stretch that is long enough to be asked, and its lots."""
    return [((start + end) / 2, lots) for start, end, lots in rows if end - start > 1e-6]
