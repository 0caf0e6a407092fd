"""Several lots at once: what a line says, in whatever way a list or a spreadsheet writes it."""

from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tests.helpers.strategies import COLOURS, plan_data
from yarncolor import plan_from_data
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_lines import lines_of
from yarncolor.editing.lot_rows import rows_of
from yarncolor.editing.new_lots import with_lines
from yarncolor.editing.new_plan import NEW_PLAN
from yarncolor.layout.schemes import SCHEMES
from yarncolor.planfile.read import plan_from_text

OUNCE_G = 28.349523125
"""The international avoirdupois ounce, a sixteenth of 453.59237 g."""


@pytest.fixture
def fresh():
    return plan_from_text(NEW_PLAN, "a new plan")


@pytest.fixture
def stash():
    lots = [{"name": "Kelp", "colour": "#445533", "mass_g": 30.0}]
    return plan_from_data({**plan_data_of(lots), "scheme": {"sequence": ["Kelp"]}})


def plan_data_of(lots):
    return {"lots": [*lots, {"name": "Foam", "colour": "#ddeeee", "mass_g": 20.0}]}


@pytest.mark.parametrize(
    ("line", "name", "mass_g", "colour"),
    [
        ("Kelp 27 g #56612d", "Kelp", 27, "#56612d"),
        ("Kelp\t27\t#56612d", "Kelp", 27, "#56612d"),
        ("Kelp\t#56612d\t27,5", "Kelp", 27.5, "#56612d"),
        ("Kelp; 27,5 g; brick red", "Kelp", 27.5, "brick red"),
        ("Kelp 27 g; brick red", "Kelp", 27, "brick red"),
        ("Kelp, 27 g, brick red", "Kelp", 27, "brick red"),
        ("Kelp,27,brick red", "Kelp", 27, "brick red"),
        ("Kelp, brick red, 27 g", "Kelp", 27, "brick red"),
        ("Kelp #56612d 27 g", "Kelp", 27, "#56612d"),
        ("Deep Water 27g brick red", "Deep Water", 27, "brick red"),
        ("Lot 3: 27 grams, brick red", "Lot 3", 27, "brick red"),
        ("Lot 3\t27", "Lot 3", 27, "grey"),
        ("  - Kelp (27 g) brick red ", "Kelp", 27, "brick red"),
        ("27 g Deep Water, brick red", "Deep Water", 27, "brick red"),
        ("Kelp 1 oz", "Kelp", OUNCE_G, "grey"),
        ("Kelp ½ oz brick red", "Kelp", OUNCE_G / 2, "brick red"),
        ("Kelp 1 1/2 oz", "Kelp", 1.5 * OUNCE_G, "grey"),
        ("Kelp 1,200 g, moss green", "Kelp", 1200, "moss green"),
        ("Kelp\t1,200\tmoss green", "Kelp", 1200, "moss green"),
        ("Kelp - 27 g", "Kelp", 27, "grey"),
        ("Kelp 1 lb 2 oz", "Kelp", 18 * OUNCE_G, "grey"),
        ("Kelp 27 g", "Kelp", 27, "grey"),
        ("Brick red 27 g", "Brick red", 27, "Brick red"),
        ("Sea, deep 27 g", "Sea, deep", 27, "grey"),
        ("Kelp; 0,5 kg;; ", "Kelp", 500, "grey"),
    ],
)
def test_a_line_is_a_lot_in_whatever_way_it_is_written(fresh, line, name, mass_g, colour):
    (lot,) = with_lines(fresh, line).plan.lots
    assert (lot.name, lot.mass_g, lot.colour) == (name, pytest.approx(mass_g), colour)


def test_a_heading_and_empty_lines_are_left_out_and_what_is_left_of_a_row_is_a_note(fresh):
    text = "Lot\tGrams\tColour\r\n\r\nKelp\t27\tbrick red\tfrom the rocks\tdull\r\nFoam\t9\t\r\n"
    lots = with_lines(fresh, text).plan.lots
    assert [(lot.name, lot.mass_g, lot.note) for lot in lots] == [
        ("Kelp", 27, "from the rocks, dull"), ("Foam", 9, ""),
    ]  # fmt: skip


def test_measured_colours_and_recipes_are_colours_of_a_line_too(fresh):
    text = "Kelp 30 g 35 -6 16\nFoam; 20; #dddddd\nMix 6 g 2 Kelp + 1 Foam"
    kelp, _, mix = with_lines(fresh, text).plan.lots
    assert kelp.lab == (35, -6, 16)
    assert dict(mix.blend) == {"Kelp": 2, "Foam": 1}


def test_new_lots_come_behind_those_of_the_stash_and_last_in_the_order(stash):
    made = with_lines(stash, "Rust 9 g\nDusk 8 g #223344")
    assert made.plan.names == ("Kelp", "Foam", "Rust", "Dusk")
    assert made.plan.scheme.sequence == ("Kelp", "Rust", "Dusk")
    assert made.words == "2 lots added, 17.0 g. Undo takes them out again."


