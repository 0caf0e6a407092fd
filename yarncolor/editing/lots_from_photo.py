"""From readings to lots of a plan: all boxes on fibre at once, or none, with every fault told."""

from collections import Counter
from dataclasses import dataclass, field, replace

from yarncolor.colour.photo.annotations import Annotation
from yarncolor.colour.photo.lots import lot_from, with_lot
from yarncolor.colour.photo.readings import Seen
from yarncolor.editing.fault_words import in_row_words
from yarncolor.editing.new_plan import has_no_lots_yet
from yarncolor.editing.sequence import is_closed, with_new_lots, with_new_parts
from yarncolor.errors import Fault, Path, PlanError
from yarncolor.measures import measures_of
from yarncolor.plan import Lot, Plan, Scheme, to_data
from yarncolor.planfile.read import plan_changed

NOTHING_TAKEN = "Nothing was taken: mend what is marked first."


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
    read = [mark for mark in marks if mark.key in seen.readings]
    faults = {**seen.faults, **_named_twice(read)}
    taken = [mark for mark in read if mark.key not in faults]
    try:
        after = _with_lots(plan, taken, seen)
    except PlanError as error:
        faults |= _by_box(error, plan, taken)
    if faults or len(read) < len(marks):
        return TakenLots(plan, NOTHING_TAKEN, faults)
    return TakenLots(after, _words(plan, after, marks))


def _named_twice(marks: list[Annotation]) -> dict[str, str]:
    count = Counter(mark.name for mark in marks)
    told = "name: another box has that name too; give each lot its own"
    return {mark.key: told for mark in marks if mark.name and count[mark.name] > 1}


def _with_lots(plan: Plan, marks: list[Annotation], seen: Seen) -> Plan:
    """Return a plan, proved, with the lot of every box; new ones as `with_new_lots` has them."""
    lots = [_lot(mark, seen) for mark in marks]
    new = tuple(lot for lot in lots if lot.name not in plan.names)
    begins = _begins(plan, marks)
    for lot in lots:
        if lot.name in plan.names:
            plan = with_lot(plan, lot)
    there = () if begins else plan.lots
    after = replace(plan, lots=(*there, *new), scheme=_followed_by(plan.scheme, new))
    return plan_changed(after, to_data(after), "")


def _begins(plan: Plan, marks: list[Annotation]) -> bool:
    """Return whether the boxes take the place of the lot that a new plan began with."""
    return (
        bool(marks) and has_no_lots_yet(plan) and not {mark.name for mark in marks} & {*plan.names}
    )


def _lot(mark: Annotation, seen: Seen) -> Lot:
    if seen.correction is None:
        raise ValueError("nothing is read of a photograph before it is put right")
    mass_g = max(mark.mass_g or 0.0, 0.0)  # a lot of less than nothing is none; 0 is refused
    return lot_from(mark.name, mass_g, seen.readings[mark.key], seen.correction)


def _followed_by(scheme: Scheme, new: tuple[Lot, ...]) -> Scheme:
    """Return a scheme with new lots last in its order, before the lot that closes it."""
    names = [lot.name for lot in new]
    if scheme.to is not None:
        return replace(scheme, to=(*scheme.to, *names))
    if scheme.sequence is None:
        return scheme
    parts = scheme.parts and tuple(with_new_parts(scheme.sequence, scheme.parts, names))
    sequence = tuple(with_new_lots(scheme.sequence, names))
    return replace(scheme, sequence=sequence, parts=parts)


def _by_box(error: PlanError, plan: Plan, marks: list[Annotation]) -> dict[str, str]:
    """Return faults by the boxes that they come from, each with its field or its place."""
    new = (mark for mark in marks if mark.name not in plan.names)
    first = 0 if _begins(plan, marks) else len(plan.own_lots)
    boxes = {first + at: mark for at, mark in enumerate(new)}
    boxes |= {plan.names.index(mark.name): mark for mark in marks if mark.name in plan.names}
    told, say = dict[str, str](), measures_of(plan)
    fields: dict[Path, str] = {("name",): "name", ("mass_g",): say.mass.plural}
    for fault in error.faults:
        if fault.path[:2] == ("scheme", "sequence") and len(fault.path) > 2:
            continue  # a name that cannot be is told where the lot gets it
        key = _box_of(fault, plan, boxes).key
        remedy = in_row_words(fault.remedy, say)
        words = f"{fields.get(fault.path[2:], fault.place)}: {remedy}"
        told[key] = f"{told[key]}; {words}" if key in told else words
    return told


def _box_of(fault: Fault, plan: Plan, boxes: dict[int, Annotation]) -> Annotation:
    """Return the box of a faulty lot, else that of one it is made from, else the last of all."""
    match fault.path:
        case ("lots", int(row), *_) if row in boxes:
            return boxes[row]
        case ("lots", int(row), *_) if row < len(plan.own_lots):
            sources = plan.lots[row].made_from
            return next((box for box in boxes.values() if box.name in sources), _last(boxes))
    return _last(boxes)


def _last(boxes: dict[int, Annotation]) -> Annotation:
    return boxes[max(boxes)]


def _words(before: Plan, after: Plan, marks: tuple[Annotation, ...]) -> str:
    known = [mark.name for mark in marks if mark.name in before.names]
    mass = measures_of(before).mass
    new = [
        f"{mark.name} ({mass.given(mark.mass_g or 0.0)})"
        for mark in marks
        if mark.name not in before.names
    ]
    told = []
    if new:
        told.append(f"Taken into the plan: {', '.join(new)}.")
    if known:
        told.append(
            f"Taken for lots that were there, whose {mass.plural} stay: {', '.join(known)}."
        )
    if new and after.scheme.sequence is not None:
        place = ", before the lot that closes it" * is_closed(after.scheme.sequence)
        told.append(f"New lots come last in the order{place}.")
    return " ".join([*told, "Save when done."])
