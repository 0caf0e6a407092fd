"""Values typed with their units mean what they say; what measures another thing is told."""

from fractions import Fraction

import pint
import pytest

from yarncolor.editing.measures import kind_words, quantities, unit_in
from yarncolor.editing.option_text import parse_option, parse_value
from yarncolor.plan.reference import KEYS
from yarncolor.units import UNITS

PINT = pint.UnitRegistry(non_int_type=Fraction)
OUNCE_G, YARD_M = 28.349523125, 0.9144


@pytest.mark.parametrize(
    ("written", "theirs"),
    [
        *(
            (name, name)
            for name in [
                "m",
                "km",
                "cm",
                "mm",
                "inch",
                "ft",
                "yd",
                "g",
                "kg",
                "mg",
                "oz",
                "lb",
                "min",
                "s",
                "hour",
            ]
        ),
        *(
            (name, name)
            for name in ["metre", "metres", "grams", "ounces", "yards", "feet", "inches", "pounds"]
        ),
        *((name, name) for name in ["tex", "dtex", "denier", "degree"]),
        *(("cm3", "cm**3"), ("ypp", "yard / pound"), ("tpi", "turn / inch"), ("ktex", "g / m")),
    ],
)
def test_factors_are_those_of_an_independent_table(written, theirs):
    """Base units of ours are metre, gram, minute and the thing that is counted."""
    bases = {"m": "m", "g": "g", "min": "min", "turn": "turn", "degree": "degree"}
    ours = UNITS[written]
    expected = PINT.Quantity(Fraction(1), theirs)
    base = PINT.Quantity(Fraction(1), "")
    for name, power in ours.powers:
        base = base * PINT.Quantity(Fraction(1), bases[name]) ** power
    assert float(ours.size) == pytest.approx(float((expected / base).to("").magnitude), rel=1e-15)


@pytest.mark.parametrize(
    ("name", "text", "value"),
    [
        ("lots.mass_g", "27,5 g", 27.5),
        ("lots.mass_g", "1 g", 1),
        ("lots.mass_g", "1 oz", OUNCE_G),
        ("lots.mass_g", "1 lb 2 oz", 18 * OUNCE_G),
        ("lots.reserve_g", "0.1kg", 100),
        ("lots.rolags", "3 rolags", 3),
        ("lots.rolag_g", "3,1 g", 3.1),
        ("target.yarn_m", "650 yd", 650 * YARD_M),
        ("spinning.single_m_per_g", "500 yd/oz", 500 * YARD_M / OUNCE_G),
        ("spinning.single_m_per_g", "100 tex", 10),
        ("spinning.single_tex", "10 m in a gram", 100),
        ("spinning.single_tex", "100 tex, 120 tex", [100, 120]),
        ("spinning.yarn_m_per_100g", "1200 ypp", 1200 * YARD_M / 453.59237 * 100),
        ("spinning.yarn_m_per_100g", "420m/100g", 420),
        ("spinning.twist_tpi", "8, 9 tpi", [8, 9]),
        ("spinning.single_wpi", "30 wpi", 30),
        ("spinning.twist_angle_deg", "20°", 20),
        ("spinning.minutes_per_g", "8 min/g", 8),
        ("spinning.minutes_per_g", "90 s", 1.5),
        ("spinning.treadles_per_min", "60 a minute", 60),
        ("spinning.drive_ratio", "10:1", 10),
        ("spinning.sample", "20 m 2,6 g", {"length_m": 20, "mass_g": 2.6}),
        ("spinning.sample", "2.6 g of 20 m", {"length_m": 20, "mass_g": 2.6}),
        ("spinning.sample", "20 m in 2.6 g", {"length_m": 20, "mass_g": 2.6}),
        ("spinning.wrapped_skein", "14 wpi, 220 m in 100 g", {"wpi": 14, "m_per_100g": 220}),
        ("spinning.variation", "8 per cent", 0.08),
        ("plying.twist_tpm", "8 tpi", 8 / 0.0254),
        ("plying.twist_tpi", "315 turns per metre", 315 * 0.0254),
        ("scheme.loop_m", "30 cm", 0.3),
        ("bobbins.tare_g", "32 g, 31 g", [32, 31]),
        ("fabric.stitches", "120 sts", 120),
        ("fabric.rows", "80 rounds", 80),
        ("fabric.gauge_stitches", "22 sts in 10 cm", 22),
        ("fabric.gauge_stitches", "5.5 sts/in", 55 / 2.54),
        ("fabric.swatch", "30 rows 20 sts 4,5 g", {"stitches": 20, "rows": 30, "mass_g": 4.5}),
        (
            "scheme.portions",
            "1, Wet, Sand, 3.5 g",
            [{"ply": 1, "lot": "Wet, Sand", "mass_g": 3.5}],
        ),
    ],
)
def test_a_value_with_its_unit_is_what_it_says(name, text, value):
    typed = parse_option(KEYS[tuple(name.split("."))], text)
    if isinstance(value, int | float):
        assert typed == pytest.approx(value, rel=1e-14)
    else:
        assert typed == value


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("lots.mass_g", "650 yd", "650 yd is a length"),
        ("lots.rolags", "3 g", "3 g is a weight"),
        ("target.yarn_m", "200 g", "200 g is a weight"),
        ("plying.twist_tpm", "8 wpi", "8 wpi is wraps"),
        ("fabric.gauge_stitches", "28 rows in 10 cm", "28 rows in 10 cm is rows in a length"),
        ("fabric.stitches", "80 rows", "80 rows is a number of rows"),
        ("spinning.single_m_per_g", "12 m", "12 m is a length"),
        ("spinning.variation", "5 g", "5 g is a weight"),
        ("lots.mass_g", "12 g", ""),
        ("lots.mass_g", "heavy", ""),
        ("head.title", "5 g", ""),
    ],
)
def test_what_measures_another_thing_is_told_and_stays_as_typed(name, text, words):
    table, key = name.split(".")
    key = KEYS["" if table == "head" else table, key]
    assert kind_words(key, text) == words
    if words:
        assert not isinstance(parse_value(key, text), int | float)


@pytest.mark.parametrize("text", ["", "g", "3 stones", "3 g?", "1 g/0 m of", "–"])
def test_what_is_no_quantity_is_none(text):
    assert all(part.unit is None for part in quantities(text))


@pytest.mark.parametrize("key", [key for key in KEYS.values() if key.unit and len(key.unit) < 16])
def test_every_unit_that_stands_beside_a_field_is_known(key):
    assert unit_in(key.unit) is not None or key.unit in ("CIEDE2000", "stitches"), key.path
