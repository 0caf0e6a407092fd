"""Thick and thin along a yarn: as its hands are said to be, the same at the same place."""

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.pictures.scene import PAPER, fixed
from yarncolor.pictures.thick_and_thin import (
    Hand,
    lengths_of_single,
    swollen,
    thickness_at,
    yarn_thickness_at,
)
from yarncolor.pictures.yarn_pictures import yarn_at, yarn_scene

LONG_M = np.arange(0, 20_000, 0.25)


def grist(cv: float, reach: float, strand: int = 0) -> np.ndarray:
    return thickness_at(LONG_M, cv, reach, strand) ** 2 - 1


def answer_to(**spinning: float):
    data = by_hand({"Kelp": 100.0, "Foam": 100.0}, scheme={"name": "matched", "plies": 2},
                   spinning={"single_tex": 100.0} | spinning)  # fmt: skip
    return yc.answer(yc.plan_from_data(data))


@pytest.mark.parametrize("cv", [0.05, 0.2])
def test_grist_strays_as_far_as_is_said(cv):
    stray = grist(cv, 2.0)
    assert stray.mean() == pytest.approx(0, abs=0.05 * cv)
    assert stray.std() == pytest.approx(cv, rel=0.06)


def test_places_are_alike_as_their_reach_says():
    """exp(-1) at a reach of 2 m, which is eight steps of 0.25 m."""
    stray = grist(0.1, 2.0)
    assert np.corrcoef(stray[:-8], stray[8:])[0, 1] == pytest.approx(np.exp(-1), abs=0.04)


def test_every_single_strays_for_itself_and_the_same_at_the_same_place():
    assert abs(np.corrcoef(grist(0.1, 2.0, 0), grist(0.1, 2.0, 1))[0, 1]) < 0.05
    assert (thickness_at(LONG_M[:9], 0.1, 2.0) == thickness_at(LONG_M, 0.1, 2.0)[:9]).all()


def test_a_column_twice_as_thick_shows_the_yarn_twice_as_high():
    index = np.zeros((40, 2), np.intp)
    index[15:25] = 7
    drawn = swollen(index, np.array([1.0, 2.0]), 0)
    assert (drawn == 7).sum(axis=0).tolist() == [10, 20]


def test_a_yarn_of_even_hands_is_drawn_as_ever():
    even, same = answer_to(), answer_to(variation=0.1)
    assert (yarn_scene(even, 3.0, 24.0, (600, 120)).index
            == yarn_scene(same, 3.0, 24.0, (600, 120)).index).all()  # fmt: skip


def test_at_true_scale_a_thick_place_is_drawn_thicker_than_a_thin_one():
    found = answer_to(variation_within=0.4)
    at_m = np.arange(0.0, 60.0, 0.5)
    mean = np.sqrt(np.mean([thickness_at(at_m, 0.4, 2.0, ply) ** 2 for ply in (0, 1)], axis=0))
    drawn = [
        (yarn_scene(found, float(metre), 24.0, (300, 160)).index != fixed(PAPER)).sum()
        for metre in (at_m[mean.argmin()], at_m[mean.argmax()])
    ]
    assert drawn[1] / drawn[0] == pytest.approx(mean.max() / mean.min(), rel=0.25)
    assert "Thick and thin as its hands" in yarn_at(found).caption


def test_no_yarn_is_nowhere_thick_and_no_length_is_too_long():
    thick = thickness_at(np.array([0.0, np.nan, 1e9]), 5.0, 0.01)
    assert np.isfinite(thick).all()
    assert (thick > 0).all()


def test_thicker_and_thinner_are_seen_in_the_three_to_choose_from():
    def roughness(cv: float) -> float:
        shown = np.asarray(lengths_of_single([Hand("so", cv)], 2.0, 400))[25:]
        return float((shown.min(axis=2) < 250).sum(axis=0).std())

    even, middle, uneven = map(roughness, (0.1, 0.25, 0.5))
    assert even < middle < uneven


def test_a_reach_of_its_own_is_kept_to():
    at_m = np.arange(0.0, 5.0, 0.01)
    rough = [
        float(np.abs(np.diff(yarn_thickness_at(found.layout, at_m))).mean())
        for reach in (0.05, 50.0)
        for found in [answer_to(variation_within=0.3, variation_reach_m=reach)]
    ]
    assert rough[0] > 10 * rough[1]
