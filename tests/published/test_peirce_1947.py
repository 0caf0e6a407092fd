"""A plain loop's length by another geometry: F. T. Peirce, Textile Research Journal 17,
1947, 123 (page from memory, no open copy found), l = 2 p + w + 5.94 d, with p the course spacing
and w the wale spacing; read in the abstract of a paper, Geometry of Plain and Rib Knit Cotton
Fabrics, which fitted 4.56 d to measured diameters instead.
"""

import pytest

from yarncolor.yarn.knitting import JAMMED_LOOP_DIAMETERS, loop_length_cm


def peirce_diameter_cm(stitches: float, rows: float, loop_cm: float, factor=5.94) -> float:
    """Return the yarn's diameter at which his loop is so long."""
    return (loop_cm - 2 * 10 / rows - 10 / stitches) / factor


def test_the_two_geometries_do_not_agree_about_jamming():
    """His yarn at that gauge is 15.6 diameters to a loop, where Chamberlain's jams at 16.67."""
    loop = loop_length_cm(20, 28)
    assert loop / peirce_diameter_cm(20, 28, loop) == pytest.approx(15.6, abs=0.05)
    assert loop / peirce_diameter_cm(20, 28, loop) < JAMMED_LOOP_DIAMETERS
    assert peirce_diameter_cm(20, 28, loop, 4.56) > peirce_diameter_cm(20, 28, loop)
