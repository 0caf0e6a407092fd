"""What a phone took home from the wheel, brought into its plan."""

import json
from collections import Counter, deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any
from zlib import crc32

from yarncolor.errors import Fault, PlanError, quoted
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.layout.rows_mark import rows_mark
from yarncolor.phrases import title_of
from yarncolor.plan import Plan, Spun, to_data
from yarncolor.planfile.read import plan_changed
from yarncolor.planfile.taken_text import TakenTable, TakenText, taken_text
from yarncolor.planfile.toml_text import parsed

_ANEW = (
    "write wheel.html of the plan as it is now and open it on the phone, where the ticks stay; "
    "take home from there"
)
_HOW_FAR, _THE_END = ("so_far_m", "turns", "gross_g"), ("ended_ply", "at_m", "at_gross_g")
_Rows = dict[tuple[int, int], Spun]


@dataclass(frozen=True)
class BroughtHome:
    """A plan with what was taken home, and what it said otherwise before.

    Parameters
    ----------
    plan : Plan
        With what lies on the bobbins and how much is plied.
    overruled : tuple of tuple of int
        Ply and row, both from 1, of which it said otherwise before and the phone had not seen it.
    """

    plan: Plan
    overruled: tuple[tuple[int, int], ...]


def entry_marks(spun: tuple[Spun, ...]) -> tuple[str, ...]:
    """Return a mark of each entry of a plan file, by which a phone says that it has seen it."""
    before: Counter[str] = Counter()
    marks = []
    for entry in spun:
        text = json.dumps(to_data(entry), sort_keys=True, default=str)
        marks.append(f"{crc32(f'{text} {before[text]}'.encode()):08x}")
        before[text] += 1
    return tuple(marks)


def rows_named(spun: Iterable[Spun]) -> Iterator[tuple[Spun, int | None]]:
    """Return each entry with the row that it names, once for every row; None for an extra piece."""
    named: dict[int, set[int]] = {}
    for entry in spun:
        own = named.setdefault(entry.ply, set())
        rows: list[int | None] = [entry.row]
        if entry.through is not None:
            rows = [row for row in range(1, entry.through + 1) if row not in own]
        own.update(row for row in rows if row is not None)
        for row in rows:
            yield entry, row


def brought_home(text: str, plan: Plan, file: str = "taken home") -> BroughtHome:
    """Return a plan with what its phone took home, every table where its ply has it.

    Entries of the plan that the phone has not seen are never dropped.

    Parameters
    ----------
    text : str
        As the phone gave it.
    plan : Plan
        The plan that it is of.
    file : str
        How faults name the text.

    Raises
    ------
    PlanError
        Where the text was cut off or changed, is of other rows, or says what cannot be; one line
        for each fault, with the line of the text.
    """
    taken, faults = taken_text(text, file)
    faults += _of_another(taken, plan, file)
    tables, unread = _data_of(taken, file)
    faults += unread
    if faults:
        raise PlanError(faults)
    found = _checked(taken, tables, plan, file)
    if unseen := list(_unseen(found.spun, plan.spun, taken.known)):
        raise PlanError(Fault(file, place, "", remedy) for place, remedy in unseen)
    merged = replace(plan, spun=_in_file_order(plan.spun, found.spun), plied=found.plied)
    return BroughtHome(merged, tuple(_overruled(found.spun, plan.spun, taken.known)))


def _of_another(taken: TakenText, plan: Plan, file: str) -> Iterator[Fault]:
    title, line = title_of(plan), taken.title_line
    if plan.title and taken.title != title:
        remedy = f"is of another plan; this one is called {quoted(title)}"
        yield Fault(f"{file}, line {line}", "plan", quoted(taken.title), remedy)
        return
    laid = layout(resolve(plan.before_the_wheel))
    if taken.rows_mark != rows_mark(laid.planned, laid.resolved.plan.names):
        place = f"{file}, line {line + 1}"
        yield Fault(place, "rows", "", f"are not those of the plan, which was changed; {_ANEW}")


def _data_of(taken: TakenText, file: str) -> tuple[dict[str, Any], list[Fault]]:
    """Return the tables as a plan file has them, and what in them cannot be read."""
    data: dict[str, Any] = {"spun": []}
    faults = []
    for table in taken.tables:
        try:
            found = parsed(table.text, file)
        except PlanError as error:
            remedy = error.faults[0].remedy
            faults.append(Fault(f"{file}, line {table.lines[0][0]}", table.name, "", remedy))
            continue
        data["spun"] += found.get("spun", [])
        data |= {"plied": found["plied"]} if "plied" in found else {}
    return data, faults


