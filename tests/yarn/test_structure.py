"""The yarn as a body, through whole plans: grist, twist, helix, length lost in plying.

Formulas are those of the textile sheet, written out anew here: d = √(4 T / (π ρ 1000)) mm,
R = r / sin(π/P), tan β = 2π R U, u' = u - U cos² β, k = tan²(α/2),
c = 1 - cos β (1 - k') / (1 - k). Tables are its sections 2 to 5.
"""

import json
from dataclasses import replace
from math import atan, cos, degrees, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.strategies import answered, by_hand
from yarncolor.plan import to_data
from yarncolor.planfile.save import save_plan
from yarncolor.yarn.over_twist import over_twisted
from yarncolor.yarn.structure import YarnStructure, yarn_structure

MM1_TEX = pi / 4 * 500
"""Tex of a single of 1 mm at 0.5 g/cm³."""

SHRINKING = {"finishing_shrinkage": 0.08}
TWO = {"name": "matched", "plies": 2}
THREE = {"name": "matched", "plies": 3}
FOUR = {"name": "matched", "plies": 4}
CHAIN = {"name": "chain"}


def plan_of(**tables) -> dict:
    return by_hand({"Kelp": 30.0, "Foam": 30.0}, **tables)


def yarn_of(**tables) -> dict:
    """Return the yarn of a plan of two lots, as it stands in ``plan.json``."""
    return answered(plan_of(**tables))["yarn"]


def body_of(**tables) -> YarnStructure:
    return yarn_structure(yc.plan_from_data(plan_of(**tables)))


def diameter(tex: float, density: float = 0.5) -> float:
    return sqrt(4 * tex / (pi * density * 1000))


def turns_at(angle_deg: float, tex: float) -> float:
    """Return turns a metre of a single of 0.5 g/cm³ whose outer fibres stand at an angle."""
    return tan(radians(angle_deg)) / (pi * diameter(tex) / 1000)


def lost_by_helix(tex: float, plies: int, ply_twist: float) -> float:
    ring_m = diameter(tex) / 2 / sin(pi / plies) / 1000
    return 1 - cos(atan(2 * pi * ring_m * ply_twist))


def lost_by_untwisting(
    tex: float, plies: int, twist: float, ply_twist: float, opposed: bool = True
) -> float:
    """Return the net length lost of equal singles of 0.5 g/cm³."""
    wide_m = diameter(tex) / 1000
    flat = cos(atan(2 * pi * wide_m / 2 / sin(pi / plies) * ply_twist))
    left = abs(twist - ply_twist * flat**2 * (1 if opposed else -1))
    k, k_left = (tan(atan(pi * wide_m * turns) / 2) ** 2 for turns in (twist, left))
    return 1 - flat * (1 - k_left) / (1 - k)


# --- how thick: any one thing is enough ------------------------------------------------------

WAYS = {
    "single_tex": {"single_tex": 125.0},
    "single_m_per_g": {"single_m_per_g": 8.0},
    "sample": {"sample": {"length_m": 20.0, "mass_g": 2.5}},
    "single_wpi": {"single_wpi": 25.4 / diameter(125.0, 0.16)},
}


@pytest.mark.parametrize("scheme", [{"plies": 1}, TWO, THREE, CHAIN])
@pytest.mark.parametrize("way", WAYS)
def test_any_one_thing_known_of_the_single_is_enough(way, scheme):
    found = answered(plan_of(scheme=scheme, spinning=WAYS[way]))
    assert [single["linear_density_tex"] for single in found["singles"]] == pytest.approx(
        [125.0] * len(found["singles"]), rel=1e-12
    )
    assert found["yarn"]["single_wpi"] == pytest.approx(25.4 / diameter(125.0, 0.16), rel=1e-12)


@pytest.mark.parametrize(
    ("way", "source"),
    [
        ({}, "assumed"),
        ({"single_tex": 125.0}, "given"),
        ({"single_m_per_g": 8.0}, "given"),
        ({"sample": {"length_m": 20.0, "mass_g": 2.5}}, "measured"),
        ({"single_wpi": 28.0}, "derived"),
        ({"yarn_wpi": 14.0}, "derived"),
        ({"yarn_m_per_100g": 280.0}, "derived"),
    ],
)
def test_the_source_of_the_grist_is_said(way, source):
    assert yarn_of(spinning=way)["source"]["single_tex"] == source


