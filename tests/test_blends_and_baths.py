"""Lots that are made from others: their grams, their colours, and a gradient's carded steps."""

import numpy as np
import pytest

from yarncolor import answer, plan_from_data, to_dict
from yarncolor.mixing import blended_lab

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


def gradient(steps: int, *lots: dict, **more) -> dict:
    scheme = {"name": "gradient", "plies": 1, "blend_steps": steps}
    return answered(*lots, scheme=scheme | more.pop("scheme", {}), **more)


def test_two_steps_by_hand():
    """b = min(30, 60) / 3 = 10 g; each lot gives 10 g in all: 20 g and 50 g are left."""
    found = gradient(2, KELP | {"mass_g": 30.0}, FOAM | {"mass_g": 60.0})
    (single,) = found["singles"]
    rows = [(p["lot"], p["place"], p["mass_g"]) for p in single["portions"]]
    assert [(name, place) for name, place, _ in rows] == [
        ("Kelp", 1),
        ("Kelp 2:1 Foam", None),
        ("Kelp 1:2 Foam", None),
        ("Foam", 2),
    ]
    assert [mass for *_, mass in rows] == pytest.approx([20, 10, 10, 50])
    assert by_name(found)["Kelp 2:1 Foam"]["made_of"] == "step"
    assert by_name(found)["Kelp"]["used_g"] == pytest.approx(30)


@pytest.mark.parametrize("card_loss", [0.0, 0.1])
@pytest.mark.parametrize("steps", [1, 2, 5, 20])
def test_steps_account_for_all_fibre(steps, card_loss):
    sand = {"name": "Sand", "colour": "#c8b58a", "mass_g": 17.3}
    found = gradient(steps, KELP, FOAM, sand, spinning={"card_loss": card_loss})
    lots = by_name(found)
    assert sum(p["mass_g"] for p in found["singles"][0]["portions"]) == pytest.approx(
        97.3 * (1 - card_loss), rel=1e-9
    )
    for name, mass in (("Kelp", 40), ("Foam", 40), ("Sand", 17.3)):
        assert lots[name]["used_g"] == pytest.approx(mass, rel=1e-9)
    assert found["leftovers"] == []


def test_the_same_pair_twice_makes_one_batt_and_like_neighbours_none():
    sequence = ["Kelp", "Foam", "Kelp", "Kelp", "Foam"]
    found = gradient(1, KELP, FOAM, scheme={"sequence": sequence})
    made = [lot["name"] for lot in found["lots"] if lot["made_of"] == "step"]
    assert made == ["Kelp 1:1 Foam", "Foam 1:1 Kelp"]
    names = [p["lot"] for p in found["singles"][0]["portions"]]
    assert names.count("Kelp 1:1 Foam") == 2
    assert "Kelp 1:1 Kelp" not in names
