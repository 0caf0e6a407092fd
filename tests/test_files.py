"""Writing several files: all or none, whatever the disk does."""

import errno
import os
import stat
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

from yarncolor.errors import PlanError
from yarncolor.files import UNFINISHED, write_all

_NEW = {"a.txt": b"new a", "b.txt": b"new b", "c.txt": b"new c"}
_FULL = OSError(errno.ENOSPC, "No space left on device")


def contents(folder: Path) -> dict[str, bytes]:
    """Return what every file of a folder holds, hidden ones too."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def failing(call, on: int, error: BaseException):
    """Return a function that does as `call` does, but fails the n-th time."""
    done = []

    def failed(*arguments, **options):
        done.append(arguments)
        if len(done) == on:
            raise error
        return call(*arguments, **options)

    return failed


def noting(call, calls: list[str]):
    """Return a function that does as `call` does, and notes its name."""

    def noted(*arguments):
        calls.append(call.__name__)
        return call(*arguments)

    return noted


def test_all_files_are_written_and_named_in_order(tmp_path):
    assert write_all(tmp_path, _NEW) == [tmp_path / name for name in _NEW]
    assert contents(tmp_path) == _NEW


def test_folders_are_made_where_they_are_missing(tmp_path):
    write_all(tmp_path / "deep" / "er", _NEW)
    assert contents(tmp_path / "deep" / "er") == _NEW


def test_old_files_are_replaced_and_others_left_alone(tmp_path):
    (tmp_path / "a.txt").write_bytes(b"a much longer old a")
    (tmp_path / "z.txt").write_bytes(b"z")
    write_all(tmp_path, _NEW)
    assert contents(tmp_path) == {**_NEW, "z.txt": b"z"}


@pytest.mark.parametrize(("module", "call"), [(os, "fsync"), (tempfile, "mkstemp")])
@pytest.mark.parametrize("nth", [1, 2, 3])
def test_a_disk_that_fills_up_leaves_the_old_files(module, call, nth, tmp_path, monkeypatch):
    monkeypatch.setattr(module, call, failing(getattr(module, call), nth, _FULL))
    old = {"a.txt": b"old a", "c.txt": b"old c", "z.txt": b"z"}
    for name, content in old.items():
        (tmp_path / name).write_bytes(content)
    with pytest.raises(PlanError) as told:
        write_all(tmp_path, _NEW)
    assert str(told.value) == (
        f"{tmp_path}: cannot write here: no space left on device; choose another folder"
    )
    assert contents(tmp_path) == old


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_a_folder_made_for_the_purpose_goes_again(nth, tmp_path, monkeypatch):
    monkeypatch.setattr("os.fsync", failing(os.fsync, nth, _FULL))
    with pytest.raises(PlanError):
        write_all(tmp_path / "deep" / "er", _NEW)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_was_there_stays_however_it_fails(tmp_path, monkeypatch):
    (tmp_path / "deep").mkdir()
    monkeypatch.setattr("os.fsync", failing(os.fsync, 2, _FULL))
    with pytest.raises(PlanError):
        write_all(tmp_path / "deep" / "er", _NEW)
    assert list(tmp_path.rglob("*")) == [tmp_path / "deep"]


def test_a_rename_that_fails_leaves_whole_files_and_a_note(tmp_path, monkeypatch):
    (tmp_path / "b.txt").write_bytes(b"old b")
    monkeypatch.setattr("os.replace", failing(os.replace, 3, OSError(errno.EIO, "I/O error")))
    with pytest.raises(PlanError):
        write_all(tmp_path, _NEW)
    note = (tmp_path / UNFINISHED).read_bytes()
    assert contents(tmp_path) == {"a.txt": b"new a", "b.txt": b"old b", UNFINISHED: note}


def test_an_interrupt_takes_everything_back_and_goes_on_up(tmp_path, monkeypatch):
    monkeypatch.setattr("os.fsync", failing(os.fsync, 2, KeyboardInterrupt()))
    with pytest.raises(KeyboardInterrupt):
        write_all(tmp_path / "made", _NEW)
    assert list(tmp_path.iterdir()) == []


def test_every_file_is_on_the_disk_before_the_first_is_renamed_and_the_folder_after(
    tmp_path, monkeypatch
):
    calls = []
    for name in ("fsync", "replace"):
        monkeypatch.setattr(os, name, noting(getattr(os, name), calls))
    write_all(tmp_path, _NEW)
    assert calls == ["fsync"] * 3 + ["replace"] * 3 + ["fsync"]


def test_the_permissions_of_a_replaced_file_stay(tmp_path):
    (tmp_path / "a.txt").touch()
    (tmp_path / "a.txt").chmod(0o640)
    write_all(tmp_path, _NEW)
    assert stat.S_IMODE((tmp_path / "a.txt").stat().st_mode) == 0o640


def test_a_new_file_has_the_permissions_that_any_new_file_has(tmp_path):
    (tmp_path / "plain.txt").touch()
    write_all(tmp_path, _NEW)
    assert (tmp_path / "a.txt").stat().st_mode == (tmp_path / "plain.txt").stat().st_mode


def test_a_disk_that_knows_no_permissions_is_written_all_the_same(tmp_path, monkeypatch):
    def refuse(*_):
        raise PermissionError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr("os.chmod", refuse)
    write_all(tmp_path, _NEW)
    assert contents(tmp_path) == _NEW


def test_a_name_as_long_as_the_disk_takes_is_written(tmp_path):
    name = "n" * 255
    write_all(tmp_path, {name: b"long"})
    assert contents(tmp_path) == {name: b"long"}


def test_a_name_too_long_for_the_disk_is_a_fault(tmp_path):
    with pytest.raises(PlanError, match="cannot write here: file name too long"):
        write_all(tmp_path, {"n" * 256: b"longer"})
    assert contents(tmp_path) == {}


@pytest.mark.parametrize("below", ["", "deep", "deep/er"])
def test_a_file_in_the_place_of_a_folder_is_named(below, tmp_path):
    (tmp_path / "notes").write_bytes(b"mine")
    with pytest.raises(PlanError) as told:
        write_all(tmp_path / "notes" / below, _NEW)
    assert str(told.value) == f"{tmp_path / 'notes'}: is not a folder; choose another folder"
    assert contents(tmp_path) == {"notes": b"mine"}


def test_a_folder_in_the_place_of_a_file_is_named_before_anything_is_renamed(tmp_path):
    (tmp_path / "c.txt").mkdir()
    with pytest.raises(PlanError) as told:
        write_all(tmp_path, _NEW)
    assert str(told.value) == (
        f"{tmp_path / 'c.txt'}: cannot write here: a folder of that name is in the way; "
        "choose another folder"
    )
    assert os.listdir(tmp_path) == ["c.txt"]


def test_a_folder_that_cannot_be_synced_hinders_nothing(tmp_path, monkeypatch):
    monkeypatch.setattr("os.fsync", failing(os.fsync, 4, OSError(errno.EINVAL, "Invalid")))
    write_all(tmp_path, _NEW)
    assert contents(tmp_path) == _NEW


def test_a_file_that_is_read_only_is_not_replaced_nor_is_any_other(tmp_path):
    for name in ("a.txt", "b.txt"):
        (tmp_path / name).write_bytes(b"old")
    (tmp_path / "b.txt").chmod(0o444)
    with pytest.raises(PlanError) as told:
        write_all(tmp_path, _NEW)
    assert str(told.value) == (
        f"{tmp_path / 'b.txt'}: is read-only and was not replaced; "
        "make it writable or choose another name"
    )
    assert contents(tmp_path) == {"a.txt": b"old", "b.txt": b"old"}


def test_what_a_kill_left_beside_a_file_goes_after_an_hour(tmp_path):
    stale = [".a.txt.abcdefgh.part", f".{'n' * 40}.a1_b2c3d.part"]
    others = [
        ".z.txt.abcdefgh.part",
        ".a.txt.part",
        ".a.txt.of my own.part",
        "a.txt.abcdefgh.part",
    ]
    young = ".a.txt.hgfedcba.part"
    for name in (*stale, *others, young):
        (tmp_path / name).write_bytes(b"half")
        an_hour_ago = time.time() - (3500 if name == young else 3700)
        os.utime(tmp_path / name, (an_hour_ago, an_hour_ago))
    write_all(tmp_path, {"a.txt": b"a", "n" * 60: b"n"})
    assert set(contents(tmp_path)) == {"a.txt", "n" * 60, *others, young}


@pytest.mark.parametrize("knows_links", [True, False])
@pytest.mark.parametrize("appears", ["file", "folder", "link"])
def test_a_new_file_never_takes_the_place_of_one_that_just_appeared(
    appears, knows_links, tmp_path, monkeypatch
):
    there = tmp_path / "c.txt"

    def appear(path):
        if appears == "file":
            path.write_bytes(b"theirs")
        elif appears == "folder":
            path.mkdir()
        else:
            path.symlink_to("nowhere")

    def synced(handle, own=os.fsync):
        if not os.path.lexists(there):
            appear(there)
        own(handle)

    if not knows_links:
        refused = OSError(errno.EPERM, "Operation not permitted")
        monkeypatch.setattr("os.link", failing(os.link, 1, refused))
    monkeypatch.setattr("os.fsync", synced)
    with pytest.raises(PlanError, match="there is a file of that name already; choose another"):
        write_all(tmp_path, _NEW, new={"c.txt"})
    assert os.listdir(tmp_path) == ["c.txt"]
    assert appears != "file" or there.read_bytes() == b"theirs"


@pytest.mark.parametrize("knows_links", [True, False])
def test_a_new_file_is_written_where_nothing_is(knows_links, tmp_path, monkeypatch):
    if not knows_links:
        refused = OSError(errno.EPERM, "Operation not permitted")
        monkeypatch.setattr("os.link", failing(os.link, 1, refused))
    assert write_all(tmp_path, _NEW, new={"b.txt"}) == [tmp_path / name for name in _NEW]
    assert contents(tmp_path) == _NEW
    assert (tmp_path / "b.txt").stat().st_nlink == 1


@pytest.mark.parametrize("name", ["a\0b", "a\ud800"])
def test_a_name_that_no_disk_takes_is_a_fault(name, tmp_path):
    with pytest.raises(PlanError, match="cannot write here"):
        write_all(tmp_path, {name: b"a"})
    assert contents(tmp_path) == {}


_KILLED = """
import os, signal, sys
from pathlib import Path
from yarncolor.files import write_all
left = int(sys.argv[2])
def replace(beside, path, own=os.replace):
    global left
    if Path(path).suffix == ".set":
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)
    own(beside, path)