@pytest.mark.parametrize(
    ("tables", "source"),
    [
        ({"spinning": {"single_wpi": 28.0}}, ("given", "derived")),
        ({"spinning": {"yarn_wpi": 14.0}}, ("derived", "given")),
        ({"spinning": {"yarn_wpi": 14.0}, "fabric": SHRINKING}, ("derived", "derived")),
        ({}, ("derived", "derived")),
    ],
)
def test_wraps_that_are_given_are_said_to_be(tables, source):
    """Those of the finished yarn are not those of the yarn as plied where it shrinks."""
    found = yarn_of(**tables)["source"]
    assert (found["single_wpi"], found["wpi"]) == source


def test_nothing_known_is_100_tex_and_said():
    found = answered(plan_of())
    assert found["singles"][0]["linear_density_tex"] == 100
    assert "grist of the singles: 1000 m in 100 g" in found["assumptions"]


@pytest.mark.parametrize("way", ["single_tex", "single_m_per_g", "single_wpi"])
def test_plies_may_differ_by_each_way_that_takes_a_list(way):
    tex = [100.0, 50.0, 200.0]
    lists = {
        "single_tex": tex,
        "single_m_per_g": [10.0, 20.0, 5.0],
        "single_wpi": [25.4 / diameter(one, 0.16) for one in tex],
    }
    found = answered(plan_of(scheme=THREE, spinning={way: lists[way]}))
    assert [one["linear_density_tex"] for one in found["singles"]] == pytest.approx(tex)
    assert found["yarn"]["single_diameter_mm"] is None
    assert found["yarn"]["single_wpi"] is None


MODELS = {
    "none": ({}, {}),
    "measured": ({}, {"contraction": 0.05}),
    "measured, longer": ({}, {"contraction": -0.03}),
    "helix": ({}, {"twist_tpm": 190.0}),
    "untwisting by tpm": ({"twist_tpm": 300.0}, {"twist_tpm": 190.0}),
    "untwisting by angle": ({"twist_angle_deg": 25.0}, {"twist_tpm": 190.0}),
    "untwisting by factor": ({"twist_factor": 3000.0}, {"twist_tpm": 190.0}),
    "untwisting, balanced": ({"twist_angle_deg": 25.0}, {"balance": "two_thirds"}),
    "helix though both are known": (
        {"twist_tpm": 300.0},
        {"twist_tpm": 190.0, "contraction_model": "helix"},
    ),
    "spun and plied alike": (
        {"twist_tpm": 150.0, "direction": "S"},
        {"twist_tpm": 120.0, "direction": "S"},
    ),
}
SCHEMES = {
    "one ply": {"plies": 1},
    "two": TWO,
    "three": THREE,
    "chain": CHAIN,
    "seven": {"name": "matched", "plies": 7},
}


def finished_tex(found: dict, kept: float) -> float:
    return found["linear_density_tex"] / kept


@pytest.mark.parametrize("scheme", SCHEMES.values(), ids=SCHEMES)
@pytest.mark.parametrize(("twisted", "plied"), MODELS.values(), ids=MODELS)
def test_a_yarn_of_known_metres_in_100_g_comes_out_so_when_it_is_finished(scheme, twisted, plied):
    """280 m in 100 g after resting (4 %) and washing (8 %), whatever is lost in plying."""
    found = yarn_of(
        scheme=scheme,
        spinning={"yarn_m_per_100g": 280.0} | twisted,
        plying=plied | {"resting_shrinkage": 0.04},
        fabric=SHRINKING,
    )
    assert finished_tex(found, 0.96 * 0.92) == pytest.approx(1e5 / 280, rel=1e-9)


@pytest.mark.parametrize("strands", [2, [1, 2, 4]])
@pytest.mark.parametrize(("twisted", "plied"), MODELS.values(), ids=MODELS)
def test_strands_share_the_grist_of_a_known_yarn(strands, twisted, plied):
    data = plan_of(
        scheme=THREE,
        spinning={"yarn_m_per_100g": 140.0} | twisted,
        plying=plied | {"strands": strands},
    )
    found = answered(data)
    assert found["yarn"]["linear_density_tex"] == pytest.approx(1e5 / 140, rel=1e-9)
    each = [one["linear_density_tex"] / one["strands"] for one in found["singles"]]
    assert each == pytest.approx([each[0]] * 3, rel=1e-12)


