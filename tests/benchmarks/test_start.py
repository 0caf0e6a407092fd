"""Starting: what `import yarncolor` adds to numpy, and a whole plan on the command line."""

import subprocess
import sys

import pytest

from tests.helpers.paths import TIDELINE

PROGRAMS = {"ours": "import numpy, yarncolor", "numpy alone": "import numpy"}


def python(*arguments: str) -> int:
    done = subprocess.run([sys.executable, *arguments], check=False, stdout=subprocess.DEVNULL)
    return done.returncode


@pytest.mark.parametrize(("against", "program"), PROGRAMS.items(), ids=PROGRAMS)
def test_a_process_that_imports(benchmark, against, program):
    benchmark.group = "a process that imports yarncolor"
    benchmark.extra_info["against"] = against
    assert benchmark.pedantic(python, ("-c", program), rounds=9) == 0


@pytest.mark.parametrize("against", ["ours", "importing colour-science alone"])
def test_a_plan_on_the_command_line(benchmark, against, tmp_path):
    benchmark.group = "a plan on the command line"
    benchmark.extra_info["against"] = against
    plan = ("-m", "yarncolor", "plan", str(TIDELINE), "--out", str(tmp_path / "out"))
    arguments = plan if against == "ours" else ("-c", "import colour")
    assert benchmark.pedantic(python, arguments, rounds=5) == 0
    assert (tmp_path / "out" / "strip.png").exists() == (against == "ours")
