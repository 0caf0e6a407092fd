"""Length lost in plying: which model is in force, and the tables written out."""

import pytest

from tests.helpers.strategies import answered
from tests.helpers.yarns import (
    CHAIN,
    MM1_TEX,
    PLIED,
    SPUN,
    THREE,
    TWO,
    body_of,
    diameter,
    lost_by_helix,
    lost_by_untwisting,
    plan_of,
    turns_at,
    yarn_of,
)
from yarncolor.yarn.helix import Single, contraction

# --- which model ----------------------------------------------------------------------------------


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
def test_the_model_in_force_is_the_one_that_can_be_asked(scheme, spinning, plying, model, source):
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


# --- tables worked out apart ----------------------------------------------------------------------

SHARES = (1 / 3, 1 / 2, 2 / 3, 3 / 4, 1)
NET_LOST_PERCENT = {
    (2, 10): (-0.25, -0.18, 0.01, 0.15, 0.76),
    (2, 20): (-0.97, -0.66, 0.15, 0.73, 3.06),
    (2, 30): (-2.02, -1.12, 0.89, 2.23, 7.18),
    (3, 20): (-0.72, -0.11, 1.09, 1.89, 4.92),
    (4, 20): (-0.23, 0.96, 2.90, 4.10, 8.37),
}


@pytest.mark.parametrize(("plies", "angle"), NET_LOST_PERCENT)
def test_the_length_lost_is_that_of_the_table(plies, angle):
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


@pytest.mark.parametrize("plies", [2, 3, 5])
@pytest.mark.parametrize("opposed", [True, False])
def test_the_formula_alone_says_what_the_yarn_of_a_plan_loses(plies, opposed):
    single = Single(diameter(100.0), 300.0, opposed)
    spinning = {"single_tex": 100.0, "twist_tpm": 300.0, "direction": "Z"}
    plying = {"twist_tpm": 190.0, "direction": "S" if opposed else "Z"}
    body = body_of(scheme={"plies": plies}, spinning=spinning, plying=plying)
    assert contraction(single, plies, 190.0) == pytest.approx(body.contraction, rel=1e-12)


@pytest.mark.parametrize(
    ("spinning", "source"), [({}, "assumed"), ({"packed_density_g_per_cm3": 0.45}, "given")]
)
def test_how_the_density_in_the_twist_is_known(spinning, source):
    found = yarn_of(scheme=THREE, spinning=SPUN | spinning, plying=PLIED)
    assert found["source"]["packed_density_g_per_cm3"] == source


def test_a_length_lost_that_is_put_in_afterwards_counts_as_measured():
    yarn = body_of(scheme=THREE, spinning=SPUN, plying=PLIED).with_contraction(0.031)
    assert (yarn.contraction, yarn.model) == (0.031, "measured")
    assert yarn.provenance["contraction"] == "measured"
    assert yarn.contraction_band is None
    assert yarn.contractions.tolist() == [0.031] * 3
