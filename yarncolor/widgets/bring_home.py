"""What the phone took home, brought into the plan on the page: as a file, or as text."""

from collections.abc import Mapping, Sequence
from typing import Any

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.planfile.taken_home import brought_home
from yarncolor.planfile.toml_text import decoded
from yarncolor.report.phone.brought import brought_lines
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import in_rows, status

_TEXT = "the text"


class BringHome(w.VBox):
    """A place for the text that a phone took home, and what came of it.

    Parameters
    ----------
    editor : Editor
        The plan that it is brought into, as one step.
    """

    def __init__(self, editor: Editor) -> None:
        self.editor = editor
        self.text = w.Textarea(
            placeholder="Paste here what the phone took home",
            layout=w.Layout(width="40em", max_width="98%", height="6em"),
        )
        self.file = w.FileUpload(
            accept=".txt,.toml,text/plain", description="Open its file", multiple=False
        )
        self.button = w.Button(description="Bring it in", layout=w.Layout(width="20em"))
        self.said = w.HTML(layout=w.Layout(width="100%"))
        self.button.on_click(heard(self, lambda _: self.bring(self.text.value, _TEXT)))
        self.file.observe(heard(self, lambda _: self._open()), "value")
        super().__init__(
            [self.text, in_rows([self.button, self.file]), self.said],
            layout=w.Layout(width="100%", overflow="visible"),
        )

    def __repr__(self) -> str:
        return "A place for what a phone took home; it needs a live notebook."

    def bring(self, text: str, file: str) -> None:
        """Bring a text into the plan, or say line by line why it cannot be.

        Parameters
        ----------
        text : str
            What the phone took home.
        file : str
            What it is called.
        """
        try:
            found = brought_home(text, self.editor.plan, file)
            self.editor.say_spun(found.plan)
        except PlanError as error:
            self.said.value = "".join(status(str(fault)) for fault in error.faults)
            return
        self.text.value = ""
        lines = [*brought_lines(found), "Undo brings back what was."]
        self.said.value = "".join(map(status, lines))

    def _open(self) -> None:
        if self.file.value:
            self._open_all(self.file.value)
            self.file.value = ()

    def _open_all(self, files: Sequence[Mapping[str, Any]]) -> None:
        for opened in files:
            try:
                text = decoded(bytes(opened["content"]), opened["name"])
            except PlanError as error:
                self.said.value = status(str(error))
            else:
                self.bring(text, opened["name"])
