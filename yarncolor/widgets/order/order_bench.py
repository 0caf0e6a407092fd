"""The order of colours under the fingers: one slider for each place, everything else follows."""

from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.defaults import CLOSING, divisions_of, plies_of, scheme_name
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.phrases import (
    MIXED,
    WINDING_WORDS,
    divisions_in,
    divisions_text,
    winding_words,
)
from yarncolor.widgets.choosing import WAY_WORDS, WHY_IDLE, Quiet, outcome, refused, way_choosers
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.order.order_painter import OrderPainter
from yarncolor.widgets.parts import grey, in_rows, label, status
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.remedies import Remedies


def order_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
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
    return WithPlanBar.opened(plan_file, out_folder, OrderBench)


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
        self._quiet = Quiet()
        self.painter = OrderPainter(editor)
        self.choosers, self.buttons = self._made_choosers(), self._made_buttons()
        self.remedies = Remedies(editor)
        self.painter.on_told = self.remedies.show
        self.written, self._refused = w.HTML(), ""
        chosen = in_rows([*self.choosers.values()])
        chosen.add_class("yc-pairs")
        super().__init__(
            [
                chosen,
                self.painter,
                self.remedies,
                in_rows([*self.buttons.values(), self.written]),
            ]
        )
        self._show_choices()

    def __repr__(self) -> str:
        return repr(self.painter)

    def refresh(self) -> None:
        """Show the plan as it stands, whoever changed it."""
        self.painter.refresh()
        self._show_choices()

    def _made_choosers(self) -> dict[str, Any]:
        choosers = way_choosers()
        choosers["winding"].options = [*WINDING_WORDS, MIXED]
        label(choosers, WAY_WORDS, 14, 32)
        for key, chooser in choosers.items():
            chooser.observe(
                heard(self, lambda change, key=key: self._tried(key, change["new"])), "value"
            )
        return choosers

    def _made_buttons(self) -> dict[str, Any]:
        files = {
            "picture": ("Write the picture", ("strip.png", "strip.svg")),
            "card": ("Write the card", ("card.html",)),
        }
        buttons: dict[str, Any] = {}
        for key, (words, names) in files.items():
            buttons[key] = w.Button(description=words, layout=w.Layout(width="auto"))
            buttons[key].on_click(heard(self, lambda _, names=names: self._write(*names)))
        return buttons

    def _choose(self, key: str, value: Any) -> None:
        if key == "winding":
            if value != MIXED:
                self.editor.change("plying", wound_off=WINDING_WORDS[value])
        elif key == "divisions":
            self.editor.change(divisions=divisions_in(value))
        else:
            self.editor.change(**{"name" if key == "scheme" else key: value})

    def _tried(self, key: str, value: Any) -> None:
        """Choose; where it is refused, say why, and leave what was typed."""
        if self._quiet:
            return
        self._refused, said = "", ""
        try:
            self._choose(key, value)
        except PlanError as error:
            said = f"{refused(WAY_WORDS[key], error)}. The plan is as it was."
            self._refused = value if key == "divisions" else ""
        self.refresh()
        if said:
            self.painter.say(said)

    def _show_choices(self) -> None:
        with self._quiet:
            self._put_choices()

    def _put_choices(self) -> None:
        scheme, choose = self.editor.plan.scheme, self.choosers
        choose["scheme"].value = scheme_name(scheme)
        choose["plies"].value = plies_of(scheme)
        is_fractal = scheme_name(scheme) == "fractal"
        grey(choose["plies"], WHY_IDLE["plies"] if scheme_name(scheme) == "chain" else "")
        choose["divisions"].value = self._refused or divisions_text(divisions_of(scheme))
        grey(choose["divisions"], "" if is_fractal else WHY_IDLE["divisions"])
        choose["closing"].value = scheme.closing or CLOSING
        closes = is_fractal and self.editor.is_closed
        grey(choose["closing"], "" if closes else WHY_IDLE["closing"])
        choose["winding"].value = winding_words(self.editor.plan)

    def _write(self, *names: str) -> None:
        from yarncolor.report.exports import write_answer

        said = outcome(lambda: write_answer(self.editor.answer, self.out_folder, names))
        self.written.value = status(said)
