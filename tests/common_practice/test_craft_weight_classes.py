"""Classes of knitting yarn: the Craft Yarn Council's Standard Yarn Weight System as reproduced,
a spinning magazine's chart and another one in metres. Guidelines: common practice, no source.
"""

from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.linear_density import from_tex, to_tex
from yarncolor.yarn.weight_classes import (
    GAUGE,
    METRES,
    NAMES,
    OTHER_METRES,
    WRAPS,
    classes_at,
    weight_class,
)

# common practice, no source
CHART = [  # class, stitches in 4 inches, wraps to the inch, metres in 100 g by two charts
    ("lace", (33, 40), (30, 40), (485, 2000), (600, 800)),
    ("super fine", (27, 32), (14, 30), (383, 484), (400, 480)),
    ("fine", (23, 26), (12, 18), (242, 383), (300, 400)),
    ("light", (21, 24), (11, 15), (182, 242), (240, 300)),
    ("medium", (16, 20), (9, 12), (121, 181), (120, 240)),
    ("bulky", (12, 15), (6, 9), (81, 121), (100, 130)),
    ("super bulky", (7, 11), (5, 6), (0, 81), (0, 99)),
    ("jumbo", (0, 6), (1, 4), None, None),
]
YARDS = [  # class, yd/lb of the magazine's chart
    ("lace", 2401, None),
    ("super fine", 1901, 2400),
    ("fine", 1201, 1900),
    ("light", 901, 1200),
    ("medium", 601, 900),
    ("bulky", 401, 600),
    ("super bulky", None, 400),
]
CHARTS = {"gauge": GAUGE, "wraps": WRAPS, "metres": METRES, "other metres": OTHER_METRES}
ROWS = [
    (name, chart, span)
    for name, *spans in CHART
    for chart, span in zip(CHARTS, spans, strict=True)
    if span is not None
]

sizes = st.floats(0.5, 60)
metres = st.floats(10, 3000)
gauges = st.floats(1, 60)


@pytest.mark.parametrize(("name", "chart", "span"), ROWS)
def test_every_value_of_a_row_of_a_chart_is_of_its_class(name, chart, span):
    # common practice, no source
    low, high = span
    for step in range(101):
        assert name in classes_at(low + (high - low) * step / 100, CHARTS[chart])


@pytest.mark.parametrize("chart", CHARTS)
def test_a_value_is_of_the_classes_whose_rows_hold_it_and_of_no_other(chart):
    """Whole stitches, wraps and metres, but for the bounds in metres, which are rounded."""
    # common practice, no source
    rows = [(name, *span) for name, of, span in ROWS if of == chart]
    near = 2 if "metres" in chart else -1
    for value in range(1, 801 if "metres" in chart else 41):
        held = tuple(name for name, low, high in rows if low <= value <= high)
        at_a_bound = any(abs(value - bound) < near for _, *span in rows for bound in span)
        if held and not at_a_bound:
            assert classes_at(value, CHARTS[chart]) == held


@pytest.mark.parametrize(("name", "low", "high"), YARDS)
def test_the_magazine_s_yards_are_its_metres(name, low, high):
    """Bounds in yd/lb, a yard inside each; the metres are derived from them."""
    # common practice, no source
    for yards in [bound for bound in (low and low + 2, high and high - 2) if bound]:
        found = classes_at(from_tex(to_tex(yards, "yd/lb"), "m/100 g"), METRES)
        assert name in found


def test_the_charts_name_the_classes_from_fine_to_coarse():
    # common practice, no source
    assert [row[0] for row in CHART] == list(NAMES)
    for chart in CHARTS.values():
        assert all(low < high for low, high in chart)
        for (low, high), (next_low, next_high) in pairwise(chart):
            assert next_low <= low
            assert next_high <= high


@pytest.mark.parametrize("chart", CHARTS)
def test_a_finer_yarn_is_never_of_a_coarser_class(chart):
    # common practice, no source
    values = [step / 10 for step in range(1, 9000 if "metres" in chart else 600)]
    found = [classes_at(value, CHARTS[chart]) for value in values]
    finest = [NAMES.index(names[0]) for names in found]
    coarsest = [NAMES.index(names[-1]) for names in found]
    assert finest == sorted(finest, reverse=True)
    assert coarsest == sorted(coarsest, reverse=True)


@given(st.sampled_from(sorted(CHARTS)), st.floats(0, 5000))
def test_every_value_has_a_class_and_only_neighbours_share_one(chart, value):
    # common practice, no source
    found = classes_at(value, CHARTS[chart])
    places = [NAMES.index(name) for name in found]
    assert places == list(range(places[0], places[-1] + 1))
    assert 1 <= len(places) <= 4