def _checked(taken: TakenText, tables: dict[str, Any], plan: Plan, file: str) -> Plan:
    """Return the plan with the tables alone; faults are told where they stand in the text."""
    data = to_data(plan)
    if "plied" in tables:
        tables = tables | {"plied": _besides(data.get("plied", {}), tables["plied"])}
    try:
        return plan_changed(plan, data | tables, file)
    except PlanError as error:
        raise PlanError(_in_text(fault, taken, file) for fault in error.faults) from None


def _besides(known: dict[str, Any], told: dict[str, Any]) -> dict[str, Any]:
    """Return what is told of the plying, and what the plan said of other things beside it.

    Parameters
    ----------
    known, told : dict
        What the plan said; what the phone took home.
    """
    anew = (*_HOW_FAR, *(_THE_END if "ended_ply" in told else ()))
    return {key: value for key, value in known.items() if key not in anew} | told


def _in_text(fault: Fault, taken: TakenText, file: str) -> Fault:
    name, *rest = fault.path or ("",)
    own = [table for table in taken.tables if table.name == name]
    at, keys = (int(rest[0]), rest[1:]) if name == "spun" and rest else (0, rest)
    if at >= len(own):
        return fault
    return _at_line(fault, own[at], str(keys[0]) if keys else "", file)


def _at_line(fault: Fault, table: TakenTable, key: str, file: str) -> Fault:
    place = f"{table.name}: {key}" if key else table.name
    return Fault(f"{file}, line {table.line_of(key)}", place, fault.value, fault.remedy)


def _said_of(entry: Spun) -> tuple[Any, ...]:
    """Return what an entry says of its piece, whatever the day and the note."""
    return (entry.lot, entry.mass_g, entry.length_m, entry.sample, entry.gross_g)


def _of_rows(spun: Iterable[Spun]) -> _Rows:
    return {(entry.ply, row): entry for entry, row in rows_named(spun) if row is not None}


def _extras(spun: Iterable[Spun]) -> Counter[tuple[Any, ...]]:
    extra = (entry for entry, row in rows_named(spun) if row is None)
    return Counter((entry.ply, *_said_of(entry)) for entry in extra)


def _unseen(
    found: tuple[Spun, ...], before: tuple[Spun, ...], known: frozenset[str]
) -> Iterator[tuple[str, str]]:
    """Yield what the plan says was spun and the phone never saw, with what to do."""
    rows, extras = _of_rows(found), _extras(found)
    marks = dict(zip(map(id, before), entry_marks(before), strict=True))
    for entry, row in rows_named(before):
        if row is None:
            extras.subtract([(entry.ply, *_said_of(entry))])
            is_there, place = extras[entry.ply, *_said_of(entry)] >= 0, "a piece too many"
        else:
            is_there = (entry.ply, row) in rows or f"r{entry.ply}.{row}" in known
            place = f"row {row}"
        if not is_there and marks[id(entry)] not in known:
            yield (
                f"ply {entry.ply}, {place}",
                f"is spun by the plan file, and the phone has not seen that; {_ANEW}",
            )


def _overruled(
    found: tuple[Spun, ...], before: tuple[Spun, ...], known: frozenset[str]
) -> Iterator[tuple[int, int]]:
    rows, marks = _of_rows(found), dict(zip(map(id, before), entry_marks(before), strict=True))
    for place, entry in _of_rows(before).items():
        now = rows.get(place)
        if now and _said_of(now) != _said_of(entry) and marks[id(entry)] not in known:
            yield place


def _in_file_order(before: tuple[Spun, ...], found: tuple[Spun, ...]) -> tuple[Spun, ...]:
    """Return what was found in its own order ply by ply, and beside one another as it stood."""
    waiting: dict[int, deque[Spun]] = {}
    for entry in found:
        waiting.setdefault(entry.ply, deque()).append(entry)
    left, ordered = Counter(found), list[Spun]()
    for entry in before:
        own = waiting.get(entry.ply, deque())
        while left[entry]:
            ordered.append(own.popleft())
            left[ordered[-1]] -= 1
            if ordered[-1] == entry:
                break
    return (*ordered, *(entry for own in waiting.values() for entry in own))
