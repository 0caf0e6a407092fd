"""What benches share whose fields may hold what is not in the plan yet."""

from collections.abc import Mapping
from typing import Any

from yarncolor.editing.draft import Draft
from yarncolor.editing.editor import Editor
from yarncolor.measures import measures_of
from yarncolor.widgets.choosing import Quiet
from yarncolor.widgets.message_widget import MessageWidget
from yarncolor.widgets.protocol.asks import Ask, PutBack


class DraftBench(MessageWidget):
    """Fields round one editor; what is typed and not in its plan is a draft that undo drops.

    A draft was typed in the units that its plan had then; in other units it is nothing any more.

    Subclasses give `state`, which is shown when a page is there and whenever the plan is another.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        super().__init__()
        self.editor, self.draft = editor, Draft()
        self._busy, self._heard = Quiet(), False
        self._said, self._refused = "", False
        self._seen: object = None
        self._said_in = measures_of(editor.plan)

    def state(self) -> Mapping[str, Any]:
        """Return what is shown of the plan as it stands, as a message."""
        raise NotImplementedError

    def on_ready(self, _: Ask) -> None:
        """Show the plan to a page that is there now."""
        self._heard = True
        self._show()

    def on_back(self, message: PutBack) -> None:
        """Let a field say again what the plan says."""
        self._keep(self.draft.without(message["name"]))
        self._show()

    def refresh(self) -> None:
        """Show the plan as it stands, whoever changed it."""
        if self._seen is not self.editor.revision and not self._busy:
            self._follow_units()
            self._tell("")

    def _follow_units(self) -> bool:
        """Drop what was typed in other units than the plan has now; return whether they are new."""
        say = measures_of(self.editor.plan)
        if say is self._said_in:
            return False
        self._said_in = say
        self._keep(Draft())
        return True

    def _keep(self, draft: Draft) -> None:
        """Keep what is typed and not in the plan; undo drops it first."""
        self.draft = draft
        if draft:
            self.editor.set_pending(self, self._drop)
        else:
            self.editor.clear_pending(self)

    def _drop(self) -> None:
        self.draft = Draft()
        self._show()

    def _tell(self, said: str, refused: bool = False) -> None:
        """Show the plan, and what came of what was asked for."""
        self._said, self._refused = said, refused
        self._show()

    def _show(self) -> None:
        if self._heard:
            self._seen = self.editor.revision
            self.send(self.state())

    def _say(self, told: Mapping[str, Any]) -> None:
        """Say something beside it, where a page is there."""
        if self._heard:
            self.send(told)
