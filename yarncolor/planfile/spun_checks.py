"""Checks of what was spun: each entry by itself, then beside rows, lots and bobbins."""

from typing import Any

import numpy as np

from yarncolor.errors import Path, suggestion
from yarncolor.layout.empty_bobbins import empty_bobbins
from yarncolor.layout.layout import PlannedRows, planned_rows
from yarncolor.layout.named_pieces import NamedPieces, named_pieces
from yarncolor.layout.resolved import resolve
from yarncolor.layout.scale_readings import Misread, WrongReading, read_bobbins
from yarncolor.phrases import join_first
from yarncolor.plan import Plan
from yarncolor.planfile.asked_checks import entry_faults, faults_beside
from yarncolor.planfile.given import GivenPlan
from yarncolor.planfile.plied_checks import end_faults, plied_faults
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import Amount, InFile, KeyName, Remedy, predicate, said

_BESIDE_THROUGH = ("ply", "through", "bobbin", "on", "note")
_OF_A_PIECE = ("mass_g", "length_m", "gross_g")
_TARE = KeyName("bobbins", "tare_g")
_OF_LOST = {"lot": "the name of a lot", "mass_g": "grams"}
_MOST_NAMED = 4
_TAKEN_BACK = "take it back at the wheel first"


def faults(reading: Reading, given: GivenPlan) -> FaultIterator:
    """Return place and remedy of each fault of what was spun, lost and plied, by itself.

    Parameters
    ----------
    reading : Reading
        The file being read; every fault but these is told.
    given : GivenPlan
        Its tables.
    """
    for number, entry in enumerate(given.rows["spun"]):
        yield from _entry(reading, ("spun", number), entry)
    yield from entry_faults(reading, given.rows)
    for number, entry in enumerate(given.rows["lost"]):
        yield from reading.missing(("lost", number), entry, _OF_LOST)
    yield from plied_faults(reading, given.tables)


def faults_beside_rows(reading: Reading, given: GivenPlan) -> FaultIterator:
    """Return place and remedy of each fault of what was spun beside the plan's rows.

    They are looked at where nothing else of the file is at fault.

    Parameters
    ----------
    reading : Reading
        The file being read; every fault but these is told.
    given : GivenPlan
        Its tables.
    """
    said_of_it = any(given.rows.values()) or given.tables.plied is not None
    if said_of_it and not reading.faults:
        yield from _beside_the_plan(given.plan)


def _entry(reading: Reading, path: Path, entry: dict[str, Any]) -> FaultIterator:
    yield from reading.missing(path, entry, {"ply": "the number of a ply"})
    if "through" in entry:
        yield from _through(path, entry)
    elif "row" not in entry and not reading.any_bad(path, ("row", "through")):
        yield from _extra(reading, path, entry)


def _through(path: Path, entry: dict[str, Any]) -> FaultIterator:
    if "row" in entry:
        yield (*path, "row"), "through is given too; give one of the two"
        return
    for key in entry:
        if key not in _BESIDE_THROUGH:
            remedy = (
                "through takes rows as planned; give the row that this is said of its own table"
            )
            yield (*path, key), remedy


def _extra(reading: Reading, path: Path, entry: dict[str, Any]) -> FaultIterator:
    if "lot" not in entry and not reading.is_bad(*path, "lot"):
        yield (*path, "lot"), predicate("is missing; give the row that was spun, or a piece's lot")
    elif not set(entry) & set(_OF_A_PIECE) and not reading.any_bad(path, _OF_A_PIECE):
        remedy = "is missing; a piece that is no row needs its grams, its metres or a weight"
        yield (*path, "mass_g"), predicate(remedy)


def _beside_the_plan(plan: Plan) -> FaultIterator:
    laid = planned_rows(resolve(plan.before_the_wheel))
    told = [
        *_plies(plan, laid),
        *_rows(plan, laid),
        *_lots(plan, laid.resolved.plan.names),
        *_bobbins(plan),
        *faults_beside(plan, laid),
    ]
    told = told or list(_readings(plan, laid))
    yield from told
    if plan.plied is not None:
        yield from end_faults(plan, plies=len(laid.resolved.tex), is_laid=not told)


def _plies(plan: Plan, laid: PlannedRows) -> FaultIterator:
    plies = len(laid.resolved.tex)
    has = f"the plan has plies 1 to {plies}" if plies > 1 else "the plan has one single"
    right = "name one of them" if plies > 1 else "give ply 1"
    for number, one in enumerate(plan.spun):
        if one.ply > plies:
            in_form = f"something is spun on ply {one.ply} already, and so {has}; {_TAKEN_BACK}"
            yield ("spun", number, "ply"), said("{told}", told=InFile(f"{has}; {right}", in_form))


