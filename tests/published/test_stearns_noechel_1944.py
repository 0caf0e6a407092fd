"""Carded blends: E. I. Stearns and F. Noechel, American Dyestuff Reporter 33(9), 1944, 177-180.

The formula was read in later work that quotes it, first value M = 0.15; the citation, and that it
is of worsted wool, are from memory, no open copy found. A second value of M, read: 0.136 of viscose
(R. Yang, Z. Wang and B. Pan, Silk, 2021, number 9, abstract).
"""

import numpy as np

from yarncolor.colour.carding import (
    STEARNS_NOECHEL_M,
    stearns_noechel,
)


def test_the_constant_is_that_of_wool():
    assert STEARNS_NOECHEL_M == 0.15


def test_the_formula_by_hand():
    """f(0.60) and f(0.10) at M = 0.15: the formula's arithmetic done by hand."""
    np.testing.assert_allclose(
        stearns_noechel(np.array([0.6, 0.1])), [4.060914, 38.297872], rtol=1e-6
    )
