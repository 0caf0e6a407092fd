"""Plain weave, by its pixels: which pick and which end lie on top where, in which colours."""

import coloraide
import numpy as np
import pytest

from tests.helpers.drawn import STAGGERED
from tests.helpers.pictures_asked import (
    PLAIN,
    TWISTED,
    answered,
    channel,
    extremes,
    leaning,
    metre_at,
    place_at,
    ply_at,
    three_pure,
)
from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.crossings import BETWEEN, WARP_END, crossings
from yarncolor.pictures.painting import painted
from yarncolor.pictures.painting import rgb as as_rgb
from yarncolor.pictures.relief import LEAST_RELIEF
from yarncolor.pictures.scene import FIXED_SRGB, LEVELS, PAPER, WARP, WHOLE_SHARE, Scene
from yarncolor.pictures.view import ViewSettings
from yarncolor.pictures.woven_pictures import woven_cloth
from yarncolor.pictures.woven_scenes import Sett, woven
from yarncolor.pictures.yarn_scenes import PictureScale

AS_TABLE = ViewSettings(paint=PLAIN)
FROM_M, FAR_M = 2.0, 1e9
USUAL = PictureScale(400, 200, 5.0)
SETT = Sett(picks_per_mm=1.0, ends_per_mm=0.5, turns_per_mm=0.3, weft_mm=1.0)


def cloth(plies: int = 3, end_m: float = FAR_M, size: PictureScale = USUAL) -> Scene:
    """80 mm of cloth, 40 picks, 5 pixels high each, ends of 10 pixels."""
    return woven(plies, size, SETT, (FROM_M, end_m))


def row_of(pick: int) -> int:
    """Return the row of pixels in the middle of a pick."""
    return 200 - 5 * pick - 3


# --- which thread is seen -------------------------------------------------------------------------


def test_picks_go_forth_and_back_from_the_bottom():
    metre = metre_at(cloth())
    assert np.nanmin(metre) < FROM_M + 0.004
    column_m = (np.arange(400) + 0.5) / 400 * 0.08
    for pick in range(40):
        gone = column_m if pick % 2 == 0 else 0.08 - column_m
        away = metre[row_of(pick)] - (FROM_M + pick * 0.08 + gone)
        assert np.nanmax(np.abs(away)) <= 0.001 + 1e-9


@pytest.mark.parametrize("picks_per_mm", [5.0, 10.0, 20.0])
def test_picks_finer_than_a_pixel_still_reach_from_the_first_metre_to_the_last(picks_per_mm):
    """20 mm of cloth, 80 mm wide, in 100 rows of pixels."""
    fine = Sett(picks_per_mm, 0.5, 0.3, 1 / picks_per_mm)
    metre = metre_at(woven(3, PictureScale(400, 100, 5.0), fine, (FROM_M, FAR_M)))
    picks = 20 * picks_per_mm
    for row in (0, 25, 50, 99):
        expected = FROM_M + (99.5 - row) / 100 * picks * 0.08
        assert np.nanmedian(metre[row]) == pytest.approx(expected, abs=0.08 * picks / 100 + 0.08)


def test_the_warp_stands_on_every_second_crossing():
    is_warp = cloth().index // LEVELS == WARP
    for pick in range(40):
        crossings_met = is_warp[row_of(pick)].reshape(40, 10).any(axis=1)
        assert crossings_met.tolist() == [(pick + end) % 2 == 1 for end in range(40)]
    assert 0.2 < is_warp.mean() < 0.4


