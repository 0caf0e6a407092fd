"""Saving into files of any layout: line ends, a byte order mark, inline and scattered tables."""

from dataclasses import replace

import pytest

import yarncolor as yc
from tests.helpers.saved_plans import CHANGED, TEXT, every_change, merged, plan_of
from yarncolor.plan import Scheme


@every_change
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_a_byte_order_mark_stay(changed, mark):
    crlf = merged(mark + TEXT.replace("\n", "\r\n"), changed)
    assert crlf == mark + merged(TEXT, changed).replace("\n", "\r\n")


def test_a_text_over_several_lines_is_the_same_with_either_line_end():
    text = TEXT.replace("mass_g = 27.0", 'mass_g = 27.0\nnote = """one\ntwo"""')
    changed = replace(plan_of(text), title="Strand")
    assert changed.lots[0].note == "one\ntwo"
    crlf = merged(text.replace("\n", "\r\n"), changed)
    assert crlf == merged(text, changed).replace("\n", "\r\n")


_MIXED = TEXT.replace("\n", "\r\n", 12)


@every_change
def test_a_file_of_mixed_line_ends_is_changed_like_any_other(changed):
    assert plan_of(merged(_MIXED, changed)) == changed


def test_a_file_of_mixed_line_ends_keeps_those_it_has():
    text = merged(_MIXED, CHANGED["another title"])
    assert text == _MIXED.replace('"Shore"', '"Strand"')


@every_change
def test_a_file_without_a_last_line_end_is_changed_like_any_other(changed):
    assert merged(TEXT.rstrip("\n"), changed) == merged(TEXT, changed)


_PORTIONS = "the user's own portions"
_INLINE = """\
title = "Shore"
lots = [
  {name = "Kelp", colour = "#56612d", mass_g = 27.0}, # olive
  {name = "Foam", lab = [86.0, 0.5, 8.0], mass_g = 20},
  {name = "Wrack", colour = "#311", mass_g = 20},
]
scheme = {name = "fractal", sequence = ["Kelp", "Foam", "Wrack"]}
spinning = {single_tex = 110.0}
"""
_DOTTED = """\
title = "Shore"
scheme.name = "fractal"
scheme.sequence = ["Kelp", "Foam", "Wrack"]
spinning.single_tex = 110.0
""" + TEXT[TEXT.index("[[lots]]") : TEXT.index("# --- the scheme")]  # fmt: skip
_SCATTERED = """\
[scheme]
  name = 'fractal'
  sequence = ["Kelp", "Foam", "Wrack"]
[[lots]]
"name" = "Kelp"
colour = "#56612d"
mass_g = 2.7e1
[spinning]
single_tex = 110
[[lots]]
name = \"""Foam\"""
lab = [86, 0.5, 8]
mass_g = 20
[plying]
[[lots]]
name = "Wrack"
colour = "#311"
mass_g = 20"""


@pytest.mark.parametrize("text", [_INLINE, _DOTTED, _SCATTERED], ids=["inline", "dotted", "loose"])
@pytest.mark.parametrize("name", [name for name in CHANGED if name != _PORTIONS])
def test_other_layouts_are_changed_too(text, name):
    assert plan_of(merged(text, CHANGED[name])) == CHANGED[name]


@pytest.mark.parametrize("text", [_INLINE, _DOTTED, _SCATTERED], ids=["inline", "dotted", "loose"])
def test_other_layouts_stay_to_the_letter_where_nothing_changed(text):
    assert merged(text, plan_of(text)) == text


def test_a_first_title_stands_apart_from_the_tables_below_it():
    text = TEXT[TEXT.index("[[lots]]") :]
    assert merged(text, replace(plan_of(text), title="Strand")) == f'title = "Strand"\n\n{text}'


@pytest.mark.parametrize("text", [_INLINE, _SCATTERED], ids=["inline", "loose"])
def test_portions_fit_where_the_scheme_is_a_table(text):
    assert plan_of(merged(text, CHANGED[_PORTIONS])) == CHANGED[_PORTIONS]


def test_a_layout_in_which_a_change_has_no_place_is_refused_whole():
    with pytest.raises(yc.PlanError) as told:
        merged(_DOTTED, CHANGED[_PORTIONS])
    assert str(told.value) == (
        "plan.toml: is laid out so that it cannot be changed in place; save to a new file"
    )


def test_inline_lots_that_keep_their_places_keep_their_comments():
    renamed = CHANGED["a lot renamed"]
    now = merged(_INLINE, replace(renamed, scheme=Scheme("fractal")))
    assert '  {name = "Kelp", colour = "#56612d", mass_g = 27.0}, # olive\n' in now
    assert '  {name = "Φύκι", lab = [86.0, 0.5, 8.0], mass_g = 20},\n' in now
