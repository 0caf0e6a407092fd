"""What a plan is kept by: its file's name and state, undo, saving, opening, handing over."""

import asyncio
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.editing.kept_steps import KeptSteps
from yarncolor.editing.new_plan import NEW_PLAN, new_plan_like
from yarncolor.editing.not_saved import NotSaved, Offer
from yarncolor.editing.step_words import stays_words
from yarncolor.errors import PlanError, one_line
from yarncolor.plan.reference import KEYS
from yarncolor.planfile.toml_text import decoded, read_text
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.mishaps import heard, say_at
from yarncolor.widgets.page_draft import draft_of, steps_of
from yarncolor.widgets.protocol.asks import AskOfView
from yarncolor.widgets.protocol.bar import (
    BarState,
    Beat,
    Download,
    KeepUp,
    NewPlan,
    OpenPlan,
    Resume,
    SaveAs,
    SayIn,
)
from yarncolor.widgets.protocol.messages import HEARD

QUIET_S = 0.8
"""Seconds without a change after which the file is kept up."""
BETWEEN_VERSIONS = timedelta(minutes=10)
"""A file that is kept up to date leaves what it said behind no more often."""
_UNITS = KEYS["", "units"]
_MOST_LINES = 20
_PUT_BACK = "What was typed and not right is gone; the plan is as it was."
_TAKEN_UP = "The page was loaded anew; the plan is as it was, and so are Undo and Redo."
_NO_FILE = "plan.toml"
_BROUGHT_BACK = "The plan is as it was then, and not saved yet. Undo brings back what was here."
_THROWN_AWAY = "Thrown away."


