"""What a spinner says of the bobbins, without a browser: entries, drafts, slips, files."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor import plan_from_data
from yarncolor.editing.at_the_wheel import (
    all_up_to,
    checked,
    moved,
    ticked,
    unticked,
    with_extra,
    with_typed,
)
from yarncolor.editing.at_the_wheel_draft import put_typed
from yarncolor.editing.at_the_wheel_pieces import PieceKey, keys_of_pieces, pieces_on, with_pieces
from yarncolor.editing.at_the_wheel_slips import NOT_SPUN, after_slip
from yarncolor.editing.draft import Draft, put
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.plan import Sample, Spun, to_data
from yarncolor.plan.reference import KEYS
from yarncolor.planfile.read import plan_from_text

ROWS = 6
TEXT = """
[[lots]]
name = "Kelp"
colour = "#56612d"
mass_g = 30.0

[[lots]]
name = "Foam"
colour = "#e8e4d8"
mass_g = 30.0

[scheme]
name = "fractal"
plies = 2
divisions = [3, 3]

[spinning]
single_tex = 100.0
"""


@pytest.fixture
def plan():
    return plan_from_text(TEXT)


def key(text):
    found = PieceKey.read(text)
    assert found is not None
    return found


def rows(plan, ply=1):
    return [one.row for one in pieces_on(plan, ply)]


def test_a_piece_is_known_by_its_ply_and_row_or_by_its_turn():
    assert PieceKey.read("2r14") == PieceKey(2, row=14)
    assert PieceKey.read("1x2") == PieceKey(1, extra=2)
    assert str(PieceKey.read("12r7")) == "12r7"
    for nonsense in ("", "r1", "2r", "0r1", "2r0", "2r1 ", "2y1", "2r1.mass_g", "١r1"):
        assert PieceKey.read(nonsense) is None


def test_rows_ticked_one_after_the_other_are_one_entry(plan):
    for row in (1, 2, 3):
        plan = ticked(plan, key(f"1r{row}"))
    assert plan.spun == (Spun(1, through=3),)
    assert checked(plan) == plan


def test_a_row_passed_over_is_left_out_and_comes_back_where_its_page_has_it(plan):
    plan = ticked(all_up_to(plan, key("1r2")), key("1r4"))
    assert plan.spun == (Spun(1, through=2), Spun(1, row=4))
    assert rows(ticked(plan, key("1r3"))) == [1, 2, 3, 4]


def test_all_up_to_a_row_keeps_what_was_left_out(plan):
    plan = all_up_to(unticked(all_up_to(plan, key("1r4")), key("1r2")), key("1r6"))
    assert rows(plan) == [1, 3, 4, 5, 6]


def test_what_is_said_of_a_row_says_that_it_was_spun(plan):
    said = with_typed(plan, {"1r1.sample": "2 m 0,21 g", "1r1.on": "2026-03-01"})
    (one,) = checked(said).spun
    assert one.row == 1
    assert one.sample == Sample(length_m=2.0, mass_g=0.21)
    assert one.on is not None
    assert one.on.isoformat() == "2026-03-01"
    assert with_typed(plan, {"1r1.mass_g": " "}) == plan


def test_a_piece_too_many_stands_after_its_row_and_can_be_spun_later(plan):
    plan = with_extra(all_up_to(plan, key("1r3")), key("1r1"), "Foam", 2.0)
    assert rows(plan) == [1, None, 2, 3]
    assert rows(moved(plan, key("1x1"), 1)) == [1, 2, None, 3]
    assert rows(unticked(plan, key("1x1"))) == [1, 2, 3]
    assert rows(moved(plan, key("1r1"), -5)) == rows(plan)


def test_entries_of_another_ply_and_those_that_stay_keep_their_places(plan):
    said = (Spun(2, row=1, note="slubby"), Spun(1, through=2), Spun(2, row=2))
    plan = plan_from_data({**to_data(plan), "spun": [to_data(one) for one in said]})
    assert ticked(plan, key("1r3")).spun == (said[0], Spun(1, through=3), said[2])
    told = with_typed(plan, {"2r2.mass_g": "4"}).spun
    assert told == (said[0], said[1], Spun(2, row=2, mass_g=4))


def test_what_was_decided_goes_with_the_last_piece_spun(plan):
    decided = plan_from_data(
        {
            **to_data(plan),
            "spun": [{"ply": 1, "row": 1}],
            "to_spin": [{"ply": 1, "row": 3, "mass_g": 4}],
        }
    )
    assert checked(unticked(decided, key("1r1"))) == plan


def test_comments_beside_what_was_spun_stay_when_more_is(tmp_path):
    path = tmp_path / "plan.toml"
    said = "\n# first evening, wheel squeaks\n[[spun]]\nply = 1\nthrough = 2 # both slubby\n"
    path.write_text(TEXT + said, encoding="utf-8")
    editor = Editor.opened(path)
    editor.replace_plan(checked(ticked(editor.plan, key("1r3"))))
    editor.replace_plan(checked(with_typed(editor.plan, {"2r1.mass_g": "5"})))
    editor.save()
    text = path.read_text(encoding="utf-8")
    assert "# first evening, wheel squeaks\n[[spun]]" in text
    assert "through = 3 # both slubby" in text
    assert Editor.opened(path).plan == editor.plan


# --- what is typed and not right yet -------------------------------------------------------------


def test_nonsense_waits_beside_its_field_and_says_what_would_be_right(plan):
    editor = Editor(plan)
    draft = put_typed(editor, Draft(), "1r1.mass_g", "plenty")
    assert draft.wrong == {"1r1.mass_g": "plenty"}
    assert draft.faults["1r1.mass_g"].startswith("give grams")
    assert editor.plan == plan
    draft = put_typed(editor, draft, "1r1.mass_g", "4,5 g")
    assert not draft
    assert editor.plan.spun == (Spun(1, row=1, mass_g=4.5),)


def test_a_length_for_a_weight_is_named_as_one(plan):
    draft = put_typed(Editor(plan), Draft(), "1r1.mass_g", "31 m")
    assert draft.faults["1r1.mass_g"].startswith("31 m is a length")


def test_a_fault_of_another_piece_says_which(plan):
    editor = Editor(plan)
    for name, text in (("bobbins.tare_g", "60"), ("1r1.gross_g", "64"), ("1r2.gross_g", "68")):
        assert not put_typed(editor, Draft(), name, text)
    draft = put_typed(editor, Draft(), "1r1.gross_g", "70")
    told = draft.faults["1r1.gross_g"]
    assert told.startswith("ply 1, row 2, bobbin and single weigh, g: it is below the reading")


def test_a_weight_waits_for_the_empty_bobbin_and_both_are_one_step(plan):
    editor = Editor(plan)
    draft = put_typed(editor, Draft(), "1r1.gross_g", "64")
    assert draft
    assert "empty bobbin weighs" in "".join([*draft.needed.values(), *draft.faults.values()])
    assert not put_typed(editor, draft, "bobbins.tare_g", "60")
    assert editor.plan.spun == (Spun(1, row=1, gross_g=64),)
    editor.undo()
    assert editor.plan == plan


# --- laws ----------------------------------------------------------------------------------------

PIECE = st.one_of(
    st.builds(Spun, st.just(1), lot=st.just("Foam"), mass_g=st.sampled_from([1.0, 2.0])),
    st.builds(Spun, st.just(1), st.integers(1, ROWS), mass_g=st.sampled_from([None, None, 3.0])),
)


@given(st.lists(PIECE, max_size=9), st.lists(PIECE, max_size=9))
def test_pieces_come_back_from_their_entries_as_they_were(before, after):
    plan = plan_from_text(TEXT)
    for pieces in map(_once, (before, after)):
        plan = checked(with_pieces(plan, 1, pieces))
        assert pieces_on(plan, 1) == pieces
        assert len(set(keys_of_pieces(pieces))) == len(pieces)


def _once(pieces):
    """Return pieces, each row once."""
    named = set()
    kept = []
    for one in pieces:
        if one.row not in named:
            kept.append(one)
        named |= {one.row} - {None}
    return kept


@given(st.permutations(range(1, ROWS + 1)))
def test_all_rows_ticked_in_any_order_are_the_plan(order):
    plan = plan_from_text(TEXT)
    for row in order:
        plan = ticked(plan, PieceKey(1, row=row))
    assert rows(plan) == list(range(1, ROWS + 1))
    for row in order:
        plan = unticked(plan, PieceKey(1, row=row))
    assert plan == plan_from_text(TEXT)


def test_all_up_to_a_row_goes_by_what_was_decided(plan):
    decided = plan_from_data(
        {
            **to_data(plan),
            "spun": [{"ply": 1, "row": 1}],
            "to_spin": [
                {"ply": 1, "row": 3, "mass_g": 0.0},
                {"ply": 1, "after_pieces": 1, "lot": "Foam", "mass_g": 2.0},
            ],
        }
    )
    done = checked(all_up_to(decided, key("1r4")))
    assert rows(done) == [1, None, 2, 4]
    assert pieces_on(done, 1)[1] == Spun(1, lot="Foam", mass_g=2.0)


def test_a_row_that_the_plan_does_not_have_is_a_fault(plan):
    for name, words in (("1r7", "ply 1 of the plan has rows 1 to 6"), ("3r1", "plies 1 to 2")):
        with pytest.raises(PlanError, match=words):
            checked(all_up_to(plan, key(name)))


def test_a_change_that_leaves_a_spun_row_without_its_place_says_so_in_a_spinners_words(plan):
    editor = Editor(all_up_to(plan, key("2r5")))
    option = KEYS["scheme", "divisions"]
    draft = put(editor, Draft(), option, "3, 1")
    assert draft.faults[option.path].endswith(
        "row 5 of ply 2 is spun already, and so it has rows 1 to 2; take it back at the wheel first"
    )
    assert rows(editor.plan, 2) == [1, 2, 3, 4, 5]
    editor.replace_plan(checked(after_slip(editor.plan, NOT_SPUN, 2, 0)))
    assert not put(editor, draft, option, "3, 1")


@given(st.lists(st.integers(1, ROWS), unique=True, max_size=ROWS))
def test_rows_are_said_short_only_while_none_is_passed_over(order):
    """Else a row that was left out would count as spun after it."""
    plan = plan_from_text(TEXT)
    for row in order:
        plan = ticked(plan, PieceKey(1, row=row))
        plan = checked(unticked(plan, PieceKey(1, row=row)) if row == order[0] else plan)
    named = set()
    for one in plan.spun:
        if one.through:
            before = set(range(1, one.through)) - named
            assert before == set(range(len(named) + 1, one.through))
            named |= {*range(1, one.through + 1)}
        named.add(one.row or one.through)
    assert named == set(order[1:])