os.replace = replace
write_all(Path(sys.argv[1]), {name: b"new" for name in ("a.set", "b.set", "c.set")})
"""
"""Writes a set, killed before the file of that number, from 0, is put in its place."""


@pytest.mark.parametrize("before", [(), ("b.set",), ("a.set", "b.set", "c.set")])
@pytest.mark.parametrize("kill", [0, 1, 2, 3])
def test_files_of_two_sets_never_lie_together_without_a_note(kill, before, tmp_path):
    for name in before:
        (tmp_path / name).write_bytes(b"old")
    subprocess.run([sys.executable, "-c", _KILLED, str(tmp_path), str(kill)], check=False)
    note = tmp_path / UNFINISHED
    found = {path.read_bytes() for path in tmp_path.glob("*.set")}
    assert len(found) < 2 or "belong to another plan" in note.read_text()
    assert kill < 3 or not note.exists()
    write_all(tmp_path, dict.fromkeys(("a.set", "b.set", "c.set"), b"newest"))
    assert not note.exists()


def test_a_note_stays_until_every_file_in_it_is_written_anew(tmp_path):
    for name in _NEW:
        (tmp_path / name).write_bytes(b"old")
    with pytest.MonkeyPatch.context() as broken:
        broken.setattr("os.replace", failing(os.replace, 3, OSError(errno.EIO, "I/O error")))
        with pytest.raises(PlanError):
            write_all(tmp_path, _NEW)
    note = tmp_path / UNFINISHED
    assert note.read_text().splitlines()[-3:] == ["a.txt", "b.txt", "c.txt"]
    write_all(tmp_path, {"b.txt": b"b", "z.txt": b"z"})
    assert note.read_text().splitlines()[-2:] == ["a.txt", "c.txt"]
    write_all(tmp_path, {"a.txt": b"a"})
    write_all(tmp_path, {"c.txt": b"c"})
    assert not note.exists()


def test_a_rename_that_fails_at_the_first_file_leaves_no_note(tmp_path, monkeypatch):
    (tmp_path / "b.txt").write_bytes(b"old b")
    monkeypatch.setattr("os.replace", failing(os.replace, 2, OSError(errno.EIO, "I/O error")))
    with pytest.raises(PlanError):
        write_all(tmp_path, _NEW)
    assert contents(tmp_path) == {"b.txt": b"old b"}


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_an_interrupt_between_renames_is_heard_after_the_last(nth, tmp_path, monkeypatch):
    for name in _NEW:
        (tmp_path / name).write_bytes(b"old")
    stopped = failing(os.replace, nth + 1, KeyboardInterrupt())
    monkeypatch.setattr("os.replace", stopped)
    with pytest.raises(KeyboardInterrupt):
        write_all(tmp_path, _NEW)
    assert contents(tmp_path) == _NEW


_TWO_WRITERS = """
import os, sys, time
from pathlib import Path
from yarncolor.files import write_all
def replace(beside, path, own=os.replace):
    own(beside, path)
    time.sleep(0.02)
