"""How time grows with lots x repeats x plies: no faster than the pieces, but for the sorting."""

import numpy as np
import pytest

from tests.benchmarks.baselines import stretches_by_a_loop
from tests.helpers.sized_plans import strands_of
from yarncolor.layout.stretches import stretches

SIZES = [(8, 1, 3), (20, 2, 3), (50, 4, 4), (100, 8, 6)]


@pytest.mark.parametrize("size", SIZES, ids=" x ".join("%d" for _ in range(3)).__mod__)
def test_stretches_of_a_yarn(benchmark, size):
    lots, repeats, plies = size
    pieces = lots * repeats * plies
    benchmark.group = f"growth, from {np.prod(SIZES[0])} pieces"
    benchmark.extra_info["against"] = "ours" if size == SIZES[0] else f"{pieces} pieces"
    strands = strands_of(lots, (repeats,) * plies)
    found = benchmark(stretches, strands, 0.0)
    rows = stretches_by_a_loop(strands)
    assert len(found.lot) == len(rows) <= pieces
    np.testing.assert_array_equal(found.lot, [lot for _, _, lot in rows])
