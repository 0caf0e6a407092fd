"""Hand knitting at the middle of its classes' gauges, and knitters' own rule for yardage, beside
Munden's: common practice, no source; derived figures.
"""

from math import sqrt

import pytest

from yarncolor.yarn.knitting import (
    FORMULA_BAND,
    LOOSEST,
    TIGHTEST,
    loop_length_cm,
    tightness_factor,
    yarn_per_area_m,
)
from yarncolor.yarn.linear_density import to_tex

# common practice, no source
MIDDLES = [  # class, stitches, rows in 10 cm, m in 100 g, tightness
    ("fingering", 28, 40, 420, 11.1),
    ("light", 22, 30, 230, 11.5),
    ("medium", 18, 25, 190, 10.5),
    ("bulky", 14, 20, 115, 10.6),
]


@pytest.mark.parametrize(("name", "stitches", "rows", "metres", "tightness"), MIDDLES)
def test_a_class_at_its_middle_gauge_is_so_tight(name, stitches, rows, metres, tightness):
    # common practice, no source
    loop = loop_length_cm(stitches, rows)
    found = tightness_factor(to_tex(metres, "m/100 g"), loop)
    assert found == pytest.approx(tightness, abs=0.05)
    assert 10.45 < found < 11.55
    assert LOOSEST < found < TIGHTEST


def test_knitters_own_rule_gives_a_little_more_yarn():
    """Yards = inches x inches x stitches to the inch / 6: 13.33 yd for 4 x 4 inches at 5.

    That is 12.19 m, against 11.35 m by Munden: 7 % apart.
    """
    # common practice, no source
    yards = 4 * 4 * 5 / 6
    assert yards == pytest.approx(13.33, abs=0.005)
    rule_m = yards * 0.9144
    assert rule_m == pytest.approx(12.19, abs=0.005)
    found = yarn_per_area_m(20, 28, 10.16**2)
    assert found == pytest.approx(11.35, abs=0.01)
    assert rule_m / found == pytest.approx(1.07, abs=0.005)


@pytest.mark.parametrize("per_row", [1.25, 1.3, 1.35, 1.4, 1.45])
def test_knitters_own_rule_knows_no_rows_and_is_a_tenth_above_or_so(per_row):
    """A s · 0.06 m, with s the stitches in a cm: 1.291 / √(rows to a stitch) of Munden's.

    So 7 to 16 % above; the formula claims 10 to 15 %.
    """
    # common practice, no source
    for stitches in range(8, 61):
        rule_m = (10 / 2.54) ** 2 * (stitches / 10 * 2.54) / 6 * 0.9144
        found = rule_m / yarn_per_area_m(stitches, stitches * per_row, 100)
        assert found == pytest.approx(6 / sqrt(21.6 * per_row), rel=1e-12)
        assert 0.07 < found - 1 < FORMULA_BAND + 0.01
