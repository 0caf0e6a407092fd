"""Guards that keep the house as it is planned: light, small, named, documented, complete."""

import ast
import inspect
import json
import re
import shutil
import subprocess
import sys
import tomllib
import zipfile
from collections.abc import Iterator
from importlib.metadata import version
from importlib.util import find_spec
from pathlib import Path

import pytest

import yarncolor
from tests.helpers.paths import ROOT

MODULES = sorted((ROOT / "yarncolor").rglob("*.py"))
NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
NAMESPACES = ("bench", "colour", "draw", "photo", "show", "yarn")
PUBLIC = [
    *(name for name in yarncolor.__all__ if name not in NAMESPACES),
    *(f"{name}.{each}" for name in NAMESPACES for each in getattr(yarncolor, name).__all__),
]
HEAVY = ("colour", "matplotlib.pyplot", "ipywidgets", "scipy", "pydantic", "PIL")

UNIT = re.compile(r"(^|_| )(g|m|mm|cm|cm2|px|cpd|tex|tpm|tpi|wpi|rpm|deg|ms|s|h)$|_per_\w+$")
PURE_NUMBERS = {
    *(
        "bowl",
        "card_loss",
        "spin_loss",
        "contraction",
        "share",
        "shares",
        "matched",
        "wanted",
        "longest_run_ratio",
    ),
    *("rolags", "stagger_places", "parts", "division", "divisions"),  # counts and proportions
    *("lab", "low", "high", "least"),  # a colour; bounds in the unit of what they bound
    *("exhaustion", "severity", "blend", "m", "s", "constant"),  # shares, parts, model constants
    *("ciede2000", "hyab"),  # differences of colour, which have no unit
    *("mottle", "aspect", "picks", "growth"),  # shares, a ratio, threads in a millimetre
    *("unsure", "colour_unsure", "by_grey_mean", "fit_mean"),  # CIEDE2000
    *("left_out_max", "left_out_mean", "spread"),  # CIEDE2000
    *("left", "top", "width", "height", "corners", "place"),  # shares of a picture
    *("exposure", "falls_off", "noise", "falls_by", "left_over", "middle"),  # shares of light
    *("beside", "count", "phase"),  # names with pixels, a number of things, turns
    *("bounds", "value", "one", "other", "chart"),  # in the unit of what they belong to
    *("gauge", "gauge_stitches", "gauge_rows", "stitches"),  # counted, in 10 cm or in all
    *("ks", "tightness", "stiffness_ratio", "factor", "drive_ratio"),  # constants of a formula
    *("twists", "plied", "by_model", "kept_in_finishing", "band", "excess"),  # pairs and shares
    *("loud_share",),  # a share of length
    *("finishing_shrinkage", "resting_shrinkage", "single_length", "yarn_length"),  # shares
    *("regain", "content", "regain_before", "regain_after", "variation"),  # shares of mass
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


def tree(module: Path) -> ast.Module:
    return ast.parse(module.read_text(encoding="utf-8"))


def public_things() -> Iterator[tuple[str, ast.AST]]:
    """Return every public function, method and class of the package, with its full name."""
    for module in MODULES:
        for node in tree(module).body:
            inside = node.body if isinstance(node, ast.ClassDef) else []
            for thing in (node, *inside):
                named = isinstance(thing, ast.FunctionDef | ast.ClassDef)
                if named and not any(item.name.startswith("_") for item in {node, thing}):
                    yield f"{module.stem}.{thing.name}", thing


def arguments_of(thing: ast.AST) -> list[tuple[str, str]]:
    """Return names and annotations of a function's arguments, or of a dataclass's fields."""
    if isinstance(thing, ast.ClassDef):
        for item in thing.body:
            if isinstance(item, ast.FunctionDef) and item.name == "__init__":
                return arguments_of(item)
        fields = [item for item in thing.body if isinstance(item, ast.AnnAssign)]
        return [(item.target.id, ast.unparse(item.annotation)) for item in fields]
    given = thing.args
    every = [*given.posonlyargs, *given.args, given.vararg, *given.kwonlyargs, given.kwarg]
    return [
        (item.arg, ast.unparse(item.annotation) if item.annotation else "")
        for item in every
        if item is not None and item.arg not in ("self", "cls")
    ]


def documented_parameters(thing: ast.AST) -> list[str] | None:
    """Return the names in a numpydoc Parameters section; None where there is no such section."""
    doc = inspect.cleandoc(ast.get_docstring(thing) or "")
    section = re.search(r"^Parameters\n-+\n(.*?)(?=^\w[\w ]*\n-+\n|\Z)", doc, re.M | re.S)
    if section is None:
        return None
    heads = re.findall(r"^(\S.*?) : ", section[1], re.M)
    return [name.strip() for head in heads for name in head.split(",")]


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


def test_the_public_names_are_few_and_sorted_and_there():
    names = yarncolor.__all__
    assert list(names) == sorted(set(names))
    assert len(set(names) - set(NAMESPACES)) <= 16
    for name in names:
        assert getattr(yarncolor, name).__doc__, name
    with pytest.raises(AttributeError, match="kelp"):
        yarncolor.kelp  # noqa: B018


@pytest.mark.parametrize("name", NAMESPACES)
def test_a_namespace_is_small_and_teaches_its_names(name):
    namespace = getattr(yarncolor, name)
    assert list(namespace.__all__) == sorted(set(namespace.__all__))
    assert len(namespace.__all__) <= 30
    for each in namespace.__all__:
        assert getattr(namespace, each).__doc__, each
        assert f"`{each}`" in namespace.__doc__, each


@pytest.mark.parametrize("name", PUBLIC)
def test_a_public_name_is_met_in_the_readme_or_in_a_notebook(name):
    assert re.search(rf"\b{re.escape(name)}\b", code_that_users_read())


def code_that_users_read() -> str:
    """Return the code of README and notebooks: fences, spans and cells."""
    prose = [(ROOT / "README.md").read_text(encoding="utf-8")]
    code = []
    for notebook in NOTEBOOKS:
        for cell in json.loads(notebook.read_text(encoding="utf-8"))["cells"]:
            kept = code if cell["cell_type"] == "code" else prose
            kept.append("".join(cell["source"]))
    for text in prose:
        code += re.findall(r"```.*?```|`[^`\n]+`", text, re.S)
    return "\n".join(code)


def test_documented_parameters_are_those_of_the_signature():
    documented = {
        name: (documented_parameters(thing), [name for name, _ in arguments_of(thing)])
        for name, thing in public_things()
        if documented_parameters(thing) is not None
    }
    assert len(documented) >= 20
    assert {name: pair for name, pair in documented.items() if pair[0] != pair[1]} == {}


def test_numbers_say_their_unit_in_their_name():
    numbers = {
        f"{name}: {argument}"
        for name, thing in public_things()
        for argument, annotation in arguments_of(thing)
        if re.search(r"\bfloat\b", annotation) and not name.startswith("schema.")
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
    modules = [*MODULES, *(ROOT / "yarncolor").rglob("*.js")]
    lines = {str(path): len(path.read_text(encoding="utf-8").splitlines()) for path in modules}
    assert {name: count for name, count in lines.items() if count > 400} == {}


def test_no_function_body_is_longer_than_fifty_lines():
    bodies = {}
    for path in MODULES:
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                body = node.body[1:] if ast.get_docstring(node) else node.body
                first = body[0].lineno if body else node.end_lineno
                bodies[f"{path.stem}.{node.name}"] = node.end_lineno - first + 1
    assert len(bodies) >= 200
    assert {name: count for name, count in bodies.items() if count > 50} == {}


def test_imports_point_down_and_the_borders_hold():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    contracts = settings["tool"]["importlinter"]["contracts"]
    command = "from importlinter.cli import lint_imports_command as lint; lint()"
    done = python("-c", command, "--no-cache", "--no-logo", cwd=ROOT)
    assert done.returncode == 0, done.stdout
    assert f"Contracts: {len(contracts)} kept, 0 broken." in done.stdout
    assert len(contracts) >= 4


@pytest.fixture(scope="module")
def unpacked_wheel(tmp_path_factory) -> Path:
    """Return a folder with what the wheel holds, built from a copy of the sources."""
    folder = tmp_path_factory.mktemp("wheel")
    source = folder / "source"
    source.mkdir()
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, source / name)
    shutil.copytree(
        ROOT / "yarncolor", source / "yarncolor", ignore=shutil.ignore_patterns("__pycache__")
    )
    has_builder = int(version("setuptools").split(".")[0]) >= 77
    isolated = ["--no-build-isolation"] if has_builder else []
    built = python("-m", "pip", "wheel", "--no-deps", *isolated, "-w", str(folder), str(source))
    assert built.returncode == 0, built.stderr
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "unpacked")
    return folder / "unpacked"


