"""Every key of a plan file, as declared: to look one up, and as rows of a reference."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any, NamedTuple, get_args, get_origin, get_type_hints

from yarncolor.plan.key import SHARE, Key, keys_of
from yarncolor.plan.lots import Lot
from yarncolor.plan.plan import Plan
from yarncolor.plan.unit_words import METRIC

_SAID = {item.name for item in fields(Plan) if item.compare}
_HINTS = {name: hint for name, hint in get_type_hints(Plan).items() if name in _SAID}
_HOLDERS: dict[str, type] = {
    name: holder
    for name, hint in _HINTS.items()
    for holder in (hint, *get_args(hint))
    if is_dataclass(holder) and isinstance(holder, type) and holder is not Lot
}
ROWS = {name: holder for name, holder in _HOLDERS.items() if get_origin(_HINTS[name]) is tuple}
"""Tables that may stand in a plan file many times, as lots do, and the class of each."""

TABLES = {name: holder for name, holder in _HOLDERS.items() if name not in ROWS}
"""Every other table of a plan file, and the class whose fields are its keys."""

IN_ORDER = tuple(_HOLDERS)
"""All of them, in the order in which they are saved after the lots."""


def keys_said_in(system: str) -> dict[tuple[str, str], Key]:
    """Return every key by table and name, in the words of grams and metres or ounces and yards.

    Parameters
    ----------
    system : str
        ``metric`` or ``imperial``.
    """
    return {
        (key.table, key.name): key
        for name, table in {"": Plan, "lots": Lot, **_HOLDERS}.items()
        for key in keys_of(table, name, system).values()
    }


KEYS = keys_said_in(METRIC)
"""Every key by table and name: the head's under an empty table, a lot's under ``lots``."""

PER_PLY = tuple(key for key in KEYS.values() if key.each == "ply")
"""Keys that may hold a list of one for each single."""


class Row(NamedTuple):
    """A key as the reference shows it, all in words."""

    table: str
    key: str
    meaning: str
    unit: str
    range: str
    default: str
    schemes: str


def reference_rows() -> list[Row]:
    """Return every key of a plan file in the order of its tables: the reference, as declared.

    A key of a small table follows the table: ``sample.length_m``.
    """
    return [row for key in KEYS.values() for row in _rows(key, "")]


def default_of(table: str, name: str) -> Any:
    """Return what stands in for a key where a plan says nothing.

    Parameters
    ----------
    table : str
        Of a plan file; empty for the head.
    name : str
        Of the key.
    """
    return KEYS[table, name].default


def unused_keys(scheme: str) -> tuple[Key, ...]:
    """Return the keys of the scheme's table that say nothing to a scheme."""
    keys = (key for key in KEYS.values() if key.table == "scheme")
    return tuple(key for key in keys if key.schemes and scheme not in key.schemes)


def _rows(key: Key, above: str) -> Iterator[Row]:
    name = f"{above}{key.name}"
    yield Row(
        key.table,
        name,
        key.meaning,
        "share" if key.kind == SHARE else key.unit,
        _range(key),
        _default(key),
        ", ".join(key.schemes) or "all",
    )
    inner = keys_of(key.holds, key.table).values() if key.holds else ()
    for one in inner:
        yield from _rows(one, f"{name}.")


def _range(key: Key) -> str:
    """Return a key's range or choices; what would be right where it has neither."""
    each = f", or one for each {key.each}" if key.each else ""
    if "{}" not in key.right:
        return str(key.remedy).removeprefix("give ")
    return f"{key.range_text or key.span}{each}"


def _default(key: Key) -> str:
    if key.otherwise or key.default is None:
        return key.otherwise
    value = key.default
    if isinstance(value, tuple):
        return f"[{', '.join(map(str, value))}]"
    return value if isinstance(value, str) else f"{value:g}"
