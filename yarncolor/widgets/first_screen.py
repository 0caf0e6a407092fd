"""What is seen where no plan was named: three ways to one, and its file."""

from collections.abc import Callable
from pathlib import Path

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.editing.new_lots import with_lines
from yarncolor.editing.new_plan import NEW_PLAN
from yarncolor.errors import PlanError
from yarncolor.planfile.read import plan_from_text
from yarncolor.planfile.toml_text import decoded, read_text
from yarncolor.samples import example_plan
from yarncolor.widgets.mishaps import heard, kept_for_the_log
from yarncolor.widgets.parts import in_rows, status

_MOST_LISTED = 200
_WELCOME = """<h1>yarncolor</h1>
<p>You have dyed fibre and grams, and want a plied yarn whose colours move on purpose. Begin with
what you have; whatever you leave out is filled in, and said.</p>"""
_LOTS = "One lot a line: name, weight, colour, as on your labels or pasted from a spreadsheet."
_LINES = "Kelp 27 g dark olive green\nFoam 24 g off white\nRust 18 g rust"
_PICTURE = "Of the drawer, or of the lots side by side: boxes on it become lots with their colours."
_EXAMPLE = "An invented yarn, to try everything on. It is kept nowhere unless you save it."
_FILES = "A plan file that you saved before, or were given."
_BUTTON = {"width": "auto", "max_width": "100%"}
_WIDE = {"width": "100%", "overflow": "visible"}
Begun = tuple[Editor, str]
"""A plan, and the section that it begins with; none for the usual one."""


class FirstScreen(w.VBox):
    """Three ways to a plan, one to a file of one; and what is wrong where none comes of it.

    Parameters
    ----------
    folder : Path
        Plans that lie there are offered, the last changed first.
    begin : callable
        Called with an editor on the plan, and the name of the section to begin with, or nothing.
    """

    def __init__(self, folder: Path, begin: Callable[[Editor, str], None]) -> None:
        self.begin = begin
        self.lines = w.Textarea(
            placeholder=_LINES, rows=5, continuous_update=False, layout=w.Layout(width="100%")
        )
        self.draw = self._button("Draw the yarn", self._of_lines)
        self.draw.add_class("yc-primary")
        self.new = self._button("Type them one by one", lambda: (_new(), "Lots"))
        self.photograph = self._button("From a photograph", lambda: (_new(), "Photographs"))
        self.example = self._button("Look at an example", lambda: (_example(), ""))
        self.plans, self.opener, self.upload = self._files(folder)
        self.said = w.HTML(status(""))
        here = [in_rows([self.plans, self.opener])] if self.plans.options else []
        ways = in_rows(
            [
                _way("My lots", _LOTS, [self.lines, in_rows([self.draw, self.new]), self.said]),
                _way("A photograph of them", _PICTURE, [self.photograph]),
                _way("An example", _EXAMPLE, [self.example]),
                _way("A plan file", _FILES, [*here, self.upload]),
            ]
        )
        ways.add_class("yc-ways")
        super().__init__([w.HTML(_WELCOME), ways], layout=w.Layout(**_WIDE))
        self.add_class("yc-first")

    def _files(self, folder: Path) -> tuple[w.Dropdown, w.Button, w.FileUpload]:
        """Return what opens a plan of the folder, and one from elsewhere."""
        plans = w.Dropdown(
            options={path.name: path for path in plans_in(folder)},
            description="in this folder",
            style={"description_width": "auto"},
            layout=w.Layout(max_width="100%"),
        )
        opener = self._button("Open it", lambda: (Editor.opened(plans.value), ""))
        upload = w.FileUpload(
            accept=".toml", description="Open one from elsewhere", layout=w.Layout(**_BUTTON)
        )
        upload.observe(heard(self, lambda _: self._try(self._uploaded)), "value")
        return plans, opener, upload

    def _button(self, words: str, task: Callable[[], Begun | None]) -> w.Button:
        button = w.Button(description=words, layout=w.Layout(**_BUTTON))
        button.on_click(heard(self, lambda _: self._try(task)))
        return button

    def _of_lines(self) -> Begun | None:
        """Return the plan of the lots that are typed; where any line is wrong, say what."""
        editor = _new()
        made = with_lines(editor.plan, self.lines.value)
        if made.plan is None:
            self._say(made.words, *made.faults)
            return None
        editor.replace_plan(made.plan)
        return editor, ""

    def _uploaded(self) -> Begun:
        file = self.upload.value[0]
        name = str(file["name"])[:200]
        return _editor(decoded(bytes(file["content"]), name), name), ""

    def _say(self, *lines: str) -> None:
        self.said.value = "".join(map(status, lines))

    def _try(self, task: Callable[[], Begun | None]) -> None:
        try:
            begun = task()
            if begun is not None:
                self.begin(*begun)
        except PlanError as error:
            self._say("This plan cannot be opened:", *map(str, error.faults))
        except Exception as error:  # whatever it is, a page that does nothing says nothing
            self._say(kept_for_the_log(error))


def _way(heading: str, words: str, controls: list[w.Widget]) -> w.VBox:
    """Return one way to a plan: what it is called, when it is right, what it takes."""
    way = w.VBox([w.HTML(f"<h2>{heading}</h2><p>{words}</p>"), *controls])
    way.add_class("yc-way")
    return way


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


def _new() -> Editor:
    return _editor(NEW_PLAN, "a new plan")


def _editor(text: str, name: str) -> Editor:
    return Editor(plan_from_text(text, name), None, text)
