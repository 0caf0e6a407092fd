"""Every key that a yarn rests on, saved and read again."""

from dataclasses import replace

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from tests.helpers.yarns import THREE
from yarncolor.plan import to_data
from yarncolor.planfile.save import save_plan

EVERY_KEY = {
    "spinning": {
        "single_tex": [110.0, 105.0, 100.0],
        "single_m_per_g": [9.1, 9.5, 10.0],
        "sample": {"length_m": 20.0, "mass_g": 2.1},
        "yarn_m_per_100g": 310.0,
        "single_wpi": [27.0, 27.5, 28.0],
        "yarn_wpi": 15.5,
        "wrapped_skein": {"wpi": 12.0, "m_per_100g": 186.0},
        "packed_density_g_per_cm3": 0.45,
        "relaxed_density_g_per_cm3": 0.153,
        "twist_tpm": [300.0, 310.0, 305.0],
        "twist_tpi": [7.7, 7.8, 7.7],
        "twist_angle_deg": 27.0,
        "twist_factor": 3120.0,
        "direction": ["Z", "Z", "Z"],
        "card_loss": 0.05,
        "spin_loss": 0.02,
        "variation": 0.08,
        "variation_drift": 0.5,
        "variation_within": 0.2,
        "variation_reach_m": 3.0,
        "variation_bobbins": 0.03,
        "divided": "eye",
        "minutes_per_g": 3.0,
        "treadles_per_min": 60.0,
        "drive_ratio": 10.0,
    },
    "plying": {
        "wound_off": [0, 2, 0],
        "strands": [1, 1, 1],
        "twist_tpm": 190.0,
        "twist_tpi": 4.8,
        "balance": "two_thirds",
        "direction": "S",
        "contraction_model": "helix",
        "contraction": 0.04,
        "resting_shrinkage": 0.0,
        "treadles_per_min": 50.0,
        "drive_ratio": 8.0,
    },
    "scale": {"step_g": 0.5, "regain": 0.14},
    "bobbins": {
        "count": 3,
        "capacity_g": 90.0,
        "tare_g": [61.0, 60.5, 0.0],
        "plying_count": 1,
        "plying_capacity_g": 200.0,
        "plying_tare_g": 0.0,
    },
    "fabric": {
        "kind": "triangle",
        "stitches": 60,
        "width_cm": 33.3,
        "rows": 23,
        "increases_per_row": 1.9,
        "gauge_stitches": 18.0,
        "gauge_rows": 26.0,
        "swatch": {"stitches": 30, "rows": 40, "mass_g": 6.5},
        "finishing_shrinkage": 0.0,
    },
}


def every_key() -> dict:
    data = by_hand({"Kelp": 27.0, "Foam": 27.0}, scheme=THREE, **EVERY_KEY)
    data["lots"][0]["regain"] = 0.16
    return data


def test_the_plan_that_holds_every_key_holds_every_key():
    plan = yc.plan_from_data(every_key())
    for name, table in EVERY_KEY.items():
        assert set(table) == set(vars(getattr(plan, name)))


def test_every_key_of_the_body_is_read_again_as_it_was_saved(tmp_path):
    plan = yc.plan_from_data(every_key())
    data = to_data(plan)
    for name, table in EVERY_KEY.items():
        assert data[name] == table
    assert data["lots"][0]["regain"] == 0.16
    path = save_plan(plan, tmp_path / "plan.toml")
    assert yc.read_plan(path) == plan


NEEDED_BY_OTHERS = (
    *(("fabric", "stitches"), ("fabric", "gauge_stitches")),
    *(("spinning", "treadles_per_min"), ("spinning", "drive_ratio")),
)


@pytest.mark.parametrize(
    ("table", "key"),
    [
        (name, key)
        for name, table in EVERY_KEY.items()
        for key in table
        if (name, key) not in NEEDED_BY_OTHERS
    ],
)
def test_a_key_that_is_taken_out_and_put_back_is_so_in_the_file(table, key, tmp_path):
    plan = yc.plan_from_data(every_key())
    path = save_plan(plan, tmp_path / "plan.toml")
    less = replace(plan, **{table: replace(getattr(plan, table), **{key: None})})
    save_plan(less, path)
    assert yc.read_plan(path) == less
    save_plan(plan, path)
    assert yc.read_plan(path) == plan
