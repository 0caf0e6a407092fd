"""Screen colours as CIELAB: IEC 61966-2-1 (sRGB) and CIE 15 (CIELAB), D65, 2° observer.

Libraries differ in the last digits of the matrix and of the white, by up to 0.03 of CIELAB.
"""

import numpy as np
import pytest
from coloraide import Color

from yarncolor.colour.science import lab_from_srgb, srgb_from_hex

LIBRARIES_DIFFER = 0.03
PRIMARIES = [
    ("#ff0000", (53.2406, 80.0923, 67.2028)),  # as scikit-image computes it
    ("#ff0000", (53.2329, 80.1112, 67.2237)),  # as colour-science computes it
    ("#ffffff", (100.0, 0.0, 0.0)),  # by definition of the white
    ("#000000", (0.0, 0.0, 0.0)),  # by definition
]


def cube(steps: int) -> np.ndarray:
    axis = np.linspace(0, 1, steps)
    return np.stack(np.meshgrid(axis, axis, axis), axis=-1).reshape(-1, 3)


def by_the_standards(srgb: np.ndarray) -> np.ndarray:
    """Return CIELAB by IEC 61966-2-1, its matrix of four digits, and CIE 15, written out."""
    linear = np.where(srgb <= 0.04045, srgb / 12.92, ((srgb + 0.055) / 1.055) ** 2.4)
    matrix = [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
    xyz = linear @ np.transpose(matrix) / np.sum(matrix, axis=1)
    root = np.where(xyz > (6 / 29) ** 3, np.cbrt(xyz), xyz * (29 / 6) ** 2 / 3 + 4 / 29)
    x, y, z = root.T
    return np.column_stack([116 * y - 16, 500 * (x - y), 200 * (y - z)])


@pytest.mark.parametrize(("colour", "lab"), PRIMARIES)
def test_a_primary_is_where_other_libraries_put_it(colour, lab):
    found = lab_from_srgb(srgb_from_hex([colour]))[0]
    np.testing.assert_allclose(found, lab, rtol=0, atol=LIBRARIES_DIFFER)


def test_half_the_light_of_white_is_far_lighter_than_the_middle():
    """Grassmann 1853, additivity: half of the light is L* = 116 ∛0.5 - 16 = 76.069."""
    half = (1.055 * 0.5 ** (1 / 2.4) - 0.055) * np.ones((1, 3))
    np.testing.assert_allclose(half, 0.73536, atol=5e-6)
    assert lab_from_srgb(half)[0, 0] == pytest.approx(76.069, abs=1e-3)


def test_the_whole_cube_agrees_with_a_second_library():
    srgb = cube(11)
    other = [Color("srgb", list(row)).convert("lab-d65").coords() for row in srgb]
    np.testing.assert_allclose(lab_from_srgb(srgb), other, rtol=0, atol=LIBRARIES_DIFFER)


def test_the_whole_cube_agrees_with_the_standards_written_out():
    srgb = cube(33)
    np.testing.assert_allclose(
        lab_from_srgb(srgb), by_the_standards(srgb), rtol=0, atol=LIBRARIES_DIFFER
    )
