"""Counts of yarn: ISO 2947 and ASTM D2260, tables for turning one count into another (scope from
memory), on the yard and pound of 1959: 1 yd = 0.9144 m, 1 lb = 453.592 37 g.

The rounded constants were read in textbook tables; the further digits are derived. A second
witness has its own yard, pound, denier and English count: pint.
"""

import pint
import pytest

from yarncolor.yarn.linear_density import DIRECT, INDIRECT, SYSTEMS, from_tex, to_tex

UNITS = pint.UnitRegistry()
CONSTANTS = [  # system, tex times count, to the last digit given
    ("Nm", 1000, 1e-9),
    ("cotton count", 590.5412, 5e-5),
    ("worsted count", 885.8119, 5e-5),
    ("woollen run", 310.0342, 5e-5),
    ("Yorkshire skein", 1937.713, 5e-4),
    ("linen lea", 1653.515, 5e-4),
    ("yd/lb", 496_054.65, 5e-3),
]
PINT = [  # system, pint's unit, whether it is a length in a mass
    ("tex", "tex", False),
    ("dtex", "decitex", False),
    ("ktex", "kilotex", False),
    ("denier", "denier", False),
    ("Nm", "number_meter", True),
    ("m/g", "meter/gram", True),
    ("m/100 g", "meter/hectogram", True),
    ("yd/lb", "yard/pound", True),
    ("cotton count", "number_english", True),
    ("worsted count", "560 yard/pound", True),
    ("woollen run", "100 yard/ounce", True),
    ("Yorkshire skein", "1536 yard/(6 pound)", True),
    ("linen lea", "300 yard/pound", True),
]


def every_grist() -> list[float]:
    """Return tex from a sewing thread to a rope."""
    return [10 ** (exponent / 20) for exponent in range(95)]


@pytest.mark.parametrize(("system", "constant", "digit"), CONSTANTS)
def test_tex_times_a_count_is_the_constant_of_the_tables(system, constant, digit):
    assert to_tex(1.0, system) == pytest.approx(constant, abs=digit)
    for tex in every_grist():
        assert tex * from_tex(tex, system) == pytest.approx(constant, abs=digit)


def test_one_yard_in_a_pound_is_two_metres_in_a_kilogram_and_a_little():
    """Read: 2.016; 2.015 907 and 0.201 590 7 derived."""
    tex = to_tex(1, "yd/lb")
    assert 1000 * from_tex(tex, "m/g") == pytest.approx(2.016, abs=5e-4)
    assert 1000 * from_tex(tex, "m/g") == pytest.approx(2.015907, abs=5e-7)
    assert from_tex(tex, "m/100 g") == pytest.approx(0.2015907, abs=5e-8)


def test_a_thousand_yards_in_a_pound():
    tex = to_tex(1000, "yd/lb")
    assert tex == pytest.approx(496.05, abs=0.005)
    assert from_tex(tex, "m/100 g") == pytest.approx(201.59, abs=0.005)


@pytest.mark.parametrize(("system", "unit", "indirect"), PINT)
def test_a_library_of_units_agrees_from_thread_to_rope(system, unit, indirect):
    """pint has its own yard, pound, denier and English count."""
    one = UNITS.Quantity(1, "dimensionless") * UNITS.parse_expression(unit)
    for tex in every_grist():
        strand = tex * UNITS("tex")
        ratio = (1 / strand / one) if indirect else (strand / one)
        assert from_tex(tex, system) == pytest.approx(ratio.to("").magnitude, rel=1e-12)


def test_every_system_is_checked_against_the_library():
    assert {system for system, *_ in PINT} == set(SYSTEMS)
    assert set(DIRECT) | set(INDIRECT) == set(SYSTEMS)
    assert not set(DIRECT) & set(INDIRECT)
