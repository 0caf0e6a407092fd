"""Fields of a plan in ounces and yards: their words, what a number alone is, how a value shows.

Sizes by the agreement of 1959: 1 in = 2.54 cm, 1 yd = 0.9144 m, 1 lb = 453.59237 g = 16 oz.
"""

import re
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.helpers.heard_form import HeardForm
from tests.helpers.metric_words import metric_words
from yarncolor import plan_from_data, read_plan, save_plan
from yarncolor.editing.editor import Editor
from yarncolor.editing.fault_words import in_form_words
from yarncolor.editing.field_units import in_units
from yarncolor.editing.option_text import format_value, parse_value, read_again
from yarncolor.editing.options import OPTIONS
from yarncolor.measures import IMPERIAL, METRIC
from yarncolor.plan.key import NUMBER, TABLE, TABLES
from yarncolor.plan.reference import KEYS
from yarncolor.said import Amount, Span, said

OUNCE_G, YARD_M, INCH_CM = Fraction("28.349523125"), Fraction("0.9144"), Fraction("2.54")
YD_PER_LB = YARD_M / (16 * OUNCE_G)

TYPED = {
    "g": ("oz|ounce", OUNCE_G),
    "m": ("yd|yard", YARD_M),
    "cm": ("in\\b|inch", INCH_CM),
    "m in a gram": ("yd/lb|yards of single in a pound", YD_PER_LB),
    "m in 100 g": ("yd/lb|yards in a pound", 100 * YD_PER_LB),
    "in 10 cm": ("in 4 inches", 10 / (4 * INCH_CM)),
    "minutes": ("minutes for an ounce", 1 / OUNCE_G),
    "turns in a metre": ("turns in a yard", 1 / YARD_M),
}
"""What stands beside a field, and how much one of it is, by the unit of the file."""

INCHES = {("scheme", "loop_m"): ("in\\b|inch", INCH_CM / 100)}
"""Of short lengths."""

SAME = {
    *("", "tex", "to the inch", "turns in an inch", "°", "g/cm³", "turns in a metre × √tex"),
    *("a minute", "turns", "stitches", "rows", "places", "CIEDE2000", "h", "lots", "times"),
}
"""Units of both."""

FIELDS = {path: key for path, key in KEYS.items() if key.words}
IN_ANOTHER = {path: key for path, key in FIELDS.items() if key.unit in TYPED}
LIMITED = {path: key for path, key in IN_ANOTHER.items() if "{}" in key.right}


def typed_of(path) -> tuple[str, Fraction]:
    return INCHES.get(path) or TYPED[KEYS[path].unit]


@pytest.mark.parametrize("path", FIELDS, ids=".".join)
def test_every_unit_of_a_key_is_known_here(path):
    key = FIELDS[path]
    units = {key.unit, *(part.unit for part in key.held.values())}
    assert units <= {*TYPED, *SAME}


@pytest.mark.parametrize("path", FIELDS, ids=".".join)
def test_nothing_beside_a_field_says_gram_or_metre(path):
    key = in_units(FIELDS[path], IMPERIAL)
    said_of_it = [key.words, key.words_each, key.brief, key.heading]
    shown = [*said_of_it, key.example, key.otherwise, *key.choice_words.values()]
    if path != ("", "units"):
        assert metric_words(" | ".join(shown)) == []


@pytest.mark.parametrize("path", FIELDS, ids=".".join)
def test_a_plan_in_grams_has_the_keys_as_they_are(path):
    assert in_units(FIELDS[path], METRIC) is FIELDS[path]


@pytest.mark.parametrize("path", IN_ANOTHER, ids=".".join)
def test_words_say_the_unit_and_a_number_alone_is_in_it(path):
    words, size = typed_of(path)
    key = in_units(IN_ANOTHER[path], IMPERIAL)
    assert re.search(words, key.words)
    assert parse_value(key, "1.25") == float(Fraction("1.25") * size)
    assert parse_value(key, "1,25") == float(Fraction("1.25") * size)
    assert format_value(key, float(Fraction("1.25") * size)) == "1.25"


