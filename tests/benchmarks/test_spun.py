"""A full answer with a hundred pieces on the bobbins, against that of the plan without."""

import pytest

import yarncolor as yc
from tests.helpers.sized_plans import fractal_of
from yarncolor.plan import Plan

GROUP = "full answer, 15 lots x (1, 2, 4), 100 pieces spun"
LOTS = [f"lot {number}" for number in range(15)]


def data(*spun: dict) -> dict:
    tables = {"bobbins": {"tare_g": 60.0, "capacity_g": 90.0}, "spun": [*spun]}
    tables["spinning"] = {"minutes_per_g": 3.0, "variation": 0.08}
    return fractal_of(LOTS) | tables


def plan(*spun: dict) -> Plan:
    return yc.plan_from_data(data(*spun))


def pieces() -> list[dict]:
    """Return all rows of all plies but the last five, as hands would note them."""
    entries, gross_g = [], dict.fromkeys((1, 2, 3), 60.0)
    for ply, rows in ((1, 15), (2, 30), (3, 55)):
        for row in range(1, rows + 1):
            one = {"ply": ply, "row": row}
            if row % 3 == 0:
                one |= {"mass_g": 2.0, "length_m": 19.0 + row % 2}
            if row % 10 == 0:
                gross_g[ply] += 30.0
                one["gross_g"] = gross_g[ply]
            entries.append(one)
    assert len(entries) == 100
    return entries


@pytest.mark.parametrize("spun", [[], pieces()], ids=["planned", "spun"])
def test_a_full_answer(benchmark, spun):
    made = plan(*spun)
    benchmark.group = GROUP
    benchmark.extra_info["against"] = "ours" if spun else "without"
    found = benchmark(lambda: yc.to_dict(yc.answer(made)))
    assert (found["progress"] is None) == (not spun)


@pytest.mark.parametrize("spun", [[], pieces()], ids=["planned", "spun"])
def test_a_full_answer_from_its_tables_on(benchmark, spun):
    """Tables are read and checked, answered, and said as data; the goal is 1.2."""
    tables = data(*spun)
    benchmark.group = f"{GROUP}, read and checked first"
    benchmark.extra_info["against"] = "ours" if spun else "without"
    found = benchmark(lambda: yc.to_dict(yc.answer(yc.plan_from_data(tables))))
    assert (found["progress"] is None) == (not spun)
