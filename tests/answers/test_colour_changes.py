"""Where the plied yarn changes its colour, by hand: strand after strand, and in a chain."""

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.colour_changes import colour_changes

THREE = {"Kelp": 10.0, "Foam": 20.0, "Slate": 30.0}
"""Of 1000 tex: as many metres as grams, 60 m."""
KELP, FOAM, SLATE = range(3)


def changes_of(lots: dict, scheme: dict, **plying: float) -> tuple[list, list, list]:
    spinning, plying = {"single_tex": 1000.0}, {"contraction": 0.0} | plying
    plan = by_hand(lots, scheme=scheme, spinning=spinning, plying=plying)
    found = colour_changes(yc.answer(yc.plan_from_data(plan)))
    return tuple(np.asarray(one).tolist() for one in found)


@pytest.mark.parametrize(
    ("wound_off", "at_m", "lots"),
    [(1, [10 / 3, 10], [KELP, FOAM, SLATE]), (0, [10, 50 / 3], [SLATE, FOAM, KELP])],
)
def test_a_chain_changes_at_the_joins_of_its_single_at_a_third_of_their_way(wound_off, at_m, lots):
    """Joins at 10 m and 30 m of 60 m; what was spun last comes off first unless wound off."""
    scheme = {"name": "chain", "loop_m": 0.3}
    places, before, after = changes_of(THREE, scheme, wound_off=wound_off)
    assert places == pytest.approx(at_m)
    assert before == [[lot] for lot in lots[:-1]]
    assert after == [[lot] for lot in lots[1:]]


def test_a_chain_whose_plying_takes_a_tenth_has_its_joins_a_tenth_nearer():
    scheme = {"name": "chain", "loop_m": 0.3}
    places, _, _ = changes_of(THREE, scheme, wound_off=1, contraction=0.1)
    assert places == pytest.approx([3.0, 9.0])


def test_plies_that_change_together_change_at_once():
    places, before, after = changes_of({"Kelp": 20, "Foam": 20}, {"plies": 2}, wound_off=1)
    assert places == pytest.approx([10.0])
    assert (before, after) == ([[KELP, KELP]], [[FOAM, FOAM]])


def test_every_strand_changes_by_itself():
    """20 m a ply: whole on the one, divided in two on the other."""
    scheme = {"name": "fractal", "divisions": [1, 2]}
    places, before, after = changes_of({"Kelp": 20, "Foam": 20}, scheme, wound_off=1)
    assert places == pytest.approx([5.0, 10.0, 15.0])
    assert before == [[KELP, KELP], [KELP, FOAM], [FOAM, KELP]]
    assert after == [[KELP, FOAM], [FOAM, KELP], [FOAM, FOAM]]


def test_where_one_of_two_alike_ends_no_colour_need_change():
    """Spun twice over, Kelp to Kelp: what ends in the middle begins anew in its own colour."""
    scheme = {"name": "matched", "plies": 2, "sequence": ["Kelp", "Foam", "Kelp"], "copies": 2}
    places, before, _ = changes_of({"Kelp": 20, "Foam": 20}, scheme, wound_off=1)
    assert len(places) == 4
    assert before == [[KELP, KELP], [FOAM, FOAM]] * 2
