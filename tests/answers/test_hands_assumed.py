"""Hands that nobody measured: three to choose from, and which stands in where nothing is said."""

from dataclasses import replace

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.evenness import ASSUMED, EVENNESS, evenness_of, in_some_hands

TWO = {"name": "matched", "plies": 2}
LOTS = {"Kelp": 40.0, "Foam": 60.0}


def answer_to(hands: dict, scheme: dict = TWO):
    plan = by_hand(LOTS, scheme=scheme, spinning={"single_tex": 200.0} | hands)
    return yc.answer(yc.plan_from_data(plan))


@pytest.mark.parametrize(
    ("between", "along", "name"),
    [
        (0.03, 0.1, "very even"),
        (0.08, 0.25, "fairly even"),
        (0.15, 0.5, "thick and thin"),
        (0.08, 0.1, None),
        (0.09, 0.25, None),
        (0.08, None, None),
        (None, None, None),
    ],
)
def test_hands_have_a_name_where_both_figures_are_of_one_of_the_three(between, along, name):
    said = {"variation": between, "variation_within": along}
    plan = answer_to({key: value for key, value in said.items() if value is not None}).plan
    found = evenness_of(plan)
    assert (found and found.name) == name


def test_the_three_go_from_even_to_uneven_and_the_middle_one_is_assumed():
    assert list(EVENNESS) == sorted(EVENNESS, key=lambda one: one.variation)
    assert ASSUMED.name == "fairly even"


@pytest.mark.parametrize(
    "scheme",
    [TWO, {"name": "gradient", "plies": 2, "blend_steps": 2}],
    ids=["matched", "carded steps"],
)
def test_where_nothing_is_said_of_hands_they_are_fairly_even(scheme):
    """The answer is that to a plan that says so itself, carded steps and all."""
    found, assumed = in_some_hands(answer_to({}, scheme))
    said = answer_to({"variation": 0.08, "variation_within": 0.25}, scheme)
    assert assumed
    assert found.plan == said.plan
    assert found.drift_at_hand.short_by_m == pytest.approx(said.drift_at_hand.short_by_m)
    assert found.drift_at_hand.short_by_m[1] > 0


def test_hands_of_which_something_is_said_stay_what_they_are():
    own = answer_to({"variation": 0.02})
    found, assumed = in_some_hands(own)
    assert found is own
    assert not assumed


def test_only_how_hands_stray_is_assumed():
    own = answer_to({"minutes_per_g": 4.0, "spin_loss": 0.03})
    found, _ = in_some_hands(own)
    bare = replace(found.plan.spinning, variation=None, variation_within=None)
    assert bare == own.plan.spinning
