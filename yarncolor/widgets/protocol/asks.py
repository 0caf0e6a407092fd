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
