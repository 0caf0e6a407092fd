"""What a grade of a grey scale by instrument must obey, whatever its formula."""

import numpy as np
import pytest

from yarncolor.colour.difference import grey_scale_difference, grey_scale_grade


def any_colours(count: int, seed: int) -> np.ndarray:
    drawn = np.random.default_rng(seed).random((count, 3))
    return drawn * [100, 256, 256] - [0, 128, 128]


def test_the_two_halves_of_the_formula_meet_at_three():
    just_below, there, just_above = grey_scale_grade(3.4 + np.array([-1e-9, 0, 1e-9]))
    assert just_below == pytest.approx(3, abs=1e-8)
    assert just_above == pytest.approx(3, abs=1e-8)
    assert just_below > there > just_above


def test_a_larger_difference_never_has_a_better_grade():
    grades = grey_scale_grade(np.linspace(0, 40, 40_001))
    assert (np.diff(grades) <= 0).all()
    assert (np.diff(grades[:13_600]) < 0).all()


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
