"""What any difference of colours must obey."""

import numpy as np

from yarncolor.colour.science import ciede2000


def any_colours(count: int, seed: int) -> np.ndarray:
    drawn = np.random.default_rng(seed).random((count, 3))
    return drawn * [100, 256, 256] - [0, 128, 128]


def test_it_does_not_matter_which_colour_comes_first():
    lab_1, lab_2 = any_colours(5000, 5), any_colours(5000, 6)
    np.testing.assert_allclose(ciede2000(lab_1, lab_2), ciede2000(lab_2, lab_1), atol=1e-10)


def test_a_colour_does_not_differ_from_itself_and_differs_from_every_other():
    lab = any_colours(5000, 7)
    assert (ciede2000(lab, lab) == 0).all()
    assert (ciede2000(lab, any_colours(5000, 8)) > 0).all()
