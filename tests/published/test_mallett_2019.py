"""Reflectance of a colour: I. Mallett, C. Yuksel, Eurographics Symposium on Rendering, 2019."""

import numpy as np

from yarncolor.colour.science import (
    mallett_basis,
    tristimulus_weights,
)


def test_the_basis_adds_up_to_white_and_the_light_to_daylight():
    np.testing.assert_allclose(mallett_basis().sum(axis=1), 1, atol=1e-3)
    white = tristimulus_weights().sum(axis=0)
    np.testing.assert_allclose(white, [0.9504, 1, 1.0888], atol=5e-4)
