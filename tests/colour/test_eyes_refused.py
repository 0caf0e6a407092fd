"""Eyes, severities and colours that there are not."""

import numpy as np
import pytest

from yarncolor.colour.colour_vision import seen_srgb


@pytest.mark.parametrize(("eyes", "severity"), [("protanomaly", -0.1), ("night", 1.0)])
def test_other_eyes_and_severities_are_refused(eyes, severity):
    with pytest.raises(ValueError, match="severity of 0 to 1"):
        seen_srgb(np.array([[0.5, 0.5, 0.5]]), eyes, severity)


@pytest.mark.parametrize("wrong", [np.nan, 128.0, -0.2])
def test_a_colour_outside_its_scale_is_refused(wrong):
    with pytest.raises(ValueError, match="colour values"):
        seen_srgb(np.array([[wrong, 0.5, 0.5]]), "protanomaly")
