"""A twisted skein, by its pixels: its strands, colours, thickness, ties and tag."""

from itertools import pairwise

import coloraide
import numpy as np
import pytest

from tests.helpers.pictures_asked import (
    AS_TABLE,
    PLAIN,
    answered,
    extremes,
    leaning,
    place_at,
    ply_at,
    three_pure,
)
from tests.helpers.strip_pictures import rgb, stash
from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.hank import hank
from yarncolor.pictures.painting import painted
from yarncolor.pictures.painting import rgb as as_rgb
from yarncolor.pictures.relief import LEAST_RELIEF
from yarncolor.pictures.scene import CARD, FIXED_SRGB, LEVELS, PAPER, WARP, Scene
from yarncolor.pictures.skein_pictures import skein_of_yarn
from yarncolor.pictures.skein_scenes import skein
from yarncolor.pictures.skein_ties import tag_box
from yarncolor.pictures.strands import Canvas, Course, Twist
from yarncolor.pictures.view import ViewSettings
from yarncolor.pictures.yarn_scenes import PictureScale

SIZE = PictureScale(1100, 300, 5.0)
USUAL = Twist(3, 0.3)


def drawn_of(turns: float, twist: Twist = USUAL) -> Scene:
    return skein(turns * 1.5, twist, 1.5, SIZE)


def metres_seen(scene: Scene) -> np.ndarray:
    place = np.unique(place_at(scene))
    return scene.metre[place[place >= 0]]


# --- strands --------------------------------------------------------------------------------------


@pytest.mark.parametrize("turns", [1, 2, 9, 26])
def test_every_turn_of_the_skein_is_seen(turns):
    seen = np.floor(metres_seen(drawn_of(turns)) / 1.5 - 1e-9).clip(0).astype(int)
    assert set(seen.tolist()) == set(range(turns))


def test_of_more_turns_than_strands_evenly_spread_ones_are_seen():
    turns = np.unique(np.floor(metres_seen(drawn_of(1000)) / 1.5))
    assert len(turns) > 50
    assert turns.min() < 20
    assert turns.max() > 980
    assert np.diff(turns).max() <= 3 * np.diff(turns).min()


def test_no_place_of_the_skein_lies_beyond_the_yarn():
    for yarn_m in (0.3, 4.7, 333.3):
        scene = skein(yarn_m, USUAL, 1.5, SIZE)
        assert scene.metre.min() >= 0
        assert scene.metre.max() <= yarn_m
        assert place_at(scene).max() < len(scene.metre)


def test_a_strand_runs_on_where_the_skein_is_folded():
    """From one half into the other at the far end: half a turn in."""
    scene = drawn_of(1)
    last = metres_seen(Scene(scene.index[:, 870:878], scene.ply, scene.metre, 1.0))
    assert last == pytest.approx(0.75, abs=0.03)


def test_strands_cross_each_other():
    """Down a column, turns do not lie in one order everywhere: neighbours change."""
    scene = drawn_of(60)
    turn = np.floor(np.where(place_at(scene) < 0, np.nan, scene.metre[place_at(scene)]) / 1.5)
    pairs = [
        {(one, other) for one, other in pairwise(column) if one != other}
        for column in (turn[90:210, at].tolist() for at in (300, 340, 380))
    ]
    assert len(pairs[0] & pairs[1]) < 0.6 * len(pairs[0])
    assert len(pairs[0] & pairs[1]) > len(pairs[0] & pairs[2])


@pytest.mark.parametrize("plies", [1, 2, 3, 12])
def test_every_ply_has_its_share_of_the_skein(plies):
    ply = ply_at(drawn_of(80, Twist(plies, 0.3)))
    area = np.bincount(ply[ply >= 0], minlength=plies)
    assert area / area.sum() == pytest.approx(1 / plies, rel=0.1)


# --- how thick it is ------------------------------------------------------------------------------


def test_the_longer_the_yarn_the_thicker_the_skein_up_to_what_there_is_room_for():
    high = []
    for turns in (1, 3, 8, 20, 50, 400):
        yarn = (place_at(drawn_of(turns)) >= 0)[:, 100:800]
        high.append(yarn.sum(axis=0).mean())
    assert np.all(np.diff(high) > 0)
    assert high[0] < 0.06 * 300
    assert 0.4 * 300 < high[-1] < 0.9 * 300


def test_a_skein_is_whole_but_between_its_halves():
    scene = drawn_of(300)
    is_paper = scene.index[:, 60:840] // LEVELS == PAPER
    inside = np.cumsum(~is_paper, axis=0) * np.cumsum(~is_paper[::-1], axis=0)[::-1] > 0
    assert (is_paper & inside).sum() < 0.02 * inside.sum()


# --- colours --------------------------------------------------------------------------------------


@pytest.mark.parametrize("plies", [1, 2, 3])
def test_all_colours_are_in_the_skein(plies):
    found = answered(stash(), scheme={"name": "matched", "plies": plies})
    drawn = skein_of_yarn(found, look=AS_TABLE)
    assert set(drawn.lots) == set(range(8))
    shown = np.unique(drawn.pixels.reshape(-1, 3), axis=0).astype(float)
    for lot in found.palette.srgb:
        own = np.array(rgb(lot), dtype=float)
        light = shown @ own / (own @ own)
        near = np.abs(shown - own * light[:, None]).max(axis=1)[(light > 0.6) & (light < 1.02)]
        assert near.min() < 4


