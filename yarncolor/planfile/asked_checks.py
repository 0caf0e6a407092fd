"""Checks of what was decided for the rows still to spin, beside rows, plies and lots."""

from typing import Any

import numpy as np

from yarncolor.errors import Path, suggestion
from yarncolor.layout.layout import PlannedRows
from yarncolor.plan import Plan
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import predicate

_OF_PULL_OFF = {"ply": "the number of a ply", "length_m": "metres drawn off"}


def entry_faults(reading: Reading, rows: dict[str, list[dict[str, Any]]]) -> FaultIterator:
    """Return place and remedy of each fault of an entry by itself.

    Parameters
    ----------
    reading : Reading
        The file being read.
    rows : dict of str to list
        What is right in each table that stands there many times.
    """
    for number, entry in enumerate(rows["to_spin"]):
        yield from _entry(reading, ("to_spin", number), entry)
    for number, entry in enumerate(rows["pull_off"]):
        yield from reading.missing(("pull_off", number), entry, _OF_PULL_OFF)
    for name in ("to_spin", "pull_off"):
        if rows[name] and not rows["spun"] and not reading.is_bad("spun"):
            remedy = "goes on from what lies on the bobbins; say that in [[spun]] tables"
            yield (name,), predicate(remedy)


def _entry(reading: Reading, path: Path, entry: dict[str, Any]) -> FaultIterator:
    needed = {"ply": "the number of a ply"}
    if "row" not in entry and not reading.is_bad(*path, "row"):
        needed |= {"lot": "the row that is changed, or a piece's lot", "mass_g": "a piece's grams"}
    yield from reading.missing(path, entry, needed)
    if "row" in entry:
        for key in ("lot", "after_pieces"):
            if key in entry:
                yield (*path, key), "row is given too, which has its own; leave one of the two out"
    elif entry.get("mass_g") == 0:
        yield (*path, "mass_g"), "a piece of 0 g is none; leave it out"


def faults_beside(plan: Plan, laid: PlannedRows) -> FaultIterator:
    """Return place and remedy of each entry that names what the plan does not have.

    Parameters
    ----------
    plan : Plan
        Of which no single value is at fault.
    laid : PlannedRows
        Of the plan, nothing spun.
    """
    count, names = np.diff(laid.portions.starts).tolist(), laid.resolved.plan.names
    first: dict[tuple[int, int], int] = {}
    right = f"the plan has plies 1 to {len(count)}"
    for number, drawn in enumerate(plan.pull_off):
        if drawn.ply > len(count):
            yield ("pull_off", number, "ply"), right
    for number, one in enumerate(plan.to_spin):
        if one.ply > len(count):
            yield ("to_spin", number, "ply"), right
            continue
        if one.row is not None and one.row > count[one.ply - 1]:
            rows = f"ply {one.ply} of the plan has rows 1 to {count[one.ply - 1]}"
            yield ("to_spin", number, "row"), rows
        elif one.row is not None and first.setdefault((one.ply, one.row), number) != number:
            before = first[one.ply, one.row] + 1
            yield ("to_spin", number, "row"), f"entry {before} names that row too; name it once"
        if one.lot is not None and one.lot not in names:
            close = suggestion(one.lot, names) or "; name a lot of the plan"
            yield ("to_spin", number, "lot"), f"no lot has that name{close}"
