"""The bench: one page that holds stash, order, options, yarn, fabric, files together."""

from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.order.yarn_band import YarnBand
from yarncolor.widgets.plan_bar import PlanBar
from yarncolor.widgets.stages import Stages


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


def opened_editor(plan_file: str | Path) -> Editor:
    """Return an editor on a plan file with all at hand that the first section is made of.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    _SECTIONS[_FIRST].load()
    editor = Editor.opened(plan_file)
    _ = editor.preview
    return editor


class Bench(w.VBox):
    """Sections round one editor; one is seen at a time, each made when it is first asked for.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    out_folder : Path
        Where files are written.
    plans_folder : Path, optional
        Where a plan goes that has no file yet; where the others go, if nothing is said.
    """

    def __init__(self, editor: Editor, out_folder: Path, plans_folder: Path | None = None) -> None:
        self.editor, self.out_folder = editor, out_folder
        self.bar = PlanBar(editor, plans_folder or out_folder)
        self.kept = w.VBox([self.bar, YarnBand(editor)], layout=w.Layout(overflow="visible"))
        self.kept.add_class("yc-kept")
        self.sections = Stages(_STAGES, _FIRST)
        self.place = w.VBox(layout=w.Layout(width="100%", overflow="visible"))
        self.place.add_class("yc-section")
        self.bar.open_section = self.open_section
        self._made: dict[str, Any] = {}
        self.sections.observe(heard(self, lambda _: self._show()), "value")
        editor.watch(self._show)
        super().__init__(
            [self.kept, self.sections, self.place], layout=w.Layout(overflow="visible")
        )
        self.add_class("yc-bench")
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

    def open_section(self, name: str) -> None:
        """Show a section by its name; one that there is not changes nothing."""
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

    def load(self) -> Any:
        """Load its module and return what makes it."""
        return getattr(import_module(f"yarncolor.widgets.{self.module}"), self.maker)

    def made(self, editor: Editor, out_folder: Path) -> Any:
        """Return the section round an editor."""
        maker = self.load()
        return maker(editor, out_folder) if self.writes else maker(editor)


_FIRST = "Colour order"
"""The section that is seen first: what the fingers came for."""

_STAGES = {
    "1 What I have": ("Lots", "Photographs", "Mixtures"),
    "2 What I want": ("Every option", _FIRST, "Which order", "Yarn and fabric", "Side by side"),
    "3 What it takes": ("Weigh-out", "Grist and twist", "What hands do", "In numbers"),
    "4 Spinning": ("At the wheel",),
    "5 Plying": ("At the plying wheel",),
    "6 Made": ("What came out", "Files"),
}
"""Sections in the order of the work."""

_SECTIONS = {
    "Lots": _Section("lots.lots_bench", "LotsBench"),
    "Photographs": _Section("photo.photo_bench", "example_photo_bench"),
    "Mixtures": _Section("mixing_bench", "MixingBench"),
    "Every option": _Section("options.options_bench", "OptionsBench"),
    _FIRST: _Section("order.order_bench", "OrderBench", writes=True),
    "Which order": _Section("orders_bench", "OrdersBench"),
    "Yarn and fabric": _Section("picture_bench", "PictureBench", writes=True),
    "Side by side": _Section("comparison_bench", "ComparisonBench", writes=True),
    "Weigh-out": _Section("tables_bench", "weigh_out_bench"),
    "Grist and twist": _Section("yarn_bench", "YarnBench"),
    "What hands do": _Section("drift_bench", "DriftBench"),
    "In numbers": _Section("tables_bench", "numbers_bench"),
    "At the wheel": _Section("spinning.spinning_bench", "SpinningBench"),
    "At the plying wheel": _Section("plying.plying_bench", "PlyingBench"),
    "What came out": _Section("made_bench", "MadeBench", writes=True),
    "Files": _Section("export_bench", "ExportBench", writes=True),
}
"""How each section is made; all of them have `refresh`."""