@pytest.mark.parametrize("colour", ["#0a0a0a", "#1a1c22", "#7a2030", "#808080", "#fafafa"])
def test_a_skein_keeps_its_lot_s_colour_and_every_lot_its_relief(colour):
    lots = [{"name": "Kelp", "colour": colour, "mass_g": 60.0}]
    found = answered(lots, scheme={"name": "staggered", "plies": 3})
    scene = drawn_of(120)
    alone = place_at(scene) >= 0
    alone.reshape(-1)[scene.edges.at] = False
    yarn = as_rgb(painted(scene, found, PLAIN))[alone]
    mean = coded(linear(yarn / 255).mean(axis=0))
    assert coloraide.Color("srgb", mean.tolist()).delta_e(colour, method="2000") < 5.0
    dark, bright = np.percentile(yarn.max(axis=1), [5, 98])
    assert bright - dark > LEAST_RELIEF / 3


# --- ties and tag ---------------------------------------------------------------------------------


@pytest.mark.parametrize("turns", [2, 20, 300])
def test_three_or_four_ties_hold_the_skein(turns):
    tied = (drawn_of(turns).index // LEVELS == WARP)[:, :860].any(axis=0)
    gaps = np.flatnonzero(np.diff(np.flatnonzero(tied)) > 60)
    assert 3 <= len(gaps) + 1 <= 4


def test_ties_lie_round_one_half_where_it_is_on_top():
    scene, drawn = drawn_of(300), hank(300, SIZE)
    y, x = np.nonzero((scene.index // LEVELS == WARP)[:, :880])
    assert np.abs(y - 150).max() < 1.3 * drawn.half_px
    assert np.abs(y - 150).mean() < 0.7 * drawn.half_px
    assert x.min() > drawn.first


def test_a_tag_hangs_beside_the_skein():
    scene = drawn_of(300)
    left, top, right, bottom = tag_box(SIZE)
    card = scene.index // LEVELS == CARD
    assert card[top + 2 : bottom - 2, left + 2 : right - 2].mean() > 0.9
    assert card.sum() == card[top - 1 : bottom + 1, left - 1 : right + 1].sum()


def on_tag(drawn) -> np.ndarray:
    left, top, right, bottom = tag_box(SIZE)
    return drawn.pixels[top:bottom, left:right].astype(int)


def test_the_tag_tells_this_yarn_from_another():
    one, same, other = (
        on_tag(skein_of_yarn(answered(three_pure(), title=title)))
        for title in ("Tideline", "Tideline", "Slack Water")
    )
    assert (one == same).all()
    assert (one != other).any()
    assert (one[:, 50:].sum(axis=2) < 200).mean() > 0.02  # ink


@pytest.mark.parametrize("title", ["", "<script>" * 15, "אצה", "昆布", "{x} %s"])
def test_any_title_stays_on_the_tag(title):
    tables = {"title": title} if title else {}
    with_title = skein_of_yarn(answered(three_pure(), **tables)).pixels
    left, top, right, bottom = tag_box(SIZE)
    beyond = np.ones(with_title.shape[:2], bool)
    beyond[top:bottom, left:right] = False
    plain = skein_of_yarn(answered(three_pure())).pixels
    assert (with_title[beyond] == plain[beyond]).all()


def test_a_tag_too_small_to_read_is_left_empty():
    small = skein_of_yarn(answered(three_pure()), size_px=(200, 60)).pixels
    left, top, right, bottom = tag_box(PictureScale(200, 60, 1.0))
    inner = small[top + 3 : bottom - 3, left + 12 : right - 3]
    assert len(np.unique(inner.reshape(-1, 3), axis=0)) == 1


def test_from_afar_a_skein_is_drawn_too():
    afar = skein_of_yarn(answered(three_pure()), look=ViewSettings(distance_m=3.0))
    assert afar.pixels.shape == (300, 1100, 3)


# --- indices --------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", extremes())
def test_every_index_points_at_a_place_that_there_is(name):
    found = extremes()[name]()
    yarn, yarn_m = found.resolved.yarn, found.layout.stretches.yarn_m
    scene = skein(yarn_m, Twist(yarn.plies, 0.2), 1.5, PictureScale(400, 300, 16.0))
    assert scene.shape == (300, 400)
    for index in (scene.index, scene.edges.index):
        assert index.min() >= 0
        assert index.max() < (len(scene.metre) + len(FIXED_SRGB)) * LEVELS
    assert len(scene.ply) == len(scene.metre)
    assert set(scene.ply.tolist()) <= set(range(yarn.plies))
    assert scene.mm_per_px == pytest.approx(1 / 16)


@pytest.mark.parametrize("size_px", [(16, 16), (16, 400), (2000, 16)])
def test_pictures_of_any_shape_are_drawn(size_px):
    wide, high = size_px
    assert skein_of_yarn(answered(three_pure()), size_px=size_px).pixels.shape == (high, wide, 3)


@pytest.mark.parametrize(("turns", "direction"), [(0.3, "S"), (-0.3, "Z")])
def test_plies_lean_on_a_strand_as_it_is_twisted(turns, direction):
    canvas, straight = Canvas((81, 600), 1, -1), np.zeros(600)
    course = Course(0, straight + 40.5, straight, straight + 1, np.zeros(600, np.int32))
    canvas.draw(course, 40.0, Twist(3, turns))
    assert leaning((canvas.place == 1).astype(float)) == direction


def test_of_two_strands_the_nearer_is_seen():
    canvas, straight = Canvas((81, 600), 1, -1), np.zeros(600)
    for cell, near in ((1, 5.0), (0, 0.0)):
        at = np.full(600, cell, np.int32)
        canvas.draw(Course(0, straight + 40.5, straight + near, straight, at), 9.0, Twist(1, 0.3))
    assert set(np.unique(canvas.place)) == {-1, 1}
