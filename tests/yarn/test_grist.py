"""The grist of the singles, from any one thing that is known of single or yarn."""

from math import pi

import pytest

from tests.helpers.strategies import answered
from tests.helpers.yarns import (
    CHAIN,
    SCHEMES,
    SHRINKING,
    THREE,
    TWO,
    body_of,
    diameter,
    plan_of,
    yarn_of,
)

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


def test_of_two_ways_that_agree_the_first_in_the_list_of_keys_counts():
    both = {"sample": {"length_m": 10.0, "mass_g": 1.05}, "single_tex": 100.0}
    found = answered(plan_of(spinning=both))
    assert found["singles"][0]["linear_density_tex"] == 100
    said = "grist by the tex of the singles; the weighed sample would give the same, near enough"
    assert said in found["assumptions"]