def test_the_wheel_holds_the_whole_package_and_nothing_else(unpacked_wheel):
    wanted = {
        path.relative_to(ROOT).as_posix()
        for path in (ROOT / "yarncolor").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    held = {
        path.relative_to(unpacked_wheel).as_posix()
        for path in unpacked_wheel.rglob("*")
        if path.is_file() and ".dist-info" not in path.as_posix()
    }
    assert held == wanted
    (entry_points,) = unpacked_wheel.glob("*.dist-info/entry_points.txt")
    assert "yarncolor = yarncolor.__main__:main" in entry_points.read_text(encoding="utf-8")


def test_the_command_line_runs_from_the_wheel_in_an_empty_folder(unpacked_wheel, tmp_path):
    (tmp_path / "stash.toml").write_text(
        '[[lots]]\nname = "Kelp"\ncolour = "#56612d"\nmass_g = 27.0\n', encoding="utf-8"
    )
    there = {
        "cwd": tmp_path,
        "env": {"PYTHONPATH": str(unpacked_wheel), "PATH": "", "PYTHONUTF8": "1"},
    }
    where = python("-c", "import yarncolor; print(yarncolor.__file__)", **there)
    assert Path(where.stdout.strip()).is_relative_to(unpacked_wheel)
    done = python("-m", "yarncolor", "plan", "stash.toml", "--out", "out", **there)
    assert (done.returncode, done.stderr) == (0, "")
    written = {path.name for path in (tmp_path / "out").iterdir()}
    assert written >= {"plan.json", "weigh-out.csv", "stretches.csv", "strip.png", "strip.svg"}
    assert done.stdout.splitlines()[-1].startswith("Written to out: plan.json, ")
