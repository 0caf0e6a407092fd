"""What nobody foresaw on a bench: said in the bar of its plan, its traceback left to the log."""

import asyncio
import logging
import re
from pathlib import Path

import pytest

from tests.helpers.paths import ROOT
from tests.helpers.paths import SAMPLE_DATA as SAMPLES
from yarncolor.editing.editor import Editor
from yarncolor.widgets.bench_page import BenchPage
from yarncolor.widgets.choosing import outcome
from yarncolor.widgets.export_bench import ExportBench
from yarncolor.widgets.lots.lots_bench import LotsBench
from yarncolor.widgets.made_bench import MadeBench
from yarncolor.widgets.plan_bar import PlanBar
from yarncolor.widgets.plying.plying_bench import PlyingBench
from yarncolor.widgets.spinning.spinning_bench import SpinningBench
from yarncolor.widgets.whole_bench import Bench

SAID = (
    "Something went wrong here: ZeroDivisionError: no yarn; "
    "your plan is untouched, save it under another name"
)


class Heard(PlanBar):
    """A bar whose messages are kept."""

    def __init__(self, editor, folder):
        self.sent = []
        super().__init__(editor, folder)
        self.handle({"do": "ready"}, [])

    def send(self, content, *_):
        self.sent.append(content)


def fail(*_, **__):
    raise ZeroDivisionError("no yarn")


@pytest.fixture
def own_file(tmp_path) -> Path:
    path = tmp_path / "plan.toml"
    path.write_bytes((SAMPLES / "slack_water.toml").read_bytes())
    return path


@pytest.fixture
def editor(own_file) -> Editor:
    return Editor.opened(own_file)


@pytest.fixture
def bar(editor, tmp_path) -> Heard:
    return Heard(editor, tmp_path)


def has_traceback(caplog) -> bool:
    return "ZeroDivisionError" in caplog.text


def test_an_error_in_a_message_is_said_in_the_bar_of_its_plan(editor, bar, tmp_path, caplog):
    other = Heard(Editor.opened(SAMPLES / "tideline.toml"), tmp_path)
    bench = LotsBench(editor)
    do = next(iter(bench.hears))
    setattr(bench, f"on_{do}", fail)
    bench._handle_custom_msg({"do": do}, [])
    assert bar.sent[-1]["said"] == SAID
    assert SAID not in [told["said"] for told in other.sent]
    assert has_traceback(caplog)


@pytest.mark.parametrize(
    ("made", "put", "name"),
    [
        (PlyingBench, "plying.plying_bench.put_said", "plied.so_far_m"),
        (SpinningBench, "spinning.spinning_bench.put_typed", "1r1.mass_g"),
    ],
)
def test_a_bench_where_something_went_wrong_still_follows_its_plan(
    made, put, name, editor, monkeypatch
):
    bench, sent = made(editor), []
    bench.send = lambda content, *_: sent.append(content)
    editor.watch(bench.refresh)
    bench.handle({"do": "ready"}, [])
    monkeypatch.setattr(f"yarncolor.widgets.{put}", fail)
    bench._handle_custom_msg({"do": "put", "name": name, "text": "3"}, [])
    sent.clear()
    editor.move(0, 1)
    assert sent


def test_an_error_behind_a_button_is_said(editor, bar, tmp_path, monkeypatch, caplog):
    bench = MadeBench(editor, tmp_path)
    monkeypatch.setattr(bench, "write", fail)
    bench.button.click()
    assert bar.sent[-1]["said"] == SAID
    assert has_traceback(caplog)


def test_an_error_of_the_bar_itself_is_said_there(bar, monkeypatch):
    monkeypatch.setattr(bar.editor, "save", fail)
    bar._handle_custom_msg({"do": "save"}, [])
    assert bar.sent[-1]["said"] == SAID


def test_an_error_of_a_section_is_said(editor, tmp_path, monkeypatch):
    bench = Bench(editor, tmp_path)
    monkeypatch.setattr("yarncolor.widgets.whole_bench._Section.made", fail)
    with pytest.raises(ZeroDivisionError):
        bench.sections.value = "Files"
    assert bench.bar.state()["said"] == SAID


@pytest.mark.parametrize("call", ["write_all", "made"])
def test_files_that_cannot_be_made_are_not_being_made_for_ever(
    call, editor, tmp_path, monkeypatch, caplog
):
    bench = ExportBench(editor, tmp_path)
    monkeypatch.setattr(f"yarncolor.widgets.export_bench.{call}", fail)
    asyncio.run(bench.written(("plan.json",)))
    assert SAID in bench.said.value
    assert bench.stop.disabled
    assert has_traceback(caplog)


def test_what_comes_of_writing_is_said_whatever_it_is(caplog):
    with caplog.at_level(logging.ERROR):
        assert outcome(fail) == SAID
    assert has_traceback(caplog)


def test_a_plan_that_cannot_be_kept_up_is_ticked_no_longer(bar, monkeypatch):
    async def changed():
        bar._handle_custom_msg({"do": "keep", "on": True}, [])
        monkeypatch.setattr("yarncolor.widgets.plan_bar.QUIET_S", 0.0)
        monkeypatch.setattr(bar.editor, "save", fail)
        asyncio.get_running_loop().set_exception_handler(lambda *_: None)
        bar.editor.move(0, 3)
        await asyncio.sleep(0.01)

    asyncio.run(changed())
    assert (bar.sent[-1]["said"], bar.sent[-1]["keeps"]) == (SAID, False)


def test_a_page_that_cannot_be_made_says_so(own_file, tmp_path, caplog):
    page = BenchPage(str(own_file), str(tmp_path), str(tmp_path))
    page.__dict__["made"] = fail
    page.fill()
    assert SAID in page.children[-1].value
    assert has_traceback(caplog)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("n" * 300, "this file name is too long; leave out 54 letters or more"),
        ("a\0b", "type a plain file name, without \\x00; it is saved beside the plan"),
    ],
)
def test_a_name_that_no_disk_takes_is_said_and_not_what_was_written_before(name, said, bar):
    bar._handle_custom_msg({"do": "save"}, [])
    assert bar.sent[-1]["said"].startswith("Written")
    bar._handle_custom_msg({"do": "save_as", "name": name}, [])
    assert said in bar.sent[-1]["said"]


def test_nothing_is_set_off_that_is_not_heard():
    sources = sorted((ROOT / "yarncolor/widgets").rglob("*.py"))
    set_off = [
        found
        for path in sources
        for found in re.findall(r"\.(?:on_click|observe)\(\s*(\w+)", path.read_text("utf-8"))
    ]
    assert len(set_off) > 20
    assert set(set_off) == {"heard"}
