"""What the plan file says of spinning and plying already, as the phone's page keeps it."""

from collections.abc import Iterator
from typing import Any

from yarncolor.answers.answer import Answer
from yarncolor.answers.where import where
from yarncolor.plan import Plan, Spun
from yarncolor.planfile.taken_home import entry_marks, rows_named
from yarncolor.report.yarn_as_dict import Json

_SAID = ("lot", "mass_g", "length_m", "gross_g", "bobbin", "note")


def already_spun(plan: Plan, rows: list[list[Json]]) -> list[Json]:
    """Return each piece that the plan file says was spun, in its order, one for each row.

    Parameters
    ----------
    plan : Plan
        Says so.
    rows : list of list of dict
        Of every ply, as the phone has them.
    """
    spun = plan.spun
    marks = dict(zip(map(id, spun), entry_marks(spun), strict=True))
    return [
        {
            "ply": entry.ply,
            "row": row,
            "did": "spun",
            "passed": True,
            "from": marks[id(entry)],
            **dict(_said(entry)),
            **({} if row is None else {"was": _was(plan, rows[entry.ply - 1][row - 1])}),
        }
        for entry, row in rows_named(spun)
    ]


def _said(entry: Spun) -> Iterator[tuple[str, Any]]:
    for key in _SAID:
        if getattr(entry, key):
            yield key, getattr(entry, key)
    if entry.sample is not None:
        yield "sample_m", entry.sample.length_m
        yield "sample_g", entry.sample.mass_g
    if entry.on is not None:
        yield "on", entry.on.isoformat()


def _was(plan: Plan, row: Json) -> list[Any]:
    return [plan.names[row["lot"]], row["put_g"]]


def already_plied(answer: Answer) -> Json | None:
    """Return how much yarn is plied by the plan file, and which single ended; None for neither.

    A length that the file gives stays what it is; by turns or a weight it is a whole tenth.
    """
    found, ended, plied = where(answer), answer.layout.ended, answer.plan.plied
    if found is None or plied is None:
        return None
    told: Json = {"so_far_m": plied.so_far_m or _tenths(answer, found.yarn_m)}
    if ended is not None:
        at_m = plied.at_m or _tenths(answer, ended.at_m)
        told["ended"] = {"ply": ended.ply + 1, "at_m": at_m}
    return told


def _tenths(answer: Answer, length_m: float) -> float:
    length = answer.say.length
    return length.meant(length.number(length_m))
