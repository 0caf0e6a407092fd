"""Carded blends: E. I. Stearns and F. Noechel, American Dyestuff Reporter 33(9), 1944, 177-180.

The formula was read in later work that quotes it; the citation and M = 0.15 for wool are from
memory. What is marked so was computed for the project's reference sheet: no published figure.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.mixing import (
    blended_lab,
    blended_reflectance,
    friele,
    friele_inverse,
    stearns_noechel,
    stearns_noechel_inverse,
)

R = np.linspace(0.01, 1, 400)


def test_the_formula_by_hand():
    """f(0.60) and f(0.10) at M = 0.15: the formula's arithmetic done by hand."""
    np.testing.assert_allclose(
        stearns_noechel(np.array([0.6, 0.1])), [4.060914, 38.297872], rtol=1e-6
    )


@pytest.mark.parametrize("m", [0.05, 0.136, 0.15, 1.0])
def test_the_ends_of_the_scale_for_every_constant(m):
    np.testing.assert_allclose(stearns_noechel(np.array([1.0, 0.01]), m), [0, 99], atol=1e-12)
    np.testing.assert_allclose(stearns_noechel_inverse(stearns_noechel(R, m), m), R, atol=1e-12)


@pytest.mark.parametrize(
    ("m", "expected"),
    [
        (0.05, 0.234259), (0.09, 0.211453), (0.11, 0.204958), (0.136, 0.198862),
        (0.15, 0.196311), (0.25, 0.185526), (1.0, 0.171429),
    ],
)  # fmt: skip
def test_half_and_half_of_a_light_and_a_dark_reflectance(m, expected):
    """R = 0.60 and 0.10; computed for the reference sheet."""
    blend = blended_reflectance([[1, 1]], np.array([[0.6], [0.1]]), constant=m)
    assert blend[0, 0] == pytest.approx(expected, abs=1e-6)


def test_three_parts_to_one():
    """R = 0.80 and 0.05 at 75 : 25; computed for the reference sheet."""
    blend = blended_reflectance([[3, 1]], np.array([[0.8], [0.05]]))
    assert blend[0, 0] == pytest.approx(0.253966, abs=1e-6)


def test_friele_s_model_beside_it():
    """Friele 1952 (from memory), s = 0.26: R = 0.60 and 0.10, half and half."""
    blend = blended_reflectance([[1, 1]], np.array([[0.6], [0.1]]), "friele", 0.26)
    assert blend[0, 0] == pytest.approx(0.198901, abs=1e-6)
    np.testing.assert_allclose(friele_inverse(friele(R)), R, atol=1e-9)


BLENDS = [  # two lots; linear mean, Stearns and Noechel, Friele: computed for the reference sheet
    ((85, 1, 10), (35, 10, 15), (67.47, 2.66, 9.93), (49.41, 8.47, 13.39), (50.23, 7.05, 8.90)),
    ((45, 40, 30), (35, -2, -25),
     (40.44, 23.86, -0.38), (35.23, 3.69, -2.01), (36.83, 10.56, -2.59)),
    ((78, -3, 65), (35, -2, -25),
     (62.39, -2.59, 29.55), (47.19, -16.59, 8.53), (48.74, -11.29, 10.10)),
    ((90, 0, 5), (20, 0, 0), (69.22, -0.01, 3.86), (37.83, -0.02, 0.37), (44.25, -0.02, 0.25)),
]  # fmt: skip


@pytest.mark.parametrize(("one", "other", "linear", "wool", "friele_lab"), BLENDS)
def test_colours_blended_half_and_half(one, other, linear, wool, friele_lab):
    lab = np.array([one, other], dtype=float)
    for model, expected in (("linear", linear), ("stearns-noechel", wool), ("friele", friele_lab)):
        np.testing.assert_allclose(blended_lab([[1, 1]], lab, model)[0], expected, atol=0.03)


reflectances = st.lists(st.floats(0.01, 1), min_size=2, max_size=5)


@given(reflectances, st.data())
def test_a_blend_lies_between_its_lots_and_below_their_mean(values, data):
    parts = data.draw(st.lists(st.floats(0.1, 5), min_size=len(values), max_size=len(values)))
    spectra = np.array(values)[:, None]
    (blend,) = blended_reflectance([parts], spectra)
    (mean,) = blended_reflectance([parts], spectra, "linear")
    assert min(values) - 1e-9 <= blend[0] <= mean[0] + 1e-9
    turned = blended_reflectance([parts[::-1]], spectra[::-1])
    np.testing.assert_allclose(turned[0], blend, rtol=1e-9)


@given(st.floats(0.01, 1), st.floats(0.01, 1), st.floats(0.01, 1))
def test_a_blend_of_a_blend_is_a_blend_of_all(a, b, c):
    spectra = np.array([[a], [b], [c]])
    first = blended_reflectance([[1, 1]], spectra[:2])
    twice = blended_reflectance([[2, 1]], np.array([first[0], spectra[2]]))
    np.testing.assert_allclose(twice, blended_reflectance([[1, 1, 1]], spectra), rtol=1e-6)


def test_a_lot_blended_with_itself_is_itself():
    np.testing.assert_allclose(blended_reflectance([[1, 2]], np.array([R, R]))[0], R, rtol=1e-9)


@pytest.mark.parametrize("parts", [[[0, 0]], [[-1, 2]], [[np.nan, 1]]])
def test_parts_that_cannot_be_are_refused(parts):
    with pytest.raises(ValueError, match="0 or more, not all 0"):
        blended_reflectance(parts, np.array([[0.5], [0.5]]))
