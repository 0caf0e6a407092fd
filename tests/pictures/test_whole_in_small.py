"""A swatch shows the whole yarn in small: alone as far as it goes, in a comparison on one scale."""

import numpy as np
import pytest

from tests.helpers.paths import SAMPLES
from tests.helpers.strip_pictures import answered
from yarncolor import answer, read_plan
from yarncolor.pictures.fabric_pictures import knitted_piece, piece_scene, shown_as_knitted
from yarncolor.pictures.side_by_side import one_scale, swatch

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
    assert words.startswith("all of it, knitted")


def test_swatches_of_a_comparison_are_as_high_as_their_yarns_are_long():
    long, short = answered(LOTS, **LONG), answered(LOTS, **SHORT)
    scale = one_scale([long, short], 360)
    (one, words), (other, others_words) = swatch(long, scale), swatch(short, scale)
    assert words == others_words == f"all of it, knitted in small, each stitch for {scale.times}"
    assert set(one.lots) == set(other.lots) == {0, 1}
    assert rows_of(one) > 1.3 * rows_of(other)


def test_a_swatch_of_a_plan_without_a_piece_holds_the_yarn_from_end_to_end():
    found = answered(LOTS, **LONG)
    (knit, aspect, _), times = shown_as_knitted(found)
    _, _, scene = piece_scene(found, knit, aspect, 0.0, (660, 500), times)
    yarn_m = found.layout.stretches.yarn_m
    assert times > 1
    assert np.nanmin(scene.metre) < 0.02 * yarn_m
    assert 0.98 * yarn_m < np.nanmax(scene.metre) <= yarn_m


def test_the_piece_of_a_plan_is_drawn_stitch_by_stitch():
    fabric = {"stitches": 30, "rows": 40, "gauge_stitches": 22.0, "gauge_rows": 30.0}
    assert shown_as_knitted(answered(LOTS, **LONG, fabric=fabric))[1] == 1


def test_a_piece_in_small_says_for_how_many_a_stitch_stands():
    drawn = knitted_piece(answered(LOTS, **LONG), "flat", 44, 56, times=12)
    assert "In small: each stitch stands for 12." in drawn.caption
    assert "The yarn ends" not in drawn.caption
