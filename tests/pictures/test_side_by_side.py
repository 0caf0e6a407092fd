"""Panels side by side are asked what they show: one scale in all, the colours that lie there."""

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.paths import SAMPLES
from tests.helpers.pictures_asked import answered, extremes
from tests.helpers.strategies import by_hand
from tests.helpers.strip_pictures import pixels, table_of
from yarncolor.pictures.as_knitted import knit_of
from yarncolor.pictures.captions import wrapped
from yarncolor.pictures.fonts import key_name, pixel_name
from yarncolor.pictures.side_by_side import (
    EDGE_PX,
    one_scale,
    panel,
    panel_height_px,
    side_by_side,
    strip,
    swatch,
    yarn_piece,
)

FOUND = {path.stem: yc.answer(yc.read_plan(path)) for path in SAMPLES}
both_widths = pytest.mark.parametrize("width_px", [360, 1000])


@pytest.fixture(scope="module")
def unlike():
    """Return answers as unlike as can be: fine and thick, short and long, one ply and twelve."""
    return {name: make() for name, make in extremes().items()} | FOUND


@both_widths
def test_a_metre_is_as_many_pixels_in_every_strip(unlike, width_px):
    scale = one_scale(unlike.values(), width_px)
    for found in unlike.values():
        wide = strip(found, scale).shape[1]
        assert wide == pytest.approx(found.layout.stretches.yarn_m * scale.px_per_m, abs=1)
    longest = max(unlike.values(), key=lambda found: found.layout.stretches.yarn_m)
    assert strip(longest, scale).shape[1] == width_px - 2 * EDGE_PX


@both_widths
def test_a_millimetre_is_as_many_pixels_in_every_yarn(width_px):
    scale = one_scale(FOUND.values(), width_px)
    scales = {round(yarn_piece(found, scale)[0].mm_per_px, 9) for found in FOUND.values()}
    assert scales == {round(1 / scale.px_per_mm, 9)}


@both_widths
def test_a_stitch_is_as_wide_in_every_swatch(width_px):
    scale = one_scale(FOUND.values(), width_px)
    for found in FOUND.values():
        stitch_mm = 100 / knit_of(found)[0].gauge_stitches
        assert stitch_mm / swatch(found, scale)[0].mm_per_px == pytest.approx(4)


@pytest.mark.parametrize("rows_to_stitches", [1.0, 1.1, 1.25, 1.3, 1.36, 1.41, 1.5, 1.6, 2.0])
def test_a_stitch_stays_as_wide_at_every_gauge(rows_to_stitches):
    gauge = {"stitches": 60, "gauge_stitches": 18.0, "gauge_rows": 18.0 * rows_to_stitches}
    found = answered(fabric=gauge)
    for width_px in (360, 1000):
        drawn, _ = swatch(found, one_scale([found], width_px))
        assert 100 / 18 / drawn.mm_per_px == pytest.approx(4)


@both_widths
def test_every_panel_is_equally_large(unlike, width_px):
    scale = one_scale(unlike.values(), width_px)
    sizes = {panel(found, scale).size for found in unlike.values()}
    assert sizes == {(width_px, panel_height_px(scale))}


@pytest.mark.parametrize("name", FOUND)
def test_each_ply_shows_the_lot_that_lies_there(name):
    found = FOUND[name]
    scale = one_scale([found], 1000)
    drawn = strip(found, scale)
    edges, colour = table_of(found)
    middle = (np.arange(drawn.shape[1]) + 0.5) / drawn.shape[1]
    at = (np.searchsorted(edges, middle, side="right") - 1).clip(0, len(colour) - 1)
    far = np.abs(middle[:, None] - edges).min(axis=1) > 1e-6
    plies = colour.shape[1]
    for ply in range(plies):
        row = int((ply + 0.5) * 66 / plies)
        np.testing.assert_array_equal(drawn[row][far], colour[at, ply][far])


