"""How spinners twist: a handout of 1995 for hand-combed wool, one spinner's working points, the
angles and the two thirds that spinners go by. Common practice, no source; factors derived.
"""

from math import pi, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.units import diameter_mm, tpi, tpm
from yarncolor.yarn.balance import balanced_tpm, two_thirds
from yarncolor.yarn.helix import Single, ply_spacing_mm
from yarncolor.yarn.linear_density import from_tex, to_tex
from yarncolor.yarn.twist import (
    twist_angle_deg,
    twist_factor,
    twist_from_angle,
    twist_from_factor,
)
from yarncolor.yarn.wraps import relaxed_density, wrapping_factor

# common practice, no source
HANDOUT = [  # wraps, tex as printed, exact tex, worsted count, turns to the inch, yd/lb
    (20, 880, 885.8, 1, 3.5, 560),
    (30, 440, 442.9, 2, 4.5, 1120),
    (42, 220, 221.5, 4, 6.5, 2240),
    (60, 110, 110.7, 8, 9, 4480),
    (74, 74, 73.8, 12, 11, 6720),
]
WORKING_POINTS = [(5600, 9, 3335), (22_400, 16, 2964), (2200, 4.5, 2660)]  # yd/lb, tpi, factor
FACTORS = [  # yarn, metric multiplier from to, factor from to in tex^½·turns/m, rounded to 50
    ("worsted knitting", (65, 85), (2050, 2700)),
    ("worsted weaving", (80, 100), (2500, 3150)),
    ("woollen", (60, 100), (1900, 3150)),
]


@pytest.mark.parametrize("row", HANDOUT, ids=lambda row: f"{row[5]} yd/lb")
def test_a_row_of_the_handout_is_one_yarn(row):
    # common practice, no source
    wraps, printed, tex, count, turns, yards = row
    found = to_tex(count, "worsted count")
    assert found == pytest.approx(tex, abs=0.06)
    assert found == pytest.approx(printed, rel=0.01)
    assert from_tex(found, "yd/lb") == pytest.approx(yards, rel=1e-12)
    k = wrapping_factor(relaxed_density(wraps, found))
    assert 0.84 < k < 0.905
    assert turns == pytest.approx(3.2 * sqrt(count), abs=0.4)
    assert twist_factor(tpm(turns), found) > 3600


@pytest.mark.parametrize("row", HANDOUT[1:], ids=lambda row: f"{row[5]} yd/lb")
def test_finer_than_its_floor_the_handout_keeps_to_one_factor(row):
    """About 3600 to 3830, which is 3.2 times the root of the worsted count to within 4 %."""
    # common practice, no source
    tex = to_tex(row[5], "yd/lb")
    assert 3600 <= twist_factor(tpm(row[4]), tex) <= 3830
    by_rule = tpi(twist_from_factor(3.2, tex, "worsted"))
    assert by_rule == pytest.approx(row[4], rel=0.04)


@pytest.mark.parametrize(("yards", "turns", "factor"), WORKING_POINTS)
def test_one_spinner_s_working_points(yards, turns, factor):
    # common practice, no source
    found = twist_factor(tpm(turns), to_tex(yards, "yd/lb"))
    assert found == pytest.approx(factor, abs=0.5)


@pytest.mark.parametrize(("yarn", "multipliers", "factors"), FACTORS)
def test_multipliers_and_factors_of_a_kind_of_yarn_are_the_same_ranges(yarn, multipliers, factors):
    """From memory, of low certainty: only their conversion is tested."""
    # common practice, no source
    for multiplier, factor in zip(multipliers, factors, strict=True):
        found = twist_factor(twist_from_factor(multiplier, 100, "metric"), 100)
        assert found == pytest.approx(factor, abs=31)


@pytest.mark.parametrize("density", [0.25, 0.4, 0.5])
def test_a_sock_yarn_has_about_twice_the_twist_of_one_that_just_holds(density):
    """15° just holds, 20° knits softly, 30 to 35° makes socks."""
    # common practice, no source
    for tex in (30, 100, 300):
        holds, soft, sock, hard = (
            twist_from_angle(angle, tex, density) for angle in (15, 20, 30, 35)
        )
        assert holds < soft < sock < hard
        assert sock / holds == pytest.approx(tan(pi / 6) / tan(pi / 12), rel=1e-12)
        assert twist_angle_deg(soft, diameter_mm(tex, density)) == pytest.approx(20, rel=1e-12)


def test_six_turns_in_the_test_mean_nine_in_the_single():
    # common practice, no source
    assert tpi(two_thirds(Single(0.8, tpm(9)), 2)) == pytest.approx(6, rel=1e-12)


@given(st.floats(0.05, 5), st.floats(1, 2000), st.integers(2, 6))
def test_the_spinners_rule_is_the_same_for_any_yarn(diameter, turns, plies):
    # common practice, no source
    found = balanced_tpm(Single(diameter, turns), plies)["two_thirds"]
    assert 3 * found == pytest.approx(2 * turns, rel=1e-12)


@given(st.floats(10, 800), st.integers(2, 8))
def test_bumps_along_one_side_over_the_plies_are_the_turns(turns, plies):
    # common practice, no source
    bumps_in_an_inch = 25.4 / ply_spacing_mm(turns, plies)
    assert bumps_in_an_inch / plies == pytest.approx(tpi(turns), rel=1e-12)


def test_two_plies_at_four_turns_show_eight_bumps_in_an_inch():
    # common practice, no source
    assert 25.4 / ply_spacing_mm(tpm(4), 2) == pytest.approx(8, rel=1e-12)
