"""What follows from lights adding up: shares, orders, means of means."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.colour.carding import blended_lab
from yarncolor.colour.optical_mixing import far_lab
from yarncolor.colour.science import ciede2000, lab_from_srgb

colours = st.tuples(*[st.floats(0, 1)] * 3)


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
