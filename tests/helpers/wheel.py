"""The wheel, built from a copy of the sources."""

import shutil
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

from tests.helpers.paths import ROOT

PARTS = ("yarncolor", "notebooks", "sample_data")
_FILES = ("pyproject.toml", "setup.py", "README.md", "LICENSE")


def built_wheel(folder: Path) -> Path:
    """Return where a wheel was built in a folder, without the network where that can be."""
    source = folder / "source"
    source.mkdir()
    for name in _FILES:
        shutil.copy(ROOT / name, source / name)
    for name in PARTS:
        ignored = shutil.ignore_patterns("__pycache__", "out", ".*")
        shutil.copytree(ROOT / name, source / name, ignore=ignored)
    has_builder = int(version("setuptools").split(".")[0]) >= 77
    isolated = ["--no-build-isolation"] if has_builder else []
    options = ["--no-deps", *isolated, "-w", str(folder), str(source)]
    built = subprocess.run(
        [sys.executable, "-m", "pip", "wheel", *options],
        capture_output=True,
        text=True,
        check=False,
    )
    assert built.returncode == 0, built.stderr
    (wheel,) = folder.glob("*.whl")
    return wheel


def held_by_a_wheel() -> set[str]:
    """Return what a wheel has to hold beside what it says of itself."""
    package = {
        path.relative_to(ROOT).as_posix()
        for path in (ROOT / "yarncolor").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    kinds = ("notebooks/*.ipynb", "sample_data/*.toml")
    beside = {path.relative_to(ROOT) for kind in kinds for path in ROOT.glob(kind)}
    return package | {f"yarncolor/{path.as_posix()}" for path in beside}
