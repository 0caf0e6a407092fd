"""The editor: always a valid order, undo to the byte, and a file that is never lost."""

import os
import signal
import subprocess
import sys
import time
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.paths import SAMPLES, TIDELINE
from yarncolor import PlanError, answer, plan_from_data, read_plan
from yarncolor import files as files_module
from yarncolor.editing.editor import Editor
from yarncolor.layout.schemes import SCHEMES
from yarncolor.pictures.alt_text import strip_alt


def five_lots() -> dict:
    lots = [
        {"name": name, "colour": "#888", "mass_g": 10.0 + at}
        for at, name in enumerate(["Kelp", "Foam", "Mussel", "Samphire", "Sand"])
    ]
    return {"lots": lots, "scheme": {"name": "fractal", "parts": [1, 2, 3, 4, 5]}}


@pytest.fixture
def editor() -> Editor:
    return Editor(plan_from_data(five_lots()))


@pytest.fixture
def own_file(tmp_path: Path) -> Path:
    path = tmp_path / "tideline.toml"
    path.write_bytes(TIDELINE.read_bytes())
    return path


def test_a_moved_lot_takes_its_place_and_the_others_make_room(editor):
    editor.move(0, 3)
    assert editor.names() == ("Foam", "Mussel", "Samphire", "Kelp", "Sand")
    editor.move(4, 1)
    assert editor.names() == ("Foam", "Sand", "Mussel", "Samphire", "Kelp")


def test_parts_go_with_their_place(editor):
    editor.move(0, 4)
    assert editor.plan.scheme.parts == (2, 3, 4, 5, 1)


def test_held_places_stay_while_others_move_round_them(editor):
    editor.hold(1)
    editor.move(0, 2)
    assert editor.names() == ("Mussel", "Foam", "Kelp", "Samphire", "Sand")
    editor.reverse()
    assert editor.names() == ("Sand", "Foam", "Samphire", "Kelp", "Mussel")
    editor.turn_round()
    assert editor.names() == ("Samphire", "Foam", "Kelp", "Mussel", "Sand")


@pytest.mark.parametrize(
    ("i", "j", "words"),
    [
        (5, 0, "order: there is no place 6; the order has 5"),
        (0, -1, "order: there is no place 0; the order has 5"),
        (1, 3, "order: place 2 (Foam) is held; let it go first"),
        (3, 1, "order: place 2 (Foam) is held; let it go first"),
    ],
)
def test_a_move_that_cannot_be_is_refused_and_nothing_changes(editor, i, j, words):
    editor.hold(1)
    before = editor.plan
    with pytest.raises(PlanError) as refused:
        editor.move(i, j)
    assert str(refused.value) == words
    assert editor.plan == before


def test_moves_of_one_lot_in_a_row_are_one_step_of_undo(editor):
    for place in range(4):
        editor.move(place, place + 1)
    assert editor.names()[-1] == "Kelp"
    editor.undo()
    assert editor.names()[0] == "Kelp"
    assert not editor.can_undo
    editor.redo()
    assert editor.names()[-1] == "Kelp"


def test_a_lot_that_joins_a_closed_order_is_undone_in_few_words(editor):
    """No label of a form stands in what undo says."""
    first = editor.names()[0]
    editor.change(sequence=(*editor.names(), first), parts=(1.0,) * (len(editor.names()) + 1))
    assert "the order of the lots" in editor.undo_words
    assert "one lot a line" not in editor.undo_words


def test_a_new_step_forgets_what_was_undone(editor):
    editor.move(0, 1)
    editor.undo()
    editor.reverse()
    assert not editor.can_redo


steps = st.lists(
    st.one_of(
        st.tuples(st.just("move"), st.integers(0, 4), st.integers(0, 4)),
        st.tuples(st.just("hold"), st.integers(0, 4), st.booleans()),
        st.tuples(st.just("reverse")),
        st.tuples(st.just("turn_round"), st.integers(-7, 7)),
        st.tuples(st.just("undo")),
        st.tuples(st.just("redo")),
    ),
    max_size=25,
)


@given(steps)
def test_any_moves_leave_a_permutation_and_undo_brings_every_state_back(taken):
    editor = Editor(plan_from_data(five_lots()))
    first_text = editor.text()
    for name, *arguments in taken:
        try:
            getattr(editor, name)(*arguments)
        except PlanError:
            assert editor.held
    assert Counter(editor.names()) == Counter(plan_from_data(five_lots()).names)
    assert sorted(editor.entries) == list(range(5))
    last_text = editor.text()
    texts = []
    while editor.can_undo:
        editor.undo()
        texts.append(editor.text())
    assert editor.text() == first_text
    while texts:
        assert editor.text() == texts.pop()
        editor.redo()
    while editor.can_redo:
        editor.redo()
    assert (editor.text() == last_text) or "redo" in str(taken) or "undo" in str(taken)


PIECE = {"stitches": 40, "gauge_stitches": 20, "gauge_rows": 28, "rows": 30}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_scheme_can_be_chosen_and_left_again(path):
    editor = Editor.opened(path)
    if not editor.names():  # its scheme orders lots in another way
        editor.change(name="matched")
    lots = Counter(editor.names())
    for name in [*SCHEMES, "matched"]:
        if name == "solid" and editor.plan.braid is not None:
            continue  # no lot lies beside the braid
        tables = {"fabric": PIECE} if name == "stripes" else {}
        editor.change_tables({**tables, "scheme": {"name": name}})
        assert strip_alt(answer(editor.plan))
    assert Counter(editor.names()) == lots
    while editor.can_undo:
        editor.undo()
    assert editor.text() == path.read_text(encoding="utf-8")


