"""A lot kept back whole, its grams given as rolags: decimal arithmetic against what is read."""

import json
from decimal import Decimal
from itertools import product

import pytest

import yarncolor as yc
from yarncolor.report.exports import made, told_apart

TENTHS = [Decimal(tenth) / 10 for tenth in range(1, 31)]


def data(rolags: int, rolag_g: float, reserve_g: float) -> dict:
    kelp = {"name": "Kelp", "colour": "#335522", "rolags": rolags, "rolag_g": rolag_g}
    foam = {"name": "Foam", "colour": "#ddeeff", "mass_g": 20}
    scheme = {"name": "fractal", "divisions": [1, 2]}
    return {"lots": [{**kelp, "reserve_g": reserve_g}, foam], "scheme": scheme}


@pytest.mark.parametrize("rolags", range(1, 31))
def test_as_much_as_there_is_can_be_kept_back_and_nothing_is_left(rolags):
    for rolag_g in TENTHS:
        kept = yc.plan_from_data(data(rolags, float(rolag_g), float(rolags * rolag_g)))
        assert yc.answer(kept).layout.resolved.to_divide_g.tolist() == [0, 20]


@pytest.mark.parametrize(("rolags", "rolag_g"), [*product((3, 7), (TENTHS[0], TENTHS[10]))])
def test_more_than_there_is_cannot(rolags, rolag_g):
    with pytest.raises(yc.PlanError, match=r"reserve_g = .*: give at most"):
        yc.plan_from_data(data(rolags, float(rolag_g), float(rolags * rolag_g) + 0.01))


def test_every_file_of_such_a_plan_is_made_of_numbers():
    answer = yc.answer(yc.plan_from_data(data(3, 1.1, 3.3)))
    contents, faults = told_apart(made(answer))
    assert faults == []
    assert b"nan" not in contents["card.html"].lower()
    json.loads(contents["plan.json"], parse_constant=pytest.fail)
    assert sum(lot["used_g"] for lot in json.loads(contents["plan.json"])["lots"]) == 20
