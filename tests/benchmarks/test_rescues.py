"""Every rescue of a yarn of 24 lots, 1, 2 and 4 times, against laying that yarn out once."""

from dataclasses import replace

import yarncolor as yc
from tests.helpers.sized_plans import fractal_of
from yarncolor.answers.rescues import rescued_yarns
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plied

LOTS = 24


def plan_at_its_end():
    """Return a plan of three plies with 24, 48 and 96 rows, whose third ran out at nine tenths."""
    plan = yc.plan_from_data(fractal_of([f"Lot {at}" for at in range(LOTS)]))
    yarn_m = yc.answer(plan).layout.stretches.yarn_m
    return replace(plan, plied=Plied(ended_ply=3, at_m=0.9 * yarn_m))


def test_every_rescue(benchmark):
    benchmark.group = "when a ply runs out, 24 lots"
    benchmark.extra_info["against"] = "ours"
    answer = yc.answer(plan_at_its_end())
    assert len(benchmark(rescued_yarns, answer)) >= 6


def test_laying_the_yarn_out(benchmark):
    benchmark.group = "when a ply runs out, 24 lots"
    benchmark.extra_info["against"] = "laid out once"
    plan = plan_at_its_end()
    benchmark(lambda: layout(resolve(plan)))
