"""What stands where a plan says nothing, what it says in vain, and which of it is worth telling.

Values are those that the page of keys names as usual; what follows from what is by hand.
"""

import numpy as np
import pytest

from tests.helpers.strategies import by_hand
from yarncolor import plan_from_data
from yarncolor.layout.assumptions import Why
from yarncolor.layout.resolved import ResolvedPlan, resolve

THREE = {"Kelp": 30.0, "Foam": 60.0, "Wrack": 90.0}
TWISTED = {"single_tex": 100.0, "twist_tpm": 300.0}
PIECE = {"stitches": 20, "gauge_stitches": 20.0}


def resolved(**tables) -> ResolvedPlan:
    return resolve(plan_from_data(by_hand(THREE, **tables)))


def facts(plan: ResolvedPlan, table: str, key: str) -> list[tuple]:
    """Return value, why, from what and whether it is told, of all that is assumed of a key."""
    found = [one for one in plan.assumptions if (one.table, one.key) == (table, key)]
    return [(plain(one.value), one.why, one.by, one.worth_saying) for one in found]


def plain(value):
    """Return a value; of an array the numbers that it has."""
    return np.unique(value).tolist() if isinstance(value, np.ndarray) else value


def fact(plan: ResolvedPlan, key: str) -> tuple | None:
    """Return the only fact of a key, named with its table; None where it is given."""
    found = facts(plan, *key.split("."))
    assert len(found) <= 1
    return found[0] if found else None


def told(plan: ResolvedPlan, table: str) -> set[str]:
    """Return the keys of a table of which a reader is told something."""
    return {one.key for one in plan.assumptions if one.table == table and one.worth_saying}


@pytest.mark.parametrize(
    ("key", "value", "is_told"),
    [
        ("scheme.name", "matched", True),
        ("scheme.plies", 3, True),
        ("scheme.sequence", ("Kelp", "Foam", "Wrack"), True),
        ("scheme.copies", 1, False),
        ("scheme.closing", "keep", False),
        ("scheme.pieces", 4, False),
        ("spinning.card_loss", 0.0, True),
        ("spinning.spin_loss", 0.0, True),
        ("spinning.single_tex", [100.0], True),
        ("spinning.packed_density_g_per_cm3", 0.5, True),
        ("spinning.relaxed_density_g_per_cm3", 0.16, True),
        ("spinning.direction", ("Z", "Z", "Z"), False),
        ("scale.step_g", 0.1, True),
        ("plying.wound_off", 0, True),
        ("plying.strands", 1, False),
        ("plying.contraction", 0.0, True),
        ("plying.contraction_model", "none", False),
    ],
)
def test_a_plan_of_lots_alone_takes_what_is_usual(key, value, is_told):
    assert fact(resolved(), key) == (value, Why.USUAL, (), is_told)


@pytest.mark.parametrize(
    ("name", "is_told"), [("chain", True), ("matched", True), ("mirrored", True), ("fade", False)]
)
def test_an_assumed_order_of_lots_is_told_wherever_it_counts(name, is_told):
    ends = {"from": ["Kelp"], "to": ["Foam", "Wrack"]} if name == "fade" else {}
    order = fact(resolved(scheme={"name": name, **ends}), "scheme.sequence")
    assert order is None or order[-1] is is_told


def test_a_plan_of_lots_alone_says_nothing_in_vain():
    assert {one.why for one in resolved().assumptions} == {Why.USUAL, Why.DERIVED}
    assert {one.key for one in resolved().assumptions if one.why is Why.DERIVED} == {
        *("solid_lot", "direction"),
    }
    assert fact(resolved(), "scheme.solid_lot") == ("Wrack", Why.DERIVED, ("mass_g",), False)


def test_what_is_given_is_not_assumed():
    plan = resolved(
        scheme={"name": "matched", "plies": 2, "sequence": list(THREE)},
        spinning={"card_loss": 0.0, "spin_loss": 0.0},
        plying={"wound_off": 0, "strands": 1},
        scale={"step_g": 0.01},
    )
    given = ("scheme.name", "scheme.plies", "scheme.sequence", "scale.step_g", "plying.wound_off")
    for key in (*given, "spinning.card_loss", "spinning.spin_loss", "plying.strands"):
        assert fact(plan, key) is None


def test_a_scale_in_ounces_steps_by_a_hundredth():
    """An ounce is 28.349523125 g (NIST Handbook 44, appendix C)."""
    plan = resolve(plan_from_data(by_hand(THREE) | {"units": "imperial"}))
    value, *rest = fact(plan, "scale.step_g")
    assert value == pytest.approx(0.28349523125)
    assert rest == [Why.USUAL, (), True]


