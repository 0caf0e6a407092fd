"""What a plan was stays when it is saved over, whatever the disk does, and when killed."""

import errno
import os
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.paths import ROOT
from tests.helpers.saved_plans import CHANGED, FOAM, KELP, PLAN, TEXT, WRACK
from yarncolor.__main__ import main
from yarncolor.editing.earlier import earlier, go_back
from yarncolor.editing.editor import Editor
from yarncolor.planfile.versions import MOST_VERSIONS, save_over, versions_of
from yarncolor.widgets.earlier_versions import EarlierVersions
from yarncolor.widgets.plan_bar import BETWEEN_VERSIONS, PlanBar


@pytest.fixture
def path(tmp_path) -> Path:
    """Return a plan file alone in its folder."""
    file = tmp_path / "shore.toml"
    file.write_text(TEXT, encoding="utf-8")
    return file


def texts(path: Path) -> list[str]:
    """Return what every version of a plan says, the newest first."""
    return [version.path.read_text(encoding="utf-8") for version in versions_of(path)]


def titled(number: int) -> str:
    return TEXT.replace('"Shore"', f'"Shore {number}"')


# --- what is kept --------------------------------------------------------------------------------


def test_saving_over_a_plan_keeps_what_it_was(path):
    yc.save_plan(CHANGED["another title"], path)
    assert texts(path) == [TEXT]
    yc.save_plan(PLAN, path)
    assert texts(path) == [TEXT.replace('"Shore"', '"Strand"'), TEXT]
    (folder,) = (each for each in path.parent.iterdir() if each.is_dir())
    assert folder.name == "shore versions"


def test_the_last_twenty_are_kept_each_readable_as_a_plan(path):
    for number in range(30):
        save_over(path, titled(number))
    assert texts(path) == [titled(number) for number in range(28, 8, -1)]
    assert MOST_VERSIONS == 20
    titles = [yc.read_plan(version.path).title for version in versions_of(path)]
    assert titles == [f"Shore {number}" for number in range(28, 8, -1)]


def test_each_is_called_by_the_moment_it_was_saved_over(path):
    before = datetime.now(UTC)
    save_over(path, titled(1))
    (version,) = versions_of(path)
    assert before <= version.until <= datetime.now(UTC)


def test_versions_stay_in_order_when_the_clock_goes_back(path, monkeypatch):
    class Clock(datetime):
        hours = iter((9, 7, 8))

        @classmethod
        def now(cls, tz=None):
            return datetime(2026, 3, 1, next(cls.hours), tzinfo=tz)

    monkeypatch.setattr("yarncolor.planfile.versions.datetime", Clock)
    for number in range(3):
        save_over(path, titled(number))
    assert texts(path) == [titled(1), titled(0), TEXT]


def test_a_new_file_and_one_that_says_the_same_leave_nothing_behind(tmp_path, path):
    save_over(tmp_path / "new.toml", TEXT)
    save_over(path, TEXT)
    assert versions_of(tmp_path / "new.toml") == versions_of(path) == ()
    assert {each.name for each in tmp_path.iterdir()} == {"new.toml", "shore.toml"}


def test_of_a_link_the_versions_lie_beside_the_file(tmp_path, path):
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "link.toml"
    link.symlink_to(path)
    save_over(link, titled(1))
    assert link.is_symlink()
    assert texts(path) == texts(link) == [TEXT]
    assert list(link.parent.iterdir()) == [link]


def test_other_files_in_the_folder_of_versions_are_left_alone(path):
    save_over(path, titled(0))
    notes = versions_of(path)[0].path.parent / "my notes.toml"
    notes.write_text("# mine", encoding="utf-8")
    for number in range(1, 25):
        save_over(path, titled(number))
    assert notes.read_text(encoding="utf-8") == "# mine"
    assert len(versions_of(path)) == 20


