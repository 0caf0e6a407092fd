"""What is told of a plan in tables, as sections that follow it."""

from typing import Protocol

import ipywidgets as w

from yarncolor.answers.answer import Answer
from yarncolor.cautions import BREAKS, DUST, SHEETS, WHEEL
from yarncolor.editing.editor import Editor
from yarncolor.report.mixture_words import turn_of
from yarncolor.report.show.colours import show_pairs, show_twins
from yarncolor.report.show.fabric import show_fabric
from yarncolor.report.show.fragment import Fragment, sentences
from yarncolor.report.show.pictures import show_stripes
from yarncolor.report.show.plan import show_batts, show_stash, show_weigh_out
from yarncolor.report.show.wheel import show_bobbins, show_hours, show_skeins, show_weigh_points
from yarncolor.report.show.yarn import show_counts, show_known, show_moisture, show_twist
from yarncolor.widgets.parts import EditorView


def _marls(found: Answer, explained: bool) -> Fragment:
    return show_pairs(found, turn_of(found.resolved.yarn).mm, explained=explained)


def _care(_: Answer, explained: bool) -> Fragment:  # noqa: ARG001
    return sentences(f"{DUST} {SHEETS}", f"{WHEEL} {BREAKS}")


class Show(Protocol):
    """What is told of an answer."""

    def __call__(self, answer: Answer, /, *, explained: bool) -> Fragment:
        """Return it; with figures that answer why, if that is asked for."""


WEIGH_OUT: tuple[Show, ...] = (
    show_stash,
    show_batts,
    show_weigh_out,
    show_bobbins,
    show_weigh_points,
    show_skeins,
    show_hours,
    _care,
)
"""What is wanted at the scale and at the wheel."""
NUMBERS: tuple[Show, ...] = (
    show_known,
    show_counts,
    show_twist,
    show_fabric,
    show_stripes,
    show_moisture,
    _marls,
    show_twins,
)
"""What else follows from a plan."""


class TablesBench(EditorView):
    """Tables of a plan, one under the other.

    Parameters
    ----------
    editor : Editor
        The plan that is told; it is not changed.
    shows : tuple of callable
        What is told of its answer.
    """

    def __init__(self, editor: Editor, shows: tuple[Show, ...]) -> None:
        self.shows, self.html = shows, w.HTML(layout=w.Layout(width="100%"))
        super().__init__(editor, [self.html])
        self.render()

    def __repr__(self) -> str:
        return "Tables that follow a plan; they need a live notebook."

    def render(self) -> None:
        """Tell the plan of the editor as it stands by now."""
        found = self.editor.answer
        told = [html for show in self.shows if (html := show(found, explained=True).html)]
        self.html.value = "".join(f'<div style="{_PART}">{html}</div>' for html in told)


_PART = "overflow-x:auto;margin:0 0 1.4em;line-height:1.4;max-width:calc(100% - 6px)"


def weigh_out_bench(editor: Editor) -> TablesBench:
    """Return what is wanted at the scale and at the wheel, following an editor."""
    return TablesBench(editor, WEIGH_OUT)


def numbers_bench(editor: Editor) -> TablesBench:
    """Return what else follows from an editor's plan, following it."""
    return TablesBench(editor, NUMBERS)