os.replace = replace
for _ in range(5):
    write_all(Path(sys.argv[1]), {f"{n}.set": sys.argv[2].encode() for n in range(5)})
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no folder can be held there")
def test_two_writers_leave_the_set_of_one(tmp_path):
    line = [sys.executable, "-c", _TWO_WRITERS, str(tmp_path)]
    writers = [subprocess.Popen([*line, name]) for name in ("one", "two")]
    assert [writer.wait() for writer in writers] == [0, 0]
    assert len({path.read_bytes() for path in tmp_path.glob("*.set")}) == 1
    assert not (tmp_path / UNFINISHED).exists()


@pytest.mark.parametrize("name", ["a.txt", "b.txt"])
def test_a_file_that_changes_while_it_is_written_is_not_replaced_nor_is_any_other(
    name, tmp_path, monkeypatch
):
    for each in ("a.txt", "b.txt"):
        (tmp_path / each).write_bytes(b"old")

    def synced(handle, own=os.fsync):
        (tmp_path / name).write_bytes(b"theirs")
        own(handle)

    monkeypatch.setattr("os.fsync", synced)
    with pytest.raises(PlanError, match=rf"{name}: was changed meanwhile and was not replaced"):
        write_all(tmp_path, _NEW, still={"a.txt": b"old", "b.txt": b"old"})
    expected = {"a.txt": b"old", "b.txt": b"old"} | {name: b"theirs"}
    assert contents(tmp_path) == expected


