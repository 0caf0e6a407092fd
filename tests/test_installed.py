"""Installed, not checked out: a wheel in an environment of its own, used in an empty folder."""

import os
import re
import subprocess
import sys
import sysconfig
import urllib.request
import zipfile
from pathlib import Path

import pytest

from tests.helpers.browser import free_port
from tests.helpers.page_server import wait_for
from tests.helpers.paths import SAMPLES
from tests.helpers.sources import NOTEBOOKS
from tests.helpers.wheel import built_wheel, held_by_a_wheel

STASH = '[[lots]]\nname = "Kelp"\ncolour = "#56612d"\nmass_g = 27.0\n'


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> Path:
    return built_wheel(tmp_path_factory.mktemp("wheel"))


def test_the_wheel_holds_the_package_the_notebooks_their_plans_and_nothing_else(wheel):
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
        (entry_points,) = (name for name in names if name.endswith("entry_points.txt"))
        commands = archive.read(entry_points).decode()
    assert {name for name in names if ".dist-info/" not in name} == held_by_a_wheel()
    assert "yarncolor = yarncolor.__main__:main" in commands


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory) -> Path:
    """Return the command of an environment with the wheel, which borrows what it depends on."""
    home = tmp_path_factory.mktemp("home") / "own"
    made = [sys.executable, "-m", "venv", "--without-pip", str(home)]
    subprocess.run(made, check=True)
    names = {"base": str(home), "platbase": str(home)}
    packages = Path(sysconfig.get_path("purelib", "venv", names))
    commands = Path(sysconfig.get_path("scripts", "venv", names))
    pip = [sys.executable, "-m", "pip", "--python", str(commands / "python")]
    subprocess.run([*pip, "install", "--quiet", "--no-deps", "--no-index", wheel], check=True)
    (packages / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n", "utf-8")
    return commands / "yarncolor"


def environment() -> dict[str, str]:
    """Return what a server needs to find what is borrowed, and nothing of the checkout."""
    kept = {name: word for name, word in os.environ.items() if name != "PYTHONPATH"}
    return {**kept, "JUPYTER_PATH": str(Path(sys.prefix, "share", "jupyter"))}


def run(folder: Path, *command: object) -> str:
    """Return what a command says in a folder; it has to succeed and complain of nothing."""
    done = subprocess.run(
        [*map(str, command)],
        cwd=folder,
        env=environment(),
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout


def test_a_plan_is_made_in_an_empty_folder(installed, tmp_path):
    (tmp_path / "stash.toml").write_text(STASH, "utf-8")
    where = run(tmp_path, installed.parent / "python", "-c", "import yarncolor as y; print(y)")
    assert str(installed.parents[1]) in where
    told = run(tmp_path, installed, "plan", "stash.toml", "--out", "out").splitlines()
    written = {path.name for path in (tmp_path / "out").iterdir()}
    assert written >= {"plan.json", "card.html", "wheel.html", "strip.png", "swatch.pdf"}
    assert told[-1].startswith("Written to out: plan.json, ")


def test_notebooks_and_their_plans_are_handed_out(installed, tmp_path):
    run(tmp_path, installed, "notebooks", "mine")
    copied = {path.name for path in tmp_path.glob("mine/*/*")}
    assert copied == {path.name for path in (*NOTEBOOKS, *SAMPLES)}


@pytest.mark.thorough
@pytest.mark.parametrize("named", [[], ["stash.toml"]], ids=["none", "a plan"])
def test_the_bench_is_served_from_an_empty_folder(named, installed, tmp_path):
    (tmp_path / "stash.toml").write_text(STASH, "utf-8")
    options = ["--no-browser", f"--port={free_port()}"]
    server = subprocess.Popen(
        [installed, "bench", *named, *options],
        cwd=tmp_path,
        env=environment(),
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        address = re.search(r"http://\S+", server.stdout.readline())[0]
        wait_for(address.partition("?")[0].rstrip("/"), "voila/static/favicon.ico")
        page = urllib.request.urlopen(address, timeout=60).read().decode()  # noqa: S310
        assert "<title>yarncolor</title>" in page
        assert "jupyter.widget-view+json" in page
    finally:
        server.terminate()
        assert server.wait(timeout=60) == 0
