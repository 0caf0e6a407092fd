"""Every field of the form takes every unit that a spinner would write, and says it exactly.

Values by hand from the exact definitions of NIST SP 811 (2008), appendix B: inch 25.4 mm, foot
0.3048 m, yard 0.9144 m, pound 453.59237 g, ounce a sixteenth of it. Counts of yarn: cotton 840 yd
in a pound (ASTM D1059-97, 3.1.1, as read), worsted 560 (articles on the grading of wool, as read);
denier grams in 9,000 m; Nm metres in a gram.
"""

import pytest

from yarncolor.editing.lot_fields import LOT_FIELDS
from yarncolor.editing.measures import kind_words
from yarncolor.editing.option_text import parse_option
from yarncolor.editing.options import OPTIONS
from yarncolor.plan.key import NUMBER, PARTS, PLIES, SHARE, TABLE, TABLES, WHOLE

FIELDS = {key.path: key for key in (*OPTIONS, *LOT_FIELDS.values())}
MEASURED = (NUMBER, WHOLE, SHARE, TABLE, TABLES, PLIES, PARTS)

OUNCE_G, POUND_G = 28.349523125, 453.59237

GRAMS = {
    "27,5 g": 27.5,
    "27.5 grams": 27.5,
    "1 oz": OUNCE_G,
    "1 1/2 oz": 42.5242846875,
    "1½ oz": 42.5242846875,
    "½ oz": 14.1747615625,
    "1¾ ounces": 49.61166546875,
    "1-3/4 oz": 49.61166546875,
    "0,05 kg": 50,
    "1/4 lb": 113.3980925,
    "1 ounce": OUNCE_G,
    "27": 27,
    "27,5": 27.5,
}
HEAVY = {
    "1 lb 2 oz": 510.29141625,
    "1,200 g": 1200,
    "1 200 g": 1200,
    "1,250 kg": 1250,
    "1,200": 1200,
}
GRIST = {
    "16 m/g": 16,
    "500 yd/oz": 16.1272554033481647,
    "2000 ypp": 4.03181385083704120,
    "2,000 yd/lb": 4.03181385083704120,
    "2,000 yards per pound": 4.03181385083704120,
    "420 m/100 g": 4.2,
    "420 m in 100g": 4.2,
    "4200 m/kg": 4.2,
    "Nm 4.2": 4.2,
    "4,2 Nm": 4.2,
    "20 NeK": 22.5781575646874307,
    "100 tex": 10,
    "0.1 g/m": 10,
    "16½ m/g": 16.5,
}
TEX = {
    "100 tex": 100,
    "tex 100": 100,
    "1,000 dtex": 100,
    "900 den": 100,
    "10 m/g": 100,
    "Nm 10": 100,
    "Ne 10": 59.0541247448235638,
    "2000 ypp": 248.027323928258968,
    "8 oz/100 yd": 2480.27323928258968,
    "10 g per 100 m": 100,
    "1,200": 1200,
}
WRAPS = {
    "12 wpi": 12,
    "12 wraps per inch": 12,
    "12 wraps": 12,
    "12/in": 12,
    "12 wpc": 30.48,
    "20 wraps in 2 cm": 25.4,
    "10 wraps/cm": 25.4,
    "12½ wpi": 12.5,
}
TURNS_PER_INCH = {
    "8 tpi": 8,
    "8 turns per inch": 8,
    "8 twists in an inch": 8,
    "8 turns": 8,
    "8/in": 8,
    "315 tpm": 8.001,
    "315 turns/m": 8.001,
    "3 turns/cm": 7.62,
    "3 tpc": 7.62,
    "300 t/m": 7.62,
    "7 1/2 tpi": 7.5,
}
TURNS_PER_METRE = {
    "315 tpm": 315,
    "315 turns a metre": 315,
    "8 tpi": 314.960629921259843,
    "3 turns per cm": 300,
    "1,000 tpm": 1000,
}
PER_CENT = {
    "5 %": 0.05,
    "5%": 0.05,
    "5 per cent": 0.05,
    "5 percent": 0.05,
    "5,5 %": 0.055,
    "½ %": 0.005,
    "7 1/2 %": 0.075,
    "12.345 %": 0.12345,
    "5": 0.05,
}
DENSITY = {
    "0,16 g/cm³": 0.16,
    "0.16 g/cm3": 0.16,
    "0.16 g/cc": 0.16,
    "0.16 g/ml": 0.16,
    "160 kg/m³": 0.16,
}
LENGTH_CM = {
    "150 cm": 150,
    "1.5 m": 150,
    "1500 mm": 150,
    "60 in": 152.4,
    "60 inches": 152.4,
    "60″": 152.4,
    '60"': 152.4,
    "5 ft": 152.4,
    "5 ft 2 in": 157.48,
    "5′ 2″": 157.48,
    "1½ yd": 137.16,
    "150": 150,
}
A_MINUTE = {
    "60 a minute": 60,
    "60/min": 60,
    "60 treadles a minute": 60,
    "60 treadles": 60,
    "1 per second": 60,
    "60 per min": 60,
}
RATIO = {
    "12:1": 12,
    "12 : 1": 12,
    "12 to 1": 12,
    "7.5:1": 7.5,
    "7½:1": 7.5,
    "12": 12,
    "12 turns": 12,
    "12 turns for a treadle": 12,
    "1:12": 12,
}