def test_the_plied_band_is_plain_where_plies_match_and_striped_where_they_do_not():
    plain = answered(scheme={"name": "matched", "plies": 3})
    marl = answered(scheme={"name": "staggered", "plies": 3})
    scale = one_scale([plain, marl], 1000)
    kinds = [
        {len(np.unique(column, axis=0)) for column in strip(each, scale)[-30:].swapaxes(0, 1)}
        for each in (plain, marl)
    ]
    assert kinds[0] == {1}
    assert min(kinds[1]) > 1


def test_the_yarn_shown_is_where_most_colours_lie_side_by_side():
    found = FOUND["slack_water"]
    drawn, words = yarn_piece(found, one_scale([found], 1000))
    assert len(words.split(": ")[1].split(", ")) == 3
    assert all(found.plan.names[lot] in words for lot in drawn.lots)


@both_widths
def test_words_stand_over_the_strip_and_under_the_swatch(width_px):
    found = answered(scheme={"name": "matched", "plies": 2})
    scale = one_scale([found], width_px)
    drawn = np.asarray(panel(found, scale)).min(axis=2)
    piece, _ = swatch(found, scale)
    below = len(drawn) - scale.swatch_px[1] - 27 + len(piece.pixels)
    for line in (drawn[:17], drawn[below : below + 17]):
        inked = (line < 100).any(axis=0)
        assert 0.05 < inked[: width_px // 2].mean() < 0.95


def test_panels_stand_under_each_other_with_a_legend():
    plans = {name: FOUND[name] for name in ("tideline", "ebb")}
    page = side_by_side(plans, 1000)
    scale = one_scale(plans.values(), 1000)
    assert page.height > 2 * panel_height_px(scale) + 60
    colours = {tuple(row) for row in np.unique(np.asarray(page).reshape(-1, 3), axis=0).tolist()}
    for found in plans.values():
        used = set(found.layout.stretches.lot.ravel().tolist())
        assert {tuple(bytes.fromhex(found.palette.srgb[lot][1:])) for lot in used} <= colours


@pytest.mark.parametrize("count", [1, 2, 6])
def test_a_notebook_shows_one_to_six(count):
    shown = yc.show.side_by_side({str(at): FOUND["tideline"] for at in range(count)})
    assert pixels(shown.png).shape[1] == shown.width_px == 1000
    assert shown.alt.count("Fractal, 3 plies, 537 m of yarn in 6 colours") == count


def test_the_same_plans_give_the_same_picture():
    six = dict(list(FOUND.items())[:6])
    once, again = (yc.show.side_by_side(six).png for _ in range(2))
    assert once == again


@pytest.mark.thorough
def test_extremes_can_be_shown_side_by_side(unlike):
    names = list(unlike)
    for start in range(0, len(names), 6):
        assert yc.show.side_by_side({name: unlike[name] for name in names[start : start + 6]}).png


@pytest.mark.parametrize("width_px", [360, 1300])
def test_the_lots_of_the_yarn_that_is_shown_are_named_whole(width_px):
    """Four plies of lots with long names: what stands over the yarn fits its lines, none is cut."""
    names = ["Foam on the very long beach", "Kelp", "Rust at low tide", "Slate under water"]
    lots = dict.fromkeys(names, 20.0)
    data = by_hand(lots, scheme={"plies": 4, "name": "shuffled"})
    found = yc.answer(yc.plan_from_data(data))
    scale = one_scale([found], width_px)
    lines = wrapped(yarn_piece(found, scale)[1], scale.yarn_px[0])
    assert len(lines) <= scale.yarn_lines
    assert "…" not in "".join(lines)


def test_a_key_beside_a_picture_has_the_number_that_stands_in_it():
    names = ("Kelp", "\u6606\u5e03")
    assert [pixel_name(at, names) for at in (0, 1)] == ["Kelp", "lot 2"]
    assert [key_name(at, names) for at in (0, 1)] == ["Kelp", "\u6606\u5e03 (lot 2)"]
