"""The yarn at true scale, folded and on a card, asked what stands where."""

from itertools import pairwise

import numpy as np
import pytest

from tests.helpers.pictures_asked import (
    AS_TABLE,
    PLAIN,
    TWISTED,
    answered,
    channel,
    extremes,
    leaning,
    lots_seen,
    metre_at,
    place_at,
    ply_at,
    surface_shares,
    three_pure,
)
from yarncolor.colour.srgb import linear
from yarncolor.pictures.painting import painted
from yarncolor.pictures.painting import rgb as as_rgb
from yarncolor.pictures.scene import CARD, FIXED_SRGB, LEVELS, SHADES
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.pictures.yarn_pictures import whole_yarn, wraps, yarn_at
from yarncolor.pictures.yarn_scenes import PictureScale, folded, true_scale, wrap_card

SIZE = PictureScale(1200, 161, 40.0)
CELL_PX = 6
"""A strand is cut into cells of so many pixels, each of one colour."""
STAGGERED = {"name": "staggered", "plies": 3}


def scene_of(found, from_m: float = 0.0, size: PictureScale = SIZE):
    yarn = found.resolved.yarn
    return true_scale(yarn_geometry_of(yarn), yarn.relaxed_diameter_mm, size, from_m)


# --- true scale -----------------------------------------------------------------------------------


@pytest.mark.parametrize("plies", [2, 3, 4, 6])
@pytest.mark.parametrize("from_m", [0.0, 37.123])
def test_the_pitch_by_autocorrelation_is_the_model_s(plies, from_m):
    found = answered(scheme={"name": "staggered", "plies": plies})
    row = (ply_at(scene_of(found, from_m, PictureScale(3000, 161, 40.0)))[80] == 0).astype(float)
    row -= row.mean()
    far = np.correlate(row, row, "full")[len(row) :]
    pitch_px = found.resolved.yarn.pitch_mm * 40.0
    lowest = int(pitch_px / 2)
    measured = lowest + int(far[lowest : 3 * lowest].argmax()) + 1
    assert measured == pytest.approx(pitch_px, abs=2)


def in_front(found, metre: np.ndarray) -> np.ndarray:
    """Return the ply whose helix stands in front at metres: its turn is nearest to a whole one."""
    yarn = found.resolved.yarn
    turns = metre * yarn.ply_twist_tpm * (1 if yarn.ply_direction == "S" else -1)
    each = turns[:, None] + np.arange(yarn.plies) / yarn.plies
    return np.abs(each - np.rint(each)).argmin(axis=1)


