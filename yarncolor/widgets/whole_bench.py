"""The bench: one page that holds stash, order, options, yarn, fabric, files together."""

import os
from collections.abc import Callable
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.report.show.fragment import Fragment
from yarncolor.widgets.order.order_bench import OrderBench
from yarncolor.widgets.plan_bar import PlanBar


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
        self.bar = PlanBar(editor, out_folder)
        self.sections = w.ToggleButtons(
            options=list(_SECTIONS),
            value=_FIRST,
            style={"button_width": "auto"},
            layout=w.Layout(width="100%"),
        )
        self.place = w.VBox(layout=w.Layout(width="100%", overflow="visible"))
        self._made: dict[str, Any] = {}
        self.sections.observe(lambda _: self._show(), "value")
        editor.watch(self._show)
        super().__init__([self.bar, self.sections, self.place], layout=w.Layout(overflow="visible"))
        self._show()

    def __repr__(self) -> str:
        return f"The bench: {', '.join(_SECTIONS)}; it needs a live notebook."

    def _show(self) -> None:
        """Show the section asked for as the plan stands; those out of sight wait."""
        name = self.sections.value
        if name not in self._made:
            self._made[name] = _SECTIONS[name](self.editor, self.out_folder)
        self._made[name].refresh()
        self.place.children = (self._made[name],)


def _lots(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.widgets.lots.lots_bench import LotsBench

    return LotsBench(editor)


def _options(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.widgets.options.options_bench import OptionsBench

    return OptionsBench(editor)


def _twist(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.widgets.yarn_bench import YarnBench

    return YarnBench(editor)


def _pictures(editor: Editor, out_folder: Path) -> w.Widget:
    from yarncolor.widgets.picture_bench import PictureBench

    return PictureBench(editor, out_folder)


def _comparison(editor: Editor, out_folder: Path) -> w.Widget:
    from yarncolor.widgets.comparison_bench import ComparisonBench

    return ComparisonBench(editor, out_folder)


def _mixtures(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.widgets.mixing_bench import MixingBench

    return MixingBench(editor)


def _photographs(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.colour.photo.demo import demo_photo
    from yarncolor.widgets.photo.photo_bench import PhotoBench

    return PhotoBench(demo_photo(), editor)


def _weigh_out(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.widgets.tables_bench import WEIGH_OUT, TablesBench

    return TablesBench(editor, WEIGH_OUT)


def _numbers(editor: Editor, _: Path) -> w.Widget:
    from yarncolor.widgets.tables_bench import NUMBERS, TablesBench

    return TablesBench(editor, NUMBERS)


def _files(editor: Editor, out_folder: Path) -> w.Widget:
    from yarncolor.widgets.export_bench import ExportBench

    return ExportBench(editor, out_folder)


_FIRST = "Colour order"
"""The section that is seen first: what the fingers came for."""

_SECTIONS: dict[str, Callable[[Editor, Path], Any]] = {
    "Lots": _lots,
    _FIRST: OrderBench,
    "Weigh-out": _weigh_out,
    "Every option": _options,
    "Grist and twist": _twist,
    "Yarn and fabric": _pictures,
    "In numbers": _numbers,
    "Side by side": _comparison,
    "Mixtures": _mixtures,
    "Photographs": _photographs,
    "Files": _files,
}
"""How each section is made; all of them have `refresh`."""


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
