"""Colours and reflectances outside their scales."""

import numpy as np
import pytest

from yarncolor.colour.reflectance import lab_from_reflectance, reflectance_from_lab


@pytest.mark.parametrize("wrong", [np.nan, 4000.0])
def test_a_colour_outside_its_scale_is_refused(wrong):
    with pytest.raises(ValueError, match="colour values"):
        reflectance_from_lab(np.array([[wrong, 0, 0]]))


@pytest.mark.parametrize("wrong", [np.nan, 40.0])
def test_a_reflectance_outside_its_scale_has_no_colour(wrong):
    with pytest.raises(ValueError, match="colour values"):
        lab_from_reflectance(np.full((1, 81), wrong))
