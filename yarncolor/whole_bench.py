"""The bench: one page that holds stash, order, options, yarn, fabric, files together."""

import asyncio
import os
from collections.abc import Callable
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.answers import answer
from yarncolor.benches import status
from yarncolor.display import Fragment
from yarncolor.editor import Editor
from yarncolor.errors import PlanError, all_faults
from yarncolor.plan import Plan
from yarncolor.widgets import OrderBench

QUIET_S = 0.8
"""Seconds without a change after which the file is kept up."""


def bench(plan_file: str | Path, out_folder: str | Path = "out") -> "Bench":
    """Return the whole bench on a plan file, in one widget.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed by the button that says so, or at once where that is ticked.
    out_folder : str or Path
        Where pictures, cards and tables are written.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return Bench(Editor.opened(plan_file), Path(out_folder))


class Bench(w.VBox):
    """Sections round one editor; one is seen at a time, each made when it is first asked for.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    out_folder : Path
        Where files are written.
    """

    def __init__(self, editor: Editor, out_folder: Path) -> None:
        self.editor, self.out_folder = editor, out_folder
        self.sections = w.ToggleButtons(
            options=list(_SECTIONS),
            value=_FIRST,
            style={"button_width": "auto"},
            layout=w.Layout(width="100%"),
        )
        self.keep = w.Checkbox(
            description="keep the plan file up to date", indent=False, layout=w.Layout(width="20em")
        )
        self.state = w.HTML()
        self.place = w.VBox(layout=w.Layout(width="100%"))
        self._made: dict[str, tuple[Plan, w.Widget]] = {}
        self._waiting: asyncio.TimerHandle | None = None
        self.sections.observe(lambda _: self._show(), "value")
        self.keep.observe(lambda _: self._on_change(), "value")
        editor.watch(self._on_change)
        head = w.HBox([self.keep, self.state], layout=w.Layout(flex_flow="row wrap"))
        super().__init__([self.sections, head, self.place])
        self._show()
        self._say_state()

    def __repr__(self) -> str:
        return f"The bench: {', '.join(_SECTIONS)}; it needs a live notebook."

    def _show(self) -> None:
        """Show the section asked for; one that does not follow the editor is made anew."""
        name = self.sections.value
        make, follows = _SECTIONS[name]
        plan, made = self._made.get(name, (None, None))
        if made is None or (not follows and plan is not self.editor.plan):
            if made is not None:
                made.close()
            made = make(self.editor, self.out_folder)
            self._made[name] = (self.editor.plan, made)
        self.place.children = (made,)

    def _on_change(self) -> None:
        self._say_state()
        if not self.keep.value or self.editor.is_saved:
            return
        if self._waiting is not None:
            self._waiting.cancel()
        try:
            self._waiting = asyncio.get_running_loop().call_later(QUIET_S, self._keep_up)
        except RuntimeError:
            self._keep_up()

    def _keep_up(self) -> None:
        """Save what was changed; where the file is another's by now, stop and say so."""
        self._waiting = None
        try:
            self.editor.save()
        except PlanError as error:
            self.keep.value = False
            self._say(f"Not kept up to date any more. {all_faults(error)}")
        else:
            self._say_state()

    def _say_state(self) -> None:
        path = self.editor.path.as_posix() if self.editor.path else "no file yet"
        self._say(f"{path}: {'saved' if self.editor.is_saved else 'changed, not saved yet'}")

    def _say(self, words: str) -> None:
        self.state.value = status(words)


def _order(editor: Editor, out_folder: Path) -> w.Widget:
    return OrderBench(editor, out_folder)


def _lots(editor: Editor, out_folder: Path) -> w.Widget:
    from yarncolor.lots_editor import LotsBench

    return LotsBench(editor, out_folder)


def _weigh_out(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.display import show_weigh_out

    return w.HTML(show_weigh_out(answer(editor.plan)).html, layout=w.Layout(width="100%"))


def _options(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.options_form import OptionsBench

    return OptionsBench(editor)


def _twist(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.yarn_widgets import YarnBench

    return YarnBench(editor)


def _pictures(editor: Editor, out_folder: Path) -> w.Widget:
    from yarncolor.picture_widgets import PictureBench

    return PictureBench(editor, out_folder)


def _comparison(editor: Editor, out_folder: Path) -> w.Widget:
    from yarncolor.comparison_widgets import ComparisonBench

    return ComparisonBench(editor.plan, out_folder)


def _mixtures(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.mixing_widgets import MixingBench

    return MixingBench(editor)


def _photographs(editor: Editor, out_folder: Path) -> w.Widget:
    from yarncolor.photo_demo import demo_photo
    from yarncolor.photo_widgets import PhotoBench

    return PhotoBench(demo_photo(), editor, out_folder)


def _files(editor: Editor, out_folder: Path) -> w.Widget:
    from yarncolor.export_bench import ExportBench

    return ExportBench(editor, out_folder)


_FIRST = "Colour order"
"""The section that is seen first: what the fingers came for."""

_Make = Callable[[Editor, Path], Any]
_SECTIONS: dict[str, tuple[_Make, bool]] = {
    "Lots": (_lots, True),
    _FIRST: (_order, True),
    "Weigh-out": (_weigh_out, False),
    "Every option": (_options, True),
    "Grist and twist": (_twist, False),
    "Yarn and fabric": (_pictures, True),
    "Side by side": (_comparison, False),
    "Mixtures": (_mixtures, True),
    "Photographs": (_photographs, True),
    "Files": (_files, True),
}
"""How each section is made, and whether it follows the editor by itself."""


def bench_page() -> "Bench | Fragment":
    """Return the bench for a page without code, or every fault of its plan file.

    The plan file and the folder for what is written stand in the environment, as
    ``YARNCOLOR_PLAN`` and ``YARNCOLOR_OUT``.
    """
    plan_file = os.environ.get("YARNCOLOR_PLAN", "")
    try:
        return bench(plan_file, os.environ.get("YARNCOLOR_OUT", "out"))
    except PlanError as error:
        lines = [f"This plan cannot be opened: {plan_file or 'none was named'}"]
        lines += [str(fault) for fault in error.faults]
        html = "".join(f"<p>{escape(line)}</p>" for line in lines)
        return Fragment(f'<div role="alert">{html}</div>', "\n".join(lines))
