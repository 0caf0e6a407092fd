"""Pixels that two places share: how much of each, and what colour comes of it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.pictures_asked import PLAIN, answered, three_pure
from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.blending import lanes_of, shared
from yarncolor.pictures.coverage import covered
from yarncolor.pictures.painting import painted, painted_from_afar, rgb
from yarncolor.pictures.scene import WHOLE_SHARE, Edges, Scene, yarn_index

PACKED = st.integers(0, 0xFFFFFF).map(lambda colour: colour | 0xFF000000)
PARTS = st.integers(0, WHOLE_SHARE // 2)


def channels(packed: int) -> np.ndarray:
    return rgb(np.array([[packed]], np.uint32))[0, 0].astype(int)


def blend(one: int, other: int, parts: int) -> np.ndarray:
    ends = (lanes_of(np.array([each], np.uint32)) for each in (one, other))
    return channels(int(shared(*ends, np.array([parts], np.uint8))[0]))


# --- the colour of a shared pixel -----------------------------------------------------------------


@given(PACKED, PACKED, PARTS)
def test_a_shared_pixel_lies_between_its_two_colours(one, other, parts):
    mixed, ends = blend(one, other, parts), np.array([channels(one), channels(other)])
    assert (mixed >= ends.min(axis=0)).all()
    assert (mixed <= ends.max(axis=0)).all()


@given(PACKED, PACKED, PARTS)
def test_light_is_mixed_and_not_its_code(one, other, parts):
    share = parts / WHOLE_SHARE
    light = linear(channels(one) / 255) * (1 - share) + linear(channels(other) / 255) * share
    assert np.abs(blend(one, other, parts) - coded(light) * 255).max() < 1.5


@given(PACKED, PARTS)
def test_a_colour_with_itself_is_that_colour(colour, parts):
    np.testing.assert_array_equal(blend(colour, colour, parts), channels(colour))


def test_half_of_black_and_white_is_lighter_than_the_middle_code():
    assert blend(0xFF000000, 0xFFFFFFFF, WHOLE_SHARE // 2)[0] == 188  # 0.5 by IEC 61966-2-1


# --- which two places, and how much of each -------------------------------------------------------


def test_a_pixel_keeps_its_two_commonest_places_and_their_shares():
    place = np.array([[5, 5, 7, 7], [5, 3, 7, 7]])
    shade = np.array([[0.2, 0.4, 1.0, 1.0], [0.6, 0.9, 1.0, 0.0]])
    (first, light), (at, second, lit, share) = covered(place, shade, (2, 2))
    np.testing.assert_array_equal(first, [[5, 7]])
    np.testing.assert_allclose(light, [[0.4, 0.75]])
    assert (at.tolist(), second.tolist(), share.tolist()) == ([0], [3], [WHOLE_SHARE // 4])
    np.testing.assert_allclose(lit, [0.9])


@given(st.integers(1, 4), st.integers(1, 4), st.integers(2, 5), st.integers(0, 10**6))
def test_shares_are_counts_of_samples(down, across, places, seed):
    drawn = np.random.default_rng(seed).integers(0, places, (3 * down, 5 * across))
    (first, _), (at, second, _, share) = covered(drawn, np.ones(drawn.shape), (down, across))
    assert (np.diff(at) > 0).all()
    for pixel in range(15):
        row, column = divmod(pixel, 5)
        block = drawn[row * down : (row + 1) * down, column * across : (column + 1) * across]
        times = np.sort(np.bincount(block.ravel(), minlength=places + 1))
        assert (block == first[row, column]).sum() == times[-1]
        assert (pixel in at) == (times[-2] > 0)
        if pixel in at:
            here = np.flatnonzero(at == pixel)[0]
            assert second[here] != first[row, column]
            assert (block == second[here]).sum() == times[-2]
            assert share[here] == round(WHOLE_SHARE * times[-2] / (times[-1] + times[-2]))


def test_places_turned_round_are_the_same_picture_turned_round():
    drawn = np.random.default_rng(3).integers(0, 3, (12, 16))
    light = np.ones(drawn.shape)
    (_, _), (at, _, _, share) = covered(drawn, light, (3, 4))
    (_, _), (turned, _, _, turned_share) = covered(drawn[::-1, ::-1], light, (3, 4))
    np.testing.assert_array_equal(at, 15 - turned[::-1])
    np.testing.assert_array_equal(share, turned_share[::-1])


# --- scenes ---------------------------------------------------------------------------------------


@pytest.fixture
def bar():
    """Return a scene of two plies, one over the other, and the answer whose colours it has."""
    found = answered(three_pure(), scheme={"name": "staggered", "plies": 2})
    ply = np.repeat([0, 1], 8)
    metre = np.tile(np.linspace(1.0, 1.2, 8), 2)
    place = np.repeat(np.arange(16).reshape(2, 8), 3, axis=0)
    return found, Scene(yarn_index(place, np.full(place.shape, 9)), ply, metre, 0.2)


def with_an_edge(scene: Scene, share: int) -> Scene:
    """Return a scene whose third row has a share of what lies under it."""
    at = np.arange(16, 24)
    return replace(scene, edges=Edges(at, scene.index[3], np.full(8, share, np.uint8)))


def test_a_scene_without_edges_is_one_gather(bar):
    found, scene = bar
    np.testing.assert_array_equal(
        painted(scene, found, PLAIN), painted(with_an_edge(scene, 0), found, PLAIN)
    )


def test_only_edge_pixels_change_and_lie_between_their_neighbours(bar):
    found, scene = bar
    hard = rgb(painted(scene, found, PLAIN)).astype(int)
    soft = rgb(painted(with_an_edge(scene, 96), found, PLAIN)).astype(int)
    others = [0, 1, 3, 4, 5]
    np.testing.assert_array_equal(soft[others], hard[others])
    assert (soft[2] >= np.minimum(hard[2], hard[3])).all()
    assert (soft[2] <= np.maximum(hard[2], hard[3])).all()


def test_the_distance_view_mixes_as_the_near_one(bar):
    found, scene = bar
    scene = with_an_edge(replace(scene, mm_per_px=1e6), 96)  # a pixel is all that is seen
    near, far = rgb(painted(scene, found, PLAIN)), painted_from_afar(scene, found, 1.0, PLAIN)
    assert np.abs(near.astype(int) - far.astype(int)).max() <= 1


def test_edges_are_cut_with_the_picture():
    edges = Edges(np.array([0, 4, 7, 9, 14]), np.arange(5), np.arange(5, dtype=np.uint8))
    cut = edges.cut(1, 3, 5)
    assert (cut.at.tolist(), cut.index.tolist()) == ([4], [2])
