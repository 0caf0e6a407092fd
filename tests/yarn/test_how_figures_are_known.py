"""How each figure of a yarn is known: given, measured, derived from what is given, or assumed."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand

ALL_ASSUMED = {
    "single_tex": "assumed",
    "relaxed_density_g_per_cm3": "assumed",
    "packed_density_g_per_cm3": "assumed",
    "twist_tpm": None,
    "ply_twist_tpm": None,
}


@pytest.mark.parametrize(
    ("spinning", "plying", "known"),
    [
        ({}, {}, {}),
        ({"single_tex": 100.0}, {}, {"single_tex": "given"}),
        ({"single_m_per_g": 10.0}, {}, {"single_tex": "given"}),
        ({"yarn_m_per_100g": 400.0}, {}, {"single_tex": "derived"}),
        (
            {"single_wpi": 20.0, "relaxed_density_g_per_cm3": 0.5},
            {},
            {"single_tex": "derived", "relaxed_density_g_per_cm3": "given"},
        ),
        ({"packed_density_g_per_cm3": 0.9}, {}, {"packed_density_g_per_cm3": "given"}),
        ({"twist_tpm": 300.0}, {}, {"twist_tpm": "given"}),
        ({"twist_tpi": 8.0}, {}, {"twist_tpm": "given"}),
        ({"single_tex": 100.0, "twist_angle_deg": 20.0}, {},
         {"single_tex": "given", "twist_tpm": "derived"}),
        ({}, {"twist_tpm": 200.0}, {"ply_twist_tpm": "given"}),
        ({"twist_tpm": 300.0}, {"balance": "two_thirds"},
         {"twist_tpm": "given", "ply_twist_tpm": "derived"}),
    ],
)  # fmt: skip
def test_a_figure_is_known_by_what_the_plan_says(spinning, plying, known):
    data = by_hand({"Kelp": 50.0, "Foam": 50.0}, spinning=spinning, plying=plying)
    found = yc.answer(yc.plan_from_data(data)).resolved.yarn.provenance
    assert {key: found[key] for key in ALL_ASSUMED} == ALL_ASSUMED | known
