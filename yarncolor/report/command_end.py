"""How a command ends: with a status and, where something went wrong, in one line."""

import argparse
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import NoReturn, TextIO

from yarncolor.errors import Fault, PlanError, on_one_line, system_says

DONE, OWN_FAULT, AT_FAULT, STOPPED = 0, 1, 2, 130
"""Statuses: done; a fault of ours or of the machine; of what was given; stopped by a key."""
_OF_WINDOWS_AND_DATES = ("MPLBACKEND", "SOURCE_DATE_EPOCH")
"""What libraries heed, and fail over where it is nonsense: here are no windows and no dates."""


class Parser(argparse.ArgumentParser):
    """A parser that repeats nothing which stirs the terminal."""

    def error(self, message: str) -> NoReturn:
        """End with the usage and what is wrong with it."""
        super().error(on_one_line(message))


def ended(command: Callable[[argparse.Namespace], int], given: argparse.Namespace) -> int:
    """Run a command and return its exit status; what went wrong is told in one line.

    Parameters
    ----------
    command : callable
        What is to be done.
    given : argparse.Namespace
        What it is done with.
    """
    for name in _OF_WINDOWS_AND_DATES:
        os.environ.pop(name, None)
    try:
        _refuse_no_names(given)
        return command(given)
    except PlanError as error:
        return _told(str(error), AT_FAULT)
    except BrokenPipeError:
        _to_nowhere(sys.stdout)
        return DONE
    except KeyboardInterrupt:
        return _told("Stopped", STOPPED)
    except OSError as error:
        _to_nowhere(sys.stdout)
        return _told(_of_the_machine(error), OWN_FAULT)
    except Exception as error:
        if sys.flags.dev_mode:
            raise
        what = on_one_line(f"{type(error).__name__}: {error}")
        return _told(f"a fault of this program ({what}); python -X dev says where", OWN_FAULT)


def _refuse_no_names(given: argparse.Namespace) -> None:
    empty = [what for what, name in _names(given) if name == ""]
    faults = [Fault("", what, "", "is empty; give a name") for what in empty]
    if faults:
        raise PlanError(faults)


def _names(given: argparse.Namespace) -> Iterator[tuple[str, str | None]]:
    for file in getattr(given, "files", None) or [getattr(given, "file", None)]:
        yield "FILE", file
    yield "DIR", getattr(given, "folder", None)
    yield "--out", getattr(given, "out", None)


def _of_the_machine(error: OSError) -> str:
    what = system_says(error)
    if error.filename:
        return f"{on_one_line(str(error.filename))}: {what}"
    return f"cannot say the rest: {what}; what was written stays"


def _told(words: str, status: int) -> int:
    try:
        sys.stderr.write(f"{words}\n")
        sys.stderr.flush()
    except OSError:
        _to_nowhere(sys.stderr)
    return status


def _to_nowhere(stream: TextIO) -> None:
    """Send what is still waiting in a stream nowhere: it would fail again at the very end."""
    with suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
