"""Loops, areas and tightness of plain knitting, derived from the published constants."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.knitting import (
    MUNDEN_KS,
    loop_from_swatch_cm,
    loop_length_cm,
    tex_for_tightness,
    tightness_factor,
    yarn_per_area_m,
)
from yarncolor.yarn.linear_density import to_tex

CONSTANTS = [  # state, Kc, Kw, Ks as printed
    ("dry relaxed", 5.0, 3.8, 19.0),
    ("wet relaxed", 5.3, 4.1, 21.6),
    ("fully relaxed", 5.5, 4.2, 23.1),
]
GAUGE = [  # state; 20 stitches, 28 rows in 10 cm: loop in cm, m in 10 x 10 cm, row over its width
    ("dry relaxed", 1.842, 10.32, 3.68),
    ("wet relaxed", 1.964, 11.00, 3.93),
    ("fully relaxed", 2.031, 11.37, 4.06),
]
gauges = st.floats(4, 80)
linear_densities = st.floats(5, 5000)
ks_values = st.sampled_from(sorted(MUNDEN_KS.values()))


@pytest.mark.parametrize(("state", "loop", "metres", "times"), GAUGE)
def test_twenty_stitches_and_twenty_eight_rows(state, loop, metres, times):
    ks = MUNDEN_KS[state]
    found = loop_length_cm(20, 28, ks)
    assert found == pytest.approx(loop, abs=5e-4)
    assert yarn_per_area_m(20, 28, 100, ks) == pytest.approx(metres, abs=0.005)
    assert found * 20 / 10 == pytest.approx(times, abs=0.005)


def test_washed_wool_is_assumed_unless_said_otherwise():
    assert loop_length_cm(20, 28) == pytest.approx(1.964, abs=0.01)
    assert yarn_per_area_m(20, 28, 100) == pytest.approx(11.00, abs=0.01)


@pytest.mark.parametrize(("state", "kc", "kw", "ks"), CONSTANTS)
def test_courses_and_wales_of_every_loop_lead_back_to_it(state, kc, kw, ks):
    """From the loop to the gauge by the two constants, and back by the third."""
    for hundredths in range(20, 501, 5):
        loop = hundredths / 100
        found = loop_length_cm(10 * kw / loop, 10 * kc / loop, ks)
        assert found == pytest.approx(loop, rel=0.004)
        assert loop_length_cm(10 * kw / loop, 10 * kc / loop, kc * kw) == pytest.approx(loop)


@given(gauges, gauges, st.floats(1, 20_000), ks_values)
def test_yarn_in_an_area_is_counted_stitch_by_stitch(stitches, rows, area, ks):
    """A √(Ks S); and so many loops of so much yarn."""
    per_cm2 = stitches / 10 * rows / 10
    found = yarn_per_area_m(stitches, rows, area, ks)
    assert found == pytest.approx(area * sqrt(ks * per_cm2) / 100, rel=1e-12)
    loops = per_cm2 * area
    assert found == pytest.approx(loops * loop_length_cm(stitches, rows, ks) / 100, rel=1e-12)


@given(gauges, gauges, st.floats(1.01, 3))
def test_a_finer_gauge_has_shorter_loops_and_takes_more_yarn(stitches, rows, finer):
    assert loop_length_cm(stitches * finer, rows) < loop_length_cm(stitches, rows)
    assert yarn_per_area_m(stitches, rows * finer, 100) > yarn_per_area_m(stitches, rows, 100)


@given(gauges, gauges)
def test_stitches_and_rows_count_alike_and_more_relaxed_fabric_has_longer_loops(stitches, rows):
    assert loop_length_cm(stitches, rows) == pytest.approx(loop_length_cm(rows, stitches))
    loops = [loop_length_cm(stitches, rows, MUNDEN_KS[state]) for state, *_ in CONSTANTS]
    assert loops == sorted(loops)


@given(gauges, gauges, linear_densities, st.floats(10, 5000))
def test_a_swatch_weighed_tells_the_loop_that_made_it(stitches, rows, tex, area):
    """Mass is length times linear density; the loops are all of that length."""
    mass = yarn_per_area_m(stitches, rows, area) * tex / 1000
    loops = stitches * rows / 100 * area
    found = loop_from_swatch_cm(loops, mass, tex)
    assert found == pytest.approx(loop_length_cm(stitches, rows), rel=1e-12)


def test_a_swatch_of_the_worked_yarn():
    """220 yd in 100 g, 497.1 tex; K = 11.35 and 5.47 g in 10 x 10 cm; derived."""
    tex = 100 / (220 * 0.9144) * 1000
    assert tex == pytest.approx(497.1, abs=0.05)
    assert to_tex(220 * 0.9144, "m/100 g") == pytest.approx(tex, rel=1e-12)
    assert tightness_factor(tex, 1.964) == pytest.approx(11.35, abs=0.005)
    assert yarn_per_area_m(20, 28, 100) * tex / 1000 == pytest.approx(5.47, abs=0.005)
    assert loop_from_swatch_cm(560, 5.47, tex) == pytest.approx(1.964, abs=0.002)


def test_the_yarn_that_fills_a_fabric_to_twelve():
    """K = 12, l = 1.5 cm: 324 tex; derived, exact."""
    assert tex_for_tightness(12, 1.5) == pytest.approx(324, rel=1e-12)


@given(st.floats(1, 40), st.floats(0.1, 6))
def test_tightness_and_tex_are_inverse(tightness, loop):
    tex = tex_for_tightness(tightness, loop)
    assert tightness_factor(tex, loop) == pytest.approx(tightness, rel=1e-12)


@given(linear_densities, st.floats(0.1, 6), st.floats(1.01, 4))
def test_a_thicker_yarn_or_a_shorter_loop_fills_a_fabric_more(tex, loop, more):
    assert tightness_factor(tex * more, loop) > tightness_factor(tex, loop)
    assert tightness_factor(tex, loop * more) < tightness_factor(tex, loop)
