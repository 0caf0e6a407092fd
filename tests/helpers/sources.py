"""The package's own sources as Python reads them, for tests that guard how they are written."""

import ast
import inspect
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from tests.helpers.paths import ROOT

PACKAGE = ROOT / "yarncolor"
MODULES = sorted(PACKAGE.rglob("*.py"))
NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))


class Argument(NamedTuple):
    """An argument of a function, or a field of a dataclass; its type as written."""

    name: str
    type: str


def tree(module: Path) -> ast.Module:
    """Return a module as Python reads it."""
    return ast.parse(module.read_text(encoding="utf-8"))


def public_things() -> Iterator[tuple[str, ast.FunctionDef | ast.ClassDef]]:
    """Return every public function, method and class of the package, with its full name."""
    for module in MODULES:
        where = module.relative_to(PACKAGE).with_suffix("").as_posix().replace("/", ".")
        for node in tree(module).body:
            inside = node.body if isinstance(node, ast.ClassDef) else []
            for thing in (node, *inside):
                named = isinstance(thing, ast.FunctionDef | ast.ClassDef)
                if named and not any(item.name.startswith("_") for item in {node, thing}):
                    yield f"{where}.{thing.name}", thing


def arguments_of(thing: ast.AST) -> list[Argument]:
    """Return a function's arguments, or a dataclass's fields, with their types."""
    if isinstance(thing, ast.ClassDef):
        for item in thing.body:
            if isinstance(item, ast.FunctionDef) and item.name == "__init__":
                return arguments_of(item)
        fields = [item for item in thing.body if isinstance(item, ast.AnnAssign)]
        return [Argument(item.target.id, _written(item)) for item in fields]
    given = thing.args
    inner = {given.vararg: "tuple[{}, ...]", given.kwarg: "dict[str, {}]"}
    every = [*given.posonlyargs, *given.args, given.vararg, *given.kwonlyargs, given.kwarg]
    return [
        Argument(item.arg, inner.get(item, "{}").format(_written(item)))
        for item in every
        if item is not None and item.arg not in ("self", "cls")
    ]


def arguments_with_inherited(thing: ast.AST) -> list[Argument]:
    """Return arguments as `arguments_of` does, a dataclass's after those of what it builds on."""
    bases = [base.id for base in getattr(thing, "bases", []) if isinstance(base, ast.Name)]
    above = [one for base in bases if base in _classes() for one in arguments_of(_classes()[base])]
    return list({one.name: one for one in (*above, *arguments_of(thing))}.values())


@cache
def _classes() -> dict[str, ast.ClassDef]:
    return {
        node.name: node
        for module in MODULES
        for node in tree(module).body
        if isinstance(node, ast.ClassDef)
    }


def _written(item: ast.arg | ast.AnnAssign) -> str:
    return ast.unparse(item.annotation) if item.annotation else ""


@cache
def aliases() -> dict[str, str]:
    """Return the package's own names for types, such as ``PerPly``, and what each stands for."""
    return {
        node.targets[0].id: ast.unparse(node.value)
        for module in MODULES
        for node in tree(module).body
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name)
        if isinstance(node.value, ast.BinOp | ast.Subscript | ast.Call)
    }


def spelt_out(annotation: str) -> str:
    """Return an annotation with what its names for types stand for behind it."""
    names = re.findall(r"\w+", annotation)
    return " ".join([annotation, *(aliases()[name] for name in names if name in aliases())])


def documented_parameters(thing: ast.AST) -> list[Argument] | None:
    """Return what a numpydoc Parameters section says; None where there is no such section."""
    doc = inspect.cleandoc(ast.get_docstring(thing) or "")
    section = re.search(r"^Parameters\n-+\n(.*?)(?=^\w[\w ]*\n-+\n|\Z)", doc, re.M | re.S)
    if section is None:
        return None
    return [each for head in re.findall(r"^\S.*? : .*$", section[1], re.M) for each in _said(head)]


def _said(head: str) -> list[Argument]:
    """Return what ``one, other : float`` says of each; ``one, other : str, int`` in their order."""
    left, _, right = head.partition(" : ")
    names, kinds = left.split(", "), right.split(", ")
    if "(" in right or len(kinds) != len(names) or kinds[-1] == "optional":
        kinds = [right] * len(names)
    return [Argument(*pair) for pair in zip(names, kinds, strict=True)]


def lines_of_bodies() -> dict[str, int]:
    """Return how many lines the body of each function of the package has, by its name."""
    bodies = {}
    for path in MODULES:
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                body = node.body[1:] if ast.get_docstring(node) else node.body
                first = body[0].lineno if body else node.end_lineno
                bodies[f"{path.stem}.{node.name}:{node.lineno}"] = node.end_lineno - first + 1
    return bodies


def quiet_tests(path: Path) -> list[str]:
    """Return the tests of a module that reach neither the program nor a helper, unmarked."""
    module = tree(path)
    named = {
        target.id: node
        for node in module.body
        if isinstance(node, ast.Assign)
        for target in node.targets
        if isinstance(target, ast.Name)
    }
    named |= {node.name: node for node in module.body if hasattr(node, "name")}
    program = {
        alias.asname or alias.name.split(".")[0]
        for node in ast.walk(module)
        if isinstance(node, ast.Import | ast.ImportFrom)
        for alias in node.names
        if (getattr(node, "module", None) or alias.name).startswith(("yarncolor", "tests.helpers"))
    }
    return [
        name
        for name, node in named.items()
        if name.startswith("test_")
        if "mark.oracle" not in ast.unparse(node)
        if not _reached(name, named) & program
    ]


def _reached(name: str, named: dict[str, ast.AST]) -> set[str]:
    """Return every name that a function or value of a module uses, and what those use."""
    found: set[str] = set()
    waiting = [name]
    while waiting:
        node = named.get(waiting.pop())
        used = (
            set()
            if node is None
            else {
                part.id if isinstance(part, ast.Name) else part.arg
                for part in ast.walk(node)
                if isinstance(part, ast.Name | ast.arg)
            }
        )
        waiting += used - found
        found |= used
    return found
