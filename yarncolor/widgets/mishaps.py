"""What nobody foresaw on a bench: said in words where its plan is kept, and left to the log."""

import logging
from collections.abc import Callable
from typing import Any, Protocol
from weakref import WeakSet

from yarncolor.errors import PlanError, on_one_line, one_line

_LOG = logging.getLogger(__name__)


class Bar(Protocol):
    """Where it is said: the bar of a plan."""

    editor: Any

    def say_mishap(self, words: str) -> None:
        """Say what went wrong."""


_BARS: WeakSet[Any] = WeakSet()


def say_at(bar: Bar) -> None:
    """Have what goes wrong on the benches of a bar's plan said there."""
    _BARS.add(bar)


def mishap_words(error: Exception) -> str:
    """Return what went wrong, and that the plan is as it was."""
    what = one_line(error) if isinstance(error, PlanError) else _what(error)
    return f"Something went wrong here: {what}; your plan is untouched, save it under another name"


def _what(error: Exception) -> str:
    told = on_one_line(str(error))
    return f"{type(error).__name__}: {told}" if told else type(error).__name__


def kept_for_the_log(error: Exception) -> str:
    """Return what went wrong in words, where nobody above would write it into the log."""
    _LOG.error("on a bench", exc_info=error)
    return mishap_words(error)


def heard(owner: Any, task: Callable[..., Any]) -> Callable[..., Any]:
    """Return a task that says in the bar of a bench's plan whatever goes wrong, and lets it go on.

    Parameters
    ----------
    owner : Any
        The bench; one that has no `editor` is heard at every bar.
    task : callable
        What a button, a control or a message sets off.
    """

    def run(*told: Any) -> Any:
        try:
            return task(*told)
        except Exception as error:
            _tell(owner, mishap_words(error))
            raise

    return run


def _tell(owner: Any, words: str) -> None:
    editor = getattr(owner, "editor", None)
    for bar in tuple(_BARS):
        if editor is None or bar.editor is editor:
            bar.say_mishap(words)
