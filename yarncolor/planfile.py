"""A plan file, read and checked: the only validator. All faults of a file are told at once."""

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, get_args

from yarncolor.errors import Fault, PlanError, nearest, shown
from yarncolor.plan import FreePortion, Lot, Plan, Plying, Scale, Scheme, Spinning, Target

LARGEST_BYTES = 256 * 1024
_BUILDERS = {
    "scheme": Scheme,
    "spinning": Spinning,
    "plying": Plying,
    "scale": Scale,
    "target": Target,
}


def read_plan(path: str | Path) -> Plan:
    """Return the plan that a TOML file holds.

    Parameters
    ----------
    path : str or Path
        A plan file: TOML 1.0, UTF-8, at most 256 KiB.

    Raises
    ------
    PlanError
        With every fault of the file, one line each.
    """
    text = read_text(path)
    return plan_from_data(parsed(text, str(path)), str(path))


def read_text(path: str | Path) -> str:
    """Return the text of a plan file, or raise `PlanError` where there is none to read."""
    try:
        if not Path(path).is_file():
            raise PlanError([Fault(str(path), "", "", _not_a_file(Path(path)))])
        with open(path, "rb") as stream:
            raw = stream.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:
        if isinstance(error, PlanError):
            raise
        what = getattr(error, "strerror", None) or str(error)
        raise PlanError([Fault(str(path), "", "", f"cannot be read: {what.lower()}")]) from error
    if len(raw) > LARGEST_BYTES:
        remedy = f"larger than {LARGEST_BYTES // 1024} KiB; a plan file is a few pages of text"
        raise PlanError([Fault(str(path), "", "", remedy)])
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        remedy = f"byte {error.start + 1} is not UTF-8; save the file as UTF-8 text"
        raise PlanError([Fault(str(path), "", "", remedy)]) from error


def parsed(text: str, file: str) -> dict[str, Any]:
    """Return the tables of a TOML text, or raise `PlanError` where it is none."""
    try:
        return tomllib.loads(text.replace("\r\n", "\n"))
    except RecursionError as error:
        raise PlanError([Fault(file, "", "", "nested too deeply to be read")]) from error
    except ValueError as error:
        what = str(error).splitlines()[0]
        raise PlanError([Fault(file, "", "", f"not TOML: {what[:1].lower()}{what[1:]}")]) from error


def plan_from_data(data: dict[str, Any], file: str = "plan") -> Plan:
    """Return the plan that the tables of a plan file describe.

    Parameters
    ----------
    data : dict
        As `tomllib` returns it: the keys of the plan file.
    file : str
        How faults name the source.

    Raises
    ------
    PlanError
        With every fault, one line each; a check that rests on a faulty value is not made.
    """
    from yarncolor.checks import check

    reading = _Reading(file, data)
    head = reading.head()
    lots = tuple(reading.lots())
    tables = {name: reading.table(name) for name in _BUILDERS}
    built = {name: _BUILDERS[name](**values) for name, values in tables.items()}
    check(reading, lots, built)
    if reading.faults:
        raise PlanError(reading.faults)
    if "target" not in data:
        del built["target"]
    return Plan(lots=tuple(Lot(**_with_mass(lot)) for lot in lots), **head, **built)


