"""How large a piece is by what one knows of it; the expected values are worked out by hand."""

from math import hypot, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.plan import Fabric, Swatch
from yarncolor.yarn.knitted_size import gauge_of, knitted_size, wingspan_cm

TEX = 300.0
GUESS = 10 * sqrt(21.6 / 1.3) / (sqrt(TEX) / 11)


def test_nothing_is_knitted_where_nothing_says_how_wide():
    assert knitted_size(Fabric(kind="round", rows=100, gauge_stitches=20), TEX) is None


@pytest.mark.parametrize(
    ("fabric", "stitches", "by"),
    [
        (Fabric(stitches=60), GUESS, ""),
        (Fabric(width_cm=50), GUESS, ""),
        (Fabric(width_cm=50, gauge_stitches=22), 22, "gauge_stitches"),
        (Fabric(width_cm=50, stitches=110), 22, "width_cm"),
        (Fabric(width_cm=50, gauge_rows=26), 20, "gauge_rows"),
        # 400 stitches of 3 g in 300 tex: 10 m, 2.5 cm in a stitch
        (Fabric(width_cm=50, swatch=Swatch(20, 20, 3)), 10 * sqrt(21.6 / 1.3) / 2.5, "swatch"),
        (Fabric(kind="triangle", width_cm=150, stitches=7), GUESS, ""),
    ],
)
def test_the_gauge_is_guessed_only_where_nothing_was_counted(fabric, stitches, by):
    gauge = gauge_of(fabric, TEX)
    assert gauge.stitches_per_10cm == pytest.approx(stitches)
    assert (gauge.by, gauge.is_guess) == (by, not by)


def test_stitches_follow_from_the_width():
    size = knitted_size(Fabric(width_cm=150, gauge_stitches=20), TEX)
    assert (size.stitches, size.rows) == (300, None)


@pytest.mark.parametrize("width_cm", [20, 150, 230])
@pytest.mark.parametrize("grows", [None, 1.0, 4.0])
def test_a_triangle_ends_where_its_wingspan_is(width_cm, grows):
    fabric = Fabric(kind="triangle", width_cm=width_cm, gauge_stitches=20, increases_per_row=grows)
    size = knitted_size(fabric, TEX)
    assert size.stitches == 3
    begun = Fabric(
        kind="triangle",
        width_cm=wingspan_cm(60 + 2 * 99, 100, size.gauge),
        rows=100,
        gauge_stitches=20,
    )
    assert knitted_size(begun, TEX).stitches == 60
    last = 3 + (grows or 2.0) * (size.rows - 1)
    edge_cm = hypot(size.rows / 26 * 10, last / 2 / 20 * 10 / 2)  # of one half: height, half base
    assert 2 * edge_cm == pytest.approx(width_cm, abs=1.5)
    assert wingspan_cm(round(last), size.rows, size.gauge) == pytest.approx(2 * edge_cm)


def edge_after(rows: float, cast_on: int, grows: float) -> float:
    """Return the wingspan of a triangle after so many rows, whole or not: 20 stitches, 26 rows."""
    last = cast_on + grows * (rows - 1)
    return 2 * hypot(rows / 26 * 10, last / 20 * 10 / 4)


@given(st.integers(1, 90), st.floats(0, 6), st.integers(20, 250))
def test_a_triangle_begun_with_many_stitches_ends_in_the_nearest_row(cast_on, grows, width_cm):
    """Half a row less is too narrow and half a row more too wide, unless one row is too wide."""
    fabric = Fabric(
        kind="triangle",
        width_cm=width_cm,
        stitches=cast_on,
        gauge_stitches=20,
        gauge_rows=26,
        increases_per_row=grows,
    )
    rows = knitted_size(fabric, TEX).rows
    assert rows >= 1
    assert edge_after(rows + 0.501, cast_on, grows) >= width_cm
    assert rows == 1 or edge_after(rows - 0.501, cast_on, grows) <= width_cm


def test_a_triangle_that_is_wide_enough_at_once_has_one_row():
    fabric = Fabric(kind="triangle", width_cm=5, stitches=80, gauge_stitches=20, gauge_rows=26)
    assert knitted_size(fabric, TEX).rows == 1


@pytest.mark.parametrize("kind", ["flat", "round", "triangle"])
def test_rows_that_are_given_stay(kind):
    size = knitted_size(Fabric(kind=kind, width_cm=60, rows=123, gauge_stitches=20), TEX)
    assert size.rows == 123


def test_a_triangle_too_narrow_for_its_rows_begins_with_one_stitch():
    """Two rows of 10 cm climb 20 cm; an edge of 9 cm from middle to end cannot."""
    fabric = Fabric(kind="triangle", width_cm=18, rows=2, gauge_stitches=200, gauge_rows=1)
    assert knitted_size(fabric, 200.0).stitches == 1
