"""Grey-scale grades by instrument: ISO 105-A05, Instrumental assessment of change in colour for
determination of grey scale rating.

The formula is from memory; so are the values, which are its arithmetic done by hand. What is
published and could be read, the grey scale of part A02, is tested next door.
"""

from math import atan2, degrees, exp, hypot, sqrt

import numpy as np
import pytest

from yarncolor.colour.difference import grey_scale_difference, grey_scale_grade

GRADES = [  # ΔE_F, grade; ISO 105-A05, from memory
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
BANDS = [  # ΔE_F, the grade half way between two half steps; ISO 105-A05, from memory
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
    """Return ΔE_F of a specimen and its original, letter by letter; from memory.

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


def test_the_two_halves_of_the_formula_meet_at_three():
    just_below, there, just_above = grey_scale_grade(3.4 + np.array([-1e-9, 0, 1e-9]))
    assert just_below == pytest.approx(3, abs=1e-8)
    assert just_above == pytest.approx(3, abs=1e-8)
    assert just_below > there > just_above


def test_a_larger_difference_never_has_a_better_grade():
    grades = grey_scale_grade(np.linspace(0, 40, 40_001))
    assert (np.diff(grades) <= 0).all()
    assert (np.diff(grades[:13_600]) < 0).all()


def test_two_lots_are_graded_as_the_standard_does():
    one, two = any_colours(3000, 1), any_colours(3000, 2)
    pairs = zip(one.tolist(), two.tolist(), strict=True)
    expected = [by_the_standard(a, b) for a, b in pairs]
    np.testing.assert_allclose(grey_scale_difference(one, two), expected, rtol=1e-9, atol=1e-9)


def test_the_two_ways_round_are_graded_alike():
    one, two = any_colours(20_000, 3), any_colours(20_000, 4)
    np.testing.assert_allclose(
        grey_scale_difference(one, two), grey_scale_difference(two, one), atol=1e-9
    )


def test_of_two_greys_only_lightness_counts_and_in_full():
    light_1, light_2 = np.random.default_rng(5).random((2, 5000)) * 100
    nothing = np.zeros(5000)
    one = np.column_stack([light_1, nothing, nothing])
    two = np.column_stack([light_2, nothing, nothing])
    np.testing.assert_allclose(
        grey_scale_difference(one, two), np.abs(light_1 - light_2), atol=1e-12
    )


def test_a_larger_difference_of_lightness_is_never_better():
    one, two = any_colours(5000, 6), any_colours(5000, 7)
    two[:, 0] = one[:, 0]
    before = grey_scale_difference(one, two)
    for more in (0.1, 1, 5, 20, 80):
        two[:, 0] = one[:, 0] + more
        after = grey_scale_difference(one, two)
        assert (after > before).all()
        assert (grey_scale_grade(after) <= grey_scale_grade(before)).all()
        before = after


def test_the_same_difference_of_hue_counts_for_less_the_more_colourful_the_pair_is():
    chroma = np.linspace(1, 128, 500)
    angle = np.radians(60 + 2 * np.degrees(np.arcsin(0.25 / chroma)))
    one = np.column_stack(
        [np.full(500, 50), chroma * np.cos(np.radians(60)), chroma * np.sin(np.radians(60))]
    )
    two = np.column_stack([np.full(500, 50), chroma * np.cos(angle), chroma * np.sin(angle)])
    np.testing.assert_allclose(np.linalg.norm(one - two, axis=1), 0.5, atol=1e-9)
    assert (np.diff(grey_scale_difference(one, two)) < 0).all()
