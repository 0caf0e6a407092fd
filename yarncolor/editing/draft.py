"""What is typed into a form and not in the plan yet: one draft, complete in any order.

A value that is right so far waits until what it needs beside it is typed as well; then all that
waits becomes the plan as one step. What is wrong says why, and what is merely missing is asked
for.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import Any

from yarncolor.editing.editor import Editor
from yarncolor.editing.fault_words import needed_words, words_beside
from yarncolor.editing.field_units import in_units
from yarncolor.editing.measures import kind_words
from yarncolor.editing.option_text import read_again
from yarncolor.editing.options import OPTIONS, given
from yarncolor.errors import Fault, PlanError
from yarncolor.measures import Measures, measures_of
from yarncolor.phrases import join_words
from yarncolor.plan import to_data
from yarncolor.plan.key import Key
from yarncolor.planfile.read import plan_from_data


@dataclass(frozen=True)
class Draft:
    """Texts that wait or are wrong, by the path of their key.

    Parameters
    ----------
    waiting, wrong : dict of str to str
        What was typed.
    needed, faults : dict of str to str
        What each that waits still needs; what would be right for each that is wrong.
    """

    waiting: dict[str, str] = field(default_factory=dict)
    wrong: dict[str, str] = field(default_factory=dict)
    needed: dict[str, str] = field(default_factory=dict)
    faults: dict[str, str] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return bool(self.waiting or self.wrong)

    @property
    def typed(self) -> dict[str, str]:
        """What was typed into each field that the plan does not have."""
        return {**self.waiting, **self.wrong}

    def without(self, name: str) -> "Draft":
        """Return the draft without what was typed into one field."""
        parts = (self.waiting, self.wrong, self.needed, self.faults)
        return Draft(*({at: text for at, text in part.items() if at != name} for part in parts))

    def with_wrong(self, name: str, text: str, words: str) -> "Draft":
        """Return the draft with a text that cannot be.

        Parameters
        ----------
        name : str
            Path of its key.
        text : str
            As typed.
        words : str
            What would be right.
        """
        wrong, faults = {**self.wrong, name: text}, {**self.faults, name: words}
        return replace(self, wrong=wrong, faults=faults)

    def with_waiting(self, name: str, text: str, needed: str) -> "Draft":
        """Return the draft with a text that waits; all that waits with it needs the same.

        Parameters
        ----------
        name : str
            Path of its key.
        text : str
            As typed.
        needed : str
            What is still needed.
        """
        waiting, table = {**self.waiting, name: text}, name.partition(".")[0]
        told = {at: needed for at in waiting if at.partition(".")[0] == table}
        return replace(self, waiting=waiting, needed={**self.needed, **told})


@dataclass(frozen=True)
class Unfit:
    """Why the plan does not take what was typed.

    Parameters
    ----------
    words : str
        As it stands beside the field.
    needed : str
        What is still needed, where nothing is wrong; else empty.
    """

    words: str
    needed: str

    @classmethod
    def of(cls, fault: Fault, words: str, say: Measures) -> "Unfit":
        """Return a fault as it is told.

        Parameters
        ----------
        fault : Fault
            Of the plan.
        words : str
            As it stands beside the field.
        say : Measures
            What the plan is said in.
        """
        return cls(words, needed_words(fault.remedy, say))


def put(editor: Editor, draft: Draft, option: Key, text: str) -> Draft:
    """Put what was typed into the plan, with all that waited for it; return what is left.

    Parameters
    ----------
    editor : Editor
        The plan; it takes one step where it can.
    draft : Draft
        What was typed before.
    option : Key
        Of the field.
    text : str
        What was typed there.
    """

    def take(texts: dict[str, str]) -> list[Unfit]:
        say = measures_of(editor.plan)
        told = _faults(editor, texts)
        return [Unfit.of(fault, words_beside(fault, option, say), say) for fault in told]

    return settled(draft, {option.path: text}, take, kind_words(option, text))


def settled(
    draft: Draft,
    typed: dict[str, str],
    take: Callable[[dict[str, str]], list[Unfit]],
    kind: str = "",
) -> Draft:
    """Return what is left of a draft when one more field was typed.

    Parameters
    ----------
    draft : Draft
        What was typed before.
    typed : dict of str to str
        The one field, and what was typed there.
    take : callable
        Takes texts into the plan as one step, and returns what is wrong where it cannot.
    kind : str
        What was typed, where it measures another thing.
    """
    ((name, text),) = typed.items()
    rest = draft.without(name)
    without_waiting = replace(rest, waiting={}, needed={})
    tries: tuple[tuple[dict[str, str], Draft], ...] = (
        (rest.typed, Draft()),
        (rest.waiting, without_waiting),
        ({}, rest),
    )
    told = []
    for others, left in tries:
        told.append(take({**others, **typed}))
        if not told[-1]:
            return left
    _, together, alone = told
    wrong = _wrong(alone) or _wrong(together)
    if wrong:
        words = filter(None, (kind, *(each.words for each in wrong)))
        return rest.with_wrong(name, text, "; ".join(words))
    needed = [*dict.fromkeys(each.needed for each in together)]
    return rest.with_waiting(name, text, join_words(needed))


def _faults(editor: Editor, texts: dict[str, str]) -> tuple[Fault, ...]:
    """Take texts into the plan as one step; return what is wrong where it cannot."""
    tables: dict[str, dict[str, Any]] = {}
    data = to_data(editor.plan)
    try:
        for option in OPTIONS:
            if option.path in texts:
                key, now = in_units(option, measures_of(editor.plan)), given(data, option)
                value = read_again(key, texts[option.path], now)
                tables.setdefault(option.table, {})[option.name] = value
        head = tables.pop("", None)
        editor.change_tables(tables)
        if head is not None:
            data = {**to_data(editor.plan), **head}
            there = {key: value for key, value in data.items() if value is not None}
            editor.replace_plan(plan_from_data(there, "this change"))
    except PlanError as error:
        return error.faults
    return ()


def _wrong(unfit: Iterable[Unfit]) -> list[Unfit]:
    return [each for each in unfit if not each.needed]