EVERY = {
    "scheme.reversed_plies": {"1 and 3": [1, 3], "plies 1, 3": [1, 3], "ply 2": [2]},
    "scheme.stagger_places": {"1½": 1.5, "1,5 places": 1.5, "2 places": 2},
    "scheme.blend_steps": {"3": 3, "3 blends": 3},
    "scheme.solid_plies": {"1 & 2": [1, 2]},
    "scheme.random_seed": {"7": 7, "9223372036854775807": 9223372036854775807},
    "scheme.copies": {"2": 2, "3": 3},
    "scheme.pieces": {"4 pieces": 4},
    "scheme.loop_m": {
        "30 cm": 0.3,
        "0,3 m": 0.3,
        "12 in": 0.3048,
        "1 ft": 0.3048,
        "½ yd": 0.4572,
        '12"': 0.3048,
    },
    "scheme.parts": {"2:1:1": [2, 1, 1], "2, 1, 1": [2, 1, 1], "2 1 1": [2, 1, 1]},
    "scheme.stripes": {
        "6, Kelp": [{"rows": 6, "lot": "Kelp"}],
        "6 rows, Kelp": [{"rows": 6, "lot": "Kelp"}],
        "6 rounds: Kelp + Foam": [{"rows": 6, "lots": ["Kelp", "Foam"]}],
        "6 Sea, blue\n2; Kelp": [{"rows": 6, "lot": "Sea, blue"}, {"rows": 2, "lot": "Kelp"}],
        '6, "Kelp + Foam"': [{"rows": 6, "lot": "Kelp + Foam"}],
    },
    "scheme.portions": {
        "1, Kelp, 1/2 oz": [{"ply": 1, "lot": "Kelp", "mass_g": 14.1747615625}],
        "1, Kelp, 3,5 g": [{"ply": 1, "lot": "Kelp", "mass_g": 3.5}],
        "1; Kelp; 3,5 g": [{"ply": 1, "lot": "Kelp", "mass_g": 3.5}],
    },
    "scheme.ply": {
        "Kelp; parts 1½": [{"sequence": ["Kelp"], "parts": [1.5]}],
        "Kelp, Foam; twice": [{"sequence": ["Kelp", "Foam"], "times": 2}],
        "Kelp; start at 1½ places": [{"sequence": ["Kelp"], "start_at": 1.5}],
    },
    "scheme.times": {"3": 3, "1, 2, 4": [1, 2, 4], "2 times": 2},
    "spinning.single_m_per_g": GRIST,
    "spinning.single_tex": TEX | {"100 tex, 120 tex": [100, 120], "100 and 120 tex": [100, 120]},
    "spinning.single_wpi": WRAPS,
    "spinning.sample": {
        "20 m 2,6 g": {"length_m": 20, "mass_g": 2.6},
        "10 yd weigh 1/8 oz": {"length_m": 9.144, "mass_g": 3.543690390625},
        "20 yards in 2.6 g": {"length_m": 18.288, "mass_g": 2.6},
        "1,000 m, 100 g": {"length_m": 1000, "mass_g": 100},
    },
    "spinning.yarn_m_per_100g": {
        "420 m/100 g": 420,
        "220 yd/100 g": 201.168,
        "220 yd per 3.5 oz": 202.742639356376929,
        "2000 ypp": 403.181385083704120,
        "1,200 ypp": 241.908831050222472,
        "Nm 4.2": 420,
    },
    "spinning.yarn_wpi": WRAPS,
    "spinning.twist_tpi": TURNS_PER_INCH | {"8, 9 tpi": [8, 9]},
    "spinning.twist_tpm": TURNS_PER_METRE,
    "spinning.twist_angle_deg": {
        "23°": 23,
        "23 deg": 23,
        "23 degrees": 23,
        "23,5°": 23.5,
        "23º": 23,
    },
    "spinning.twist_factor": {"4000": 4000, "4,000": 4000},
    "spinning.wrapped_skein": {
        "14 wpi, 220 m in 100 g": {"wpi": 14, "m_per_100g": 220},
        "14 wpi 1,000 yd/lb": {"wpi": 14, "m_per_100g": 201.590692541852060},
    },
    "spinning.relaxed_density_g_per_cm3": DENSITY,
    "spinning.packed_density_g_per_cm3": DENSITY,
    "spinning.minutes_per_g": {
        "8 min/g": 8,
        "8 minutes": 8,
        "1½ min": 1.5,
        "90 s": 1.5,
        "90 sec/g": 1.5,
        "45 min/oz": 1.58732828773111858,
        "1 h for 25 g": 2.4,
        "0,5 h in 10 g": 3,
        "20 g/h": 3,
        "20 g an hour": 3,
    },
    "spinning.treadles_per_min": A_MINUTE,
    "spinning.drive_ratio": RATIO,
    "spinning.card_loss": PER_CENT,
    "spinning.spin_loss": PER_CENT,
    "spinning.variation": PER_CENT,
    "spinning.variation_drift": PER_CENT,
    "spinning.variation_within": PER_CENT,
    "spinning.variation_reach_m": {"2 m": 2, "50 cm": 0.5, "1 yd": 0.9144},
    "spinning.variation_bobbins": PER_CENT,
    "plying.twist_tpi": TURNS_PER_INCH,
    "plying.twist_tpm": TURNS_PER_METRE,
    "plying.contraction": PER_CENT | {"−2 %": -0.02},
    "plying.treadles_per_min": A_MINUTE,
    "plying.drive_ratio": RATIO,
    "plying.wound_off": {"0, 1, 2": [0, 1, 2], "2 times": 2},
    "plying.strands": {"2 strands": 2, "1, 2": [1, 2]},
    "plying.resting_shrinkage": PER_CENT,
    "scale.step_g": {"0,1 g": 0.1, "100 mg": 0.1, "1/10 oz": 2.8349523125},
    "scale.regain": PER_CENT,
    "bobbins.count": {"3": 3, "3 bobbins": 3},
    "bobbins.capacity_g": GRAMS | HEAVY,
    "bobbins.tare_g": {
        "32 g, 31 g": [32, 31],
        "32 and 31 g": [32, 31],
        "32 g each": 32,
        "1 oz": OUNCE_G,
    },
    "bobbins.plying_count": {"1 bobbin": 1},
    "bobbins.plying_capacity_g": GRAMS | HEAVY,
    "bobbins.plying_tare_g": GRAMS,
    "fabric.width_cm": LENGTH_CM,
    "fabric.stitches": {"24 sts": 24, "24 stitches": 24, "1,200 sts": 1200, "24": 24},
    "fabric.rows": {"32 rows": 32, "32 rounds": 32, "1,200": 1200},
    "fabric.gauge_stitches": {
        "24 sts": 24,
        "24 stitches": 24,
        "24 sts in 10 cm": 24,
        "24 sts/10 cm": 24,
        "24 sts to 10 cm": 24,
        "24 sts = 10 cm": 24,
        "24 sts over 4 in": 23.6220472440944882,
        "24 stitches in 4 inches": 23.6220472440944882,
        "5.5 sts/in": 21.6535433070866142,
        "5½ sts per inch": 21.6535433070866142,
        "2.4/cm": 24,
    },
    "fabric.gauge_rows": {"32 rows": 32, "32 rows in 10 cm": 32, "8 rows/in": 31.4960629921259843},
    "fabric.swatch": {
        "20 sts 28 rows 4.5 g": {"stitches": 20, "rows": 28, "mass_g": 4.5},
        "20 stitches, 28 rows, 1/4 oz": {"stitches": 20, "rows": 28, "mass_g": 7.08738078125},
    },
    "fabric.increases_per_row": {"2": 2, "2 sts": 2, "2 sts a row": 2, "2 increases": 2, "1½": 1.5},
    "fabric.finishing_shrinkage": PER_CENT,
    "target.yarn_m": {
        "650 yd": 594.36,
        "1,000 yd": 914.4,
        "1 000 m": 1000,
        "1.2 km": 1200,
        "1'200 m": 1200,
        "1.000,5 m": 1000.5,
        "300 ft": 91.44,
        "1,000,000": 1_000_000,
    },
    "target.yarn_g": GRAMS | HEAVY,
    "lots.mass_g": GRAMS | HEAVY,
    "braid.mass_g": GRAMS | HEAVY,
    "braid.repeats": {"2": 2},
    "braid.segments": {
        "Ebb, navy, 54 cm": [{"name": "Ebb", "colour": "navy", "length_cm": 54}],
        "Ebb; madder, pale; 20 in": [
            {"name": "Ebb", "colour": "madder, pale", "length_cm": 50.8},
        ],
        "Ebb, lab 50 1,5 -2, 0,5 m": [
            {"name": "Ebb", "lab": [50.0, 1.5, -2.0], "length_cm": 50},
        ],
    },
    "lots.rolags": {"3 rolags": 3, "10½": 10.5, "10 1/2 rolags": 10.5},
    "lots.rolag_g": GRAMS,
    "lots.reserve_g": GRAMS | HEAVY,
    "made.turns": {"300 turns": 300, "300": 300, "1,200": 1200},
    "made.turn_m": {"1,5 m": 1.5, "60 in": 1.524, "1½ yd": 1.3716},
    "made.length_m": {"520 m": 520, "570 yd": 521.208, "1,200 m": 1200},
    "made.mass_g": GRAMS | HEAVY,
    "made.washed_m": {"430 m": 430, "470 yd": 429.768},
    "made.wpi": WRAPS,
    "made.skeins": {"2": 2},
    "made.hours_spinning": {"9.5 h": 9.5, "9,5": 9.5, "9 h 30 min": 9.5, "570 min": 9.5},
    "made.hours_plying": {"2 hours": 2, "150 min": 2.5},
    "lots.regain": PER_CENT,
    "lots.colour_unsure": {"2,5": 2.5},
}


