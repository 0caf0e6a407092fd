"""Faults of a plan beside the rows of its stash: which row and field each belongs to."""

from yarncolor.editing.fault_words import in_row_words
from yarncolor.editing.lot_fields import LOT_FIELDS
from yarncolor.errors import Fault, PlanError
from yarncolor.plan import WAYS_TO_A_COLOUR


def faults_by_field(error: PlanError) -> tuple[dict[tuple[int, str], str], list[str]]:
    """Return what is wrong by row and field, and what belongs to none, in words."""
    fields: dict[tuple[int, str], str] = {}
    rest = []
    for fault in error.faults:
        place = _field_of(fault)
        if place is None:
            rest.append(str(fault))
        else:
            told = (fields.get(place), in_row_words(fault.remedy))
            fields[place] = "; ".join(filter(None, told))
    return fields, rest


def _field_of(fault: Fault) -> tuple[int, str] | None:
    """Return row and field of a fault, the name's for one of a whole lot; None for another's."""
    match fault.path:
        case ("lots", int(row), str(key), *_):
            field = "colour" if key in WAYS_TO_A_COLOUR else key
            return row, field if field in LOT_FIELDS else "name"
        case ("lots", int(row)):
            return row, "name"
    return None
