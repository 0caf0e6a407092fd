"""Grey-scale grades by instrument: ISO 105-A05, Instrumental assessment of change in colour for
determination of grey scale rating.

Read were, in published code that works by EN ISO 105-A05:1997, the grade of a difference (clause 8)
and the mean hue, its distance x from blue and the sign of a hue difference (clause 7.2). How much
chroma and hue count, 20 and 10 over 1000, and the D that ties them are from memory, for previews of
the standard end before them. The values are the formula's arithmetic done by hand; it is written a
second time below. The grey scale itself, part A02, is tested next door.
"""

from math import atan2, degrees, exp, hypot, sqrt

import numpy as np
import pytest

from yarncolor.colour.difference import grey_scale_difference, grey_scale_grade

GRADES = [  # ΔE_F, grade; ISO 105-A05, clause 8, by hand
    (0.0, 5.0),
    (0.8, 4.529),
    (1.7, 4.0),
    (2.5, 3.529),
    (3.4, 3.0),
    (4.8, 2.503),
    (6.8, 2.0),
    (9.6, 1.503),
    (13.6, 1.0),
]
BANDS = [  # ΔE_F, the grade half way between two half steps: 4.75, 4.25 ..., as read
    (0.40, 4.75),
    (1.25, 4.25),
    (2.10, 3.75),
    (2.95, 3.25),
    (4.10, 2.75),
    (5.80, 2.25),
    (8.20, 1.75),
    (11.60, 1.25),
]


def by_the_standard(lab_1, lab_2) -> float:
    """Return ΔE_F of a specimen and its original, letter by letter.

    The hue difference bears the sign of the turn from original to specimen (CIE 15).
    """
    light = lab_1[0] - lab_2[0]
    chroma_t, chroma_o = hypot(*lab_1[1:]), hypot(*lab_2[1:])
    d_chroma, chroma_m = chroma_t - chroma_o, (chroma_t + chroma_o) / 2
    d_hue = sqrt(max(0, (lab_1[1] - lab_2[1]) ** 2 + (lab_1[2] - lab_2[2]) ** 2 - d_chroma**2))
    hue_t, hue_o = (degrees(atan2(lab[2], lab[1])) % 360 for lab in (lab_1, lab_2))
    if (hue_t - hue_o) % 360 > 180:
        d_hue = -d_hue
    hue_m = (hue_t + hue_o) / 2
    if abs(hue_t - hue_o) > 180:
        hue_m = hue_m - 180 if hue_m >= 180 else hue_m + 180
    away = abs(hue_m - 280)
    x = ((away if away <= 180 else 360 - away) / 30) ** 2
    d = d_chroma * chroma_m * exp(-x) / 100
    chroma_f = (d_chroma - d) / (1 + (20 * chroma_m / 1000) ** 2)
    hue_f = (d_hue - d) / (1 + (10 * chroma_m / 1000) ** 2)
    return sqrt(light**2 + chroma_f**2 + hue_f**2)


def any_colours(count: int, seed: int) -> np.ndarray:
    drawn = np.random.default_rng(seed).random((count, 3))
    return drawn * [100, 256, 256] - [0, 128, 128]


@pytest.mark.parametrize(("difference", "expected"), GRADES)
def test_a_difference_has_its_grade(difference, expected):
    assert grey_scale_grade(difference) == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize(("border", "grade_there"), BANDS)
def test_the_rounded_grade_changes_at_each_border(border, grade_there):
    assert grey_scale_grade(border) == pytest.approx(grade_there, abs=0.03)


def test_two_lots_are_graded_as_the_standard_does():
    one, two = any_colours(3000, 1), any_colours(3000, 2)
    pairs = zip(one.tolist(), two.tolist(), strict=True)
    expected = [by_the_standard(a, b) for a, b in pairs]
    np.testing.assert_allclose(grey_scale_difference(one, two), expected, rtol=1e-9, atol=1e-9)