@pytest.mark.parametrize("plies", range(1, 13))
def test_every_number_of_plies_can_be_chosen(plies):
    editor = Editor.opened(SAMPLES[0])
    editor.change(plies=plies)
    assert answer(editor.plan).layout.stretches.lot.shape[1] == plies


def test_a_change_that_is_at_fault_changes_nothing(editor):
    before = editor.plan
    with pytest.raises(PlanError) as refused:
        editor.change(divisions=[1, 0, 4])
    assert "divisions 2 = 0" in str(refused.value)
    assert editor.plan == before
    assert not editor.can_undo


def test_saving_keeps_comments_and_says_it_is_saved(own_file):
    editor = Editor.opened(own_file)
    editor.move(1, 2)
    assert not editor.is_saved
    editor.save()
    assert editor.is_saved
    assert read_plan(own_file) == editor.plan
    assert (
        "# what was spun last" in own_file.read_text() or "# straight from" in own_file.read_text()
    )


def test_a_file_that_changed_underneath_is_not_overwritten(own_file):
    editor = Editor.opened(own_file)
    editor.move(1, 2)
    theirs = own_file.read_text() + "# a note of somebody else's\n"
    own_file.write_text(theirs)
    with pytest.raises(PlanError) as refused:
        editor.save()
    assert str(refused.value) == (
        f"{own_file}: the file was changed since it was opened; "
        "save under another name or open it anew"
    )
    assert own_file.read_text() == theirs
    other = own_file.with_name("mine.toml")
    editor.save_as(other)
    assert read_plan(other) == editor.plan


def test_save_as_never_takes_a_name_that_is_there(own_file):
    editor = Editor.opened(own_file)
    with pytest.raises(PlanError, match="there is a file of that name already"):
        editor.save_as(own_file)


@pytest.mark.parametrize("call", ["fsync", "replace", "write", "fdopen"])
def test_a_save_that_fails_leaves_the_old_file_and_can_be_tried_again(own_file, monkeypatch, call):
    editor = Editor.opened(own_file)
    before = own_file.read_bytes()
    editor.move(1, 2)

    def failing(*_args, **_kwargs):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as broken:
        if call == "write":
            real = os.fdopen

            def opened(*args, **kwargs):
                stream = real(*args, **kwargs)
                stream.close()
                raise OSError(28, "No space left on device")

            broken.setattr(files_module.os, "fdopen", opened)
        else:
            broken.setattr(files_module.os, call, failing)
        with pytest.raises(PlanError, match="no space left on device"):
            editor.save()
    assert own_file.read_bytes() == before
    assert [path.name for path in own_file.parent.iterdir()] == [own_file.name]
    editor.save()
    assert read_plan(own_file) == editor.plan


SAVING_FOR_EVER = """
import sys
from yarncolor.editing.editor import Editor
editor = Editor.opened(sys.argv[1])
print("ready", flush=True)
while True:
    editor.move(1, 2)
    editor.save()
"""


@pytest.mark.parametrize(
    "kills", [range(0, 50, 10), pytest.param(range(50), marks=pytest.mark.thorough)], ids=len
)
def test_kills_while_saving_leave_a_whole_file(own_file, kills):
    orders = {
        (*start, *("Mussel", "Sea Thrift", "Wet Sand", "Kelp"))
        for start in (("Kelp", "Foam", "Samphire"), ("Kelp", "Samphire", "Foam"))
    }
    for kill in kills:
        worker = subprocess.Popen(
            [sys.executable, "-c", SAVING_FOR_EVER, str(own_file)], stdout=subprocess.PIPE
        )
        assert worker.stdout.readline() == b"ready\n"
        time.sleep(0.005 + kill * 0.0007)
        worker.send_signal(signal.SIGKILL)
        worker.wait()
        worker.stdout.close()
        assert read_plan(own_file).scheme.sequence in orders


def test_who_watches_is_told_of_every_change_and_of_nothing_else(editor):
    bench, told = editor, []
    bench.watch(lambda: told.append(bench.names()))
    bench.undo()
    bench.redo()
    bench.move(1, 1)
    assert told == []
    bench.move(0, 2)
    bench.undo()
    bench.redo()
    bench.change(name="staggered")
    assert len(told) == 4
    assert told[0] == told[2] != told[1]


def test_an_order_is_closed_on_its_first_lot_and_opened_again():
    editor = Editor(plan_from_data(five_lots()))
    before = editor.plan
    assert not editor.is_closed
    editor.close()
    assert editor.is_closed
    assert editor.names() == ("Kelp", "Foam", "Mussel", "Samphire", "Sand", "Kelp")
    assert editor.plan.scheme.parts == (1, 2, 3, 4, 5, 1)
    editor.close()
    assert (editor.names(), editor.plan.scheme.parts) == (before.names, (1, 2, 3, 4, 5))
    editor.undo()
    assert editor.is_closed


def test_an_order_that_there_is_not_is_not_closed():
    editor = Editor(plan_from_data(five_lots()))
    editor.change(name="free")
    with pytest.raises(PlanError, match="portions in the place of an order"):
        editor.close()


def test_undo_brings_back_the_file_as_well(own_file):
    editor = Editor.opened(own_file)
    editor.open_text('[[lots]]\nname = "Rust"\ncolour = "#8a4b2a"\nmass_g = 9\n', "rust.toml")
    assert (editor.path, editor.is_saved) == (None, True)
    editor.undo()
    assert (editor.path, editor.is_saved) == (own_file, True)
    editor.move(0, 1)
    editor.save()
    assert read_plan(own_file) == editor.plan
