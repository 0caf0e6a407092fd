"""Scenes and their colours: every pixel against a plain loop, every join against a brute force."""

from dataclasses import replace

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from tests.helpers.strip_pictures import any_colours, rgb, stash
from yarncolor.layout.stretches import WHOLE_PPB, Stretches
from yarncolor.pictures.appearance import JOIN_STEPS, MOTTLES, ColourAt, colour_at
from yarncolor.pictures.painting import Paint, colour_table, painted, painted_from_afar
from yarncolor.pictures.painting import rgb as as_rgb
from yarncolor.pictures.relief import BRIGHT, MIDDLE, heights, let_through
from yarncolor.pictures.scene import (
    CARD,
    FIXED_SRGB,
    FUZZ,
    LEVELS,
    PAPER,
    SHADES,
    WARP,
    Scene,
    fixed,
    fuzz_level,
    levels_of,
    yarn_index,
)

PLAIN = Paint(mottle=0.0, staple_m=0.0)
THREE = {"Kelp": 30.0, "Foam": 30.0, "Wrack": 30.0}
STAPLE_M = 0.1


def answered(lots: int = 8, **tables: dict):
    names = [f"Lot {at}" for at in range(lots)]
    data = {"lots": stash(names, any_colours(lots, lots)), **tables}
    return yc.answer(yc.plan_from_data(data))


def full_light() -> int:
    """Return the shade at which light leaves a colour as it is."""
    return int(np.abs(heights()[:SHADES] - MIDDLE).argmin())


def lit_by_hand(srgb, height: float) -> np.ndarray:
    """Return a colour of fibre in the light of a height, reckoned anew from how it is told."""
    peak = max(srgb)
    bright = 1.12 if peak * 1.12 <= 255 else 255 / peak
    dark = 0.46 + (1.12 - bright)
    lit = [channel * (dark + (bright - dark) * height) for channel in srgb]
    lack = max(24.0 - peak * (bright - dark), 0.0)
    lifted = lack * height - min(lack * MIDDLE, peak * dark)
    return np.clip(np.array(lit) + lifted, 0, 255)


def in_full_light(srgb) -> np.ndarray:
    """Return colours as that shade shows them."""
    return np.array([lit_by_hand(each, MIDDLE) for each in srgb])


def any_scene(found, seed: int = 3, places: int = 40, shape: tuple[int, int] = (23, 31)) -> Scene:
    """Return a scene of random places at random levels, some of them no yarn."""
    draw = np.random.default_rng(seed)
    plies = found.layout.stretches.lot.shape[1]
    index = yarn_index(draw.integers(0, places, shape), draw.integers(0, LEVELS, shape))
    index[:2] = fixed(PAPER), *[fixed(CARD)] * 15, *[fixed(WARP, 4)] * 15
    metre = draw.uniform(0, found.layout.stretches.yarn_m, places)
    metre[::7] = np.nan
    return Scene(index, draw.integers(0, plies, places), metre, 0.1)


def lot_by_the_table(found, ply: int, metre: float) -> int:
    """Return the lot of a ply at a metre, by walking along the stretches."""
    along = found.layout.stretches
    for start, end, lots in zip(along.edges_m[:-1], along.edges_m[1:], along.lot, strict=True):
        if start <= metre < end:
            return int(lots[ply])
    return int(along.lot[-1, ply])


def colour_by_hand(found, scene: Scene, index: int) -> np.ndarray:
    """Return the sRGB of one pixel without mottle and joins, reckoned anew."""
    place, level = divmod(int(index), LEVELS)
    height, through = heights()[level], let_through()[level]
    if place < len(FIXED_SRGB):
        lit = FIXED_SRGB[place] * (0.46 + 0.54 * height)
    else:
        at = place - len(FIXED_SRGB)
        if np.isnan(scene.metre[at]):
            return FIXED_SRGB[PAPER] * 1.0
        lot = lot_by_the_table(found, scene.ply[at], scene.metre[at])
        lit = lit_by_hand(rgb(found.palette.srgb[lot]), height)
    return lit * (1 - through) + FIXED_SRGB[PAPER] * through