class PlanBar(MessageWidget):
    """The one place where a plan is saved and steps are taken back.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    out_folder : Path
        Where a plan goes that has no file yet.
    """

    _esm = module("plan_bar")
    hears = HEARD["bar"]

    def __init__(self, editor: Editor, out_folder: Path) -> None:
        super().__init__()
        self.editor, self.out_folder = editor, out_folder
        self.said, self.keeps_up = "", False
        self._true_of: object = None
        self._heard = False
        self.section = ""
        self.open_section: Callable[[str], None] = self.show_section
        self._waiting: asyncio.TimerHandle | None = None
        self.not_saved = NotSaved(editor)
        self.offer: Offer | None = None
        editor.watch(self._on_watched, pending=True)
        say_at(self)

    def __repr__(self) -> str:
        return "What the plan is kept by; it needs a live notebook."

    def state(self) -> BarState:
        """Return what stands in the bar: file, state, what can be done, what came of it."""
        editor = self.editor
        return {
            "kind": "bar",
            "file": editor.path.name if editor.path else "",
            "folder": editor.path.parent.as_posix() if editor.path else "",
            "state": self._file_state(),
            "saves": editor.path is not None,
            "at_risk": not editor.is_saved,
            "undo": editor.can_undo,
            "redo": editor.can_redo,
            "undo_words": editor.undo_words,
            "redo_words": editor.redo_words,
            "keeps": self.keeps_up,
            "said": self.said or self._stays(),
            "never_saved": self.offer.words if self.offer else "",
            "units": editor.plan.units or str(_UNITS.default),
            "systems": _UNITS.choices,
        }

    def _stays(self) -> str:
        """Return what is spun and stays; while something is dragged its own section says it."""
        step = self.editor.revision
        return "" if step.drag else stays_words(step)

    def _file_state(self) -> str:
        if self.editor.path is None:
            return "save it under a name to keep it"
        return "saved" if self.editor.is_saved else "changed, not saved yet"

    def on_ready(self, _: AskOfView) -> None:
        """Show the bar to a page that is there now."""
        self._heard = True
        self.offer = self.not_saved.offer()
        self._show()

    def on_undo(self, _: AskOfView) -> None:
        """Put back what is typed and wrong; else take a step back."""
        words = self.editor.undo_words
        said = _PUT_BACK if self.editor.has_pending else f"Undone: {words}." if words else ""
        self.editor.undo()
        self._say(said, until_changed=True)

    def on_redo(self, _: AskOfView) -> None:
        """Take a step on again."""
        words = self.editor.redo_words
        self.editor.redo()
        self._say(f"Done again: {words}." if words else "", until_changed=True)

    def on_save(self, _: AskOfView) -> None:
        """Save the plan where it came from."""
        self._write(self.editor.save)

    def on_save_as(self, message: SaveAs) -> None:
        """Save the plan under another name beside it."""
        name = str(message.get("name", ""))
        self._write(lambda: self.editor.save_beside(name, self.out_folder))

    def _write(self, task: Callable[[], Path]) -> None:
        try:
            path = task()
        except PlanError as error:
            self._say(one_line(error))
        else:
            self.not_saved.keep("")
            self._say(f"Written: {path.as_posix()}{self._left_out()}", until_changed=True)

    def _left_out(self) -> str:
        return ". What is marked as wrong is not in it." if self.editor.has_pending else ""

    def on_download(self, message: AskOfView) -> None:
        """Hand the plan file to the browser, which puts it where downloads go."""
        try:
            text = self.editor.text()
        except PlanError as error:
            self._say(one_line(error))
            return
        name = self.editor.path.name if self.editor.path else _NO_FILE
        told: Download = {
            "kind": "download",
            "view": message.get("view"),
            "name": name,
            "text": text,
        }
        self.send(told)
        self._say(f"Handed to the browser as {name}{self._left_out()}")

    def on_open(self, message: OpenPlan) -> None:
        """Put a plan that was opened in the browser in the place of this one, as one step."""
        name = str(message.get("name", ""))[:200]
        try:
            text = decoded(bytes(message["buffers"][0]), name)
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
            except (PlanError, OSError):
                continue
        return None

    def on_new(self, message: NewPlan) -> None:
        """Begin a plan with nothing of another in it, or its title and piece, as one step."""
        keeps = message.get("keeps")
        text = new_plan_like(self.editor.plan) if keeps else NEW_PLAN
        self.editor.open_text(text, "a new plan")
        what = "A new plan for the same piece" if keeps else "A new plan"
        self._say(f"{what}, with one lot to begin with. Undo brings back what was here.")

    def on_say_in(self, message: SayIn) -> None:
        """Say masses and lengths of the plan in other units, as one step."""
        units, plan = message["units"], self.editor.plan
        if units in _UNITS.choice_words and units != (plan.units or _UNITS.default):
            self.editor.replace_plan(replace(plan, units=units))
            self._say(f"Said in {_UNITS.choice_words[units]} now.", until_changed=True)

    def on_keep(self, message: KeepUp) -> None:
        """Keep the plan's file up to date from now on, or no more."""
        self.keeps_up = bool(message.get("on"))
        self._on_watched()

    def on_beat(self, _: AskOfView) -> None:
        """Give a sign: the kernel is there."""
        told: Beat = {"kind": "beat"}
        self.send(told)

    def on_draft(self, _: AskOfView) -> None:
        """Hand over what the page keeps to go on with, and keep on the disk what is not saved."""
        try:
            kept = self.editor.kept()
        except PlanError:
            return
        self.not_saved.keep(kept.standing.text)
        self.send(draft_of(kept, self.section, self.editor.has_pending))

    def on_bring_back(self, _: AskOfView) -> None:
        """Put what was never saved in the place of the plan, as one step."""
        if self.offer is not None:
            self.not_saved.take_up(self.offer)
            self.offer = self.not_saved.offer()
            self._say(_BROUGHT_BACK, until_changed=True)

    def on_throw_away(self, _: AskOfView) -> None:
        """Throw away what was never saved."""
        if self.offer is not None:
            self.not_saved.drop(self.offer.unsaved)
            self.offer = self.not_saved.offer()
            self._say(_THROWN_AWAY)

    def on_resume(self, message: Resume) -> None:
        """Go on where a page was that has lost its kernel, or was loaded anew."""
        own = self.editor.path
        kept = steps_of(message, [*([own.parent] if own else []), self.out_folder])
        try:
            if self._is_new(kept):
                self.editor.take_up(kept)
                self.offer = self.not_saved.offer()
                self._say(_TAKEN_UP)
        except PlanError as error:
            self._say(f"What was not saved could not be brought back. {_in_lines(error)}")
            return
        self.open_section(message["section"])

    def _is_new(self, kept: KeptSteps) -> bool:
        """Return whether a page kept more than the file says; a file that changed goes first."""
        now, editor = kept.standing, self.editor
        if now.path != editor.path or now.text != now.file_text:
            return True
        return len(kept.steps) > 1 and now.file_text == editor.file_text

    def show_section(self, name: str) -> None:
        """Know which section of the bench is seen.

        Parameters
        ----------
        name : str
            As on its button.
        """
        if name != self.section:
            self.section = name
            self._show()

    def _on_watched(self) -> None:
        if self._true_of is not None and self._true_of is not self.editor.revision:
            self.said, self._true_of = "", None
        self._show()
        if not self.keeps_up or self.editor.is_saved:
            return
        if self._waiting is not None:
            self._waiting.cancel()
        try:
            self._waiting = asyncio.get_running_loop().call_later(
                QUIET_S, heard(self, self.keep_up)
            )
        except RuntimeError:
            self.keep_up()

    def keep_up(self) -> None:
        """Save what was changed; where the file is another's by now, stop and say so."""
        self._waiting = None
        try:
            self.editor.save(spare=BETWEEN_VERSIONS)
        except PlanError as error:
            self.keeps_up = False
            self._say(f"Not kept up to date any more. {one_line(error)}")
        except Exception:
            self.keeps_up = False
            raise
        else:
            self._say("")

    def say_mishap(self, words: str) -> None:
        """Say what went wrong on a bench of this plan, until something else is to be said."""
        self._say(words)

    def _say(self, words: str, until_changed: bool = False) -> None:
        """Show what came of it; some of it is true only until the plan is changed."""
        self.said, self._true_of = words, self.editor.revision if until_changed else None
        self._show()

    def _show(self) -> None:
        if self._heard:
            self.send(self.state())


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
        self.add_class("yc-bench")

    @classmethod
    def opened(
        cls,
        plan_file: str | Path,
        out_folder: str | Path,
        made: Callable[[Editor, Path], w.Widget],
    ) -> "WithPlanBar":
        """Return a bench on a plan file, under its bar; raise `PlanError` where that has faults.

        Parameters
        ----------
        plan_file : str or Path
            A plan file; it is changed only where that is asked for.
        out_folder : str or Path
            Where files are written, and a plan goes that has no file yet.
        made : callable
            Makes the bench from an editor and that folder.
        """
        editor, folder = Editor.opened(plan_file), Path(out_folder)
        return cls(made(editor, folder), editor, folder)

    def __repr__(self) -> str:
        return repr(self.bench)


def _in_lines(error: PlanError) -> str:
    """Return faults, one a line; of very many the first ones."""
    lines = [str(fault) for fault in error.faults]
    more = len(lines) - _MOST_LINES
    return "\n".join(lines if more <= 0 else [*lines[:_MOST_LINES], f"and {more} more"])
