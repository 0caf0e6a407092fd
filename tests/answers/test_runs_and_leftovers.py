"""Runs that are meant, what is left on a bobbin, and what else follows from a plan laid out."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.answers.answer import preview
from yarncolor.answers.closing_costs import closing_costs
from yarncolor.answers.near_twins import near_twins
from yarncolor.answers.runs import at_fault

LOTS = {"Kelp": 100.0, "Foam": 100.0}


def answer_to(data: dict):
    return yc.answer(yc.plan_from_data(data))


@pytest.mark.parametrize(("name", "is_meant"), [("mirrored", True), ("matched", False)])
def test_the_turn_of_a_mirrored_ply_is_meant(name, is_meant):
    found = answer_to(by_hand(LOTS, scheme={"name": name, "plies": 1})).runs
    assert found.meant.any() == is_meant
    if is_meant:
        assert (found.lot.tolist(), found.meant.tolist()) == ([0, 1, 0], [False, True, False])


@pytest.mark.parametrize(("kelp_g", "is_too_long"), [(60.0, False), (60.1, True)])
def test_a_run_of_one_and_a_half_of_the_others_is_not_too_long(kelp_g, is_too_long):
    """Kelp 15 g, Foam 20 g, Kelp 15 g, twice: 30 g of Kelp meet, half as much more than 20 g."""
    scheme = {"name": "fractal", "divisions": [2], "sequence": ["Kelp", "Foam", "Kelp"]}
    found = answer_to(by_hand({"Kelp": kelp_g, "Foam": 40.0}, scheme=scheme))
    assert at_fault(found.runs, found.layout).tolist() == [False, False, is_too_long, False, False]


def test_what_is_left_of_a_piece_of_its_own_grist_is_told_as_weighed_out():
    """50 g of which a tenth is lost, on 500 m: 150 m are 13.5 g of single, 15 g weighed out."""
    lengths_m = {1: (400.0, 400.0), 2: (500.0, 450.0)}
    spun = [
        {"ply": ply, "row": row, "length_m": length_m, "mass_g": 50.0}
        for ply, own in lengths_m.items()
        for row, length_m in enumerate(own, 1)
    ]
    spinning = {"single_tex": 100.0, "spin_loss": 0.1}
    data = by_hand(LOTS, scheme={"plies": 2}, spinning=spinning, spun=spun)
    (left,) = answer_to(data).leftovers
    assert (left.lot, left.mass_g) == (0, pytest.approx(15))
    assert (left.on_bobbin.ply, left.on_bobbin.end_m) == (1, pytest.approx(150))


def test_what_closing_otherwise_costs_is_told_of_the_plan_whatever_was_spun():
    scheme = {"name": "fractal", "divisions": [1, 2], "sequence": ["Kelp", "Foam", "Kelp"]}
    data = by_hand(LOTS | {"Kelp": 200.0}, scheme=scheme)
    spun = [{"ply": 1, "row": 1, "length_m": 900.0, "mass_g": 50.0}]
    costs = closing_costs(answer_to(data).resolved)
    assert closing_costs(answer_to(data | {"spun": spun}).resolved) == costs


COLOURS = ("#556677", "#566778")


def close_lots() -> dict:
    data = by_hand(LOTS)
    for lot, colour in zip(data["lots"], COLOURS, strict=True):
        lot["colour"] = colour
    return data


def test_lots_of_nearly_one_colour_are_twins_to_every_eye():
    (one,) = near_twins(answer_to(close_lots()))
    assert (one.one, one.other, one.eyes) == (0, 1, "every eye")


def test_a_preview_has_the_colours_that_were_typed():
    assert preview(yc.plan_from_data(close_lots())).palette.srgb == COLOURS
