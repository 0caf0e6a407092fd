"""Saving a plan into its file: it says what the plan says, and only what changed is touched."""

from dataclasses import replace
from difflib import ndiff

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.paths import SAMPLES
from tests.helpers.saved_plans import (
    CHANGED,
    FOAM,
    KELP,
    PLAN,
    PORTIONS,
    TEXT,
    WRACK,
    every_change,
    merged,
    plan_of,
    with_lots,
)
from tests.helpers.strategies import EVERY_SCHEME, plan_data
from yarncolor.plan import FreePortion, Scheme, Target


def difference(old: str, new: str) -> list[str]:
    """Return the lines that went, marked -, and those that came, marked +."""
    lines = ndiff(old.splitlines(), new.splitlines())
    return [line for line in lines if line[0] in "-+" and line[2:]]


@every_change
def test_what_was_saved_is_what_is_read(changed, tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text(TEXT)
    assert yc.save_plan(changed, path) == path
    assert yc.read_plan(path) == changed


@every_change
def test_a_new_file_says_the_same(changed, tmp_path):
    assert yc.read_plan(yc.save_plan(changed, tmp_path / "new.toml")) == changed
    assert [path.name for path in tmp_path.iterdir()] == ["new.toml"]


@every_change
def test_saving_twice_changes_nothing_more(changed):
    once = merged(TEXT, changed)
    assert merged(once, changed) == once


@pytest.mark.parametrize("text", [TEXT, *(path.read_text("utf-8") for path in SAMPLES)])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_a_plan_that_did_not_change_leaves_every_byte(text, end, mark, tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes((mark + text.replace("\n", end)).encode())
    before = path.read_bytes()
    yc.save_plan(yc.read_plan(path), path)
    assert path.read_bytes() == before


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_every_sample_comes_back_from_a_new_file(sample, tmp_path):
    plan = yc.read_plan(sample)
    assert yc.read_plan(yc.save_plan(plan, tmp_path / "new.toml")) == plan


@pytest.mark.parametrize(
    ("name", "lines"),
    {
        "another title": ['- title = "Shore" # the title', '+ title = "Strand" # the title'],
        "no title": ['- title = "Shore" # the title'],
        "a purpose": [r'+ purpose = "a \"scarf\"\nfor me"'],
        "divisions": ["+ divisions = [1, [2.0, 1.0], 4]"],
        "a table more": ["+ [plying]", "+ wound_off = [1, 0, 1]", "+ contraction = 0.04"],
        "a target": ["+ [target]", "+ yarn_m = 0.005"],
        "a table less": ["- # --- the singles ---", "- [spinning]", "- single_tex = 110.0"],
        "a number for each ply": [
            "- single_tex = 110.0",
            "+ single_tex = [90.0, 1000.0, 110.5]",
        ],
    }.items(),
)
def test_only_the_lines_that_changed_are_touched(name, lines):
    assert difference(TEXT, merged(TEXT, CHANGED[name]))[: len(lines)] == lines


_UNORDERED = merged(TEXT, with_lots(*PLAN.lots))


@pytest.mark.parametrize(
    ("name", "lines"),
    {
        "a note": ['+ note = "two pots"'],
        "a note in the last lot": ['+ note = "three pots"'],
        "lab for hex": ['- colour = "#56612d"', "+ lab = [40.0, -8.0, 30.0]"],
        "rolags for grams": ["- mass_g = 27.0", "+ rolags = 9.0", "+ rolag_g = 3.0"],
        "a lot renamed": ['- name = "Foam"', '+ name = "Φύκι"'],
        "the last lot gone": [
            "- # Wrack comes last.",
            "- [[lots]]",
            '- name = "Wrack"',
            '- colour = "#311"',
            "- mass_g = 20    # weighed twice",
        ],
        "a lot at the end": [
            "+ [[lots]]",
            '+ name = "Dune"',
            '+ colour = "#c9b48a"',
            "+ mass_g = 5.0",
        ],
    }.items(),
)
def test_only_the_lines_of_the_lot_that_changed_are_touched(name, lines):
    assert difference(_UNORDERED, merged(_UNORDERED, CHANGED[name])) == lines


def test_a_new_key_stands_under_the_last_of_its_own_table():
    lines = merged(_UNORDERED, CHANGED["a note in the last lot"]).splitlines()
    assert lines[lines.index('note = "three pots"') - 1].startswith("mass_g = 20 ")
    assert lines[lines.index("[scheme]") - 1] == "# --- the scheme ---"


def test_a_new_lot_stands_before_what_announces_the_next_table():
    text = merged(_UNORDERED, CHANGED["a lot at the end"])
    assert text.index("weighed twice") < text.index("Dune") < text.index("# --- the scheme ---")


def test_a_lot_that_moves_takes_its_comments_along():
    text = merged(_UNORDERED, CHANGED["lots turned round"])
    stash = text[text.index("# --- the stash") : text.index("# --- the scheme")]
    assert (
        stash
        == """\
# --- the stash ---
# Wrack comes last.
[[lots]]
name = "Wrack"
colour = "#311"
mass_g = 20    # weighed twice

# Foam is undyed.
[[lots]]
name = "Foam"
lab = [86.0, 0.5, 8.0]
mass_g = 20

[[lots]] # the first
name = "Kelp" # olive
colour = "#56612d"
mass_g = 27.0
# Kelp ends here.

"""
    )


@every_change
def test_every_comment_survives_but_those_of_what_went(changed):
    gone = {
        comment
        for table, comments in (
            (changed.title, ["# the title"]),
            (KELP.name in changed.names, ["# the first", "# olive", "# Kelp ends here."]),
            (FOAM.name in changed.names or "Φύκι" in changed.names, ["# Foam is undyed."]),
            (WRACK.name in changed.names, ["# Wrack comes last.", "# weighed twice"]),
            (changed.scheme.name, ["# --- the scheme ---", "# what else"]),
            (changed.scheme.sequence == PLAN.scheme.sequence, ["# there"]),
            (changed.spinning.single_tex, ["# --- the singles ---", "# The end."]),
        )
        if not table
        for comment in comments
    }
    text = merged(TEXT, changed)
    comments = {line[line.index("# ") :] for line in TEXT.splitlines() if "# " in line}
    assert {comment for comment in comments if comment not in text} == gone


def test_a_list_over_several_lines_stays_one():
    text = merged(TEXT, CHANGED["another sequence"])
    assert text[text.index("sequence") : text.index("]", text.index("sequence"))] == (
        'sequence = [\n    "Foam",\n    "Kelp",\n    "Foam",\n'
    )


def test_a_new_file_begins_with_the_stash():
    text = merged("", replace(CHANGED["the user's own portions"], target=Target(yarn_g=10.0)))
    heads = [line for line in text.splitlines() if line.startswith(("[", "title", "name"))]
    assert heads == [
        'title = "Shore"',
        *('[[lots]]', 'name = "Kelp"', '[[lots]]', 'name = "Foam"', '[[lots]]', 'name = "Wrack"'),
        *("[scheme]", 'name = "free"', "[[scheme.portions]]", "[[scheme.portions]]"),
        *("[spinning]", "[target]"),
    ]  # fmt: skip


def test_a_portion_that_changes_keeps_its_place_and_comment():
    text = merged(TEXT, CHANGED["the user's own portions"]).replace(
        "mass_g = 2.5", "mass_g = 2.5  # heaped"
    )
    portions = (PORTIONS[0], FreePortion(3, "Foam", 3.0), FreePortion(2, "Kelp", 1.0))
    now = merged(text, replace(PLAN, scheme=Scheme("free", portions=portions)))
    assert 'ply = 3\nlot = "Foam"\nmass_g = 3.0  # heaped\n' in now
    assert plan_of(now).scheme.portions == portions


any_plan = st.sampled_from(EVERY_SCHEME).flatmap(plan_data).map(yc.plan_from_data)


@times(2)
@given(any_plan, any_plan)
def test_any_plan_can_be_saved_over_any_other(plan, other):
    assert plan_of(merged(merged("", other), plan)) == plan