def test_the_command_keeps_what_a_plan_was(path, tmp_path, capsys):
    """By --save over the plan itself, with the choice of a way to go on."""
    text = TEXT + "[[spun]]\nply = 1\nrow = 1\nmass_g = 2.0\n"
    path.write_text(text, encoding="utf-8")
    arguments = ["replan", str(path), "--out", str(tmp_path / "out")]
    assert main([*arguments, "--take", "make_up", "--save", str(path)]) == 0
    assert path.read_text(encoding="utf-8") != text
    assert texts(path) == [text]
    assert {each.name for each in (tmp_path / "out").iterdir()} >= {"replan.json", "to-spin.html"}
    assert all(each.is_file() for each in (tmp_path / "out").iterdir())
    assert "shore versions" not in capsys.readouterr().out


def test_what_is_kept_up_to_date_leaves_a_version_every_ten_minutes(path):
    editor = Editor.opened(path)
    bar = PlanBar(editor, path.parent)
    for number in range(5):
        editor.replace_plan(replace(editor.plan, title=f"Shore {number}"))
        bar.keep_up()
    assert texts(path) == [TEXT]
    assert yc.read_plan(path).title == "Shore 4"
    assert timedelta(minutes=10) == BETWEEN_VERSIONS
    editor.replace_plan(replace(editor.plan, title="By hand"))
    editor.save()
    assert texts(path) == [titled(4), TEXT]


# --- whatever the disk does ----------------------------------------------------------------------


def failing(call, nth: int):
    """Return a function that does as `call` does until the n-th time, and fails from then on."""
    count = 0

    def failed(*arguments, **options):
        nonlocal count
        count += 1
        if count >= nth:
            raise OSError(errno.ENOSPC, "No space left on device")
        return call(*arguments, **options)

    return failed


WRITES = [
    *((tempfile, "mkstemp", nth) for nth in (1, 2)),
    *((os, "fsync", nth) for nth in (1, 2)),
    *((os, "replace", nth) for nth in (1, 2)),
]


@pytest.mark.parametrize(("write", "versions"), [(one, n) for one in WRITES for n in (0, 20)])
def test_at_every_write_that_fails_the_plan_is_whole_and_nothing_is_lost(
    write, versions, path, monkeypatch
):
    module, call, nth = write
    for number in range(versions):
        save_over(path, titled(number))
    was, before = path.read_text(encoding="utf-8"), texts(path)
    with monkeypatch.context() as broken:
        broken.setattr(module, call, failing(getattr(module, call), nth))
        with pytest.raises(yc.PlanError, match="no space left on device"):
            save_over(path, titled(99))
    assert path.read_text(encoding="utf-8") == was
    after = texts(path)
    assert after in (before, [was, *before])
    parts = [each for each in path.parent.rglob("*") if each.name.endswith(".part")]
    assert parts == []
    if not after:
        assert list(path.parent.iterdir()) == [path]
    save_over(path, titled(100))
    assert texts(path) == [was, *before][:20]
    assert path.read_text(encoding="utf-8") == titled(100)


def test_a_folder_that_cannot_be_made_leaves_the_plan_as_it_was(path, monkeypatch):
    with monkeypatch.context() as broken:
        broken.setattr(os, "mkdir", failing(os.mkdir, 1))
        with pytest.raises(yc.PlanError, match="no space left on device"):
            save_over(path, titled(99))
    assert path.read_text(encoding="utf-8") == TEXT
    assert list(path.parent.iterdir()) == [path]


def test_an_old_version_that_cannot_be_taken_away_hinders_nothing(path, monkeypatch):
    for number in range(21):
        save_over(path, titled(number))
    with monkeypatch.context() as broken:
        broken.setattr(Path, "unlink", failing(Path.unlink, 1))
        save_over(path, titled(50))
    assert len(versions_of(path)) == 21
    save_over(path, titled(51))
    assert len(versions_of(path)) == 20


def test_a_file_in_the_way_of_the_folder_is_told_and_the_plan_stays(path):
    (path.parent / "shore versions").write_text("mine", encoding="utf-8")
    with pytest.raises(yc.PlanError):
        yc.save_plan(CHANGED["another title"], path)
    assert path.read_text(encoding="utf-8") == TEXT
    assert (path.parent / "shore versions").read_text(encoding="utf-8") == "mine"


SAVES_FOREVER = """\
import sys
from pathlib import Path
from yarncolor.planfile.versions import save_over
path, text = Path(sys.argv[1]), sys.argv[2]
print("ready", flush=True)
for number in range(10**9):
    save_over(path, text.replace("Shore", f"Shore {number}" + " so long" * (number % 9)))
"""


