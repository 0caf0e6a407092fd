"""What is not saved is kept beside the plan, offered at its next opening, and goes when saved."""

import os
import re
from pathlib import Path

import pytest

from tests.helpers.paths import SAMPLE_DATA
from yarncolor import read_plan
from yarncolor.editing.editor import Editor
from yarncolor.editing.not_saved import NotSaved
from yarncolor.planfile.unsaved import MOST_UNSAVED, unsaved_of
from yarncolor.planfile.versions import versions_of


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes((SAMPLE_DATA / "slack_water.toml").read_bytes())
    return path


class Bench:
    """An editor whose plan is kept as a page keeps it, when the fingers rest."""

    def __init__(self, path):
        self.editor = Editor.opened(path)
        self.kept = NotSaved(self.editor)

    def rest(self):
        self.kept.keep(self.editor.text())

    def move(self, i=0, j=3):
        self.editor.move(i, j)
        self.rest()


def kept(path) -> list[Path]:
    return [one.path for one in unsaved_of(path)]


def test_what_is_not_saved_stands_beside_the_plan_as_a_plan_of_its_own(path):
    bench, before = Bench(path), path.read_bytes()
    bench.rest()
    assert kept(path) == []
    bench.move()
    (file,) = kept(path)
    assert file == path.with_name("plan versions") / "not saved.toml"
    assert read_plan(file) == bench.editor.plan
    assert path.read_bytes() == before
    bench.move(1, 2)
    assert kept(path) == [file]
    assert read_plan(file) == bench.editor.plan


@pytest.mark.parametrize("end", [Editor.undo, Editor.save])
def test_it_goes_when_the_plan_says_what_its_file_says(end, path):
    bench = Bench(path)
    bench.move()
    end(bench.editor)
    bench.rest()
    assert kept(path) == []


def test_what_a_lost_bench_left_is_offered_and_comes_back_as_one_step(path):
    lost = Bench(path)
    lost.move()
    again = Bench(path)
    offer = again.kept.offer()
    assert re.fullmatch(
        r"Changed on \d{4}-\d\d-\d\d at \d\d:\d\d and never saved: the order of the lots\.",
        offer.words,
    )
    again.kept.take_up(offer)
    assert again.editor.plan == lost.editor.plan
    assert not again.editor.is_saved
    assert again.kept.offer() is None
    again.rest()
    assert len(kept(path)) == 1
    again.editor.undo()
    assert again.editor.is_saved
    again.editor.redo()
    again.editor.save()
    again.rest()
    assert kept(path) == []
    assert read_plan(path) == lost.editor.plan


def test_what_is_thrown_away_is_gone_and_the_plan_stays(path):
    Bench(path).move()
    again = Bench(path)
    again.kept.drop(again.kept.offer().unsaved)
    assert kept(path) == []
    assert again.kept.offer() is None
    assert again.editor.is_saved


def test_what_nobody_decided_on_yet_is_never_written_over(path):
    lost = Bench(path)
    lost.move()
    again = Bench(path)
    again.move(2, 4)
    assert len(kept(path)) == 2
    assert again.kept.offer().plan == lost.editor.plan
    third = Bench(path)
    assert third.kept.offer().plan == again.editor.plan
    again.editor.save()
    again.rest()
    assert third.kept.offer().plan == lost.editor.plan


def test_what_says_nothing_new_or_is_damaged_is_not_offered(path):
    lost = Bench(path)
    lost.move()
    lost.editor.save()
    assert Bench(path).kept.offer() is None
    assert kept(path) == []
    lost.move()
    (file,) = kept(path)
    file.write_bytes(b"\xff")
    assert Bench(path).kept.offer() is None
    assert kept(path) == [file]


def test_a_plan_saved_under_another_name_leaves_nothing_behind(path):
    bench = Bench(path)
    bench.move()
    bench.editor.save_as(path.with_name("other.toml"))
    bench.rest()
    assert kept(path) == []
    bench.move()
    assert kept(path) == []
    assert len(kept(path.with_name("other.toml"))) == 1


def test_a_plan_without_a_file_or_a_disk_that_refuses_hinders_nobody(path, monkeypatch):
    bench = Bench(path)
    bench.editor.open_text(path.read_text(encoding="utf-8"), "opened")
    bench.move()
    assert kept(path) == []
    bench = Bench(path)
    monkeypatch.setattr("tempfile.mkstemp", lambda **_: os.open("/nowhere/at/all", os.O_RDONLY))
    bench.move()
    assert kept(path) == []


def test_more_pages_than_are_kept_hinder_nobody(path):
    benches = [Bench(path) for _ in range(MOST_UNSAVED + 2)]
    for bench in benches:
        bench.move()
    assert len(kept(path)) == MOST_UNSAVED
    assert versions_of(path) == ()