def test_several_lots_are_one_step_and_those_without_a_colour_are_named(fresh):
    editor = Editor(fresh)
    made = with_lines(editor.plan, "Kelp 27 g\nFoam 3 g white\nSand dune 9 g")
    assert made.words.endswith("Grey until you say the colour: Kelp and Sand dune.")
    editor.replace_plan(made.plan)
    editor.undo()
    assert editor.plan == fresh
    assert not editor.can_undo


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("Ebb", "give a name, its weight and its colour, as “Kelp 27 g brick red”"),
        ("Ebb 27 brick red", "27 of what? give a name"),
        ("Ebb 27 m brick red", "27 m is a length; give a name"),
        ("Ebb 0 g brick red", "give grams, 0.001 to 100,000"),
        ("Ebb 9 g sky", "give a colour in words"),
        ("; 9 g; brick red", "this lot has no name; give a name"),
        ("9 g", "this lot has no name; give a name"),
        (f"{'E' * 61}; 9 g", "give a name of 1 to 60 characters"),
        ("Kelp 9 g", "Kelp is in the stash already; give this lot a name of its own"),
        ("Dune 9 g", "Dune is in line 1 already; give this lot a name of its own"),
    ],
)
def test_a_line_that_cannot_be_is_told_by_its_number_and_no_other_is_taken(stash, line, words):
    made = with_lines(stash, f"Dune 9 g\n\n{line}\nRust 9 g")
    assert made.plan is None
    (fault,) = made.faults
    assert fault.startswith(f"Line 3: {words}")
    assert made.words == "No lot is added until this line is right."


def test_every_line_that_is_wrong_is_told_at_once_in_its_order(stash):
    made = with_lines(stash, "Dune\nRust 9 g sky\nDusk 9 g\nKelp 0 g")
    assert [fault[:7] for fault in made.faults] == ["Line 1:", "Line 2:", "Line 4:", "Line 4:"]
    assert made.words == "No lot is added until these lines are right."


def test_nothing_and_far_too_much_are_told(stash):
    assert with_lines(stash, " \n\t\n").words.startswith("Nothing is typed here yet")
    (fault,) = with_lines(stash, "Kelp 1 g\n" * 501).faults
    assert fault == "501 lines are too many lots: at most 500."


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize(
    ("heading", "unit_g"),
    [
        ("name; g; colour", 1.0),
        ("Lot; weight (oz); colour", OUNCE_G),
        ("lot; pounds", 16 * OUNCE_G),
    ],
)
def test_numbers_below_a_heading_are_in_the_unit_that_it_names(units, heading, unit_g):
    plan = replace(plan_from_text(NEW_PLAN, "a new plan"), units=units)
    made = with_lines(plan, f"{heading}\nKelp; 27,5; navy\nFoam; 3 oz; white\nDune; 1/2; tan").plan
    masses_g = [lot.mass_g for lot in made.lots]
    assert masses_g == pytest.approx([27.5 * unit_g, 3 * OUNCE_G, unit_g / 2])


def test_a_heading_of_no_unit_or_of_two_leaves_numbers_to_the_plan():
    plan = replace(plan_from_text(NEW_PLAN, "a new plan"), units="imperial")
    for heading in ("name; weight", "name; g; oz"):
        made = with_lines(plan, f"{heading}\nKelp; 2\nFoam; 3").plan
        assert [lot.mass_g for lot in made.lots] == pytest.approx([2 * OUNCE_G, 3 * OUNCE_G])


@given(st.text(max_size=200))
@example("1 g" * 60)
@example("\x00;1;\x1f")
@example("nan\tnan\ninf\tinf\n;;;\n#\t#")
def test_nonsense_is_told_and_never_half_taken(text):
    plan = plan_from_text(NEW_PLAN, "a new plan")
    made = with_lines(plan, text)
    assert made.words
    assert (made.plan is None) or len(made.plan.lots) == len(lines_of(text))


@given(st.sampled_from(sorted(SCHEMES)).flatmap(plan_data), st.sampled_from("\t;"))
def test_what_the_rows_show_can_be_pasted_again(data, sign):
    plan = plan_from_data(data)
    shown = [(row.name, row.mass_g, row.colour) for row in rows_of(plan)]
    text = "\n".join(sign.join(cells) for cells in shown)
    made = with_lines(plan_from_text(NEW_PLAN, "a new plan"), text).plan
    assert [(lot.name, lot.mass_g, lot.colour, lot.lab) for lot in made.lots] == [
        (lot.name, lot.mass_g, lot.colour, lot.lab) for lot in plan.lots
    ]


@given(
    st.lists(
        st.sampled_from(["Kelp", "Foam", "Deep", "Water", "3", "Lot"]), min_size=1, max_size=4
    ),
    st.integers(1, 99_999),
    st.sampled_from(COLOURS),
    st.sampled_from([" g ", "g ", " grams, ", " g; "]),
)
def test_names_of_several_words_and_numbers_are_kept_whole(words, tenths, colour, unit):
    name, grams = " ".join(words), f"{tenths / 10:g}"
    (line,) = lines_of(f"{name} {grams.replace('.', ',')}{unit}{colour}")
    assert (line.row.name, line.row.colour) == (name, colour)
    plan = with_lines(plan_from_text(NEW_PLAN, "a new plan"), f"{name} {grams}{unit}{colour}").plan
    assert plan.lots[0].mass_g == pytest.approx(tenths / 10)
