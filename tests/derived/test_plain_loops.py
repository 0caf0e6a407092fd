"""The yarn that a gauge leaves room for, derived from a published length of loops."""

import pytest

from yarncolor.yarn.knitting import loop_length_cm


def peirce_diameter_cm(stitches: float, rows: float, loop_cm: float, factor=5.94) -> float:
    """Return the yarn's diameter at which his loop is so long."""
    return (loop_cm - 2 * 10 / rows - 10 / stitches) / factor


def test_the_worked_gauge_asks_for_a_yarn_of_a_millimetre_and_a_quarter():
    """20 stitches and 28 rows in 10 cm: d = 1.262 mm, derived."""
    found = 10 * peirce_diameter_cm(20, 28, loop_length_cm(20, 28))
    assert found == pytest.approx(1.262, abs=5e-4)


@pytest.mark.parametrize("per_row", [1.25, 1.3, 1.35, 1.4, 1.45])
def test_at_every_gauge_a_loop_is_longer_than_two_courses_and_a_wale(per_row):
    """As it must be to reach round them; the yarn that is left room for scales with the gauge."""
    shares = set()
    for stitches in range(6, 61):
        loop = loop_length_cm(stitches, stitches * per_row)
        diameter = peirce_diameter_cm(stitches, stitches * per_row, loop)
        assert 0 < diameter < 10 / stitches / 2
        shares.add(round(diameter * stitches, 9))
    assert len(shares) == 1
