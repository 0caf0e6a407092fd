"""Notebooks and invented plans that are handed out: whole, and never over what is there."""

import os
from pathlib import Path

import pytest

from tests.helpers.paths import ROOT, SAMPLES
from tests.helpers.sources import NOTEBOOKS
from yarncolor import samples
from yarncolor.__main__ import main


def test_copies_stand_as_the_notebooks_look_for_them(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main(["notebooks", "mine"]) == 0
    told = capsys.readouterr().out.splitlines()
    assert told == [
        f"Written to mine: {len(NOTEBOOKS)} notebooks, {len(SAMPLES)} invented plans",
        'Open them with: jupyter lab "mine/notebooks/00_contents.ipynb"',
    ]
    for path in (*NOTEBOOKS, *SAMPLES):
        copy = tmp_path / "mine" / path.relative_to(ROOT)
        assert copy.read_bytes() == path.read_bytes()


def test_what_a_notebook_became_is_never_written_over(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    changed = Path("notebooks/01_first_plan.ipynb")
    changed.parent.mkdir()
    changed.write_text("mine")
    assert main(["notebooks", "."]) == 2
    told = "notebooks: is there already, and what you did in it stays; choose another folder\n"
    assert capsys.readouterr().err == told
    assert (changed.read_text(), os.listdir()) == ("mine", ["notebooks"])


@pytest.mark.parametrize(
    ("folder", "told"),
    [("", "DIR: is empty; give a name"), ("file", "file: is not a folder; choose another folder")],
)
def test_a_folder_that_is_none_is_told(folder, told, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("file").write_text("mine")
    assert main(["notebooks", folder]) == 2
    assert capsys.readouterr().err == f"{told}\n"
    assert os.listdir() == ["file"]


def test_installed_they_lie_in_the_package(tmp_path, monkeypatch):
    monkeypatch.setattr(samples, "_PACKAGE", tmp_path / "yarncolor")
    (tmp_path / "yarncolor" / "sample_data").mkdir(parents=True)
    assert samples.example_plan().parent == tmp_path / "yarncolor" / "sample_data"
