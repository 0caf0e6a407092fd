"""Laws that every yarn keeps, whatever its tables."""

import json

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.strategies import answered
from tests.helpers.yarns import (
    CHAIN,
    SCHEMES,
    diameter,
    plan_of,
)

turns = st.floats(100, 500)
degrees_of_twist = st.floats(5, 32)


@st.composite
def _grist(draw, singles: int) -> dict:
    tex = draw(st.floats(30, 250))
    many = [tex * draw(st.floats(0.5, 2)) for _ in range(singles)]
    wraps = [25.4 / diameter(one, 0.16) for one in many]
    return draw(
        st.sampled_from(
            (
                {},
                {"single_tex": tex},
                {"single_tex": many},
                {"single_m_per_g": [1000 / one for one in many]},
                {"sample": {"length_m": 10.0, "mass_g": tex / 100}},
                {"single_wpi": wraps},
                {"yarn_m_per_100g": 1e5 / tex / 3},
                {"yarn_wpi": wraps[0] / 2},
                {"wrapped_skein": {"wpi": 12.0, "m_per_100g": 200.0}, "yarn_wpi": wraps[0] / 2},
            )
        )
    )


@st.composite
def bodies(draw, fixed_grist: bool = False) -> dict:
    """Draw a plan whose yarn is a body in any way that the tables allow."""
    scheme = draw(st.sampled_from((*SCHEMES.values(), {"name": "fractal", "divisions": [1, 3]})))
    singles = 1 if scheme == CHAIN else scheme.get("plies", 2)
    spinning = {"single_tex": draw(st.floats(30, 250))} if fixed_grist else draw(_grist(singles))
    angle = draw(degrees_of_twist)
    spinning |= draw(
        st.sampled_from(
            (
                {},
                {"twist_angle_deg": angle},
                {"twist_angle_deg": [angle * (1 - 0.05 * k) for k in range(singles)]},
                {"twist_factor": angle * 100},
            )
        )
    )
    spinning |= {"spin_loss": draw(st.sampled_from((0.0, 0.05)))}
    plying = draw(
        st.sampled_from(
            (
                {},
                {"twist_tpm": draw(turns)},
                {"contraction": draw(st.floats(-0.2, 0.6))},
                {"twist_tpi": draw(st.floats(2, 9)), "contraction_model": "helix"},
                {"balance": "two_thirds"},
                {"balance": "equal_length"},
                {"twist_tpm": draw(turns), "direction": "Z", "contraction_model": "none"},
            )
        )
    )
    plying |= {"strands": draw(st.sampled_from((1, 1, 2)))}
    fabric = draw(st.sampled_from(({}, {"finishing_shrinkage": 0.1})))
    rest = draw(st.sampled_from(({}, {"resting_shrinkage": 0.05})))
    data = plan_of(scheme=scheme, spinning=spinning, plying=plying | rest, fabric=fabric)
    assume(_is_good(data))
    return data


def _is_good(data: dict) -> bool:
    try:
        yc.plan_from_data(data)
    except yc.PlanError:
        return False
    return True


@given(bodies())
def test_mass_is_kept_from_the_lots_to_the_yarn(data):
    found = answered(data)
    yarn, spun = found["yarn"], 1 - data["spinning"]["spin_loss"]
    assert yarn["mass_g"] == pytest.approx(60 * spun)
    assert yarn["length_m"] * yarn["linear_density_tex"] / 1000 == pytest.approx(yarn["mass_g"])
    folds = 3 if data["scheme"] == CHAIN else 1
    in_yarn = yarn["length_m"] / (1 - yarn["contraction"]) * folds
    for one in found["singles"]:
        grams = one["length_m"] * one["linear_density_tex"] / 1000
        assert grams == pytest.approx(one["mass_g"] * spun)
        assert one["length_m"] == pytest.approx(in_yarn, rel=0.02)
    lengths = [one["length_m"] for one in found["singles"]]
    tex = [one["linear_density_tex"] for one in found["singles"]]
    assert np.average(lengths, weights=tex) == pytest.approx(in_yarn)
    if len({*tex, *(one["twist_tpm"] for one in found["singles"])}) == 2:
        assert lengths == pytest.approx([in_yarn] * len(lengths))


