"""Advice that takes itself: a button for each way to mend something, one step each."""

from typing import Any

import ipywidgets as w

from yarncolor.answers.answer import Answer
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.report.advice import advice_on
from yarncolor.report.ways import Change, Way
from yarncolor.widgets.choosing import refused
from yarncolor.widgets.parts import in_rows, status


class Remedies(w.VBox):
    """What the advice would change, each as a button.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        self.editor, self.buttons = editor, in_rows([])
        self.heading = w.HTML('<p style="margin:0">To mend it, best first; undo brings back:</p>')
        self.said = w.HTML(layout=w.Layout(width="100%"))
        super().__init__([self.heading, self.buttons, self.said], layout=w.Layout(width="100%"))
        self._ways: tuple[Way, ...] = ()
        self._show()

    def show(self, found: Answer) -> None:
        """Offer the ways to mend what is told of an answer.

        Parameters
        ----------
        found : Answer
            What follows from the plan as it stands.
        """
        ways = [way for item in advice_on(found) for way in item.remedies if way.change]
        if tuple(ways) != self._ways:
            self._ways = tuple(dict.fromkeys(ways))
            self.buttons.children = [self._button(way) for way in self._ways]
            self._show()

    def _show(self) -> None:
        self.heading.layout.display = None if self._ways else "none"

    def _button(self, way: Way) -> w.Button:
        button = w.Button(description=f"{way.choice[0].upper()}{way.choice[1:]}", tooltip=way.cost)
        button.layout = w.Layout(width="auto", max_width="100%")
        button.on_click(lambda _: self._take(way))
        return button

    def _take(self, way: Way) -> None:
        before = self.editor.revision
        try:
            self.editor.change_tables(_tables(way.change))
        except PlanError as error:
            self.said.value = status(f"{refused(way.choice, error)}. The plan is as it was.")
            return
        same = before is self.editor.revision
        done = "The plan says so already" if same else "Done; undo brings back what was"
        self.said.value = status(f"{done}: {way.choice}.")


def _tables(change: Change) -> dict[str, dict[str, Any]]:
    tables: dict[str, dict[str, Any]] = {}
    for table, key, value in change:
        tables.setdefault(table, {})[key] = value
    return tables
