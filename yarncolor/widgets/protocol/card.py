"""Messages of the buttons that print a card or hand it over."""

from typing import Literal, TypedDict


class Card(TypedDict):
    """A card, whole in itself, and what it is for."""

    kind: Literal["card"]
    view: str | None
    task: Literal["print", "download"]
    name: str
    html: str
