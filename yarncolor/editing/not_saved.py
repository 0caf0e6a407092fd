"""What is not saved of a plan is kept on the disk, in case all else is lost, and offered anew."""

import contextlib
from dataclasses import dataclass
from pathlib import Path

from yarncolor.editing.editor import Editor
from yarncolor.editing.step_words import change_words
from yarncolor.errors import PlanError
from yarncolor.plan import Plan
from yarncolor.planfile.read import plan_of_file
from yarncolor.planfile.save import save_new, write_text
from yarncolor.planfile.toml_text import read_text
from yarncolor.planfile.unsaved import Unsaved, unsaved_names, unsaved_of


@dataclass(frozen=True)
class Offer:
    """What was never saved of a plan's file.

    Parameters
    ----------
    unsaved : Unsaved
        Where it is kept, and since when.
    plan : Plan
        What it says.
    changed : str
        What would change if it came back.
    """

    unsaved: Unsaved
    plan: Plan
    changed: str

    @property
    def words(self) -> str:
        """When it was written, on this computer's clock, and what it would change."""
        since = self.unsaved.since.astimezone()
        return f"Changed on {since:%Y-%m-%d at %H:%M} and never saved: {self.changed}."


class NotSaved:
    """What an editor's plan says beyond its file, kept beside that until it is saved.

    Each editor keeps its own; what another left behind, because its program was lost or its page
    closed, is offered, and stays until somebody decides.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        self.editor = editor
        self._own: Path | None = None
        self._text = ""

    def keep(self, text: str) -> None:
        """Keep the plan as it stands, or nothing where it is saved; a disk that refuses is borne.

        Parameters
        ----------
        text : str
            The plan file as it would be saved.
        """
        path = self.editor.path
        if path is None or self.editor.is_saved:
            self._let_go()
            return
        places = unsaved_names(path)
        if self._own not in places:
            self._let_go()
        elif text == self._text:
            return
        with contextlib.suppress(PlanError, OSError):
            self._own = write_text(self._own, text) if self._own else _kept_anew(places, text)
            self._text = text

    def offer(self) -> Offer | None:
        """Return the newest of what another left behind; what says nothing new goes."""
        path = self.editor.path
        if path is None:
            return None
        for unsaved in unsaved_of(path):
            if unsaved.path == self._own or (plan := _plan_in(unsaved, path)) is None:
                continue
            if changed := change_words(self.editor.plan, plan):
                return Offer(unsaved, plan, changed)
            self.drop(unsaved)
        return None

    def take_up(self, offer: Offer) -> None:
        """Put what was never saved in the place of the plan, as one step; nothing is saved yet."""
        self._let_go()
        self._own, self._text = offer.unsaved.path, ""
        self.editor.say_spun(offer.plan)

    def drop(self, unsaved: Unsaved) -> None:
        """Throw away what was never saved."""
        with contextlib.suppress(OSError):
            unsaved.path.unlink()

    def _let_go(self) -> None:
        if self._own is not None:
            with contextlib.suppress(OSError):
                self._own.unlink()
        self._own, self._text = None, ""


def _kept_anew(places: tuple[Path, ...], text: str) -> Path | None:
    """Return the first place where nothing was, and the text is now; None where all are taken."""
    for place in places:
        if not place.exists():
            return save_new(place, text)
    return None


def _plan_in(unsaved: Unsaved, path: Path) -> Plan | None:
    try:
        return plan_of_file(read_text(unsaved.path), path)
    except PlanError:
        return None
