"""How benches choose: choosers of a way of spinning, what is refused, what came of writing."""

from collections.abc import Callable, Iterable
from pathlib import Path
from types import TracebackType
from typing import Any

import ipywidgets as w

from yarncolor.editing.fault_words import in_form_words
from yarncolor.errors import PlanError, one_line
from yarncolor.phrases import CLOSING_WORDS, WINDING_WORDS
from yarncolor.plan import SCHEME_NAMES
from yarncolor.plan.limits import MOST_PLIES
from yarncolor.widgets.mishaps import kept_for_the_log

WAY_WORDS = {
    "scheme": "scheme",
    "plies": "plies",
    "divisions": "times through",
    "closing": "when it ends as it began",
    "winding": "winding",
}
"""What stands before each chooser of a way of spinning."""


WHY_IDLE = {
    "plies": "a chain is plied from one single",
    "divisions": "only a fractal goes through the lots a number of times on each ply",
    "closing": "only a fractal that ends on the lot it began with has this choice",
    "order": "a free plan has every portion where it lies",
}
"""Why a chooser is greyed."""


def way_choosers() -> dict[str, Any]:
    """Return the choosers of a way of spinning, before they say one."""
    return {
        "scheme": w.Dropdown(options=list(SCHEME_NAMES)),
        "plies": w.Dropdown(options=list(range(1, MOST_PLIES + 1))),
        "divisions": w.Text(continuous_update=False),
        "closing": w.Dropdown(options=[(words, key) for key, words in CLOSING_WORDS.items()]),
        "winding": w.Dropdown(options=[*WINDING_WORDS]),
    }


class Quiet:
    """Whether a bench sets its own controls just now, so that it does not listen to them."""

    def __init__(self) -> None:
        self._depth = 0

    def __bool__(self) -> bool:
        return self._depth > 0

    def __enter__(self) -> None:
        self._depth += 1

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        self._depth -= 1


def refused(what: str, error: PlanError) -> str:
    """Return why a choice is refused: what was chosen, and what would be right.

    Parameters
    ----------
    what : str
        Was chosen.
    error : PlanError
        What it would have led to.
    """
    return f"{what}: {'; '.join(in_form_words(fault.remedy) for fault in error.faults)}"


def outcome(task: Callable[[], Iterable[Path]]) -> str:
    """Return what came of writing files: where they are, or why there are none."""
    try:
        return f"Written: {', '.join(path.as_posix() for path in task())}"
    except PlanError as error:
        return one_line(error)
    except Exception as error:  # whatever it is, it is said where one looks
        return kept_for_the_log(error)