@pytest.mark.parametrize(
    ("value", "chart", "names"),
    [
        (24, "gauge", ("fine", "light")),
        (14, "wraps", ("super fine", "fine", "light")),
        (11, "wraps", ("light", "medium")),
        (30, "wraps", ("lace", "super fine")),
        (240, "other metres", ("light", "medium")),
        (125, "other metres", ("medium", "bulky")),
    ],
)
def test_where_rows_overlap_all_are_said(value, chart, names):
    # common practice, no source
    assert classes_at(value, CHARTS[chart]) == names


@pytest.mark.parametrize(
    ("value", "chart", "name"),
    [
        (26.4, "gauge", "fine"),
        (26.7, "gauge", "super fine"),
        (45, "gauge", "lace"),
        (4.3, "wraps", "jumbo"),
        (4.8, "wraps", "super bulky"),
        (500, "other metres", "super fine"),
        (590, "other metres", "lace"),
        (1500, "other metres", "lace"),
    ],
)
def test_in_a_gap_and_beyond_the_ends_the_nearest_row_is_said(value, chart, name):
    # common practice, no source
    assert classes_at(value, CHARTS[chart]) == (name,)


@pytest.mark.parametrize(
    ("wpi", "metres_in_100g", "gauge", "name"),
    [
        (35, 700, 36, "lace"),
        (20, 440, 30, "super fine"),
        (15, 350, 25, "fine"),
        (13, 241, 22, "light"),
        (10, 150, 18, "medium"),
        (8, 110, 14, "bulky"),
        (5.5, 60, 9, "super bulky"),
    ],
)
def test_a_yarn_in_the_middle_of_its_rows_is_of_that_class(wpi, metres_in_100g, gauge, name):
    # common practice, no source
    for found in (
        weight_class(wpi, metres_in_100g, gauge),
        weight_class(wpi, metres_in_100g),
    ):
        assert found.name == name
        assert found.agreed
        assert all(name in names for names in found.by.values())


def test_where_charts_disagree_the_yarn_lies_between():
    """280 m in 100 g are fine by one chart and light by the other."""
    # common practice, no source
    found = weight_class(9.5, 280.0)
    assert found.by["metres"] == ("fine",)
    assert found.by["other metres"] == ("light",)
    assert not found.agreed
    assert found.name == "between fine and medium"


@given(sizes, metres, st.one_of(st.none(), gauges))
def test_a_yarn_lies_between_the_two_nearest_classes_that_satisfy_every_chart(wpi, run, gauge):
    """By trying every choice of one class from each chart; of equal spans the finest."""
    # common practice, no source
    found = weight_class(wpi, run, gauge)
    choices = product(*([NAMES.index(name) for name in names] for names in found.by.values()))
    spans = [(max(choice) - min(choice), min(choice), max(choice)) for choice in choices]
    width, first, last = min(spans)
    assert found.agreed == (width == 0)
    assert found.name == (f"between {NAMES[first]} and {NAMES[last]}" if width else NAMES[first])


def test_where_all_charts_allow_two_classes_the_finer_is_said():
    """9 wraps and 121 m in 100 g stand at the border of medium and bulky by every chart."""
    # common practice, no source
    found = weight_class(9, 121)
    assert all({"medium", "bulky"} <= set(names) for names in found.by.values())
    assert found.agreed
    assert found.name == "medium"


def test_charts_differ_by_up_to_half_in_metres():
    # common practice, no source
    worst = 1.0
    for (low, _), (other_low, _) in zip(METRES[1:6], OTHER_METRES[1:6], strict=True):
        worst = max(worst, low / other_low, other_low / low)
    assert 1.2 < worst <= 1.5


@given(sizes, metres, st.one_of(st.none(), gauges))
def test_one_class_is_said_only_where_every_chart_allows_it(wpi, metres_in_100g, gauge):
    # common practice, no source
    found = weight_class(wpi, metres_in_100g, gauge)
    assert ("gauge" in found.by) == (gauge is not None)
    if found.agreed:
        assert found.name in NAMES
        assert all(found.name in names for names in found.by.values())
    else:
        assert not set.intersection(*(set(names) for names in found.by.values()))
        finest, coarsest = found.name.removeprefix("between ").split(" and ")
        assert NAMES.index(finest) < NAMES.index(coarsest)


@given(sizes, metres, gauges)
def test_knowing_the_gauge_too_never_makes_charts_agree_that_did_not(wpi, metres_in_100g, gauge):
    # common practice, no source
    without = weight_class(wpi, metres_in_100g)
    within = weight_class(wpi, metres_in_100g, gauge)
    assert not within.agreed or without.agreed
    assert without.by.items() <= within.by.items()
