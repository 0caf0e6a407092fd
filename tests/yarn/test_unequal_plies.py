"""Yarns of unlike singles, and singles that got more twist than was planned."""

from math import atan, degrees, pi, sqrt, tan

import numpy as np
import pytest

from tests.helpers.strategies import advised, answered
from tests.helpers.yarns import (
    PLIED,
    SPUN,
    THREE,
    TWO,
    body_of,
    diameter,
    lost_by_untwisting,
    plan_of,
    yarn_of,
)
from yarncolor import answer, plan_from_data
from yarncolor.answers.choices import replan
from yarncolor.yarn.over_twist import over_twisted

# --- plies that are not alike ---------------------------------------------------------------------


def test_unequal_plies_are_equally_long_and_show_by_their_width():
    """100 and 50 tex: 0.586 and 0.414 of the surface, two thirds and one third of the mass."""
    found = answered(plan_of(scheme=TWO, spinning={"single_tex": [100.0, 50.0]}))
    assert [one["surface_share"] for one in found["singles"]] == pytest.approx(
        [0.586, 0.414], abs=0.0005
    )
    assert [one["mass_g"] for one in found["singles"]] == pytest.approx([40, 20])
    assert [one["length_m"] for one in found["singles"]] == pytest.approx([400, 400])


@pytest.mark.parametrize("spinning", [{}, SPUN, {"twist_angle_deg": [15.0, 25.0, 20.0]}])
@pytest.mark.parametrize("strands", [1, [1, 2, 3]])
def test_the_grams_of_unequal_plies_are_those_of_the_yarn(spinning, strands):
    tex = [100.0, 50.0, 75.0]
    found = answered(
        plan_of(
            scheme=THREE,
            spinning={"single_tex": tex} | spinning,
            plying={"twist_tpm": 170.0, "strands": strands},
        )
    )
    of_ply = np.array(tex) * strands
    yarn = found["yarn"]
    assert [one["linear_density_tex"] for one in found["singles"]] == pytest.approx(of_ply.tolist())
    kept = 1 - yarn["contraction"]
    assert yarn["linear_density_tex"] == pytest.approx(of_ply.sum() / kept, rel=1e-12)
    shares = np.sqrt(of_ply) / np.sqrt(of_ply).sum()
    assert [one["surface_share"] for one in found["singles"]] == pytest.approx(shares.tolist())


def test_unequal_plies_each_keep_their_own_length_and_the_yarn_their_mass():
    """Two plies touch whatever their sizes: centres (d1 + d2) / 4 from the axis."""
    tex, twist, turns = np.array([120.0, 60.0]), np.array([280.0, 350.0]), 180.0
    found = yarn_of(
        scheme=TWO,
        spinning={"single_tex": tex.tolist(), "twist_tpm": twist.tolist()},
        plying={"twist_tpm": turns},
    )
    wide_m = np.array([diameter(one) for one in tex]) / 1000
    flat = np.cos(np.arctan(2 * pi * wide_m.sum() / 4 * turns))
    assert found["helix_angle_deg"] == pytest.approx(degrees(np.arccos(flat)), rel=1e-9)
    k = np.tan(np.arctan(pi * wide_m * twist) / 2) ** 2
    k_left = np.tan(np.arctan(pi * wide_m * np.abs(twist - turns * flat**2)) / 2) ** 2
    metre_of_yarn = flat * (1 - k_left) / (1 - k)
    tex_of_yarn = (tex / metre_of_yarn).sum()
    assert found["linear_density_tex"] == pytest.approx(tex_of_yarn, rel=1e-9)


THICK_AND_THIN = [200.0, 50.0]


def metre_of_yarn(tex, twist, turns) -> np.ndarray:
    """Return metres of yarn from a metre of each of two singles, formulas written out anew."""
    tex, twist = np.array(tex), np.array(twist)
    wide_m = np.array([diameter(one) for one in tex]) / 1000
    flat = np.cos(np.arctan(2 * pi * wide_m.sum() / 4 * turns))
    k = np.tan(np.arctan(pi * wide_m * twist) / 2) ** 2
    k_left = np.tan(np.arctan(pi * wide_m * np.abs(twist - turns * flat**2)) / 2) ** 2
    return flat * (1 - k_left) / (1 - k)


