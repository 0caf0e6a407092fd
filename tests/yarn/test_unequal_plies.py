"""Yarns of unlike singles, and singles that got more twist than was planned."""

from math import atan, degrees, pi, sqrt, tan

import numpy as np
import pytest

from tests.helpers.strategies import answered
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