@pytest.mark.parametrize(("lots", "plies"), [(1, 1), (3, 2), (8, 3), (20, 6)])
def test_every_pixel_is_what_a_plain_loop_reckons(lots, plies):
    found = answered(lots, scheme={"name": "staggered", "plies": plies})
    scene = any_scene(found)
    shown = as_rgb(painted(scene, found, PLAIN)).astype(float)
    for at in np.ndindex(scene.shape):
        expected = colour_by_hand(found, scene, scene.index[at])
        assert np.abs(shown[at] - expected).max() <= 1.01, at


def test_pixels_are_red_green_blue_and_opaque_by_bytes():
    found = answered(3)
    scene = any_scene(found)
    packed = painted(scene, found)
    assert (packed.dtype, packed.shape) == (np.uint32, scene.shape)
    by_bytes = packed.view(np.uint8).reshape(*scene.shape, 4)
    assert (by_bytes[..., 3] == 255).all()
    np.testing.assert_array_equal(by_bytes[..., :3], as_rgb(packed))


def test_the_picture_is_one_gather_through_its_table():
    found = answered(5, scheme={"name": "staggered", "plies": 3})
    scene = any_scene(found)
    table = colour_table(scene, found, Paint())
    assert table.shape == ((len(scene.metre) + len(FIXED_SRGB)) * LEVELS,)
    np.testing.assert_array_equal(painted(scene, found), table[scene.index])


def at_metres(found, ply, metre) -> Scene:
    """Return one row of pixels in full light, one for each place."""
    places = len(metre)
    index = yarn_index(np.arange(places), np.full(places, full_light()))[None, :]
    return Scene(index, np.asarray(ply), np.asarray(metre, dtype=float), 0.1)


@pytest.mark.parametrize("name", ["matched", "staggered", "fractal", "flipped", "mirrored"])
def test_full_light_shows_the_lot_that_is_there(name):
    found = answered(8, scheme={"name": name, "plies": 3})
    along = found.layout.stretches
    middles = (along.edges_m[:-1] + along.edges_m[1:]) / 2
    for k in range(3):
        shown = as_rgb(painted(at_metres(found, [k] * len(middles), middles), found, PLAIN))[0]
        lots = [rgb(found.palette.srgb[lot]) for lot in along.lot[:, k]]
        dull = np.array(lots).max(axis=1) <= 255 / BRIGHT  # a lighter one cannot be brighter
        assert np.abs(shown.astype(int) - lots)[dull].max(initial=0) <= 1
        assert np.abs(shown - in_full_light(lots)).max() <= 1.01


@pytest.mark.parametrize("colour", ["#ffffff", "#fefdfb", "#000000", "#020301"])
def test_near_white_and_near_black_stay_inside(colour):
    found = yc.answer(
        yc.plan_from_data({"lots": [{"name": "Foam", "colour": colour, "mass_g": 20.0}]})
    )
    place = np.repeat(np.arange(9), LEVELS)
    scene = Scene(
        yarn_index(place, np.tile(np.arange(LEVELS), 9))[None, :],
        np.zeros(9, int),
        np.linspace(0, 60, 9),
        0.1,
    )
    shown = as_rgb(painted(scene, found, Paint(mottle=0.5))).reshape(9, LEVELS, 3).astype(int)
    assert (np.diff(shown[:, :SHADES], axis=1) >= 0).all(), "a lighter shade is never darker"


def test_the_levels_run_from_dark_to_light_and_then_to_paper():
    high, through = heights(), let_through()
    assert high.shape == through.shape == (LEVELS,)
    assert (np.diff(high[:SHADES]) > 0).all()
    assert (high[0], high[SHADES - 1]) == (0, 1)
    assert (through[:SHADES] == 0).all()
    assert (np.diff(through[SHADES:]) > 0).all()
    assert 0 < through[SHADES] < through[-1] < 1


def test_shades_and_hairs_outside_their_range_are_the_nearest_level():
    assert levels_of(np.array([-1.0, 0.0, 0.5, 1.0, 9.0])).tolist() == [0, 0, 6, 11, 11]
    assert fuzz_level(np.array([-1.0, 0.0, 1.0, 9.0])).tolist() == [
        SHADES,
        SHADES,
        SHADES + FUZZ - 1,
        SHADES + FUZZ - 1,
    ]


def test_metres_that_are_not_a_number_are_paper_at_every_level():
    found = answered(3, scheme={"name": "staggered", "plies": 3})
    level = np.arange(LEVELS)
    scene = Scene(yarn_index(level * 0, level)[None, :], np.zeros(1, int), np.array([np.nan]), 0.1)
    assert (as_rgb(painted(scene, found)) == 255).all()


