"""Guards that keep the house as it is planned: light, small, named, in its rooms, complete."""

import ast
import re
import statistics
import subprocess
import sys
import tomllib
from importlib.util import find_spec
from pathlib import Path

import pytest

from tests.helpers.paths import ROOT
from tests.helpers.sources import (
    MODULES,
    PACKAGE,
    arguments_of,
    lines_of_bodies,
    public_things,
    quiet_tests,
    tree,
)

HEAVY = ("colour", "matplotlib.pyplot", "ipywidgets", "scipy", "pydantic", "PIL")

UNIT = re.compile(r"(^|_| )(g|m|mm|cm|cm2|px|pt|cpd|tex|tpm|tpi|wpi|rpm|deg|ms|s|h)$|_per_\w+$")
PURE_NUMBERS = {
    *(
        "as_planned",
        "within",
        "as_planned_by_grist",
        "bowl",
        "card_loss",
        "spin_loss",
        "contraction",
        "share",
        "shares",
        "matched",
        "target_ratio",
        "longest_run_ratio",
    ),
    *("rolags", "stagger_places", "parts", "division", "divisions"),  # counts and proportions
    *("drafted", "recipe"),  # parts
    *("times", "start_at", "places"),  # the same of one ply
    *("turns", "turn", "spin_loss_found"),  # counts, a share
    *("bumps", "shorter"),  # a count, a share of length
    *("hours_spinning", "hours_plying"),  # keys of a plan file
    "of",  # what reckons a formula
    "size",  # of a unit, in the unit of what is measured
    *("lab", "low", "high", "least", "step"),  # a colour; bounds in the unit of what they bound
    *("exhaustion", "severity", "blend", "m", "s", "constant"),  # shares, parts, model constants
    *("ciede2000", "hyab"),  # differences of colour, which have no unit
    *("mottle", "aspect", "growth", "darkening"),  # shares, a ratio, stitches
    *("unsure", "colour_unsure", "spread", "apart"),  # CIEDE2000
    *("left", "top", "width", "height", "corners", "place"),  # shares of a picture
    *("exposure", "falls_off", "noise", "falls_by", "left_over", "middle"),  # shares of light
    *("light", "fitted", "seen", "reflects"),  # shares of light
    *("beside", "count", "phase"),  # names with pixels, a number of things, turns
    *(
        "value",
        "bound",
        "one",
        "other",
        "chart",
        "planned",
        "spun",
        "made",
        "told",
        "found",
        "difference",
    ),  # in the unit of what they belong to
    *("gauge", "gauge_stitches", "gauge_rows", "stitches"),  # counted, in 10 cm or in all
    *("ks", "tightness", "stiffness_ratio", "factor", "drive_ratio"),  # constants of a formula
    *("twists", "finishing_ratio", "band", "excess"),  # pairs and shares
    *("loud_share",),  # a share of length
    *("finishing_shrinkage", "resting_shrinkage", "single_length", "yarn_length"),  # shares
    *("regain", "content", "regain_before", "regain_after", "variation"),  # shares of mass
    *("variation_within", "variation_bobbins", "variation_drift", "drift"),  # CVs; correlations
    *("smooth", "quiet", "lively", "even", "marled", "no_twins"),  # weights of aims
    *("effort", "score", "values", "weights", "least_smooth"),  # edges; a share; values of aims
    *("dpi",),  # dots to the inch
    *("x", "y"),  # places on a picture, as SVG calls them
}


