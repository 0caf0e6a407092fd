"""Lights add: H. G. Grassmann, Annalen der Physik 165, 1853, 69-84 (from memory).

The mean of linear light, in another library and by hand; lightness as in CIE 15.
"""

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.colour.carding import blended_lab
from yarncolor.colour.optical_mixing import far_lab
from yarncolor.colour.science import ciede2000, lab_from_srgb

BLACK_AND_WHITE = np.array([[0.0, 0, 0], [100.0, 0, 0]])
colours = st.tuples(*[st.floats(0, 1)] * 3)


def mean_of_lights(share: list[float], lab: np.ndarray) -> np.ndarray:
    xyz = np.array([Color("lab-d65", row).convert("xyz-d65").coords() for row in lab])
    mean = np.array(share) @ xyz / sum(share)
    return np.array(Color("xyz-d65", mean).convert("lab-d65").coords())


def test_half_black_and_half_white_is_far_lighter_than_the_middle():
    """L* 76.069: computed apart; 116 · 0.5^(1/3) - 16 by CIE 15."""
    found = far_lab([[1, 1]], BLACK_AND_WHITE)[0]
    np.testing.assert_allclose(found, [76.069, 0, 0], atol=1e-3)


@pytest.mark.parametrize("white", np.linspace(0.01, 1, 34))
def test_any_share_of_white_has_the_lightness_of_so_much_light(white):
    """L* = 116 Y^(1/3) - 16 above Y = 0.008856 (CIE 15)."""
    found = far_lab([[1 - white, white]], BLACK_AND_WHITE)[0]
    np.testing.assert_allclose(found, [116 * white ** (1 / 3) - 16, 0, 0], atol=1e-6)


@given(st.lists(colours, min_size=2, max_size=6), st.data())
def test_another_library_finds_the_same_mean(srgb, data):
    lab = lab_from_srgb(np.array(srgb))
    share = data.draw(st.lists(st.floats(0.1, 5), min_size=len(lab), max_size=len(lab)))
    np.testing.assert_allclose(far_lab([share], lab)[0], mean_of_lights(share, lab), atol=0.03)


@given(colours, colours, st.floats(0.01, 0.99))
def test_the_order_and_the_unit_of_the_shares_do_not_matter(one, other, share):
    lab = lab_from_srgb(np.array([one, other]))
    found = far_lab([[share, 1 - share]], lab)
    np.testing.assert_allclose(far_lab([[1 - share, share]], lab[::-1]), found, atol=1e-9)
    np.testing.assert_allclose(far_lab([[70 * share, 70 - 70 * share]], lab), found, atol=1e-9)


@given(colours, colours, colours)
def test_a_mean_of_a_mean_is_the_mean_of_all(a, b, c):
    lab = lab_from_srgb(np.array([a, b, c]))
    first = far_lab([[1, 1]], lab[:2])
    twice = far_lab([[2, 1]], np.array([first[0], lab[2]]))
    np.testing.assert_allclose(twice, far_lab([[1, 1, 1]], lab), atol=1e-9)


@given(colours)
def test_a_colour_beside_itself_is_itself(colour):
    lab = lab_from_srgb(np.array([colour, colour]))
    np.testing.assert_allclose(far_lab([[1, 3]], lab)[0], lab[0], atol=1e-9)


@given(colours, colours)
def test_the_mean_is_as_light_as_one_of_the_two_or_between(one, other):
    lab = lab_from_srgb(np.array([one, other]))
    light = far_lab([[1, 1]], lab)[0, 0]
    assert lab[:, 0].min() - 1e-9 <= light <= lab[:, 0].max() + 1e-9
    assert light >= lab[:, 0].mean() - 1e-9


@pytest.mark.parametrize(
    ("pair", "apart"),
    [
        (((85, 1, 10), (35, 10, 15)), 17.5),
        (((45, 40, 30), (35, -2, -25)), 16.1),
        (((78, -3, 65), (35, -2, -25)), 22.9),
        (((90, 0, 5), (20, 0, 0)), 30.6),
    ],
)
def test_two_lots_plied_and_seen_from_afar_are_not_the_two_lots_carded(pair, apart):
    """CIEDE2000 of half and half: computed apart, no published figure."""
    lab = np.array(pair, float)
    afar, carded = far_lab([[1, 1]], lab)[0], blended_lab([[1, 1]], lab)[0]
    assert ciede2000(afar, carded) == pytest.approx(apart, abs=0.1)
    assert carded[0] < afar[0]


def test_what_is_no_number_is_refused():
    for share, light in (([np.nan, 1], 50.0), ([1, 1], np.nan), ([1, 1], 5000.0)):
        with pytest.raises(ValueError, match=r"colour values|each share"):
            far_lab([share], np.array([[light, 0, 0], [50, 0, 0]]))


def test_shares_below_nothing_are_refused():
    with pytest.raises(ValueError, match="share"):
        far_lab([[-1, 3]], BLACK_AND_WHITE)
