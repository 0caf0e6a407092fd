"""Dye depth: P. Kubelka and F. Munk, Zeitschrift für technische Physik 12, 1931, 593-601.

K/S = (1 - R)² / (2 R), from memory. The series of baths was computed for the reference sheet.
"""

import numpy as np
import pytest

from yarncolor.baths import fitted_exhaustion, from_k_over_s, k_over_s, later_baths_lab

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
