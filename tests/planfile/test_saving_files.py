"""Saving over what is there: only over a plan file, and whole or not at all."""

import errno
import os
from dataclasses import replace
from pathlib import Path

import pytest

import yarncolor as yc
from tests.helpers.paths import SAMPLES
from tests.helpers.saved_plans import CHANGED, PLAN, TEXT
from yarncolor.editing.editor import Editor
from yarncolor.planfile import checks
from yarncolor.planfile.document import PlanDocument
from yarncolor.planfile.versions import save_over, versions_of


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"Dear diary,\n", "not TOML: expected '=' after a key in a key/value pair (at line 1, "),
        (b"\xff\xfe", "byte 1 is not UTF-8; save the file as UTF-8 text"),
        (
            b'[project]\nname = "x"\n',
            "project: unknown table; known are lots, braid, scheme, spinning, ",
        ),
        (b"x = " + b"[" * 10_000, "nested too deeply to be read"),
    ],
    ids=["letter", "binary", "other", "deep"],
)
def test_a_file_that_is_no_plan_is_not_written_over(content, says, tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes(content)
    with pytest.raises(yc.PlanError) as told:
        yc.save_plan(PLAN, path)
    assert str(told.value).startswith(f"{path}: {says}")
    assert path.read_bytes() == content


def test_a_folder_is_not_written_over(tmp_path):
    with pytest.raises(yc.PlanError) as told:
        yc.save_plan(PLAN, tmp_path)
    assert str(told.value) == f"{tmp_path}: is a folder; give the plan file in it"


def test_a_plan_that_no_file_may_hold_is_not_saved(tmp_path):
    with pytest.raises(yc.PlanError) as told:
        yc.save_plan(replace(PLAN, title="two\nlines"), tmp_path / "plan.toml")
    assert str(told.value) == (
        f'{tmp_path / "plan.toml"}: title = "two\\nlines": give one line of at most 120 characters'
    )
    assert list(tmp_path.iterdir()) == []


def test_an_empty_file_is_filled_and_its_comments_stay(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text("# my plan\n")
    assert yc.read_plan(yc.save_plan(PLAN, path)) == PLAN
    assert path.read_text().startswith("# my plan\n")


def test_a_new_file_like_another_brings_its_comments(tmp_path):
    like = tmp_path / "old.toml"
    like.write_text(TEXT)
    new = yc.save_plan(CHANGED["another title"], tmp_path / "new.toml", like=like)
    assert new.read_text() == TEXT.replace('"Shore"', '"Strand"')
    assert like.read_text() == TEXT


def test_a_file_that_is_there_counts_more_than_the_one_to_be_like(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text(TEXT)
    yc.save_plan(CHANGED["another title"], path, like=SAMPLES[0])
    assert "# The end." in path.read_text()


def test_a_file_to_be_like_that_is_missing_is_told(tmp_path):
    with pytest.raises(yc.PlanError, match=r"nowhere\.toml: there is no such file$"):
        yc.save_plan(PLAN, tmp_path / "plan.toml", like=tmp_path / "nowhere.toml")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("call", ["os.fsync", "os.replace", "tempfile.mkstemp"])
def test_a_disk_that_fails_leaves_the_old_file_whole(call, tmp_path, monkeypatch):
    def fail(*_, **__):
        raise OSError(errno.ENOSPC, "No space left on device")

    path = tmp_path / "plan.toml"
    path.write_text(TEXT)
    monkeypatch.setattr(call, fail)
    with pytest.raises(yc.PlanError, match="no space left on device"):
        yc.save_plan(CHANGED["another title"], path)
    assert path.read_text() == TEXT
    assert list(tmp_path.iterdir()) == [path]


def test_a_link_is_followed_and_stays_a_link(tmp_path):
    real, link = tmp_path / "real.toml", tmp_path / "link.toml"
    real.write_text(TEXT)
    link.symlink_to(real)
    yc.save_plan(CHANGED["another title"], link)
    assert link.is_symlink()
    assert yc.read_plan(real) == CHANGED["another title"]


def test_what_is_saved_is_validated_once(tmp_path, monkeypatch):
    path = tmp_path / "plan.toml"
    path.write_text(TEXT)
    document = PlanDocument(path, TEXT, PLAN)
    checked = []
    monkeypatch.setattr(checks, "check", lambda *told, own=checks.check: checked.append(own(*told)))
    document.write(CHANGED["another title"])
    assert len(checked) == 1
    assert path.read_text() == TEXT.replace('"Shore"', '"Strand"')


def test_a_plan_that_is_read_only_is_not_replaced(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text(TEXT)
    path.chmod(0o444)
    with pytest.raises(yc.PlanError, match="is read-only and was not replaced"):
        yc.save_plan(CHANGED["another title"], path)
    assert path.read_text() == TEXT
    assert os.listdir(tmp_path) == ["plan.toml"]


def test_a_file_that_just_appeared_is_not_saved_over(tmp_path, monkeypatch):
    path, other = tmp_path / "plan.toml", tmp_path / "other.toml"
    path.write_text(TEXT)
    editor = Editor.opened(path)

    def synced(handle, own=os.fsync):
        other.write_text("theirs")
        own(handle)

    monkeypatch.setattr("os.fsync", synced)
    with pytest.raises(yc.PlanError, match="there is a file of that name already"):
        editor.save_as(other)
    assert other.read_text() == "theirs"
    assert editor.path == path


@pytest.mark.parametrize("name", ["n" * 300, "a\0b", "a\ud800"])
def test_a_name_that_no_disk_takes_is_told(name, tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text(TEXT)
    with pytest.raises(yc.PlanError, match="cannot write here"):
        Editor.opened(path).save_as(tmp_path / name)
    assert os.listdir(tmp_path) == ["plan.toml"]


def test_what_cannot_be_read_while_saving_is_told(tmp_path, monkeypatch):
    path = tmp_path / "plan.toml"
    path.write_text(TEXT)

    def refuse(_):
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refuse)
    with pytest.raises(yc.PlanError, match="cannot be read, so that nothing was saved: permission"):
        save_over(path, TEXT.replace("Shore", "Strand"))
    assert path.read_text() == TEXT


def test_a_version_that_cannot_be_read_hinders_nothing(tmp_path, monkeypatch):
    path = tmp_path / "plan.toml"
    path.write_text(TEXT)
    save_over(path, TEXT.replace("Shore", "Strand"))

    def refused(self, own=Path.read_bytes):
        if self.parent.name == "plan versions":
            raise PermissionError(errno.EACCES, "Permission denied")
        return own(self)

    monkeypatch.setattr(Path, "read_bytes", refused)
    save_over(path, TEXT.replace("Shore", "Beach"))
    assert len(versions_of(path)) == 2


def test_a_plan_whose_lines_end_in_returns_alone_is_opened_and_keeps_them(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes(TEXT.replace("\n", "\r").encode())
    assert yc.read_plan(path) == PLAN
    yc.save_plan(CHANGED["another title"], path)
    wanted = TEXT.replace('"Shore"', '"Strand"').replace("\n", "\r")
    assert path.read_bytes().decode() == wanted
    assert yc.read_plan(path) == CHANGED["another title"]


def test_a_fault_of_a_plan_whose_lines_end_in_returns_alone_tells_its_line(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_bytes(b'title = "Shore"\rlots = Kelp\r')
    with pytest.raises(yc.PlanError, match="at line 2"):
        yc.read_plan(path)


def test_what_another_program_writes_while_a_plan_is_saved_is_never_lost(tmp_path, monkeypatch):
    path = tmp_path / "plan.toml"
    path.write_text(TEXT)
    editor = Editor.opened(path)
    editor.replace_plan(CHANGED["another title"])
    theirs = TEXT + "# another hand\n"

    def synced(handle, own=os.fsync):
        path.write_text(theirs)
        own(handle)

    monkeypatch.setattr("os.fsync", synced)
    with pytest.raises(yc.PlanError, match="was changed meanwhile and was not replaced"):
        editor.save()
    assert path.read_text() == theirs
    assert not editor.is_saved
