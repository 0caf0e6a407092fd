"""Fabric stitch by stitch and pick by pick: which metre of yarn falls where."""

import re
from itertools import pairwise

import numpy as np
import pytest

from tests.helpers.pictures_asked import (
    AS_TABLE,
    PLAIN,
    answered,
    channel,
    extremes,
    metre_at,
    place_at,
    ply_at,
    second_at,
    surface_shares,
    three_pure,
)
from yarncolor import show
from yarncolor.answers.knitted_piece import piece
from yarncolor.pictures.as_knitted import knit_of
from yarncolor.pictures.fabric_pictures import knitted_piece, stripe_heights
from yarncolor.pictures.knit_scenes import (
    KINDS,
    KnitFabric,
    knitted,
    row_starts_m,
    stitch_px,
    stripe_rows,
)
from yarncolor.pictures.painting import painted
from yarncolor.pictures.painting import rgb as as_rgb
from yarncolor.pictures.scene import FIXED_SRGB, LEVELS
from yarncolor.pictures.yarn_scenes import PictureScale

STITCH_M, FROM_M, FAR_M = 0.01, 2.0, 1e6
ASPECT = 0.75
STAGGERED = {"name": "staggered", "plies": 3}

BARE_ROWS = 3
"""Rows beyond the yarn's end that are still shown."""


def piece_of(kind: str, cast_on: int = 8, rows: int = 9, growth: float = 2.0) -> KnitFabric:
    return KnitFabric(kind, cast_on, rows, growth, STITCH_M, 1.7)


def worked_by_hand(knit: KnitFabric) -> list[list[int]]:
    """Return, row by row from left to right, when each stitch is worked: counted by a finger.

    Flat pieces, triangles and garter turn at the end of each row; in the round the work goes on.
    """
    number, rows = 0, []
    for row in range(knit.rows):
        wide = knit.cast_on
        if knit.kind == "triangle":
            wide = int(knit.cast_on + knit.growth * row + 1e-9)
        line = list(range(number, number + wide))
        number += wide
        rows.append(line[::-1] if knit.kind != "round" and row % 2 else line)
    return rows


