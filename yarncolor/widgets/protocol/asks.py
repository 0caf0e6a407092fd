"""What a page asks of a kernel, in the forms that several widgets share."""

from typing import TypedDict


class Ask(TypedDict):
    """Something is to be done."""

    do: str


class AskOfView(Ask):
    """The same, and who asks."""

    view: str


class AskInTurn(Ask):
    """The same, and the how manieth it is."""

    serial: int


class PutField(Ask):
    """A field was typed or chosen; ``name`` says which, and of what."""

    name: str
    text: str


class PutBack(Ask):
    """A field is to say again what the plan says."""

    name: str
