"""Spinning a plan ten thousand times, against a plan spun yarn by yarn."""

import tracemalloc

import numpy as np
import pytest

from tests.helpers.sized_plans import ONE_TWO_FOUR, answered, fractal_of
from yarncolor.answers.drift import drift
from yarncolor.answers.spins import SPINS, SPINS_AT_HAND, spins
from yarncolor.answers.straying import straying
from yarncolor.layout.portions import along_plies
from yarncolor.layout.stretches import sections, stretches
from yarncolor.layout.winding import Strands

LOTS = {"8 lots": 8, "24 lots": 24}
SPUN_AGAIN = 2_500
MOST_MB = 200


def uneven(lots: int):
    data = fractal_of([f"Lot {number}" for number in range(lots)], ONE_TWO_FOUR)
    found = answered(data | {"spinning": {"variation": 0.08, "variation_within": 0.2}})
    return found.layout, straying(found.layout, found.on_scale_g), found.on_scale_g


def lengths_and_matched(laid, strays, times):
    spun = spins(laid, strays, times)
    return spun.yarn_m, spun.matched


def one_at_a_time(laid, strays, times):
    """Return the same for the same yarns, each laid out by itself."""
    spun = spins(laid, strays, SPINS)
    lot = laid.portions.lot[spun.order]
    each = [
        stretches(Strands(laid.portions.starts, length_m, lot), laid.resolved.contraction)
        for length_m in spun.length_m[:times]
    ]
    alike = [(one.lot == one.lot[:, :1]).all(axis=1) for one in each]
    shares = [
        (np.diff(one.edges_ppb) * same).sum() / 1e9 for one, same in zip(each, alike, strict=True)
    ]
    return np.array([one.yarn_m for one in each]), np.array(shares)


@pytest.mark.parametrize("lots", LOTS.values(), ids=LOTS)
def test_all_spins_at_once(benchmark, lots):
    benchmark.group = f"a quarter of all spins, {lots} lots x {ONE_TWO_FOUR}"
    benchmark.extra_info["against"] = "ours"
    laid, strays, _ = uneven(lots)
    yarn_m, matched = benchmark(lengths_and_matched, laid, strays, SPUN_AGAIN)
    assert len(yarn_m) == len(matched) == SPUN_AGAIN


@pytest.mark.parametrize("lots", LOTS.values(), ids=LOTS)
def test_spin_by_spin(benchmark, lots):
    benchmark.group = f"a quarter of all spins, {lots} lots x {ONE_TWO_FOUR}"
    benchmark.extra_info["against"] = "one at a time"
    laid, strays, _ = uneven(lots)
    yarn_m, matched = benchmark.pedantic(one_at_a_time, args=(laid, strays, SPUN_AGAIN), rounds=2)
    ours_m, ours = lengths_and_matched(laid, strays, SPINS)
    np.testing.assert_allclose(yarn_m, ours_m[:SPUN_AGAIN], rtol=1e-9)
    np.testing.assert_allclose(matched, ours[:SPUN_AGAIN], atol=1e-6)


@pytest.mark.parametrize("times", [SPINS, SPINS_AT_HAND])
def test_all_that_is_told_with_what_helps(benchmark, times):
    benchmark.group = f"drift told, {times:,} spins of 8 lots x {ONE_TWO_FOUR}"
    benchmark.extra_info["against"] = "ours"
    laid, _, on_scale_g = uneven(8)
    assert benchmark(drift, laid, on_scale_g, times).spins == times


@pytest.mark.parametrize("times", [SPINS, SPINS_AT_HAND])
def test_the_merge_alone(benchmark, times):
    """What takes longest of it, without the spins: the same sections, their draws given."""
    benchmark.group = f"drift told, {times:,} spins of 8 lots x {ONE_TWO_FOUR}"
    benchmark.extra_info["against"] = "one merge alone"
    laid, strays, _ = uneven(8)
    spun = spins(laid, strays, times)
    singles = Strands(laid.portions.starts, spun.length_m, laid.portions.lot[spun.order])
    edges, _ = benchmark(sections, singles)
    assert edges.shape == along_plies(singles.length_m, singles.starts).shape


@pytest.mark.parametrize("lots", LOTS.values(), ids=LOTS)
def test_ten_thousand_spins_take_little_room(lots):
    laid, _, on_scale_g = uneven(lots)
    tracemalloc.start()
    drift(laid, on_scale_g)
    most_mb = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    assert most_mb < MOST_MB