@pytest.mark.parametrize(
    ("name", "keys"),
    [
        ("fractal", {"divisions"}),
        ("staggered", {"stagger_places"}),
        ("gradient", {"blend_steps"}),
        ("shuffled", {"random_seed", "pieces"}),
    ],
)
def test_a_schemes_own_keys_are_told_and_those_of_others_are_not(name, keys):
    assert told(resolved(scheme={"name": name}), "scheme") == {"plies", "sequence"} | keys


def test_of_a_solid_ply_its_lot_and_its_place_are_told():
    plan = resolved(scheme={"name": "solid"})
    assert told(plan, "scheme") == {"plies", "sequence", "solid_lot", "solid_plies"}
    assert fact(plan, "scheme.solid_lot") == ("Wrack", Why.DERIVED, ("mass_g",), True)


def test_a_chain_has_no_plies_to_tell_of():
    keys = told(resolved(scheme={"name": "chain"}), "scheme")
    assert "loop_m" in keys
    assert not keys & {"plies", "divisions", "copies"}


def test_of_one_lot_there_is_no_order_to_tell():
    plan = resolve(plan_from_data(by_hand({"Kelp": 30.0})))
    assert fact(plan, "scheme.sequence") == (("Kelp",), Why.USUAL, (), False)


def test_plies_follow_from_divisions():
    plan = resolved(scheme={"name": "fractal", "divisions": [1, 4]})
    assert fact(plan, "scheme.plies") == (2, Why.DERIVED, ("divisions",), True)
    assert fact(plan, "scheme.divisions") is None


def test_places_without_grams_are_counted_from_one():
    data = by_hand(THREE, scheme={"sequence": ["Kelp", "Foam", "Wrack"], "parts": [1, 0, 2]})
    (found,) = facts(resolve(plan_from_data(data)), "scheme", "sequence")
    assert found == ((2,), Why.EMPTY, (), True)


CLOSED = ["Kelp", "Foam", "Wrack", "Kelp"]


def test_how_a_fractal_closes_is_told_where_it_closes():
    closed = {"name": "fractal", "divisions": [1, 2], "sequence": CLOSED}
    assert fact(resolved(scheme=closed), "scheme.closing") == ("keep", Why.USUAL, (), True)
    for closing in ("drop", "swap"):
        assert fact(resolved(scheme=closed | {"closing": closing}), "scheme.closing") is None


@pytest.mark.parametrize("scheme", [{"name": "matched", "sequence": CLOSED}, {"name": "fractal"}])
def test_a_closing_says_nothing_where_nothing_closes(scheme):
    plan = resolved(scheme=scheme | {"closing": "drop"})
    assert fact(plan, "scheme.closing") == ("drop", Why.IDLE, (), True)


def test_a_sequence_too_short_to_close_as_asked_is_named_as_the_reason():
    """Two inner places change at a meeting: Kelp, Foam, Kelp has only one."""
    scheme = {"name": "fractal", "divisions": [1, 2], "sequence": ["Kelp", "Foam", "Kelp"]}
    plan = resolved(scheme=scheme | {"closing": "swap"})
    assert fact(plan, "scheme.closing") == ("swap", Why.IDLE, ("sequence",), True)
    assert fact(resolved(scheme=scheme | {"closing": "drop"}), "scheme.closing") is None


@pytest.mark.parametrize(
    ("key", "value"), [("pieces", 3), ("loop_m", 0.5), ("blend_steps", 2), ("divisions", [1, 2, 4])]
)
def test_a_key_of_another_scheme_is_given_in_vain(key, value):
    plan = resolved(scheme={"name": "matched", key: value})
    given = tuple(value) if isinstance(value, list) else value
    assert fact(plan, f"scheme.{key}") == (given, Why.IDLE, ("matched",), True)


def test_a_fade_does_not_use_a_sequence():
    fade = {"name": "fade", "from": ["Kelp"], "to": ["Foam", "Wrack"]}
    plan = resolved(scheme=fade | {"sequence": ["Kelp", "Foam", "Wrack"]})
    assert (("Kelp", "Foam", "Wrack"), Why.IDLE, ("fade",), True) in facts(
        plan, "scheme", "sequence"
    )


@pytest.mark.parametrize(
    ("spinning", "why", "by", "is_told"),
    [
        ({}, Why.USUAL, (), True),
        ({"single_tex": 80.0}, Why.DERIVED, ("single_tex",), False),
        ({"single_m_per_g": 12.5}, Why.DERIVED, ("single_m_per_g",), False),
        (
            {"single_tex": 80.0, "single_m_per_g": 12.5},
            *(Why.DERIVED, ("single_tex", "single_m_per_g"), True),
        ),
    ],
)
def test_grist_by_several_ways_is_told_with_them(spinning, why, by, is_told):
    tex = [80.0] if spinning else [100.0]
    assert fact(resolved(spinning=spinning), "spinning.single_tex") == (tex, why, by, is_told)


