"""Saved plan files with bytes and lines spoilt: a plan, or its faults told; never lost, never hung.

What opens in spite of it is saved with another title: all else in the file stays as it was.
"""

import tomllib
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

import yarncolor as yc
from tests.helpers.damage import damaged
from tests.helpers.hanging import does_not_hang
from tests.helpers.paths import SAMPLE_DATA
from yarncolor.editing.editor import Editor
from yarncolor.plan import Plan
from yarncolor.planfile.toml_text import BYTE_ORDER_MARK

FILES = sorted(SAMPLE_DATA.rglob("*.toml"))
HANGS_S = 2.0
"""A file that is reckoned on for longer, by the processor's own clock, hangs."""
every_file = pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)


def faults_or(read: Callable[[Path], Plan | Editor], path: Path) -> Plan | Editor | str:
    try:
        return read(path)
    except yc.PlanError as error:
        return str(error)


def read_or_told(path: Path) -> Editor | None:
    """Return an editor on a file; None for one whose faults are told, alike by both readers."""
    plan, editor = faults_or(yc.read_plan, path), faults_or(Editor.opened, path)
    if isinstance(plan, str):
        assert editor == plan
        return None
    assert replace(editor.plan, kept_as=plan.kept_as) == plan
    return editor


def data_of(text: str) -> dict:
    data = tomllib.loads(text.removeprefix(BYTE_ORDER_MARK))
    data.pop("title", None)
    return data


def loses_nothing(editor: Editor) -> bool:
    """Return whether the plan can be saved where it is, with another title and nothing lost."""
    before = editor.file_text
    assert editor.text() == before
    editor.replace_plan(replace(editor.plan, title="Another name"))
    found = faults_or(lambda _: editor.save(), editor.path)
    if isinstance(found, str):
        assert "cannot be changed in place" in found
        return False
    after = found.read_bytes().decode()
    assert data_of(after) == data_of(before)
    assert tomllib.loads(after.removeprefix(BYTE_ORDER_MARK))["title"] == "Another name"
    gone = Counter(before.split("\n")) - Counter(after.split("\n"))
    assert all("title" in line for line in gone)
    return True


def opened_and_saved(file: Path, seeds: range, folder: Path) -> int:
    """Return how many of so many damaged files still open; most of those are saved in place."""
    path, content = folder / "plan.toml", file.read_bytes()
    saved = []
    for seed in seeds:
        path.write_bytes(damaged(content, seed))
        with does_not_hang(HANGS_S, f"file {seed}"):
            editor = read_or_told(path)
            if editor is not None:
                saved.append(loses_nothing(editor))
    assert sum(saved) >= 0.99 * len(saved)
    return len(saved)


def test_a_damaged_file_is_a_plan_or_told(tmp_path):
    assert opened_and_saved(FILES[0], range(40), tmp_path) > 5


@pytest.mark.thorough
@every_file
def test_each_of_many_damaged_files_is_a_plan_or_told(file, tmp_path):
    assert opened_and_saved(file, range(400), tmp_path) > 50