def test_the_card_and_the_warp_have_their_own_colours():
    found = answered(3)
    index = np.array([[fixed(PAPER), fixed(CARD), fixed(WARP)]])
    shown = as_rgb(painted(Scene(index, np.zeros(0, int), np.zeros(0), 0.1), found))[0].astype(int)
    np.testing.assert_array_equal(shown, FIXED_SRGB)
    paper = painted(Scene(np.array([[fixed(PAPER)]]), np.zeros(0, int), np.zeros(0), 0.1), found)
    assert (as_rgb(paper) == 255).all()


@pytest.mark.parametrize("lots", [21, 100, 170, 171, 500])
def test_any_number_of_lots_is_painted(lots):
    """A table of the entries in use holds up to 170 lots; above, the entries are sorted."""
    found = answered(lots, scheme={"name": "staggered", "plies": 3})
    scene = any_scene(found, places=300)
    shown = as_rgb(painted(scene, found, PLAIN)).astype(float)
    for at in list(np.ndindex(scene.shape))[::5]:
        assert np.abs(shown[at] - colour_by_hand(found, scene, scene.index[at])).max() <= 1.01


def test_both_ways_to_the_entries_in_use_agree(monkeypatch):
    found = answered(30, scheme={"name": "staggered", "plies": 3})
    scene = any_scene(found, places=400)
    by_table = painted(scene, found)
    monkeypatch.setattr("yarncolor.pictures.painting._SPARSE", 0)
    np.testing.assert_array_equal(painted(scene, found), by_table)


# --- what each ply shows along the yarn -----------------------------------------------------------


def along_of(edges_m: list[float], lots: list[list[int]]) -> Stretches:
    ticks = np.rint(np.array(edges_m) / edges_m[-1] * WHOLE_PPB).astype(np.int64)
    return Stretches(ticks, np.array(lots).T, float(edges_m[-1]))


def share_by_brute_force(edges, lots, metre: float, staple_m: float) -> dict[int, float]:
    """Return the share of each lot at a metre: half-and-half on a change, pure half a staple off.

    The nearest change alone counts; its colours run into each other over a staple.
    """
    metre = min(max(metre, 0.0), edges[-1])
    changes = [
        (edge, one, other)
        for edge, one, other in zip(edges[1:-1], lots[:-1], lots[1:], strict=True)
        if one != other
    ]
    own = lots[-1]
    for edge, one, _ in reversed(changes):
        if metre < edge:
            own = one
    if not changes or not staple_m:
        return {own: 1.0}
    edge, one, other = min(changes, key=lambda change: abs(change[0] - metre))
    away = abs(metre - edge)
    if away >= staple_m / 2:
        return {own: 1.0}
    far = other if metre < edge else one
    share = 0.5 - away / staple_m
    return {own: 1.0 - share, far: share} if far != own else {own: 1.0}


def share_as_shown(shown: ColourAt, at: int) -> dict[int, float]:
    share = shown.mix[at] / JOIN_STEPS
    one, other = int(shown.one[at]), int(shown.other[at])
    if one == other or share == 0:
        return {one: 1.0}
    return {one: 1.0 - share, other: share}


YARNS = {
    "far apart": ([0, 1.0, 2.0, 3.0], [[0, 1, 2], [0, 0, 1]]),
    "two joins close together": ([0, 1.0, 1.04, 3.0], [[0, 1, 2], [2, 2, 2]]),
    "closer than a staple's sixteenth": ([0, 1.0, 1.004, 3.0], [[0, 1, 0], [2, 0, 1]]),
    "near both ends": ([0, 0.02, 2.99, 3.0], [[0, 1, 2], [1, 1, 0]]),
    "no change": ([0, 3.0], [[1], [0]]),
    "many": ([0, *np.arange(0.3, 3.0, 0.07).tolist(), 3.0], [[0, 1, 2] * 14, [0, 0, 1] * 14]),
}


def trimmed(edges, lots) -> tuple[list, list]:
    """Return a table whose lots fit its edges."""
    return edges, [row[: len(edges) - 1] for row in lots]


