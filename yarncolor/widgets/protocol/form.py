"""Messages of the form of every option."""

from collections.abc import Sequence
from typing import Literal, TypedDict


class FormField(TypedDict):
    """A field; ``used`` is what holds where it is empty, ``choices`` pairs of value and words.

    One that ``waits`` is right so far, and not in the plan until what is needed is there.
    """

    name: str
    words: str
    text: str
    used: str
    choices: Sequence[tuple[str, str]]
    tall: bool
    waits: bool
    fault: str


class FormPart(TypedDict):
    """Fields under a heading of their own, or under none; and what is still needed of them."""

    words: str
    needed: str
    fields: list[FormField]


class FormGroup(TypedDict):
    """A table of the plan file."""

    words: str
    parts: list[FormPart]


class FormState(TypedDict):
    """The form as it stands."""

    kind: Literal["form"]
    groups: list[FormGroup]
    assumed: list[str]
