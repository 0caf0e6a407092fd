"""The formula of carded blends at the ends of its scale, and back."""

import numpy as np
import pytest

from yarncolor.colour.carding import (
    stearns_noechel,
    stearns_noechel_inverse,
)

R = np.linspace(0.01, 1, 400)


@pytest.mark.parametrize("m", [0.05, 0.136, 0.15, 1.0])
def test_the_ends_of_the_scale_for_every_constant(m):
    np.testing.assert_allclose(stearns_noechel(np.array([1.0, 0.01]), m), [0, 99], atol=1e-12)
    np.testing.assert_allclose(stearns_noechel_inverse(stearns_noechel(R, m), m), R, atol=1e-12)
