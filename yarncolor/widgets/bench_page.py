"""The bench as a page: all that takes time is done while the browser loads what draws it."""

import asyncio
import os
from collections.abc import Callable
from contextlib import suppress
from functools import cached_property
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

import ipywidgets as w

from yarncolor.errors import PlanError
from yarncolor.widgets.doorbell import Doorbell
from yarncolor.widgets.mishaps import kept_for_the_log

if TYPE_CHECKING:
    from yarncolor.editing.editor import Editor
    from yarncolor.widgets.whole_bench import Bench

_SOON_S = 0.02
"""Seconds after which the bench is got ready: by then the page is on its way to the browser."""


def bench_page() -> "BenchPage":
    """Return the bench for a page without code.

    The plan file, the folder for what is written and that for plans without a file stand in the
    environment, as ``YARNCOLOR_PLAN``, ``YARNCOLOR_OUT`` and ``YARNCOLOR_FOLDER``.
    """
    told = os.environ
    out = told.get("YARNCOLOR_OUT", "out")
    return BenchPage(told.get("YARNCOLOR_PLAN", ""), out, told.get("YARNCOLOR_FOLDER", out))


class BenchPage(w.VBox):
    """Nothing at first; when the browser is there, the bench, or every fault of its plan file.

    Parameters
    ----------
    plan_file : str
        A plan file; where none is named, a first screen asks for one.
    out_folder : str
        Where files are written.
    folder : str
        Where plans are looked for, and kept that have no file yet.
    """

    def __init__(self, plan_file: str, out_folder: str, folder: str) -> None:
        self.plan_file, self.out_folder, self.folder = plan_file, Path(out_folder), Path(folder)
        self.doorbell, self._is_filled = Doorbell(self.fill), False
        super().__init__([self.doorbell], layout=w.Layout(overflow="visible"))
        with suppress(RuntimeError):  # where nothing runs, it is made when the bell rings
            asyncio.get_running_loop().call_later(_SOON_S, lambda: self.made)

    @cached_property
    def made(self) -> Callable[[], w.Widget]:
        """What makes the bench in no time: its modules are loaded, its plan is laid out.

        No widget is made before the browser is there: it would hear of half of them.
        """
        from yarncolor.widgets.whole_bench import opened_editor

        if not self.plan_file:
            return self._asked
        try:
            editor = opened_editor(self.plan_file)
        except PlanError as error:
            told = _faults(self.plan_file, error)
            return lambda: w.HTML(told)
        return lambda: self._bench(editor)

    def _asked(self) -> w.Widget:
        from yarncolor.widgets.first_screen import FirstScreen

        return FirstScreen(self.folder, self._begin)

    def _begin(self, editor: "Editor", section: str) -> None:
        bench = self._bench(editor)
        bench.open_section(section)
        self.children = (self.doorbell, bench)

    def _bench(self, editor: "Editor") -> "Bench":
        from yarncolor.widgets.whole_bench import Bench

        return Bench(editor, self.out_folder, self.folder)

    def fill(self) -> None:
        """Show the bench, once."""
        if not self._is_filled:
            self._is_filled = True
            self.children = (self.doorbell, self._made_or_told())

    def _made_or_told(self) -> w.Widget:
        try:
            return self.made()
        except Exception as error:  # whatever it is, a page that stays empty says nothing
            return w.HTML(f'<div role="alert"><p>{escape(kept_for_the_log(error))}</p></div>')


def _faults(plan_file: str, error: PlanError) -> str:
    lines = [f"This plan cannot be opened: {plan_file}"]
    lines += [str(fault) for fault in error.faults]
    return f'<div role="alert">{"".join(f"<p>{escape(line)}</p>" for line in lines)}</div>'