@pytest.mark.parametrize(("edges", "lots"), YARNS.values(), ids=YARNS)
@pytest.mark.parametrize("staple_m", [0.0, 0.05, STAPLE_M, 0.4])
def test_joins_are_those_of_a_plain_loop(edges, lots, staple_m):
    edges, lots = trimmed(edges, lots)
    along = along_of(edges, lots)
    asked = np.random.default_rng(5).uniform(-0.2, edges[-1] + 0.2, 400)
    for k in range(2):
        shown = colour_at(along, np.full(400, k), asked, staple_m=staple_m, seed=1)
        for at, metre in enumerate(asked):
            seen = share_as_shown(shown, at)
            expected = share_by_brute_force(edges, lots[k], metre, staple_m)
            for lot in seen | expected:
                away = abs(seen.get(lot, 0) - expected.get(lot, 0))
                assert away <= 0.5 / JOIN_STEPS + 1e-9, (k, metre, seen, expected)


def test_half_and_half_in_the_middle_of_a_join_and_pure_half_a_staple_away():
    along = along_of([0, 1.0, 3.0], [[0, 1]])
    asked = np.array([1.0 - STAPLE_M / 2, 1 - 1e-9, 1.0, 1.0 + STAPLE_M / 2])
    shown = colour_at(along, np.zeros(4, int), asked, staple_m=STAPLE_M, seed=1)
    shares = [share_as_shown(shown, at) for at in range(4)]
    assert shares == [{0: 1.0}, {0: 0.5, 1: 0.5}, {1: 0.5, 0: 0.5}, {1: 1.0}]


def test_a_ply_is_not_joined_where_only_another_changes():
    along = along_of([0, 1.0, 3.0], [[0, 1], [2, 2]])
    shown = colour_at(along, np.ones(3, int), np.array([0.99, 1.0, 1.01]), staple_m=0.1, seed=1)
    assert shown.one.tolist() == [2, 2, 2]
    assert (shown.mix == 0).all() or (shown.other == shown.one).all()


def test_beyond_the_ends_the_yarn_s_ends_go_on():
    along = along_of([0, 1.0, 3.0], [[0, 1]])
    asked = np.array([-5.0, 0.0, 3.0, 99.0])
    shown = colour_at(along, np.zeros(4, int), asked, staple_m=STAPLE_M, seed=1)
    assert shown.one.tolist() == [0, 0, 1, 1]


def test_joins_are_mixed_in_linear_light():
    data = {"lots": [{"name": n, "colour": c, "mass_g": 20.0} for n, c in (("Foam", "#fff"),)]}
    data["lots"].append({"name": "Mussel", "colour": "#000", "mass_g": 20.0})
    found = yc.answer(yc.plan_from_data(data | {"scheme": {"plies": 1}}))
    (edge,) = found.layout.stretches.edges_m[1:-1]
    scene = at_metres(found, [0], [edge])
    (((level, *_),),) = as_rgb(painted(scene, found, Paint(mottle=0.0, staple_m=1.0))).tolist()
    half_the_light = 255 * (1.055 * 0.5 ** (1 / 2.4) - 0.055)
    assert level == pytest.approx(half_the_light, abs=1)


def test_mottle_is_the_same_from_the_same_seed_and_another_from_another():
    found = answered(3, scheme={"plies": 3})
    scene = any_scene(found, places=300)
    one, same, other = (painted(scene, found, Paint(seed=seed)) for seed in (4, 4, 5))
    np.testing.assert_array_equal(one, same)
    assert (one != other).mean() > 0.2


def test_mottle_does_not_touch_the_hidden_random_numbers_of_numpy():
    found = answered(3, scheme={"plies": 3})
    scene = any_scene(found)
    before = np.random.get_state()[1].copy()  # noqa: NPY002
    painted(scene, found)
    np.testing.assert_array_equal(np.random.get_state()[1], before)  # noqa: NPY002


def test_without_mottle_the_seed_does_not_matter():
    found = answered(3, scheme={"plies": 3})
    scene = any_scene(found)
    one, other = (painted(scene, found, Paint(mottle=0.0, seed=seed)) for seed in (4, 5))
    np.testing.assert_array_equal(one, other)


