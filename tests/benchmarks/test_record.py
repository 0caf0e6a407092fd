"""The record of twenty yarns on the command line, against importing colour-science alone."""

import subprocess
import sys

import numpy as np
import pytest
from PIL import Image

from tests.helpers.paths import TIDELINE

YARNS = 20
PHOTO_PX = (2400, 1800)


def python(*arguments: str) -> int:
    done = subprocess.run([sys.executable, *arguments], check=False, stdout=subprocess.DEVNULL)
    return done.returncode


@pytest.fixture(scope="module")
def plans(tmp_path_factory) -> list[str]:
    """Return plan files of yarns that were made, every one with a photograph beside it."""
    folder = tmp_path_factory.mktemp("yarns")
    wide, high = PHOTO_PX
    pixels = np.random.default_rng(0).integers(0, 255, (high // 8, wide // 8, 3), np.uint8)
    Image.fromarray(pixels).resize(PHOTO_PX).save(folder / "yarn.jpg")
    text = TIDELINE.read_text(encoding="utf-8")
    made = '\n[made]\nlength_m = {}.0\nmass_g = 181.0\npicture = "yarn.jpg"\n'
    for number in range(YARNS):
        named = text.replace("Tideline", f"Tide {number}") + made.format(500 + number)
        (folder / f"tide_{number}.toml").write_text(named, encoding="utf-8")
    return [str(folder / f"tide_{number}.toml") for number in range(YARNS)]


@pytest.mark.parametrize("against", ["ours", "importing colour-science alone"])
def test_a_record_of_twenty_yarns(benchmark, against, plans, tmp_path):
    benchmark.group = "a record of twenty yarns on the command line"
    benchmark.extra_info["against"] = against
    record = ("-m", "yarncolor", "record", *plans, "--out", str(tmp_path / "out"))
    arguments = record if against == "ours" else ("-c", "import colour")
    assert benchmark.pedantic(python, arguments, rounds=3) == 0
    assert (tmp_path / "out" / "record.json").exists() == (against == "ours")
