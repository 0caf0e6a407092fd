"""The bench of comparison without a browser: what a finger does, done by setting values."""

import ipywidgets as w
import numpy as np
import pytest

from tests.helpers.paths import SAMPLE_DATA as SAMPLES
from tests.helpers.strip_pictures import pixels
from yarncolor import answer, read_plan, variant
from yarncolor.editing.editor import Editor
from yarncolor.widgets.comparison_bench import ComparisonBench, comparison_bench

STRIP_ROWS = 120


@pytest.fixture
def bench(tmp_path):
    return comparison_bench(SAMPLES / "tideline.toml", tmp_path / "out").bench


def choose(bench, letter, key, value):
    column = next(column for column in bench.columns if column.letter == letter)
    column.choosers[key].value = value
    return column


def images(bench):
    return [column.image.value for column in bench.columns]


def strip_of(column) -> np.ndarray:
    """Return the upper part of a column's picture; under it all are looked at where they differ.

    A picture of few colours takes them from all that is in it.
    """
    return pixels(column.image.value)[:STRIP_ROWS]


def test_it_says_what_it_is_where_widgets_do_not_run(bench):
    words = "A bench to put ways of spinning side by side; it needs a live notebook."
    assert repr(bench) == words


def test_it_begins_with_the_plan_beside_two_other_schemes(bench):
    assert bench.shown["A"].plan == answer(read_plan(SAMPLES / "tideline.toml")).plan
    assert [column.choosers["scheme"].value for column in bench.columns] == [
        "fractal",
        "matched",
        "staggered",
    ]


@pytest.mark.parametrize("sample", sorted(SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_looking_at_a_plan_changes_no_file(sample, tmp_path):
    before = sample.read_bytes()
    bench = comparison_bench(sample, tmp_path / "out").bench
    assert bench.plan == read_plan(sample)
    assert sample.read_bytes() == before
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("key", "value", "keys"),
    [
        ("scheme", "flipped", {"scheme": "flipped"}),
        ("plies", 4, {"plies": 4}),
        ("divisions", "1, 2, 5", {"divisions": [1, 2, 5]}),
        ("closing", "share", {"closing": "share"}),
        ("winding", "wound off once", {"wound_off": 1}),
        ("order", "by lightness", {"order": "by lightness"}),
    ],
)
def test_each_chooser_changes_its_column_alone(bench, key, value, keys):
    before = dict(bench.shown)
    choose(bench, "A", key, value)
    assert bench.shown["A"].plan == answer(variant(bench.plan, **keys)).plan
    assert all(bench.shown[letter] is before[letter] for letter in ("B", "C"))


def test_pictures_and_sentences_follow(bench):
    before, told = images(bench), bench.differences.value
    strips = [strip_of(column) for column in bench.columns]
    assert "A is matched over 5% of its length, B all along, C nowhere." in told
    column = choose(bench, "A", "scheme", "matched")
    assert images(bench)[0] != before[0]
    for column_before, each in zip(strips[1:], bench.columns[1:], strict=True):
        assert np.abs(column_before - strip_of(each)).mean() < 1
    assert "A and B are matched all along, C nowhere." in bench.differences.value
    assert "matched over its whole length" in column.words.value


def test_all_columns_follow_where_the_scale_changes(bench):
    before = images(bench)
    choose(bench, "A", "plies", 2)
    assert all(now != then for now, then in zip(images(bench), before, strict=True))


def test_pictures_stay_as_large_as_they_were(bench):
    shapes = {pixels(image).shape for image in images(bench)}
    choose(bench, "A", "plies", 8)
    choose(bench, "B", "scheme", "chain")
    assert {pixels(image).shape for image in images(bench)} == shapes
    assert len(shapes) == 1


def test_the_bench_says_how_strips_and_swatches_are_read_and_that_the_scale_is_one(bench):
    told = "".join(each.value for each in bench.children if isinstance(each, w.HTML))
    for words in (
        "from left to right",
        "Swatches show the whole yarn in small, its beginning at the bottom",
        "One scale for all",
    ):
        assert words in told


def test_a_refusal_is_told_in_one_line_and_nothing_changes(bench):
    before, told = images(bench), bench.differences.value
    column = choose(bench, "A", "divisions", "once, twice")
    assert "A: " in bench.said.value
    assert "whole number of repeats" in bench.said.value
    assert "\n" not in bench.said.value
    assert column.choosers["divisions"].value == "1, 3, 6"
    assert (images(bench), bench.differences.value) == (before, told)
    choose(bench, "A", "divisions", "1, 3")
    assert "whole number" not in bench.said.value


def test_choosers_that_say_nothing_are_greyed(bench):
    column = choose(bench, "A", "scheme", "chain")
    grey = {key for key, chooser in column.choosers.items() if chooser.disabled}
    assert grey == {"plies", "divisions", "closing"}
    assert column.choosers["plies"].value == 3


def test_two_columns_compare_two(bench):
    bench.count.value = 2
    assert list(bench.shown) == ["A", "B"]
    assert [column.layout.display for column in bench.columns] == [None, None, "none"]
    assert "A is matched over 5% of its length, B all along." in bench.differences.value
    bench.count.value = 3
    assert bench.columns[2].layout.display is None


def test_equal_columns_are_said_to_be_the_same_yarn(bench):
    choose(bench, "B", "scheme", "fractal")
    bench.count.value = 2
    assert "These are the same yarn." in bench.differences.value


def test_the_sheet_is_written_and_its_path_shown(bench, tmp_path):
    bench.write.click()
    path = tmp_path / "out" / "comparison.pdf"
    assert path.read_bytes().startswith(b"%PDF")
    assert path.as_posix() in bench.said.value


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "out").write_text("in the way")
    bench = comparison_bench(SAMPLES / "tideline.toml", tmp_path / "out").bench
    bench.write.click()
    assert "Written" not in bench.said.value
    assert "out" in bench.said.value


