"""What is seen where no plan was named: three ways to one."""

from collections.abc import Callable
from pathlib import Path

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.editing.new_plan import NEW_PLAN
from yarncolor.errors import PlanError
from yarncolor.planfile.read import plan_from_text
from yarncolor.planfile.toml_text import decoded, read_text
from yarncolor.samples import example_plan
from yarncolor.widgets.mishaps import heard, kept_for_the_log
from yarncolor.widgets.parts import in_rows, status

_MOST_LISTED = 200
_WELCOME = """<h1 style="font-size:1.5em;margin:0.3em 0">yarncolor</h1>
<p style="max-width:40em;line-height:1.45">You have dyed fibre and grams, and want a plied yarn
whose colours move on purpose. Which plan is it to be? You can begin with a single lot; whatever
you leave out is filled in, and said.</p>"""
_BUTTON = {"width": "auto", "max_width": "100%"}


class FirstScreen(w.VBox):
    """Three ways to a plan, and what is wrong with one that cannot be opened.

    Parameters
    ----------
    folder : Path
        Plans that lie there are offered, the last changed first.
    begin : callable
        Called with an editor on the plan, and whether it is a new one.
    """

    def __init__(self, folder: Path, begin: Callable[[Editor, bool], None]) -> None:
        self.begin = begin
        self.new = self._button("A plan of my own", lambda: (_editor(NEW_PLAN, "a new plan"), True))
        self.example = self._button("Look at an invented one", lambda: (_example(), False))
        names = {path.name: path for path in plans_in(folder)}
        self.plans = w.Dropdown(
            options=names,
            description="a plan in this folder",
            style={"description_width": "auto"},
            layout=w.Layout(max_width="100%"),
        )
        self.opener = self._button("Open it", lambda: (Editor.opened(self.plans.value), False))
        self.upload = w.FileUpload(
            accept=".toml",
            description="Open a plan file from elsewhere",
            layout=w.Layout(**_BUTTON),
        )
        self.upload.observe(heard(self, lambda _: self._try(self._uploaded)), "value")
        self.said = w.HTML(status(""))
        row = in_rows([self.plans, self.opener])
        row.layout.align_items = "flex-end"
        here = [row] if names else []
        super().__init__(
            [
                w.HTML(_WELCOME),
                in_rows([self.new, self.example]),
                *here,
                in_rows([self.upload]),
                self.said,
            ],
            layout=w.Layout(width="100%", overflow="visible"),
        )

    def _button(self, words: str, task: Callable[[], tuple[Editor, bool]]) -> w.Button:
        button = w.Button(description=words, layout=w.Layout(**_BUTTON))
        button.on_click(heard(self, lambda _: self._try(task)))
        return button

    def _uploaded(self) -> tuple[Editor, bool]:
        file = self.upload.value[0]
        name = str(file["name"])[:200]
        return _editor(decoded(bytes(file["content"]), name), name), False

    def _try(self, task: Callable[[], tuple[Editor, bool]]) -> None:
        try:
            self.begin(*task())
        except PlanError as error:
            lines = ["This plan cannot be opened:", *map(str, error.faults)]
            self.said.value = "".join(map(status, lines))
        except Exception as error:  # whatever it is, a page that does nothing says nothing
            self.said.value = status(kept_for_the_log(error))


def plans_in(folder: Path) -> list[Path]:
    """Return the plan files in a folder, the last changed first."""
    with_time = []
    for path in folder.glob("*.toml"):
        try:
            if "[[lots]]" in read_text(path):
                with_time.append((path.stat().st_mtime, path))
        except (PlanError, OSError):
            continue
    newest = sorted(with_time, key=lambda each: (-each[0], each[1].name))
    return [path for _, path in newest[:_MOST_LISTED]]


def _example() -> Editor:
    """Return an editor on the invented plan, which is kept nowhere until it is saved."""
    return _editor(read_text(example_plan()), example_plan().name)


def _editor(text: str, name: str) -> Editor:
    return Editor(plan_from_text(text, name), None, text)