@pytest.mark.parametrize("scheme", SCHEMES.values(), ids=SCHEMES)
@pytest.mark.parametrize(("twisted", "plied"), MODELS.values(), ids=MODELS)
def test_a_yarn_of_known_wraps_comes_out_so_when_it_is_finished(scheme, twisted, plied):
    found = yarn_of(
        scheme=scheme, spinning={"yarn_wpi": 14.0} | twisted, plying=plied, fabric=SHRINKING
    )
    tex = finished_tex(found, 0.92)
    assert 25.4 / diameter(tex, 0.16) == pytest.approx(14.0, rel=1e-9)


def test_a_wrapped_skein_says_how_a_spinner_wraps():
    """12 wraps and 200 m in 100 g are 500 tex in 2.1167 mm: 0.14209 g/cm³."""
    skein = {"wpi": 12.0, "m_per_100g": 200.0}
    found = yarn_of(scheme=TWO, spinning={"wrapped_skein": skein, "yarn_wpi": 12.0})
    assert found["linear_density_tex"] == pytest.approx(500, rel=1e-12)
    assert found["wpi"] == pytest.approx(12, rel=1e-12)
    assert found["source"]["relaxed_density_g_per_cm3"] == "measured"
    body = body_of(scheme=TWO, spinning={"wrapped_skein": skein})
    density = 500 / 1e5 / (pi / 4 * (2.54 / 12) ** 2)
    assert body.relaxed_density_g_per_cm3 == pytest.approx(density, rel=1e-12)


@pytest.mark.parametrize(
    ("spinning", "source"), [({}, "assumed"), ({"relaxed_density_g_per_cm3": 0.2}, "given")]
)
def test_the_source_of_the_density_on_a_ruler_is_said(spinning, source):
    assert yarn_of(spinning=spinning)["source"]["relaxed_density_g_per_cm3"] == source


def test_of_two_ways_that_agree_the_first_of_the_contract_counts():
    both = {"sample": {"length_m": 10.0, "mass_g": 1.05}, "single_tex": 100.0}
    found = answered(plan_of(spinning=both))
    assert found["singles"][0]["linear_density_tex"] == 100
    said = "grist by the tex of the singles; the weighed sample would give the same, near enough"
    assert said in found["assumptions"]


# --- twist -----------------------------------------------------------------------------------


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


def test_the_sheet_s_factor_stands_at_its_angle():
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


def test_a_self_plied_yarn_has_the_twist_of_the_sheet():
    """2 plies, 20°, bending over torsional stiffness 1.3: 0.857 of the singles' twist."""
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


# --- directions ------------------------------------------------------------------------------


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


# --- which model -----------------------------------------------------------------------------

SPUN, PLIED = {"twist_tpm": 300.0}, {"twist_tpm": 190.0}


@pytest.mark.parametrize(
    ("scheme", "spinning", "plying", "model", "source"),
    [
        (THREE, SPUN, PLIED, "untwisting", "derived"),
        (CHAIN, SPUN, PLIED, "untwisting", "derived"),
        (THREE, {}, PLIED, "helix", "derived"),
        (THREE, SPUN, {}, "none", "assumed"),
        (THREE, {}, {}, "none", "assumed"),
        (THREE, SPUN, {"balance": "two_thirds"}, "untwisting", "derived"),
        (THREE, SPUN, PLIED | {"contraction": 0.04}, "measured", "measured"),
        (THREE, SPUN, PLIED | {"contraction": 0.0}, "measured", "measured"),
        (THREE, SPUN, {"contraction": 0.1, "contraction_model": "helix"}, "measured", "measured"),
        (THREE, SPUN, PLIED | {"contraction_model": "helix"}, "helix", "derived"),
        (THREE, SPUN, PLIED | {"contraction_model": "none"}, "none", "assumed"),
        ({"plies": 1}, SPUN, PLIED, "none", "assumed"),
        ({"plies": 1}, SPUN, PLIED | {"contraction_model": "helix"}, "none", "assumed"),
    ],
)
def test_the_model_in_force_is_that_of_the_contract(scheme, spinning, plying, model, source):
    found = yarn_of(scheme=scheme, spinning=spinning, plying=plying)
    strands = {"chain": 3}.get(scheme.get("name"), scheme.get("plies"))
    expected = {
        "none": 0.0,
        "measured": plying.get("contraction"),
        "helix": lost_by_helix(100.0, max(strands, 2), 190.0),
        "untwisting": lost_by_untwisting(
            100.0, max(strands, 2), 300.0, plying.get("twist_tpm", 200.0)
        ),
    }[model]
    assert found["contraction_model"] == model
    assert found["source"]["contraction"] == source
    assert found["contraction"] == pytest.approx(expected, rel=1e-12)


