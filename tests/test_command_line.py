"""The command line: what it writes, says and returns, in a process of its own."""

import os
import subprocess
import sys
import tomllib
from importlib.metadata import entry_points
from pathlib import Path

import pytest

import yarncolor
from tests.helpers.paths import SAMPLE_DATA as _SAMPLES
from tests.helpers.taken import spun, text_of
from yarncolor.__main__ import main
from yarncolor.report import exports
from yarncolor.report.exports import FILES

_FILES_PROMISED = {
    "plan.json",
    "weigh-out.csv",
    "stretches.csv",
    "card.html",
    "wheel.html",
    "strip.png",
    "strip.svg",
    "twist.png",
    "portrait.png",
    "yarn.png",
    "whole.png",
    "wraps.png",
    "skein.png",
    "knitted.png",
    "knitted.svg",
    "woven.png",
    "swatch.pdf",
}
_SCRIPTS = """\
title = "גאות ושפל"
[[lots]]
name = "Φύκι"
colour = "#56612d"
mass_g = 9.0
[[lots]]
name = "אצה"
colour = "#dcdad0"
mass_g = 9.0
[[lots]]
name = "海帶"
colour = "#3b2f2a"
mass_g = 9.0
[[lots]]
name = "🧶👩\u200d🌾"
colour = "#c9b48a"
mass_g = 9.0
"""


def run(folder: Path, *arguments: str, python: tuple[str, ...] = (), **environment: str):
    """Run the command line in a folder and return the finished process, its output as bytes."""
    return subprocess.run(
        [sys.executable, *python, "-m", "yarncolor", *arguments],
        cwd=folder,
        env={**os.environ, **environment},
        capture_output=True,
        check=False,
    )


@pytest.fixture
def folder(tmp_path) -> Path:
    """Return an empty folder that holds the first sample plan as plan.toml."""
    (tmp_path / "plan.toml").write_bytes((_SAMPLES / "tideline.toml").read_bytes())
    return tmp_path


