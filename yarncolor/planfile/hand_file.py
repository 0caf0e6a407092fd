"""The file that says what a spinner's hands do: in and out."""

import json
from pathlib import Path
from typing import Any

from yarncolor.errors import Fault, PlanError, quoted, suggestion
from yarncolor.phrases import counted
from yarncolor.plan.hands import FEWEST, FIGURES, RESTS_ON, WORDS, Figure, Hands
from yarncolor.plan.key import SHARE
from yarncolor.plan.reference import KEYS
from yarncolor.planfile.toml_text import parsed, read_text

KIND, FORMAT = "yarncolor hand", 1
_HEAD = ("kind", "format", "yarns")
_OF_A_FIGURE = ("value", "rests_on", "low", "high")


def hand_text(hands: Hands) -> str:
    """Return the text of the file, its figures rounded to six digits."""
    names = ", ".join(json.dumps(name, ensure_ascii=False) for name in hands.yarns)
    lines = [
        f"# What your hands do, from {counted(len(hands.yarns), 'yarn')}. A plan that names this",
        '# file at its top, as in hand = "hand.toml", takes from it what it does not say itself.',
        f'kind = "{KIND}"',
        f"format = {FORMAT}",
        f"yarns = [{names}]",
    ]
    for key, figure in hands.figures():
        a_share = ", a share" if KEYS[FIGURES[key], key].kind == SHARE else ""
        lines += ["", f"[{key}]   # {WORDS[key]}{a_share}", f"value = {figure.value:.6g}"]
        lines += [f"rests_on = {figure.rests_on}   # {RESTS_ON.get(key, 'yarn')}s"]
        if figure.low is not None and figure.high is not None:
            lines += [f"low = {figure.low:.6g}   # nine times in ten the truth lies between"]
            lines += [f"high = {figure.high:.6g}"]
    return "\n".join(lines) + "\n"


def is_hand_file(path: Path) -> bool:
    """Return whether a file says what hands do, in whatever format."""
    try:
        return parsed(read_text(path), str(path)).get("kind") == KIND
    except PlanError:
        return False


def read_hands(path: str | Path) -> Hands:
    """Return what a file says of a spinner's hands.

    Parameters
    ----------
    path : str or Path
        As `yarncolor hand` wrote it.

    Raises
    ------
    PlanError
        With every fault, one line each.
    """
    data, file = parsed(read_text(path), str(path)), str(path)
    faults = _of_another_format(data, file)
    if not faults:
        faults = [*_unknown(data, file), *_yarns(data, file)]
        for key in FIGURES:
            faults += _figure_faults(key, data[key], file) if key in data else []
    if faults:
        raise PlanError(faults)
    figures = {key: Figure(**_plain(data[key])) for key in FIGURES if key in data}
    return Hands(yarns=tuple(data.get("yarns", ())), file=Path(path).name, **figures)


def _plain(table: dict[str, Any]) -> dict[str, Any]:
    return {key: value if key == "rests_on" else float(value) for key, value in table.items()}


def _of_another_format(data: dict[str, Any], file: str) -> list[Fault]:
    if data.get("kind") != KIND:
        return [Fault(file, "", "", "does not say what hands do; give a file that hand wrote")]
    if data.get("format") != FORMAT or isinstance(data["format"], bool):
        value = quoted(data["format"]) if "format" in data else ""
        return [Fault(file, "format", value, f"formats up to {FORMAT} can be read; write it anew")]
    return []


def _unknown(data: dict[str, Any], file: str) -> list[Fault]:
    known = (*_HEAD, *FIGURES)
    return [
        Fault(file, key, "", f"unknown key{suggestion(key, known)}")
        for key in data
        if key not in known
    ]


def _yarns(data: dict[str, Any], file: str) -> list[Fault]:
    yarns = data.get("yarns", [])
    if isinstance(yarns, list) and all(isinstance(name, str) for name in yarns):
        return []
    return [Fault(file, "yarns", quoted(yarns), "give a list of names")]


def _figure_faults(key: str, table: Any, file: str) -> list[Fault]:
    """Return what is wrong with a figure: its shape, its range, on how little it rests."""
    if not isinstance(table, dict):
        return [Fault(file, key, quoted(table), "give a table with value and rests_on")]
    faults = [
        Fault(file, f"{key}: {name}", "", f"unknown key{suggestion(name, _OF_A_FIGURE)}")
        for name in table
        if name not in _OF_A_FIGURE
    ]
    for name in ("value", "low", "high"):
        if (name == "value" or name in table) and not _is_right(key, table.get(name)):
            value = quoted(table[name]) if name in table else ""
            remedy = str(KEYS[FIGURES[key], key].remedy)
            faults.append(Fault(file, f"{key}: {name}", value, remedy))
    count, least = table.get("rests_on"), FEWEST.get(key, 1)
    if not isinstance(count, int) or isinstance(count, bool) or count < least:
        value = quoted(count) if "rests_on" in table else ""
        remedy = f"give on how many it rests, {least} or more"
        faults.append(Fault(file, f"{key}: rests_on", value, remedy))
    return faults or _interval_faults(key, table, file)


def _is_right(key: str, value: object) -> bool:
    declared = KEYS[FIGURES[key], key]
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    return is_number and (declared.low or 0.0) <= value <= (declared.high or 0.0)  # type: ignore[operator]


def _interval_faults(key: str, table: dict[str, Any], file: str) -> list[Fault]:
    if ("low" in table) != ("high" in table):
        missing = "high" if "low" in table else "low"
        return [Fault(file, f"{key}: {missing}", "", "is missing; give both or none")]
    if "low" in table and not table["low"] <= table["value"] <= table["high"]:
        value = quoted(table["value"])
        return [Fault(file, f"{key}: value", value, "it lies outside of low and high")]
    return []
