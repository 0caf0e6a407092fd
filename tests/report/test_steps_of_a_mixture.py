"""What is said of batts carded in steps from one lot to another."""

import numpy as np

from yarncolor.colour.mixtures import Pair
from yarncolor.report.show.mixtures import steps_shown

LIGHT_AND_DARK = Pair(("Foam", "Mussel"), np.array([[90.0, 0.0, 5.0], [25.0, 2.0, -20.0]]))


def test_steps_that_look_alike_are_called_alike_and_not_once_as_large():
    """Even steps are the same by their definition; those by weight are not, of light and dark."""
    told = steps_shown(LIGHT_AND_DARK).html
    assert "1.0 times" not in told
    assert "Weighed so that every step looks alike: to the eye, all steps are alike." in told
    assert "Weighed in even steps: to the eye, the largest step is " in told
