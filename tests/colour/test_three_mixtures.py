"""The same two lots carded, plied and dyed paler: each is what its own model says alone."""

import numpy as np
import pytest

from yarncolor.colour.carding import blended_lab, blended_reflectance
from yarncolor.colour.dye_depth import later_baths_lab
from yarncolor.colour.mixtures import Model, Pair, Recipe, mixtures
from yarncolor.colour.optical_mixing import far_lab
from yarncolor.colour.reflectance import lab_from_reflectance, reflectance_from_lab

INK, SAND = (25.0, 5.0, -30.0), (85.0, 2.0, 15.0)


def pair(*lab: tuple) -> Pair:
    return Pair(("Ink", "Sand"), np.array(lab))


@pytest.mark.parametrize(("lab", "dark"), [((INK, SAND), 0), ((SAND, INK), 1)])
def test_each_mixture_is_that_of_its_model_whichever_lot_comes_first(lab, dark):
    found = mixtures(pair(*lab), Recipe(parts=(1.0, 3.0), exhaustion=0.6))
    np.testing.assert_allclose(found.carded, blended_lab([[1, 3]], lab)[0])
    np.testing.assert_allclose(found.afar, far_lab([[1, 1]], lab)[0])
    (bath,) = later_baths_lab(lab[dark], lab[1 - dark], 0.6, [2])
    np.testing.assert_allclose(found.bath, bath)


def test_lots_of_one_lightness_have_no_bath_of_the_darker():
    grey = (50.0, 0.0, 0.0)
    assert mixtures(pair(grey, (50.0, 20.0, 0.0)), Recipe()).bath is None


def test_the_model_and_constant_that_are_asked_for_card_the_batt():
    """Friele with s = 0.5: -ln f = 0.5 · K/S adds up, so that s falls out of even parts."""
    lab = np.array([INK, SAND])
    recipe = Recipe(model=Model("friele", 0.5))
    spectra = reflectance_from_lab(lab)
    one, other = np.exp(-0.5 * (1 - spectra) ** 2 / (2 * spectra))
    k = -np.log((one + other) / 2) / 0.5
    wanted = lab_from_reflectance((1 + k - np.sqrt(k**2 + 2 * k))[None])[0]
    np.testing.assert_allclose(mixtures(pair(*lab), recipe).carded, wanted, rtol=1e-9)
    assert np.abs(wanted - blended_lab([[1, 1]], lab, "friele")[0]).max() > 1


def test_many_blends_at_once_are_each_what_it_is_alone():
    """More rows than are reckoned at once."""
    parts = np.column_stack([np.linspace(0, 1, 8200), np.linspace(1, 0, 8200)])
    lab = np.array([INK, SAND])
    many = blended_lab(parts, lab)
    assert many.shape == (8200, 3)
    for at in (0, 8191, 8192, 8199):
        np.testing.assert_allclose(many[at], blended_lab(parts[at], lab)[0], rtol=1e-12)
    (middle,) = blended_reflectance(parts[4000], reflectance_from_lab(lab))
    np.testing.assert_allclose(many[4000], lab_from_reflectance(middle[None])[0], rtol=1e-12)
