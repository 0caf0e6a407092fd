"""Carded blends, reckoned apart: worked by hand, in another library, and held to laws.

What is marked so was computed apart, not by this package: no published figure. The formulas are
those of E. I. Stearns and F. Noechel, 1944, as quoted in later work, and L. F. C. Friele, 1952
(from memory, no open copy found).
"""

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.colour.carding import (
    blended_lab,
    blended_reflectance,
    friele,
    friele_inverse,
)
from yarncolor.colour.dye_depth import from_k_over_s, k_over_s
from yarncolor.colour.reflectance import lab_from_reflectance, reflectance_from_lab
from yarncolor.colour.science import ciede2000, lab_from_srgb

R = np.linspace(0.01, 1, 400)


@pytest.mark.parametrize(
    ("m", "expected"),
    [
        (0.05, 0.234259), (0.09, 0.211453), (0.11, 0.204958), (0.136, 0.198862),
        (0.15, 0.196311), (0.25, 0.185526), (1.0, 0.171429),
    ],
)  # fmt: skip
def test_half_and_half_of_a_light_and_a_dark_reflectance(m, expected):
    """R = 0.60 and 0.10; computed apart."""
    blend = blended_reflectance([[1, 1]], np.array([[0.6], [0.1]]), constant=m)
    assert blend[0, 0] == pytest.approx(expected, abs=1e-6)


def test_three_parts_to_one():
    """R = 0.80 and 0.05 at 75 : 25; computed apart."""
    blend = blended_reflectance([[3, 1]], np.array([[0.8], [0.05]]))
    assert blend[0, 0] == pytest.approx(0.253966, abs=1e-6)


def test_friele_s_model_beside_it():
    """Friele 1952, s = 0.26 (from memory): R = 0.60 and 0.10, half and half."""
    blend = blended_reflectance([[1, 1]], np.array([[0.6], [0.1]]), "friele", 0.26)
    assert blend[0, 0] == pytest.approx(0.198901, abs=1e-6)
    np.testing.assert_allclose(friele_inverse(friele(R)), R, atol=1e-9)


