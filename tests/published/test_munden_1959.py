"""Plain knitting: D. L. Munden, The geometry and dimensional properties of plain-knit fabrics,
Journal of the Textile Institute 50, 1959, T448: courses Kc/l, wales Kw/l, stitches Ks/l².

The dry and wet relaxed constants of wool as lecture slides on knitted fabric geometry print them
after Munden, the fully relaxed pair as it stands in an exam question (Indian graduate aptitude
test, textile fibres, 2015, question 54), which does not say wool. The usable range of tightness is
from memory; no open copy of a range for wool was found.
"""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.knitting import (
    KS,
    LOOSEST,
    MUNDEN_KS,
    TIGHTEST,
    loop_length_cm,
    tightness_factor,
)

CONSTANTS = [  # state, Kc, Kw, Ks as printed
    ("dry relaxed", 5.0, 3.8, 19.0),
    ("wet relaxed", 5.3, 4.1, 21.6),
    ("fully relaxed", 5.5, 4.2, 23.1),
]
linear_densities = st.floats(5, 5000)


def test_the_stitch_density_of_half_a_centimetre_of_yarn():
    """Kc 5.5, Kw 4.2, l = 0.5 cm: 11 courses and 8.4 wales, 92.4 loops in a square centimetre."""
    assert pytest.approx(92.4, abs=1e-9) == (5.5 / 0.5) * (4.2 / 0.5)
    found = loop_length_cm(84, 110, MUNDEN_KS["fully relaxed"])
    assert found == pytest.approx(0.5, rel=1e-12)
    assert MUNDEN_KS["fully relaxed"] / found**2 == pytest.approx(92.4, abs=1e-9)


@pytest.mark.parametrize(("state", "kc", "kw", "ks"), CONSTANTS)
def test_the_constants_as_printed(state, kc, kw, ks):
    assert MUNDEN_KS[state] == ks
    if state != "wet relaxed":
        assert kc * kw == pytest.approx(ks, rel=1e-12)
    assert kc / kw == pytest.approx(1.3, abs=0.05)


def test_the_wet_constant_is_printed_a_little_lower_than_its_factors():
    """5.3 · 4.1 = 21.73, printed 21.6, which is the one used; a loop differs by 0.3 %."""
    assert pytest.approx(21.73, abs=1e-9) == 5.3 * 4.1
    assert MUNDEN_KS["wet relaxed"] == KS == 21.6
    by_product, printed = loop_length_cm(20, 28, 5.3 * 4.1), loop_length_cm(20, 28)
    assert 0 < by_product / printed - 1 < 0.0035


@given(linear_densities, st.floats(0.1, 6))
def test_with_the_loop_in_millimetres_a_tenth_is_printed(tex, loop):
    """1.3 to 1.5 there are 13 to 15 here."""
    assert tightness_factor(tex, loop) / 10 == pytest.approx(sqrt(tex) / (10 * loop), rel=1e-12)


def test_wool_in_use_lies_from_nine_to_nineteen():
    """From memory, with a mean of 14 to 15, where plain machine knitting lies (13 to 15, read)."""
    assert (LOOSEST, TIGHTEST) == (9, 19)
    assert pytest.approx(14.5, abs=0.5) == (LOOSEST + TIGHTEST) / 2