@pytest.mark.parametrize(
    ("twist", "by", "is_told"),
    [
        ({"twist_tpm": 400.0}, ("twist_tpm",), False),
        ({"twist_tpi": 10.16}, ("twist_tpi",), False),
        ({"twist_tpm": 400.0, "twist_tpi": 10.16}, ("twist_tpm", "twist_tpi"), True),
    ],
)
def test_twist_by_several_ways_is_told_with_them(twist, by, is_told):
    """10.16 turns an inch are 400 a metre."""
    plan = resolved(spinning={"single_tex": 100.0, **twist})
    value, *rest = fact(plan, "spinning.twist_tpm")
    assert value == pytest.approx([400.0])
    assert rest == [Why.DERIVED, by, is_told]


def test_without_a_twist_nothing_is_assumed_of_it():
    plan = resolved()
    assert fact(plan, "spinning.twist_tpm") is fact(plan, "plying.twist_tpm") is None
    assert plan.assumed("plying", "balance") is None


def test_a_plying_twist_follows_from_the_balance_that_is_asked():
    """Two thirds of 300 turns are 200."""
    plan = resolved(spinning=TWISTED, plying={"balance": "two_thirds"})
    value, *rest = fact(plan, "plying.twist_tpm")
    assert value == pytest.approx(200.0)
    assert rest == [Why.DERIVED, ("two_thirds",), True]
    assert fact(plan, "plying.balance") is None


def test_a_chain_is_balanced_by_the_twist_of_its_one_single():
    plan = resolved(scheme={"name": "chain"}, spinning=TWISTED, plying={"balance": "two_thirds"})
    assert fact(plan, "plying.twist_tpm")[0] == pytest.approx(200.0)


def test_a_balance_beside_a_plying_twist_is_asked_in_vain():
    plan = resolved(spinning=TWISTED, plying={"balance": "two_thirds", "twist_tpm": 180.0})
    assert fact(plan, "plying.twist_tpm") == (180.0, Why.DERIVED, ("twist_tpm",), False)
    assert fact(plan, "plying.balance") == ("two_thirds", Why.IDLE, ("twist_tpm",), True)


def test_a_single_is_not_balanced():
    plan = resolved(
        scheme={"name": "matched", "plies": 1}, spinning=TWISTED, plying={"balance": "two_thirds"}
    )
    assert fact(plan, "plying.balance") == ("two_thirds", Why.IDLE, ("plies",), True)


def test_singles_are_spun_against_the_plying():
    assert fact(resolved(plying={"direction": "Z"}), "spinning.direction") == (
        *(("S", "S", "S"), Why.DERIVED, ("direction",), False),
    )
    plan = resolved(spinning={"direction": "S"})
    assert fact(plan, "spinning.direction") is None
    assert fact(plan, "plying.direction") == ("Z", Why.DERIVED, ("spinning.direction",), False)
    both = resolved(spinning={"direction": "S"}, plying={"direction": "Z"})
    assert fact(both, "plying.direction") is None


@pytest.mark.parametrize(
    "tables", [{"spinning": TWISTED}, {"plying": {"twist_tpm": 180.0}}], ids=["single", "plied"]
)
def test_a_direction_is_told_once_something_is_twisted(tables):
    plan = resolved(**tables)
    assert fact(plan, "spinning.direction") == (("Z", "Z", "Z"), Why.USUAL, (), True)


@pytest.mark.parametrize(("plies", "is_told"), [(1, False), (2, True)])
def test_length_lost_in_plying_is_told_of_a_yarn_that_is_plied(plies, is_told):
    plan = resolved(scheme={"name": "matched", "plies": plies})
    assert fact(plan, "plying.contraction") == (0.0, Why.USUAL, (), is_told)


def test_a_measured_loss_needs_no_model():
    plan = resolved(plying={"contraction": 0.1})
    assert fact(plan, "plying.contraction") is None
    assert fact(plan, "plying.contraction_model") == (None, Why.DERIVED, ("contraction",), False)
    asked = resolved(plying={"contraction": 0.1, "contraction_model": "helix"})
    model = ("helix", Why.IDLE, ("contraction",), True)
    assert fact(asked, "plying.contraction_model") == model


def test_a_model_that_lacks_a_twist_cannot_say_what_plying_takes():
    plan = resolved(plying={"contraction_model": "none"})
    assert fact(plan, "plying.contraction") == (0.0, Why.USUAL, ("none",), True)
    assert fact(plan, "plying.contraction_model") is None


def test_length_lost_follows_from_the_model_that_stands():
    plan = resolved(spinning=TWISTED, plying={"twist_tpm": 180.0})
    model, why, by, is_told = fact(plan, "plying.contraction_model")
    assert (why, by, is_told) == (Why.USUAL, (), True)
    lost = (plan.contraction, Why.DERIVED, (model,), False)
    assert fact(plan, "plying.contraction") == lost
    assert 0 < plan.contraction < 0.2


