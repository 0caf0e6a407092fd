"""From readings to lots of a plan: all boxes on fibre at once, or none, with every fault told."""

from collections import Counter
from dataclasses import dataclass, field, replace

from yarncolor.colour.photo.annotations import Annotation
from yarncolor.colour.photo.lots import lot_from, with_lot
from yarncolor.colour.photo.readings import Seen
from yarncolor.errors import PlanError
from yarncolor.plan import Plan, to_data
from yarncolor.planfile.read import plan_from_data

NOTHING_TAKEN = "Nothing was taken: mend what is marked first."
_FIELDS = {("name",): "name", ("mass_g",): "grams"}


@dataclass(frozen=True)
class TakenLots:
    """A plan with the lots of a photograph.

    Parameters
    ----------
    plan : Plan
        With its new lots and colours; as it was where anything is at fault.
    words : str
        What was taken.
    faults : dict of str to str
        By the key of the box on fibre.
    """

    plan: Plan
    words: str
    faults: dict[str, str] = field(default_factory=dict)


def lots_from_annotations(plan: Plan, seen: Seen) -> TakenLots:
    """Return a plan with a lot for each box on fibre.

    A lot of the plan that has the name already gets the colour and keeps its grams.

    Parameters
    ----------
    plan : Plan
        Where the lots go.
    seen : Seen
        What was read.
    """
    marks = seen.marks.of("fibre")
    if not marks and not seen.faults:
        return TakenLots(plan, "Draw a box on the fibre first, and give it a name.")
    count = Counter(mark.name for mark in marks)
    found, faults = plan, dict(seen.faults)
    for mark in marks:
        if mark.key not in seen.readings:
            continue
        if mark.name and count[mark.name] > 1:
            faults[mark.key] = "name: another box has that name too; give each lot its own"
            continue
        try:
            found = _with(found, mark, seen)
        except PlanError as error:
            faults[mark.key] = _on_its_row(error)
    if faults or len(seen.readings) < len(marks):
        return TakenLots(plan, NOTHING_TAKEN, faults)
    return TakenLots(_in_order(plan, found), _words(plan, found, marks))


def _in_order(before: Plan, after: Plan) -> Plan:
    """Return a plan whose new lots come last in its order, where it has one of its own."""
    scheme = after.scheme
    if scheme.sequence is None:
        return after
    new = after.names[len(before.names) :]
    parts = scheme.parts and (*scheme.parts, *(1.0 for _ in new))
    return replace(after, scheme=replace(scheme, sequence=(*scheme.sequence, *new), parts=parts))


def _with(plan: Plan, mark: Annotation, seen: Seen) -> Plan:
    """Return a plan, proved, with the lot of one box."""
    reading = seen.readings[mark.key]
    mass_g = max(mark.mass_g or 0.0, 0.0)  # a lot of less than nothing is none; 0 is refused
    lot = lot_from(mark.name, mass_g, reading, seen.correction)
    return plan_from_data(to_data(with_lot(plan, lot)), "")


def _on_its_row(error: PlanError) -> str:
    """Return faults of a lot as they stand beside its box: the field and what would be right."""
    return "; ".join(
        f"{_FIELDS.get(fault.path[-1:], fault.place)}: {fault.remedy}" for fault in error.faults
    )


def _words(before: Plan, after: Plan, marks: tuple[Annotation, ...]) -> str:
    known = [mark.name for mark in marks if mark.name in before.names]
    new = [f"{mark.name} ({mark.mass_g:g} g)" for mark in marks if mark.name not in before.names]
    told = []
    if new:
        told.append(f"Taken into the plan: {', '.join(new)}.")
    if known:
        told.append(f"Taken for lots that were there, whose grams stay: {', '.join(known)}.")
    if new and after.scheme.sequence is not None:
        told.append("New lots come last in the order.")
    return " ".join([*told, "Save when done."])