@pytest.mark.parametrize("path", IN_ANOTHER, ids=".".join)
def test_a_number_with_its_metric_unit_is_what_it_says(path):
    key = IN_ANOTHER[path]
    text = f"3 {key.unit}" if key.unit != "minutes" else "3 min/g"
    assert parse_value(in_units(key, IMPERIAL), text) == parse_value(key, text) == 3


@pytest.mark.parametrize("path", LIMITED, ids=".".join)
def test_limits_are_said_in_the_unit_and_can_be_given(path):
    words, size = typed_of(path)
    key = LIMITED[path]
    told = in_form_words(key.remedy, IMPERIAL)
    assert metric_words(told) == []
    assert re.search(words, told)
    low, _, high = told.partition(" to ")
    for text in (low.split()[-1], high.split()[0].rstrip(",")):
        value = float(Fraction(text.replace(",", "")) * size)
        assert key.low <= value <= key.high
        assert min(abs(value - key.low), abs(value - key.high)) <= 1e-3 * value


@pytest.mark.parametrize("path", LIMITED, ids=".".join)
def test_limits_of_a_plan_in_grams_are_those_of_the_file(path):
    assert in_form_words(LIMITED[path].remedy) == str(LIMITED[path].remedy).replace(
        "a list with one", "one"
    )


def test_a_limit_that_follows_from_the_plan_is_never_rounded_beyond_it():
    most = said("give at most {most}", most=Amount(100.0, "g", bound="most"))
    assert str(most) == in_form_words(most) == "give at most 100 g"
    assert in_form_words(most, IMPERIAL) == "give at most 3.527 oz"
    assert in_form_words(said("{span}", span=Span(0.0, 100.0, "g")), IMPERIAL) == "0 to 3.527"


@given(
    path=st.sampled_from(sorted(IN_ANOTHER)),
    digits=st.integers(1, 999_999_999),
    decimals=st.integers(0, 5),
)
def test_a_typed_number_is_shown_again_as_it_was_typed(path, digits, decimals):
    text = f"{Decimal(digits).scaleb(-decimals):f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    key = in_units(IN_ANOTHER[path], IMPERIAL)
    assert format_value(key, parse_value(key, text)) == text


@given(path=st.sampled_from(sorted(IN_ANOTHER)), value=st.floats(1e-3, 1e5))
def test_the_shown_text_typed_again_changes_nothing(path, value):
    key = in_units(IN_ANOTHER[path], IMPERIAL)
    shown = format_value(key, value)
    assert read_again(key, shown, value) == value
    assert float(parse_value(key, shown)) == pytest.approx(value, rel=6e-4)


@given(st.lists(st.floats(0.01, 500), min_size=2, max_size=5), st.integers(0, 4))
def test_of_several_numbers_only_the_one_that_is_typed_changes(values, at):
    assume(at < len(values))
    key = in_units(KEYS["bobbins", "tare_g"], IMPERIAL)
    texts = format_value(key, values).split(", ")
    assume(len({*texts}) == len(texts))
    texts[at] = "12345"
    typed = read_again(key, "; ".join(texts), values)
    assert typed == [*values[:at], float(12345 * OUNCE_G), *values[at + 1 :]]


SMALL = {
    "spinning.sample": ("22, 0.09", {"length_m": 22 * YARD_M, "mass_g": OUNCE_G * 9 / 100}),
    "spinning.wrapped_skein": ("14, 1100", {"wpi": 14, "m_per_100g": 110_000 * YD_PER_LB}),
    "fabric.swatch": ("20, 28, 0.16", {"stitches": 20, "rows": 28, "mass_g": OUNCE_G * 4 / 25}),
    "spun.sample": ("2, 0.007", {"length_m": 2 * YARD_M, "mass_g": OUNCE_G * 7 / 1000}),
    "scheme.portions": (
        "1, Kelp, 0.5\n2, Foam, 1.25",
        [
            {"ply": 1, "lot": "Kelp", "mass_g": OUNCE_G / 2},
            {"ply": 2, "lot": "Foam", "mass_g": OUNCE_G * 5 / 4},
        ],
    ),
    "braid.segments": (
        "Ebb, navy, 20.5\nFoam, lab 50 1 2, 8",
        [
            {"name": "Ebb", "colour": "navy", "length_cm": INCH_CM * 41 / 2},
            {"name": "Foam", "lab": [50, 1, 2], "length_cm": INCH_CM * 8},
        ],
    ),
}


