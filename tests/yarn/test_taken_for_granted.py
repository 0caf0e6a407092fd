"""What was taken for granted of a yarn, in words."""

import pytest

from tests.helpers.strategies import answered
from tests.helpers.yarns import PLIED, SPUN, plan_of

NEAR = "would give the same, near enough"


@pytest.mark.parametrize(
    ("tables", "said"),
    [
        (
            {"spinning": SPUN | {"twist_tpi": 7.6, "twist_factor": 3000.0}},
            "twist of the singles by turns in a metre; turns in an inch and the mill's count of "
            "twist " + NEAR,
        ),
        (
            {"spinning": SPUN, "plying": {"balance": "two_thirds"}},
            "ply twist: 200 turns in a metre, two thirds of the singles' twist; a fresh self-plied "
            "test is the better way",
        ),
        (
            {"spinning": SPUN, "plying": PLIED | {"balance": "two_thirds"}},
            "the turns of the plying are given, so they count, not the balance",
        ),
        (
            {"scheme": {"plies": 1}, "spinning": SPUN, "plying": {"balance": "two_thirds"}},
            "a single is not plied, so it is not balanced",
        ),
        ({"spinning": SPUN}, "singles spun clockwise (Z), plied anticlockwise (S)"),
        ({"plying": PLIED}, "singles spun clockwise (Z), plied anticlockwise (S)"),
        ({}, "no length lost in plying, for want of a twist or a measured value"),
        (
            {"plying": PLIED | {"contraction_model": "none"}},
            "no length lost in plying",
        ),
        (
            {"plying": {"contraction": 0.1, "contraction_model": "none"}},
            "the length lost in plying is measured, so no model is asked",
        ),
        ({"plying": PLIED}, "length lost in plying by the plies' helices alone"),
        (
            {"spinning": SPUN, "plying": PLIED},
            "length lost in plying by helices whose singles untwist as they are plied",
        ),
        (
            {"spinning": SPUN | {"direction": "Z"}, "plying": {"twist_tpm": 90, "direction": "Z"}},
            "length lost in plying by helices whose singles twist up as they are plied",
        ),
        ({}, "density of wool yarn: 0.5 g/cm³ in the twist, 0.16 g/cm³ as wrapped on a ruler"),
        (
            {"spinning": {"relaxed_density_g_per_cm3": 0.2}},
            "density of wool yarn: 0.5 g/cm³ in the twist",
        ),
        (
            {
                "spinning": {
                    "packed_density_g_per_cm3": 0.4,
                    "relaxed_density_g_per_cm3": 0.14,
                    "wrapped_skein": {"wpi": 12.0, "m_per_100g": 200.0},
                }
            },
            "density on the ruler by the wrapped skein; the number given agrees well enough",
        ),
        (
            {"fabric": {"stitches": 9, "gauge_stitches": 20.0, "increases_per_row": 1.0}},
            "only a triangle grows, so its increases change nothing",
        ),
    ],
)
def test_what_was_taken_for_granted_of_the_yarn_is_said(tables, said):
    assert said in answered(plan_of(**tables))["assumptions"]


@pytest.mark.parametrize(
    ("tables", "word"),
    [
        ({"spinning": SPUN | {"direction": "Z"}}, "spun clockwise"),
        ({"spinning": SPUN, "plying": {"direction": "S"}}, "spun clockwise"),
        ({"scheme": {"plies": 1}}, "length lost"),
        ({"plying": {"contraction": 0.1}}, "length lost"),
        ({"plying": PLIED | {"contraction_model": "helix"}}, "length lost"),
        ({"spinning": {"single_tex": 90.0}}, "grist"),
    ],
)
def test_what_the_plan_says_itself_is_not_taken_for_granted(tables, word):
    assert not any(word in said for said in answered(plan_of(**tables))["assumptions"])
