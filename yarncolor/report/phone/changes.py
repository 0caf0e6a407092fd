"""What plying meets on its way: each change of colour that a hand can tell, and skeins' ends."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.colour_changes import colour_changes
from yarncolor.report.yarn_as_dict import Json

_HAND_M = 0.1
"""A hand's breadth: changes nearer than that to one another are one."""


def changes(answer: Answer) -> list[Json]:
    """Return where plies change, in metres of yarn, and where skeins end, in that order.

    Of each ply that changes: its number from 1, the lot before, the lot after.
    """
    found = [
        {"at_m": float(at_m[0]), "plies": _who(before[0], after[-1])}
        for at_m, before, after in _told_apart(*colour_changes(answer))
    ]
    ends = [{"at_m": skein.end_m, "skein": skein.number} for skein in answer.skeins[:-1]]
    meant = [change for change in found if change["plies"]]
    return sorted([*meant, *ends], key=lambda change: change["at_m"])


def _told_apart(
    at_m: np.ndarray, before: np.ndarray, after: np.ndarray
) -> list[tuple[np.ndarray, ...]]:
    """Return places, lots before and lots after, those together that lie within a hand."""
    cuts = np.flatnonzero(np.diff(at_m) > _HAND_M) + 1
    parts = zip(*(np.split(each, cuts) for each in (at_m, before, after)), strict=True)
    return [part for part in parts if len(part[0])]


def _who(before: np.ndarray, after: np.ndarray) -> list[list[int]]:
    return [
        [ply + 1, int(before[ply]), int(after[ply])]
        for ply in np.flatnonzero(before != after).tolist()
    ]