def unlike(scheme: dict, twist=300.0, turns=200.0, tex=THICK_AND_THIN) -> dict:
    spinning = {"single_tex": tex, "twist_tpm": twist}
    return plan_of(scheme=scheme, spinning=spinning, plying={"twist_tpm": turns})


@pytest.mark.parametrize("scheme", ["matched", "fractal", "staggered", "stepped", "flipped"])
@pytest.mark.parametrize("wound_off", [0, 1])
def test_unlike_plies_are_due_fibre_by_the_length_each_loses_and_end_together(scheme, wound_off):
    data = unlike({"name": scheme, "plies": 2})
    data["plying"]["wound_off"] = wound_off
    found = answered(data)
    per_m = metre_of_yarn(THICK_AND_THIN, [300.0, 300.0], 200.0)
    assert abs(np.ptp(per_m)) > 0.02
    grams = np.array([one["mass_g"] for one in found["singles"]])
    due = THICK_AND_THIN / per_m
    assert grams / grams.sum() == pytest.approx(due / due.sum(), rel=1e-9)
    metres = np.array([one["length_m"] for one in found["singles"]])
    assert metres * per_m == pytest.approx([found["yarn"]["length_m"]] * 2, rel=1e-9)
    assert found["leftovers"] == []
    assert found["yarn"]["length_m"] * found["yarn"]["linear_density_tex"] == pytest.approx(60_000)


def test_singles_of_one_length_that_lose_unlike_lengths_leave_one_over():
    portions = [{"ply": 1, "lot": "Kelp", "mass_g": 20.0}, {"ply": 2, "lot": "Foam", "mass_g": 5.0}]
    found = answered(unlike({"name": "free", "portions": portions}))
    assert [one["length_m"] for one in found["singles"]] == pytest.approx([100, 100])
    thick, thin = metre_of_yarn(THICK_AND_THIN, [300.0, 300.0], 200.0) * 100
    assert thick > thin
    assert found["yarn"]["length_m"] == pytest.approx(thin)
    left = [row for row in found["leftovers"] if row["ply"] is not None]
    assert [(row["ply"], row["lot"]) for row in left] == [(1, "Kelp")]
    assert left[0]["length_m"] == pytest.approx((thick - thin) / thick * 100)


def test_unlike_plies_spun_as_planned_end_together_at_the_wheel():
    """Their singles are not equally long, and need not be."""
    data = unlike(TWO) | {"spun": [{"ply": 1, "through": 1}, {"ply": 2, "through": 1}]}
    found = answer(plan_from_data(data))
    assert np.ptp(found.layout.portions.single_m) > 1
    ways = replan(found).choices
    assert ways
    assert all(way.ends_together for way in ways)


def told_of_unlike_plies(data: dict) -> list[str]:
    return [text for kind, text in advised(data) if kind == "unlike_plies"]


def test_unlike_plies_are_told_by_how_much_they_take_up_and_that_a_thin_one_may_wind_round():
    per_m = metre_of_yarn(THICK_AND_THIN, [300.0, 300.0], 200.0)
    (told,) = told_of_unlike_plies(unlike(TWO))
    assert f"ply 1 gains {per_m[0] - 1:.1%}" in told
    assert f"ply 2 loses {1 - per_m[1]:.1%}" in told
    assert f"ply 2 has to be {per_m[0] / per_m[1] - 1:.1%} longer" in told
    assert "Ply 2 is at most half as thick as ply 1" in told


@pytest.mark.parametrize("turns", [120.0, 160.0, 200.0])
@pytest.mark.parametrize("thin", np.arange(50.0, 200.0, 10.0).tolist())
def test_unlike_plies_are_told_from_one_per_cent_on(thin, turns):
    per_m = metre_of_yarn([200.0, thin], [300.0, 300.0], turns)
    data = unlike(TWO, turns=turns, tex=[200.0, thin])
    told = [text for text in told_of_unlike_plies(data) if "take up alike" in text]
    assert bool(told) == bool(np.ptp(per_m) >= 0.01)