def test_every_small_table_that_measures_is_typed_here():
    held = {
        ".".join(path)
        for path, key in FIELDS.items()
        if key.kind in (TABLE, TABLES) and {part.unit for part in key.held.values()} & {*TYPED}
    }
    assert held == {*SMALL}


@pytest.mark.parametrize("path", SMALL)
def test_a_small_table_is_typed_in_the_units_that_stand_beside_it(path):
    text, value = SMALL[path]
    key = in_units(KEYS[tuple(path.split("."))], IMPERIAL)
    assert parse_value(key, text) == _floats(value)
    assert format_value(key, _floats(value)) == text


def test_a_line_that_is_not_touched_keeps_its_grams():
    key = in_units(KEYS["scheme", "portions"], IMPERIAL)
    there = [{"ply": ply, "lot": "Kelp", "mass_g": 10.0 * ply} for ply in (1, 2)]
    first, second = format_value(key, there).splitlines()
    assert first == "1, Kelp, 0.3527"
    typed = read_again(key, f"{first}\n2, Kelp, 1", there)
    assert typed == [there[0], {"ply": 2, "lot": "Kelp", "mass_g": float(OUNCE_G)}]
    assert second == "2, Kelp, 0.7055"


def _floats(value):
    if isinstance(value, dict):
        return {key: _floats(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_floats(one) for one in value]
    return float(value) if isinstance(value, Fraction) else value


LOTS = [
    {"name": "Kelp", "colour": "#56612d", "mass_g": 50.0},
    {"name": "אצה", "colour": "#e8e4d8", "mass_g": 40.0},
]
TABLES_OF_PLAN = {
    "bobbins": {"capacity_g": 95.0, "tare_g": [31.5, 32.25]},
    "spinning": {"single_m_per_g": 7.3},
    "fabric": {"gauge_stitches": 23.0, "width_cm": 40.0},
}


def form_in(units: str = "imperial", **tables) -> HeardForm:
    return HeardForm(Editor(plan_from_data({"units": units, "lots": LOTS, **tables})))


@pytest.mark.parametrize(
    ("name", "text"),
    [
        (option.path, "1.25")
        for option in OPTIONS
        if option.unit in TYPED and option.kind == NUMBER
        if option.table in ("bobbins", "scale", "target")
    ],
)
def test_what_is_typed_comes_back_after_undo_redo_and_from_the_saved_file(tmp_path, name, text):
    form = form_in()
    field = form.put(name, text)
    assert (field["text"], field["fault"]) == (text, "")
    form.editor.undo()
    form.editor.redo()
    assert HeardForm(form.editor).field(name)["text"] == text
    again = HeardForm(Editor(read_plan(save_plan(form.editor.plan, tmp_path / "plan.toml"))))
    assert again.field(name)["text"] == text
    assert again.editor.plan == form.editor.plan


def test_what_is_shown_typed_again_is_no_step_and_the_file_keeps_its_numbers():
    form = form_in(**TABLES_OF_PLAN)
    before = form.editor.plan
    for name, field in form.fields().items():
        if field["text"]:
            form.put(name, field["text"])
    assert form.editor.plan == before
    assert not form.editor.can_undo


def test_the_plans_units_change_every_field_at_once_and_undo_takes_it_back():
    form = form_in("metric", **TABLES_OF_PLAN)
    grams = form.state()
    form.put(".units", "imperial")
    assert form.field("bobbins.capacity_g")["text"] == "3.351"
    assert form.field("bobbins.capacity_g")["words"] == "a bobbin holds, oz"
    assert form.field("spinning.single_m_per_g")["text"] == "3621"
    form.editor.undo()
    assert form.state() == grams


def test_what_is_wrong_in_grams_is_not_taken_for_ounces():
    form = form_in("metric")
    assert form.put("bobbins.capacity_g", "20000")["fault"]
    form.put(".units", "imperial")
    assert form.field("bobbins.capacity_g")["text"] == "20000 g"
    assert "ounces" in form.field("bobbins.capacity_g")["fault"]
