"""Messages of the section at the wheel."""

from typing import Literal, NotRequired, TypedDict

from yarncolor.widgets.protocol.asks import Ask


class TickPiece(Ask):
    """A row was spun as planned, or a piece was not spun; ``piece`` names it: 2r14, 2x1."""

    piece: str
    on: bool


class OfPiece(Ask):
    """Something is said of a piece: all up to it, one more after it, and slips."""

    piece: str


class ShiftPiece(Ask):
    """A piece was spun sooner or later by so many pieces."""

    piece: str
    by: int


class Slip(Ask):
    """Something went wrong on a ply: ``slip`` names it, ``piece`` a row where that matters."""

    slip: str
    ply: int
    piece: str


class WeighBobbin(Ask):
    """A bobbin of a ply was weighed, to tell which row it is at."""

    ply: int
    bobbin: int
    text: str


class TakeWay(Ask):
    """A way to go on is taken."""

    way: str


class BringHome(Ask):
    """The text that a phone gave is brought in."""

    text: str


class PieceField(TypedDict):
    """A field of a piece, the same for all."""

    name: str
    words: str
    kind: str


class PieceRow(TypedDict):
    """A piece on the bobbin or to spin; ``fields`` holds what is typed, by field."""

    piece: str
    row: int
    lot: int
    state: str
    weigh: str
    after: str
    found: str
    fields: dict[str, str]
    faults: dict[str, str]
    waits: dict[str, str]


class PlyPage(TypedDict):
    """A ply's page: where it stands in words, and its rows in the order spun."""

    ply: int
    words: str
    stands: str
    bobbins: int
    rows: list[PieceRow]


class TareField(TypedDict):
    """What an empty bobbin weighs."""

    name: str
    words: str
    text: str
    fault: str


class WheelState(TypedDict):
    """Every ply's page as it stands, and what is said of the last thing done, or why it was not."""

    kind: Literal["wheel"]
    said: str
    refused: bool
    lots: list[tuple[str, str, str]]
    plies: list[PlyPage]
    tare: TareField
    progress: str
    strayed: list[str]
    is_spun: bool
    fields: NotRequired[list[PieceField]]
    slips: NotRequired[list[tuple[str, str]]]


class YarnStrip(TypedDict):
    """A yarn along its length: where a lot changes, in metres, and the lots of each ply there."""

    edges: list[float]
    lots: list[list[int]]


class WayOn(TypedDict):
    """A way to go on."""

    way: str
    name: str
    worth: str
    hands: str
    takes: str
    can: bool
    best: bool
    strip: YarnStrip


class WaysOn(TypedDict):
    """Whether it matters, and the ways to go on; none where nothing is spun."""

    kind: Literal["ways"]
    matters: str
    reason: str
    planned: YarnStrip
    planned_words: str
    choices: list[WayOn]
    why: list[tuple[str, list[str]]]


class RowReached(TypedDict):
    """Which row a bobbin's weight tells; ``piece`` is empty where it tells none."""

    kind: Literal["reached"]
    ply: int
    words: str
    piece: str
    fault: bool


class BroughtHome(TypedDict):
    """What came of a text brought in; ``wrong`` has a line for each fault of it."""

    kind: Literal["brought"]
    brought: bool
    said: str
    wrong: list[str]
