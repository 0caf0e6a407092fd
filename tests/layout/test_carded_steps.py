"""Carded steps of a gradient, written out once more in plain numbers."""

from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.strategies import COLOURS, NAMES, answered, by_hand
from yarncolor.colour.carding import blended_lab
from yarncolor.colour.science import ciede2000

COUNTS = [1, 2, 3, 7, 20]


def graded(masses_g: dict, steps: int, *, card_loss: float = 0.0, **scheme) -> dict:
    options = {"name": "gradient", "plies": 1, "blend_steps": steps} | scheme
    return answered(by_hand(masses_g, scheme=options, spinning={"card_loss": card_loss}))


def rows_of(found: dict, ply: int = 0) -> list[tuple]:
    portions = found["singles"][ply]["portions"]
    return [(row["lot"], row["place"], row["mass_g"]) for row in portions]


def by_plain_numbers(places: list[tuple[str, float]], steps: int) -> list[tuple]:
    """Return lots, place and grams: b = min(m_e, m_{e+1}) / (s + 1), mixed (s + 1 - j) : j.

    A batt is told by how much of its mass is of either lot; neighbours of one lot have none.
    """
    left = [mass for _, mass in places]
    between: list[list[tuple]] = []
    for at in range(len(places) - 1):
        (one, mass), (other, next_mass) = places[at : at + 2]
        batts = []
        for j in range(1, steps + 1) if one != other else ():
            batt, share = min(mass, next_mass) / (steps + 1), j / (steps + 1)
            left[at] -= batt * (1 - share)
            left[at + 1] -= batt * share
            batts.append(({one: round(1 - share, 9), other: round(share, 9)}, None, batt))
        between.append(batts)
    rows = []
    for at, (name, _) in enumerate(places):
        rows.append(({name: 1.0}, at + 1, left[at]))
        rows += between[at] if at < len(between) else []
    return rows


def made_up(name: str) -> dict[str, float]:
    """Return a step's lots and shares, as its name tells them: ``Kelp 2:1 Foam``."""
    if name in NAMES:
        return {name: 1.0}
    one, ratio, other = name.split(" ")
    first, second = map(int, ratio.split(":"))
    whole = first + second
    return {one: round(first / whole, 9), other: round(second / whole, 9)}


def assert_as_by_plain_numbers(found: dict, places: list[tuple[str, float]], steps: int) -> None:
    expected, rows = by_plain_numbers(places, steps), rows_of(found)
    assert [(made_up(name), place) for name, place, _ in rows] == [row[:2] for row in expected]
    whole = sum(mass for _, mass in places)
    np.testing.assert_allclose(
        [mass for *_, mass in rows], [mass for *_, mass in expected], rtol=1e-9, atol=1e-9 * whole
    )
    assert sum(mass for *_, mass in rows) == pytest.approx(whole, rel=1e-9)


masses = st.lists(st.integers(40, 20_000).map(lambda n: n / 100), min_size=2, max_size=6)


@given(masses, st.integers(1, 20), st.sampled_from((0.0, 0.03, 1 / 3)))
def test_steps_are_as_by_plain_numbers(grams, steps, card_loss):
    stash = dict(zip(NAMES, grams, strict=False))
    found = graded(stash, steps, card_loss=card_loss)
    places = [(name, mass * (1 - card_loss)) for name, mass in stash.items()]
    assert_as_by_plain_numbers(found, places, steps)


@given(st.lists(st.sampled_from(NAMES[:3]), min_size=2, max_size=7), st.integers(1, 6))
def test_lots_that_stand_more_than_once_share_their_mass_and_need_no_step_to_themselves(order, s):
    stash = dict.fromkeys(NAMES[:3], 30.0) | {"Foam": 45.0}
    found = graded(stash, s, sequence=order)
    places = [(name, stash[name] / order.count(name)) for name in order]
    assert_as_by_plain_numbers(found, places, s)