def test_cloth_as_close_as_its_weft_is_thick_has_no_gaps():
    assert (cloth().index // LEVELS != PAPER).all()


def test_cloth_of_few_picks_lets_light_through():
    sparse = woven(3, PictureScale(400, 200, 5.0), Sett(1.0, 0.5, 0.3, 0.4), (FROM_M, FAR_M))
    assert 0.1 < (sparse.index // LEVELS == PAPER).mean() < 0.6


def test_of_two_threads_that_cross_the_one_that_is_up_is_seen():
    surface = crossings(32, (1.0, 1.0), (0.9, 0.9))
    middle = surface.pick[16::32, 16::32]
    assert middle.tolist() == [[0, WARP_END], [WARP_END, 0]]
    assert set(np.unique(surface.pick)) <= {-1, 0, 1, WARP_END, BETWEEN}


def test_floats_are_lenses_wider_on_top_than_where_they_dive():
    """Height of a pick over its own end against its height midway to the next end."""
    surface = crossings(64, (1.0, 1.3), (1.0, 0.5))
    own = surface.pick[:64] == 0
    next_over = surface.pick[64:] == -1
    high = own[:, 32].sum() + next_over[:, 32].sum()
    low = own[:, 62].sum() + next_over[:, 62].sum()
    assert high > 1.1 * low


def test_light_falls_from_above_and_from_the_left():
    surface = crossings(64, (1.0, 1.0), (1.0, 0.6))
    weft = surface.pick == 0
    above, below = surface.around > 0.1, surface.around < -0.1
    assert surface.shade[weft & above].mean() > surface.shade[weft & below].mean() + 0.1
    crown = surface.shade[30:34, :64]
    assert crown[:, 18:30].mean() > crown[:, 34:46].mean()


def test_a_thread_that_dives_lies_in_shadow():
    surface = crossings(64, (1.0, 1.3), (1.0, 0.5))
    over, under = surface.shade[32, 28:36].mean(), surface.shade[96, 4:12].mean()
    assert over > under + 0.1


# --- where the yarn ends --------------------------------------------------------------------------


def test_the_weft_is_longer_than_the_cloth_it_fills_by_nothing():
    """As many metres as picks times the width; above, the warp stands alone."""
    scene = cloth(end_m=FROM_M + 20 * 0.08)
    metre = metre_at(scene)
    assert np.isnan(metre[:95]).all()
    bare = scene.index[:95] // LEVELS
    assert ((bare == WARP) == (bare == WARP)[0]).all()
    assert 0.3 < (bare == WARP).mean() < 0.7
    assert (scene.index[105:] // LEVELS != PAPER).all()
    assert not np.isnan(metre[105:][scene.index[105:] // LEVELS != WARP]).any()


def test_cloth_that_the_yarn_does_not_reach_stays_bare_and_that_is_said():
    found = answered(three_pure(), scheme=STAGGERED, target={"yarn_m": 5.0})
    drawn = woven_cloth(found, 100.0, 8.0, 0.0, size_px=(400, 400), look=AS_TABLE)
    assert (channel(drawn.pixels)[:140] < 0).all()
    assert (channel(drawn.pixels)[160:] >= 0).mean() > 0.45
    assert "yarn ends" in drawn.caption
    enough = woven_cloth(answered(), 100.0, 8.0, 0.0, size_px=(400, 400))
    assert "yarn ends" not in enough.caption


# --- colours and twist ----------------------------------------------------------------------------


def test_colours_of_the_weft_are_those_of_the_table():
    found = answered(three_pure(), scheme={"name": "matched", "plies": 3}, target={"yarn_m": 9.0})
    drawn = woven_cloth(found, 100.0, 8.0, 0.0, size_px=(400, 400), look=AS_TABLE)
    shown = channel(drawn.pixels)
    along = found.layout.stretches
    for pick in range(80):
        row = shown[400 - 5 * pick - 3]
        first_m, last_m = pick * 0.1, (pick + 1) * 0.1
        inside = (along.edges_m[:-1] < first_m - 0.01) & (along.edges_m[1:] > last_m + 0.01)
        if inside.any():
            (lot,) = along.lot[inside, 0]
            assert set(np.unique(row[row >= 0]).tolist()) == {lot}


@pytest.mark.parametrize("direction", ["Z", "S"])
def test_the_weft_leans_as_its_twist(direction):
    single = {**TWISTED["spinning"], "direction": "Z" if direction == "S" else "S"}
    found = answered(three_pure(), scheme=STAGGERED, spinning=single)
    drawn = woven_cloth(found, 12.0, 10.0, 0.0, size_px=(1200, 900), look=AS_TABLE)
    third = channel(drawn.pixels) == 2
    floats = [(pick, round((end + 0.5) * 1200 / 9)) for pick in (0, 2, 4, 6) for end in (2, 4, 6)]
    crowns = [third[840 - 100 * pick :][:20, at - 88 : at + 88] for pick, at in floats]
    crown = max(crowns, key=lambda each: np.diff(each[:, 60:-60]).sum())
    assert leaning(crown.astype(float)) == direction


@pytest.mark.parametrize("plies", [1, 2, 4, 6, 12])
def test_every_ply_is_seen_in_the_weft(plies):
    ply = ply_at(cloth(plies, size=PictureScale(900, 600, 10.0)))
    area = np.bincount(ply[ply >= 0], minlength=plies)
    assert area / area.sum() == pytest.approx(1 / plies, abs=0.25 / plies)


@pytest.mark.parametrize("width_mm", [30.0, 300.0])
@pytest.mark.parametrize("colour", ["#0a0a0a", "#1a1c22", "#7a2030", "#808080", "#fafafa"])
def test_cloth_keeps_its_lot_s_colour_and_every_lot_its_relief(colour, width_mm):
    lots = [{"name": "Kelp", "colour": colour, "mass_g": 60.0}]
    found = answered(lots, scheme={"name": "staggered", "plies": 3})
    scene = woven(3, PictureScale(600, 400, 600 / width_mm), Sett(0.7, 0.5, 0.2, 1.4), (0.0, FAR_M))
    alone = place_at(scene) >= 0
    alone.reshape(-1)[scene.edges.at] = False
    weft = as_rgb(painted(scene, found, PLAIN))[alone]
    mean = coded(linear(weft / 255).mean(axis=0))
    assert coloraide.Color("srgb", mean.tolist()).delta_e(colour, method="2000") < 4.0
    dark, bright = np.percentile(weft.max(axis=1), [5, 98])
    assert bright - dark > LEAST_RELIEF / 3


# --- edges ----------------------------------------------------------------------------------------


def test_threads_meet_softly():
    scene = cloth(size=PictureScale(800, 400, 10.0))
    warp = (scene.index // LEVELS == WARP).reshape(-1)
    second = scene.edges.index // LEVELS == WARP
    meets = warp[scene.edges.at] != second
    assert meets.sum() > 2000
    assert (scene.edges.share <= 128).all()


@pytest.mark.parametrize("ends_per_mm", [0.93, 1.37, 2.6])
def test_a_bare_warp_finer_than_its_pixels_is_as_light_everywhere(ends_per_mm):
    """Light over 20 pixels: no beat of threads against pixels; an end is 1.5 to 4.3 pixels wide."""
    sett = Sett(1.0, ends_per_mm, 0.3, 1.0)
    scene = woven(3, PictureScale(1200, 60, 4.0), sett, (FROM_M, 0.0))
    assert np.isnan(scene.metre).all()
    edges = scene.edges
    assert (np.diff(edges.at) > 0).all()
    fixed = np.repeat(FIXED_SRGB, LEVELS, axis=0)[:, 1] / 255
    of_level = np.tile((np.arange(LEVELS) + 0.5) / LEVELS, len(FIXED_SRGB))
    is_warp = np.repeat(np.arange(len(FIXED_SRGB)) == WARP, LEVELS)
    light = fixed * np.where(is_warp, of_level, 1)
    seen, share = light[scene.index].reshape(-1), edges.share / WHOLE_SHARE
    seen[edges.at] += share * (light[edges.index] - seen[edges.at])
    means = seen.reshape(60, -1, 20)[30].mean(axis=1)
    assert np.ptp(means) < 0.06 * means.mean()


@pytest.mark.parametrize("name", extremes())
def test_every_index_points_at_a_place_that_there_is(name):
    plies = extremes()[name]().resolved.yarn.plies
    scene = cloth(plies, size=PictureScale(300, 240, 4.0))
    assert scene.shape == (240, 300)
    for index in (scene.index, scene.edges.index):
        assert index.min() >= 0
        assert index.max() < (len(scene.metre) + len(FIXED_SRGB)) * LEVELS
    assert len(scene.ply) == len(scene.metre)
    assert set(scene.ply.tolist()) <= set(range(plies))
