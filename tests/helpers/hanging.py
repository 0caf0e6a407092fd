"""What takes too long by the processor's own clock is ended, however busy the machine is."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager

import pytest


@contextmanager
def does_not_hang(seconds: float, what: str) -> Iterator[None]:
    """Fail where what is done inside keeps the processor busy for so long.

    Parameters
    ----------
    seconds : float
        Of the processor.
    what : str
        How it is called where it hangs.
    """

    def hangs(*_: object) -> None:
        pytest.fail(f"{what} hangs")

    before = signal.signal(signal.SIGPROF, hangs)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)