def test_a_width_gives_the_stitches_and_the_thickness_a_gauge():
    plan = resolved(fabric={"width_cm": 30.0})
    per_10cm, *rest = fact(plan, "fabric.gauge_stitches")
    assert rest == [Why.USUAL, (), True]
    assert fact(plan, "fabric.stitches") == (
        *(round(per_10cm * 3), Why.DERIVED, ("width_cm",), True),
    )
    assert fact(plan, "fabric.rows") is None


def test_a_width_with_its_stitches_gives_the_gauge():
    """60 stitches on 30 cm are 20 on 10."""
    plan = resolved(fabric={"width_cm": 30.0, "stitches": 60})
    assert fact(plan, "fabric.gauge_stitches") == (20.0, Why.DERIVED, ("width_cm",), True)
    assert fact(plan, "fabric.stitches") is None


def test_with_a_gauge_that_was_counted_only_the_stitches_follow():
    plan = resolved(fabric={"width_cm": 30.0, "gauge_stitches": 22.0})
    assert fact(plan, "fabric.gauge_stitches") is None
    assert fact(plan, "fabric.stitches") == (66, Why.DERIVED, ("width_cm",), True)


def test_a_shawl_begins_with_a_tab_of_three_and_its_rows_follow_from_its_wingspan():
    plan = resolved(fabric={"kind": "triangle", "width_cm": 120.0, "gauge_stitches": 20.0})
    assert fact(plan, "fabric.stitches") == (3, Why.USUAL, (), True)
    rows, *rest = fact(plan, "fabric.rows")
    assert rows > 50
    assert rest == [Why.DERIVED, ("width_cm",), True]
    known = resolved(
        fabric={"kind": "triangle", "width_cm": 120.0, "gauge_stitches": 20.0, "rows": 90}
    )
    assert fact(known, "fabric.rows") is None
    assert fact(known, "fabric.stitches")[1:] == (Why.DERIVED, ("width_cm",), True)


def test_a_plan_that_knits_nothing_has_no_fabric_assumed():
    assert not [one for one in resolved().assumptions if one.table == "fabric"]


def test_only_a_triangle_grows():
    flat = resolved(fabric={"stitches": 60, "increases_per_row": 2.0})
    assert fact(flat, "fabric.increases_per_row") == (2.0, Why.IDLE, (), True)
    shawl = resolved(fabric={"kind": "triangle", "stitches": 3, "increases_per_row": 2.0})
    assert fact(shawl, "fabric.increases_per_row") is None


def test_stripes_take_what_their_rows_need_whatever_the_target_says():
    stripes = [{"lots": ["Kelp", "Foam"], "rows": 4}, {"lots": ["Wrack", "Kelp"], "rows": 2}]
    tables = {"scheme": {"name": "stripes", "stripes": stripes}, "fabric": PIECE}
    plan = resolved(**tables, target={"yarn_m": 50.0})
    assert fact(plan, "target.yarn_m") == (50.0, Why.IDLE, ("stripes",), True)
    assert fact(plan, "scheme.plies") == (2, Why.DERIVED, ("stripes",), True)
    assert not facts(resolved(**tables), "target", "yarn_m")
    assert not facts(resolved(target={"yarn_m": 50.0}), "target", "yarn_m")


def test_what_is_assumed_of_a_key_is_what_stands_for_it():
    plan = resolved(scheme={"name": "matched", "pieces": 3})
    assert plan.assumed("scheme", "pieces") is None
    assert plan.assumed("spinning", "spin_loss").value == 0.0
    assert plan.assumed("scheme", "spin_loss") is plan.assumed("spinning", "plies") is None


def test_a_hand_whose_file_is_not_there_is_named_in_vain():
    plan = resolve(plan_from_data(by_hand(THREE) | {"hand": "gone.toml"}))
    assert facts(plan, "", "hand") == [("gone.toml", Why.NO_HAND, (), True)]
    assert not facts(resolved(), "", "hand")


@pytest.mark.parametrize(
    ("key", "value"),
    [
        *(("random_seed", 7), ("pieces", 3), ("loop_m", 0.5), ("blend_steps", 2)),
        *(("stagger_places", 0.5), ("copies", 2), ("solid_plies", (2,)), ("solid_lot", "Foam")),
        *(("reversed_plies", (2,)), ("divisions", (1, 2, 5)), ("closing", "drop")),
    ],
)
def test_what_a_plan_says_of_its_scheme_stands(key, value):
    given = list(value) if isinstance(value, tuple) else value
    assert getattr(resolved(scheme={"name": "matched", key: given}).scheme, key) == value
