"""Where several yarns of one stash differ most, against plans whose colours are known by hand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.strategies import EVERY_SCHEME, by_hand, plan_data
from yarncolor import answer, plan_from_data
from yarncolor.answers.unlike import most_unlike_m

STASH = {"Kelp": 30.0, "Foam": 30.0, "Rust": 30.0}


def spun(sequence, grams=None, **scheme):
    lots = [
        {"name": name, "colour": "#456", "mass_g": mass} for name, mass in (grams or STASH).items()
    ]
    about = {"name": "matched", "plies": 3, "sequence": sequence, **scheme}
    return answer(plan_from_data({"lots": lots, "scheme": about}))


def test_two_orders_that_agree_but_for_the_beginning_are_looked_at_there():
    """Straight from the bobbin the last lot comes first: here the first thirds are swapped."""
    one, other = spun(["Kelp", "Foam", "Rust"]), spun(["Foam", "Kelp", "Rust"])
    yarn_m = one.layout.stretches.yarn_m
    assert yarn_m / 3 < most_unlike_m([one, other]) < yarn_m


def test_of_places_where_they_differ_as_much_it_is_the_middle_of_the_longest():
    grams = {"Kelp": 10.0, "Foam": 50.0, "Rust": 30.0}
    one = spun(["Kelp", "Foam", "Rust"], grams, plies=1)
    other = spun(["Foam", "Rust", "Kelp"], grams, plies=1)
    yarn_m = one.layout.stretches.yarn_m
    # from plying on: Rust 30, Foam 50, Kelp 10 against Kelp 10, Rust 30, Foam 50: alike from 10 to
    # 30 and from 40 to 80 of 90
    at = most_unlike_m([one, other]) / yarn_m * 90
    assert at == pytest.approx(5) or at == pytest.approx(35) or at == pytest.approx(85)


def test_plans_that_are_alike_have_no_such_place():
    assert most_unlike_m([spun(["Kelp", "Foam", "Rust"])] * 3) is None
    assert most_unlike_m([spun(["Kelp", "Foam", "Rust"])]) is None


def plied(*portions: tuple[int, str, float], lots: tuple[str, ...] = tuple(STASH)):
    """Return a yarn of portions of ply, lot and metres, in the order of plying."""
    free = [{"ply": ply, "lot": lot, "mass_g": metres} for ply, lot, metres in portions]
    plies = max(ply for ply, _, _ in portions)
    data = by_hand(
        dict.fromkeys(lots, 200.0),
        scheme={"name": "free", "plies": plies, "portions": free},
        spinning={"single_tex": 1000.0},
        plying={"wound_off": 1, "contraction": 0.0},
    )
    return answer(plan_from_data(data))


ONE = plied((1, "Kelp", 30.0), (1, "Foam", 10.0), (1, "Rust", 50.0))


def test_the_longest_place_counts_wherever_it_lies():
    """They differ to 40 m in pieces of at most 20 m, and from 60 m to 90 m in one piece."""
    other = plied((1, "Foam", 10.0), (1, "Rust", 50.0), (1, "Kelp", 30.0))
    assert most_unlike_m([ONE, other]) == pytest.approx(75.0)
    assert most_unlike_m([other, ONE]) == pytest.approx(75.0)


def test_beyond_the_shortest_yarn_nothing_is_looked_at():
    """Of 45 m: Foam to 5 m, Rust to 30 m, Kelp to its end, beside Kelp, Foam and Rust."""
    other = plied((1, "Foam", 5.0), (1, "Rust", 25.0), (1, "Kelp", 15.0))
    assert most_unlike_m([ONE, other]) == pytest.approx(17.5)


def test_lots_are_told_apart_by_name_wherever_they_stand_in_a_stash():
    turned = ("Rust", "Slate", "Foam", "Kelp")
    same = plied((1, "Kelp", 30.0), (1, "Foam", 10.0), (1, "Rust", 50.0), lots=turned)
    assert most_unlike_m([ONE, same]) is None
    other = plied((1, "Kelp", 30.0), (1, "Slate", 10.0), (1, "Rust", 50.0), lots=turned)
    assert most_unlike_m([ONE, other]) == pytest.approx(35.0)


def test_two_plies_that_differ_count_more_than_one_over_many_more_metres():
    one = plied((1, "Kelp", 60.0), (2, "Kelp", 60.0))
    other = plied((1, "Foam", 50.0), (1, "Kelp", 10.0), (2, "Kelp", 46.0), (2, "Foam", 14.0))
    assert most_unlike_m([one, other]) == pytest.approx(48.0)


def test_of_several_yarns_all_pairs_count():
    """From 40 m on three pairs of three differ, before that two at most."""
    second = plied((1, "Kelp", 40.0), (1, "Foam", 10.0), (1, "Rust", 40.0))
    third = plied((1, "Foam", 40.0), (1, "Kelp", 10.0), (1, "Rust", 40.0))
    assert most_unlike_m([ONE, second, third]) == pytest.approx(45.0)


@given(st.data(), st.sampled_from(EVERY_SCHEME), st.sampled_from(EVERY_SCHEME))
def test_nowhere_do_they_differ_more(data, one, other):
    drawn = [data.draw(plan_data(name)) for name in (one, other)]
    plans = [answer(plan_from_data(each)) for each in drawn]
    at_m = most_unlike_m(plans)
    end_m = min(each.layout.stretches.yarn_m for each in plans)
    apart = [_apart(plans, metre) for metre in np.linspace(0, end_m, 97)[1:-1]]
    if at_m is None:
        assert max(apart) == pytest.approx(0)
    else:
        assert 0 <= at_m <= end_m
        assert _apart(plans, at_m) >= max(apart) - 1e-9


def _apart(plans, metre) -> float:
    """Return by how much two yarns differ at a metre, ply by ply."""
    seen = []
    for found in plans:
        along = found.layout.stretches
        (at,) = np.flatnonzero((along.edges_m[:-1] <= metre) & (metre < along.edges_m[1:]))[:1]
        seen.append([found.plan.names[lot] for lot in along.lot[at]])
    names = {name for each in seen for name in each}
    shares = [[each.count(name) / len(each) for name in names] for each in seen]
    return sum(abs(a - b) for a, b in zip(*shares, strict=True)) / 2
