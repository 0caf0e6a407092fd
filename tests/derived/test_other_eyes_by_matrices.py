"""What published matrices of colour vision imply for greys, reds and the tenths between."""

import numpy as np
import pytest

from yarncolor.colour.colour_vision import DEFICIENCIES, seen_lab, seen_srgb
from yarncolor.colour.science import ciede2000, cvd_matrix, lab_from_srgb


@pytest.mark.parametrize("eyes", DEFICIENCIES)
def test_rows_sum_to_one_so_that_grey_stays_grey_at_every_severity(eyes):
    grey = np.repeat(np.linspace(0, 1, 21)[:, None], 3, axis=1)
    for severity in np.linspace(0, 1, 41):
        np.testing.assert_allclose(cvd_matrix(eyes, severity).sum(axis=1), 1, atol=2e-6)
        np.testing.assert_allclose(seen_srgb(grey, eyes, severity), grey, atol=1e-5)


@pytest.mark.parametrize("eyes", DEFICIENCIES)
def test_no_severity_changes_nothing(eyes):
    colours = np.random.default_rng(1).random((500, 3))
    np.testing.assert_allclose(seen_srgb(colours, eyes, 0.0), colours, atol=1e-9)


def test_between_tenths_a_matrix_lies_between_its_neighbours():
    low, middle, high = (cvd_matrix("deuteranomaly", s) for s in (0.5, 0.55, 0.6))
    np.testing.assert_allclose(middle, (low + high) / 2, atol=1e-12)


def test_pure_red_to_a_red_green_deficiency():
    """Computed apart from the published matrices."""
    red = np.array([[1.0, 0, 0]])
    np.testing.assert_allclose(seen_srgb(red, "deuteranomaly"), [[0.64006, 0.56581, 0]], atol=1e-4)
    np.testing.assert_allclose(seen_srgb(red, "protanomaly"), [[0.42661, 0.37265, 0]], atol=1e-4)


def test_red_and_green_come_close_to_a_red_green_deficiency():
    """CIEDE2000 52.0 for most eyes and 6.6 for these; computed apart."""
    lab = lab_from_srgb(np.array([[0.8, 0.2, 0.2], [0.35, 0.45, 0.15]]))
    assert ciede2000(lab[0], lab[1]) == pytest.approx(52.0, abs=0.2)
    seen = seen_lab(lab, "deuteranomaly")
    assert ciede2000(seen[0], seen[1]) == pytest.approx(6.6, abs=0.2)


def test_a_row_between_two_tenths_is_half_way():
    """Between the published rows of 0.5 and 0.6; derived."""
    row = cvd_matrix("deuteranomaly", 0.55)[0]
    np.testing.assert_allclose(row, [0.523179, 0.641253, -0.164432], atol=1e-6)


@pytest.mark.parametrize("eyes", ["protanomaly", "deuteranomaly"])
def test_a_graver_deficiency_moves_a_matrix_farther_from_none(eyes):
    """Red-green alone: the published matrices of tritanomaly go to and fro when it is slight."""
    away = [np.abs(cvd_matrix(eyes, s) - np.eye(3)).max() for s in np.linspace(0, 1, 41)]
    assert (np.diff(away) > 0).all()