def python(*arguments: str, **more) -> subprocess.CompletedProcess:
    """Return what a fresh Python says to arguments."""
    return subprocess.run(
        [sys.executable, *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        **more,
    )


def test_the_package_is_where_these_tests_look():
    assert len(MODULES) >= 30
    assert {path.stem for path in MODULES} >= {"answer", "science", "stretches", "strip"}


@pytest.mark.parametrize(
    "program",
    ["import yarncolor", "import yarncolor.__main__", "import yarncolor; dir(yarncolor)"],
)
def test_importing_the_package_is_light(program):
    asked = f"import sys; {program}; print([name for name in {HEAVY} if name in sys.modules])"
    done = python("-c", asked)
    assert (done.stdout, done.stderr) == ("[]\n", "")


def test_the_heavy_libraries_are_there_to_be_loaded():
    assert all(find_spec(name) for name in HEAVY)


# Keys of a plan file, and of messages as a page reads them.
KEYS_OF_OTHERS = ("planfile.schema", "widgets.protocol.")


def test_numbers_say_their_unit_in_their_name():
    numbers = {
        f"{name}: {argument}"
        for name, thing in public_things()
        for argument, annotation in arguments_of(thing)
        if re.search(r"\bfloat\b", annotation) and not name.startswith(KEYS_OF_OTHERS)
    }
    assert len(numbers) >= 30
    bare = {name for name in numbers if not UNIT.search(name)}
    assert {name for name in bare if name.split(": ")[1] not in PURE_NUMBERS} == set()


def test_no_pure_number_is_listed_in_vain():
    used = {argument for _, thing in public_things() for argument, _ in arguments_of(thing)}
    inside = {
        node.arg for path in MODULES for node in ast.walk(tree(path)) if isinstance(node, ast.arg)
    }
    assert PURE_NUMBERS - used - inside == set()


def test_no_module_is_longer_than_four_hundred_lines():
    modules = [*MODULES, *PACKAGE.rglob("*.js")]
    lines = {str(path): len(path.read_text(encoding="utf-8").splitlines()) for path in modules}
    assert {name: count for name, count in lines.items() if count > 400} == {}


def test_no_function_body_is_longer_than_fifty_lines():
    bodies = lines_of_bodies()
    assert len(bodies) >= 200
    assert {name: lines for name, lines in bodies.items() if lines > 50} == {}


def test_most_function_bodies_are_read_at_a_glance():
    lines = sorted(lines_of_bodies().values())
    assert statistics.median(lines) <= 5
    assert statistics.quantiles(lines, n=10)[-1] <= 15


def test_tests_share_only_what_stands_in_helpers():
    """A folder of tests may have helpers of its own; no test module is imported by another."""
    shared = {
        f"{path.relative_to(ROOT)}: {node.module}"
        for path in (ROOT / "tests").rglob("*.py")
        for node in ast.walk(tree(path))
        if isinstance(node, ast.ImportFrom) and node.module
        if node.module.startswith("tests.") and ".test_" in node.module
    }
    assert shared == set()


OUTSIDE = re.compile(
    r"\b(the|file's) contract\b|_the_contract|\b(reference|textile|colour) sheet\b|Sheet, section"
    r"|\b(of|as|in|what|for|as in) the sheet\b|\bthe sheet's (value|table|is)\b|_the_sheet_s_"
)
"""Words for papers that do not stand in this repository and were never published."""


def test_nothing_rests_on_a_paper_that_is_not_here():
    """A test names what was published, or what stands in this repository."""
    texts = [*(ROOT / "tests").rglob("*.py"), *(ROOT / "tests").rglob("*.toml"), *MODULES]
    found = {
        f"{path.relative_to(ROOT)}:{number}: {line.strip()}"
        for path in texts
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if OUTSIDE.search(line) and path != Path(__file__)
    }
    settings = (ROOT / "pyproject.toml").read_text(encoding="utf-8").split("[tool.importlinter]")[0]
    assert found == set()
    assert OUTSIDE.search(settings) is None


def test_what_never_calls_the_program_is_marked():
    """Of what was published or derived: a check of the oracle says that it is one."""
    quiet = {
        f"{path.stem}: {name}"
        for folder in ("published", "derived")
        for path in (ROOT / "tests" / folder).glob("test_*.py")
        for name in quiet_tests(path)
    }
    assert quiet == set()


def test_imports_point_down_and_the_borders_hold():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    contracts = settings["tool"]["importlinter"]["contracts"]
    command = "from importlinter.cli import lint_imports_command as lint; lint()"
    done = python("-c", command, "--no-cache", "--no-logo", cwd=ROOT)
    assert done.returncode == 0, done.stdout
    assert f"Contracts: {len(contracts)} kept, 0 broken." in done.stdout
    assert len(contracts) >= 4
