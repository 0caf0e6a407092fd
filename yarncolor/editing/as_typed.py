"""What was typed, seen again: "1 oz" stays 1 oz for as long as the plan has just that.

A number that a field would have to round is shown as it was typed; any other as a plain number.
"""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from yarncolor.editing.lot_fields import LOT_FIELDS, lot_fields
from yarncolor.editing.lot_rows import Row, rows_of
from yarncolor.editing.option_text import format_value, parse_value
from yarncolor.errors import PlanError
from yarncolor.measures import measures_of
from yarncolor.plan import Lot, Plan
from yarncolor.plan.key import NUMBER, SHARE, Key

_MEASURED = tuple(name for name, key in LOT_FIELDS.items() if key.kind in (NUMBER, SHARE))


def seen_again(key: Key, value: Any, typed: str) -> str:
    """Return what a field shows of a value: what was typed for it, where that says it better.

    Parameters
    ----------
    key : Key
        Of the field.
    value : any
        As the file has it.
    typed : str
        What was typed there last; empty for nothing.
    """
    plain = format_value(key, value)
    if typed and not _says(key, plain, value) and _says(key, typed, value):
        return typed
    return plain


def _says(key: Key, text: str, value: Any) -> bool:
    try:
        return bool(parse_value(key, text) == value)
    except PlanError:
        return False


@dataclass(frozen=True)
class TypedLots:
    """What was typed of numbers of lots, by the lot's name and the field.

    Parameters
    ----------
    texts : mapping of pairs to str
        As typed.
    """

    texts: Mapping[tuple[str, str], str]

    def heard(self, rows: Iterable[Row]) -> "TypedLots":
        """Return it with what stands in rows as they were typed."""
        told = {(row.name.strip(), name): getattr(row, name) for row in rows for name in _MEASURED}
        return TypedLots({**self.texts, **told})

    def rows(self, plan: Plan) -> list[Row]:
        """Return a plan's lots as rows, numbers as they were typed."""
        pairs, own = zip(rows_of(plan), plan.own_lots, strict=True), lot_fields(measures_of(plan))
        return [replace(row, **self._seen(lot, own)) for row, lot in pairs]

    def _seen(self, lot: Lot, own: Mapping[str, Key]) -> dict[str, Any]:
        return {
            name: seen_again(own[name], getattr(lot, name), typed)
            for name in _MEASURED
            if (typed := self.texts.get((lot.name, name)))
            if getattr(lot, name)
        }


def as_shown(plan: Plan, rows: Iterable[Row]) -> list[Row]:
    """Return rows in which a number that is just the plan's stands as the plan's rows have it.

    Parameters
    ----------
    plan : Plan
        That the rows were shown of.
    rows : iterable of Row
        As typed.
    """
    shown, fields = rows_of(plan), lot_fields(measures_of(plan))
    return [
        row
        if row.key is None
        else replace(row, **_untouched(row, plan.lots[row.key], shown, fields))
        for row in rows
    ]


def _untouched(row: Row, lot: Lot, shown: list[Row], fields: Mapping[str, Key]) -> dict[str, Any]:
    own = asdict(shown[row.key]) if row.key is not None else {}
    return {
        name: own[name]
        for name in _MEASURED
        if getattr(row, name) != own[name] and own[name]
        if _says(fields[name], getattr(row, name), getattr(lot, name))
    }
