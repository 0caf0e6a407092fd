"""What holds of every search: scores, held places, fronts, six that differ, reverses."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yarncolor import PlanError, plan_from_data
from yarncolor.plan import AIM_NAMES, Aims, Orders
from yarncolor.search.aims import AIMS
from yarncolor.search.looking import Looking, looked

NAMES = ("Kelp", "Foam", "Gull", "Rust", "Anemone", "Slate")
_MASS = st.floats(1, 60)
_PART = st.integers(0, 255)


@st.composite
def plans(draw, most=6):
    """Return plans of a few lots of any grams and colours, with any aims."""
    count = draw(st.integers(2, most))
    lots = [
        {
            "name": name,
            "colour": "#{:02x}{:02x}{:02x}".format(*(draw(_PART) for _ in range(3))),
            "mass_g": draw(_MASS),
        }
        for name in NAMES[:count]
    ]
    name = draw(
        st.sampled_from(["matched", "fractal", "flipped", "staggered", "mirrored", "solid"])
    )
    weights = draw(
        st.dictionaries(st.sampled_from(AIM_NAMES), st.floats(0.1, 9), min_size=1, max_size=3)
    )
    scheme = {"name": name, "plies": draw(st.integers(2, 3))}
    return plan_from_data({"lots": lots, "scheme": scheme, "orders": {"aims": weights}})


@given(plans())
@settings(max_examples=25, deadline=None)
def test_a_score_lies_between_none_and_all(plan):
    found = looked(plan)
    assert found.score.min() >= -1e-9
    assert found.score.max() <= 1 + 1e-9
    assert found.now_allowed
    assert found.best[0].score == pytest.approx(found.score.min())
    assert -1e-6 <= found.now.score <= 1 + 1e-6
    scores = [one.score for one in found.best]
    assert scores == sorted(scores)


@given(plans())
@settings(max_examples=25, deadline=None)
def test_the_front_is_beaten_by_none_and_beats_all_others(plan):
    found = looked(plan)
    tells = found.scoring.tells
    shares = np.stack(
        [found.scoring.share(found.tally.values, aim) for aim in np.flatnonzero(tells)]
        or [np.zeros(found.tried)]
    )
    for one in found.front:
        values = np.array([[one.values[aim]] for aim in found.scoring.aims])
        own = np.array(
            [
                (values[aim, 0] - found.scoring.best[aim])
                / (found.scoring.worst[aim] - found.scoring.best[aim])
                for aim in np.flatnonzero(tells)
            ]
            or [0.0]
        )
        as_good = (shares <= own[:, None] - 2e-9).all(axis=0)
        assert not as_good.any()
    points = {tuple(round(value, 7) for value in one.values.values()) for one in found.front}
    assert len(points) <= len(found.front)


@given(plans())
@settings(max_examples=15, deadline=None)
def test_holding_every_place_gives_todays_order(plan):
    hold = tuple((lot, place) for place, lot in enumerate(looked(plan).now.names, 1))
    found = looked(replace(plan, orders=replace(plan.orders, hold=hold)))
    assert found.tried == 1
    (only,) = found.best
    assert only.names == found.now.names
    assert only.score == found.now.score == 0


@given(plans(5))
@settings(max_examples=15, deadline=None)
def test_each_of_the_best_has_half_its_lots_elsewhere_than_a_better_one(plan):
    found = looked(plan)
    for at, one in enumerate(found.best):
        for better in found.best[:at]:
            others = [better.names]
            if found.question.same_reversed:
                others.append(better.names[::-1])
            for other in others:
                elsewhere = sum(a != b for a, b in zip(one.names, other, strict=True))
                assert 2 * elsewhere >= len(one.names)


def four(**orders):
    """Return a plan of four lots."""
    lots = [
        {"name": name, "colour": colour, "mass_g": mass}
        for name, colour, mass in zip(
            NAMES,
            ("#56612d", "#e9e2d5", "#b0b4b8", "#a04020"),
            (30.0, 25.0, 20.0, 35.0),
            strict=False,
        )
    ]
    scheme = {"name": "fractal", "divisions": [1, 2]}
    return plan_from_data({"lots": lots, "scheme": scheme, "orders": orders})


def test_of_an_order_and_its_reverse_the_allowed_one_stands():
    found = looked(four(hold={"Rust": 1}))
    assert found.tried == 6
    assert all(one.names[0] == "Rust" for one in found.best)
    assert not found.now_allowed


def test_neighbours_stand_side_by_side_either_way_round():
    found = looked(four(neighbours=[["Kelp", "Rust"]]))
    assert found.tried == 6
    for one in found.best:
        at = [one.names.index(name) for name in ("Kelp", "Rust")]
        assert abs(at[0] - at[1]) == 1


def test_lots_apart_are_no_neighbours_where_a_ply_begins_anew_either():
    found = looked(four(apart=[["Kelp", "Rust"]]))
    assert found.tried == 4
    for one in found.best:
        at = [one.names.index(name) for name in ("Kelp", "Rust")]
        assert abs(at[0] - at[1]) == 2


def test_where_a_ply_runs_through_but_once_last_and_first_may_be_lots_apart():
    plan = four(apart=[["Kelp", "Rust"]])
    once = replace(plan, scheme=replace(plan.scheme, name="matched", divisions=None, plies=2))
    found = looked(once)
    assert found.tried == 6


def test_where_nothing_is_allowed_it_is_said():
    plan = four(
        neighbours=[["Kelp", "Foam"], ["Foam", "Gull"], ["Gull", "Rust"]],
        apart=[["Rust", "Kelp"]],
    )
    with pytest.raises(PlanError, match="orders: no order obeys all that is asked; ask for less"):
        looked(plan)


def test_a_search_that_is_stopped_says_so_and_has_the_best_so_far():
    lots = [
        {
            "name": f"Lot {at}",
            "colour": f"#{at * 20 + 30:02x}{255 - at * 25:02x}80",
            "mass_g": 10 + at,
        }
        for at in range(8)
    ]
    plan = plan_from_data({"lots": lots, "scheme": {"name": "fractal", "plies": 3}})
    looking = Looking(plan)
    with pytest.raises(PlanError, match="no order was valued yet"):
        looking.found()
    step = next(looking.steps())
    assert 0 < step.share < 1
    assert sorted(step.names) == sorted(plan.names)
    found = looking.found()
    assert not found.exact
    assert found.tried == step.tried < 20160
    assert found.best[0].names == step.names or found.best[0].score <= found.now.score


def test_aims_that_tell_nothing_apart_count_nothing():
    found = looked(replace(four(), orders=Orders(aims=Aims(smooth=1, no_twins=5))))
    assert found.ranges["no_twins"][0] == found.ranges["no_twins"][1]
    assert found.score.max() == pytest.approx(1 / 6)
    assert AIMS["no_twins"].measure == "twins"
