"""Lots that are drafted together: their colour, their grams, and both colours in every picture."""

import json

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import answered
from yarncolor.colour.palette import palette
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import linear
from yarncolor.editing.colour_text import colour_keys, colour_text
from yarncolor.pictures.drafted import drafted_lots, shown_lots, streaks, turn_at
from yarncolor.pictures.strip import raster
from yarncolor.pictures.strip_layout import strip_layout
from yarncolor.pictures.strip_svg import strip_svg
from yarncolor.pictures.yarn_pictures import whole_yarn
from yarncolor.widgets.order.order_frames import shades_of

GULL, SLATE = "#e9e2d5", "#3a4c66"


def plan_data(**recipe) -> dict:
    lots = [
        {"name": "Gull", "colour": GULL, "mass_g": 60.0},
        {"name": "Slate", "colour": SLATE, "mass_g": 60.0},
        {"name": "Ragg", "mass_g": 45.0, **(recipe or {"drafted": {"Gull": 2, "Slate": 1}})},
    ]
    return {"lots": lots, "scheme": {"name": "matched", "plies": 2, "sequence": ["Ragg"]}}


def found(**recipe):
    return yc.answer(yc.plan_from_data(plan_data(**recipe)))


def test_the_colour_is_the_mean_of_linear_light_by_parts():
    light = linear(srgb_from_hex([GULL, SLATE]))
    mean = linear(srgb_from_hex([found().palette.srgb[2]]))[0]
    assert mean == pytest.approx((2 * light[0] + light[1]) / 3, abs=0.004)  # eight bits


def test_colours_that_no_screen_shows_are_averaged_before_they_are_cut():
    """A green and a red beyond the screen at equal parts: XYZ, by hand, is the mean of both."""
    lots = plan_data()["lots"]
    lots[0] |= {"lab": [85.0, -100.0, 80.0]}
    lots[1] |= {"lab": [40.0, 90.0, 60.0]}
    for lot in lots[:2]:
        del lot["colour"]
    lots[2]["drafted"] = {"Gull": 1, "Slate": 1}
    plan = yc.plan_from_data(plan_data() | {"lots": lots})
    lightness = palette(plan.lots).lab[:, 0]
    y = ((lightness + 16) / 116) ** 3
    assert y[2] == pytest.approx((y[0] + y[1]) / 2, rel=1e-9)


def test_grams_are_those_of_the_lots_that_are_held_together():
    told = answered(plan_data())
    by_name = {lot["name"]: lot for lot in told["lots"]}
    assert by_name["Ragg"]["made_of"] == "drafted"
    assert by_name["Gull"]["to_card_g"] == pytest.approx(30.0)
    assert by_name["Slate"]["to_card_g"] == pytest.approx(45.0)
    assert by_name["Gull"]["used_g"] == pytest.approx(30.0)


def test_a_place_shows_one_of_its_lots_by_the_share_of_each():
    drafted = drafted_lots(found().plan.lots)
    metre = np.linspace(0.0, 40.0, 40_000)
    seen = shown_lots(np.full(len(metre), 2), turn_at(np.zeros(len(metre), int), metre), drafted)
    assert set(seen.tolist()) == {0, 1}
    assert (seen == 0).mean() == pytest.approx(2 / 3, abs=0.01)
    assert shown_lots(np.array([0, 1]), np.array([0.9, 0.1]), drafted).tolist() == [0, 1]


def test_what_is_drafted_from_drafted_lots_shows_all_of_them():
    data = plan_data()
    data["lots"].append({"name": "Heather", "mass_g": 9.0, "drafted": {"Ragg": 1, "Gull": 1}})
    lots, up_to = drafted_lots(yc.plan_from_data(data).lots)[3]
    assert lots.tolist() == [0, 1]
    assert up_to == pytest.approx([5 / 6, 1.0])


def test_both_colours_lie_side_by_side_in_the_band_of_the_strip():
    answer = found()
    drawn = strip_layout(answer.layout, answer.palette, 1200, 360)
    index, table = raster(drawn)
    band = drawn.bands[0]
    column = table[index[round(band.top_px) : round(band.top_px + band.height_px), 300]]
    told = [tuple(row) for row in (srgb_from_hex([GULL, SLATE]) * 255).round().astype(int).tolist()]
    assert {tuple(row) for row in column.tolist()} == set(told)
    assert len(streaks(18)) == 18
    assert strip_svg(answer).decode().count("url(#drafted-2)") == 4


def test_both_colours_are_in_the_yarn_and_its_mixture_is_in_the_legend():
    picture = whole_yarn(found())
    pixels = picture.pixels.reshape(-1, 3).astype(float)
    dark = (pixels.sum(axis=1) < 330).mean()
    assert 0.2 < dark < 0.5
    assert picture.lots == (2,)


def test_the_browser_is_told_what_shows_and_nothing_where_nothing_is_drafted():
    told = json.loads(json.dumps(shades_of(found())))
    assert told["drafted"] == [[2, [[0, pytest.approx(2 / 3)], [1, 1.0]]]]
    plain = found(blend={"Gull": 2, "Slate": 1})
    assert shades_of(plain)["drafted"] == []


def test_it_is_typed_as_one_says_it():
    lot = found().plan.lots[2]
    assert colour_text(lot) == "2 Gull beside 1 Slate"
    assert colour_keys("2 Gull beside 1 Slate", {"Slate": "Mud"}) == {
        "drafted": {"Gull": 2, "Mud": 1}
    }
    assert colour_keys("2 Gull + 1 Slate", {}) == {"blend": {"Gull": 2, "Slate": 1}}
