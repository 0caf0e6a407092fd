"""Every order valued at once is every order valued alone: all schemes, both windings."""

from dataclasses import replace

import numpy as np
import pytest

from tests.helpers.one_by_one import every_plan, values_of
from yarncolor import plan_from_data
from yarncolor.plan import Aims, Orders
from yarncolor.search.aims import AIMS, MEASURES
from yarncolor.search.exactly import every_order
from yarncolor.search.looking import looked
from yarncolor.search.question import question_of
from yarncolor.search.tally import Tally
from yarncolor.search.valued import valued

COLOURS = ("#56612d", "#e9e2d5", "#7fa65a", "#2b2f4c", "#d9829b", "#b89f7b", "#e2dccf")
NAMES = ("Kelp", "Foam", "Samphire", "Mussel", "Thrift", "Sand", "Gull")
MASSES = (21.0, 34.5, 17.2, 28.8, 40.1, 12.6, 31.3)
ALL = Aims(smooth=1, quiet=1, even=1, matched=1, no_twins=1)

SCHEMES = {
    "fractal": {"name": "fractal", "plies": 3},
    "fractal of two": {"name": "fractal", "divisions": [2, 3]},
    "fractal of unequal repeats": {"name": "fractal", "divisions": [1, [3, 2, 1], 2]},
    "fractal, a ply reversed": {"name": "fractal", "plies": 3, "reversed_plies": [2]},
    "fractal of four": {"name": "fractal", "divisions": [1, 2, 2, 3]},
    "matched": {"name": "matched", "plies": 2},
    "one ply": {"name": "fractal", "divisions": [3]},
    "flipped": {"name": "flipped", "plies": 3},
    "mirrored": {"name": "mirrored", "plies": 2},
    "staggered": {"name": "staggered", "plies": 3, "stagger_places": 1.5},
    "stepped": {"name": "stepped", "plies": 3},
    "gradient": {"name": "gradient", "plies": 2},
    "carded gradient": {"name": "gradient", "plies": 2, "blend_steps": 2},
    "solid": {"name": "solid", "plies": 3, "solid_plies": [2]},
    "two solid plies": {"name": "solid", "plies": 3, "solid_plies": [1, 3]},
    "chain": {"name": "chain", "loop_m": 7.0},
    "two chains alike": {"name": "chain", "loop_m": 7.0, "copies": 2},
    "three alike": {"name": "fractal", "divisions": [1, 2], "copies": 3},
    "shuffled": {"name": "shuffled", "plies": 2},
}
WINDINGS = {"straight": 0, "wound off": 1}


def plan_of(scheme: dict, places: int, wound_off=0, **tables):
    """Return a plan of unequal lots."""
    lots = [
        {"name": name, "colour": colour, "mass_g": mass}
        for name, colour, mass in zip(NAMES, COLOURS, MASSES, strict=True)
    ][:places]
    tex = {"chain": 100.0, "stepped": 100.0}.get(scheme["name"], 100.0)
    data = {"lots": lots, "scheme": scheme, "spinning": {"single_tex": tex}}
    return plan_from_data({**data, "plying": {"wound_off": wound_off}, **tables})


def found_of(plan):
    """Return each order that was valued and its values, by the lots in it."""
    question = question_of(replace(plan, orders=replace(plan.orders, aims=ALL)))
    assert question.exact
    tally = Tally(question.places, len(question.measures), 8)
    shares = list(every_order(question, tally))
    assert shares == sorted(shares)
    numbers = np.arange(len(tally))
    ways, orders = tally.ways_of(numbers), tally.orders_of(numbers)
    names = [
        question.ways[way].names_in(order[: question.ways[way].places])
        for way, order in zip(ways, orders, strict=True)
    ]
    assert len(set(names)) == len(names)
    return dict(zip(names, tally.values.T, strict=True)), question


@pytest.mark.parametrize("wound_off", WINDINGS.values(), ids=WINDINGS)
@pytest.mark.parametrize("scheme", SCHEMES.values(), ids=SCHEMES)
def test_every_order_is_worth_what_it_is_worth_alone(scheme, wound_off):
    plan = plan_of(scheme, 5, wound_off)
    found, question = found_of(plan)
    alone = {one.scheme.sequence: values_of(one) for one in every_plan(plan)}
    assert len(found) == len(alone) / (2 if question.same_reversed else 1)
    for names, values in alone.items():
        got = found.get(names)
        if got is None:
            got = found[names[::-1]]
        expected = [values[measure] for measure in question.measures]
        assert got == pytest.approx(expected, rel=1e-6, abs=2e-6)


