"""A way to mend something, as data: what it is called, what it costs, what it changes."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

Change = tuple[tuple[str, str, Any], ...]
"""Keys of a plan file by table, with their new values, lists as tuples; None takes a key away."""


@dataclass(frozen=True)
class Merge:
    """Two lots become one."""

    kept: str
    gone: str


@dataclass(frozen=True)
class Part:
    """Two lots no longer lie side by side in the order."""

    one: str
    other: str


@dataclass(frozen=True)
class Recount:
    """A lot is carded into another number of rolags, of the same grams in all."""

    lot: str
    rolags: int


OfLots = Merge | Part | Recount


@dataclass(frozen=True)
class Way:
    """One way to mend something.

    Parameters
    ----------
    choice : str
        What to choose.
    key : str
        Its word in the plan file, where it has one.
    cost : str
        What it costs.
    change : Change
        What it changes in the plan's tables.
    of_lots : OfLots, optional
        What it changes about lots, or about their order, in its place.
    """

    choice: str
    key: str = ""
    cost: str = ""
    change: Change = ()
    of_lots: OfLots | None = None


Told = tuple[str, tuple[Way, ...], tuple[Way, ...]]
"""What to know, with its ranked ways to mend it and those that the words tell of."""


def wound_off(choice: str, times: int | Sequence[int]) -> Way:
    """Return winding bobbins off so often.

    Parameters
    ----------
    choice : str
        What it is called.
    times : int or sequence of int
        0 or more: of every bobbin, or of each ply.
    """
    return Way(choice, change=(("plying", "wound_off", _each(times)),))


def _each(times: int | Sequence[int]) -> int | tuple[int, ...] | None:
    return (times or None) if isinstance(times, int) else tuple(times)


def turned_round(choice: str, plies: Sequence[int], **others: Any) -> Way:
    """Return spinning some plies in reverse order.

    Parameters
    ----------
    choice : str
        What it is called.
    plies : sequence of int
        All that are, from 1.
    others : dict
        Keys of plying that change with it, lists as tuples.
    """
    own = ("scheme", "reversed_plies", tuple(sorted(plies)))
    return Way(choice, change=(own, *(("plying", key, value) for key, value in others.items())))


def tables_of(change: Change) -> dict[str, dict[str, Any]]:
    """Return a change as keys with their new values, by table."""
    tables: dict[str, dict[str, Any]] = {}
    for table, key, value in change:
        tables.setdefault(table, {})[key] = list(value) if isinstance(value, tuple) else value
    return tables
