"""What a plan is kept by: its file's name and state, undo, saving, opening, handing over."""

import asyncio
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError, one_line
from yarncolor.planfile.read import decoded, read_text
from yarncolor.widgets.message_widget import MessageWidget, module

QUIET_S = 0.8
"""Seconds without a change after which the file is kept up."""
_MOST_LINES = 20
_WRITTEN = "Written: "
_PUT_BACK = "What was typed and not right is gone; the plan is as it was."
_NO_FILE = "plan.toml"
_NEW = """[[lots]]
name = "Lot 1"
colour = "#808080"
mass_g = 20.0
"""


class PlanBar(MessageWidget):
    """The one place where a plan is saved and steps are taken back.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    out_folder : Path
        Where a plan goes that has no file yet.
    """

    _esm = module("element", "plan_bar")["_esm"]
    _css = module("element", "plan_bar")["_css"]

    def __init__(self, editor: Editor, out_folder: Path) -> None:
        super().__init__()
        self.editor, self.out_folder = editor, out_folder
        self.said, self.keeps_up = "", False
        self._heard = False
        self._waiting: asyncio.TimerHandle | None = None
        editor.watch(self._on_watched, drafts=True)

    def __repr__(self) -> str:
        return "What the plan is kept by; it needs a live notebook."

    def told(self) -> dict[str, Any]:
        """Return what the bar says: file, state, what can be done, what came of it."""
        editor = self.editor
        return {
            "file": editor.path.name if editor.path else "",
            "folder": editor.path.parent.as_posix() if editor.path else "",
            "state": self._state(),
            "saves": editor.path is not None,
            "at_risk": not editor.is_saved,
            "undo": editor.can_undo,
            "redo": editor.can_redo,
            "keeps": self.keeps_up,
            "said": self.said,
        }

    def _state(self) -> str:
        if self.editor.path is None:
            return "save it under a name to keep it"
        return "saved" if self.editor.is_saved else "changed, not saved yet"

    def _do_ready(self, _: dict[str, Any]) -> None:
        self._heard = True
        self._show()

    def _do_undo(self, _: dict[str, Any]) -> None:
        said = _PUT_BACK if self.editor.has_pending else ""
        self.editor.undo()
        self._say(said)

    def _do_redo(self, _: dict[str, Any]) -> None:
        self.editor.redo()
        self._say("")

    def _do_save(self, _: dict[str, Any]) -> None:
        self._written(self.editor.save)

    def _do_save_as(self, content: dict[str, Any]) -> None:
        name = str(content.get("name", ""))
        self._written(lambda: self.editor.save_beside(name, self.out_folder))

    def _written(self, task: Any) -> None:
        try:
            said = f"{_WRITTEN}{task().as_posix()}{self._left_out()}"
        except PlanError as error:
            said = one_line(error)
        self._say(said)

    def _left_out(self) -> str:
        return ". What is marked as wrong is not in it." if self.editor.has_pending else ""

    def _do_download(self, content: dict[str, Any]) -> None:
        """Hand the plan file to the browser, which puts it where downloads go."""
        try:
            text = self.editor.text()
        except PlanError as error:
            self._say(one_line(error))
            return
        name = self.editor.path.name if self.editor.path else _NO_FILE
        self.send({"kind": "download", "view": content.get("view"), "name": name, "text": text})
        self._say(f"Handed to the browser as {name}{self._left_out()}")

    def _do_open(self, content: dict[str, Any]) -> None:
        """Put a plan that was opened in the browser in the place of this one, as one step."""
        name = str(content.get("name", ""))[:200]
        try:
            text = decoded(bytes(content["buffers"][0]), name)
            path = self._kept_here(name, text)
            self.editor.open_text(text, name, path)
        except PlanError as error:
            self._say(f"Not opened. {_in_lines(error)}")
            return
        where = "" if path else " It has no file here yet: save it under a name."
        self._say(f"Opened: {name}.{where} Undo brings back what was here.")

    def _kept_here(self, name: str, text: str) -> Path | None:
        """Return the file of that name beside the plan, or where plans go, that says the same.

        A browser tells no folders; a file that says what was opened is the one that was meant.
        """
        folders = [self.editor.path.parent] if self.editor.path else []
        for path in (folder / Path(name).name for folder in [*folders, self.out_folder]):
            try:
                if path.is_file() and read_text(path) == text:
                    return path
            except PlanError:
                continue
        return None

    def _do_new(self, _: dict[str, Any]) -> None:
        """Begin a plan with nothing of another in it, as one step."""
        self.editor.open_text(_NEW, "a new plan")
        self._say("A new plan, with one lot to begin with. Undo brings back what was here.")

    def _do_keep(self, content: dict[str, Any]) -> None:
        self.keeps_up = bool(content.get("on"))
        self._on_watched()

    def _on_watched(self) -> None:
        if not self.editor.is_saved and self.said.startswith(_WRITTEN):
            self.said = ""
        self._show()
        if not self.keeps_up or self.editor.is_saved:
            return
        if self._waiting is not None:
            self._waiting.cancel()
        try:
            self._waiting = asyncio.get_running_loop().call_later(QUIET_S, self.keep_up)
        except RuntimeError:
            self.keep_up()

    def keep_up(self) -> None:
        """Save what was changed; where the file is another's by now, stop and say so."""
        self._waiting = None
        try:
            self.editor.save()
        except PlanError as error:
            self.keeps_up = False
            self._say(f"Not kept up to date any more. {one_line(error)}")
        else:
            self._say("")

    def _say(self, words: str) -> None:
        self.said = words
        self._show()

    def _show(self) -> None:
        if self._heard:
            self.send({"kind": "bar", **self.told()})


class WithPlanBar(w.VBox):
    """A bench under the bar of its plan.

    Parameters
    ----------
    bench : Widget
        What changes the plan; its `refresh`, where it has one, is called after every change.
    editor : Editor
        The plan being worked on.
    out_folder : Path
        Where a plan goes that has no file yet.
    """

    def __init__(self, bench: w.Widget, editor: Editor, out_folder: Path) -> None:
        self.bench, self.bar = bench, PlanBar(editor, out_folder)
        if hasattr(bench, "refresh"):
            editor.watch(bench.refresh)
        super().__init__([self.bar, bench], layout=w.Layout(overflow="visible"))

    def __repr__(self) -> str:
        return repr(self.bench)


def _in_lines(error: PlanError) -> str:
    """Return faults, one a line; of very many the first ones."""
    lines = [str(fault) for fault in error.faults]
    more = len(lines) - _MOST_LINES
    return "\n".join(lines if more <= 0 else [*lines[:_MOST_LINES], f"and {more} more"])
