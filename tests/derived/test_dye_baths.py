"""Dye depth: P. Kubelka and F. Munk, Zeitschrift für technische Physik 12, 1931, 593-601.

K/S = (1 - R)² / (2 R), as encyclopaedias print it of a layer without end (volume and pages from
memory). The series of baths was computed apart.
"""

import numpy as np
import pytest

from yarncolor.colour.dye_depth import fitted_exhaustion, from_k_over_s, k_over_s, later_baths_lab
from yarncolor.colour.science import lab_from_srgb, shown_srgb

DYED, FLEECE = (42.0, 38.0, 28.0), (85.0, 1.0, 10.0)


def test_k_over_s_of_five_reflectances():
    found = k_over_s(np.array([0.05, 0.1, 0.2, 0.5, 0.8]))
    np.testing.assert_allclose(found, [9.025, 4.05, 1.6, 0.25, 0.025], atol=1e-12)


def test_it_is_its_own_inverse_back():
    assert from_k_over_s(1.0) == pytest.approx(0.267949, abs=1e-6)
    r = np.linspace(0.001, 1, 500)
    np.testing.assert_allclose(from_k_over_s(k_over_s(r)), r, atol=1e-9)
    assert (np.diff(k_over_s(r)) < 0).all()


@pytest.mark.parametrize(
    ("exhaustion", "second", "third", "fourth"),
    [
        (0.5, (50.2, 35.4, 26.5), (58.2, 30.2, 23.6), (65.6, 23.5, 20.1)),
        (0.7, (56.2, 31.8, 24.4), (68.7, 20.2, 18.4), (77.6, 10.3, 13.6)),
        (0.9, (67.8, 21.3, 18.9), (81.6, 5.3, 11.5), (84.6, 1.5, 10.2)),
    ],
)
def test_a_series_of_baths(exhaustion, second, third, fourth):
    found = later_baths_lab(DYED, FLEECE, exhaustion, [1, 2, 3, 4])
    np.testing.assert_allclose(found, [DYED, second, third, fourth], atol=0.06)


@pytest.mark.parametrize("exhaustion", np.linspace(0.05, 0.95, 10))
def test_a_later_bath_is_never_darker_and_ends_on_the_fleece(exhaustion):
    light = later_baths_lab(DYED, FLEECE, exhaustion, np.arange(1, 200))[:, 0]
    assert (np.diff(light) >= -1e-9).all()
    assert light[-1] == pytest.approx(FLEECE[0], abs=0.05)


@pytest.mark.parametrize("exhaustion", np.linspace(0.1, 0.9, 9))
def test_the_exhaustion_is_found_again_from_two_baths(exhaustion):
    second = later_baths_lab(DYED, FLEECE, exhaustion, [2])[0]
    assert fitted_exhaustion(DYED, second, FLEECE) == pytest.approx(exhaustion, abs=0.02)


@pytest.mark.parametrize("exhaustion", [0.0, 1.0, -0.1, float("nan")])
def test_an_exhaustion_outside_its_range_is_refused(exhaustion):
    with pytest.raises(ValueError, match="between 0 and 1"):
        later_baths_lab(DYED, FLEECE, exhaustion, [2])


def test_a_second_bath_that_is_no_paler_fits_nothing():
    with pytest.raises(ValueError, match="between the first and the undyed"):
        fitted_exhaustion(DYED, DYED, FLEECE)


def wool_colours(count: int, most_chroma: float) -> np.ndarray:
    """Return CIELAB inside sRGB, L* 25 to 70: what is dyed."""
    drawn = np.random.default_rng(31).random((count, 3))
    hue, chroma = 2 * np.pi * drawn[:, 0], most_chroma * drawn[:, 1]
    lab = np.column_stack([25 + 45 * drawn[:, 2], chroma * np.cos(hue), chroma * np.sin(hue)])
    return lab[shown_srgb(lab)[1]]


