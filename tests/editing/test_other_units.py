"""What is typed and not in the plan yet means the same when the plan is said in other units."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.editing.at_plying import PLYING_FIELDS
from yarncolor.editing.at_the_wheel import PIECE_FIELDS
from yarncolor.editing.field_units import in_units
from yarncolor.editing.lot_fields import LOT_FIELDS
from yarncolor.editing.option_text import parse_value
from yarncolor.editing.options import OPTIONS
from yarncolor.editing.other_units import typed_in
from yarncolor.measures import IMPERIAL, METRIC
from yarncolor.plan.key import NUMBER
from yarncolor.plan.reference import KEYS

NUMBERS = [
    key
    for key in (
        *OPTIONS,
        *LOT_FIELDS.values(),
        *PLYING_FIELDS.values(),
        *PIECE_FIELDS.values(),
    )
    if key.kind == NUMBER
]
WAYS = ((IMPERIAL, METRIC), (METRIC, IMPERIAL))


@pytest.mark.parametrize(("now", "before"), WAYS)
@given(
    key=st.sampled_from(NUMBERS),
    number=st.decimals(0, 10_000, places=3),
    comma=st.booleans(),
)
def test_every_number_means_the_same_afterwards_and_keeps_its_digits(
    now, before, key, number, comma
):
    text = f"{number:f}".replace(".", "," if comma else ".")
    again = typed_in(now, before, key, text)
    assert again.startswith(text)
    assert parse_value(in_units(key, now), again) == parse_value(in_units(key, before), text)


@pytest.mark.parametrize(
    ("path", "typed", "metric", "imperial"),
    [
        ("scale.step_g", "1/2", "1/2 g", "1/2 oz"),
        ("scale.step_g", "1 lb 2 oz", "1 lb 2 oz", "1 lb 2 oz"),
        ("scale.step_g", "a few", "a few", "a few"),
        ("scale.step_g", "", "", ""),
        ("spinning.single_m_per_g", "4, 5", "4, 5 m/g", "4, 5 yd/lb"),
        ("spinning.minutes_per_g", "3", "3 min/g", "3 min/oz"),
        ("fabric.gauge_rows", "30", "30 in 10 cm", "30 in 4 inches"),
        ("fabric.swatch", "22 30 8,5", "22 30 8,5 g", "22 30 8,5 oz"),
        ("scheme.portions", "1, Kelp, 27,5\n2, Foam, 3", *(
            f"1, Kelp, 27,5 {unit}\n2, Foam, 3 {unit}" for unit in ("g", "oz")
        )),
        ("scheme.portions", "1, Kelp, some", "1, Kelp, some", "1, Kelp, some"),
        ("braid.segments", "Kelp, blue, 20", "Kelp, blue, 20 cm", "Kelp, blue, 20 in"),
        ("spinning.spin_loss", "3", "3", "3"),
    ],
)  # fmt: skip
def test_each_kind_of_field_has_its_unit_behind_what_was_typed(path, typed, metric, imperial):
    key = KEYS[tuple(path.split("."))]
    assert typed_in(IMPERIAL, METRIC, key, typed) == metric
    assert typed_in(METRIC, IMPERIAL, key, typed) == imperial


def test_two_numbers_of_two_units_have_each_their_own():
    """A yard is 0.9144 m and an ounce 28.349523125 g, by the agreement of 1959."""
    key = KEYS["spinning", "sample"]
    assert typed_in(IMPERIAL, METRIC, key, "20, 2,6") == "20 m, 2.6 g"
    again = parse_value(in_units(key, METRIC), typed_in(METRIC, IMPERIAL, key, "20, 2.6"))
    yard_m, ounce_g = Fraction("0.9144"), Fraction("28.349523125")
    assert again == {"length_m": float(20 * yard_m), "mass_g": float(ounce_g * 26 / 10)}