BLENDS = [  # two lots; linear mean, Stearns and Noechel, Friele: computed apart
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


def test_the_other_models_of_the_same_two_reflectances():
    """R = 0.60 and 0.10: the linear mean by hand; Kubelka and Munk computed apart."""
    spectra = np.array([[0.6], [0.1]])
    assert blended_reflectance([[1, 1]], spectra, "linear")[0, 0] == pytest.approx(0.35, abs=1e-12)
    assert from_k_over_s(k_over_s(spectra).mean()) == pytest.approx(0.166192, abs=1e-6)


KUBELKA_MUNK = [  # the same four pairs as dye on one fibre: computed apart
    (44.85, 9.88, 16.16), (33.53, -4.57, -0.86), (43.21, -20.18, 3.75), (28.49, -0.01, 0.04),
]  # fmt: skip
CARDED_FROM_PLIED = [17.5, 16.1, 22.9, 30.6]  # CIEDE2000, computed apart


@pytest.mark.parametrize(("pair", "expected"), list(zip(BLENDS, KUBELKA_MUNK, strict=True)))
def test_two_colours_as_dyes_on_one_fibre_are_darker_than_as_fibres(pair, expected):
    mixed = from_k_over_s(k_over_s(reflectance_from_lab(np.array(pair[:2], float))).mean(axis=0))
    (found,) = lab_from_reflectance(mixed[None])
    np.testing.assert_allclose(found, expected, atol=0.05)
    assert found[0] < pair[3][0]


@pytest.mark.parametrize(("pair", "expected"), list(zip(BLENDS, CARDED_FROM_PLIED, strict=True)))
def test_carded_and_plied_differ_by_so_much(pair, expected):
    lab = np.array(pair[:2], float)
    carded, plied = blended_lab([[1, 1]], lab), blended_lab([[1, 1]], lab, "linear")
    assert ciede2000(carded, plied)[0] == pytest.approx(expected, abs=0.05)


def without_a_spectrum(lab) -> list[float]:
    """Return the half-and-half blend by the formula on each channel of linear sRGB alone."""
    linear = np.array([Color("lab-d65", row).convert("srgb-linear").coords() for row in lab])
    f = ((1 - linear) / (0.15 * (linear - 0.01) + 0.01)).mean(axis=0)
    return Color("srgb-linear", (1 - 0.0085 * f) / (1 + 0.15 * f)).convert("lab-d65").coords()


WITHOUT_A_SPECTRUM = [  # computed apart
    (49.39, 8.45, 13.40), (34.32, 1.63, -1.37), (46.29, -18.01, 13.65), (37.83, -0.01, 0.37),
]  # fmt: skip


@pytest.mark.parametrize(("pair", "expected"), list(zip(BLENDS, WITHOUT_A_SPECTRUM, strict=True)))
def test_the_formula_without_a_spectrum_says_nearly_the_same(pair, expected):
    """Three channels by another library, as computed apart.

    Within 6 CIEDE2000 of the 81 bands: as far as one model lies from the next.
    """
    lab = np.array(pair[:2], float)
    found = without_a_spectrum(lab)
    np.testing.assert_allclose(found, expected, atol=0.05)
    assert ciede2000(np.array(found), blended_lab([[1, 1]], lab)[0]) < 6


def test_a_larger_constant_makes_a_darker_blend():
    """M = 1 is the formula's own limit, by hand.

    f = (1 - R) / R there, so that 1 / R adds up: the harmonic mean.
    """
    spectra = np.array([[0.6], [0.1]])
    blends = [
        blended_reflectance([[1, 1]], spectra, constant=m)[0, 0] for m in np.linspace(0.01, 1, 100)
    ]
    assert (np.diff(blends) < 0).all()
    assert blends[-1] == pytest.approx(2 / (1 / 0.6 + 1 / 0.1), rel=1e-12)


def test_any_two_colours_card_to_less_light_than_they_have_on_the_mean():
    """Of this model alone: Friele's f curves the other way in very dark fibre."""
    pairs = lab_from_srgb(np.random.default_rng(44).random((600, 3))).reshape(-1, 2, 3)
    for lab in pairs:
        carded, mean = blended_lab([[1, 2]], lab)[0], blended_lab([[1, 2]], lab, "linear")[0]
        assert carded[0] <= mean[0] + 1e-6


@given(reflectances)
def test_friele_s_blend_lies_between_its_lots(values):
    (blend,) = blended_reflectance([np.ones(len(values))], np.array(values)[:, None], "friele")
    assert min(values) - 1e-9 <= blend[0] <= max(values) + 1e-9


def test_a_colour_carded_with_itself_is_itself_and_the_order_does_not_matter():
    """Within 0.03 CIEDE2000, the way to a reflectance and back."""
    colours = lab_from_srgb(np.random.default_rng(15).random((200, 3)) * 0.9 + 0.1)
    for lab in colours:
        assert ciede2000(blended_lab([[1, 2]], np.array([lab, lab]))[0], lab) < 0.03
    parts = np.random.default_rng(16).random((50, 6))
    turned = blended_lab(parts[:, ::-1], colours[5::-1])
    np.testing.assert_allclose(turned, blended_lab(parts, colours[:6]), atol=1e-9)


@pytest.mark.parametrize("lab", [[[np.nan, 0, 0], [50, 0, 0]], [[5000, 0, 0], [50, 0, 0]]])
def test_a_colour_that_is_none_never_travels_into_a_blend(lab):
    with pytest.raises(ValueError, match="colour values"):
        blended_lab([[1, 1]], np.array(lab, float))


@pytest.mark.parametrize("wrong", [np.nan, 40.0, 0.0, -0.1])
def test_a_reflectance_outside_its_scale_is_refused(wrong):
    with pytest.raises(ValueError, match="reflectance"):
        blended_reflectance([[1, 1]], np.array([[wrong], [0.5]]))


@pytest.mark.parametrize("constant", [0.0, -0.2, 5.0])
def test_a_constant_outside_its_range_is_refused(constant):
    with pytest.raises(ValueError, match="constant"):
        blended_reflectance([[1, 1]], np.array([[0.6], [0.1]]), constant=constant)