def test_hostile_names_are_escaped(tmp_path):
    text = (SAMPLES / "tideline.toml").read_text(encoding="utf-8")
    path = tmp_path / "plan.toml"
    path.write_text(text.replace("Kelp", "<script>alert(1)</script>"), encoding="utf-8")
    bench = comparison_bench(path, tmp_path / "out").bench
    shown = (bench.lots, bench.differences, *(column.words for column in bench.columns))
    assert all("<script" not in each.value for each in shown)
    assert "&lt;script&gt;" in bench.lots.value


def test_it_follows_the_plan_and_keeps_what_was_chosen(tmp_path):
    editor = Editor.opened(SAMPLES / "tideline.toml")
    bench = ComparisonBench(editor, tmp_path)
    one, two, _ = bench.columns
    two.choosers["plies"].value = 4
    editor.change("plying", wound_off=[0, 1, 0])
    editor.change(closing="tail")
    bench.refresh()
    assert one.choosers["closing"].value == "tail"
    assert one.choosers["winding"].value == "not all alike, as in the file"
    assert two.choosers["plies"].value == 4
    assert bench.found["A"].plan.scheme.closing == "tail"
    assert bench.found["A"].plan.plying == editor.plan.plying
    words = one.words.value
    editor.change(name="shuffled")
    assert one.words.value == words
    bench.refresh()
    assert one.words.value != words


def test_a_column_is_made_the_plan_by_its_button_and_undo_brings_back_what_was(tmp_path):
    editor = Editor.opened(SAMPLES / "tideline.toml")
    bench = ComparisonBench(editor, tmp_path)
    editor.watch(bench.refresh)
    before, wanted = editor.plan, bench.shown["B"].plan
    column = choose(bench, "B", "plies", 2)
    wanted = bench.shown["B"].plan
    column.spin.click()
    assert editor.plan == wanted != before
    assert "B is the plan now" in bench.said.value
    assert column.choosers["scheme"].value == "matched"
    column.spin.click()
    assert "spun so already" in bench.said.value
    editor.undo()
    assert editor.plan == before


def test_opened_alone_a_column_is_taken_too_and_undo_is_at_hand(tmp_path):
    alone = comparison_bench(SAMPLES / "tideline.toml", tmp_path / "out")
    editor, before = alone.bar.editor, alone.bar.editor.plan
    column = alone.bench.columns[1]
    assert column.spin in column.children
    column.spin.click()
    assert editor.plan.scheme.name == "matched"
    alone.bar.handle({"do": "undo", "view": "v"}, [])
    assert editor.plan == before
    assert not (tmp_path / "out").exists()
