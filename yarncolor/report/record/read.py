"""``record.json`` read back: all that is wrong with it is told at once, each with its place."""

import json
from dataclasses import dataclass, field, is_dataclass
from pathlib import Path
from types import NoneType
from typing import Any, get_args, get_origin, get_type_hints

from yarncolor.errors import Fault, PlanError, quoted, system_says
from yarncolor.report.record.record import FORMAT, KIND, Record

_MOST_BYTES = 64 * 1024 * 1024
_LARGEST = 1e300
_RIGHT = {str: "text", int: "a whole number", float: "a number", bool: "true or false"}


def read_record(path: str | Path) -> tuple[Record, ...]:
    """Return the yarns that a ``record.json`` holds.

    Parameters
    ----------
    path : str or Path
        As `yarncolor record` wrote it.

    Raises
    ------
    PlanError
        With every fault, one line each: no such file, no JSON, a record of another format, a
        value that is missing or of another kind.
    """
    return records_from_text(_text(Path(path)), str(path))


def records_from_text(text: str, file: str = "record") -> tuple[Record, ...]:
    """Return the yarns that the text of a ``record.json`` holds; faults as `read_record`.

    Parameters
    ----------
    text : str
        JSON.
    file : str
        How faults name it.
    """
    data, reading = _parsed(text, file), _Reading(file)
    _refuse_another_format(data, file)
    yarns = reading.value(data.get("yarns"), tuple[Record, ...], "yarns")
    if not (yarns or reading.faults):
        reading.faults.append(Fault(file, "yarns", "", "holds no yarn"))
    if reading.faults:
        raise PlanError(reading.faults)
    found: tuple[Record, ...] = yarns
    return found


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > _MOST_BYTES:
            raise PlanError([Fault(str(path), "", "", "is larger than any record")])
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise PlanError([Fault(str(path), "", "", "is not UTF-8; give a record.json")]) from error
    except (OSError, ValueError) as error:
        if isinstance(error, PlanError):
            raise
        raise PlanError(
            [Fault(str(path), "", "", f"cannot be read: {system_says(error)}")]
        ) from error


def _parsed(text: str, file: str) -> dict[str, Any]:
    try:
        data = json.loads(text, parse_constant=_refuse_constant)
    except (ValueError, RecursionError) as error:
        told = f"not JSON: {error}" if str(error) else "not JSON"
        raise PlanError([Fault(file, "", "", f"{told}; give a record.json")]) from error
    if not isinstance(data, dict):
        raise PlanError([Fault(file, "", "", "holds no record; give a record.json")])
    return data


def _refuse_constant(name: str) -> float:
    raise ValueError(f"{name} is no number")


def _refuse_another_format(data: dict[str, Any], file: str) -> None:
    right = {"kind": KIND, "format": FORMAT}
    faults = [
        Fault(file, key, quoted(data[key]) if key in data else "", _remedy(key, value))
        for key, value in right.items()
        if data.get(key) != value or isinstance(data[key], bool)
    ]
    if faults:
        raise PlanError(faults)


def _remedy(key: str, value: object) -> str:
    if key == "format":
        return f"this record is of another format; formats up to {value} can be read"
    return f"is no record of yarns, which says {quoted(value)}; give a record.json"


@dataclass
class _Reading:
    """One record being read, and what was found wrong with it."""

    file: str
    faults: list[Fault] = field(default_factory=list)

    def value(self, value: Any, hint: Any, place: str) -> Any:
        """Return a value as a type has it; tell of one that is not so, and return None."""
        if is_dataclass(hint) and isinstance(hint, type):
            return self._table(value, hint, place)
        if get_origin(hint) is tuple:
            return self._list(value, get_args(hint)[0], place)
        kinds = get_args(hint) or (hint,)
        if value is None and NoneType in kinds:
            return None
        plain = next(kind for kind in kinds if kind is not NoneType)
        if not _is_a(value, plain):
            self._tell(place, value, f"give {_RIGHT[plain]}")
            return None
        return plain(value)

    def _list(self, value: Any, hint: Any, place: str) -> Any:
        if not isinstance(value, list):
            self._tell(place, value, "give a list")
            return ()
        return tuple(
            self.value(item, hint, f"{place} {number}") for number, item in enumerate(value, 1)
        )

    def _table(self, value: Any, table: type, place: str) -> Any:
        if not isinstance(value, dict):
            self._tell(place, value, "give a table")
            return None
        hints = get_type_hints(table)
        missing = [key for key in hints if key not in value]
        for key in missing:
            self.faults.append(Fault(self.file, f"{place}: {key}", "", "is missing"))
        given = {
            key: self.value(value[key], hint, f"{place}: {key}")
            for key, hint in hints.items()
            if key in value
        }
        return None if missing else table(**given)

    def _tell(self, place: str, value: Any, remedy: str) -> None:
        self.faults.append(Fault(self.file, place, quoted(value), remedy))


def _is_a(value: Any, kind: type) -> bool:
    if kind is float:
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        return is_number and abs(value) <= _LARGEST
    return isinstance(value, kind) and (kind is bool or not isinstance(value, bool))