@given(masses, st.integers(1, 6), st.sampled_from((0.0, 0.125)))
def test_every_gram_of_every_lot_is_accounted_for(grams, steps, card_loss):
    """What a step takes is raw, like any lot's mass: its portions before carding."""
    stash = dict(zip(NAMES, grams, strict=False))
    found = graded(stash, steps, card_loss=card_loss)
    spun, given_up = Counter(), Counter()
    for name, _, mass in rows_of(found):
        spun[name] += mass
        if name not in stash:
            for source, share in made_up(name).items():
                given_up[source] += share * mass / (1 - card_loss)
    whole = sum(grams)
    nearly = {"rel": 1e-8, "abs": 1e-8 * whole}  # shares are read off names, to nine places
    for lot in found["lots"]:
        name = lot["name"]
        if lot["made_of"] == "step":
            assert lot["mass_g"] == lot["to_card_g"] == pytest.approx(lot["used_g"], rel=1e-9)
            assert lot["mass_g"] == pytest.approx(spun[name] / (1 - card_loss), rel=1e-9)
        else:
            assert lot["used_g"] == pytest.approx(lot["mass_g"], rel=1e-9)
            assert lot["to_card_g"] == pytest.approx(lot["mass_g"] - given_up[name], **nearly)
    assert found["leftovers"] == []


def test_two_steps_by_hand():
    """b = min(30, 60) / 3 = 10 g; each lot gives 10 g in all: 20 g and 50 g are left."""
    found = graded({"Kelp": 30.0, "Foam": 60.0}, 2)
    names = ["Kelp", "Kelp 2:1 Foam", "Kelp 1:2 Foam", "Foam"]
    assert [row[:2] for row in rows_of(found)] == list(zip(names, [1, None, None, 2], strict=True))
    assert [mass for *_, mass in rows_of(found)] == pytest.approx([20, 10, 10, 50], rel=1e-9)
    lots = {lot["name"]: lot for lot in found["lots"]}
    assert lots["Kelp 2:1 Foam"]["made_of"] == "step"
    assert lots["Kelp"]["used_g"] == pytest.approx(30, rel=1e-9)


@pytest.mark.parametrize("card_loss", [0.0, 0.1])
@pytest.mark.parametrize("steps", [1, 2, 5, 20])
def test_steps_account_for_all_fibre(steps, card_loss):
    stash = {"Kelp": 40.0, "Foam": 40.0, "Wrack": 17.3}
    found = graded(stash, steps, card_loss=card_loss)
    lots = {lot["name"]: lot for lot in found["lots"]}
    spun = sum(mass for *_, mass in rows_of(found))
    assert spun == pytest.approx(97.3 * (1 - card_loss), rel=1e-9)
    for name, mass in stash.items():
        assert lots[name]["used_g"] == pytest.approx(mass, rel=1e-9)
    assert found["leftovers"] == []


def test_the_same_pair_twice_makes_one_batt_and_like_neighbours_none():
    order = ["Kelp", "Foam", "Kelp", "Kelp", "Foam"]
    found = graded({"Kelp": 40.0, "Foam": 40.0}, 1, sequence=order)
    made = [lot["name"] for lot in found["lots"] if lot["made_of"] == "step"]
    assert made == ["Kelp 1:1 Foam", "Foam 1:1 Kelp"]
    names = [name for name, *_ in rows_of(found)]
    assert names.count("Kelp 1:1 Foam") == 2
    assert "Kelp 1:1 Kelp" not in names


def test_steps_stand_after_the_lots_of_the_file_in_the_order_in_which_they_are_spun():
    found = graded({"Kelp": 30.0, "Foam": 60.0, "Wrack": 20.0}, 3)
    names = [lot["name"] for lot in found["lots"]]
    assert names[:3] == ["Kelp", "Foam", "Wrack"]
    assert names[3:] == [name for name, place, _ in rows_of(found) if place is None]


@pytest.mark.parametrize("steps", COUNTS)
def test_a_step_has_no_place_and_every_lot_keeps_its_own(steps):
    found = graded({"Kelp": 30.0, "Foam": 60.0, "Wrack": 20.0}, steps)
    places = [place for _, place, _ in rows_of(found)]
    assert places == [1, *[None] * steps, 2, *[None] * steps, 3]


