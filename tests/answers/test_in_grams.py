"""A plan in ounces, kept beside others in grams: said otherwise, and weighed as before."""

from dataclasses import asdict, replace

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.in_grams import in_grams
from yarncolor.measures import METRIC

GRAMS_PER_OUNCE = 28.349523125
"""International yard and pound agreement, 1959: 1 lb = 453.59237 g, of 16 oz."""


def answer_to(**tables: dict):
    more = {"scheme": {"plies": 2}, "spinning": {"single_tex": 100.0}} | tables
    return yc.answer(yc.plan_from_data(by_hand({"Kelp": 50.0, "Foam": 70.0}, **more)))


@pytest.mark.parametrize(
    ("scale", "step_g"), [({}, GRAMS_PER_OUNCE / 100), ({"step_g": 0.5, "regain": 0.2}, 0.5)]
)
def test_what_is_said_in_ounces_is_said_in_grams_by_the_same_scale(scale, step_g):
    own = answer_to(units="imperial", scale=scale)
    found = in_grams(own)
    assert own.say is not METRIC
    assert found.say is METRIC
    assert found.plan.units is None
    assert found.plan.scale == replace(own.plan.scale, step_g=pytest.approx(step_g))
    assert found.resolved.step_g == own.resolved.step_g == pytest.approx(step_g)
    np.testing.assert_array_equal(found.layout.portions.weigh_g, own.layout.portions.weigh_g)
    assert asdict(found.hours) == asdict(own.hours)
    assert found.lengths == own.lengths


def test_all_else_of_the_plan_stays():
    own = answer_to(units="imperial", title="Low Tide", fabric={"stitches": 30})
    back = replace(in_grams(own).plan, units="imperial", scale=own.plan.scale)
    assert back == own.plan


def test_what_is_said_in_grams_stays_as_it_is():
    own = answer_to()
    assert in_grams(own) is own
