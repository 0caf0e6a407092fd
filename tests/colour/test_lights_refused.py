"""Shares and colours that no light can have."""

import numpy as np
import pytest

from yarncolor.colour.optical_mixing import far_lab

BLACK_AND_WHITE = np.array([[0.0, 0, 0], [100.0, 0, 0]])


def test_what_is_no_number_is_refused():
    for share, light in (([np.nan, 1], 50.0), ([1, 1], np.nan), ([1, 1], 5000.0)):
        with pytest.raises(ValueError, match=r"colour values|each share"):
            far_lab([share], np.array([[light, 0, 0], [50, 0, 0]]))


def test_shares_below_nothing_are_refused():
    with pytest.raises(ValueError, match="share"):
        far_lab([[-1, 3]], BLACK_AND_WHITE)
