"""Messages of the section at the plying wheel."""

from typing import Literal, TypedDict

from yarncolor.widgets.protocol.asks import Ask


class RanOut(Ask):
    """The single of a ply ran out where the plying is now."""

    ply: int


class LookAtTwist(Ask):
    """Twist was looked at: bumps along one side and over how much, a loop, hooks."""

    bumps: str
    over_cm: str
    loop: str
    catches: bool


class PlyingField(TypedDict):
    """A field: what the plan says or what is typed, and what is wrong or still needed."""

    name: str
    words: str
    text: str
    fault: str
    waits: str
    choices: list[tuple[str, str]]


class RescueShown(TypedDict):
    """A yarn that can still be made: its worth, three lines for the hands, its picture."""

    name: str
    worth: str
    hands: list[str]
    picture: str
    alt: str


class PlyingState(TypedDict):
    """How far the plying is, what changes next, which single ran out and what can be made.

    ``over`` is over how much bumps are counted where nothing else is said, in the plan's units.
    """

    kind: Literal["plying"]
    said: str
    refused: bool
    far: list[PlyingField]
    end: list[PlyingField]
    where: list[str]
    changes: list[str]
    plies: list[tuple[int, str]]
    ended: bool
    stands: str
    rescues: list[RescueShown]
    cautions: str
    loops: list[tuple[str, str]]
    why: list[tuple[str, list[str]]]
    over_words: str
    over: str


class CareTold(TypedDict):
    """What to do about twist that was looked at."""

    kind: Literal["care"]
    lines: list[str]
