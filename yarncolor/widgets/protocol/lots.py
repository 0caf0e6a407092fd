"""Messages of the bench of lots."""

from collections.abc import Sequence
from typing import Any, Literal, NotRequired, TypedDict

from yarncolor.widgets.protocol.asks import AskOfView


class PutRows(AskOfView):
    """All rows as they are typed; ``version`` is of the lots that they were made from."""

    rows: list[dict[str, Any]]
    serial: int
    version: int


class AddLines(AskOfView):
    """Lines of text that say a lot each, to be added all together."""

    text: str


class PhotographLot(AskOfView):
    """What is drawn on a photograph of one lot, itself in the buffer where it is another one.

    ``of`` names the row, ``name`` the lot of the plan; ``take`` gives that the colour.
    """

    of: str
    name: str
    take: bool
    drawn: dict[str, Any]


class LotSeen(TypedDict):
    """What a photograph says of a lot: its colour, empty where there is none, words, and why."""

    kind: Literal["seen"]
    view: str
    of: str
    colour: str
    words: str
    why: list[tuple[str, list[str]]]


class LinesAdded(TypedDict):
    """Whether lines were added, what came of it, and what is wrong line by line."""

    kind: Literal["lines"]
    view: str
    added: bool
    said: str
    wrong: list[str]


class LotsAnswer(TypedDict):
    """What every answer about lots begins with: what it answers, empty where nothing was asked."""

    do: str | None
    view: str | None
    serial: int | None
    said: str


class LotsRows(LotsAnswer):
    """Lots as the plan has them; ``places`` tells which of the rows sent became which.

    ``weighed`` has every way to write the unit of a mass, ``new_mass`` what a lot that is added
    weighs; ``guesses`` says whose colour is one, ``rolags`` what weighed grams make; ``typed`` are
    rows that are not right yet, to be typed again in other units.
    """

    kind: Literal["rows"]
    rows: list[dict[str, Any]]
    version: int
    colours: list[str]
    inks: list[str]
    hint: list[tuple[str, str]]
    guesses: list[str]
    rolags: list[str]
    total: str
    fields: NotRequired[list[dict[str, Any]]]
    more: NotRequired[list[dict[str, Any]]]
    palette: NotRequired[list[dict[str, Any]]]
    caution: NotRequired[str]
    weighed: NotRequired[list[str]]
    new_mass: NotRequired[str]
    example: NotRequired[str]
    places: NotRequired[Sequence[int | None]]
    anew: NotRequired[bool]
    typed: NotRequired[list[dict[str, Any]]]


class RowFault(TypedDict):
    """A field of a row that cannot stay as typed."""

    row: int
    field: str
    words: str


class LotsFaults(LotsAnswer):
    """What is wrong with rows that were sent."""

    kind: Literal["faults"]
    faults: list[RowFault]


class LotsRefused(LotsAnswer):
    """A lot that others are made from cannot go."""

    kind: Literal["refused"]
