"""JavaScript files that import one another, joined into one: a widget's module, a page's script.

A widget is one text for anywidget, a page for a phone one file: neither has an address from which
it could import. What several widgets use, as `element.js`, is therefore sent with each of them.
Every file keeps its names to itself and gives only what it exports, so no two files can clash.
"""

import re
from dataclasses import dataclass
from pathlib import Path

_IMPORT = re.compile(r'^import \{\s*(\w+(?:,\s*\w+)*),?\s*\} from "(\.{1,2}/[\w./]+\.js)";$', re.M)
_EXPORT = re.compile(r"^export (?=(?:async function|function|class|const) (\w+))", re.M)
_DEFAULT = re.compile(r"^export default (?=\{)", re.M)
_LEFT = re.compile(r"^(?:import|export)\b.*|\bimport\(.*", re.M)
_DECLARED = re.compile(r"^/\*\*.*?\*/\n+", re.M | re.S)
_OPEN_TEXT = re.compile(r"^[^`\n]*(?:`[^`\n]*`[^`\n]*)*`[^`\n]*$", re.M)
_FOR_READERS = re.compile(r"^(?:[ \t]*//.*\n|[ \t]+|[ \t]*\n)", re.M)
_WIDGET = "widget"


class JoinError(ValueError):
    """JavaScript files cannot be joined; says which, and what stands in the way."""


@dataclass(frozen=True)
class Script:
    """A JavaScript file without its imports and exports.

    Parameters
    ----------
    path : Path
        The file.
    body : str
        What it does; its names are declared without ``export``.
    imports : dict of Path to tuple of str
        Which names it takes from which file.
    exports : tuple of str
        Which names it gives; ``widget`` for its default.
    """

    path: Path
    body: str
    imports: dict[Path, tuple[str, ...]]
    exports: tuple[str, ...]


def joined(entry: Path) -> str:
    """Return one ES module of a file and of all that it imports, those first.

    Parameters
    ----------
    entry : Path
        The file whose default is the widget.

    Raises
    ------
    JoinError
        Where a file is missing, imports in a circle or what is not exported, or says either in a
        way that is not understood here.
    """
    scripts = _in_order(entry.resolve(), {}, ())
    if _WIDGET not in scripts[entry.resolve()].exports:
        raise JoinError(f"{entry}: nothing is exported by default")
    return "\n".join([*_parts(scripts), f"export default file{len(scripts) - 1}.{_WIDGET};\n"])


def program(entry: Path) -> str:
    """Return one script of a file, which does its work as it is read, and of all that it imports.

    Parameters
    ----------
    entry : Path
        The file that is read last.

    Raises
    ------
    JoinError
        As `joined` does.
    """
    return _trimmed("\n".join(_parts(_in_order(entry.resolve(), {}, ()))))


def _trimmed(text: str) -> str:
    """Return a script without what only its readers need: lines of comment, indents, blank lines.

    Text in backticks may not go over a line's end, for its indents would be lost.
    """
    if over := _OPEN_TEXT.search(text):
        raise JoinError(f"a text goes over the end of its line: {over[0].strip()}")
    return _FOR_READERS.sub("", text)


def script_of(path: Path) -> Script:
    """Return a file with its imports and exports understood."""
    text = _read(path)
    imports: dict[Path, tuple[str, ...]] = {}
    for names, address in _IMPORT.findall(text):
        imports[(path.parent / address).resolve()] = tuple(re.findall(r"\w+", names))
    exports = [*_EXPORT.findall(text), *(_WIDGET for _ in _DEFAULT.findall(text))]
    body = _EXPORT.sub("", _IMPORT.sub("", text))
    body = _DECLARED.sub("", _DEFAULT.sub(f"const {_WIDGET} = ", body))
    if left := _LEFT.search(body):
        raise JoinError(f"{path}: not understood: {left[0]}")
    return Script(path, body.strip(), imports, tuple(exports))


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except OSError as error:
        raise JoinError(f"{path}: cannot be read") from error


def _in_order(path: Path, known: dict[Path, Script], above: tuple[Path, ...]) -> dict[Path, Script]:
    """Return files by their paths, each after those that it imports."""
    if path in above:
        raise JoinError(f"{path}: is imported in a circle")
    if path not in known:
        script = script_of(path)
        for other in script.imports:
            _in_order(other, known, (*above, path))
        known[path] = script
    return known


def _parts(scripts: dict[Path, Script]) -> list[str]:
    places = {path: f"file{number}" for number, path in enumerate(scripts)}
    return [_part(script, scripts, places) for script in scripts.values()]


def _part(script: Script, scripts: dict[Path, Script], places: dict[Path, str]) -> str:
    """Return a file as a value that holds what it exports; its other names stay its own."""
    taken = []
    for other, names in script.imports.items():
        if lacking := set(names) - set(scripts[other].exports):
            raise JoinError(f"{script.path}: {other.name} exports no {', '.join(sorted(lacking))}")
        taken.append(f"const {{ {', '.join(names)} }} = {places[other]};")
    inside = "\n".join([*taken, script.body, f"return {{ {', '.join(script.exports)} }};"])
    return f"// {script.path.name}\nconst {places[script.path]} = (() => {{\n{inside}\n}})();"
