"""Lights add: H. G. Grassmann, Zur Theorie der Farbenmischung, Annalen der Physik 165, 1853, 69-84
(title, volume and pages as an encyclopaedia has them); the law of additivity as a handbook of
colour quotes it from G. Wyszecki and W. S. Stiles, Color Science, 2000.

The mean of linear light, in another library and by hand; lightness as in CIE 15.
"""

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.colour.optical_mixing import far_lab
from yarncolor.colour.science import lab_from_srgb

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
