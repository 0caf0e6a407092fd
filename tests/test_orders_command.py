"""The command that looks for the best order: what it writes, says, takes and refuses."""

import csv
import io
import json
import tomllib
from itertools import pairwise
from pathlib import Path

import pytest
from PIL import Image

import yarncolor as yc
from yarncolor.__main__ import main

PLAN = """\
# dyed in May
title = "Which"
[[lots]]
name = "Kelp"
colour = "#56612d"
mass_g = 30.0   # nine rolags
[[lots]]
name = "=Foam"
colour = "#dcdad0"
mass_g = 25.0
[[lots]]
name = "Rust"
colour = "#a04020"
mass_g = 20.0
[[lots]]
name = "砂丘"
colour = "#c9b48a"
mass_g = 35.0
[scheme]
name = "fractal"
plies = 2
parts = [1, 1, 1, 1]  # each its own
"""


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    """Return the working folder with a plan in it."""
    (tmp_path / "which.toml").write_text(PLAN, "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_it_writes_numbers_table_and_picture_and_says_what_is_best(folder, capsys):
    assert main(["orders", "which.toml", "--out", "found"]) == 0
    names = sorted(path.name for path in (folder / "found").iterdir())
    assert names == ["orders.csv", "orders.json", "orders.png"]
    told = capsys.readouterr().out
    assert told.startswith("Which\nLooked for: soft changes along each ply (1); even:")
    assert "All 12 orders that are allowed were valued, one of each and its reverse" in told
    found = json.loads((folder / "found/orders.json").read_text("utf-8"))
    assert found["exact"] is True
    assert found["tried"] == 12
    assert found["now"]["sequence"] == ["Kelp", "=Foam", "Rust", "砂丘"]
    assert found["now"]["allowed"] is True
    scores = [one["score"] for one in found["best"]]
    assert scores == sorted(scores)
    assert 0 <= scores[0] <= found["now"]["score"] <= 1
    assert set(found["range"]) == {"smooth", "even"} == set(found["best"][0]["values"])
    for one, other in pairwise(found["front"]):
        assert one["values"]["smooth"] != other["values"]["smooth"]
    rows = list(csv.reader(io.StringIO((folder / "found/orders.csv").read_text("utf-8"))))
    assert rows[0][:4] == ["which", "score", "smooth", "even"]
    assert rows[1][-4:] == ["Kelp", "'=Foam", "Rust", "砂丘"]
    assert len(rows) == 2 + len(found["best"]) + len(found["front"])
    with Image.open(folder / "found/orders.png") as picture:
        assert picture.info["Title"] == "Which"
        assert picture.info["Description"].startswith("Today: Kelp, =Foam, Rust, 砂丘. Best: 1:")


def test_the_same_plan_gives_the_same_bytes(folder):
    for out in ("one", "two"):
        assert main(["orders", "which.toml", "--out", out]) == 0
    for name in ("orders.json", "orders.csv", "orders.png"):
        assert (folder / "one" / name).read_bytes() == (folder / "two" / name).read_bytes()


def test_an_order_is_taken_and_comments_stay(folder, capsys):
    given = ["orders", "which.toml", "--out", "found", "--take", "2", "--save", "taken.toml"]
    assert main(given) == 0
    told = capsys.readouterr().out
    assert "The plan is saved to taken.toml." in told
    text = (folder / "taken.toml").read_text("utf-8")
    assert "# dyed in May" in text
    assert "# nine rolags" in text
    best = json.loads((folder / "found/orders.json").read_text("utf-8"))["best"]
    assert tomllib.loads(text)["scheme"]["sequence"] == best[1]["sequence"]
    found = yc.orders.search(yc.read_plan("taken.toml"))
    assert found.now.score == pytest.approx(best[1]["score"])


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (["--take", "1"], "--save: is missing; give the file that the plan goes to"),
        (["--save", "x.toml"], "--take: is missing; give which of the best orders, from 1"),
        (["--take", "9", "--save", "x.toml"], '--take = "9": give one of 1 to '),
        (["--take", "best", "--save", "x.toml"], '--take = "best": give the number of an order'),
    ],
)
def test_what_cannot_be_taken_is_told_and_nothing_is_written(given, says, folder, capsys):
    assert main(["orders", "which.toml", "--out", "found", *given]) == 2
    assert says in capsys.readouterr().err
    assert [path.name for path in folder.iterdir()] == ["which.toml"]


def test_every_fault_is_told_at_once(folder, capsys):
    tables = '[orders]\nneighbours = [["Kelp", "Rust"], ["Rust", "砂丘"], ["Kelp", "砂丘"]]\n'
    (folder / "which.toml").write_text(PLAN + tables, "utf-8")
    assert main(["orders", "which.toml", "--out", "found", "--take", "1"]) == 2
    told = capsys.readouterr().err.splitlines()
    assert told == [
        "which.toml: orders: no order obeys all that is asked; ask for less",
        "--save: is missing; give the file that the plan goes to",
    ]


def test_a_scheme_without_an_order_is_refused(folder, capsys):
    free = '[scheme]\nname = "free"\nportions = [{ ply = 1, lot = "Kelp", mass_g = 3.0 }]\n'
    (folder / "which.toml").write_text(PLAN.partition("[scheme]")[0] + free, "utf-8")
    assert main(["orders", "which.toml", "--out", "found"]) == 2
    assert capsys.readouterr().err.startswith("which.toml: scheme: has no order of lots;")


def test_what_was_spun_does_not_count(folder):
    spun = "[[spun]]\nply = 1\nthrough = 2\n"
    (folder / "spun.toml").write_text(PLAN + spun, "utf-8")
    plain = yc.orders.numbers(yc.orders.search(yc.read_plan("which.toml")))
    assert yc.orders.numbers(yc.orders.search(yc.read_plan("spun.toml"))) == plain


def test_a_notebook_shows_them(folder):
    plan = yc.orders.asked(yc.read_plan("which.toml"), aims={"lively": 2.0, "matched": 1.0})
    found = yc.orders.search(plan)
    assert "a lively yarn" in str(yc.orders.choices(found))
    assert yc.orders.picture(found).alt.startswith("Today: Kelp")
    assert yc.orders.trade_off(found, "lively", "matched").width_px == 1000
    assert yc.orders.summary(found).count("points") == 1 + len(found.best)
    assert "no near-twins" in str(yc.orders.aims())
    assert yc.orders.taken(plan, found.best[0]).scheme.sequence == found.best[0].names
    with pytest.raises(yc.PlanError, match="unknown key"):
        yc.orders.asked(plan, aims={"pretty": 1})
