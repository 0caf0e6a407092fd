"""The order of colours under the fingers: one slider for each place, everything else follows."""

from collections import Counter
from collections.abc import Callable
from contextlib import contextmanager
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.benches import status
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
from yarncolor.errors import PlanError
from yarncolor.exports import write_answer
from yarncolor.frames import Frame, frame, moved
from yarncolor.schema_fields import MOST_PLIES
from yarncolor.schemes import SCHEMES
from yarncolor.strips import label_ink

_NOT_IN_A_NAME = set('<>:"/\\|?*')
_CHIP = "height:1.4em;border:1px solid currentColor"
_WIDE, _LABEL = w.Layout(width="100%"), {"description_width": "9em"}


def order_bench(plan_file: str | Path, out_folder: str | Path = "out") -> "OrderBench":
    """Return a bench on which the colour order of a plan file is dragged.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only by the button that says so.
    out_folder : str or Path
        Where pictures and cards are written.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return OrderBench(Editor.opened(plan_file), Path(out_folder))


class OrderBench(w.VBox):
    """Sliders, choosers and buttons round one editor; what they show is one frame.

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
        self.strip = w.Image(format="png", layout=w.Layout(width="100%", max_width="1200px"))
        self._caption, self.order, self._yarn, self._advice, self._weigh_out, self.said = (
            w.HTML(layout=_WIDE) for _ in range(6)
        )
        self._advice.layout = w.Layout(width="100%", min_height="9em")
        self._rows = w.VBox(layout=w.Layout(max_height="22em", overflow="auto", width="100%"))
        self.choosers, self.buttons = self._made_choosers(), self._made_buttons()
        super().__init__(
            [
                w.HBox([*self.choosers.values()], layout=w.Layout(flex_flow="row wrap")),
                self._rows,
                w.HBox([*self.buttons.values()], layout=w.Layout(flex_flow="row wrap")),
                self.said,
                self.order,
                self.strip,
                self._caption,
                self._yarn,
                self._advice,
                self._weigh_out,
            ]
        )
        self._say("")
        self._show(frame(editor))

    def __repr__(self) -> str:
        places = len(self.editor.entries)
        return f"A bench to drag the order of {places} places; it needs a live notebook."

    @property
    def sliders(self) -> tuple[w.IntSlider, ...]:
        """The sliders, in the order of entries."""
        return tuple(row.children[1] for row in self._rows.children)

    @property
    def holds(self) -> tuple[w.ToggleButton, ...]:
        """The buttons that hold a place, in the order of entries."""
        return tuple(row.children[2] for row in self._rows.children)

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
        tasks: dict[str, tuple[str, Callable[[], str | None]]] = {
            "undo": ("Undo", self.editor.undo),
            "redo": ("Redo", self.editor.redo),
            "reverse": ("Reverse the order", self.editor.reverse),
            "turn": ("Begin one place on", self.editor.turn_round),
            "picture": ("Write the picture", lambda: self._write("strip.png", "strip.svg")),
            "card": ("Write the card", lambda: self._write("card.html")),
            "save": ("Save the plan", self._save),
            "save_as": ("Save the plan as", self._save_as),
        }
        buttons: dict[str, Any] = {}
        for key, (words, task) in tasks.items():
            buttons[key] = w.Button(description=words, layout=w.Layout(width="auto"))
            buttons[key].on_click(lambda _, task=task: self._tried(task))
        buttons["file name"] = w.Text(
            placeholder="a new file name", layout=w.Layout(width="16em"), continuous_update=False
        )
        return buttons

    def _made_row(self, entry: int, name: str, places: int) -> w.HBox:
        slider = w.IntSlider(
            min=1, max=max(places, 2), description=name, style=_LABEL, layout=w.Layout(width="34em")
        )
        slider.disabled = places < 2
        hold = w.ToggleButton(
            description="hold", tooltip=f"keep {name} in its place", layout=w.Layout(width="5em")
        )
        slider.observe(lambda change: self._on_slide(entry, change["new"]), "value")
        hold.observe(lambda change: self._on_hold(entry, change["new"]), "value")
        return w.HBox([w.HTML(layout=w.Layout(width="1.6em")), slider, hold])

    def _on_slide(self, entry: int, number: int) -> None:
        self._tried_frame(lambda: moved(self.editor, self.editor.place_of(entry), number - 1))

    def _on_hold(self, entry: int, held: bool) -> None:
        self._tried(lambda: self.editor.hold(entry, held))

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
        said: list[str] = []

        def made() -> Frame:
            said.append(task() or "")
            return frame(self.editor)

        self._tried_frame(made)
        if said and said[0]:
            self._say(said[0])

    def _tried_frame(self, make: Callable[[], Frame]) -> None:
        """Show what a task makes; where it is refused, say why and show what stands."""
        if self._quiet:
            return
        try:
            shown = make()
            self._say("")
        except PlanError as error:
            shown = frame(self.editor)
            self._say(str(error))
        self._show(shown)

    def _say(self, words: str) -> None:
        self.said.value = status(words)

    def _show(self, shown: Frame) -> None:
        self.frame = shown
        with self._kept_quiet(), self.hold_sync():
            self.strip.value = shown.strip_png
            self._caption.value = f"<p>{escape(shown.alt)}</p>"
            self.order.value = _chips(shown)
            self._yarn.value, self._advice.value = shown.yarn_html, shown.advice_html
            self._weigh_out.value = shown.weigh_out_html
            self._show_rows(shown)
            self._show_choices()
            self.buttons["undo"].disabled = not self.editor.can_undo
            self.buttons["redo"].disabled = not self.editor.can_redo

    def _show_rows(self, shown: Frame) -> None:
        names = _told_apart(self.editor.entry_names())
        if [slider.description for slider in self.sliders] != list(names):
            self._rows.children = [
                self._made_row(entry, name, len(names)) for entry, name in enumerate(names)
            ]
        lots = self.editor.plan.names
        for entry, row in enumerate(self._rows.children):
            chip, slider, hold = row.children
            colour = shown.answer.palette.srgb[lots.index(self.editor.entry_names()[entry])]
            chip.value = f'<div style="background:{colour};{_CHIP}"></div>'
            slider.value = self.editor.place_of(entry) + 1
            hold.value = entry in self.editor.held

    def _show_choices(self) -> None:
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
        return _written(write_answer(self.frame.answer, self.out_folder, names))

    def _save(self) -> str:
        return _written([self.editor.save()])

    def _save_as(self) -> str:
        name = self.buttons["file name"].value.strip()
        if not name or set(name) & _NOT_IN_A_NAME:
            return "Type a plain file name beside the button first; it is saved beside the plan."
        name = name if name.endswith(".toml") else f"{name}.toml"
        folder = self.editor.path.parent if self.editor.path else Path()
        return _written([self.editor.save_as(folder / name)])


def _written(paths: list[Path]) -> str:
    return f"Written: {', '.join(path.as_posix() for path in paths)}"


def _chips(shown: Frame) -> str:
    lots, colours = shown.answer.plan.names, shown.answer.palette.srgb
    chips = []
    for place, name in enumerate(shown.names, 1):
        colour = colours[lots.index(name)]
        look = f"background:{colour};color:{label_ink(colour)};padding:0 .6em;display:inline-block"
        chips.append(f'<li style="{look}">{place} {escape(name)}</li>')
    about = 'aria-label="order, spun first to last" style="list-style:none;padding:0;margin:0"'
    return f"<ol {about}>{''.join(chips)}</ol>"


def _told_apart(names: tuple[str, ...]) -> tuple[str, ...]:
    """Return names with a number behind those that come more than once."""
    count, seen = Counter(names), Counter()
    told = []
    for name in names:
        seen[name] += 1
        told.append(f"{name} ({seen[name]})" if count[name] > 1 else name)
    return tuple(told)
