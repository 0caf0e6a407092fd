"""What a bench tells the bar of its plan: what nobody foresaw there, and that it is at work."""

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, Protocol
from weakref import WeakSet

from yarncolor.errors import PlanError, on_one_line, one_line

_LOG = logging.getLogger(__name__)


class Bar(Protocol):
    """Where it is told: the bar of a plan."""

    editor: Any

    def say_mishap(self, words: str) -> None:
        """Say what went wrong."""

    def tell_work(self, begins: bool) -> None:
        """Know that a bench is at work from now on, or no more."""


_BARS: WeakSet[Any] = WeakSet()


def say_at(bar: Bar) -> None:
    """Have a bar told what goes wrong on the benches of its plan, and that they are at work."""
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
            for bar in _bars_of(owner):
                bar.say_mishap(mishap_words(error))
            raise

    return run


@contextmanager
def at_work(owner: Any) -> Iterator[None]:
    """Be at work for a while, step by step, without a message that a page could see it by.

    A page that hears nothing for longer than it is patient would take what reckons for lost, and
    begin anew.

    Parameters
    ----------
    owner : Any
        The bench.
    """
    bars = _bars_of(owner)
    for bar in bars:
        bar.tell_work(begins=True)
    try:
        yield
    finally:
        for bar in bars:
            bar.tell_work(begins=False)


def _bars_of(owner: Any) -> list[Any]:
    editor = getattr(owner, "editor", None)
    return [bar for bar in tuple(_BARS) if editor is None or bar.editor is editor]