def in_front_on_the_picture(found, from_m: float, size: PictureScale = SIZE) -> float:
    """Return the share of columns whose middle shows the ply that stands in front there."""
    shown = ply_at(scene_of(found, from_m, size))[size.height_px // 2]
    metre = from_m + (np.arange(size.width_px) + 0.5) / size.px_per_mm / 1000
    return float((shown == in_front(found, metre)).mean())


@pytest.mark.parametrize("direction", ["S", "Z"])
@pytest.mark.parametrize("from_m", [0.0, 0.0123, 1.5, 9.87])
def test_the_ply_in_front_is_the_one_that_the_twist_has_brought_there(direction, from_m):
    single = {**TWISTED["spinning"], "direction": "Z" if direction == "S" else "S"}
    found = answered(scheme=STAGGERED, spinning=single)
    assert found.resolved.yarn.ply_direction == direction
    assert in_front_on_the_picture(found, from_m) > 0.95


def test_the_ply_in_front_is_right_far_along_the_yarn():
    """A pitch of 222.2 pixels rounded to 222 strays by a whole turn in 1,000."""
    found = answered(scheme=STAGGERED)
    assert in_front_on_the_picture(found, 500 * found.resolved.yarn.pitch_mm / 1000) > 0.95


def test_a_yarn_of_few_turns_is_in_phase_too():
    """A pitch longer than what is kept ready: 8,333 pixels."""
    thick = {"single_tex": 50_000.0, "twist_tpm": 12.0}
    found = answered(scheme=STAGGERED, spinning=thick, plying={"twist_tpm": 6.0})
    for from_m in (0.0, 0.13, 0.3):
        assert in_front_on_the_picture(found, from_m, PictureScale(1200, 161, 50.0)) > 0.9


def core_at(scene) -> np.ndarray:
    """Return the ply at each pixel of the strands themselves, -1 for hair and paper."""
    return np.where(scene.index % LEVELS < SHADES, ply_at(scene), -1)


def alike(one: np.ndarray, other: np.ndarray, most_px: int = 1) -> float:
    """Return the largest share of equal pixels when one is pushed by so many columns at most."""
    return max(
        float((np.roll(one, push, axis=1) == other)[:, 8:-8].mean())
        for push in range(-most_px, most_px + 1)
    )


@pytest.mark.parametrize("from_m", [0.0, 3.21, 50.0])
@pytest.mark.parametrize("pitches", [1, 7])
def test_one_pitch_on_is_the_same_picture_but_for_its_colours(from_m, pitches):
    found = answered(scheme=STAGGERED)
    there = from_m + pitches * found.resolved.yarn.pitch_mm / 1000
    one, other = (core_at(scene_of(found, metre)) for metre in (from_m, there))
    assert (one >= 0).mean() > 0.15
    assert alike(one, other) > 0.97


@pytest.mark.parametrize("by_px", [1, 5, 6, 40, 221, 350])
def test_moving_along_by_so_many_pixels_shifts_the_picture_by_so_many(by_px):
    found = answered(scheme=STAGGERED)
    from_m = 60.0
    one = scene_of(found, from_m)
    other = scene_of(found, from_m + by_px / SIZE.px_per_mm / 1000)
    moved = np.roll(core_at(one), -by_px, axis=1)[:, : -by_px - 2]
    assert alike(moved, core_at(other)[:, : -by_px - 2]) > 0.97
    away = (
        np.roll(metre_at(one), -by_px, axis=1)[:, : -by_px - 2] - metre_at(other)[:, : -by_px - 2]
    )
    assert np.nanmax(np.abs(away)) <= (CELL_PX + 1) / SIZE.px_per_mm / 1000


@pytest.mark.parametrize("from_m", [0.0, 11.1, 200.0])
def test_the_metre_at_each_column_is_the_metre_there(from_m):
    found = answered(scheme=STAGGERED)
    scene = scene_of(found, from_m)
    column_m = from_m + (np.arange(SIZE.width_px) + 0.5) / SIZE.px_per_mm / 1000
    away = metre_at(scene) - column_m
    assert np.nanmax(np.abs(away)) <= (CELL_PX / 2 + 1) / SIZE.px_per_mm / 1000


def test_colours_at_the_columns_are_those_of_the_table_there():
    found = answered(three_pure(), scheme={"name": "staggered", "plies": 3})
    along = found.layout.stretches
    for edge in along.edges_m[1:-1]:
        scene = scene_of(found, edge - 0.015)
        shown = channel(as_rgb(painted(scene, found, PLAIN)))
        column_m = edge - 0.015 + (np.arange(SIZE.width_px) + 0.5) / SIZE.px_per_mm / 1000
        stretch = (np.searchsorted(along.edges_m, column_m, side="right") - 1).clip(
            0, len(along.lot) - 1
        )
        ply = ply_at(scene)
        lot = along.lot[np.broadcast_to(stretch, ply.shape), ply]
        clear = np.abs(column_m - edge) > (CELL_PX + 1) / SIZE.px_per_mm / 1000
        core = (ply >= 0) & (shown >= 0) & clear
        assert core.sum() > 20_000
        assert (shown == lot)[core].all()


def test_the_yarn_is_as_thick_as_its_plies_with_hair_out_to_where_it_lies():
    found = answered(scheme=STAGGERED)
    yarn = found.resolved.yarn
    scene = scene_of(found, 1.0, PictureScale(2000, 401, 80.0))
    is_yarn = place_at(scene) >= 0
    level = scene.index % LEVELS
    core = (is_yarn & (level < SHADES)).any(axis=1).sum() / 80.0
    hairs = is_yarn.any(axis=1).sum() / 80.0
    assert core == pytest.approx(yarn_geometry_of(yarn).envelope_mm, rel=0.03)
    assert core < hairs <= yarn.relaxed_diameter_mm * 1.03


def test_a_swollen_yarn_has_no_hair_far_outside_where_it_lies():
    found = answered(scheme=STAGGERED, spinning={}, plying={})
    scene = scene_of(found, 1.0)
    rows = (place_at(scene) >= 0).any(axis=1).sum() / SIZE.px_per_mm
    assert rows <= yarn_geometry_of(found.resolved.yarn).envelope_mm + 4.5 / SIZE.px_per_mm


@pytest.mark.parametrize("direction", ["Z", "S"])
def test_the_plies_lean_as_the_letter_of_their_twist(direction):
    single = {**TWISTED["spinning"], "direction": "Z" if direction == "S" else "S"}
    found = answered(scheme=STAGGERED, spinning=single)
    assert leaning((ply_at(scene_of(found)) == 1).astype(float)) == direction


def test_twist_the_other_way_is_the_mirror_picture():
    """Seen from below, plies that run S run Z, and follow one another the other way round."""
    one = answered(scheme=STAGGERED)
    other = answered(scheme=STAGGERED, spinning={**TWISTED["spinning"], "direction": "S"})
    s, z = (core_at(scene_of(found)) for found in (one, other))
    upside_down = z[::-1]
    turned = np.where(upside_down > 0, 3 - upside_down, upside_down)
    assert (s == turned).mean() > 0.98
    assert (s == turned)[s >= 0].mean() > 0.95


def test_without_twist_the_plies_lie_side_by_side():
    found = answered(scheme=STAGGERED, spinning={}, plying={})
    lines = core_at(scene_of(found))
    assert (lines == lines[:, :1]).all()
    assert set(np.unique(lines)) == {-1, 0, 1, 2}


def test_beyond_the_end_there_is_no_yarn():
    found = answered(three_pure(), scheme=STAGGERED)
    yarn_m = found.layout.stretches.yarn_m
    drawn = yarn_at(found, yarn_m - 0.012, 24.0, (1200, 161), AS_TABLE)
    left, right = drawn.pixels[:, :560], drawn.pixels[:, 640:]
    assert (left != 255).any()
    assert (right == 255).all()


# --- the whole yarn, folded -----------------------------------------------------------------------


@pytest.mark.parametrize("rows", [1, 7, 24])
def test_rows_run_from_left_to_right_one_below_the_other(rows):
    found = answered(scheme=STAGGERED)
    yarn_m = found.layout.stretches.yarn_m
    scene = folded(
        yarn_m, yarn_geometry_of(found.resolved.yarn), rows, PictureScale(600, 240, 20.0)
    )
    metre = metre_at(scene)
    row = np.minimum(np.arange(240) * rows // 240, rows - 1)[:, None]
    expected = (row + (np.arange(600) + 0.5) / 600) * yarn_m / rows
    assert np.nanmax(np.abs(metre - expected)) <= yarn_m / rows * CELL_PX / 600
    filled = ~np.isnan(metre)
    assert filled.mean() > 0.85
    for line in range(240):
        along_row = metre[line][filled[line]]
        assert (np.diff(along_row) >= 0).all()


@pytest.mark.parametrize("plies", [1, 2, 3, 4])
@pytest.mark.parametrize("scheme", ["matched", "staggered", "fractal", "flipped"])
def test_the_area_of_each_colour_is_its_share_of_the_length_within_a_hundredth(plies, scheme):
    division = {"divisions": [1, 2, 4, 8][:plies]} if scheme == "fractal" else {"plies": plies}
    found = answered(three_pure(), scheme={"name": scheme, **division})
    drawn = whole_yarn(found, 24, (1200, 640), AS_TABLE)
    yarn = drawn.pixels[drawn.pixels.min(axis=2) < 200]
    light = linear(yarn / 255).sum(axis=0)  # each lot has a channel of its own
    assert light / light.sum() == pytest.approx(surface_shares(found), abs=0.01)


def test_a_mirrored_plan_is_the_same_from_both_ends():
    found = answered(three_pure(), scheme={"name": "mirrored", "plies": 3})
    shown = channel(whole_yarn(found, 8, (1200, 320), AS_TABLE).pixels)
    turned = shown[::-1, ::-1]
    both = (shown >= 0) & (turned >= 0)
    assert both.mean() > 0.9
    assert (shown == turned)[both].mean() > 0.99
    assert {0, 1, 2} <= set(np.unique(shown).tolist())


def test_a_plan_that_is_not_mirrored_is_not_the_same_from_both_ends():
    found = answered(three_pure(), scheme={"name": "matched", "plies": 3})
    shown = channel(whole_yarn(found, 8, (1200, 320), AS_TABLE).pixels)
    assert (shown == shown[::-1, ::-1]).mean() < 0.7


@pytest.mark.parametrize("direction", ["Z", "S"])
def test_stripes_of_the_folded_yarn_lean_as_its_twist(direction):
    single = {**TWISTED["spinning"], "direction": "Z" if direction == "S" else "S"}
    found = answered(scheme=STAGGERED, spinning=single)
    yarn_m = found.layout.stretches.yarn_m
    scene = folded(yarn_m, yarn_geometry_of(found.resolved.yarn), 1, PictureScale(600, 60, 20.0))
    assert leaning((ply_at(scene) == 1).astype(float)) == direction


def test_the_folded_yarn_begins_and_ends_with_the_lots_of_its_ends():
    found = answered(three_pure(), scheme={"name": "matched", "plies": 2})
    shown = channel(whole_yarn(found, 10, (900, 300), AS_TABLE).pixels)
    along = found.layout.stretches
    assert shown[5, 2] == along.lot[0, 0]
    assert shown[-15, -3] == along.lot[-1, 0]


# --- wraps ----------------------------------------------------------------------------------------


def card_of(found, from_m: float, sampled: bool, size: PictureScale = PictureScale(500, 500, 10.0)):  # noqa: B008
    yarn = found.resolved.yarn
    reach_m = (from_m, found.layout.stretches.yarn_m)
    wpi = 25.4 / yarn.relaxed_diameter_mm
    return wrap_card(yarn_geometry_of(yarn), wpi, size, reach_m, sampled=sampled)


def wrap_rows(found, wraps: int, px_per_mm: float) -> list[int]:
    """Return a row through the middle of each wrap."""
    thick = found.resolved.yarn.relaxed_diameter_mm * px_per_mm
    return [round((wrap + 0.5) * thick) for wrap in range(wraps)]


@pytest.mark.parametrize("tex", [20.0, 110.0, 600.0])
def test_so_many_wraps_lie_on_the_card_as_there_are_to_the_inch(tex):
    found = answered(scheme=STAGGERED, spinning={"single_tex": tex}, plying={"twist_tpm": 60.0})
    card = card_of(found, 0.0, True, PictureScale(500, 762, 10.0))
    wpi = 25.4 / found.resolved.yarn.relaxed_diameter_mm
    assert card.wraps == int(3 * wpi)
    is_card = card.scene.index // LEVELS == CARD
    last = np.flatnonzero(~is_card.all(axis=1))[-1]
    assert last == pytest.approx(card.wraps / wpi * 254, abs=2)
    assert is_card[last + 1 :].all()


@pytest.mark.parametrize("from_m", [0.0, 33.3])
def test_a_wound_wrap_takes_twice_the_card_s_width(from_m):
    found = answered(scheme=STAGGERED)
    card = card_of(found, from_m, False)
    metre = metre_at(card.scene)
    column_m = (np.arange(500) + 0.5) / 500 * 0.05
    for wrap, row in enumerate(wrap_rows(found, card.wraps, 10.0)):
        away = metre[row] - (from_m + wrap * 0.1 + column_m)
        assert np.nanmax(np.abs(away)) <= 0.00126


def test_sampled_wraps_begin_at_evenly_spread_metres_from_end_to_end():
    found = answered(scheme=STAGGERED)
    yarn_m = found.layout.stretches.yarn_m
    card = card_of(found, 0.0, True)
    metre = metre_at(card.scene)
    starts = [np.nanmin(metre[row]) for row in wrap_rows(found, card.wraps, 10.0)]
    assert starts[0] == pytest.approx(0, abs=0.002)
    assert np.diff(starts) == pytest.approx((yarn_m - 0.05) / (card.wraps - 1), abs=1e-6)
    last = metre[wrap_rows(found, card.wraps, 10.0)[-1]]
    assert np.nanmax(last) == pytest.approx(yarn_m, abs=0.002)


def test_wraps_that_the_yarn_does_not_reach_stay_paper():
    found = answered(three_pure(), scheme=STAGGERED, target={"yarn_m": 5.0})
    drawn = wraps(found, (50.0, 50.0), 4.0, 500, AS_TABLE)
    rows = wrap_rows(found, 29, 10.0)
    shown = channel(drawn.pixels)
    assert (shown[rows[:9]] >= 0).mean() > 0.85  # what shares a pixel with the card is no lot
    assert (shown[rows[11:]] < 0).all()
    assert "1.0 m from 4.0 m on" in drawn.caption


def test_each_wrap_shows_the_lots_that_are_there():
    found = answered(three_pure(), scheme={"name": "matched", "plies": 3})
    card = card_of(found, 0.0, True)
    shown = channel(as_rgb(painted(card.scene, found, PLAIN)))
    along = found.layout.stretches
    for row in wrap_rows(found, card.wraps, 10.0):
        metre = metre_at(card.scene)[row]
        first, last = np.searchsorted(along.edges_m, [np.nanmin(metre), np.nanmax(metre)]) - 1
        if first == last:
            lots = shown[row][shown[row] >= 0]
            assert (lots == along.lot[max(first, 0), 0]).all()


@pytest.mark.parametrize("direction", ["Z", "S"])
def test_wraps_lean_as_the_twist(direction):
    single = {**TWISTED["spinning"], "direction": "Z" if direction == "S" else "S"}
    found = answered(scheme=STAGGERED, spinning=single)
    card = card_of(found, 0.0, False, PictureScale(1000, 200, 30.0))
    thick = int(found.resolved.yarn.relaxed_diameter_mm * 30.0)
    assert leaning((ply_at(card.scene)[:thick] == 1).astype(float)) == direction


@pytest.mark.parametrize("tex", [1.0, 110.0, 50_000.0])
def test_there_is_one_wrap_at_the_least_and_no_more_than_there_is_room_for(tex):
    found = answered(scheme=STAGGERED, spinning={"single_tex": tex}, plying={"twist_tpm": 5.0})
    card = card_of(found, 0.0, True, PictureScale(60, 60, 1.2))
    assert card.scene.shape == (60, 60)
    assert 1 <= card.wraps <= max(1, 50 / found.resolved.yarn.relaxed_diameter_mm)
    assert place_at(card.scene).max() < len(card.scene.metre)


# --- indices as a browser will use them -----------------------------------------------------------


@pytest.mark.parametrize("name", extremes())
def test_every_index_points_at_a_place_that_there_is(name):
    found = extremes()[name]()
    yarn, yarn_m = found.resolved.yarn, found.layout.stretches.yarn_m
    size = PictureScale(400, 300, 16.0)
    for scene in (
        scene_of(found, yarn_m / 3, size),
        folded(yarn_m, yarn_geometry_of(yarn), 10, size),
        card_of(found, 0.0, True, size).scene,
        card_of(found, yarn_m / 2, False, size).scene,
    ):
        assert scene.shape == (300, 400)
        assert scene.index.min() >= 0
        assert scene.index.max() < (len(scene.metre) + len(FIXED_SRGB)) * LEVELS
        assert len(scene.ply) == len(scene.metre)
        assert set(scene.ply.tolist()) <= set(range(yarn.plies))
        assert scene.mm_per_px == pytest.approx(1 / 16)


def test_a_change_of_order_keeps_the_index():
    data = {"scheme": {"name": "matched", "plies": 3}}
    one = answered(three_pure((20.0, 20.0, 20.0)), **data)
    turned = {"scheme": {**data["scheme"], "sequence": ["Mussel", "Rust", "Samphire"]}}
    other = answered(three_pure((20.0, 20.0, 20.0)), **turned)
    for here in (0.0, 5.0):
        np.testing.assert_array_equal(scene_of(one, here).index, scene_of(other, here).index)
    assert lots_seen(one, scene_of(one)) != lots_seen(other, scene_of(other))


def test_views_of_neighbouring_metres_never_jump():
    """Steps of a pixel and a half: never more than two pixels on."""
    found = answered(scheme=STAGGERED)
    steps = 40.0 + np.arange(60) * 1.5 / SIZE.px_per_mm / 1000
    middle = [ply_at(scene_of(found, from_m))[80] for from_m in steps]
    for one, other in pairwise(middle):
        pushed = [(np.roll(one, -push) == other)[8:-8].mean() for push in (1, 2)]
        assert max(pushed) > 0.98