def test_what_every_model_says_stands_in_the_answer_whichever_is_in_force():
    helix, untwisting = lost_by_helix(100.0, 3, 190.0), lost_by_untwisting(100.0, 3, 300.0, 190.0)
    for plying in (PLIED, PLIED | {"contraction": 0.2}, PLIED | {"contraction_model": "none"}):
        found = yarn_of(scheme=THREE, spinning=SPUN, plying=plying)
        assert found["contraction_by_model"] == pytest.approx(
            {"helix": helix, "untwisting": untwisting}, rel=1e-12
        )
    assert yarn_of(scheme=THREE, plying=PLIED)["contraction_by_model"] == pytest.approx(
        {"helix": helix}, rel=1e-12
    )
    assert yarn_of(spinning=SPUN)["contraction_by_model"] == {}


def test_the_length_of_a_plan_is_shorter_by_what_is_lost():
    """30 + 30 g of three singles of 100 tex: 200 m each."""
    found = answered(plan_of(scheme=THREE, spinning=SPUN, plying=PLIED))
    lost = lost_by_untwisting(100.0, 3, 300.0, 190.0)
    assert found["singles"][0]["length_m"] == pytest.approx(200)
    assert found["yarn"]["length_m"] == pytest.approx(200 * (1 - lost))
    assert found["yarn"]["linear_density_tex"] == pytest.approx(300 / (1 - lost))
    assert found["yarn"]["mass_g"] == pytest.approx(60)


# --- the sheet's tables ----------------------------------------------------------------------

SHARES = (1 / 3, 1 / 2, 2 / 3, 3 / 4, 1)
NET_LOST_PERCENT = {
    (2, 10): (-0.25, -0.18, 0.01, 0.15, 0.76),
    (2, 20): (-0.97, -0.66, 0.15, 0.73, 3.06),
    (2, 30): (-2.02, -1.12, 0.89, 2.23, 7.18),
    (3, 20): (-0.72, -0.11, 1.09, 1.89, 4.92),
    (4, 20): (-0.23, 0.96, 2.90, 4.10, 8.37),
}


@pytest.mark.parametrize(("plies", "angle"), NET_LOST_PERCENT)
def test_the_length_lost_is_that_of_the_sheet_s_table(plies, angle):
    for share, percent in zip(SHARES, NET_LOST_PERCENT[plies, angle], strict=True):
        found = yarn_of(
            scheme={"name": "matched", "plies": plies},
            spinning={"single_tex": 90.0, "twist_angle_deg": float(angle)},
            plying={"twist_tpm": share * turns_at(angle, 90.0)},
        )
        assert found["contraction"] * 100 == pytest.approx(percent, abs=0.0051)


@pytest.mark.parametrize(
    ("plies", "angle", "lost_percent"),
    [(2, 17.441, 4.597), (3, 19.939, 5.994), (4, 23.955, 8.614)],
)
def test_a_single_of_1_mm_and_100_turns_a_metre_is_that_of_the_sheet(plies, angle, lost_percent):
    found = yarn_of(
        scheme={"name": "matched", "plies": plies},
        spinning={"single_tex": MM1_TEX},
        plying={"twist_tpm": 100.0},
    )
    assert found["single_diameter_mm"] == pytest.approx(1, rel=1e-12)
    assert found["helix_angle_deg"] == pytest.approx(angle, abs=0.0006)
    assert found["contraction"] * 100 == pytest.approx(lost_percent, abs=0.0006)
    assert found["pitch_mm"] == pytest.approx(10)
    assert found["stripe_mm"] == pytest.approx(10 / plies)


