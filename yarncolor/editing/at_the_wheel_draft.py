"""What is typed of a piece and not in the plan yet, with what is wrong in a spinner's words."""

from yarncolor.editing.at_the_wheel import (
    PIECE_FIELDS,
    TARE,
    checked,
    field_name,
    option_of_field,
    with_typed,
)
from yarncolor.editing.at_the_wheel_pieces import PieceKey
from yarncolor.editing.draft import Draft, Unfit, settled
from yarncolor.editing.editor import Editor
from yarncolor.editing.fault_words import in_form_words
from yarncolor.editing.field_units import in_units
from yarncolor.editing.measures import kind_words
from yarncolor.errors import Fault, PlanError
from yarncolor.measures import Measures, measures_of
from yarncolor.plan import Plan


def put_typed(editor: Editor, draft: Draft, name: str, text: str) -> Draft:
    """Put what was typed of a piece into the plan, with all that waited; return what is left.

    Parameters
    ----------
    editor : Editor
        The plan; it takes one step where it can.
    draft : Draft
        What was typed before.
    name : str
        Of the field, as `field_name` has it, or of what an empty bobbin weighs.
    text : str
        As typed.
    """
    option = option_of_field(name) or TARE

    def take(texts: dict[str, str]) -> list[Unfit]:
        plan = editor.plan
        try:
            plan = with_typed(plan, texts)
            editor.say_spun(checked(plan))
        except PlanError as error:
            return [
                Unfit.of(fault, fault_beside(fault, plan, name), measures_of(plan))
                for fault in error.faults
            ]
        return []

    return settled(draft, {name: text}, take, kind_words(option, text))


def fault_beside(fault: Fault, plan: Plan, name: str = "") -> str:
    """Return what would be right, and of which piece where it is another than the field's.

    Parameters
    ----------
    fault : Fault
        Of the plan as it was typed.
    plan : Plan
        That plan.
    name : str
        Of the field; empty for none.
    """
    say = measures_of(plan)
    remedy = in_form_words(fault.remedy, say)
    match fault.path:
        case ("spun", int(entry), *keys) if entry < len(plan.spun):
            field = str(keys[0]) if keys else ""
            key = _key_of_entry(plan, entry)
            if name == field_name(key, field):
                return remedy
            return f"{piece_words(key)}{_field_words(field, say)}: {remedy}"
        case (str(), str(), *_) if ".".join(map(str, fault.path[:2])) == name:
            return remedy
    return f"{fault.place}: {remedy}" if len(fault.path) > 1 else remedy


def piece_words(key: PieceKey) -> str:
    """Return which piece it is: ``ply 2, row 14``."""
    what = f"row {key.row}" if key.row else f"piece too many {key.extra}"
    return f"ply {key.ply}, {what}"


def _field_words(field: str, say: Measures) -> str:
    return f", {in_units(PIECE_FIELDS[field], say).words}" if field in PIECE_FIELDS else ""


def _key_of_entry(plan: Plan, entry: int) -> PieceKey:
    """Return the piece that an entry names; of rows as planned the last of them."""
    one = plan.spun[entry]
    if one.row or one.through:
        return PieceKey(one.ply, row=one.row or one.through or 0)
    before = (each for each in plan.spun[:entry] if each.ply == one.ply)
    return PieceKey(one.ply, extra=1 + sum(not (each.row or each.through) for each in before))
