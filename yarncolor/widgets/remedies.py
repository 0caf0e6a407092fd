"""Advice that takes itself: a button for each way to mend something, one step each."""

import ipywidgets as w

from yarncolor.answers.answer import Answer
from yarncolor.editing.editor import Editor
from yarncolor.editing.merging import merged, parting_move
from yarncolor.editing.rolags import recounted
from yarncolor.errors import PlanError
from yarncolor.report.advice import advice_on
from yarncolor.report.ways import Merge, Part, Recount, Way, tables_of
from yarncolor.widgets.choosing import refused
from yarncolor.widgets.mishaps import heard
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
        told = [way for item in advice_on(found) for way in item.remedies]
        ways = tuple(dict.fromkeys(way for way in told if way.change or way.of_lots))
        if ways != self._ways:
            self._ways = ways
            self.buttons.children = [self._button(way) for way in self._ways]
            self._show()

    def _show(self) -> None:
        self.heading.layout.display = None if self._ways else "none"

    def _button(self, way: Way) -> w.Button:
        button = w.Button(description=f"{way.choice[0].upper()}{way.choice[1:]}", tooltip=way.cost)
        button.layout = w.Layout(width="auto", max_width="100%")
        button.on_click(heard(self, lambda _: self._take(way)))
        return button

    def _take(self, way: Way) -> None:
        before = self.editor.revision
        try:
            take(self.editor, way)
        except PlanError as error:
            self.said.value = status(f"{refused(way.choice, error)}. The plan is as it was.")
            return
        if before is self.editor.revision:
            self.said.value = status(f"Nothing to change: {way.choice}.")
        else:
            self.said.value = status(f"Done; undo brings back what was: {way.choice}.")


def take(editor: Editor, way: Way) -> None:
    """Change a plan as a way to mend it says, as one step.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    way : Way
        Of advice on it.

    Raises
    ------
    PlanError
        Where the plan would not be right, or what is to be moved is held.
    """
    match way.of_lots:
        case Merge(kept, gone):
            editor.replace_plan(merged(editor.plan, kept, gone))
        case Part(one, other):
            editor.move(*parting_move(editor.names(), editor.order, one, other))
        case Recount(lot, rolags):
            editor.replace_plan(recounted(editor.plan, lot, rolags))
        case None:
            editor.change_tables(tables_of(way.change))
