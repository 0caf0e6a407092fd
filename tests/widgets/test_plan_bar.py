"""The plan's bar: steps back, saving, opening, handing over, and keeping the file up to date."""

import re
from pathlib import Path

import ipywidgets as w
import pytest

from tests.helpers.paths import SAMPLE_DATA as SAMPLES
from yarncolor import plan_from_data, read_plan
from yarncolor.editing.editor import Editor
from yarncolor.editing.new_plan import has_no_lots_yet
from yarncolor.plan import Fabric, Scheme
from yarncolor.widgets.lots.lots_bench import LotsBench
from yarncolor.widgets.order.order_bench import order_bench
from yarncolor.widgets.plan_bar import PlanBar, WithPlanBar


class Heard(PlanBar):
    """A bar whose messages are kept."""

    def __init__(self, editor, folder):
        self.sent = []
        super().__init__(editor, folder)
        self.handle({"do": "ready"}, [])

    def send(self, content, *_):
        self.sent.append(content)

    def ask(self, do, buffers=(), **more):
        self.sent.clear()
        self.handle({"do": do, "view": "v", **more}, list(buffers))
        return self.sent[-1]


@pytest.fixture
def own_file(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes((SAMPLES / "slack_water.toml").read_bytes())
    return path


@pytest.fixture
def bar(own_file, tmp_path):
    return Heard(Editor.opened(own_file), tmp_path / "out")


def test_it_says_the_file_and_whether_it_is_saved(bar):
    (told,) = bar.sent
    assert (told["file"], told["state"]) == ("plan.toml", "saved")
    assert (told["undo"], told["redo"]) == (False, False)
    bar.editor.move(0, 3)
    assert bar.sent[-1]["state"] == "changed, not saved yet"
    assert bar.sent[-1]["undo"]
    assert bar.ask("save")["state"] == "saved"


@pytest.mark.parametrize("name", ["a\0b", "潮" * 90, "CON", "a\ud800", "x" * 100_000, "a\nb"])
def test_a_name_that_no_file_can_have_is_told_and_nothing_is_written(bar, tmp_path, name):
    before = sorted(tmp_path.rglob("*"))
    assert re.search(r"file name|keep for themselves", bar.ask("save_as", name=name)["said"])
    assert sorted(tmp_path.rglob("*")) == before


@pytest.mark.parametrize("name", ["潮" * 300, "a\0b", "a\ud800", "../../plan.toml", ""])
def test_a_plan_of_any_name_is_opened_as_one_without_a_file_here(bar, own_file, name):
    said = bar.ask("open", [own_file.read_bytes() + b"# another"], name=name)["said"]
    assert said.startswith("Opened")
    assert bar.editor.path is None


def test_steps_are_taken_back_and_on_again(bar):
    before = bar.editor.plan
    bar.editor.change(name="staggered")
    after = bar.editor.plan
    assert bar.ask("undo")["redo"]
    assert bar.editor.plan == before
    bar.ask("redo")
    assert bar.editor.plan == after


def test_nothing_is_said_before_a_browser_asks(own_file, tmp_path):
    class Silent(PlanBar):
        def send(self, *_):
            pytest.fail("said something")

    editor = Editor.opened(own_file)
    Silent(editor, tmp_path)
    editor.move(0, 3)


def test_it_is_saved_and_saved_as(bar, own_file, tmp_path):
    bar.editor.move(0, 3)
    assert bar.ask("save")["said"] == f"Written: {own_file.as_posix()}"
    assert read_plan(own_file) == bar.editor.plan
    assert "type a plain file name" in bar.ask("save_as", name="../x")["said"]
    assert "other.toml" in bar.ask("save_as", name="other")["said"]
    assert "file of that name already" in bar.ask("save_as", name="other")["said"]


def test_that_a_plan_is_written_is_said_until_it_is_changed(bar):
    bar.editor.move(0, 3)
    bar.ask("save")
    bar.editor.move(0, 2)
    assert bar.sent[-1]["said"] == ""
    assert "type a plain file name" in bar.ask("save_as", name="../x")["said"]
    bar.editor.move(0, 3)
    assert "type a plain file name" in bar.sent[-1]["said"]


def test_a_file_that_changed_underneath_is_not_overwritten(bar, own_file):
    bar.editor.move(0, 3)
    other = "# another's\n" + own_file.read_text()
    own_file.write_text(other)
    assert "was changed since it was opened" in bar.ask("save")["said"]
    assert own_file.read_text() == other


def test_another_plan_is_opened_and_has_no_file_here_yet(bar, tmp_path):
    told = bar.ask("open", [(SAMPLES / "tideline.toml").read_bytes()], name="tideline.toml")
    assert "Opened: tideline.toml" in told["said"]
    assert (told["file"], told["saves"]) == ("", False)
    assert "has no file yet" in bar.ask("save")["said"]
    bar.ask("save_as", name="mine")
    assert "# " in (tmp_path / "out" / "mine.toml").read_text()
    bar.ask("undo")
    assert bar.editor.plan.names[0] == "Harbour Blue"


def test_a_plan_that_is_kept_here_is_opened_with_its_file_and_saved_there_again(bar, own_file):
    other = own_file.with_name("mine.toml")
    other.write_bytes((SAMPLES / "tideline.toml").read_bytes())
    told = bar.ask("open", [other.read_bytes()], name="mine.toml")
    assert (told["file"], told["state"], told["saves"]) == ("mine.toml", "saved", True)
    bar.editor.move(0, 3)
    bar.ask("save")
    assert read_plan(other) == bar.editor.plan
    told = bar.ask(
        "open", [b'[[lots]]\nname = "A"\ncolour = "#123"\nmass_g = 9\n'], name="mine.toml"
    )
    assert not told["saves"]


def test_undo_after_opening_brings_back_plan_and_file(bar, own_file):
    bar.ask("open", [(SAMPLES / "tideline.toml").read_bytes()], name="tideline.toml")
    told = bar.ask("undo")
    assert (told["file"], told["saves"], told["state"]) == ("plan.toml", True, "saved")


def test_a_new_plan_has_nothing_of_the_other_and_no_file(bar):
    told = bar.ask("new")
    assert (told["file"], told["saves"]) == ("", False)
    assert bar.editor.plan.names == ("Lot 1",)
    assert bar.editor.plan.title == ""
    bar.ask("undo")
    assert bar.editor.plan.names[0] == "Harbour Blue"


def test_another_plan_for_the_same_piece_keeps_title_and_piece_alone(bar):
    bar.editor.change("target", yarn_m=200.0)
    title, fabric = bar.editor.plan.title, bar.editor.plan.fabric
    told = bar.ask("new", keeps=True)
    begun = bar.editor.plan
    assert (told["file"], told["saves"]) == ("", False)
    assert begun.title == title != ""
    assert begun.fabric == fabric != Fabric()
    assert begun.target.yarn_m == 200.0
    assert has_no_lots_yet(begun)
    assert begun.scheme == Scheme()
    bar.ask("undo")
    assert bar.editor.plan.names[0] == "Harbour Blue"


def test_what_was_written_is_said_until_something_changes(bar):
    bar.editor.move(0, 3)
    assert bar.ask("save")["said"].startswith("Written: ")
    bar.editor.move(0, 3)
    assert bar.sent[-1]["said"] == ""


@pytest.mark.parametrize(
    ("content", "told"),
    [(b"\xff\xfe", "not UTF-8"), (b"x" * 400_000, "larger than 256 KiB"), (b"lots = 3", "lots"),
     (b"= =", "not TOML")],
)  # fmt: skip
def test_what_is_no_plan_is_not_opened(bar, content, told):
    before, path = bar.editor.plan, bar.editor.path
    said = bar.ask("open", [content], name="x.toml")["said"]
    assert said.startswith("Not opened. ")
    assert told in said
    assert (bar.editor.plan, bar.editor.path) == (before, path)


def test_of_very_many_faults_the_first_are_told_one_a_line(bar):
    lots = b"".join(b'[[lots]]\nname = "Lot %d"\nmass_g = 1\n' % at for at in range(60))
    lines = bar.ask("open", [lots], name="x.toml")["said"].splitlines()
    assert len(lines) == 21
    assert lines[0].startswith("Not opened. x.toml: lots 1 (Lot 0): colour")
    assert lines[-1] == "and 40 more"


def test_the_plan_is_handed_over_as_it_would_be_saved(bar, own_file):
    bar.editor.move(0, 3)
    bar.ask("download")
    told = bar.sent[0]
    assert (told["kind"], told["name"], told["view"]) == ("download", "plan.toml", "v")
    bar.ask("save")
    assert told["text"] == own_file.read_text(encoding="utf-8")


def test_a_plan_saved_under_a_name_can_be_saved_from_then_on(tmp_path):
    lot = {"name": "Kelp", "colour": "#445533", "mass_g": 30.0}
    bar = Heard(Editor(plan_from_data({"lots": [lot]})), tmp_path)
    assert not bar.sent[0]["saves"]
    assert bar.ask("save_as", name="mine")["saves"]
    assert "Written: " in bar.ask("save")["said"]


def test_undo_puts_back_what_is_typed_and_wrong_before_it_takes_a_step_back(bar):
    lots = LotsBench(bar.editor)
    rows = [{"key": 0, "name": "Kelp", "colour": "no", "mass_g": "3"}]
    bar.editor.move(0, 3)
    lots.handle({"do": "rows", "rows": rows}, [])
    assert bar.sent[-1]["undo"]
    assert not bar.sent[-1]["redo"]
    assert bar.ask("save")["said"].endswith(". What is marked as wrong is not in it.")
    assert "typed and not right is gone" in bar.ask("undo")["said"]
    assert bar.editor.entries[3] == 0
    assert bar.ask("undo")["said"] == "Undone: the order of the lots."
    assert bar.editor.entries[0] == 0


def test_the_file_is_kept_up_to_date_where_that_is_ticked(bar, own_file):
    assert bar.ask("keep", on=True)["keeps"]
    bar.editor.move(0, 3)
    bar.keep_up()
    assert read_plan(own_file) == bar.editor.plan
    own_file.write_text("# another's\n" + own_file.read_text())
    bar.editor.move(0, 3)
    bar.keep_up()
    assert not bar.keeps_up
    assert "Not kept up to date any more" in bar.said
    assert own_file.read_text().startswith("# another's")


def test_a_bench_under_a_bar_says_what_it_is_and_follows(own_file):
    class Follows(w.HTML):
        seen = 0

        def refresh(self):
            self.seen += 1

    bench = order_bench(own_file)
    assert repr(bench) == repr(bench.bench)
    editor = Editor.opened(own_file)
    kept = WithPlanBar(Follows(), editor, Path("out"))
    editor.move(0, 3)
    assert kept.bench.seen == 1


@pytest.mark.parametrize("asked", [{}, {"do": "nonsense"}, {"do": None}, {"do": "_show"}])
def test_what_nobody_asks_is_passed_over(bar, asked):
    bar.sent.clear()
    bar.handle(asked, [])
    assert bar.sent == []


def test_undo_says_what_it_takes_back_before_and_after(bar):
    bar.editor.move(0, 3)
    bar.editor.change(name="staggered")
    assert bar.sent[-1]["undo_words"] == "scheme"
    told = bar.ask("undo")
    assert (told["said"], told["undo_words"], told["redo_words"]) == (
        "Undone: scheme.",
        "the order of the lots",
        "scheme",
    )
    assert bar.ask("redo")["said"] == "Done again: scheme."
    bar.editor.move(0, 1)
    assert bar.sent[-1]["said"] == ""


def test_a_new_kernel_goes_on_with_what_another_one_had_not_saved(bar, own_file, tmp_path):
    bar.editor.move(0, 3)
    bar.editor.hold(bar.editor.entries[2])
    draft = bar.ask("draft")
    again = Heard(Editor.opened(own_file), tmp_path / "out")
    told = again.ask("resume", **{key: draft[key] for key in draft if key not in ("kind", "view")})
    assert "the plan is as it was" in told["said"]
    assert again.editor.plan == bar.editor.plan
    assert [again.editor.place_of(entry) for entry in again.editor.held] == [2]
    assert (told["file"], told["state"]) == ("plan.toml", "changed, not saved yet")
    again.ask("save")
    assert read_plan(own_file) == bar.editor.plan


def test_a_file_that_changed_while_its_page_was_lost_is_not_overwritten(bar, own_file, tmp_path):
    bar.editor.move(0, 3)
    draft = bar.ask("draft")
    own_file.write_text("# another's\n" + own_file.read_text())
    again = Heard(Editor.opened(own_file), tmp_path / "out")
    again.ask("resume", **{key: draft[key] for key in draft if key not in ("kind", "view")})
    assert "was changed since it was opened" in again.ask("save")["said"]
    assert own_file.read_text().startswith("# another's")


def test_a_page_that_had_saved_takes_the_file_as_it_is_by_now(bar, own_file, tmp_path):
    draft = bar.ask("draft")
    own_file.write_bytes((SAMPLES / "tideline.toml").read_bytes())
    again = Heard(Editor.opened(own_file), tmp_path / "out")
    again.handle({"do": "resume", **draft}, [])
    assert again.editor.plan == read_plan(own_file)
    assert not again.editor.can_undo


def test_a_page_cannot_name_a_file_elsewhere_to_be_saved_to(bar, own_file, tmp_path):
    bar.editor.move(0, 3)
    draft = bar.ask("draft")
    for step in draft["steps"]:
        step |= {"folder": "/elsewhere", "file": "../../x.toml"}
    again = Heard(Editor.opened(own_file), tmp_path / "out")
    again.handle({**draft, "do": "resume"}, [])
    assert again.editor.path is None


def resumed(bar, own_file, tmp_path):
    """Return a bar of a new kernel that is told what the page of another one kept."""
    draft = bar.ask("draft")
    again = Heard(Editor.opened(own_file), tmp_path / "out")
    again.handle({**draft, "do": "resume"}, [])
    return again


def test_undo_and_redo_outlast_a_kernel(bar, own_file, tmp_path):
    plans = [bar.editor.plan]
    for change in (lambda: bar.editor.move(0, 3), lambda: bar.editor.change(name="staggered")):
        change()
        plans.append(bar.editor.plan)
    bar.ask("undo")
    again = resumed(bar, own_file, tmp_path)
    assert again.editor.plan == plans[1]
    assert again.sent[-1]["undo_words"] == "the order of the lots"
    assert again.sent[-1]["redo_words"] == "scheme"
    again.ask("redo")
    assert again.editor.plan == plans[2]
    again.ask("undo")
    again.ask("undo")
    assert again.editor.plan == plans[0]
    assert not again.editor.can_undo


def test_steps_outlast_a_kernel_where_all_is_saved_but_not_a_file_that_changed(
    bar, own_file, tmp_path
):
    bar.editor.move(0, 3)
    bar.ask("save")
    assert resumed(bar, own_file, tmp_path).editor.can_undo
    own_file.write_text("# another's\n" + own_file.read_text())
    assert not resumed(bar, own_file, tmp_path).editor.can_undo


def test_another_plan_in_its_place_is_undone_after_a_kernel_was_lost(bar, own_file, tmp_path):
    before = bar.editor.plan
    bar.ask("new")
    again = resumed(bar, own_file, tmp_path)
    assert again.editor.path is None
    again.ask("undo")
    assert (again.editor.plan, again.editor.path) == (before, own_file)


def test_of_a_long_evening_the_last_twenty_steps_are_kept(bar, own_file, tmp_path):
    for places in range(50):
        bar.editor.turn_round(1 + places % 3)
    again = resumed(bar, own_file, tmp_path)
    assert again.editor.plan == bar.editor.plan
    for _ in range(20):
        assert again.editor.can_undo
        again.ask("undo")
    assert not again.editor.can_undo
    assert len(str(bar.ask("draft"))) < 100_000
