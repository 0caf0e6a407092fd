"""Two changes of the same lots: both are kept; only where they meet is one refused."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor import plan_from_data
from yarncolor.editing.colour_text import colour_hint, colour_keys
from yarncolor.editing.lot_merging import followed, merged
from yarncolor.editing.lot_rows import Row, plan_with_rows, rows_of

NAMES = ("Kelp", "Foam", "Wrack", "Dune", "Gorse")
BASE = [Row(at, name, f"#44553{at}", str(10 + at)) for at, name in enumerate(NAMES)]
MIX = Row(5, "Mix", "2 Kelp + 1 Foam", "3")
FREE = ("colour", "mass_g", "reserve_g", "note", "fibre", "dye", "preparation", "regain")


def keyed(rows):
    """Return rows as the lots of a plan that was changed to them."""
    return [replace(row, key=at) for at, row in enumerate(rows)]


def with_fields(rows, at, **fields):
    return [replace(row, **fields) if row.key == at else row for row in rows]


def fields_that_clash(found):
    return [(clash.row, clash.field) for clash in found.clashes]


# --- any two changes, against what they do lot by lot ---------------------------------------------

VALUES = st.sampled_from(("1", "2", "3"))
CHANGES = st.dictionaries(st.tuples(st.sampled_from(range(5)), st.sampled_from(FREE)), VALUES)
GONE = st.sets(st.sampled_from(range(5)))
NEW = st.lists(st.sampled_from(("Plum", "Slate", "Chalk")), unique=True, max_size=2)


@st.composite
def change(draw):
    gone = draw(GONE)
    changes = {place: value for place, value in draw(CHANGES).items() if place[0] not in gone}
    return changes, gone, draw(NEW)


def changed(one, prefix):
    changes, gone, new = one
    rows = BASE
    for (at, field), value in changes.items():
        rows = with_fields(rows, at, **{field: value})
    added = [Row(None, prefix + name, "#888888", "5") for name in new]
    return [row for row in rows if row.key not in gone] + added


@given(change(), change())
def test_both_changes_are_kept_wherever_they_do_not_meet(one, other):
    (mine, my_gone, my_new), (theirs, their_gone, their_new) = one, other
    found = merged([BASE, keyed(changed(other, "their "))], changed(one, "my "))
    meet = any(place in theirs and theirs[place] != mine[place] for place in mine)
    lost = {at for at, _ in mine} & their_gone or {at for at, _ in theirs} & my_gone
    assert bool(found.clashes) == bool(meet or lost)
    if found.clashes:
        return
    both = ({**theirs, **mine}, my_gone | their_gone, [])
    wanted = [replace(row, key=None) for row in changed(both, "")]
    wanted += [Row(None, f"their {name}", "#888888", "5") for name in their_new]
    wanted += [Row(None, f"my {name}", "#888888", "5") for name in my_new]
    assert [replace(row, key=None) for row in found.rows] == wanted


@given(change())
def test_with_one_change_alone_it_is_that_change(one):
    rows = changed(one, "")
    here = merged([BASE], rows)
    assert (here.rows, here.clashes) == (rows, [])
    assert here.places == list(range(len(rows)))
    there = merged([BASE, keyed(rows)], BASE)
    assert (there.rows, there.clashes) == (keyed(rows), [])


@given(change())
def test_the_same_change_made_twice_is_made_once(one):
    changes, gone, _ = one
    rows = changed((changes, gone, []), "")
    found = merged([BASE, keyed(rows)], rows)
    assert (found.rows, found.clashes) == (keyed(rows), [])


@given(change(), change())
def test_each_row_that_was_typed_is_found_in_its_place(one, other):
    typed = changed(one, "my ")
    found = merged([BASE, keyed(changed(other, "their "))], typed)
    if not found.clashes:
        at = [place for place in found.places if place is not None]
        assert len(set(at)) == len(at)
        for row, place in zip(typed, found.places, strict=True):
            if place is None:
                assert row.key in other[1]
            else:
                assert found.rows[place].name == row.name


# --- what clashes is told -------------------------------------------------------------------------


def test_a_field_that_both_changed_is_told_with_what_stands_there_now():
    now = with_fields(BASE, 1, note="dull", mass_g="12")
    found = merged([BASE, now], with_fields(BASE, 1, note="bright", mass_g="12,0"))
    (clash,) = found.clashes
    assert (clash.row, clash.field, clash.words) == (1, "note", "changed elsewhere too: dull")
    base = with_fields(BASE, 1, note="dull")
    (clash,) = merged([base, BASE], with_fields(BASE, 1, note="bright")).clashes
    assert clash.words == "cleared elsewhere meanwhile"


def test_a_lot_that_one_took_out_and_the_other_changed_is_told():
    less = [row for row in BASE if row.key != 2]
    (clash,) = merged([BASE, keyed(less)], with_fields(BASE, 2, dye="acid")).clashes
    assert (clash.row, clash.field) == (2, "name")
    (clash,) = merged([BASE, with_fields(BASE, 2, dye="acid")], less).clashes
    assert (clash.row, clash.words) == (None, "Wrack, taken out here, was changed elsewhere")


@pytest.mark.parametrize(
    ("here", "there", "clashes"),
    [
        ({"mass_g": "12"}, {"rolags": "3", "rolag_g": "5"}, True),
        ({"rolags": "3", "rolag_g": "5"}, {"rolags": "3", "rolag_g": "4"}, True),
        ({"rolags": "3", "rolag_g": "5"}, {"rolags": "3.0", "rolag_g": "5", "mass_g": "15"}, False),
        ({"note": "dull"}, {"rolags": "3", "rolag_g": "5", "mass_g": "15"}, False),
    ],
)
def test_grams_and_rolags_are_one_thing(here, there, clashes):
    found = merged([BASE, with_fields(BASE, 0, **there)], with_fields(BASE, 0, **here))
    assert fields_that_clash(found) == ([(0, "mass_g")] if clashes else [])
    if not clashes:
        assert (float(found.rows[0].rolags), found.rows[0].rolag_g) == (3, "5")


# --- names ----------------------------------------------------------------------------------------


def test_a_lot_is_followed_through_new_names_one_step_after_the_other():
    steps = [
        BASE,
        with_fields(BASE, 0, name="Weed"),
        with_fields(BASE, 0, name="Weed", mass_g="40"),
        keyed([row for row in with_fields(BASE, 0, name="Weed", mass_g="40") if row.key != 1]),
    ]
    assert followed(steps) == {0: 0, 2: 1, 3: 2, 4: 3}
    found = merged(steps, with_fields(BASE, 0, note="dull"))
    assert found.clashes == []
    assert (found.rows[0].name, found.rows[0].mass_g, found.rows[0].note) == ("Weed", "40", "dull")


def test_a_lot_that_is_renamed_and_changed_in_one_step_is_followed_where_it_stands():
    assert followed([BASE, with_fields(BASE, 0, name="Weed", mass_g="40")])[0] == 0


def test_a_lot_that_is_gone_is_not_taken_for_a_new_one_in_its_place():
    now = [*BASE[:4], Row(4, "Plum", "#5b2a4f", "9")]
    assert followed([BASE, now]) == {at: at for at in range(4)}
    assert fields_that_clash(merged([BASE, now], with_fields(BASE, 4, note="dull"))) == [
        (4, "name")
    ]


def test_a_lot_that_came_back_is_known_by_its_name():
    assert followed([BASE, keyed(BASE[1:]), BASE]) == {at: at for at in range(5)}


def test_a_recipe_is_not_changed_by_another_name_of_what_it_is_made_from():
    base = [*BASE, MIX]
    now = with_fields(with_fields(base, 0, name="Weed"), 5, colour="2 Weed + 1 Foam")
    typed = with_fields(base, 5, colour="3 Kelp + 1 Foam")
    found = merged([base, now], typed)
    assert found.clashes == []
    assert (found.rows[0].name, found.rows[5].colour) == ("Weed", "3 Weed + 1 Foam")
    assert merged([base, now], base).rows == now
    fresh = Row(None, "Pale", "bath 2 of Kelp on Foam, 0.7 taken", "4")
    assert merged([base, now], [*base, fresh]).rows[-1].colour == ("second bath of Weed on Foam")
    both = with_fields(now, 5, colour="5 Weed + 1 Foam")
    assert fields_that_clash(merged([base, both], typed)) == [(5, "colour")]


# --- how to type a colour -------------------------------------------------------------------------


def plan_of(*names):
    colours = ("#e0d8c8", "#445533", "#884422", "#223355")
    lots = [
        {"name": name, "colour": colour, "mass_g": 9.0}
        for name, colour in zip(names, colours, strict=False)
    ]
    return plan_from_data({"lots": lots})


def hint_of(plan):
    return colour_hint(plan.lots, tuple(lot.colour for lot in plan.lots))


def test_the_hint_is_made_from_the_first_two_lots_and_what_it_says_can_be_typed():
    plan = plan_of("Foam", "Kelp", "Rust")
    examples = [example for example, _ in hint_of(plan)]
    assert examples[:2] == ["dark brick red", "madder, pale"]
    assert examples[2:4] == ["2 Foam + 1 Kelp", "second bath of Kelp on Foam"]
    for example in filter(None, examples):
        lots = plan_with_rows(plan, [*rows_of(plan), Row(None, "New", example, "3")]).lots
        assert lots[-1].name == "New"


def test_the_hint_leaves_out_names_that_are_long_or_would_be_parted():
    plan = plan_of("x" * 21, "Foam + Sand", "Kelp", "<b>Rust</b>")
    assert hint_of(plan)[2][0] == "2 Kelp + 1 <b>Rust</b>"
    assert set(colour_keys(hint_of(plan)[3][0], {})["bath"].values()) >= {"Kelp", "<b>Rust</b>"}


@pytest.mark.parametrize("names", [("Kelp",), ("Kelp", "on " * 15), ("a" * 30, "b" * 30)])
def test_without_two_such_names_the_hint_says_it_without(names):
    hint = hint_of(plan_of(*names))
    assert [example for example, _ in hint[2:-2]] == [""]
    assert ("second lot" in hint[2][1]) == (len(names) == 1)
