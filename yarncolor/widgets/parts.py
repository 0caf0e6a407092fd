"""What all benches share: a line that says what happened, labels, folding, following a plan."""

from collections.abc import Sequence
from html import escape
from typing import Any

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.measures import Measures
from yarncolor.report.show.asked import asked_together
from yarncolor.report.why.seen import Seen
from yarncolor.widgets.mishaps import heard


def status(words: str) -> str:
    """Return the line of a bench that says what happened; a screen reader reads it out."""
    look = "min-height:1.5em;line-height:1.4"
    return f'<p role="status" aria-live="polite" style="{look}">{escape(words)}</p>'


def status_asked(words: str, seen: Sequence[Seen], about: str, measures: Measures) -> str:
    """Return such a line with what tells why of its figures under it.

    Parameters
    ----------
    words : str
        What is said.
    seen : sequence of Seen
        Its figures, each with its reason.
    about : str
        What they are about.
    measures : Measures
        What the plan is said in.
    """
    return f"{status(words)}{asked_together(seen, about, measures)}"


def label(
    controls: dict[str, Any], words: dict[str, str], label_em: int, wide_em: int = 44
) -> None:
    """Write before each control what it is; all labels are as wide, and all controls.

    Parameters
    ----------
    controls : dict of str to widget
        Of a bench, by key.
    words : dict of str to str
        What stands before each.
    label_em : int
        Width of the longest.
    wide_em : int
        Width of a control with its label; on a narrow screen a slider stands under its label.
    """
    for key, control in controls.items():
        control.words = words[key]
        control.description, control.style = words[key], {"description_width": f"{label_em}em"}
        control.layout = w.Layout(width=f"{wide_em}em", max_width="98%")
        if isinstance(control, w.FloatSlider | w.IntSlider):
            control.layout.height, control.layout.flex_flow = "auto", "row wrap"


SAYS_PICTURE = "yc-says-picture"
"""How the page knows the words of a picture beside it: their first line is its name."""


def grey(control: Any, why: str) -> None:
    """Grey a control and say why; without a reason it is there again.

    Parameters
    ----------
    control : widget
        A button, or what has a label of `label`.
    why : str
        Read out with its name, and shown where one points at it; empty where it can be used.
    """
    control.disabled = bool(why)
    if isinstance(control, w.Button):
        control.tooltip = why
    else:
        told = f'<span title="{escape(why)}">{escape(control.words)}</span>'
        control.description_allow_html = bool(why)
        control.description = told if why else control.words


def in_rows(controls: Sequence[w.Widget]) -> w.HBox:
    """Return controls beside one another where there is room, under one another where not."""
    look = {"flex_flow": "row wrap", "width": "100%", "overflow": "visible"}
    return w.HBox(controls, layout=w.Layout(**look))


def beside(picture: Sequence[w.Widget], controls: Sequence[w.Widget]) -> w.HBox:
    """Return a picture with its controls beside it where there is room, under it where not.

    Parameters
    ----------
    picture, controls : sequence of Widget
        What stands in either half, from the top.
    """
    halves = [w.VBox(each, layout=w.Layout(overflow="visible")) for each in (picture, controls)]
    for half in halves:
        half.add_class("yc-half")
    return in_rows(halves)


FOLD = "yc-fold"
"""How the page knows a button that folds: it says whether that is open, not whether pressed."""


class Folded(w.VBox):
    """What few need, folded away at first under a button that a key reaches as well.

    Parameters
    ----------
    what : str
        What is folded away, as in "finer settings".
    children : sequence of widget
        What is seen when it is unfolded.
    """

    def __init__(self, what: str, children: Sequence[w.Widget]) -> None:
        self.what = what
        self.button = w.ToggleButton(layout=w.Layout(width="16em"))
        self.button.add_class(FOLD)
        self.inside = w.VBox(children, layout=w.Layout(width="100%"))
        self.button.observe(heard(self, lambda _: self._fold()), "value")
        super().__init__([self.button, self.inside], layout=w.Layout(width="100%"))
        self._fold()

    def _fold(self) -> None:
        is_open = self.button.value
        self.button.description = f"{'Hide' if is_open else 'Show'} {self.what}"
        self.inside.layout.display = None if is_open else "none"


class EditorView(w.VBox):
    """A bench that shows an editor's plan; who holds the bench tells it when to follow.

    Subclasses give `render`, which shows the plan as it stands by now.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    children : sequence of widget
        What the bench is made of.
    """

    def __init__(self, editor: Editor, children: Sequence[w.Widget]) -> None:
        super().__init__(children, layout=w.Layout(width="100%", overflow="visible"))
        self.editor = editor
        self._seen: object = editor.revision

    def render(self) -> None:
        """Show the plan of the editor as it stands by now."""
        raise NotImplementedError

    def refresh(self) -> None:
        """Show the plan as it stands, whoever changed it; nothing where it is shown already."""
        if self._seen is not self.editor.revision:
            self._seen = self.editor.revision
            self.render()