def test_mottle_is_even_on_the_whole_and_stays_within_its_steps():
    along = along_of([0, 1000.0], [[0], [0]])
    metres = np.linspace(0, 1000, 40_000)
    for seed in range(4):
        shown = colour_at(along, np.zeros(40_000, int), metres, staple_m=0, seed=seed)
        assert (shown.mottle >= 0).all()
        assert (shown.mottle < MOTTLES).all()
        assert shown.mottle.mean() == pytest.approx((MOTTLES - 1) / 2, abs=0.15)
        assert shown.mottle.std() > 0.8


def test_mottle_runs_along_a_ply_in_patches_and_not_across_the_plies():
    along = along_of([0, 100.0], [[0], [0]])
    metres = np.arange(0, 100, 0.01)
    plies = [colour_at(along, np.full(len(metres), k), metres, seed=1).mottle for k in (0, 1)]
    assert np.abs(np.diff(plies[0])).max() <= 1
    assert abs(np.corrcoef(*plies)[0, 1]) < 0.2


# --- other eyes, other distances ------------------------------------------------------------------


def test_another_eye_changes_colours_and_nothing_else():
    found = answered(6, scheme={"name": "staggered", "plies": 3})
    scene = any_scene(found)
    plain = painted(scene, found, PLAIN)
    for view in ("lightness", "protanomaly", "deuteranomaly", "tritanomaly"):
        seen = painted(scene, yc.seen_as(found, view), PLAIN)
        assert (seen != plain).mean() > 0.3
        np.testing.assert_array_equal(seen[0, :3], plain[0, :3])
    np.testing.assert_array_equal(painted(scene, yc.seen_as(found, "as it is"), PLAIN), plain)


def test_by_lightness_the_yarn_is_grey_and_lighter_lots_are_lighter():
    found = answered(6, scheme={"name": "staggered", "plies": 3})
    middle = at_metres(found, [0, 1, 2], [found.layout.stretches.yarn_m / 2] * 3)
    shown = as_rgb(painted(middle, yc.seen_as(found, "lightness"), PLAIN))[0].astype(int)
    assert np.ptp(shown, axis=1).max() <= 2
    lots = [lot_by_the_table(found, k, middle.metre[0]) for k in range(3)]
    assert np.argsort(shown[:, 0]).tolist() == np.argsort(found.palette.lab[lots, 0]).tolist()


def linear(srgb: np.ndarray) -> np.ndarray:
    share = srgb / 255
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def test_from_afar_stripes_become_their_mean_in_linear_light():
    found = answered(4, scheme={"name": "staggered", "plies": 2})
    columns = np.arange(256) % 2
    index = np.tile(yarn_index(columns, np.full(256, full_light())), (64, 1))
    scene = Scene(index, np.array([0, 1]), np.array([10.0, 10.0]), 0.5)
    near = as_rgb(painted(scene, found, PLAIN))
    far = painted_from_afar(scene, found, 200.0, PLAIN)
    assert far.dtype == np.uint8
    assert np.ptp(far.reshape(-1, 3), axis=0).max() <= 2
    mean = linear(near.reshape(-1, 3)).mean(axis=0)
    assert linear(far.reshape(-1, 3)).mean(axis=0) == pytest.approx(mean, abs=0.01)


def test_the_nearer_the_sharper():
    found = answered(4, scheme={"name": "staggered", "plies": 2})
    index = yarn_index(np.arange(128)[None, :] // 8 % 2, np.full((64, 128), full_light()))
    scene = Scene(index, np.array([0, 1]), np.array([10.0, 10.0]), 0.5)
    spread = [
        painted_from_afar(scene, found, distance_m, PLAIN).astype(float).std(axis=1).mean()
        for distance_m in (0.3, 3.0, 12.0, 100.0)
    ]
    assert spread == sorted(spread, reverse=True)
    near = as_rgb(painted(scene, found, PLAIN)).astype(int)
    assert np.abs(painted_from_afar(scene, found, 0.05, PLAIN) - near).mean() < 3


def test_an_order_changed_is_the_same_index_with_other_colours():
    data = by_hand(THREE, scheme={"name": "matched", "plies": 2})
    found = yc.answer(yc.plan_from_data(data))
    turned = replace(found.plan.scheme, sequence=("Wrack", "Foam", "Kelp"))
    other = yc.answer(replace(found.plan, scheme=turned))
    scene = at_metres(found, [0, 0, 1], [1.0, 200.0, 449.0])
    one, two = (as_rgb(painted(scene, each, PLAIN))[0] for each in (found, other))
    assert (one[[2, 1, 0]] == two).all()
