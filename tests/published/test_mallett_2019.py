"""Reflectance of a colour: I. Mallett, C. Yuksel, Eurographics Symposium on Rendering, 2019."""

from concurrent.futures import ThreadPoolExecutor

import numpy as np

from yarncolor.colours import ciede2000, lab_from_srgb, mallett_basis, tristimulus_weights
from yarncolor.mixing import blended_lab
from yarncolor.reflectance import lab_from_reflectance, reflectance


def test_there_and_back_over_the_whole_of_srgb():
    """Mean 0.005 and largest 0.022 CIEDE2000 were computed for the reference sheet.

    Colours darker than the darkest wool of the model (R = 0.001) are left out.
    """
    levels = np.linspace(0, 1, 9)
    srgb = np.stack(np.meshgrid(levels, levels, levels), axis=-1).reshape(-1, 3)
    lab = lab_from_srgb(srgb)
    there = reflectance(lab)
    unclipped = (there > 1.001e-3).all(axis=1) & (there < 1).all(axis=1)
    apart = ciede2000(lab_from_reflectance(there), lab)[unclipped]
    assert unclipped.sum() > 100
    assert apart.max() < 0.03


def test_the_basis_adds_up_to_white_and_the_light_to_daylight():
    np.testing.assert_allclose(mallett_basis().sum(axis=1), 1, atol=1e-3)
    white = tristimulus_weights().sum(axis=0)
    np.testing.assert_allclose(white, [0.9504, 1, 1.0888], atol=5e-4)


def test_reflectances_are_possible():
    lab = np.random.default_rng(2).random((500, 3)) * [100, 200, 200] - [0, 100, 100]
    found = reflectance(lab)
    assert ((found > 0) & (found <= 1)).all()


def test_eight_threads_find_the_same():
    lab = np.random.default_rng(3).random((6, 3)) * [60, 40, 40] + [20, -20, -20]
    parts = np.random.default_rng(4).random((500, 6))
    with ThreadPoolExecutor(8) as threads:
        found = set(threads.map(lambda _: blended_lab(parts, lab).tobytes(), range(24)))
    assert len(found) == 1
