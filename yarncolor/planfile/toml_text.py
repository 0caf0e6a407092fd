"""A file of TOML as a text and as tables: what is none is told, and what was likely meant."""

import re
import tomllib
from pathlib import Path
from typing import Any

from yarncolor.errors import Fault, PlanError, on_one_line, suggestion, system_says

LARGEST_BYTES = 256 * 1024
BYTE_ORDER_MARK = "\ufeff"
_DEEPEST = 32
_DOTTED = re.compile(
    rf"""(?m)(?:^|[\[{{,])\s*(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')\s*\.\s*){{{_DEEPEST}}}"""
)
"""A key of so many parts that reading it takes the square of their number."""
_TOO_DEEP = "nested too deeply to be read"
_QUOTED = re.compile("'([^']*)'")
_AT_LINE = re.compile(r"at line (\d+)")
_HINTS = (
    (re.compile(r"=\s*-?\d+,\d+\s*(#|$)"), "; write decimals with a point, as 27.5"),
    (re.compile(r"=\s*[^\W\d_]"), '; text stands in quotation marks, as "Kelp"'),
    (re.compile(r"^\s*[^#=\[]+:\s"), "; put = between key and value"),
)
"""Kinds of a line that cannot be read, and what was likely meant."""


def read_text(path: str | Path) -> str:
    """Return the text of a plan file as it stands, or raise `PlanError` where there is none.

    Line ends and a byte order mark are kept, so that a file can be written back as it was.
    """
    try:
        if not Path(path).is_file():
            raise PlanError([Fault(str(path), "", "", _not_a_file(Path(path)))])
        with open(path, "rb") as stream:
            raw = stream.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:
        if isinstance(error, PlanError):
            raise
        raise PlanError(
            [Fault(str(path), "", "", f"cannot be read: {system_says(error)}")]
        ) from error
    return decoded(raw, str(path))


def decoded(raw: bytes, file: str) -> str:
    """Return the text of a plan file from its bytes, or raise `PlanError` where it is none.

    Parameters
    ----------
    raw : bytes
        What the file holds.
    file : str
        What it is called.
    """
    if len(raw) > LARGEST_BYTES:
        remedy = f"larger than {LARGEST_BYTES // 1024} KiB; a plan file is a few pages of text"
        raise PlanError([Fault(file, "", "", remedy)])
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        remedy = f"byte {error.start + 1} is not UTF-8; save the file as UTF-8 text"
        raise PlanError([Fault(file, "", "", remedy)]) from error


def parsed(text: str, file: str) -> dict[str, Any]:
    """Return the tables of a TOML text, or raise `PlanError` where it is none.

    Parameters
    ----------
    text : str
        TOML.
    file : str
        What it is called.
    """
    if _DOTTED.search(text):
        raise PlanError([Fault(file, "", "", _TOO_DEEP)])
    try:
        data = tomllib.loads(text.removeprefix(BYTE_ORDER_MARK).replace(line_end(text), "\n"))
    except RecursionError as error:
        raise PlanError([Fault(file, "", "", _TOO_DEEP)]) from error
    except tomllib.TOMLDecodeError as error:
        raise PlanError(
            [Fault(file, "", "", f"not TOML: {_not_toml(str(error), text)}")]
        ) from error
    except ValueError as error:
        raise PlanError([Fault(file, "", "", "not TOML: a number is too long")]) from error
    if _deeper_than(data, _DEEPEST):
        raise PlanError([Fault(file, "", "", _TOO_DEEP)])
    return data


def line_end(text: str) -> str:
    r"""Return how all lines of a text end, ``\r\n`` or ``\r`` alone; else ``\n``."""
    if "\n" not in text and "\r" in text:
        return "\r"
    crlf = "\r\n" in text and text.count("\n") == text.count("\r\n")
    return "\r\n" if crlf else "\n"


def _not_a_file(path: Path) -> str:
    if path.is_dir():
        return "is a folder; give the plan file in it"
    if path.exists():
        return "is not an ordinary file"
    if path.is_symlink():
        return "is a link that leads nowhere; give the plan file itself"
    folder = path.parent if path.parent.is_dir() else Path()
    known = [item.name for item in folder.glob("*.toml")]
    return f"there is no such file{suggestion(path.name, known)}"


def _deeper_than(value: Any, depth: int) -> bool:
    if not isinstance(value, dict | list):
        return False
    inside = value.values() if isinstance(value, dict) else value
    return not depth or any(_deeper_than(item, depth - 1) for item in inside)


def _not_toml(told: str, text: str) -> str:
    """Return what the TOML reader tells, and what is likely meant in a line of that kind."""
    at = _AT_LINE.search(told)
    lines = text.splitlines()
    line = lines[int(at[1]) - 1] if at and int(at[1]) <= len(lines) else ""
    hint = next((words for kind, words in _HINTS if kind.search(line)), "")
    told = re.sub(r"\((?:'[^']*',? ?)+\)", lambda key: ".".join(_QUOTED.findall(key[0])), told)
    return on_one_line(told[:1].lower() + told[1:]) + hint
