"""The screen that is seen where no plan was named."""

import os
from datetime import UTC, datetime

import pytest

from tests.helpers.paths import SAMPLE_DATA, TIDELINE
from yarncolor.editing.new_plan import NEW_PLAN
from yarncolor.widgets.bench_page import BenchPage
from yarncolor.widgets.first_screen import FirstScreen, plans_in
from yarncolor.widgets.whole_bench import Bench

RING = {"do": "ready"}


@pytest.fixture
def page(tmp_path) -> BenchPage:
    """Return the page as a browser sees it, in a folder with one plan."""
    (tmp_path / "mine.toml").write_bytes((SAMPLE_DATA / "ebb.toml").read_bytes())
    shown = BenchPage("", str(tmp_path / "out"), str(tmp_path))
    shown.doorbell.handle(RING, [])
    return shown


def first(page) -> FirstScreen:
    _, screen = page.children
    assert isinstance(screen, FirstScreen)
    return screen


def bench(page) -> Bench:
    _, shown = page.children
    assert isinstance(shown, Bench)
    return shown


def uploaded(name: str, content: bytes) -> tuple:
    told = {"name": name, "type": "", "size": len(content), "last_modified": datetime.now(tz=UTC)}
    return ({**told, "content": memoryview(content)},)


def test_a_plan_of_ones_own_begins_with_its_lots(page):
    first(page).new.click()
    assert bench(page).sections.value == "Lots"
    assert bench(page).editor.text() == NEW_PLAN
    assert bench(page).editor.path is None


def test_typed_lots_are_drawn_at_once_and_not_saved_yet(page):
    screen = first(page)
    screen.lines.value = "Kelp 27 g dark green\nFoam; 24; off white\nRust\t18\trust"
    screen.draw.click()
    shown = bench(page)
    assert shown.sections.value == "Colour order"
    assert shown.editor.plan.names == ("Kelp", "Foam", "Rust")
    assert not shown.editor.is_saved
    shown.editor.undo()
    assert shown.editor.text() == NEW_PLAN


@pytest.mark.parametrize(
    ("typed", "words"),
    [("", "Nothing is typed here yet"), ("Kelp 27 g\n<b>Foam", "Line 2: give a name, its weight")],
)
def test_lines_that_are_no_lots_are_told_and_stay(typed, words, page):
    screen = first(page)
    screen.lines.value = typed
    screen.draw.click()
    assert words in screen.said.value
    assert "<b>" not in screen.said.value
    assert screen.lines.value == typed
    assert first(page) is screen


def test_a_photograph_begins_with_its_section_and_an_empty_plan(page):
    first(page).photograph.click()
    assert bench(page).sections.value == "Photographs"
    assert bench(page).editor.text() == NEW_PLAN


def test_an_invented_plan_is_looked_at_and_kept_nowhere(page):
    first(page).example.click()
    assert bench(page).editor.text() == TIDELINE.read_text("utf-8")
    assert bench(page).editor.path is None


def test_a_plan_without_a_file_is_saved_where_plans_are_looked_for(page, tmp_path):
    first(page).new.click()
    bench(page).bar.on_save_as({"name": "sands"})
    assert {path.name for path in plans_in(tmp_path)} == {"sands.toml", "mine.toml"}


def test_a_plan_of_the_folder_is_opened_and_keeps_its_file(page, tmp_path):
    screen = first(page)
    assert list(screen.plans.options) == ["mine.toml"]
    screen.opener.click()
    assert bench(page).editor.path == tmp_path / "mine.toml"
    assert bench(page).sections.value != "Lots"


def test_a_plan_from_elsewhere_is_opened(page):
    first(page).upload.value = uploaded("ebb.toml", (SAMPLE_DATA / "ebb.toml").read_bytes())
    assert bench(page).editor.plan.title == "Ebb"


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b'[[lots]]\nname = "<b>Kelp"\n', "lots 1 (&lt;b&gt;Kelp): mass_g"),
        (b"\xff\xfe", "byte 1 is not UTF-8"),
    ],
)
def test_every_fault_of_a_plan_is_told_and_the_screen_stays(content, words, page):
    screen = first(page)
    screen.upload.value = uploaded("bad.toml", content)
    assert words in screen.said.value
    assert first(page) is screen
    screen.new.click()
    assert bench(page)


def test_whatever_goes_wrong_is_said(page, monkeypatch):
    def fail(*_):
        raise IndexError("out of range")

    screen = first(page)
    monkeypatch.setattr("yarncolor.widgets.first_screen.plan_from_text", fail)
    screen.new.click()
    assert "IndexError: out of range" in screen.said.value


def test_plans_of_a_folder_are_offered_the_last_changed_first(tmp_path):
    for at, name in enumerate(("old.toml", "new.toml", "pyproject.toml", "odd.toml")):
        (tmp_path / name).write_text(NEW_PLAN if at < 2 else "[project]\n")
        os.utime(tmp_path / name, (at, at))
    (tmp_path / "folder.toml").mkdir()
    (tmp_path / "bytes.toml").write_bytes(b"\xff")
    assert [path.name for path in plans_in(tmp_path)] == ["new.toml", "old.toml"]


def test_a_folder_without_plans_offers_none(tmp_path):
    screen = FirstScreen(tmp_path, lambda *_: None)
    assert not screen.plans.options
    assert screen.opener not in every_part(screen)
    assert screen.upload in every_part(screen)


def every_part(widget) -> list:
    inside = getattr(widget, "children", ())
    return [widget, *(part for each in inside for part in every_part(each))]
