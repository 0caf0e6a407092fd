"""From how far a marl is one colour: against yarns drawn and blurred apart, and by laws."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.drawn_afar import DrawnMarl, minute_of_arc_m
from yarncolor.colour.optical_mixing import reads_as_one_m
from yarncolor.colour.science import ciede2000, lab_from_srgb

LAID = ("alone", "wrapped", "knitted")
ALIKE = 1.8
"""CIEDE2000: half of all observers let it pass (Paravina and others 2015, abstract)."""
CREAM_BROWN = ((85, 1, 10), (35, 10, 15))
RED_BLUE = ((45, 40, 30), (35, -2, -25))
TONES = ((50, 0, 0), (60, 0, 0))
RED_GREEN = ((45, 50, 30), (45, -40, 25))
PAIRS = (CREAM_BROWN, RED_BLUE, TONES, RED_GREEN)
YARNS = [(1.5, 5.0), (2.0, 10.0), (3.0, 5.0)]

colours = st.tuples(*[st.floats(0.02, 0.98)] * 3)
widths, turns = st.floats(0.3, 8), st.floats(2, 60)


@pytest.mark.parametrize("laid", LAID)
@pytest.mark.parametrize(("width_mm", "turn_mm"), YARNS)
def test_drawn_yarns_run_together_where_it_says(width_mm, turn_mm, laid):
    """Within a fifteenth; where eyes are no finer than a minute of arc, the blur is not asked."""
    farthest = minute_of_arc_m(width_mm)
    for pair in PAIRS:
        drawn = DrawnMarl(pair, turn_mm, width_mm, laid).one_colour_m(ALIKE, 1.5 * farthest)
        said = float(reads_as_one_m(np.array(pair, float), turn_mm, width_mm, laid))
        assert said == pytest.approx(min(drawn, farthest), rel=1 / 15)


@pytest.mark.parametrize("laid", LAID)
@given(colours, colours, widths, turns)
def test_never_from_farther_than_a_minute_of_arc_allows_the_yarn(laid, one, other, width, turn):
    found = reads_as_one_m(lab_from_srgb(np.array([one, other])), turn, width, laid)
    assert 0 <= found <= minute_of_arc_m(width) * (1 + 1e-9)


@pytest.mark.parametrize("laid", LAID)
@given(st.tuples(colours, colours), st.tuples(widths, turns), st.floats(0.1, 1))
def test_a_finer_yarn_of_the_same_angle_merges_so_much_nearer(laid, pair, yarn, by):
    (width, turn), lab = yarn, lab_from_srgb(np.array(pair))
    coarse, fine = (reads_as_one_m(lab, turn * f, width * f, laid) for f in (1.0, by))
    assert fine == pytest.approx(by * coarse, rel=1e-3)


@pytest.mark.parametrize(("laid", "least"), [("alone", 2), ("wrapped", 2), ("knitted", 3.5)])
@given(st.tuples(colours, colours), widths, st.floats(0, 1))
def test_a_finer_yarn_of_the_same_turn_merges_no_farther(laid, least, pair, width, more):
    """The turn is 2 to 8 widths of the thicker one; knitted, 3.5 to 8.

    A leg of a stitch is two widths long. One that holds most of a turn shows the mean of its
    stripes already, and merges nearer than finer legs that hold less of it.
    """
    turn = width * (least + more * (8 - least))
    lab = lab_from_srgb(np.array(pair))
    metres = [float(reads_as_one_m(lab, turn, width * by, laid)) for by in (1, 0.7, 0.5, 0.3)]
    assert all(after <= before * 1.02 for before, after in pairwise(metres))


def test_a_leg_that_holds_a_whole_turn_merges_nearer_than_a_finer_one():
    lab = lab_from_srgb(np.array([[0.5, 0.5, 0.5], [0.5, 0.25, 0.5]]))
    whole, finer = (float(reads_as_one_m(lab, 2.0, width, "knitted")) for width in (1.0, 0.7))
    assert whole < finer


@pytest.mark.parametrize("laid", LAID)
@pytest.mark.parametrize("pair", PAIRS)
def test_softer_colours_merge_no_farther(pair, laid):
    """Each nearer to the middle of both, in CIELAB."""
    lab = np.array(pair, float)
    middle = lab.mean(axis=0)
    metres = [
        float(reads_as_one_m(middle + (lab - middle) * part, 8.0, 2.0, laid))
        for part in (1, 0.8, 0.6, 0.4, 0.2, 0.1)
    ]
    assert all(after <= before * 1.01 for before, after in pairwise(metres))


@pytest.mark.parametrize(("laid", "by"), [("alone", 1.05), ("wrapped", 1.05), ("knitted", 1.1)])
@given(st.tuples(colours, colours), widths)
def test_harder_twist_merges_no_farther(laid, by, pair, width):
    """Shorter stripes are finer: of one width, it is the softer twist that is seen from farther.

    But for a few in a hundred, which no eye would tell: waves of about a cycle in a degree pass a
    little strengthened, and a leg of a knitted stitch cuts long stripes off.
    """
    lab = lab_from_srgb(np.array(pair))
    softest_first = (20, 12, 8, 5, 3, 2)
    metres = [float(reads_as_one_m(lab, turn * width, width, laid)) for turn in softest_first]
    assert all(after <= before * by for before, after in pairwise(metres))


@pytest.mark.parametrize("laid", LAID[:2])
def test_drawn_apart_too_the_softer_twist_is_seen_from_farther(laid):
    """It is no law that softer twist merges nearer; the drawing knows nothing of the rest."""
    farthest = 1.5 * minute_of_arc_m(2.0)
    hard, soft = (
        DrawnMarl(RED_BLUE, turn, 2.0, laid).one_colour_m(ALIKE, farthest) for turn in (5.0, 15.0)
    )
    assert soft > 1.2 * hard


@given(colours, colours, st.sampled_from(LAID))
def test_what_is_alike_is_one_from_anywhere(one, other, laid):
    lab = lab_from_srgb(np.array([one, other]))
    found = float(reads_as_one_m(lab, 6.0, 1.5, laid))
    assert (found == 0) == bool(ciede2000(lab[0], lab[1]) <= ALIKE)


@pytest.mark.parametrize("plies", [2, 3, 4, 12])
def test_many_plies_of_two_colours_merge_nearer_than_two(plies):
    """A, B, A, B … show each colour in less of a turn."""
    lab = np.array(RED_BLUE, float)
    two = float(reads_as_one_m(lab, 20.0, 2.0))
    many = float(reads_as_one_m(np.tile(lab, (max(plies // 2, 1), 1)), 20.0, 2.0))
    assert many <= two * 1.01


@pytest.mark.parametrize(
    ("turn_mm", "width_mm", "laid"),
    [(np.nan, 1, "alone"), (-3, 1, "alone"), (np.inf, 1, "alone"), (5, 0, "alone"),
     (5, np.nan, "alone"), (5, 1, "woven")],
)  # fmt: skip
def test_a_thread_that_cannot_be_is_refused(turn_mm, width_mm, laid):
    with pytest.raises(ValueError, match="width"):
        reads_as_one_m(np.array(RED_BLUE, float), turn_mm, width_mm, laid)