@pytest.mark.parametrize(
    ("path", "text", "value"),
    [(path, text, value) for path, texts in EVERY.items() for text, value in texts.items()],
)
def test_what_is_typed_is_what_it_says(path, text, value):
    typed = parse_option(FIELDS[path], text)
    if isinstance(value, dict):
        assert typed == pytest.approx(value, rel=1e-15)
    elif isinstance(value, list):
        assert typed == value
    else:
        assert typed == pytest.approx(value, rel=1e-15)
        assert not isinstance(value, int) or value < 1e15 or typed == value


def test_no_field_that_measures_is_left_out():
    measured = {path for path, key in FIELDS.items() if key.kind in MEASURED}
    assert measured == set(EVERY)


@pytest.mark.parametrize(
    ("path", "text", "words"),
    [
        ("fabric.stitches", "5.5 mm", "a length"),
        ("fabric.gauge_stitches", "10 cm", "a length"),
        ("fabric.gauge_stitches", "24 rows", "a number of rows"),
        ("fabric.width_cm", "24 sts", "a number of stitches"),
        ("spinning.twist_tpi", "23°", "an angle"),
        ("spinning.twist_tpi", "12 wpi", "wraps"),
        ("spinning.spin_loss", "3 g", "a weight"),
        ("target.yarn_m", "1,000 g", "a weight"),
        ("lots.mass_g", "½ yd", "a length"),
        ("spinning.packed_density_g_per_cm3", "20 m/g", "a length in a weight"),
        ("scale.step_g", "0.16 g/cm3", "a density"),
    ],
)
def test_what_measures_another_thing_is_called_so(path, text, words):
    key = FIELDS[path]
    assert kind_words(key, text) == f"{text} is {words}"
    assert not isinstance(parse_option(key, text), int | float)


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("lots.mass_g", "1/0 oz"),
        ("lots.mass_g", "1,2,3"),
        ("lots.mass_g", "1.2,3"),
        ("lots.mass_g", "12 34"),
        ("lots.mass_g", "0,5,5 g"),
        ("spinning.spin_loss", "1/10"),
        ("spinning.spin_loss", "five %"),
        ("spinning.drive_ratio", "12:2"),
        ("target.yarn_m", "9" * 5000 + " m"),
        ("lots.mass_g", "50 lb\N{LATIN SMALL LETTER LONG S}"),
    ],
)
def test_what_is_no_number_stays_as_typed(path, text):
    assert parse_option(FIELDS[path], text) == text