def contents(folder: Path) -> dict[str, bytes]:
    """Return what every file below a folder holds."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


@pytest.fixture(scope="module")
def planned(tmp_path_factory):
    """Return a folder with what one run wrote, and the run, in which every warning is an error."""
    folder = tmp_path_factory.mktemp("planned")
    (folder / "plan.toml").write_bytes((_SAMPLES / "tideline.toml").read_bytes())
    strict = {"python": ("-W", "error"), "PYTHONHASHSEED": "0"}
    return folder, run(folder, "plan", "plan.toml", "--out", "a/b", **strict)


def test_plan_writes_the_files_and_says_what_to_spin(planned):
    folder, done = planned
    assert (done.returncode, done.stderr) == (0, b"")
    assert set(os.listdir(folder / "a/b")) == set(FILES) == _FILES_PROMISED
    lines = done.stdout.decode().splitlines()
    assert lines[0] == "Tideline"
    assert lines[-1] == f"Written to a/b: {', '.join(FILES)}"
    assert sum(line.startswith("Bobbin ") for line in lines) == 3


def test_two_runs_write_the_same_bytes_whatever_the_hash_seed(planned, folder):
    before, _ = planned
    assert run(folder, "plan", "plan.toml", "--out", "1", PYTHONHASHSEED="1").returncode == 0
    assert contents(folder / "1") == contents(before / "a/b")


def test_a_folder_is_reused_and_other_files_in_it_are_left_alone(folder, capsys, monkeypatch):
    monkeypatch.chdir(folder)
    before = {"notes.txt": b"mine", "plan.json": b"{}", "sub/strip.png": b"mine too"}
    (folder / "sub").mkdir()
    for name, content in before.items():
        (folder / name).write_bytes(content)
    assert main(["plan", "plan.toml", "--out", "."]) == 0
    after = contents(folder)
    assert set(after) == {"plan.toml", "notes.txt", "sub/strip.png", *FILES}
    assert after["plan.toml"] == (_SAMPLES / "tideline.toml").read_bytes()
    assert (after["notes.txt"], after["sub/strip.png"]) == (b"mine", b"mine too")
    assert after["plan.json"].startswith(b'{\n "format": 1,')


def test_the_card_is_short_unless_the_long_one_is_asked_for(folder, monkeypatch):
    monkeypatch.chdir(folder)
    assert main(["plan", "plan.toml", "--out", "short"]) == 0
    assert main(["plan", "plan.toml", "--out", "long", "--card", "long"]) == 0
    short, long = ((folder / name / "card.html").read_text("utf-8") for name in ("short", "long"))
    assert '<section class="keep">' in long
    assert '<section class="keep">' not in short
    with pytest.raises(SystemExit) as stopped:
        main(["plan", "plan.toml", "--out", "other", "--card", "tiny"])
    assert stopped.value.code == 2
    assert not (folder / "other").exists()


def test_where_figures_come_from_is_printed_where_that_is_asked_for(folder, monkeypatch, capsys):
    monkeypatch.chdir(folder)
    assert main(["plan", "plan.toml", "--out", "plain"]) == 0
    plain = capsys.readouterr().out
    assert main(["plan", "plan.toml", "--out", "asked", "--why"]) == 0
    summary, told = capsys.readouterr().out.split("\nWhy\n")
    assert "Where from: " not in plain
    assert plain.startswith(summary)
    assert "\n    wraps to the inch = 25.4 mm ÷ thickness " in told
    assert "Written to asked: " in told


@pytest.mark.thorough
@pytest.mark.parametrize("sample", sorted(_SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_every_sample_is_planned_without_a_warning(sample, tmp_path):
    done = run(tmp_path, "plan", str(sample), "--out", "out", python=("-W", "error"))
    assert (done.returncode, done.stderr) == (0, b"")


_PLAIN = {
    "PYTHONIOENCODING": "ascii",
    "PYTHONUTF8": "0",
    "PYTHONCOERCECLOCALE": "0",
    "LC_ALL": "C",
}


def test_names_of_any_script_are_planned_where_the_terminal_shows_ascii_alone(tmp_path):
    (tmp_path / "plan.toml").write_text(_SCRIPTS, "utf-8")
    done = run(tmp_path, "plan", "plan.toml", "--out", "out", **_PLAIN)
    assert (done.returncode, done.stderr) == (0, b"")
    assert r"\u03a6\u03cd\u03ba\u03b9" in done.stdout.decode("ascii")
    for name in ("plan.json", "weigh-out.csv", "strip.svg"):
        assert "海帶" in (tmp_path / "out" / name).read_text("utf-8")


def test_a_fault_is_told_where_the_terminal_shows_ascii_alone(tmp_path):
    (tmp_path / "plan.toml").write_text(_SCRIPTS.replace("#56612d", "grren"), "utf-8")
    done = run(tmp_path, "plan", "plan.toml", "--out", "out", **_PLAIN)
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.decode("ascii") == (
        r'plan.toml: lots 1 (\u03a6\u03cd\u03ba\u03b9): colour = "grren": give a colour in '
        'words, as "dark brick red" or "madder, pale"; or its code, # and 3 or 6 digits from 0 to '
        '9 and a to f; or lab in its place; did you mean "green"?\n'
    )
    assert os.listdir(tmp_path) == ["plan.toml"]


def test_a_fault_ends_the_process_with_status_2_and_no_traceback(tmp_path):
    done = run(tmp_path, "plan", "plan.toml", "--out", "out")
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr == b"plan.toml: there is no such file\n"


def test_a_reader_who_stops_early_is_no_error(folder):
    (folder / "plan.toml").write_text(_SCRIPTS, "utf-8")
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        [sys.executable, "-m", "yarncolor", "plan", "plan.toml", "--out", "out"],
        cwd=folder,
        env={**os.environ, "PYTHONUNBUFFERED": ""},
        stdout=writing,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")
    assert set(os.listdir(folder / "out")) == set(FILES)


@pytest.mark.parametrize(
    ("out", "in_the_way"), [("plan.toml", "plan.toml"), ("plan.toml/deep/er", "plan.toml")]
)
def test_a_file_in_the_place_of_the_folder_is_told(out, in_the_way, folder, capsys, monkeypatch):
    monkeypatch.chdir(folder)
    assert main(["plan", "plan.toml", "--out", out]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err == f"{in_the_way}: is not a folder; choose another folder\n"
    assert contents(folder).keys() == {"plan.toml"}


def test_a_folder_in_the_place_of_a_file_is_told_and_nothing_is_written(
    folder, capsys, monkeypatch
):
    monkeypatch.chdir(folder)
    (folder / "out/strip.svg").mkdir(parents=True)
    assert main(["plan", "plan.toml", "--out", "out"]) == 2
    assert capsys.readouterr().err == (
        "out/strip.svg: cannot write here: a folder of that name is in the way; "
        "choose another folder\n"
    )
    assert os.listdir(folder / "out") == ["strip.svg"]


def test_a_folder_that_may_not_be_written_is_told(folder, capsys, monkeypatch):
    def refuse(*_, **__):
        raise PermissionError(13, "Permission denied", "out")

    monkeypatch.chdir(folder)
    monkeypatch.setattr("tempfile.mkstemp", refuse)
    assert main(["plan", "plan.toml", "--out", "out"]) == 2
    assert capsys.readouterr().err == (
        "out: cannot write here: permission denied; choose another folder\n"
    )
    assert os.listdir(folder) == ["plan.toml"]


@pytest.mark.parametrize("arguments", [[], ["plan"], ["plan", "plan.toml"], ["knit", "x"]])
def test_wrong_usage_is_status_2_and_says_the_usage(arguments, capsys):
    with pytest.raises(SystemExit) as stopped:
        main(arguments)
    assert stopped.value.code == 2
    assert capsys.readouterr().err.startswith("usage: yarncolor ")


def test_the_version_is_that_of_the_package(capsys):
    with pytest.raises(SystemExit) as stopped:
        main(["--version"])
    assert stopped.value.code == 0
    assert capsys.readouterr().out == f"yarncolor {yarncolor.__version__}\n"


def test_the_console_script_is_the_same_command():
    (script,) = entry_points(group="console_scripts", name="yarncolor")
    assert script.load() is main


def _taken_home(folder: Path) -> str:
    """Put what a phone took home of the plan in a folder beside it, and return the text."""
    with (folder / "plan.toml").open("rb") as stream:
        text = text_of(tomllib.load(stream), spun(1, "through = 2"), spun(2, "row = 1"))
    (folder / "home.txt").write_text(text, "utf-8")
    return text


def test_what_the_phone_took_home_is_brought_into_a_new_plan_file(folder, capsys, monkeypatch):
    monkeypatch.chdir(folder)
    _taken_home(folder)
    given = ["plan", "plan.toml", "--out", "out", "--wheel", "home.txt", "--save", "new.toml"]
    assert main(given) == 0
    assert capsys.readouterr().out.splitlines()[-2:] == [
        "Brought home: 3 pieces spun.",
        "Saved as new.toml",
    ]
    said = [(each.ply, each.row, each.through) for each in yarncolor.read_plan("new.toml").spun]
    assert said == [(1, None, 2), (2, 1, None)]
    before, after = (Path(name).read_text("utf-8") for name in ("plan.toml", "new.toml"))
    assert after.startswith(before.rstrip())


def test_what_was_cut_off_on_the_way_is_told_and_nothing_is_written(folder, capsys, monkeypatch):
    monkeypatch.chdir(folder)
    (folder / "home.txt").write_text(_taken_home(folder)[:-60], "utf-8")
    before = contents(folder)
    given = ["plan", "plan.toml", "--out", "out", "--wheel", "home.txt", "--save", "new.toml"]
    assert main(given) == 2
    assert capsys.readouterr().err.startswith("home.txt: is cut off: 2 tables were taken home")
    assert contents(folder) == before


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (("--wheel", "home.txt"), "--wheel and --save: go together"),
        (("--save", "new.toml"), "--wheel and --save: go together"),
        (("--wheel", "none.txt", "--save", "new.toml"), "none.txt: there is no such file"),
        (("--wheel", "home.txt", "--save", "taken.toml"), "there is a file of that name already"),
    ],
)
def test_bringing_home_without_what_it_needs_writes_nothing(folder, given, words):
    _taken_home(folder)
    (folder / "taken.toml").write_text("mine")
    before = contents(folder)
    done = run(folder, "plan", "plan.toml", "--out", "out", *given)
    assert done.returncode == 2
    assert words in done.stderr.decode()
    assert b"Traceback" not in done.stderr
    assert contents(folder) == before


def test_a_plan_file_may_take_what_was_brought_home_itself(folder, monkeypatch):
    monkeypatch.chdir(folder)
    _taken_home(folder)
    given = ["plan", "plan.toml", "--out", "out", "--wheel", "home.txt", "--save", "plan.toml"]
    assert main(given) == main(given) == 0
    assert len(yarncolor.read_plan("plan.toml").spun) == 2


def test_a_file_that_cannot_be_made_is_named_and_the_exit_status_says_so(
    monkeypatch, tmp_path, capsys
):
    def fails(_):
        raise IndexError("string index out of range")

    monkeypatch.setitem(exports._FILES, "swatch.pdf", fails)
    assert main(["plan", str(_SAMPLES / "tideline.toml"), "--out", str(tmp_path)]) == 2
    told = capsys.readouterr()
    assert told.err.splitlines() == [
        "swatch.pdf: could not be made, by a fault of this program "
        "(IndexError: string index out of range)"
    ]
    assert "Written to" in told.out
    assert "swatch.pdf" not in told.out
    assert {path.name for path in tmp_path.iterdir()} == {*FILES} - {"swatch.pdf"}
