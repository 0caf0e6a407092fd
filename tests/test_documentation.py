"""What is written about the code is true, and there is enough of it."""

import ast
import doctest
import json
import re

import pytest

import yarncolor
from tests.helpers.paths import ROOT
from tests.helpers.sources import (
    MODULES,
    NOTEBOOKS,
    PACKAGE,
    arguments_of,
    arguments_with_inherited,
    documented_parameters,
    public_things,
    spelt_out,
    tree,
)

NAMESPACES = ("bench", "colour", "draw", "orders", "photo", "record", "show", "wheel", "yarn")
PUBLIC = [
    *(name for name in yarncolor.__all__ if name not in NAMESPACES),
    *(f"{name}.{each}" for name in NAMESPACES for each in getattr(yarncolor, name).__all__),
]


def test_the_public_names_are_few_and_sorted_and_there():
    names = yarncolor.__all__
    assert list(names) == sorted(set(names))
    assert len(set(names) - set(NAMESPACES)) <= 16
    for name in names:
        assert getattr(yarncolor, name).__doc__, name
        assert f"`{name}`" in yarncolor.__doc__, name
    with pytest.raises(AttributeError, match="kelp"):
        yarncolor.kelp  # noqa: B018


@pytest.mark.parametrize("name", NAMESPACES)
def test_a_namespace_is_small_and_teaches_its_names(name):
    namespace = getattr(yarncolor, name)
    assert list(namespace.__all__) == sorted(set(namespace.__all__))
    assert len(namespace.__all__) <= 31
    for each in namespace.__all__:
        assert getattr(namespace, each).__doc__, each
        assert f"`{each}`" in namespace.__doc__, each


@pytest.mark.parametrize("name", ["", *NAMESPACES])
def test_the_example_of_a_namespace_gives_what_it_says(name, monkeypatch):
    monkeypatch.chdir(ROOT)
    tried = doctest.testmod(getattr(yarncolor, name) if name else yarncolor)
    assert tried.attempted >= 2
    assert tried.failed == 0


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


def test_every_room_says_at_its_door_what_it_is_for():
    doors = [path for path in MODULES if path.name == "__init__.py"]
    said = {path: (ast.get_docstring(tree(path)) or "").partition("\n")[0] for path in doors}
    assert len(doors) >= 10
    assert {path for path, sentence in said.items() if not sentence.endswith(".")} == set()
    folders = {path.parent for path in PACKAGE.rglob("*.py")}
    assert folders == {path.parent for path in doors}


def test_documented_parameters_are_those_of_the_signature():
    """Of a dataclass its own, or all of them with those that it builds on."""
    compared, wrong = 0, {}
    for name, thing in public_things():
        said = [one.name for one in documented_parameters(thing) or ()]
        compared += bool(said)
        own, all_of_them = arguments_of(thing), arguments_with_inherited(thing)
        if said and said not in ([one.name for one in own], [one.name for one in all_of_them]):
            wrong[name] = said
    assert compared >= 200
    assert wrong == {}


def test_documented_types_do_not_contradict_the_signature():
    compared, wrong = 0, {}
    for name, thing in public_things():
        types = {one.name: spelt_out(one.type) for one in arguments_with_inherited(thing)}
        for said in documented_parameters(thing) or ():
            compared += 1
            if not goes_with(said.type, types[said.name]):
                wrong[f"{name}: {said.name}"] = (said.type, types[said.name])
    assert compared >= 400
    assert wrong == {}


def goes_with(said: str, annotated: str) -> bool:
    """Return whether words for a type fit an annotation: every class and plain type is in it.

    "Layout" does not go with ``Answer``; "(n, 3) array" goes with an array of numpy's, whose
    numbers may be called int, float or bool.
    """
    if "Callable" in annotated:
        return "callable" in said
    is_array = re.search(r"\barrays?\b", said) is not None
    if is_array != (re.search("ndarray|NDArray|ArrayLike|Numbers", annotated) is not None):
        return False
    plain = set() if is_array else set(re.findall(r"\b(?:str|int|float|bool|dict|bytes)\b", said))
    classes = set(re.findall(r"\b[A-Z][a-z]\w+\b", said)) - {"None"}
    return plain | classes <= set(re.findall(r"\w+", annotated))


def test_who_takes_several_arguments_or_arrays_says_what_each_is():
    """In a section of its own, or at the head of a module whose functions all take the same."""
    missing = {
        name
        for name, thing in public_things()
        if isinstance(thing, ast.FunctionDef)
        and documented_parameters(thing) is None
        and needs_parameters([spelt_out(one.type) for one in arguments_of(thing)])
        and said_at_the_head(name) != [one.name for one in arguments_of(thing)]
    }
    assert missing == set()


def said_at_the_head(name: str) -> list[str]:
    """Return the parameters that the docstring of a function's module says, for all in it."""
    module = PACKAGE.joinpath(*name.split(".")[:-1]).with_suffix(".py")
    return [one.name for one in documented_parameters(tree(module)) or ()]


def needs_parameters(types: list[str]) -> bool:
    """Return whether a function's arguments want a section of their own."""
    return len(types) >= 2 or any("ndarray" in one or "NDArray" in one for one in types)


def test_nothing_is_left_to_be_done():
    left = [path for path in MODULES if "TODO" in path.read_text(encoding="utf-8")]
    assert left == []
