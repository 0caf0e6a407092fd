"""The command that goes on from what lies on the bobbins: what it writes, says and refuses."""

import json
import tomllib
from pathlib import Path

import pytest

from yarncolor.__main__ import main

LOTS = """\
# dyed in May
title = "Late"
[[lots]]
name = "Kelp"
colour = "#56612d"
mass_g = 30.0   # nine rolags
[[lots]]
name = "Foam"
colour = "#dcdad0"
mass_g = 30.0
[[lots]]
name = "Rust"
colour = "#a04020"
mass_g = 30.0
[[lots]]
name = "Dune"
colour = "#c9b48a"
mass_g = 30.0
[scheme]
plies = 2
"""
SPUN = """\
# at the wheel
[[spun]]
ply = 1
through = 2
[[spun]]
ply = 1
row = 3
mass_g = 17.0   # too heavy a hand
[[spun]]
ply = 2
through = 4
"""


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    """Return the working folder, with a plan of which something is spun and one of which not."""
    (tmp_path / "late.toml").write_text(LOTS + SPUN)
    (tmp_path / "fresh.toml").write_text(LOTS)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_it_writes_numbers_picture_and_card_and_says_what_is_best(folder, capsys):
    assert main(["replan", "late.toml", "--out", "on"]) == 0
    assert sorted(path.name for path in (folder / "on").iterdir()) == [
        "replan.json",
        "replan.png",
        "rescues.png",
        "to-spin.html",
    ]
    told = capsys.readouterr().out
    assert told.startswith("Late\nIt matters: straight from the bobbin, what was spun last comes")
    assert "Best: put the next rows right." in told
    assert "row 4 takes 13.0 g of Dune, not 15.0 g" in told
    found = json.loads((folder / "on/replan.json").read_text())
    assert found["recommended"] == "in_step"
    kinds = [one["kind"] for one in found["rescues"]]
    assert kinds == ["fold", "halves", "both_ends", "chain", "keep"]
    stands = "As it is now, ply 2 runs out first, after about 600 m of yarn."
    assert f"{stands} Left then: about 20 m of ply 1." in told
    assert found["choices"][0]["name"] == "carry_on"
    (choice,) = [choice for choice in found["choices"] if choice["name"] == "in_step"]
    assert choice["rows"] == [{"ply": 1, "row": 4, "lot": "Dune", "mass_g": 13.0, "weigh_g": 13.0}]
    assert choice["factors"] == [pytest.approx(13 / 15), None]
    assert choice["more_g"] == [{"lot": "Dune", "mass_g": pytest.approx(-2.0)}]


def test_two_runs_write_the_same_bytes(folder):
    for out in "ab":
        assert main(["replan", "late.toml", "--out", out]) == 0
    for name in ("replan.json", "replan.png", "to-spin.html"):
        assert (folder / "a" / name).read_bytes() == (folder / "b" / name).read_bytes()


def test_the_plan_of_a_choice_keeps_the_comments_and_adds_what_was_decided(folder, capsys):
    arguments = ["replan", "late.toml", "--out", "on", "--take", "in_step", "--save", "new.toml"]
    assert main(arguments) == 0
    text = (folder / "new.toml").read_text()
    assert text == LOTS + SPUN + "\n[[to_spin]]\nply = 1\nrow = 4\nmass_g = 13.0\n"
    assert "The plan is saved to new.toml." in capsys.readouterr().out
    assert main(["plan", "new.toml", "--out", "plan"]) == 0
    found = json.loads((folder / "plan/plan.json").read_text())
    (row,) = [row for row in found["singles"][0]["portions"] if row["state"] == "to_spin"]
    assert (row["row"], row["mass_g"], row["weigh_g"]) == (4, 13.0, 13.0)
    assert row["planned_mass_g"] == 15.0


def test_the_plan_can_go_back_into_its_own_file(folder):
    arguments = ["replan", "late.toml", "--out", "on", "--take", "in_step", "--save", "late.toml"]
    assert main(arguments) == 0
    assert "to_spin" in tomllib.loads((folder / "late.toml").read_text())


SAVE = ("--save", "new.toml")


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (
            ("fresh.toml",),
            "fresh.toml: spun: is missing; say what lies on the bobbins, in [[spun]] tables\n",
        ),
        (
            ("late.toml", "--take", "instep", *SAVE),
            '--take = "instep": is none of the choices; give one of carry_on, in_step, run_out; '
            'did you mean "in_step"?\n',
        ),
        (
            ("late.toml", "--take", "follow", *SAVE),
            '--take = "follow": changes nothing here; give one of carry_on, in_step, run_out\n',
        ),
        (
            ("late.toml", "--take", "in_step"),
            "--save: is missing; give the file that the plan goes to\n",
        ),
        (
            ("late.toml", "--save", "new.toml"),
            "--take: is missing; give the name of a choice\n",
        ),
        (
            ("late.toml", "--take", "in_step", "--save", "fresh.toml"),
            "fresh.toml: there is a file of that name already; choose another\n",
        ),
        (
            ("late.toml", "--take", "nothing", "--save", "fresh.toml"),
            "fresh.toml: there is a file of that name already; choose another\n"
            '--take = "nothing": is none of the choices; give one of carry_on, in_step, run_out\n',
        ),
    ],
)
def test_faults_are_told_one_a_line_and_nothing_is_written(folder, capsys, arguments, told):
    before = sorted(path.name for path in folder.iterdir())
    assert main(["replan", *arguments, "--out", "on"]) == 2
    assert capsys.readouterr().err == told
    assert sorted(path.name for path in folder.iterdir()) == before


def test_a_choice_for_which_there_is_no_fibre_says_what_is_missing(folder, capsys):
    text = LOTS + '[[spun]]\nply = 1\nrow = 1\nmass_g = 9.0\n[[lost]]\nlot = "Kelp"\nmass_g = 5.0\n'
    (folder / "short.toml").write_text(text)
    arguments = ["replan", "short.toml", "--out", "on", "--take", "make_up", *SAVE]
    assert main(arguments) == 2
    told = '--take = "make_up": not possible: 5.0 g of Kelp more than there is\n'
    assert capsys.readouterr().err == told


def test_where_the_plan_cannot_be_saved_nothing_is_written(folder, capsys):
    (folder / "blocked").write_text("a file")
    arguments = ["--take", "in_step", "--save", "blocked/new.toml"]
    assert main(["replan", "late.toml", "--out", "on", *arguments]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
    assert not (folder / "on/replan.json").exists()
