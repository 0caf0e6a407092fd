"""Marl from afar: X. Zhang and B. A. Wandell, Journal of the SID 5, 1997, 61-63 (S-CIELAB).

The matrix and the kernels were read in the authors' published code of 1996; the tables of the
transform and of the frequencies at which a marl fades were computed apart.
"""

import numpy as np
import pytest

from yarncolor.colour.optical_mixing import (
    OPPONENT,
    contrast_left,
)


def test_the_opponent_colour_of_daylight():
    found = OPPONENT @ [0.9505, 1, 1.089]
    np.testing.assert_allclose(found, [0.870704, -0.052730, 0.037418], atol=1e-5)


@pytest.mark.parametrize(
    ("cpd", "expected"),
    [
        (1, (1.0899, 0.6403, 0.6493)),
        (2, (1.0238, 0.5769, 0.5046)),
        (4, (0.8765, 0.4721, 0.3507)),
        (8, (0.5676, 0.2118, 0.0826)),
        (20, (0.0285, 0.0008, 0.0000)),
    ],
)
def test_what_the_eye_passes_on(cpd, expected):
    np.testing.assert_allclose(contrast_left(np.array(cpd)), expected, atol=1e-4)
