"""Every way to go on from bobbins with a hundred pieces, against one answer for each of them."""

from dataclasses import replace

import yarncolor as yc
from tests.helpers.sized_plans import fractal_of
from yarncolor.plan import Spun

LOTS = 12


def half_spun():
    """Return a plan of three plies with 12, 24 and 48 rows, more than half of them spun."""
    plan = yc.plan_from_data(fractal_of([f"Lot {at}" for at in range(LOTS)]))
    rows = [len(single.rows) for single in yc.answer(plan).weigh_out]
    strayed = (Spun(1, through=rows[0] - 3), Spun(1, row=rows[0] - 2, mass_g=20.0))
    others = (
        Spun(2, through=rows[1]),
        Spun(3, through=rows[2] // 2),
        Spun(3, row=rows[2] // 2 + 2),
    )
    return replace(plan, spun=(*strayed, *others))


def measured(benchmark, against):
    benchmark.group = "every way to go on, a hundred pieces"
    benchmark.extra_info["against"] = against
    return yc.answer(half_spun())


def all_of(answer):
    found = yc.wheel.replan(answer)
    return [(choice.rows, choice.matched) for choice in found.choices]


def test_every_way_to_go_on(benchmark):
    assert len(benchmark(all_of, measured(benchmark, "ours"))) >= 4


def test_an_answer_for_each_way(benchmark):
    answer = measured(benchmark, "an answer for each")
    plans = [yc.wheel.taken(answer, choice) for choice in yc.wheel.replan(answer).choices]
    benchmark.pedantic(lambda: [yc.answer(plan) for plan in plans], rounds=3)