def numbers_in(value: object) -> list[float]:
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        return [number for item in value for number in numbers_in(item)]
    return [value] if isinstance(value, float) else []


@given(bodies())
def test_every_number_of_the_answer_is_one(data):
    written = yc.draw.plan_json(yc.answer(yc.plan_from_data(data)))
    found = json.loads(written.decode(), parse_constant=pytest.fail)
    assert np.isfinite(numbers_in(found)).all()
    yarn = found["yarn"]
    for key in ("length_m", "mass_g", "linear_density_tex", "diameter_mm", "wpi", "m_per_100g"):
        assert yarn[key] > 0
    assert -0.2 <= yarn["contraction"] <= 0.6
    assert yarn["contraction_model"] in ("measured", "untwisting", "helix", "none")
    assert set(yarn["source"].values()) <= {"given", "derived", "assumed", "measured", None}


@given(bodies())
def test_a_number_is_null_where_its_source_is(data):
    yarn = answered(data)["yarn"]
    for key, source in yarn["source"].items():
        if key in yarn:
            assert (yarn[key] is None) == (source is None), key


@given(bodies(fixed_grist=True), st.floats(1.01, 1.5))
def test_more_ply_twist_never_lengthens_a_yarn_by_its_helix(data, more):
    data["plying"] = {"twist_tpm": 150.0, "contraction_model": "helix"}
    tighter = data | {"plying": data["plying"] | {"twist_tpm": 150.0 * more}}
    assume(_is_good(tighter))
    loose, tight = answered(data)["yarn"], answered(tighter)["yarn"]
    assert tight["length_m"] <= loose["length_m"]
    assert tight["linear_density_tex"] >= loose["linear_density_tex"]


@given(bodies(fixed_grist=True), st.floats(0.5, 0.99))
def test_a_finer_single_never_makes_a_heavier_yarn(data, finer):
    """With as many turns in both; where a balance is asked for, it is left out."""
    for table, key, twist in (("spinning", "twist_angle_deg", 280.0), ("plying", "balance", 150.0)):
        if data[table].pop(key, None) is not None:
            data[table]["twist_tpm"] = twist
    data["spinning"].pop("twist_factor", None)
    assume(_is_good(data))
    tex = data["spinning"]["single_tex"]
    fine = data | {"spinning": data["spinning"] | {"single_tex": tex * finer}}
    thick_yarn, fine_yarn = answered(data)["yarn"], answered(fine)["yarn"]
    assert fine_yarn["linear_density_tex"] <= thick_yarn["linear_density_tex"]
    assert fine_yarn["length_m"] >= thick_yarn["length_m"]
    assert fine_yarn["wpi"] >= thick_yarn["wpi"]


@given(bodies(), st.sampled_from((0, 1, 2)))
def test_where_colours_lie_does_not_depend_on_the_body(data, wound_off):
    """Grist and twist alike on all plies: edges are the same shares of the yarn."""
    data["spinning"] = {
        key: value for key, value in data["spinning"].items() if not isinstance(value, list)
    }
    data["plying"]["wound_off"] = wound_off
    assume(_is_good(data))
    bare = {"lots": data["lots"], "scheme": data["scheme"], "plying": {"wound_off": wound_off}}
    found, plain = answered(data), answered(bare)
    assert [one["comes_off"] for one in found["singles"]] == [
        one["comes_off"] for one in plain["singles"]
    ]
    if data["scheme"] == CHAIN:
        return  # its loops are metres of single
    assert [row["lots"] for row in found["stretches"]] == [
        row["lots"] for row in plain["stretches"]
    ]
    ends = [
        [row["end_m"] / one["yarn"]["length_m"] for row in one["stretches"]]
        for one in (found, plain)
    ]
    assert ends[0] == pytest.approx(ends[1], abs=3e-9)