def seen(
    knit: KnitFabric,
    plies: int = 3,
    size: PictureScale = PictureScale(420, 330, 4.0),  # noqa: B008
    end_m=FAR_M,
):
    """Return the scene of a piece, and which stitch stands at each pixel (-1 for none)."""
    scene = knitted(knit, plies, size, (FROM_M, end_m), ASPECT)
    place = place_at(scene)
    return scene, np.where(place < 0, -1, place // plies)


def spread_of(number: np.ndarray) -> dict[int, tuple[float, float, int]]:
    """Return the middle of each stitch on the picture, x and y, and its pixels."""
    y, x = np.nonzero(number >= 0)
    which = number[y, x]
    count = np.bincount(which)
    middle_x = np.bincount(which, x) / np.maximum(count, 1)
    middle_y = np.bincount(which, y) / np.maximum(count, 1)
    return {at: (middle_x[at], middle_y[at], int(count[at])) for at in np.unique(which).tolist()}


PIECES = [
    piece_of("flat"),
    piece_of("round"),
    piece_of("garter"),
    piece_of("triangle", 3, 9, 2.0),
    piece_of("triangle", 5, 12, 1.5),
    piece_of("flat", 1, 1),
    piece_of("flat", 23, 2),
    piece_of("round", 3, 17),
]
each_piece = pytest.mark.parametrize("knit", PIECES, ids=lambda knit: f"{knit.kind}-{knit.rows}")


@each_piece
def test_every_stitch_and_no_other_is_on_the_picture(knit):
    _, number = seen(knit)
    expected = sorted(at for row in worked_by_hand(knit) for at in row)
    assert sorted(spread_of(number)) == expected
    assert knit.first_stitch[-1] == len(expected)


@each_piece
def test_stitches_stand_in_rows_and_columns_in_the_order_in_which_they_are_worked(knit):
    size = PictureScale(420, 330, 4.0)
    _, number = seen(knit, size=size)
    stitch, row_px = stitch_px(knit, size, ASPECT)
    spread = spread_of(number)
    widest = max(len(row) for row in worked_by_hand(knit))
    first_x = min(x for x, _, _ in spread.values())
    for r, row in enumerate(worked_by_hand(knit)):
        margin = (widest - len(row)) // 2
        for c, at in enumerate(row):
            x, y, pixels = spread[at]
            column = (x - first_x) / stitch
            leftmost = min((widest - len(other)) // 2 for other in worked_by_hand(knit))
            assert column == pytest.approx(margin + c - leftmost, abs=0.35)
            assert pixels >= 0.4 * stitch * row_px
            if r:
                below = worked_by_hand(knit)[r - 1]
                under = below[min(c, len(below) - 1)]
                up = spread[under][1] - y
                expected = -row_px if knit.kind == "triangle" else row_px
                assert up == pytest.approx(expected, rel=0.45)


@each_piece
def test_each_stitch_takes_its_metre_of_yarn(knit):
    scene, number = seen(knit)
    metre = metre_at(scene)
    for row in worked_by_hand(knit):
        for at in row:
            here = metre[number == at]
            assert here == pytest.approx(FROM_M + (at + 0.5) * STITCH_M, abs=STITCH_M / 2 + 1e-9)


@each_piece
def test_rows_begin_where_the_stitches_before_them_end(knit):
    rows = worked_by_hand(knit)
    expected = FROM_M + STITCH_M * np.array([min(row) for row in rows] + [max(rows[-1]) + 1])
    if knit.kind != "round":
        assert [len(row) for row in rows] == knit.stitches.tolist()
    assert row_starts_m(knit, FROM_M) == pytest.approx(expected)


@pytest.mark.parametrize("kind", ["flat", "garter"])
def test_a_flat_piece_turns_so_that_the_next_stitch_stands_above_the_last(kind):
    knit = piece_of(kind)
    _, number = seen(knit)
    spread = spread_of(number)
    last, following = spread[knit.cast_on - 1], spread[knit.cast_on]
    assert following[0] == pytest.approx(last[0], abs=3)
    assert following[1] < last[1] - 10


def test_in_the_round_the_next_stitch_begins_at_the_other_side_as_high_as_the_last():
    """The jog: a round ends one row above where it began."""
    knit = piece_of("round")
    size = PictureScale(420, 330, 4.0)
    _, number = seen(knit, size=size)
    stitch, row_px = stitch_px(knit, size, ASPECT)
    spread = spread_of(number)
    for round_ in range(1, knit.rows - 1):
        first, last = spread[round_ * 8], spread[round_ * 8 + 7]
        following = spread[(round_ + 1) * 8]
        assert last[0] - first[0] == pytest.approx(7 * stitch, abs=3)
        assert first[1] - last[1] == pytest.approx(row_px * 7 / 8, abs=3)
        assert following[1] - last[1] == pytest.approx(-row_px / 8, abs=3)


def test_a_triangle_grows_from_the_top_by_its_increases():
    knit = piece_of("triangle", 3, 9, 2.0)
    _, number = seen(knit)
    stitch, row_px = stitch_px(knit, PictureScale(420, 330, 4.0), ASPECT)
    top = (number >= 0).any(axis=1).argmax()
    for row, stitches in enumerate(range(3, 21, 2)):
        band = (number >= 0)[top + row * row_px : top + (row + 1) * row_px].any(axis=0)
        assert band.sum() == pytest.approx(stitches * stitch, abs=2 * stitch + 2)
    assert knit.stitches.tolist() == list(range(3, 21, 2))


@each_piece
def test_the_piece_stands_in_the_middle_with_paper_round_it(knit):
    scene, number = seen(knit, size=PictureScale(500, 360, 4.0))
    there = number >= 0
    left, right = there.any(axis=0).argmax(), there[:, ::-1].any(axis=0).argmax()
    top, bottom = there.any(axis=1).argmax(), there[::-1].any(axis=1).argmax()
    stitch, row_px = stitch_px(knit, PictureScale(500, 360, 4.0), ASPECT)
    assert abs(left - right) <= stitch + 2
    assert abs(top - bottom) <= row_px + 2
    assert (scene.index[~there] // LEVELS < len(FIXED_SRGB)).all()


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("plies", [1, 2, 3, 4, 6, 12])
@pytest.mark.parametrize("turns", [0.45, 1.7, 6.3])
def test_every_ply_is_seen_about_as_much_as_any_other(kind, plies, turns):
    knit = KnitFabric(kind, 30, 24, 2.0, STITCH_M, turns)
    scene = knitted(knit, plies, PictureScale(900, 700, 4.0), (0.0, FAR_M), ASPECT)
    ply = ply_at(scene)
    area = np.bincount(ply[ply >= 0], minlength=plies)
    assert area / area.sum() == pytest.approx(1 / plies, abs=0.25 / plies)


@pytest.mark.parametrize("kind", KINDS)
def test_colours_fall_on_the_stitches_as_the_table_says(kind):
    found = answered(three_pure(), scheme={"name": "matched", "plies": 3}, target={"yarn_m": 8.0})
    knit, aspect, _ = knit_of(found, kind, 20, 30)
    size = PictureScale(700, 700, 5.0)
    scene = knitted(knit, 3, size, (0.5, found.layout.stretches.yarn_m), aspect)
    shown = channel(as_rgb(painted(scene, found, PLAIN)))
    number = np.where(place_at(scene) < 0, -1, place_at(scene) // 3)
    along = found.layout.stretches
    for row in worked_by_hand(knit):
        for at in row:
            metre = 0.5 + (at + 0.5) * knit.stitch_m
            lots = shown[(number == at) & (shown >= 0)]
            if metre > along.yarn_m:
                assert not len(lots)
                continue
            clear = np.abs(along.edges_m - metre).min() > knit.stitch_m
            stretch = min(np.searchsorted(along.edges_m, metre) - 1, len(along.lot) - 1)
            assert not clear or (lots == along.lot[stretch, 0]).all()


def test_the_area_of_each_colour_is_its_share_where_the_whole_yarn_is_knitted():
    """Within three hundredths: edges of stitches hide some of the row below."""
    found = answered(three_pure(), scheme=STAGGERED, target={"yarn_m": 40.0})
    knit, _, _ = knit_of(found, "flat", 40, 1)
    rows = int(40.0 / knit.stitch_m / 40)
    drawn = knitted_piece(found, "flat", 40, rows, size_px=(900, 1600), look=AS_TABLE)
    shown = channel(drawn.pixels)
    area = np.bincount(shown[shown >= 0], minlength=3)
    assert area / area.sum() == pytest.approx(surface_shares(found), abs=0.03)


# --- the yarn's end -------------------------------------------------------------------------------


def end_by_hand(knit: KnitFabric, from_m: float, yarn_m: float) -> int | None:
    """Return the row, from 1, in which the yarn ends; None where it lasts."""
    left = yarn_m - from_m
    for row, wide in enumerate(knit.stitches.tolist(), start=1):
        left -= wide * knit.stitch_m
        if left < -1e-9:
            return row
    return None


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("yarn_m", [3.0, 11.3, 60.0])
@pytest.mark.parametrize("from_m", [0.0, 1.7])
def test_what_the_yarn_does_not_reach_stays_paper_and_the_row_is_said(kind, yarn_m, from_m):
    found = answered(three_pure(), scheme=STAGGERED, target={"yarn_m": yarn_m})
    drawn = knitted_piece(found, kind, 30, 24, from_m=from_m, size_px=(500, 500), look=AS_TABLE)
    knit, _, _ = knit_of(found, kind, 30, 24)
    expected = end_by_hand(knit, from_m, found.layout.stretches.yarn_m)
    told = re.search(
        r"The yarn ends in (?:row|round) (\d+) of 24, edges not counted\.", drawn.caption
    )
    assert (told and int(told[1])) == expected
    lines = (channel(drawn.pixels) >= 0).any(axis=1)
    share = lines.sum() / len(lines)
    if expected is None:
        assert share > 0.8
    else:
        shown = min(24, expected - 1 + BARE_ROWS)
        assert share == pytest.approx(expected / shown, abs=0.2)


@pytest.mark.parametrize("kind", ["flat", "round", "triangle"])
@pytest.mark.parametrize("shrinkage", [0.0, 0.08])
def test_rows_in_words_and_in_the_picture_are_the_same(kind, shrinkage):
    size = {"kind": kind, "stitches": 41, "rows": 400, "gauge_stitches": 22.0}
    fabric = size | {"finishing_shrinkage": shrinkage}
    found = answered(three_pure(), scheme=STAGGERED, fabric=fabric, target={"yarn_m": 90.0})
    said = re.search(r"From this yarn: about (\d+) r", show.yarn(found).text)[1]
    drawn = knitted_piece(found)
    assert f"The yarn gives {said} of 400 r" in drawn.caption
    rows = [rows for _, _, rows in stripe_heights(found, knit_of(found).fabric)]
    assert sum(rows) == pytest.approx(int(said))


def test_exactly_as_much_yarn_as_the_piece_takes_is_enough():
    knit = piece_of("flat", 10, 10)
    scene = knitted(knit, 2, PictureScale(300, 300, 4.0), (FROM_M, FROM_M + 100 * STITCH_M), ASPECT)
    assert not np.isnan(scene.metre).any()
    short = knitted(
        knit, 2, PictureScale(300, 300, 4.0), (FROM_M, FROM_M + 99.4 * STITCH_M), ASPECT
    )
    assert np.isnan(short.metre).sum() == 2


# --- stripes --------------------------------------------------------------------------------------


def rows_by_counting(found, knit: KnitFabric, from_m: float) -> dict[int, float]:
    """Return the rows of each stretch: its length in each row over that row's, row by row."""
    along, total = found.layout.stretches, {}
    start = from_m
    for wide in knit.stitches.tolist():
        row_m = wide * knit.stitch_m
        for stretch, (one, other) in enumerate(
            zip(along.edges_m[:-1], along.edges_m[1:], strict=True)
        ):
            within = min(other, start + row_m) - max(one, start)
            if within > 0:
                total[stretch] = total.get(stretch, 0) + within / row_m
        start += row_m
    return total


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("from_m", [0.0, 3.3])
@pytest.mark.parametrize("yarn_m", [6.0, 200.0])
def test_stripe_heights_are_those_that_counting_gives(kind, from_m, yarn_m):
    found = answered(scheme=STAGGERED, target={"yarn_m": yarn_m})
    knit, _, _ = knit_of(found, kind, 20, 40)
    told = stripe_heights(found, knit, from_m)
    counted = rows_by_counting(found, knit, from_m)
    assert [high for _, _, high in told] == pytest.approx(list(counted.values()), abs=1e-6)
    along, names = found.layout.stretches, found.plan.names
    for (colours, _, _), stretch in zip(told, counted, strict=True):
        assert colours.split(" + ") == list(dict.fromkeys(names[k] for k in along.lot[stretch]))


@pytest.mark.parametrize("kind", KINDS)
def test_stripes_follow_each_other_and_add_up_to_the_rows_that_are_worked(kind):
    found = answered(scheme=STAGGERED)
    knit, _, _ = knit_of(found, kind, 30, 60)
    told = stripe_heights(found, knit)
    assert told[0][1] == 1
    for (_, first, high), (_, following, _) in pairwise(told):
        assert following == pytest.approx(first + high)
    needed = float(knit.first_stitch[-1]) * knit.stitch_m
    assert needed < found.layout.stretches.yarn_m
    assert sum(high for _, _, high in told) == pytest.approx(60)


def test_stripes_end_where_the_yarn_ends():
    found = answered(scheme=STAGGERED, target={"yarn_m": 10.0})
    knit, _, _ = knit_of(found, "flat", 30, 600)
    total = sum(high for _, _, high in stripe_heights(found, knit))
    assert total == pytest.approx(10.0 / knit.stitch_m / 30)


def test_a_section_within_one_row_is_a_part_of_it():
    knit = piece_of("flat", 10, 10)
    edges = np.array([0.0, 0.05, 0.07, 0.4])
    assert stripe_rows(knit, edges, (0.0, 0.4)) == [
        pytest.approx(pair) for pair in ((0, 0.5), (0.5, 0.2), (0.7, 3.3))
    ]


def test_a_stripe_on_the_picture_is_as_high_as_it_is_said():
    found = answered(three_pure(), scheme={"name": "matched", "plies": 3}, target={"yarn_m": 20.0})
    knit, _, _ = knit_of(found, "flat", 30, 60)
    drawn = knitted_piece(found, "flat", 30, 60, size_px=(700, 900), look=AS_TABLE)
    shown = channel(drawn.pixels)
    rows_px = (shown >= 0).any(axis=1).sum() / sum(h for _, _, h in stripe_heights(found, knit))
    for name, _, high in stripe_heights(found, knit):
        lot = found.plan.names.index(name)
        area = (shown == lot).sum() / (shown >= 0).any(axis=0).sum() / rows_px
        whole = (shown >= 0).sum() / (shown >= 0).any(axis=0).sum() / rows_px
        total = sum(h for _, _, h in stripe_heights(found, knit))
        assert area / whole * total == pytest.approx(high, abs=1.0)


# --- the plan's own piece -------------------------------------------------------------------------


def test_the_piece_is_the_plan_s_where_the_plan_has_one():
    fabric = {"kind": "round", "stitches": 60, "rows": 90, "gauge_stitches": 22, "gauge_rows": 30}
    found = answered(fabric=fabric)
    knit, aspect, given = knit_of(found)
    assert (knit.kind, knit.cast_on, knit.rows, given) == ("round", 60, 90, True)
    assert aspect == pytest.approx(22 / 30)
    caption = knitted_piece(found, size_px=(600, 600)).caption
    assert "in the round: 60 stitches cast on, 90 rounds" in caption
    assert "guess" not in caption


def test_stitches_take_as_much_yarn_as_the_fabric_s_own_numbers_say():
    """One knitted row of the picture is the row of `fabric.piece`, as plied."""
    fabric = {"stitches": 60, "rows": 90, "gauge_stitches": 22.0, "finishing_shrinkage": 0.1}
    found = answered(fabric=fabric)
    knit, _, _ = knit_of(found)
    kept = found.resolved.yarn.finishing_ratio
    assert knit.stitch_m == pytest.approx(piece(found.layout).loop_cm / 100 / kept)


def test_a_guessed_gauge_is_said_to_be_a_guess():
    found = answered()
    assert "The gauge is a guess" in knitted_piece(found, size_px=(300, 300)).caption
    given = knitted_piece(found, gauge=(20.0, 28.0), size_px=(300, 300)).caption
    assert "guess" not in given


# --- indices as a browser will use them -----------------------------------------------------------


@pytest.mark.parametrize("name", extremes())
def test_every_index_points_at_a_place_that_there_is(name):
    found = extremes()[name]()
    plies, yarn_m = found.resolved.yarn.plies, found.layout.stretches.yarn_m
    size = PictureScale(300, 240, 4.0)
    scenes = []
    for kind in KINDS:
        knit, aspect, _ = knit_of(found, kind, 12, 14)
        scenes.append(knitted(knit, plies, size, (yarn_m / 3, yarn_m), aspect))
    for scene in scenes:
        assert scene.shape == (240, 300)
        assert scene.index.min() >= 0
        assert scene.index.max() < (len(scene.metre) + len(FIXED_SRGB)) * LEVELS
        assert len(scene.ply) == len(scene.metre)
        assert set(scene.ply.tolist()) <= set(range(plies))


def test_a_piece_larger_than_its_picture_is_cut_and_nothing_else():
    """Stitches are never smaller than three pixels."""
    knit = piece_of("flat", 200, 300)
    scene = knitted(knit, 3, PictureScale(100, 80, 4.0), (0.0, FAR_M), ASPECT)
    assert scene.shape == (80, 100)
    assert (place_at(scene) >= 0).all()


@pytest.mark.parametrize("kind", ["flat", "round", "triangle"])
def test_of_stitches_too_small_for_their_plies_only_places_that_show_are_kept(kind):
    """Twelve plies of more stitches than pixels: the same picture, no more places than these."""
    knit = KnitFabric(kind, 300, 300, 1.0, 0.01, 0.4)
    size = PictureScale(200, 150, 1.0)
    scene = knitted(knit, 12, size, (0.0, 1e6), 0.7)
    assert len(scene.metre) <= scene.index.size + len(scene.edges.at)
    own, other = place_at(scene), second_at(scene)
    shown = np.concatenate([each[each >= 0] for each in (own.ravel(), other)])
    assert np.array_equal(np.unique(shown), np.arange(len(scene.metre)))
    few = knitted(knit, 1, size, (0.0, 1e6), 0.7)
    whole = place_at(few)
    seen = (own >= 0) & (whole >= 0)
    assert np.array_equal(own >= 0, whole >= 0)
    assert np.array_equal(scene.metre[own[seen]], few.metre[whole[seen]])
    assert set(scene.ply) <= set(range(12))
