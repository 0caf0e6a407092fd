"""Earlier versions of the plan's file on the page: a list with date and change, and back to one."""

from pathlib import Path

import ipywidgets as w

from yarncolor.editing.earlier import earlier, go_back
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError, one_line
from yarncolor.planfile.versions import MOST_VERSIONS, versions_of
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import in_rows, status

_NONE = (
    "None yet: when the plan is saved over, what it was is kept beside it, "
    f"the last {MOST_VERSIONS} times."
)
_BACK = "The plan is as it was then, and not saved yet. Undo brings back what was here."


class EarlierVersions(w.VBox):
    """A list of what the plan's file said before it was saved over, and a button to go back.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        self.editor = editor
        self._seen: tuple[Path, ...] | None = None
        self.list = w.Select(
            rows=6, layout=w.Layout(width="60em", max_width="98%"), description="saved over"
        )
        self.button = w.Button(description="Go back to this one", layout=w.Layout(width="20em"))
        self.button.on_click(heard(self, lambda _: self.go_back()))
        self.said = w.HTML(layout=w.Layout(width="100%"))
        super().__init__(
            [self.list, in_rows([self.button]), self.said],
            layout=w.Layout(width="100%", overflow="visible"),
        )
        editor.watch(self._after_saving, pending=True)

    def __repr__(self) -> str:
        return "Earlier versions of the plan; it needs a live notebook."

    def refresh(self) -> None:
        """Show the versions that there are by now; nothing where these are shown already."""
        path = self.editor.path
        kept = () if path is None else tuple(one.path for one in versions_of(path))
        if kept == self._seen:
            return
        self._seen = kept
        found = earlier(self.editor)
        self.list.options = [(one.words, one.version) for one in found]
        self.list.layout.display = None if found else "none"
        self.button.layout.display = None if found else "none"
        self.said.value = "" if found else status(_NONE)

    def _after_saving(self) -> None:
        if self._seen is not None and self.editor.is_saved:
            self.refresh()

    def go_back(self) -> None:
        """Put the version that is chosen in the place of the plan, as one step."""
        if self.list.value is None:
            return
        try:
            go_back(self.editor, self.list.value)
        except PlanError as error:
            self.said.value = status(one_line(error))
        else:
            self.said.value = status(_BACK)
