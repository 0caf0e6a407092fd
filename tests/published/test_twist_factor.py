"""Twist and its factors: cotton multipliers as read in an excerpt of W. Klein, The Technology of
Short-staple Spinning, p. 65 (author from memory); the worsted and metric multipliers and all
conversions are derived from the yard, the pound and the tex.
"""

from math import sqrt

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.units import tpi, tpm
from yarncolor.yarn.linear_density import from_tex, to_tex
from yarncolor.yarn.twist import twist_factor, twist_from_factor

UNITS = pint.UnitRegistry()
COUNT_OF = {"cotton": "cotton count", "worsted": "worsted count", "metric": "Nm"}
MULTIPLIERS = [  # system, so many tex^½·turns/m, last digit given
    ("cotton", 956.734, 5e-4),
    ("worsted", 1171.756, 5e-4),
    ("metric", 31.6228, 5e-5),
    ("tex", 1.0, 1e-12),
]
linear_densities = st.floats(1, 5000)


def test_turns_in_an_inch_and_in_a_metre():
    """39.370 08 read; ten to the inch are 393.70 to the metre."""
    assert tpm(1) == pytest.approx(39.37008, abs=5e-6)
    assert tpm(10) == pytest.approx(393.70, abs=0.005)


@given(st.floats(0.01, 5000))
def test_there_and_back_is_the_same_twist(turns):
    assert tpi(tpm(turns)) == pytest.approx(turns, rel=1e-14)
    assert tpm(turns) == pytest.approx((turns / UNITS("inch")).to("1/meter").magnitude, rel=1e-12)


def test_a_cotton_yarn_of_twenties_with_a_multiplier_of_three_and_a_half():
    """15.65 turns to the inch."""
    found = tpi(twist_from_factor(3.5, to_tex(20, "cotton count"), "cotton"))
    assert found == pytest.approx(15.65, abs=0.005)


@pytest.mark.parametrize(("system", "constant", "digit"), MULTIPLIERS)
def test_a_multiplier_of_a_trade_is_so_large_a_factor(system, constant, digit):
    for tex in (1, 7.6, 29.5, 88.6, 310, 1000, 5000):
        factor = twist_factor(twist_from_factor(1.0, tex, system), tex)
        assert factor == pytest.approx(constant, abs=digit)


@given(st.floats(0.1, 200), linear_densities, st.sampled_from(sorted(COUNT_OF)))
def test_a_multiplier_is_turns_over_the_root_of_the_count(multiplier, tex, system):
    """tpi = K √N in cotton and worsted, tpm = α √Nm: the definitions, by another way."""
    turns = twist_from_factor(multiplier, tex, system)
    turns = turns if system == "metric" else tpi(turns)
    assert turns == pytest.approx(multiplier * sqrt(from_tex(tex, COUNT_OF[system])), rel=1e-7)