@pytest.mark.parametrize("scheme", [{"plies": 1}, THREE])
def test_helix_and_pitch_are_not_known_without_a_ply_twist_nor_with_one_ply(scheme):
    plying = PLIED if scheme["plies"] == 1 else {}
    found = yarn_of(scheme=scheme, spinning=SPUN, plying=plying)
    for key in ("helix_angle_deg", "pitch_mm", "stripe_mm"):
        assert found[key] is None
        assert found["source"][key] is None


def test_geometry_does_not_depend_on_what_is_lost():
    keys = ("helix_angle_deg", "pitch_mm", "stripe_mm", "single_diameter_mm", "balanced_tpm")
    bare = yarn_of(scheme=THREE, spinning=SPUN, plying=PLIED)
    for more in ({"contraction": 0.3}, {"contraction_model": "none"}):
        found = yarn_of(scheme=THREE, spinning=SPUN, plying=PLIED | more)
        assert [found[key] for key in keys] == [bare[key] for key in keys]


@pytest.mark.parametrize(
    ("directions", "said"),
    [
        (("S", "Z"), "R 69.3 tex Z 400 / 2 S 600; 34 tex"),
        (("Z", "S"), "R 69.3 tex S 400 / 2 Z 600; 34 tex"),
    ],
)
def test_the_designation_is_that_of_the_standard(directions, said):
    """34 tex, 600 turns, two plies of 400 turns: R 69.3 tex; 1.876 % lost."""
    single, ply = directions
    found = yarn_of(
        scheme=TWO,
        spinning={"single_tex": 34.0, "twist_tpm": 600.0, "direction": single},
        plying={"twist_tpm": 400.0, "direction": ply, "contraction": 1 - 68 / 69.3},
    )
    assert found["designation"] == "R 69.3 tex / 2"
    assert found["designation_in_full"] == said


@pytest.mark.parametrize(
    "tables",
    [
        {"spinning": SPUN},
        {"plying": PLIED},
        {"spinning": {"twist_tpm": [300.0, 200.0, 300.0]}, "plying": PLIED},
        {"spinning": SPUN | {"single_tex": [100.0, 90.0, 80.0]}, "plying": PLIED},
        {"spinning": SPUN | {"direction": ["Z", "S", "Z"]}, "plying": PLIED},
    ],
)
def test_no_designation_in_full_where_it_cannot_be_told(tables):
    found = yarn_of(scheme=THREE, **tables)
    assert found["designation_in_full"] is None
    assert found["source"]["designation_in_full"] is None


def test_one_ply_is_designated_by_its_tex():
    found = yarn_of(scheme={"plies": 1}, spinning={"single_tex": 110.0} | SPUN)
    assert found["designation"] == "110 tex"


# --- what was taken for granted ---------------------------------------------------------------

NEAR = "would give the same, near enough"


@pytest.mark.parametrize(
    ("tables", "said"),
    [
        (
            {"spinning": SPUN | {"twist_tpi": 7.6, "twist_factor": 3000.0}},
            "twist of the singles by turns in a metre; turns in an inch and the twist factor "
            + NEAR,
        ),
        (
            {"spinning": SPUN, "plying": {"balance": "two_thirds"}},
            "ply twist: 200 turns in a metre, two thirds of the singles' twist; a fresh self-plied "
            "test is the better way",
        ),
        (
            {"spinning": SPUN, "plying": PLIED | {"balance": "two_thirds"}},
            "the ply twist is given, so balance says nothing",
        ),
        (
            {"scheme": {"plies": 1}, "spinning": SPUN, "plying": {"balance": "two_thirds"}},
            "balance says nothing to a single",
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
            "increases_per_row says nothing: only a triangle grows",
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


# --- plies that are not alike ----------------------------------------------------------------


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


# --- more twist in the singles than was planned ----------------------------------------------


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


# --- laws ------------------------------------------------------------------------------------

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
    for one in found["singles"]:
        grams = one["length_m"] * one["linear_density_tex"] / 1000
        assert grams == pytest.approx(one["mass_g"] * spun)
        folds = 3 if data["scheme"] == CHAIN else 1
        in_yarn = yarn["length_m"] / (1 - yarn["contraction"]) * folds
        assert one["length_m"] == pytest.approx(in_yarn)


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


# --- saved and read again --------------------------------------------------------------------

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
        "rows": 100,
        "increases_per_row": 0.5,
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