@pytest.fixture
def of_two_names(tmp_path):
    """Return a file that has another name, in another folder."""
    (tmp_path / "elsewhere").mkdir()
    other = tmp_path / "elsewhere" / "same.txt"
    (tmp_path / "a.txt").write_bytes(b"old, and longer")
    os.link(tmp_path / "a.txt", other)
    return other


@pytest.mark.parametrize("new", [b"a", b"a much longer text than before", b""])
def test_a_file_keeps_its_other_names(new, of_two_names, tmp_path):
    write_all(tmp_path, {"a.txt": new})
    assert of_two_names.read_bytes() == (tmp_path / "a.txt").read_bytes() == new
    assert of_two_names.stat().st_nlink == 2
    assert sorted(os.listdir(tmp_path)) == ["a.txt", "elsewhere"]


def test_a_disk_that_fails_under_a_file_of_two_names_leaves_it_whole(
    of_two_names, tmp_path, monkeypatch
):
    full = OSError(errno.ENOSPC, "No space left on device")
    monkeypatch.setattr("os.fsync", failing(os.fsync, 2, full))
    with pytest.raises(PlanError, match="no space left on device"):
        write_all(tmp_path, {"a.txt": b"new"})
    assert of_two_names.read_bytes() == b"old, and longer"
    assert sorted(os.listdir(tmp_path)) == ["a.txt", "elsewhere"]


def test_a_link_among_the_files_is_replaced_and_what_it_led_to_stays(of_two_names, tmp_path):
    (tmp_path / "b.txt").symlink_to(of_two_names)
    write_all(tmp_path, {"b.txt": b"new"})
    assert not (tmp_path / "b.txt").is_symlink()
    assert of_two_names.read_bytes() == b"old, and longer"


@pytest.mark.skipif(not hasattr(os, "setxattr"), reason="the system knows no attributes")
def test_a_file_keeps_its_attributes_and_its_permissions(tmp_path):
    path = tmp_path / "a.txt"
    path.write_bytes(b"old")
    path.chmod(0o640)
    try:
        os.setxattr(path, "user.note", b"of the blue drawer")
    except OSError:
        pytest.skip("the disk keeps no attributes")
    os.utime(path, (1, 1))
    write_all(tmp_path, {"a.txt": b"new"})
    assert os.getxattr(path, "user.note") == b"of the blue drawer"
    assert path.stat().st_mode & 0o777 == 0o640
    assert time.time() - path.stat().st_mtime < 3600


@pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root gives files away"
)
def test_a_file_keeps_its_owner(tmp_path):
    path = tmp_path / "a.txt"
    path.write_bytes(b"old")
    os.chown(path, 12345, 23456)
    write_all(tmp_path, {"a.txt": b"new"})
    assert path.read_bytes() == b"new"
    assert (path.stat().st_uid, path.stat().st_gid) == (12345, 23456)


def test_who_may_not_give_a_file_away_still_writes_it(tmp_path, monkeypatch):
    path = tmp_path / "a.txt"
    path.write_bytes(b"old")
    refused = OSError(errno.EPERM, "Operation not permitted")
    monkeypatch.setattr("os.chown", failing(os.chown, 1, refused))
    write_all(tmp_path, {"a.txt": b"new"})
    assert path.read_bytes() == b"new"
