"""A bell that the browser rings when it is there."""

from collections.abc import Callable

from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.protocol.asks import Ask
from yarncolor.widgets.protocol.messages import HEARD


class Doorbell(MessageWidget):
    """Nothing to see; it tells of every page that has come.

    Parameters
    ----------
    rung : callable
        Called with nothing when a page is there.
    """

    _esm = module("doorbell")
    hears = HEARD["doorbell"]

    def __init__(self, rung: Callable[[], None]) -> None:
        super().__init__()
        self.rung = rung

    def on_ready(self, _: Ask) -> None:
        """Tell of a page that is there."""
        self.rung()
