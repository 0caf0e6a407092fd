"""Twist of singles and ply, and its direction: given, derived, balanced."""

from math import atan, cos, degrees, pi, sin, sqrt

import pytest

from tests.helpers.strategies import answered
from tests.helpers.yarns import (
    THREE,
    TWO,
    diameter,
    lost_by_helix,
    lost_by_untwisting,
    plan_of,
    turns_at,
    yarn_of,
)

# --- twist ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("tex", [60.0, 100.0, [80.0, 100.0, 250.0]])
@pytest.mark.parametrize("way", ["twist_tpm", "twist_tpi", "twist_angle_deg", "twist_factor"])
def test_turns_angle_and_factor_say_the_same(way, tex):
    each = [tex] * 3 if isinstance(tex, float) else tex
    wanted = [300.0, 320.0, 250.0]
    ways = {
        "twist_tpm": wanted,
        "twist_tpi": [turns / 39.37007874015748 for turns in wanted],
        "twist_angle_deg": [
            degrees(atan(pi * diameter(one) / 1000 * turns))
            for one, turns in zip(each, wanted, strict=True)
        ],
        "twist_factor": [turns * sqrt(one) for one, turns in zip(each, wanted, strict=True)],
    }
    found = answered(plan_of(scheme=THREE, spinning={"single_tex": tex, way: ways[way]}))
    assert [one["twist_tpm"] for one in found["singles"]] == pytest.approx(wanted, rel=1e-12)
    assert [one["surface_angle_deg"] for one in found["singles"]] == pytest.approx(
        ways["twist_angle_deg"], rel=1e-12
    )
    source = "given" if way in ("twist_tpm", "twist_tpi") else "derived"
    assert found["yarn"]["source"]["twist_tpm"] == source


def test_a_factor_stands_at_its_angle():
    """3000 tex^½/m at 0.5 g/cm³: 25.44°, whatever the tex."""
    for tex in (50.0, 110.0, 700.0):
        found = answered(plan_of(spinning={"single_tex": tex, "twist_factor": 3000.0}))
        assert found["singles"][0]["surface_angle_deg"] == pytest.approx(25.44, abs=0.01)


@pytest.mark.parametrize(
    ("plying", "twist", "source"),
    [
        ({}, None, None),
        ({"twist_tpm": 190.0}, 190.0, "given"),
        ({"twist_tpi": 5.0}, 196.85039370078738, "given"),
        ({"balance": "two_thirds"}, 200.0, "derived"),
        ({"balance": "equal_factor"}, 300 / sqrt(3), "derived"),
        ({"balance": "parallel_fibres"}, 300 / (1 + 2 / sqrt(3)), "derived"),
        ({"balance": "two_thirds", "twist_tpm": 150.0}, 150.0, "given"),
    ],
)
def test_ply_twist_is_given_or_by_a_criterion_of_balance(plying, twist, source):
    found = yarn_of(scheme=THREE, spinning={"twist_tpm": 300.0}, plying=plying)
    assert found["ply_twist_tpm"] == (twist if twist is None else pytest.approx(twist, rel=1e-12))
    assert found["source"]["ply_twist_tpm"] == source


def test_a_self_plied_yarn_has_the_twist_of_elastic_rods():
    """2 plies, 20°, bending over torsional stiffness 1.3: 0.857 of the singles' twist; derived."""
    twist = turns_at(20.0, 100.0)
    found = yarn_of(scheme=TWO, spinning={"twist_tpm": twist}, plying={"balance": "self_plied"})
    assert found["ply_twist_tpm"] / twist == pytest.approx(0.857, abs=0.0006)


def test_nothing_is_lost_where_the_criterion_is_that_nothing_is_lost():
    found = yarn_of(scheme=THREE, spinning={"twist_tpm": 300.0}, plying={"balance": "equal_length"})
    assert found["contraction_model"] == "untwisting"
    assert found["contraction"] == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("count", [2, 3, 4, 6])
def test_every_criterion_of_balance_is_in_the_answer(count):
    found = yarn_of(
        scheme={"name": "matched", "plies": count},
        spinning={"twist_tpm": 300.0},
        plying={"twist_tpm": 150.0},
    )["balanced_tpm"]
    ring = 1 / sin(pi / count)
    assert found["two_thirds"] == pytest.approx(200)
    assert found["equal_factor"] == pytest.approx(300 / sqrt(count))
    assert found["parallel_fibres"] == pytest.approx(300 / (1 + ring))
    flat = cos(atan(pi * diameter(100.0) / 1000 * ring * found["equal_angles"])) ** 2
    assert found["equal_angles"] * (ring + flat) == pytest.approx(300)
    assert lost_by_untwisting(100.0, count, 300.0, found["equal_length"]) == pytest.approx(
        0, abs=1e-9
    )
    assert ("self_plied" in found) == (count == 2)


def test_no_twist_no_balance_nor_where_plying_adds_twist():
    assert yarn_of(plying={"twist_tpm": 150.0})["balanced_tpm"] == {}
    alike = {"spinning": {"twist_tpm": 300.0, "direction": "S"}, "plying": {"direction": "S"}}
    assert yarn_of(**alike)["balanced_tpm"] == {}
    assert yarn_of(scheme={"plies": 1}, spinning={"twist_tpm": 300.0})["balanced_tpm"] == {}


# --- directions -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("spinning", "plying", "singles", "yarn"),
    [
        ({}, {}, ["Z", "Z"], "S"),
        ({"direction": "S"}, {}, ["S", "S"], "Z"),
        ({}, {"direction": "Z"}, ["S", "S"], "Z"),
        ({"direction": ["S", "Z"]}, {}, ["S", "Z"], "Z"),
        ({"direction": "Z"}, {"direction": "Z"}, ["Z", "Z"], "Z"),
    ],
)
def test_the_yarn_is_plied_against_the_singles_unless_the_plan_says_otherwise(
    spinning, plying, singles, yarn
):
    found = answered(plan_of(scheme=TWO, spinning=spinning, plying=plying))
    assert [one["direction"] for one in found["singles"]] == singles
    assert found["yarn"]["ply_direction"] == yarn


def test_plied_the_way_it_was_spun_a_yarn_gains_twist_and_loses_more_length():
    twists = {"spinning": {"twist_tpm": 250.0}, "plying": {"twist_tpm": 160.0}}
    against = yarn_of(scheme=TWO, **twists)
    twists["spinning"]["direction"] = twists["plying"]["direction"] = "Z"
    along = yarn_of(scheme=TWO, **twists)
    assert along["contraction"] == pytest.approx(
        lost_by_untwisting(100.0, 2, 250.0, 160.0, opposed=False), rel=1e-12
    )
    assert against["contraction"] == pytest.approx(
        lost_by_untwisting(100.0, 2, 250.0, 160.0), rel=1e-12
    )
    assert along["contraction"] > lost_by_helix(100.0, 2, 160.0) > against["contraction"]