@pytest.mark.thorough
@pytest.mark.parametrize("places", [6, 7])
@pytest.mark.parametrize("scheme", SCHEMES.values(), ids=SCHEMES)
def test_up_to_seven_places(scheme, places):
    test_of = plan_of(scheme, places, 1)
    found, question = found_of(test_of)
    plans = every_plan(test_of)
    assert len(found) == len(plans) / (2 if question.same_reversed else 1)
    for plan in plans[:: max(1, len(plans) // 500)]:
        names = plan.scheme.sequence
        got = found[names] if names in found else found[names[::-1]]
        values = values_of(plan)
        expected = [values[measure] for measure in question.measures]
        assert got == pytest.approx(expected, rel=1e-6, abs=2e-6)


@pytest.mark.parametrize("scheme", ["fractal", "solid", "chain", "mirrored", "two solid plies"])
def test_by_halves_and_one_by_one_are_the_same_of_six_places(scheme):
    question = question_of(replace(plan_of(SCHEMES[scheme], 6, 1), orders=Orders(aims=ALL)))
    (way,) = question.ways
    assert way.by_grams(question.closes)
    tally = Tally(question.places, len(question.measures), 8)
    list(every_order(question, tally))
    orders = tally.orders_of(np.arange(len(tally)))
    alone = valued(way, question.between, question.measures, orders)
    np.testing.assert_allclose(tally.values.T, alone, rtol=1e-9, atol=2e-6)


CLOSINGS = ("keep", "tail", "share", "halve", "drop", "swap")


@pytest.mark.parametrize("closing", CLOSINGS)
def test_orders_that_close_are_worth_what_they_are_worth_alone(closing):
    scheme = {
        "name": "fractal",
        "divisions": [1, 2],
        "sequence": ["Kelp", "Foam", "Samphire", "Mussel", "Kelp"],
        "parts": [2, 1, 1, 1, 1],
        "closing": closing,
    }
    question = question_of(replace(plan_of(scheme, 4), orders=Orders(aims=ALL)))
    assert question.closes
    (way,) = question.ways
    tally = Tally(question.places, len(question.measures), 8)
    list(every_order(question, tally))
    assert len(tally) == (6 if closing in ("keep", "share", "halve") else 12)
    for number in range(len(tally)):
        (order,) = tally.orders_of(np.array([number]))
        values = values_of(way.in_order(order))
        assert way.names_in(order)[0] == way.names_in(order)[-1]
        expected = [values[measure] for measure in question.measures]
        assert tally.values[:, number] == pytest.approx(expected, rel=1e-6, abs=2e-6)


def test_a_lot_that_stands_twice_with_equal_grams_is_counted_once():
    scheme = {"name": "matched", "plies": 2, "sequence": ["Kelp", "Foam", "Kelp", "Mussel"]}
    found, _ = found_of(plan_of(scheme, 4, orders={"closed": False}))
    plain = {
        one.scheme.sequence
        for one in every_plan(plan_of(scheme, 4))
        if one.scheme.sequence[0] != one.scheme.sequence[-1]
    }
    assert set(found) | {names[::-1] for names in found} == plain
    assert 2 * len(found) == len(plain)


def test_lots_that_may_be_left_out_are_left_out_in_every_way():
    orders = {"may_leave_out": ["Foam", "Mussel"]}
    found, question = found_of(plan_of(SCHEMES["fractal"], 4, orders=orders))
    assert [way.left_out for way in question.ways] == [
        *((), ("Foam",), ("Mussel",), ("Foam", "Mussel"))
    ]
    assert len(found) == 12 + 3 + 3 + 1
    for names, got in found.items():
        used = [name for name in NAMES[:4] if name in names]
        plan = plan_of({**SCHEMES["fractal"], "sequence": list(names)}, 4)
        values = values_of(plan)
        assert len(used) == len(names)
        expected = [values[measure] for measure in question.measures]
        assert got == pytest.approx(expected, rel=1e-6, abs=2e-6)


def test_unequal_plies_are_cut_at_the_shorter():
    plying = {"twist_tpm": 190.0}
    spinning = {"single_tex": [80.0, 140.0], "twist_tpm": 300.0}
    scheme = {"name": "fractal", "divisions": [1, 3]}
    plan = plan_of(scheme, 5, plying=plying, spinning=spinning)
    found, question = found_of(plan)
    for one in every_plan(plan)[::7]:
        got = found.get(one.scheme.sequence)
        if got is None:
            assert question.same_reversed
            continue
        values = values_of(one)
        expected = [values[measure] for measure in question.measures]
        assert got == pytest.approx(expected, rel=1e-6, abs=2e-6)


def test_best_and_worst_of_each_aim_are_those_of_all_orders():
    plan = plan_of(SCHEMES["fractal"], 5)
    aims = Aims(smooth=2, lively=1, even=1, matched=1)
    found = looked(replace(plan, orders=Orders(aims=aims)))
    alone = [values_of(one) for one in every_plan(plan)]
    for aim, (best, worst) in found.ranges.items():
        values = [one[AIMS[aim].measure] for one in alone]
        low, high = min(values), max(values)
        ends = (high, low) if AIMS[aim].more_is_better else (low, high)
        assert (best, worst) == pytest.approx(ends, abs=2e-6)
    assert MEASURES == ("smooth", "contrast", "even", "matched", "twins")


def test_places_of_no_grams_stay_out_of_it():
    scheme = {
        "name": "matched",
        "plies": 2,
        "sequence": ["Kelp", "Foam", "Kelp", "Mussel"],
        "parts": [1, 1, 0, 1],
    }
    found = looked(plan_of(scheme, 4))
    assert found.tried == 3
    assert sorted(found.best[0].names) == ["Foam", "Kelp", "Mussel"]
    plan = found.best[0].plan
    assert plan.scheme.sequence[-1] == "Kelp"
    assert plan.scheme.parts[-1] == 0
