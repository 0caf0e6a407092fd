"""Two colours side by side, measured as one: hand-woven cloths, report of 2021, table 4.7.

P. Khuntong and W. Siapthaisong, technical report (in Thai), Buriram Rajabhat University, 2021, as
published in doi 10.5281/zenodo.23205538 (CC BY 4.0). Warp and weft are of one yarn each, so that
cloths of one colour are the lots, and every other cloth of that loom is a mixture of two. Chosen
before anything was reckoned: all cloths whose warp and weft are of one loom's five colours. The
observer was not written down; what is reckoned hardly hangs on it.
"""

import numpy as np
import pytest

from tests.helpers.paths import ROOT
from yarncolor.colour.optical_mixing import MERGED_APART, MERGED_DARKER, far_lab
from yarncolor.colour.science import ciede2000

_TABLE = np.loadtxt(
    ROOT / "tests/published/hand_woven_2021.csv", delimiter=",", comments="#", skiprows=5
)
_OF_ONE = {row[0]: row[2:] for row in _TABLE if row[0] == row[1]}
_MIXED = np.array([row for row in _TABLE if row[0] != row[1]])


def _merged() -> np.ndarray:
    pairs = [np.array([_OF_ONE[warp], _OF_ONE[weft]]) for warp, weft in _MIXED[:, :2]]
    return np.concatenate([far_lab([[1, 1]], pair) for pair in pairs])


@pytest.mark.oracle
def test_the_table_is_whole():
    """Five looms of five colours; the sum of each column as published."""
    assert (len(_OF_ONE), len(_MIXED)) == (25, 100)
    assert all(((_MIXED[:, 0] == warp).sum() == 4) for warp in _OF_ONE)


def test_merged_colours_lie_as_far_from_measured_ones_as_is_said():
    apart = ciede2000(_merged(), _MIXED[:, 2:])
    assert apart.mean() == pytest.approx(MERGED_APART, abs=0.05)


def test_real_ones_are_darker_as_is_said():
    darker = _merged()[:, 0] - _MIXED[:, 2]
    assert darker.mean() == pytest.approx(MERGED_DARKER, abs=0.05)
    assert (darker > 0).mean() > 0.75


def _as_measured(lab: np.ndarray) -> float:
    return float(ciede2000(lab, _MIXED[:, 2:]).mean())


def test_a_colour_of_the_two_alone_would_lie_farther():
    pairs = np.array([[_OF_ONE[warp], _OF_ONE[weft]] for warp, weft in _MIXED[:, :2]])
    for alone in (pairs[:, 0], pairs[:, 1]):
        assert 3 * _as_measured(_merged()) < _as_measured(alone)


def test_what_no_light_does_would_lie_nearer():
    """The mean in CIELAB: threads that shade each other are as dark; known, and said."""
    pairs = np.array([[_OF_ONE[warp], _OF_ONE[weft]] for warp, weft in _MIXED[:, :2]])
    assert _as_measured(pairs.mean(axis=1)) == pytest.approx(2.6, abs=0.05)