def test_dye_adds_up_to_nothing_and_to_everything_at_the_ends():
    assert k_over_s(1.0) == 0
    assert from_k_over_s(0.0) == 1
    k = np.geomspace(1e-6, 1e3, 200)
    by_the_other_root = 1 / (1 + k + np.sqrt(k**2 + 2 * k))  # R times the other root is 1
    np.testing.assert_allclose(from_k_over_s(k), by_the_other_root, rtol=1e-9)


@pytest.mark.parametrize("exhaustion", [0.1, 0.5, 0.9])
def test_a_series_on_grey_is_the_formula_by_hand(exhaustion):
    """A grey has one reflectance at all wavelengths, (L* + 16)³ / 116³ (CIE 15)."""
    dyed, fleece = (((light + 16) / 116) ** 3 for light in (30, 90))
    k = [(1 - r) ** 2 / (2 * r) for r in (dyed, fleece)]
    left = (1 - exhaustion) ** np.arange(8)
    own = k[1] + (k[0] - k[1]) * left
    expected = 116 * (1 + own - np.sqrt(own**2 + 2 * own)) ** (1 / 3) - 16
    found = later_baths_lab((30, 0, 0), (90, 0, 0), exhaustion, np.arange(1, 9))
    np.testing.assert_allclose(found[:, 0], expected, atol=0.02)
    np.testing.assert_allclose(found[:, 1:], 0, atol=0.05)


@pytest.mark.parametrize("exhaustion", [0.02, 0.3, 0.7, 0.98])
def test_no_dye_on_any_fibre_is_darker_in_a_later_bath(exhaustion):
    pairs = lab_from_srgb(np.random.default_rng(2).random((400, 3))).reshape(-1, 2, 3)
    for dyed, fibre in pairs:
        light = later_baths_lab(dyed, fibre, exhaustion, np.arange(1, 15))[:, 0]
        assert (np.diff(light) >= -1e-9).all()


def test_a_dye_that_goes_on_faster_leaves_the_next_baths_paler():
    series = [later_baths_lab(DYED, FLEECE, e, [2, 3, 4])[:, 0] for e in np.linspace(0.1, 0.9, 17)]
    assert (np.diff(series, axis=0) > 0).all()


@pytest.mark.parametrize("exhaustion", np.linspace(0.1, 0.9, 9))
def test_on_greys_the_exhaustion_is_found_again_exactly(exhaustion):
    for light in (15, 30, 45, 60):
        second = later_baths_lab((light, 0, 0), (90, 0, 0), exhaustion, [2])[0]
        found = fitted_exhaustion((light, 0, 0), second, (90, 0, 0))
        assert found == pytest.approx(exhaustion, abs=1e-3)


def found_again(most_chroma: float) -> np.ndarray:
    """Return by how much a fitted exhaustion misses, for many dyes on the fleece."""
    colours = wool_colours(400, most_chroma)
    given = np.random.default_rng(7).uniform(0.1, 0.9, len(colours))
    found = [
        fitted_exhaustion(dyed, later_baths_lab(dyed, FLEECE, e, [2])[0], FLEECE)
        for dyed, e in zip(colours, given, strict=True)
    ]
    return np.abs(found - given)


def test_the_exhaustion_of_a_wool_dye_is_found_again_within_a_tenth():
    missed = found_again(50)
    assert missed.mean() < 0.01
    assert missed.max() < 0.1


def test_the_exhaustion_of_any_dye_is_found_again_within_two_hundredths():
    assert found_again(60).max() < 0.02


@pytest.mark.parametrize("lab", [(np.nan, 0, 0), (4200, 38, 28)])
def test_a_colour_that_is_none_never_travels_into_a_bath(lab):
    for dyed, fibre in ((lab, FLEECE), (DYED, lab)):
        with pytest.raises(ValueError, match="colour values"):
            later_baths_lab(dyed, fibre, 0.5, [2])
