"""Messages of the bench of photographs."""

from typing import Any, Literal, NotRequired, TypedDict

from yarncolor.widgets.protocol.asks import AskOfView


class AskOfPhoto(AskOfView):
    """Something is to be done with what is drawn by now."""

    serial: int
    drawn: NotRequired[dict[str, Any]]
    buffers: NotRequired[list[bytes]]


class FindLots(AskOfPhoto):
    """So many lots are to be proposed."""

    count: int


# "from" is a word of Python, hence this way to say it.
OpenPicture = TypedDict(
    "OpenPicture",
    {
        "do": str,
        "view": str,
        "serial": int,
        "drawn": NotRequired[dict[str, Any]],
        "buffers": NotRequired[list[bytes]],
        "name": str,
        "from": list[int],
    },
)
"""Another picture, in the buffer; ``from`` is its width and height before it was shrunk."""

PhotoHead = TypedDict(
    "PhotoHead",
    {
        "width": int,
        "height": int,
        "is_example": bool,
        "name": NotRequired[str],
        "from": NotRequired[list[int] | None],
        "notes": NotRequired[str],
    },
)
"""What is said of a picture; a small copy of it is the buffer."""


class PlanLots(TypedDict):
    """Names and grams of the plan's lots; what masses are said in, and one of it in grams."""

    lots: list[tuple[str, float]]
    mass: str
    mass_g: float


class ReadingRow(TypedDict):
    """What a box on fibre says, all text."""

    key: str
    name: str
    colour: str
    out_by: str
    even: str
    pixels: str
    doubts: str


class Readings(TypedDict):
    """What a picture says where something is drawn on it; faults by what they concern."""

    rows: list[ReadingRow]
    correction: list[str]
    fit: str
    light: str
    faults: dict[str, str]
    alt: str


class Proposal(TypedDict):
    """A box that may be fibre."""

    number: int
    box: list[float]
    words: str


class PhotoTask(TypedDict, total=False):
    """What came of it; only what there is to say."""

    photo: PhotoHead
    plan: PlanLots
    drawn: dict[str, Any]
    editions: list[str]
    readings: Readings
    proposed: list[Proposal]
    faults: dict[str, str]
    said: str
    why: list[tuple[str, list[str]]]


class PhotoAnswer(PhotoTask):
    """The same, and what it answers."""

    kind: Literal["answer"]
    do: str
    view: str | None
    serial: int | None


class PhotoPlan(TypedDict):
    """Which lots the plan has by now."""

    kind: Literal["plan"]
    plan: PlanLots
