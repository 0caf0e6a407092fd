"""How every command ends when something is wrong: one line, a status, never a traceback."""

import errno
import io
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from yarncolor.__main__ import main

PLAN = """\
title = "Low Tide"
[[lots]]
name = "Kelp"
colour = "#56612d"
mass_g = 30.0
[[lots]]
name = "Foam"
colour = "#dcdad0"
mass_g = 30.0
[scheme]
plies = 2
[spinning]
single_tex = 100.0
[[spun]]
ply = 1
row = 1
mass_g = 17.0
[made]
turns = 440
turn_m = 0.8
mass_g = 55.0
"""
"""Something is spun and something came out, so that every command has to do with it."""
COMMANDS = ["plan", "replan", "orders", "record", "hand", "share"]
WRITTEN_INTO_A_FOLDER = COMMANDS[:3]
every_command = pytest.mark.parametrize("command", COMMANDS)


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    """Return the working folder, with a plan."""
    monkeypatch.chdir(tmp_path)
    Path("plan.toml").write_text(PLAN, "utf-8")
    return tmp_path


def process(command: str, *arguments: str, **options):
    """Return the process of a command on the plan, running."""
    line = [sys.executable, "-m", "yarncolor", command, "plan.toml", *arguments]
    environment = {**os.environ, **options.pop("env", {})}
    return subprocess.Popen(line, stderr=subprocess.PIPE, env=environment, **options)


@every_command
def test_names_that_are_empty_are_told_all_at_once(command, folder, capsys):
    assert main([command, "", "--out", ""]) == 2
    assert capsys.readouterr().err == "FILE: is empty; give a name\n--out: is empty; give a name\n"
    assert os.listdir(folder) == ["plan.toml"]


@every_command
@pytest.mark.parametrize("to", ["nowhere.toml", "link.toml"], ids=["dangling", "round"])
def test_a_link_to_no_plan_is_told(command, to, folder, capsys):
    Path("link.toml").symlink_to(to)
    assert main([command, "link.toml", "--out", "out"]) == 2
    told = "link.toml: is a link that leads nowhere; give the plan file itself\n"
    assert capsys.readouterr().err == told
    assert not Path("out").exists()


@pytest.mark.parametrize("command", WRITTEN_INTO_A_FOLDER)
@pytest.mark.parametrize("below", ["", "/deep"])
@pytest.mark.parametrize("to", ["nowhere", "link"], ids=["dangling", "round"])
def test_a_link_to_no_folder_is_told(command, to, below, folder, capsys):
    Path("link").symlink_to(to)
    assert main([command, "plan.toml", "--out", f"link{below}"]) == 2
    told = "link: is a link that leads nowhere; choose another folder\n"
    assert capsys.readouterr().err == told
    assert sorted(os.listdir(folder)) == ["link", "plan.toml"]


@pytest.mark.parametrize(
    ("out", "told"),
    [
        ("link", "link: is a link that leads nowhere; choose another file\n"),
        ("link/deep", "is a link that leads nowhere; choose another folder\n"),
    ],
)
def test_a_link_that_leads_round_is_no_file_for_hands(out, told, folder, capsys):
    Path("link").symlink_to("link")
    assert main(["hand", "plan.toml", "--out", out]) == 2
    assert capsys.readouterr().err.endswith(told)


@every_command
def test_a_device_without_room_for_files_is_told(command, folder, capsys, monkeypatch):
    def full(*_):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    assert main([command, "plan.toml", "--out", "out"]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.endswith("cannot write here: no space left on device; choose another folder\n")
    assert len(told.err.splitlines()) == 1
    assert os.listdir(folder) == ["plan.toml"]


class Full(io.TextIOBase):
    """A stream to a device without room."""

    def write(self, _: str) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")


@every_command
def test_a_device_without_room_for_words_is_told(command, folder, capsys, monkeypatch):
    monkeypatch.setattr("sys.stdout", Full())
    assert main([command, "plan.toml", "--out", "out"]) == 1
    assert capsys.readouterr().err == (
        "cannot say the rest: no space left on device; what was written stays\n"
    )
    assert Path("out").exists()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no full device here")
def test_words_that_wait_for_a_full_device_are_not_told_twice(folder):
    with open("/dev/full", "w") as full:
        done = process("hand", "--out", "hand.toml", stdout=full)
        told = done.communicate()[1]
    assert (done.returncode, told.count(b"\n")) == (1, 1)


@every_command
def test_a_key_that_stops_it_is_one_word_and_nothing_is_half_written(
    command, folder, capsys, monkeypatch
):
    def stop(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("os.fsync", stop)
    assert main([command, "plan.toml", "--out", "out"]) == 130
    assert capsys.readouterr() == ("", "Stopped\n")
    assert os.listdir(folder) == ["plan.toml"]


def test_a_process_is_stopped_by_a_key(folder):
    line = [sys.executable, "-c", _WAITING]
    done = subprocess.Popen(line, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert done.stdout.readline() == b"ready\n"
    done.send_signal(signal.SIGINT)
    _, told = done.communicate(timeout=60)
    assert (done.returncode, told) == (130, b"Stopped\n")
    assert os.listdir(folder) == ["plan.toml"]


_WAITING = """
import os, signal, sys, time
from yarncolor.__main__ import main
signal.signal(signal.SIGINT, signal.default_int_handler)
def wait(_):
    print("ready", flush=True)
    time.sleep(60)
os.fsync = wait
sys.exit(main(["hand", "plan.toml", "--out", "hand.toml"]))
"""
"""A command that waits while it writes; a shell may start it deaf to that key."""


@pytest.mark.parametrize("command", ["plan", "hand"])
def test_nonsense_round_it_is_not_heeded(command, folder):
    nonsense = {"MPLBACKEND": "nonsense", "SOURCE_DATE_EPOCH": "nonsense"}
    done = process(command, "--out", "out", stdout=subprocess.PIPE, env=nonsense)
    _, told = done.communicate()
    assert (done.returncode, told) == (0, b"")


@every_command
def test_what_stirs_a_terminal_is_not_repeated_as_it_is(command, folder, capsys):
    assert main([command, "plan.toml", "--out", "o\x1b[31mut\n"]) == 0
    told = capsys.readouterr().out
    assert "o\\x1b[31mut\\n" in told
    assert "\x1b" not in told


@every_command
def test_neither_is_an_option_that_there_is_not(command, folder, capsys):
    with pytest.raises(SystemExit):
        main([command, "plan.toml", "--out", "out", "--\x1b[31m"])
    assert "\x1b" not in capsys.readouterr().err


@pytest.mark.parametrize("command", ["record", "hand"])
def test_the_name_of_another_plan_is_told_on_one_line(command, folder, capsys):
    Path("a\x1b.toml").write_text(PLAN, "utf-8")
    assert main([command, "a\x1b.toml", "plan.toml", "--out", "out"]) == 2
    assert capsys.readouterr().err.count("a\\x1b.toml has that name too") == 1


@every_command
def test_a_fault_of_ours_is_one_line_as_well(command, folder, capsys, monkeypatch):
    def fail(*_):
        raise IndexError("out\nof range")

    monkeypatch.setattr("yarncolor.report.command_end._refuse_no_names", fail)
    assert main([command, "plan.toml", "--out", "out"]) == 1
    assert capsys.readouterr().err == (
        "a fault of this program (IndexError: out\\nof range); python -X dev says where\n"
    )