@pytest.mark.parametrize("kills", [3, pytest.param(50, marks=pytest.mark.thorough)])
def test_kills_leave_a_whole_plan_and_whole_versions(kills, path):
    chance = np.random.default_rng(18)
    for _ in range(kills):
        saving = subprocess.Popen(
            [sys.executable, "-c", SAVES_FOREVER, str(path), TEXT],
            stdout=subprocess.PIPE,
            cwd=ROOT,
        )
        assert saving.stdout.readline() == b"ready\n"
        time.sleep(chance.uniform(0.0, 0.05))
        saving.send_signal(signal.SIGKILL)
        saving.wait()
        saving.stdout.close()
        every = [path, *(version.path for version in versions_of(path))]
        assert all(yc.read_plan(each).lots == PLAN.lots for each in every)
    save_over(path, TEXT.replace("Shore", "Shore at last"))
    assert len(versions_of(path)) <= MOST_VERSIONS


# --- on the bench --------------------------------------------------------------------------------


@pytest.fixture
def changed(path) -> Editor:
    """Return an editor on a plan that was saved over twice."""
    editor = Editor.opened(path)
    noted = replace(KELP, note="two pots")
    editor.replace_plan(replace(PLAN, lots=(noted, FOAM, WRACK)))
    editor.save()
    editor.replace_plan(replace(editor.plan, title="Strand"))
    editor.save()
    return editor


def test_each_version_says_what_was_changed_after_it(changed):
    assert [one.changed for one in earlier(changed)] == ["title", "note of Kelp"]


def test_going_back_is_a_step_that_undo_takes_back_and_saves_nothing(changed, path):
    stood = path.read_text(encoding="utf-8")
    newest, first = earlier(changed)
    go_back(changed, first.version)
    assert changed.plan == PLAN
    assert changed.path == path
    assert path.read_text(encoding="utf-8") == stood
    changed.undo()
    assert changed.plan.title == "Strand"
    changed.redo()
    changed.save()
    assert yc.read_plan(path) == PLAN
    assert texts(path)[0] == stood
    assert newest.plan.title == "Shore"


def test_what_was_spun_is_as_it_was_too(path):
    editor = Editor.opened(path)
    editor.say_spun(CHANGED["what was spun"])
    editor.save()
    go_back(editor, earlier(editor)[0].version)
    assert editor.plan.spun == ()
    editor.undo()
    assert editor.plan == CHANGED["what was spun"]


def test_a_damaged_version_is_said_and_the_others_are_good(changed, path):
    newest, _ = versions_of(path)
    newest.path.write_text("[[lots", encoding="utf-8")
    damaged, first = earlier(changed)
    assert damaged.changed == "it cannot be read"
    assert first.plan == PLAN
    with pytest.raises(yc.PlanError):
        go_back(changed, newest)
    assert changed.plan.title == "Strand"


def test_what_is_decided_at_the_wheel_has_words_when_it_is_undone(path):
    editor = Editor.opened(path)
    editor.say_spun(replace(editor.plan, **decided()))
    assert editor.undo_words == "what was spun, what is still to spin and what is drawn off"


def decided() -> dict:
    from yarncolor.plan import PullOff, Spun, ToSpin

    return {
        "spun": (Spun(1, row=1),),
        "to_spin": (ToSpin(1, row=2, mass_g=3.0),),
        "pull_off": (PullOff(1, 2.0),),
    }


def test_the_page_lists_them_and_goes_back(changed, path):
    place = EarlierVersions(changed)
    place.refresh()
    words = [words for words, _ in place.list.options]
    assert [line.partition("before the change of: ")[2] for line in words] == [
        *("title", "note of Kelp")
    ]
    place.list.value = place.list.options[1][1]
    place.button.click()
    assert changed.plan == PLAN
    assert "Undo brings back what was here" in place.said.value
    changed.save()
    assert len(place.list.options) == 3


def test_a_plan_without_versions_says_when_there_will_be_some(path):
    place = EarlierVersions(Editor.opened(path))
    place.refresh()
    assert "None yet" in place.said.value
    place.button.click()
    assert EarlierVersions(Editor(PLAN)).list.options == ()