@dataclass
class _Reading:
    """One file being read: what was found wrong so far, and where."""

    file: str
    data: dict[str, Any]
    faults: list[Fault] = field(default_factory=list)
    bad: set[tuple] = field(default_factory=set)

    def head(self) -> dict[str, Any]:
        """Return title and purpose, and tell of unknown keys and tables."""
        from yarncolor.schema import TABLES, HeadTable

        own = {key: value for key, value in self.data.items() if key not in ("lots", *TABLES)}
        return self._read(HeadTable, own, (), ("lots", *TABLES))

    def lots(self) -> Iterator[dict[str, Any]]:
        """Return what is right in each lot's table."""
        from yarncolor.schema import MOST_LOTS, LotTable

        lots = self.data.get("lots", [])
        if not isinstance(lots, list) or not 1 <= len(lots) <= MOST_LOTS:
            value = shown(lots) if lots else ""
            self.tell(("lots",), value, f"give 1 to {MOST_LOTS} lots, each as a [[lots]] table")
            return
        for number, table in enumerate(lots):
            yield self._read(LotTable, table, ("lots", number))

    def table(self, name: str) -> dict[str, Any]:
        """Return what is right in one table of the file; nothing where it is not there."""
        from yarncolor.schema import TABLES

        values = self._read(TABLES[name], self.data.get(name, {}), (name,))
        portions = values.get("portions")
        if portions is not None and not self.is_bad(name, "portions"):
            values["portions"] = tuple(FreePortion(**portion) for portion in portions)
        return values

    def tell(self, place: tuple, value: str, remedy: str) -> None:
        """Add a fault, and remember where it is so that no check rests on that value."""
        self.faults.append(Fault(self.file, self.words(place), value, remedy))
        self.bad.add(place)

    def is_bad(self, *place: object) -> bool:
        """Return whether a fault was told at this place, above it or inside it."""
        return any(told[: len(place)] == place[: len(told)] for told in self.bad)

    def words(self, place: tuple) -> str:
        """Return a place in a reader's words: ``lots 2 (Foam): mass_g``."""
        parts: list[str] = []
        table: Any = self.data
        for step in place:
            table = _inside(table, step)
            if isinstance(step, int):
                parts[-1] += f" {step + 1}{_named(table)}"
            else:
                parts.append(str(step))
        return ": ".join(parts)

    def _read(self, model: Any, table: Any, place: tuple, also: tuple = ()) -> dict[str, Any]:
        from pydantic import ValidationError

        if not isinstance(table, dict):
            self.tell(place, shown(table), "give a table of keys and values")
            return {}
        try:
            return _given(model.model_validate(table))
        except ValidationError as error:
            wrong = _one_of_each(error.errors(include_url=False, include_context=False))
        for error in wrong:
            unknown = error["type"] == "extra_forbidden"
            value = "" if unknown else shown(error["input"])
            self.tell((*place, *error["loc"]), value, _remedy(model, error, also))
        bad = {error["loc"][0] for error in wrong}
        rest = {key: value for key, value in table.items() if key not in bad}
        return _given(model.model_validate(rest))


def _not_a_file(path: Path) -> str:
    if path.is_dir():
        return "is a folder; give the plan file in it"
    if path.exists():
        return "is not an ordinary file"
    folder = path.parent if path.parent.is_dir() else Path()
    known = [item.name for item in folder.glob("*.toml")]
    return f"there is no such file{nearest(path.name, known)}"


def _with_mass(lot: dict[str, Any]) -> dict[str, Any]:
    if "rolags" in lot:
        return lot | {"mass_g": lot["rolags"] * lot["rolag_g"]}
    return lot


def _given(value: Any) -> Any:
    """Return the given values of a table as a dict, lists as tuples."""
    if isinstance(value, list):
        return tuple(_given(item) for item in value)
    if hasattr(value, "model_fields_set"):
        return {key: _given(getattr(value, key)) for key in sorted(value.model_fields_set)}
    return value


def _one_of_each(errors: list[dict]) -> list[dict]:
    """Return one of pydantic's errors for each value."""
    return list({error["loc"]: error for error in reversed(errors)}.values())[::-1]


def _remedy(model: Any, error: dict, also: tuple[str, ...]) -> str:
    """Return what would be right, with the nearest known word where one was misspelt."""
    owner, key = _owner(model, error["loc"])
    if error["type"] == "extra_forbidden":
        known = [*owner.model_fields, *also]
        close = nearest(key, known) or f"; known are {', '.join(known)}"
        return f"unknown key{close}"
    field, value = owner.model_fields[key], error["input"]
    choices = get_args(field.annotation) if error["type"] == "literal_error" else ()
    return f"{field.description}{nearest(value, choices) if isinstance(value, str) else ''}"


def _owner(model: Any, at: tuple) -> tuple[Any, str]:
    """Return the model that a value belongs to, and its key there."""
    *tables, key = (step for step in at if isinstance(step, str))
    for table in tables:
        (model,) = get_args(model.model_fields[table].annotation)
    return model, key


def _inside(table: Any, step: object) -> Any:
    try:
        return table[step]
    except (KeyError, IndexError, TypeError):
        return None


def _named(table: Any) -> str:
    name = table.get("name") if isinstance(table, dict) else None
    good = isinstance(name, str) and name.strip() and name.isprintable() and len(name) <= 60
    return f" ({name.strip()})" if good else ""
