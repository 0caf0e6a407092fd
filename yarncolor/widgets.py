"""The order of colours under the fingers: one slider for each place, everything else follows."""

from collections.abc import Callable
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.answers import answer
from yarncolor.choice_words import (
    CLOSING_WORDS,
    MIXED,
    WINDING_WORDS,
    divisions_in,
    divisions_text,
    winding_words,
)
from yarncolor.closing import CLOSINGS
from yarncolor.defaults import CLOSING, divisions_of, plies_of, scheme_name
from yarncolor.editor import Editor
from yarncolor.errors import PlanError, all_faults
from yarncolor.exports import write_answer
from yarncolor.order_painter import OrderPainter
from yarncolor.plan_bar import Kept
from yarncolor.schema_fields import MOST_PLIES
from yarncolor.schemes import SCHEMES

_LABEL = {"description_width": "9em"}


def order_bench(plan_file: str | Path, out_folder: str | Path = "out") -> Kept:
    """Return a bench on which the colour order of a plan file is dragged.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where pictures and cards are written.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    editor, folder = Editor.opened(plan_file), Path(out_folder)
    return Kept(OrderBench(editor, folder), editor, folder)


class OrderBench(w.VBox):
    """Choosers and buttons round one painter; all of them look at one editor.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    out_folder : Path
        Where pictures and cards are written.
    """

    def __init__(self, editor: Editor, out_folder: Path) -> None:
        self.editor, self.out_folder = editor, out_folder
        self._quiet = False
        self.painter = OrderPainter(editor)
        self.choosers, self.buttons = self._made_choosers(), self._made_buttons()
        row = w.Layout(flex_flow="row wrap")
        super().__init__(
            [
                w.HBox([*self.choosers.values()], layout=row),
                self.painter,
                w.HBox([*self.buttons.values()], layout=row),
            ]
        )
        self._show_choices()

    def __repr__(self) -> str:
        return repr(self.painter)

    def follow(self) -> None:
        """Show the plan as it stands, whoever changed it."""
        self.painter.follow()
        self._show_choices()

    def _made_choosers(self) -> dict[str, Any]:
        choosers = {
            "name": w.Dropdown(description="scheme", options=list(SCHEMES)),
            "plies": w.Dropdown(description="plies", options=list(range(1, MOST_PLIES + 1))),
            "divisions": w.Text(description="times through", continuous_update=False),
            "closing": w.Dropdown(
                description="where it closes",
                options=[(CLOSING_WORDS[closing], closing) for closing in CLOSINGS],
            ),
            "wound_off": w.Dropdown(description="winding", options=[*WINDING_WORDS, MIXED]),
        }
        for key, chooser in choosers.items():
            chooser.style, chooser.layout = dict(_LABEL), w.Layout(width="24em")
            chooser.observe(self._on_chosen(key), "value")
        return choosers

    def _made_buttons(self) -> dict[str, Any]:
        files = {
            "picture": ("Write the picture", ("strip.png", "strip.svg")),
            "card": ("Write the card", ("card.html",)),
        }
        buttons: dict[str, Any] = {}
        for key, (words, names) in files.items():
            buttons[key] = w.Button(description=words, layout=w.Layout(width="auto"))
            buttons[key].on_click(lambda _, names=names: self._tried(lambda: self._write(*names)))
        return buttons

    def _on_chosen(self, key: str) -> Callable[[dict], None]:
        def chosen(change: dict) -> None:
            self._tried(lambda: self._choose(key, change["new"]))

        return chosen

    def _choose(self, key: str, value: Any) -> None:
        if key == "wound_off":
            if value != MIXED:
                self.editor.change("plying", wound_off=WINDING_WORDS[value])
        elif key == "divisions":
            self.editor.change(divisions=divisions_in(value))
        else:
            self.editor.change(**{key: value})

    def _tried(self, task: Callable[[], str | None]) -> None:
        """Do what was asked and say what came of it; where it is refused, say why."""
        if self._quiet:
            return
        try:
            said = task()
        except PlanError as error:
            said = all_faults(error)
        self.follow()
        if said:
            self.painter.say(said)

    def _show_choices(self) -> None:
        with self._kept_quiet():
            self._put_choices()

    def _put_choices(self) -> None:
        scheme, choose = self.editor.plan.scheme, self.choosers
        choose["name"].value = scheme_name(scheme)
        choose["plies"].value = plies_of(scheme)
        choose["plies"].disabled = scheme_name(scheme) == "chain"
        choose["divisions"].value = divisions_text(divisions_of(scheme))
        choose["divisions"].disabled = scheme_name(scheme) != "fractal"
        choose["closing"].value = scheme.closing or CLOSING
        choose["closing"].disabled = scheme_name(scheme) != "fractal"
        choose["wound_off"].value = winding_words(self.editor.plan)

    @contextmanager
    def _kept_quiet(self) -> Any:
        self._quiet = True
        try:
            yield
        finally:
            self._quiet = False

    def _write(self, *names: str) -> str:
        paths = write_answer(answer(self.editor.plan), self.out_folder, names)
        return f"Written: {', '.join(path.as_posix() for path in paths)}"
