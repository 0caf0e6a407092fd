"""Every option of a plan as a form: checked as it is typed, each fault beside its field."""

from dataclasses import replace
from itertools import groupby
from typing import Any

from yarncolor.answers.answer import Answer
from yarncolor.editing.as_typed import seen_again
from yarncolor.editing.defaults_shown import ply_by_ply, value_in_use
from yarncolor.editing.draft import Draft, put
from yarncolor.editing.editor import Editor
from yarncolor.editing.field_units import in_units
from yarncolor.editing.option_text import TALL, format_option
from yarncolor.editing.options import OPTIONS, given, options_of
from yarncolor.layout.resolved import resolve
from yarncolor.measures import measures_of
from yarncolor.plan import Plan, to_data
from yarncolor.plan.key import LOT, Key
from yarncolor.report.assumption_text import assumption_sentences
from yarncolor.widgets.draft_bench import DraftBench
from yarncolor.widgets.message_widget import module
from yarncolor.widgets.protocol.asks import PutField
from yarncolor.widgets.protocol.form import FormField, FormGroup, FormPart, FormState
from yarncolor.widgets.protocol.messages import HEARD

GROUPS = {
    "": "The plan",
    "braid": "A braid, dyed along its length",
    "scheme": "The scheme",
    "spinning": "Spinning",
    "plying": "Plying",
    "bobbins": "Bobbins",
    "scale": "Scale",
    "target": "What is wanted",
    "fabric": "Fabric",
}
_BY_NAME = {option.path: option for option in OPTIONS}


class OptionsBench(DraftBench):
    """A form round one editor; a field left empty takes the option away.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    groups : dict of str to str
        Tables of the plan whose options it shows, and what stands over each.
    """

    _esm = module("options/options_bench")
    hears = HEARD["form"]

    def __init__(self, editor: Editor, groups: dict[str, str] = GROUPS) -> None:
        super().__init__(editor)
        self.groups, self._typed = groups, dict[str, str]()

    def __repr__(self) -> str:
        options = [one for one in options_of(self.editor.plan) if one.table in self.groups]
        return f"A form of {len(options)} options; it needs a live notebook."

    def _key_of(self, name: str) -> Key | None:
        """Return the option of a field; None where there is no such field."""
        return _BY_NAME.get(name)

    def _with_typed(self, draft: Draft, name: str, text: str) -> Draft:
        """Put what was typed into the plan, with all that waited; return what is left."""
        typed = {**draft.typed, name: text}
        left = put(self.editor, draft, _BY_NAME[name], text)
        self._typed |= {at: each for at, each in typed.items() if at not in left.typed}
        return left

    def on_put(self, message: PutField) -> None:
        """Put what was typed into the plan; the units of a plan are a field as well."""
        super().on_put(message)
        if self._follow_units():
            self._show()

    def state(self) -> FormState:
        """Return the form as it stands: groups of fields under their headings.

        Each field has its words, text, choices, what is used where it is empty, and its fault.
        """
        found = self.editor.answer
        groups: list[FormGroup] = [
            {"words": words, "parts": self._parts(found, table)}
            for table, words in self.groups.items()
        ]
        return {
            "kind": "form",
            "groups": [group for group in groups if group["parts"]],
            "assumed": list(assumption_sentences(found)),
        }

    def _parts(self, found: Answer, table: str) -> list[FormPart]:
        """Return the fields of one table, alternatives together under their heading."""
        shown = (one for one in options_of(self.editor.plan) if one.table == table)
        return [
            self._part(found, heading, list(own))
            for heading, own in groupby(shown, lambda option: option.heading)
        ]

    def _part(self, found: Answer, heading: str, own: list[Key]) -> FormPart:
        needed = dict.fromkeys(self.draft.needed.get(one.path, "") for one in own)
        return {
            "words": heading,
            "needed": "; ".join(filter(None, needed)),
            "fields": [self._field(found, one) for one in own],
        }

    def _field(self, found: Answer, option: Key) -> FormField:
        name, plan = option.path, self.editor.plan
        choices, said = _choices(found, plan, option), in_units(option, found.say)
        return {
            "name": name,
            "words": said.words if choices or not said.words_each else said.words_each,
            "text": self.draft.typed.get(name, self._text(option)),
            "used": _used(found, plan, option),
            "waits": name in self.draft.waiting,
            "choices": choices,
            "tall": option.kind in TALL,
            "fault": self.draft.faults.get(name, ""),
        }

    def _text(self, option: Key) -> str:
        """Return what the plan gives for an option, as it was typed where that says it better."""
        plan, typed = self.editor.plan, self._typed.get(option.path, "")
        value = given(to_data(plan), option)
        return seen_again(in_units(option, measures_of(plan)), value, typed)


def _choices(found: Answer, plan: Plan, option: Key) -> list[tuple[str, str]]:
    """Return what is typed and what is said of each choice; none where a field is typed."""
    text = format_option(plan, option)
    if option.kind == LOT:
        return [(name, name) for name in plan.names]
    if text and text not in option.choice_words:
        return []
    several = option.words_each and len(found.resolved.tex) > 1
    each_ply = [(ply_by_ply(found.resolved, option), "ply by ply")] if several else []
    return [*option.choice_words.items(), *each_ply]


def _used(found: Answer, plan: Plan, option: Key) -> str:
    """Return what is used where a field is empty; what would be, where a choice was made."""
    if not format_option(plan, option):
        return value_in_use(found.layout, option)
    if not (option.choices or option.kind == LOT):
        return ""
    emptied: dict[str, Any] = {option.name: None}
    if option.table:
        emptied = {option.table: replace(getattr(plan, option.table), **emptied)}
    without = resolve(replace(plan, **emptied))
    return value_in_use(replace(found.layout, resolved=without), option)
