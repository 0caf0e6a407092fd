"""Every key of a plan file is declared, and a declaration says all that is asked of it."""

from dataclasses import MISSING, fields
from types import NoneType
from typing import get_args, get_type_hints

import pytest

from yarncolor import plan_from_data
from yarncolor.defaults import divisions_of
from yarncolor.layout.closing import CLOSINGS
from yarncolor.layout.schemes import SCHEMES
from yarncolor.plan import (
    SCHEME_NAMES,
    Aims,
    Bath,
    Lot,
    OwnPly,
    Plan,
    Sample,
    Scheme,
    Swatch,
    WrappedSkein,
)
from yarncolor.plan.key import (
    KINDS,
    NUMBER,
    SHARE,
    TABLE,
    TABLES,
    WHOLE,
    WORD,
    attribute_of,
    keys_of,
    name_of,
)
from yarncolor.plan.own_ply import FreePortion
from yarncolor.plan.reference import KEYS, ROWS, reference_rows, unused_keys
from yarncolor.plan.reference import TABLES as HOLDERS
from yarncolor.yarn.balance import CRITERIA

SMALL = (Aims, Bath, FreePortion, OwnPly, Sample, WrappedSkein, Swatch)
OF_THE_MODEL = {
    ("Lot", "is_step"),
    ("Lot", "on_braid"),
    ("Plan", "lots"),
    ("Plan", "kept_as"),
    ("Plan", "unseen"),
    ("Plan", "hands"),
    ("Plan", "filled"),
    *(("Plan", table) for table in (*HOLDERS, *ROWS)),
}
"""Fields that are no keys: a lot that a gradient made, the file's name, the tables themselves."""
EVERY = [
    *KEYS.values(),
    *(key for holder in SMALL for key in keys_of(holder, holder.__name__).values()),
]
every_key = pytest.mark.parametrize("key", EVERY, ids=lambda key: key.path)


@pytest.mark.parametrize("holder", [Plan, Lot, *HOLDERS.values(), *ROWS.values(), *SMALL])
def test_every_field_of_a_table_is_a_declared_key_and_each_key_a_field(holder):
    names = {name_of(one.name) for one in fields(holder)}
    known = {name for owner, name in OF_THE_MODEL if owner == holder.__name__}
    assert set(keys_of(holder)) == names - known


@every_key
def test_a_key_says_what_it_means_and_what_would_be_right(key):
    assert key.kind in KINDS
    assert key.meaning.endswith(".")
    assert str(key.remedy).startswith("give ")
    assert "{" not in str(key.remedy).replace("{ Kelp = 2, Foam = 1 }", "")
    if key.kind in (NUMBER, WHOLE, SHARE):
        assert key.low < key.high
    if key.kind == WORD:
        assert len(key.choices) > 1
    if key.kind in (TABLE, TABLES):
        assert all(one.meaning for one in keys_of(key.holds).values())


@pytest.mark.parametrize("key", KEYS.values(), ids=lambda key: key.path)
def test_a_key_of_the_file_has_words_on_screen(key):
    of_the_colour = {f"lots.{way}" for way in ("lab", "blend", "drafted", "bath")}
    if key.path not in of_the_colour:  # typed in its field
        assert key.words
    assert "_" not in key.words
    assert all("_" not in words for _, words in key.choices)


@every_key
def test_a_default_is_one_of_what_can_be_given(key):
    if key.default is None:
        return
    if key.choices and key.low is None:
        assert key.default in dict(key.choices)
    elif key.low is not None:
        assert key.low <= key.default <= key.high


@pytest.mark.parametrize("holder", [Plan, Lot, *HOLDERS.values(), *ROWS.values(), *SMALL])
def test_a_field_is_of_the_type_that_its_kind_is(holder):
    hints = get_type_hints(holder)
    for name, key in keys_of(holder).items():
        hint = hints[attribute_of(name)]
        types = set(get_args(hint)) - {NoneType} or {hint}
        plain = {one for one in types if one in (int, float, str)}
        asked = {NUMBER: {float}, SHARE: {float}, WHOLE: {int}, WORD: {str}}.get(key.kind)
        assert asked is None or plain == asked
        assert (len(types - plain) == 1) == bool(key.each) or key.kind not in (NUMBER, WHOLE, WORD)


def test_the_tables_of_a_plan_file_are_those_of_a_plan():
    assert tuple(HOLDERS) == (
        *("braid", "scheme", "spinning", "plying", "scale", "bobbins", "fabric", "target"),
        *("orders", "plied", "made"),
    )
    assert tuple(ROWS) == ("spun", "lost", "to_spin", "pull_off")


def test_every_key_is_met_in_the_reference():
    rows = reference_rows()
    assert {(row.table, row.key) for row in rows} >= set(KEYS)
    assert len({(row.table, row.key) for row in rows}) == len(rows)
    assert all(row.meaning and row.range and row.schemes for row in rows)
    by_key = {f"{row.table}.{row.key}": row for row in rows}
    assert by_key["scheme.loop_m"][3:] == ("m", "0.01 to 100", "0.3", "chain")
    assert by_key["plying.contraction"].range == "-0.2 to 0.6"
    assert by_key["plying.contraction"].unit == "share"
    assert by_key["spinning.sample.length_m"].range == "0.01 to 100,000"
    assert by_key["spinning.single_tex"].range == "1 to 50,000, or one for each ply"


def test_an_optional_key_is_left_out_of_a_plan_that_does_not_give_it():
    for holder in HOLDERS.values():
        for one in fields(holder):
            is_needed = one.default is MISSING and one.default_factory is MISSING
            default = (
                one.default_factory() if one.default is MISSING and not is_needed else one.default
            )
            assert is_needed or default in (None, (), "")


def test_names_of_schemes_and_criteria_are_those_that_are_built():
    assert tuple(SCHEMES) == SCHEME_NAMES
    assert tuple(dict(KEYS["plying", "balance"].choices)) == tuple(CRITERIA)
    assert tuple(dict(KEYS["scheme", "closing"].choices)) == tuple(CLOSINGS)
    assert {name for key in KEYS.values() for name in key.schemes} <= set(SCHEMES)


def test_a_scheme_knows_the_keys_that_say_nothing_to_it():
    assert "loop_m" not in {key.name for key in unused_keys("chain")}
    assert {key.name for key in unused_keys("matched")} >= {"loop_m", "divisions", "solid_lot"}


def test_divisions_by_default_are_as_declared():
    two = plan_from_data(
        {"lots": [{"name": "Kelp", "colour": "#345", "mass_g": 9.0}], "scheme": {"plies": 2}}
    )
    assert divisions_of(two.scheme) == (1, 4)
    assert divisions_of(Scheme()) == (1, 2, 4)
    assert KEYS["scheme", "divisions"].otherwise == "[1, 4] for two plies, else doubling from 1"
