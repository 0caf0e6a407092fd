"""What benches share whose fields may hold what is not in the plan yet."""

from collections.abc import Mapping
from typing import Any

from yarncolor.editing.draft import Draft
from yarncolor.editing.editor import Editor
from yarncolor.editing.other_units import typed_in
from yarncolor.measures import measures_of
from yarncolor.plan.key import Key
from yarncolor.widgets.choosing import Quiet
from yarncolor.widgets.message_widget import MessageWidget
from yarncolor.widgets.protocol.asks import Ask, PutBack, PutField


class DraftBench(MessageWidget):
    """Fields round one editor; what is typed and not in its plan is a draft that undo drops.

    A draft goes on meaning what it meant when its plan is said in other units.

    Subclasses give `state`, which is shown when a page is there and whenever the plan is another,
    `_key_of` and `_with_typed`.

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

    def _key_of(self, name: str) -> Key | None:
        """Return the key of a field; None where there is no such field."""
        raise NotImplementedError

    def _with_typed(self, draft: Draft, name: str, text: str) -> Draft:
        """Put what was typed into the plan, with all that waited; return what is left."""
        raise NotImplementedError

    def on_put(self, message: PutField) -> None:
        """Put what was typed into the plan, or say why not; what was typed stays."""
        name, text = message["name"], message["text"]
        if self._key_of(name) is not None:
            with self._busy:
                self._keep(self._with_typed(self.draft, name, text))
            self._tell("")

    def on_back(self, message: PutBack) -> None:
        """Let a field say again what the plan says."""
        if self._key_of(message["name"]) is not None:
            self._keep(self.draft.without(message["name"]))
            self._show()

    def refresh(self) -> None:
        """Show the plan as it stands, whoever changed it."""
        if self._seen is not self.editor.revision and not self._busy:
            self._follow_units()
            self._tell("")

    def _follow_units(self) -> bool:
        """Say what is typed as the plan is said now; return whether its units are new."""
        now, before = measures_of(self.editor.plan), self._said_in
        if now is before:
            return False
        self._said_in, draft = now, Draft()
        with self._busy:
            for name, text in self.draft.typed.items():
                key = self._key_of(name)
                if key is not None:
                    draft = self._with_typed(draft, name, typed_in(now, before, key, text))
            self._keep(draft)
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
