"""The card from the page: a button that prints it, one that hands it over."""

from collections.abc import Callable
from typing import Literal

from yarncolor.editing.editor import Editor
from yarncolor.report.card.card import card_html, card_name
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.protocol.asks import AskOfView
from yarncolor.widgets.protocol.card import Card
from yarncolor.widgets.protocol.messages import HEARD


class CardPrinter(MessageWidget):
    """Two buttons; a card holds no script, so the page that shows them prints it.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    form : callable
        Returns the form of the card that is wanted.
    """

    _esm = module("card_printer")
    hears = HEARD["card"]

    def __init__(self, editor: Editor, form: Callable[[], str]) -> None:
        super().__init__()
        self.editor, self.form = editor, form

    def __repr__(self) -> str:
        return "Buttons that print the card; they need a live notebook."

    def on_print(self, message: AskOfView) -> None:
        """Send the card of the plan as it stands, to be printed."""
        self._give("print", message)

    def on_download(self, message: AskOfView) -> None:
        """Send the card, to be put where downloads go, under the plan's name."""
        self._give("download", message)

    def _give(self, task: Literal["print", "download"], message: AskOfView) -> None:
        told: Card = {
            "kind": "card",
            "view": message.get("view"),
            "task": task,
            "name": card_name(self.editor.plan),
            "html": card_html(self.editor.answer, self.form()).decode(),
        }
        self.send(told)