@pytest.mark.parametrize("plying", [{"contraction": 0.03}, {"contraction_model": "helix"}])
def test_a_measured_loss_or_the_helix_alone_takes_as_much_from_every_ply(plying):
    data = unlike(TWO)
    data["plying"] |= plying
    metres = [one["length_m"] for one in answered(data)["singles"]]
    assert metres[0] == pytest.approx(metres[1], rel=1e-12)
    (told,) = told_of_unlike_plies(data)
    assert told.startswith("Ply 2 is at most half as thick as ply 1.")
    data["spinning"]["single_tex"] = [190.0, 50.0]
    assert told_of_unlike_plies(data) == []


def test_strands_lie_side_by_side_in_one_ply():
    """Two strands of 100 tex are a ply of 200: d = √2 times as wide, the ring with it."""
    two, thick = (
        yarn_of(scheme=THREE, spinning={"single_tex": tex}, plying={"strands": n} | PLIED)
        for tex, n in ((100.0, 2), (200.0, 1))
    )
    for key in ("linear_density_tex", "single_diameter_mm", "helix_angle_deg", "length_m", "wpi"):
        assert two[key] == pytest.approx(thick[key], rel=1e-12)
    assert two["single_wpi"] == pytest.approx(sqrt(2) * thick["single_wpi"])


# --- more twist in the singles than was planned ---------------------------------------------------


def test_a_yarn_that_got_the_twist_that_was_planned_is_as_planned():
    body = body_of(scheme=THREE, spinning=SPUN, plying=PLIED)
    same = over_twisted(body, 0.0)
    assert (same.single_length, same.yarn_length) == pytest.approx((1, 1))
    assert same.twist_tpm == pytest.approx(300)
    assert same.contraction == pytest.approx(body.contraction)


def test_a_fifth_more_twist_draws_the_single_in_and_asks_for_a_fifth_more_ply_twist():
    body = body_of(scheme=THREE, spinning=SPUN, plying=PLIED)
    more = over_twisted(body, 0.2)
    wide_m = diameter(100.0) / 1000
    kept = [1 - tan(atan(pi * wide_m * turns) / 2) ** 2 for turns in (300.0, 360.0)]
    plied = [1 - lost_by_untwisting(100.0, 3, turns, 190.0) for turns in (300.0, 360.0)]
    assert more.angle_deg == pytest.approx(degrees(atan(pi * wide_m * 360)))
    assert more.single_length == pytest.approx(kept[1] / kept[0])
    assert more.yarn_length == pytest.approx(kept[1] / kept[0] * plied[1] / plied[0])
    low, high = more.balanced_tpm
    assert low == pytest.approx(360 / (1 + 2 / sqrt(3)))
    assert high == pytest.approx(360 * 2 / 3, rel=0.05)


@pytest.mark.parametrize("strands", [1, 2])
@pytest.mark.parametrize("tex", [100.0, [100.0, 60.0, 140.0]])
def test_no_excess_loses_in_plying_what_the_plan_loses(strands, tex):
    body = body_of(
        scheme=THREE, spinning=SPUN | {"single_tex": tex}, plying=PLIED | {"strands": strands}
    )
    assert over_twisted(body, 0.0).contraction == pytest.approx(body.contraction, abs=5e-4)


@pytest.mark.parametrize(
    ("scheme", "spinning", "plying"), [(THREE, {}, PLIED), (THREE, SPUN, {}), ({"plies": 1},) * 3]
)
def test_nothing_is_said_of_too_much_twist_where_twist_is_not_known(scheme, spinning, plying):
    spinning = SPUN if scheme["plies"] == 1 else spinning
    plying = PLIED if scheme["plies"] == 1 else plying
    assert over_twisted(body_of(scheme=scheme, spinning=spinning, plying=plying), 0.1) is None