@pytest.mark.parametrize("steps", COUNTS)
def test_each_ply_holds_its_due_of_every_step(steps):
    options = {"name": "gradient", "plies": 3, "blend_steps": steps}
    found = answered(
        by_hand(
            {"Kelp": 30.0, "Foam": 60.0}, scheme=options, spinning={"single_tex": [50, 100, 150]}
        )
    )
    one, two, three = (rows_of(found, ply) for ply in range(3))
    assert [row[:2] for row in one] == [row[:2] for row in two] == [row[:2] for row in three]
    grams = np.array([[mass for *_, mass in rows] for rows in (one, two, three)])
    np.testing.assert_allclose(grams / grams.sum(axis=0), np.full_like(grams, 1) / [[6], [3], [2]])


@pytest.mark.parametrize("steps", COUNTS)
def test_the_steps_lead_from_the_one_colour_to_the_other(steps):
    found = graded({NAMES[2]: 30.0, NAMES[1]: 30.0}, steps)
    lots = {lot["name"]: lot for lot in found["lots"]}
    light = [lots[name]["lab"][0] for name, *_ in rows_of(found)]
    assert (np.diff(light) > 0).all() or (np.diff(light) < 0).all()
    sources = np.array([lots[name]["lab"] for name in (NAMES[2], NAMES[1])])
    parts = [[steps + 1 - j, j] for j in range(1, steps + 1)]
    made = np.array([lots[name]["lab"] for name, place, _ in rows_of(found) if place is None])
    assert ciede2000(made, blended_lab(parts, sources)).max() < 1e-6


def test_a_lot_without_fibre_is_passed_over_and_its_neighbours_meet():
    stash = by_hand({"Kelp": 30.0, "Foam": 60.0, "Wrack": 30.0})
    stash["lots"][1]["reserve_g"] = 60.0
    stash["scheme"] = {"name": "gradient", "plies": 1, "blend_steps": 1}
    rows = rows_of(answered(stash))
    assert [row[:2] for row in rows] == [("Kelp", 1), ("Kelp 1:1 Wrack", None), ("Wrack", 3)]
    assert [mass for *_, mass in rows] == pytest.approx([22.5, 15, 22.5])


def test_a_carded_lot_of_the_file_may_stand_in_a_gradient():
    """Wrack takes 10 g of each; the step between Kelp and it takes half of 20 / 2 from each."""
    stash = by_hand({"Kelp": 40.0, "Foam": 30.0})
    stash["lots"].append({"name": "Wrack", "blend": {"Kelp": 1, "Foam": 1}, "mass_g": 20.0})
    options = {"name": "gradient", "plies": 1, "blend_steps": 1}
    found = answered(stash | {"scheme": options | {"sequence": ["Kelp", "Wrack", "Foam"]}})
    assert [mass for *_, mass in rows_of(found)] == pytest.approx([25, 10, 10, 10, 15], rel=1e-9)
    lots = {lot["name"]: lot for lot in found["lots"]}
    assert [lots[name]["used_g"] for name in ("Kelp", "Foam", "Wrack")] == pytest.approx(
        [40, 30, 20], rel=1e-9
    )
    assert [lots[name]["to_card_g"] for name in ("Kelp", "Foam", "Wrack")] == pytest.approx(
        [25, 15, 10], rel=1e-9
    )


@pytest.mark.parametrize("steps", [0, 1, 4])
def test_steps_are_of_the_gradient_alone(steps):
    for name in ("matched", "fractal", "mirrored", "chain"):
        options = {"name": name, "blend_steps": steps}
        found = answered(by_hand({"Kelp": 30.0, "Foam": 60.0}, scheme=options))
        assert [lot["made_of"] for lot in found["lots"]] == [None, None]


def test_the_colours_that_these_tests_give_their_lots_differ():
    assert len(set(COLOURS)) == len(NAMES)


def test_a_carded_step_bears_a_name_that_no_lot_has():
    lots = {"Kelp": 30.0, "Foam": 30.0, "Kelp 1:1 Foam": 30.0, "Kelp 1:1 Foam, carded": 30.0}
    found = graded(lots, 1, sequence=["Kelp", "Foam"])
    assert [lot for lot, _, _ in rows_of(found)] == [
        *("Kelp", "Kelp 1:1 Foam, carded, carded", "Foam"),
    ]
    assert len({lot["name"] for lot in found["lots"]}) == 5
