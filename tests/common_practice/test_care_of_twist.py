"""Twist that is seen in plied yarn, and the usual remedy: common practice, no source.

Along one side each ply comes up once in a turn, so a three-ply of 200 turns a metre shows 60
bumps in 10 cm. A strand with twist left in it winds round itself the other way than that twist:
what is left of the singles' winds it the way of the plying.
"""

import math

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.care import twist_seen

PLAN = by_hand(
    {"Kelp": 36.0, "Foam": 36.0},
    scheme={"plies": 3},
    spinning={"single_tex": 100.0, "twist_tpm": 400.0},
    plying={"twist_tpm": 200.0, "drive_ratio": 10.0, "treadles_per_min": 60.0},
)


def told(data: dict = PLAN, **seen) -> str:
    return repr(yc.wheel.care(yc.answer(yc.plan_from_data(data)), **seen))


def test_as_many_bumps_as_planned_is_as_planned():
    assert twist_seen(yc.answer(yc.plan_from_data(PLAN)), 60, 10.0).found_tpm == pytest.approx(200)
    assert "that is as planned" in told(bumps=60)
    assert "that is as planned" in told(bumps=33, over_cm=5.0)
    assert "that is as planned" not in told(bumps=34, over_cm=5.0)


def test_an_under_plied_skein_goes_through_once_more_the_way_it_was_plied():
    """45 bumps are 150 turns a metre: 50 are lacking, five treadles at one to ten."""
    text = told(bumps=45)
    assert "under-plied" in text
    assert "once more, the way it was plied, to add 50 turns to each metre, 5.0 treadles" in text
    assert "stop the wheel" in text


def test_an_over_plied_skein_goes_through_the_other_way():
    text = told(bumps=75)
    assert "over-plied" in text
    assert "once the other way, to let 50 turns to each metre out" in text


def test_more_twist_takes_length_by_the_coils_alone_where_the_singles_twist_is_unknown():
    """Helices at angle β are cos β long; tan β = 2πR·turns, R of three touching plies 2r/√3."""
    spinning = {"single_tex": 100.0}
    found = yc.answer(yc.plan_from_data(PLAN | {"spinning": spinning}))
    radius_mm = found.resolved.yarn.diameters_mm[0] / math.sqrt(3)

    def cosine(tpm: float) -> float:
        return math.cos(math.atan(2 * math.pi * radius_mm * tpm / 1000))

    assert twist_seen(found, 45, 10.0).shorter == pytest.approx(
        1 - cosine(200) / cosine(150), rel=1e-6
    )
    assert "comes out" in told(PLAN | {"spinning": spinning}, bumps=45)


def test_twist_that_is_brought_to_the_plan_leaves_the_length_of_a_yarn_so_plied():
    """What 150 turns took was taken of the singles, and what 200 take will be."""
    found = yc.answer(yc.plan_from_data(PLAN))
    under = PLAN | {"plying": PLAN["plying"] | {"twist_tpm": 150.0}}
    plied = yc.answer(yc.plan_from_data(under)).resolved.yarn.contraction_by_model["untwisting"]
    meant = found.resolved.yarn.contraction_by_model["untwisting"]
    seen = twist_seen(found, 45, 10.0)
    assert (seen.found_tpm, seen.lacks_tpm) == (pytest.approx(150), pytest.approx(50))
    assert seen.shorter == pytest.approx(1 - (1 - meant) / (1 - plied))
    assert twist_seen(found, 60, 10.0).shorter == pytest.approx(0.0, abs=1e-12)


def test_turns_that_were_not_planned_are_not_lacking():
    found = yc.answer(yc.plan_from_data(PLAN | {"plying": {}}))
    seen = twist_seen(found, 45, 10.0)
    assert (seen.planned_tpm, seen.lacks_tpm, seen.shorter) == (None, 0.0, None)
    assert seen.is_as_planned


def test_loops_and_hooks_have_their_usual_remedy():
    assert "in balance" in told(loop="straight")
    assert "under-plied" in told(loop="with")
    assert "over-plied" in told(loop="against")
    assert "twist runs up in front of it" in told(catches=True)
    assert "Nothing was looked at." in told()


def test_a_twist_that_was_not_planned_is_said_and_not_judged():
    text = told(PLAN | {"plying": {}}, bumps=45)
    assert "does not say how much ply twist" in text
    assert "plied." not in text


@pytest.mark.parametrize("seen", [{"loop": "sideways"}, {"bumps": 0}, {"bumps": 9, "over_cm": 0}])
def test_what_cannot_be_is_refused(seen):
    with pytest.raises(yc.PlanError):
        told(**seen)


def test_a_single_has_no_ply_twist():
    assert "A single has no ply twist." in told(PLAN | {"scheme": {"plies": 1}}, bumps=9)
