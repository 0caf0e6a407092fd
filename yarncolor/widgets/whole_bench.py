"""The bench: one page that holds stash, order, options, yarn, fabric, files together."""

import os
from dataclasses import dataclass
from html import escape
from importlib import import_module
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.report.show.fragment import Fragment
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
        self.bar.open_section = self._open
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
            self._made[name] = _SECTIONS[name].made(self.editor, self.out_folder)
        self._made[name].refresh()
        self.place.children = (self._made[name],)
        self.bar.show_section(name)

    def _open(self, name: str) -> None:
        if name in _SECTIONS:
            self.sections.value = name


@dataclass(frozen=True)
class _Section:
    """What makes a section when it is first asked for; only then its module is loaded.

    Parameters
    ----------
    module, maker : str
        Where it stands among the widgets, and what it is called: it takes the editor.
    writes : bool
        Whether it takes the folder for files as well.
    """

    module: str
    maker: str
    writes: bool = False

    def made(self, editor: Editor, out_folder: Path) -> Any:
        """Return the section round an editor."""
        maker = getattr(import_module(f"yarncolor.widgets.{self.module}"), self.maker)
        return maker(editor, out_folder) if self.writes else maker(editor)


_FIRST = "Colour order"
"""The section that is seen first: what the fingers came for."""

_SECTIONS = {
    "Lots": _Section("lots.lots_bench", "LotsBench"),
    _FIRST: _Section("order.order_bench", "OrderBench", writes=True),
    "Weigh-out": _Section("tables_bench", "weigh_out_bench"),
    "At the wheel": _Section("spinning.spinning_bench", "SpinningBench"),
    "Every option": _Section("options.options_bench", "OptionsBench"),
    "Grist and twist": _Section("yarn_bench", "YarnBench"),
    "Yarn and fabric": _Section("picture_bench", "PictureBench", writes=True),
    "In numbers": _Section("tables_bench", "numbers_bench"),
    "Side by side": _Section("comparison_bench", "ComparisonBench", writes=True),
    "Mixtures": _Section("mixing_bench", "MixingBench"),
    "Photographs": _Section("photo.photo_bench", "example_photo_bench"),
    "Files": _Section("export_bench", "ExportBench", writes=True),
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
