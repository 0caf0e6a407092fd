"""A swatch shows the whole yarn in small: alone as far as it goes, in a comparison on one scale."""

import re

import numpy as np
import pytest

from tests.helpers.paths import SAMPLE_DATA, SAMPLES
from tests.helpers.strategies import ORDERED
from tests.helpers.strip_pictures import SVG, answered, parsed
from yarncolor import answer, read_plan
from yarncolor.editing.editor import Editor
from yarncolor.measures import IMPERIAL, METRIC
from yarncolor.pictures.as_knitted import knit_of, piece_shown
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.fabric_pictures import knitted_piece, piece_scene
from yarncolor.pictures.fabric_svg import fabric_svg
from yarncolor.pictures.shown_part import part_words
from yarncolor.pictures.side_by_side import one_scale, swatch
from yarncolor.pictures.strip_svg import strip_svg

EBB = SAMPLE_DATA / "ebb.toml"

LOTS = [
    {"name": "Foam", "colour": "#e9e2d5", "mass_g": 60.0},
    {"name": "Slate", "colour": "#4a5866", "mass_g": 60.0},
]
LONG = {"scheme": {"name": "matched", "plies": 2}, "spinning": {"single_tex": 100.0}}
SHORT = {"scheme": {"name": "matched", "plies": 2}, "spinning": {"single_tex": 200.0}}


def rows_of(picture) -> int:
    """Return how many rows of pixels are knitted."""
    return int((picture.pixels != 255).any(axis=(1, 2)).sum())


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_lot_of_a_plan_is_in_its_swatch_of_a_comparison(path):
    found = answer(read_plan(path))
    drawn, words = swatch(found, one_scale([found], 360))
    assert set(drawn.lots) == set(found.layout.stretches.lot.ravel().tolist())
    assert words.startswith("the whole yarn, knitted")


def of_scheme(name: str):
    """Return Ebb, with its blend and its later bath, in another way; a gradient cards its steps."""
    editor = Editor.opened(EBB)
    if name != "gradient":
        editor.change(name=name)
    return editor.answer


@pytest.mark.parametrize("name", ORDERED)
def test_written_pictures_show_blends_baths_and_carded_steps_in_every_scheme(name):
    """The strip's bands have every lot's colour, and the swatch the whole yarn, no lot missing."""
    found = of_scheme(name)
    lots = sorted(set(found.layout.stretches.lot.ravel().tolist()))
    fills = {band.get("fill") for band in parsed(strip_svg(found, 1200)).iter(f"{SVG}rect")}
    assert {found.palette.srgb[lot] for lot in lots} <= fills
    drawn, words = swatch(found, one_scale([found], 360))
    assert sorted(drawn.lots) == lots
    assert words.startswith("the whole yarn, knitted")


def test_yarns_of_every_scheme_are_compared_on_one_scale():
    """A stitch is as large in all, and takes yarn in proportion to how thick it is."""
    every = [of_scheme(name) for name in ORDERED]
    scale = one_scale(every, 360)
    said, shown = set(), []
    for found in every:
        drawn, words = swatch(found, scale)
        said.add(words)
        stitches = (drawn.pixels != 255).any(axis=-1).sum()
        taken_m = found.layout.stretches.yarn_m / found.resolved.yarn.relaxed_diameter_mm
        shown.append(stitches / taken_m)
    assert len(said) == 1
    assert max(shown) < 1.05 * min(shown)


def test_swatches_of_a_comparison_are_as_high_as_their_yarns_are_long():
    long, short = answered(LOTS, **LONG), answered(LOTS, **SHORT)
    scale = one_scale([long, short], 360)
    (one, words), (other, others_words) = swatch(long, scale), swatch(short, scale)
    assert words == others_words == f"the whole yarn, knitted, each row for {scale.times}"
    assert set(one.lots) == set(other.lots) == {0, 1}
    assert rows_of(one) > 1.3 * rows_of(other)


def test_a_swatch_of_a_plan_without_a_piece_holds_the_yarn_from_end_to_end():
    found = answered(LOTS, **LONG)
    knit, aspect, from_m, times = piece_shown(found)
    _, _, scene = piece_scene(found, knit, aspect, from_m, (660, 500), times)
    yarn_m = found.layout.stretches.yarn_m
    assert times > 1
    assert np.nanmin(scene.metre) < 0.02 * yarn_m
    assert 0.98 * yarn_m < np.nanmax(scene.metre) <= yarn_m


def test_the_piece_of_a_plan_is_drawn_stitch_by_stitch():
    fabric = {"stitches": 30, "rows": 40, "gauge_stitches": 22.0, "gauge_rows": 30.0}
    assert piece_shown(answered(LOTS, **LONG, fabric=fabric)).times == 1


def test_a_piece_in_small_says_for_how_many_a_row_stands():
    """44 × 56 stitches for 30 each hold more than the yarn."""
    drawn = knitted_piece(answered(LOTS, **LONG), "flat", 44, 56, times=30)
    assert "It shows the whole yarn in small, each row for 30." in drawn.caption
    assert "The yarn ends" not in drawn.caption


def test_where_nothing_is_said_a_swatch_is_the_whole_yarn_and_says_so():
    found = answered(LOTS, **LONG)
    for name in ("knitted", "woven"):
        drawn = PICTURES[name](found)
        assert set(drawn.lots) == {0, 1}
        assert re.search(r"It shows the whole yarn in small, each (row|pick) for \d", drawn.caption)
    fills = {rect.get("fill") for rect in parsed(fabric_svg(found)).iter(f"{SVG}rect")}
    assert {"#e9e2d5", "#4a5866"} < fills


def test_a_part_of_the_yarn_is_said_with_both_its_ends():
    """44 × 56 stitches, of so many metres each, from 120 m on."""
    found = answered(LOTS, **LONG)
    end_m = 120 + 44 * 56 * knit_of(found).fabric.stitch_m
    drawn = knitted_piece(found, from_m=120.0)
    assert f"It shows from 120 m to {round(end_m, 1):g} m of the yarn." in drawn.caption


@pytest.mark.parametrize(
    ("reach_m", "words"),
    [
        ((0.0, 300.0), "the whole yarn"),
        ((0.0, 24.63), "the first 24.6 m of the yarn"),
        ((120.0, 135.0), "from 120 m to 135 m of the yarn"),
        ((280.5, 300.0), "the yarn from 280.5 m to its end, 300 m"),
    ],
)
def test_parts_of_a_yarn_in_words(reach_m, words):
    assert part_words(reach_m, 300.0, METRIC.length) == words


def test_parts_of_a_yarn_in_yards():
    assert part_words((0.0, 91.44), 300.0, IMPERIAL.length) == "the first 100 yd of the yarn"


def test_a_triangle_does_not_lend_its_stitches_to_a_flat_piece():
    piece = {"kind": "triangle", "stitches": 7, "rows": 90, "gauge_stitches": 22}
    found = answered(LOTS, **LONG, fabric=piece)
    assert knit_of(found).fabric.cast_on == knit_of(found, "triangle").fabric.cast_on == 7
    assert knit_of(found, "flat").fabric.cast_on > 30
    assert knit_of(answered(LOTS, **LONG), "triangle").fabric.cast_on == 3
