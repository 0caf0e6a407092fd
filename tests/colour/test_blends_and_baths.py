"""Lots that are made from others, by carding or in a later bath: their grams and colours."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor import PlanError, answer, plan_from_data, to_dict
from yarncolor.colour.carding import blended_lab
from yarncolor.colour.dye_depth import fitted_exhaustion, later_baths_lab
from yarncolor.colour.reflectance import lab_from_reflectance, reflectance_from_lab
from yarncolor.colour.science import ciede2000

KELP = {"name": "Kelp", "colour": "#56612d", "mass_g": 40.0}
FOAM = {"name": "Foam", "lab": [86.0, 0.5, 8.0], "mass_g": 40.0}


def answered(*lots: dict, **tables) -> dict:
    return to_dict(answer(plan_from_data({"lots": list(lots), **tables})))


def by_name(found: dict) -> dict[str, dict]:
    return {lot["name"]: lot for lot in found["lots"]}


def spun_g(found: dict, name: str) -> float:
    portions = [p for single in found["singles"] for p in single["portions"]]
    return sum(portion["mass_g"] for portion in portions if portion["lot"] == name)


def test_a_blend_takes_its_grams_from_its_lots_by_their_parts():
    wrack = {"name": "Wrack", "blend": {"Kelp": 2, "Foam": 1}, "mass_g": 18.0}
    found = answered(KELP, FOAM, wrack)
    lots = by_name(found)
    assert lots["Kelp"]["to_card_g"] == pytest.approx(40 - 12)
    assert lots["Foam"]["to_card_g"] == pytest.approx(40 - 6)
    assert [lots[name]["made_of"] for name in ("Kelp", "Wrack")] == [None, "blend"]
    assert [spun_g(found, name) for name in lots] == pytest.approx([28, 34, 18])
    assert [lots[name]["used_g"] for name in lots] == pytest.approx([40, 40, 18])


def test_a_blend_has_the_colour_of_carded_fibre():
    wrack = {"name": "Wrack", "blend": {"Kelp": 2, "Foam": 1}, "mass_g": 18.0}
    lots = by_name(answered(KELP, FOAM, wrack))
    sources = np.array([lots["Kelp"]["lab"], lots["Foam"]["lab"]])
    np.testing.assert_allclose(lots["Wrack"]["lab"], blended_lab([[2, 1]], sources)[0])
    assert lots["Kelp"]["lab"][0] < lots["Wrack"]["lab"][0] < lots["Foam"]["lab"][0]


def test_a_blend_may_be_blended_again_whatever_the_order_of_the_file():
    dune = {"name": "Dune", "blend": {"Wrack": 1, "Foam": 1}, "mass_g": 10.0}
    wrack = {"name": "Wrack", "blend": {"Kelp": 1, "Foam": 1}, "mass_g": 20.0}
    lots = by_name(answered(dune, KELP, wrack, FOAM))
    assert lots["Wrack"]["to_card_g"] == pytest.approx(20 - 5)
    assert lots["Foam"]["to_card_g"] == pytest.approx(40 - 10 - 5)


def test_a_lot_that_goes_whole_into_a_blend_has_no_place_of_its_own():
    wrack = {"name": "Wrack", "blend": {"Kelp": 1}, "mass_g": 40.0}
    found = answered(KELP, FOAM, wrack)
    assert spun_g(found, "Kelp") == 0
    assert by_name(found)["Kelp"]["used_g"] == pytest.approx(40)
    assert any("(Kelp) has 0 g" in text for text in found["assumptions"])


def test_a_bath_lends_a_colour_and_takes_no_grams():
    bath = {"of": "Kelp", "number": 3, "exhaustion": 0.5, "undyed": "Foam"}
    lots = by_name(answered(KELP, FOAM, {"name": "Shallows", "bath": bath, "mass_g": 27.0}))
    assert lots["Foam"]["to_card_g"] == 40
    assert lots["Shallows"]["made_of"] == "bath"
    assert lots["Kelp"]["lab"][0] < lots["Shallows"]["lab"][0] < lots["Foam"]["lab"][0]


FOAM_LAB, KELP_BATH = (86.0, 0.5, 8.0), {"of": "Kelp", "exhaustion": 0.5, "undyed": "Foam"}
grams = st.integers(100, 20_000).map(lambda number: number / 100)
parts = st.floats(0.01, 100)


@given(st.tuples(grams, grams, grams), st.tuples(parts, parts), st.sampled_from([0.0, 0.03, 1 / 3]))
def test_every_gram_of_a_blend_comes_from_its_lots(masses, mixed, card_loss):
    """By parts, before carding, from what is not kept back."""
    (kelp, foam, blend), (one, other) = masses, mixed
    takes = np.array(mixed) / sum(mixed) * blend
    lots = [KELP | {"mass_g": kelp + takes[0] + 3, "reserve_g": 3}]
    lots += [FOAM | {"mass_g": foam + takes[1]}]
    lots += [{"name": "Wrack", "blend": {"Kelp": one, "Foam": other}, "mass_g": blend}]
    found = answered(*lots, spinning={"card_loss": card_loss})
    made, whole = by_name(found), kelp + foam + blend
    nearly = {"rel": 1e-9, "abs": 1e-9 * whole}
    for name, expected, took in (("Kelp", kelp, takes[0]), ("Foam", foam, takes[1])):
        assert made[name]["to_card_g"] == pytest.approx(expected, **nearly)
        assert spun_g(found, name) == pytest.approx(expected * (1 - card_loss), **nearly)
        assert made[name]["used_g"] == pytest.approx(expected + took, **nearly)
    assert made["Wrack"]["to_card_g"] == pytest.approx(blend, **nearly)
    assert sum(spun_g(found, name) for name in made) == pytest.approx(
        whole * (1 - card_loss), **nearly
    )


@given(parts, parts, st.floats(0.01, 100))
def test_only_the_ratio_of_the_parts_counts(one, other, unit):
    found = [
        by_name(
            answered(KELP, FOAM, {"name": "Wrack", "blend": {"Kelp": a, "Foam": b}, "mass_g": 9.0})
        )
        for a, b in ((one, other), (one * unit, other * unit))
    ]
    for name in ("Kelp", "Foam"):
        grams_left = [lots[name]["to_card_g"] for lots in found]
        assert grams_left[0] == pytest.approx(grams_left[1], abs=1e-9)
    np.testing.assert_allclose(found[0]["Wrack"]["lab"], found[1]["Wrack"]["lab"], atol=1e-9)


@pytest.mark.parametrize("split", [(1, 1, 1), (1, 2, 3), (0.1, 0.2, 0.3)])
def test_a_blend_may_take_the_last_gram_and_nothing_is_below_nought(split):
    for mass in np.linspace(0.5, 60, 40).tolist():
        names = [f"Lot {at}" for at in range(3)]
        lots = [
            {"name": name, "colour": "#777", "mass_g": mass * part / sum(split)}
            for name, part in zip(names, split, strict=True)
        ]
        blend = {"name": "Wrack", "mass_g": mass, "blend": dict(zip(names, split, strict=True))}
        found = answered(*lots, blend)
        assert spun_g(found, "Wrack") == pytest.approx(mass, rel=1e-9)
        for lot in found["lots"][:3]:
            assert lot["to_card_g"] == pytest.approx(0, abs=1e-9 * mass)
            assert lot["used_g"] == pytest.approx(lot["mass_g"], rel=1e-9)


def test_a_blend_of_rolags_weighs_what_they_come_to():
    wrack = {"name": "Wrack", "blend": {"Kelp": 1, "Foam": 1}, "rolags": 4, "rolag_g": 2.5}
    lots = by_name(answered(KELP, FOAM, wrack))
    assert lots["Wrack"]["mass_g"] == pytest.approx(10)
    assert lots["Kelp"]["to_card_g"] == pytest.approx(35, rel=1e-9)


def test_a_blend_of_one_lot_is_that_lot():
    wrack = {"name": "Wrack", "blend": {"Kelp": 7}, "mass_g": 9.0}
    lots = by_name(answered(KELP, FOAM, wrack))
    assert ciede2000(np.array(lots["Wrack"]["lab"]), np.array(lots["Kelp"]["lab"])) < 0.03


def test_a_blend_of_a_blend_has_the_colour_of_all_its_fibre():
    """Wrack is 1 to 1; Dune is 1 of it to 1 of Foam: 1 of Kelp to 3 of Foam in all."""
    wrack = {"name": "Wrack", "blend": {"Kelp": 1, "Foam": 1}, "mass_g": 20.0}
    dune = {"name": "Dune", "blend": {"Wrack": 1, "Foam": 1}, "mass_g": 10.0}
    at_once = {"name": "At once", "blend": {"Kelp": 1, "Foam": 3}, "mass_g": 10.0}
    lots = by_name(answered(KELP, FOAM, wrack, dune, at_once))
    one, other = (np.array(lots[name]["lab"]) for name in ("Dune", "At once"))
    assert ciede2000(one, other) < 0.5


def test_each_way_to_a_colour_is_named():
    lots = [KELP, FOAM, {"name": "Wrack", "blend": {"Kelp": 1}, "mass_g": 1.0}]
    lots += [{"name": "Shallows", "bath": KELP_BATH | {"number": 2}, "mass_g": 1.0}]
    found = answered(*lots, scheme={"name": "gradient", "blend_steps": 1})
    assert [lot["made_of"] for lot in found["lots"]] == [
        *(None, None, "blend", "bath"),
        *("step", "step", "step"),
    ]


def test_later_baths_take_nothing_from_anyone_and_grow_paler_towards_the_fibre():
    baths = [
        {"name": f"Bath {number}", "bath": KELP_BATH | {"number": number}, "mass_g": 11.0}
        for number in (2, 3, 4, 20)
    ]
    found = answered(KELP, FOAM, *baths, spinning={"card_loss": 0.1})
    lots = by_name(found)
    for lot in found["lots"]:
        assert lot["used_g"] == pytest.approx(lot["mass_g"], rel=1e-9)
        assert lot["to_card_g"] == lot["mass_g"]
    light = [lots[name]["lab"][0] for name in ("Kelp", *(bath["name"] for bath in baths))]
    assert light == sorted(light)
    assert ciede2000(np.array(lots["Bath 20"]["lab"]), np.array(FOAM_LAB)) < 0.05
    expected = later_baths_lab(lots["Kelp"]["lab"], FOAM_LAB, 0.5, [2, 3, 4, 20])
    np.testing.assert_allclose([lots[bath["name"]]["lab"] for bath in baths], expected)


def test_the_blackest_wool_sends_back_a_thousandth_of_the_light():
    """CIE 15: below 216/24389 of the light L* is 24389/27 of it, so 0.9033. A thousandth is
    judgement, no source."""
    black = reflectance_from_lab([(0.0, 0.0, 0.0)])
    np.testing.assert_array_equal(black, np.full((1, 81), 0.001))
    assert lab_from_reflectance(black)[0, 0] == pytest.approx(24389 / 27 / 1000, abs=1e-3)


@pytest.mark.parametrize("exhaustion", [0.123456, 0.5000123, 0.9871])
def test_an_exhaustion_is_found_again_to_a_hundred_thousandth(exhaustion):
    """Greys, of which no second bath has the colour of another exhaustion."""
    dyed, fibre = (30.0, 0.0, 0.0), (90.0, 0.0, 0.0)
    second = later_baths_lab(dyed, fibre, exhaustion, [2])[0]
    assert fitted_exhaustion(dyed, second, fibre) == pytest.approx(exhaustion, abs=1e-5)


@pytest.mark.parametrize(("exhaustion", "found"), [(0.0008, False), (0.0013, True),
                                                   (0.9987, True), (0.9992, False)])  # fmt: skip
def test_less_than_a_thousandth_is_no_exhaustion(exhaustion, found):
    """Such a second bath is the first, or the fibre. Judgement, no source."""
    dyed, fibre = (30.0, 0.0, 0.0), (90.0, 0.0, 0.0)
    second = later_baths_lab(dyed, fibre, exhaustion, [2])[0]
    if found:
        assert fitted_exhaustion(dyed, second, fibre) == pytest.approx(exhaustion, abs=1e-4)
    else:
        with pytest.raises(ValueError, match="between the first and the undyed"):
            fitted_exhaustion(dyed, second, fibre)


def test_a_blend_of_a_bath_and_a_bath_of_a_blend_in_any_order_of_the_file():
    dune = {"name": "Dune", "blend": {"Shallows": 1, "Kelp": 1}, "mass_g": 8.0}
    shallows = {"name": "Shallows", "bath": KELP_BATH | {"number": 2}, "mass_g": 10.0}
    third = {"name": "Third", "bath": KELP_BATH | {"of": "Dune", "number": 2}, "mass_g": 5.0}
    there, back = (
        by_name(answered(*lots))
        for lots in ((KELP, FOAM, shallows, dune, third), (third, dune, shallows, FOAM, KELP))
    )
    for name, lot in there.items():
        assert lot["lab"] == back[name]["lab"]
        assert lot["to_card_g"] == pytest.approx(back[name]["to_card_g"], rel=1e-9)
    assert there["Shallows"]["to_card_g"] == pytest.approx(6, rel=1e-9)
    light = [there[name]["lab"][0] for name in ("Kelp", "Dune", "Shallows", "Foam")]
    assert light == sorted(light)
    assert light[1] < there["Third"]["lab"][0] < light[3]


def test_portions_of_one_s_own_draw_on_what_a_blend_leaves():
    wrack = {"name": "Wrack", "blend": {"Kelp": 2, "Foam": 1}, "mass_g": 18.0}
    portions = [{"ply": 1, "lot": "Kelp", "mass_g": 28.0}]
    free = {"name": "free", "portions": portions}
    assert spun_g(answered(KELP, FOAM, wrack, scheme=free), "Kelp") == 28
    portions[0]["mass_g"] = 28.5
    with pytest.raises(PlanError, match=r"draw 28\.5 g of \"Kelp\", which has 28 g to divide"):
        answered(KELP, FOAM, wrack, scheme=free)


def test_an_undyed_fibre_that_is_too_dark_is_told_beside_an_unrelated_fault():
    bath = {"of": "Foam", "number": 2, "exhaustion": 0.5, "undyed": "Kelp"}
    lots = [KELP, FOAM, {"name": "Shallows", "bath": bath, "mass_g": 1.0}]
    with pytest.raises(PlanError, match="is not lighter"):
        plan_from_data({"titel": "Tideline", "lots": lots})


def test_the_range_of_parts_is_in_the_message():
    lots = [KELP, FOAM, {"name": "Wrack", "blend": {"Kelp": 2e6, "Foam": 1}, "mass_g": 1.0}]
    with pytest.raises(PlanError, match="1,000,000"):
        plan_from_data({"lots": lots})
