"""Messages of the plan's bar."""

from collections.abc import Sequence
from typing import Literal, NotRequired, TypedDict

from yarncolor.widgets.protocol.asks import AskOfView


class SaveAs(AskOfView):
    """Save the plan under a new name."""

    name: str


class OpenPlan(AskOfView):
    """Put another plan in the place of this one; its file is in the buffer."""

    name: str
    buffers: NotRequired[list[bytes]]


class KeepUp(AskOfView):
    """Keep the plan file up to date from now on, or no more."""

    on: bool


class NewPlan(AskOfView):
    """Begin a plan; it may keep the title of the one here, and what is made of it."""

    keeps: bool


class SayIn(AskOfView):
    """Say masses and lengths in other units: ``metric`` or ``imperial``."""

    units: str


class StepKept(TypedDict):
    """A step: the numbers of its text and of its file's, that file, and the places held."""

    text: int
    base: int
    folder: str
    file: str
    held: list[int]


class Resume(AskOfView):
    """Go on where a page was that has lost its kernel."""

    texts: list[str]
    steps: list[StepKept]
    now: int
    section: str


class BarState(TypedDict):
    """What stands in the bar; ``systems`` are the units that there are, and what each is called."""

    kind: Literal["bar"]
    file: str
    folder: str
    state: str
    saves: bool
    at_risk: bool
    undo: bool
    redo: bool
    undo_words: str
    redo_words: str
    keeps: bool
    said: str
    never_saved: str
    units: str
    systems: Sequence[tuple[str, str]]


class Download(TypedDict):
    """A plan file to be put where downloads go."""

    kind: Literal["download"]
    view: str | None
    name: str
    text: str


class Beat(TypedDict):
    """A sign that the kernel is there."""

    kind: Literal["beat"]


class Draft(TypedDict):
    """What a page keeps, to go on with if it loses its kernel."""

    kind: Literal["draft"]
    texts: list[str]
    steps: list[StepKept]
    now: int
    section: str
    pending: bool