def _rows(plan: Plan, laid: PlannedRows) -> FaultIterator:
    """Yield rows that the plan does not have, and those that are named a second time."""
    count = np.diff(laid.portions.starts).tolist()
    first: dict[tuple[int, int], int] = {}
    through: dict[int, tuple[int, int]] = {}
    for number, one in enumerate(plan.spun):
        key, row = ("row", one.row) if one.through is None else ("through", one.through)
        if row is None or one.ply > len(count):
            continue
        reached, by = through.get(one.ply, (0, number))
        if row > count[one.ply - 1]:
            yield ("spun", number, key), _rows_now(one.ply, row, count[one.ply - 1])
        elif one.through is not None:
            through[one.ply] = (row, number) if row > reached else (reached, by)
        else:
            before = by if row <= reached else first.setdefault((one.ply, row), number)
            if before != number:
                yield ("spun", number, key), f"entry {before + 1} names that row too; name it once"


def _rows_now(ply: int, row: int, count: int) -> Remedy:
    rows = f"rows 1 to {count} now; name one of them" if count > 1 else "row 1 alone now"
    so = f"rows 1 to {count}" if count > 1 else "row 1 alone"
    in_form = f"row {row} of ply {ply} is spun already, and so it has {so}; {_TAKEN_BACK}"
    return said("{told}", told=InFile(f"ply {ply} of the plan has {rows}", in_form))


def _lots(plan: Plan, names: tuple[str, ...]) -> FaultIterator:
    spun = ((("spun", at), one.lot, f"spun on ply {one.ply}") for at, one in enumerate(plan.spun))
    lost = ((("lost", at), one.lot, "among what was lost") for at, one in enumerate(plan.lost))
    for path, lot, there in (*spun, *lost):
        if lot is not None and lot not in names:
            close = suggestion(lot, names) or "; name a lot of the plan"
            in_form = f"{lot} is {there} already, and so no lot has that name; {_TAKEN_BACK}"
            yield (
                (*path, "lot"),
                said("{told}", told=InFile(f"no lot has that name{close}", in_form)),
            )


def _bobbins(plan: Plan) -> FaultIterator:
    """Yield bobbins that are not filled one after the other, from 1."""
    last: dict[int, int] = {}
    for number, one in enumerate(plan.spun):
        before = last.get(one.ply, 0)
        bobbin = one.bobbin or max(before, 1)
        if not max(before, 1) <= bobbin <= before + 1:
            right = f"give {before} or {before + 1}" if before else "give 1"
            remedy = f"{right}; a ply's own bobbins are counted from 1, as they are filled"
            yield ("spun", number, "bobbin"), remedy
        else:
            last[one.ply] = bobbin


def _readings(plan: Plan, laid: PlannedRows) -> FaultIterator:
    named, loss = named_pieces(plan.spun), laid.resolved.spin_loss
    empty = empty_bobbins(laid.resolved, laid.portions)
    _, every = read_bobbins(named, empty, loss)
    for wrong in every:
        yield ("spun", int(named.entry[wrong.piece]), "gross_g"), _remedy(wrong, named)


def _remedy(wrong: WrongReading, named: NamedPieces) -> Remedy:
    match wrong.why:
        case Misread.NO_TARE:
            return said("give {tare} too, what that bobbin weighs empty", tare=_TARE)
        case Misread.BELOW_TARE:
            return said("it is below the empty bobbin, {than}", than=Amount(wrong.than_g, "g"))
        case Misread.BELOW_BEFORE:
            return said("it is below the reading before it, {than}", than=Amount(wrong.than_g, "g"))
    stated = ", and {told} are stated of others" if wrong.than_g else ""
    return said(
        f"{{since}} were weighed out since the reading before{stated}; "
        "nothing is left for {rest}",
        since=Amount(wrong.since_g, "g"),
        told=Amount(wrong.than_g, "g"),
        rest=_without_grams(wrong, named),
    )


def _without_grams(wrong: WrongReading, named: NamedPieces) -> str:
    own = np.arange(wrong.first, wrong.piece + 1)
    rows = named.row[own][np.isnan(named.mass_g[own])].tolist()
    return join_first(
        [f"row {row}" if row else "a piece that is no row" for row in rows], _MOST_NAMED
    )
