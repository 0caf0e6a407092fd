"""Two changes of the same lots, made at once: both are kept wherever they do not meet."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from yarncolor.editing.colour_text import renamed
from yarncolor.editing.lot_fields import LOT_FIELDS, is_same
from yarncolor.editing.lot_rows import WEIGHING, Row, weighing
from yarncolor.errors import on_one_line, truncated

_SINGLY = tuple(key for key in LOT_FIELDS if key not in WEIGHING)
_WEIGHT = "mass_g"
"""Stands for all that a lot's mass rests on, which is merged as one."""


@dataclass(frozen=True)
class Clash:
    """Where two changes meet.

    Parameters
    ----------
    row : int or None
        Which row as typed, from 0; None where it was taken out here.
    field : str
        Which field of it.
    words : str
        What the other change did.
    """

    row: int | None
    field: str
    words: str


@dataclass
class Merged:
    """Rows that hold both changes.

    Parameters
    ----------
    rows : list of Row
        Their keys are those of the lots as they are now.
    places : list of int or None
        Where each row as typed stands among them; None for one that was taken out elsewhere.
    clashes : list of Clash
        Where there are any, the rows are not to be used.
    """

    rows: list[Row] = field(default_factory=list)
    places: list[int | None] = field(default_factory=list)
    clashes: list[Clash] = field(default_factory=list)


def merged(history: Sequence[list[Row]], typed: list[Row]) -> Merged:
    """Return rows with what was typed here and what was changed elsewhere since.

    It is refused where both changed one field of one lot differently, and where one took out
    a lot that the other changed.

    Parameters
    ----------
    history : sequence of list of Row
        The lots step by step: first as they were when typing began, last as they are now.
    typed : list of Row
        What was typed; keys are those of the first rows.
    """
    now, follows = history[-1], followed(history)
    named = {history[0][at].name: now[to].name for at, to in follows.items()}
    base, typed = _called(history[0], named), _called(typed, named)
    came_from = {to: at for at, to in follows.items()}
    typed_at = {row.key: at for at, row in enumerate(typed) if row.key is not None}
    both = Merged(places=[None] * len(typed))
    for to, theirs in enumerate(now):
        at = came_from.get(to)
        if at is None:
            both.rows.append(theirs)
        elif at in typed_at:
            _take_both(both, base[at], theirs, typed[typed_at[at]], typed_at[at])
        elif _changed(base[at], theirs):
            words = f"{theirs.name}, taken out here, was changed elsewhere"
            both.clashes.append(Clash(None, "name", words))
    for at, row in enumerate(typed):
        if row.key is None:
            _put(both, row, at)
        elif row.key not in follows and _changed(base[row.key], row):
            both.clashes.append(Clash(at, "name", "taken out elsewhere meanwhile"))
    return both


def followed(history: Sequence[list[Row]]) -> dict[int, int]:
    """Return where each row of the first list is in the last; those that are gone are left out."""
    first, last = history[0], history[-1]
    now = {at: at for at in range(len(first))}
    for before, after in pairwise(history):
        step = _one_step(before, after)
        now = {at: step[to] for at, to in now.items() if to in step}
    taken = set(now.values())
    back = {row.name: to for to, row in enumerate(last) if to not in taken}
    gone = {at: row.name for at, row in enumerate(first) if at not in now}
    return now | {at: back[name] for at, name in gone.items() if name in back}


def _one_step(before: list[Row], after: list[Row]) -> dict[int, int]:
    """Return where each row is after one change: it has its name, or little else is new."""
    places = {row.name: to for to, row in enumerate(after)}
    step = {at: places[row.name] for at, row in enumerate(before) if row.name in places}
    left = sorted(set(range(len(after))) - set(step.values()))
    for at in (at for at in range(len(before)) if at not in step):
        to = next((to for to in left if _is_renamed(before, at, after, to)), None)
        if to is not None:
            step[at] = to
            left.remove(to)
    return step


def _is_renamed(before: list[Row], at: int, after: list[Row], to: int) -> bool:
    """Return whether a row under another name is the same lot.

    All the rest of it is the same, or it stands where it stood and its colour or mass is.
    """
    changed = set(_changed(before[at], after[to])) - {"name"}
    stands = at == to and len(before) == len(after)
    return not changed or (stands and not changed >= {"colour", _WEIGHT})


def _called(rows: list[Row], named: dict[str, str]) -> list[Row]:
    """Return rows whose recipes call other lots by the names they have now."""
    named = {old: new for old, new in named.items() if old != new}
    if not named:
        return rows
    return [replace(row, colour=renamed(row.colour, named)) for row in rows]


def _changed(before: Row, after: Row) -> list[str]:
    """Return the fields that differ."""
    singly = [
        key
        for key in _SINGLY
        if not is_same(LOT_FIELDS[key], getattr(before, key), getattr(after, key))
    ]
    return singly if weighing(before) == weighing(after) else [*singly, _WEIGHT]


def _take_both(both: Merged, base: Row, theirs: Row, mine: Row, at: int) -> None:
    """Put a row with both changes among the others, and say where they clash."""
    typed, differ = _changed(base, mine), _changed(theirs, mine)
    for key in set(typed) & set(_changed(base, theirs)) & set(differ):
        both.clashes.append(Clash(at, key, _said(getattr(theirs, key))))
    keys = [each for key in typed for each in (WEIGHING if key == _WEIGHT else (key,))]
    _put(both, replace(theirs, **{key: getattr(mine, key) for key in keys}), at)


def _put(both: Merged, row: Row, at: int) -> None:
    both.places[at] = len(both.rows)
    both.rows.append(row)


def _said(text: str) -> str:
    there = truncated(on_one_line(text))
    return f"changed elsewhere too: {there}" if there else "cleared elsewhere meanwhile"
