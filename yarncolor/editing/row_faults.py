"""Faults of a plan beside the rows of its stash: which row and field each belongs to."""

from collections.abc import Sequence

from yarncolor.editing.colour_text import colour_remedy
from yarncolor.editing.fault_words import in_row_words
from yarncolor.editing.lot_fields import LOT_FIELDS
from yarncolor.editing.lot_rows import Row
from yarncolor.editing.measures import kind_words
from yarncolor.errors import Fault, PlanError
from yarncolor.measures import METRIC, Measures
from yarncolor.plan import WAYS_TO_A_COLOUR


def faults_by_field(
    error: PlanError, rows: Sequence[Row] = (), say: Measures = METRIC
) -> tuple[dict[tuple[int, str], str], list[str]]:
    """Return what is wrong by row and field, and what belongs to none, in words.

    Parameters
    ----------
    error : PlanError
        What the rows came to.
    rows : sequence of Row
        As typed.
    say : Measures
        What the plan is said in.
    """
    fields: dict[tuple[int, str], str] = {}
    rest = []
    for fault in error.faults:
        place = _field_of(fault)
        if place is None:
            rest.append(str(fault))
        else:
            words = _remedy(fault, _typed(rows, *place), say)
            fields[place] = "; ".join(filter(None, (fields.get(place), words)))
    return fields, rest


def _remedy(fault: Fault, typed: str, say: Measures) -> str:
    """Return what would be right, and what was typed where that measures another thing."""
    if fault.path[2:] == ("colour",):
        return colour_remedy(typed)
    if fault.path[2:] == ("bath", "exhaustion"):
        return "give how much of its dye a bath takes, above 0 and below 100 %"
    field = LOT_FIELDS.get(str(fault.path[-1]))
    told = kind_words(field, typed) if field else ""
    return "; ".join(filter(None, (told, in_row_words(fault.remedy, say))))


def _typed(rows: Sequence[Row], row: int, field: str) -> str:
    return str(getattr(rows[row], field)) if row < len(rows) else ""


def _field_of(fault: Fault) -> tuple[int, str] | None:
    """Return row and field of a fault, the name's for one of a whole lot; None for another's."""
    match fault.path:
        case ("lots", int(row), str(key), *_):
            field = "colour" if key in WAYS_TO_A_COLOUR else key
            return row, field if field in LOT_FIELDS else "name"
        case ("lots", int(row)):
            return row, "name"
    return None
