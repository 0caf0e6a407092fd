"""What a spinner says at the plying wheel: how far it is, which single ran out."""

from collections.abc import Iterable
from dataclasses import replace

from yarncolor.editing.at_the_wheel import checked
from yarncolor.editing.draft import Draft, Unfit, settled
from yarncolor.editing.editor import Editor
from yarncolor.editing.fault_words import in_form_words
from yarncolor.editing.field_units import in_units
from yarncolor.editing.measures import kind_words
from yarncolor.editing.option_text import read_again
from yarncolor.errors import Fault, PlanError
from yarncolor.measures import Measures, measures_of
from yarncolor.plan import Plan, Plied, to_data
from yarncolor.plan.reference import KEYS
from yarncolor.planfile.read import plan_changed

FAR, END = ("so_far_m", "turns", "gross_g"), ("at_m", "at_gross_g")
"""Ways to say how far the yarn is, and after how much of it a single ended: one of each."""

PLYING_FIELDS = {key.path: key for (table, _), key in KEYS.items() if table == "plied"}
"""What can be said at the plying wheel, by its path."""


def plied(plan: Plan, so_far_m: float) -> Plan:
    """Return the plan of which so much yarn is plied.

    Parameters
    ----------
    plan : Plan
        As it is.
    so_far_m : float
        Metres of yarn.

    Raises
    ------
    PlanError
        Where that cannot be.
    """
    said = replace(plan.plied or Plied(), so_far_m=so_far_m, turns=None, gross_g=None)
    return checked(replace(plan, plied=said))


def ran_out(plan: Plan, ply: int, at_m: float) -> Plan:
    """Return the plan of which a single ran out after so much yarn.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply : int
        From 1.
    at_m : float
        Metres of yarn.

    Raises
    ------
    PlanError
        Where that cannot be.
    """
    said = replace(plan.plied or Plied(), ended_ply=ply, at_m=at_m, at_gross_g=None)
    return checked(replace(plan, plied=said))


def goes_on(plan: Plan) -> Plan:
    """Return the plan of which no single ran out yet."""
    if plan.plied is None:
        return plan
    said = replace(plan.plied, ended_ply=None, at_m=None, at_gross_g=None)
    return replace(plan, plied=said if _says_how_far(said) else None)


def put_said(editor: Editor, draft: Draft, name: str, text: str) -> Draft:
    """Put what was typed into the plan, with all that waited; return what is left.

    Of several ways to say one thing the one typed last stands.

    Parameters
    ----------
    editor : Editor
        The plan; it takes one step where it can.
    draft : Draft
        What was typed before.
    name : str
        Path of the key.
    text : str
        As typed.
    """
    for other in _instead(name):
        draft = draft.without(other) if text.strip() else draft

    say = measures_of(editor.plan)

    def take(texts: dict[str, str]) -> list[Unfit]:
        try:
            editor.replace_plan(_with_texts(editor.plan, texts))
        except PlanError as error:
            return [Unfit.of(fault, _words(fault, name, say), say) for fault in error.faults]
        return []

    return settled(draft, {name: text}, take, kind_words(PLYING_FIELDS[name], text))


def _instead(name: str) -> Iterable[str]:
    """Return the paths of the other ways to say the same."""
    key = PLYING_FIELDS[name].name
    ways = next((each for each in (FAR, END) if key in each), ())
    return [f"plied.{way}" for way in ways if way != key]


def _with_texts(plan: Plan, texts: dict[str, str]) -> Plan:
    said, say = to_data(plan.plied) if plan.plied else {}, measures_of(plan)
    keys = {name: in_units(PLYING_FIELDS[name], say) for name in texts}
    values = {
        name: read_again(keys[name], text, said.get(keys[name].name))
        for name, text in texts.items()
    }
    for name, value in values.items():
        for other in _instead(name) if value is not None else ():
            said.pop(PLYING_FIELDS[other].name, None)
    said |= {PLYING_FIELDS[name].name: value for name, value in values.items()}
    said = {key: value for key, value in said.items() if value is not None}
    alone = not (set(said) & {*FAR, *END, "ended_ply"}) and not any(
        value is not None for value in values.values()
    )
    data = to_data(plan)
    data.pop("plied", None)
    return plan_changed(plan, data if alone else {**data, "plied": said})


def _says_how_far(said: Plied) -> bool:
    return any(getattr(said, key) is not None for key in FAR)


def _words(fault: Fault, name: str, say: Measures) -> str:
    remedy = in_form_words(fault.remedy, say)
    if ".".join(map(str, fault.path[:2])) == name or len(fault.path) < 2:
        return remedy
    key = PLYING_FIELDS.get(".".join(map(str, fault.path[:2])))
    return f"{in_units(key, say).words if key else fault.place}: {remedy}"
