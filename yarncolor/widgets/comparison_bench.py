"""Two or three ways of spinning one stash, each chosen in its own column, on one scale."""

from collections.abc import Callable
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.answers.answer import Answer, answer
from yarncolor.editing.choices import Choice, changed, choice_of, chosen, idle, in_few_words
from yarncolor.editing.editor import Editor
from yarncolor.editing.variants import ORDERS
from yarncolor.errors import PlanError, one_line
from yarncolor.files import write_all
from yarncolor.phrases import MIXED, WINDING_WORDS
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.fonts import key_name
from yarncolor.pictures.side_by_side import READ_SO, Scale, one_scale, panel
from yarncolor.report.sheets import comparison_sheet
from yarncolor.report.show.asked import asked_together
from yarncolor.report.show.comparison import show_differences
from yarncolor.report.show.fragment import small_picture
from yarncolor.report.show.markup import named_colours
from yarncolor.report.why.yarn_seen import strip_seen
from yarncolor.widgets.choosing import WAY_WORDS, WHY_IDLE, Quiet, outcome, way_choosers
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import SAYS_PICTURE, EditorView, grey, status
from yarncolor.widgets.plan_bar import WithPlanBar

LETTERS = ("A", "B", "C")
PANEL_PX = 360
SHEET = "comparison.pdf"
_BESIDE_THE_PLAN = ("matched", "staggered", "fractal")
_WIDE = w.Layout(width="100%")
_CLOSE_LINES = "line-height:1.35;margin:0"
_SAID = {**WAY_WORDS, "order": "order"}


def comparison_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench that puts two or three ways of spinning a stash side by side.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where the comparison sheet is written, and a plan goes that has no file yet.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return WithPlanBar.opened(plan_file, out_folder, ComparisonBench)


class Column(w.VBox):
    """Choosers of one way of spinning, and its pictures under them.

    Parameters
    ----------
    letter : str
        What the column is called.
    choice : Choice
        Where it begins.
    task : callable
        Called with the column, the chooser's key and its value when a finger changes one.
    take : callable
        Called with the column when it is to be the plan's own.
    """

    def __init__(
        self,
        letter: str,
        choice: Choice,
        task: Callable[["Column", str, Any], None],
        take: Callable[["Column"], None],
    ) -> None:
        self.letter, self.choice, self._quiet = letter, choice, Quiet()
        self.choosers = _choosers(letter)
        for key, chooser in self.choosers.items():
            chooser.observe(
                heard(self, lambda change, key=key: self._on(task, key, change["new"])), "value"
            )
        self.words = w.HTML(layout=w.Layout(width="100%", min_height="5.8em"))
        self.words.add_class(SAYS_PICTURE)
        self.image = w.Image(format="png", layout=w.Layout(width="100%", max_width=f"{PANEL_PX}px"))
        self.why = w.HTML(layout=w.Layout(width="100%"))
        heading = w.HTML(f'<h3 style="margin:0">{letter}</h3>')
        self.spin = w.Button(description=f"{letter}: spin this one", layout=w.Layout(width="98%"))
        self.spin.on_click(heard(self, lambda _: take(self)))
        super().__init__(
            [heading, *self.choosers.values(), self.spin, self.words, self.image, self.why],
            layout=_column(),
        )
        self.show_choice()

    def show_choice(self) -> None:
        """Let the choosers say what stands; those that say nothing are greyed."""
        with self._quiet:
            mixed = [MIXED] if self.choice.winding == MIXED else []
            self.choosers["winding"].options = [*WINDING_WORDS, *mixed]
            for key, chooser in self.choosers.items():
                chooser.value = getattr(self.choice, key)
                grey(chooser, WHY_IDLE[key] if key in idle(self.choice) else "")

    def show(self, found: Answer, scale: Scale) -> None:
        """Show a plan's pictures and words.

        Parameters
        ----------
        found : Answer
            What follows from the column's plan.
        scale : Scale
            The same for all columns.
        """
        words = strip_alt(found)
        self.image.value = small_picture(panel(found, scale), words).png
        self.words.value = f'<p style="{_CLOSE_LINES}">{escape(words)}</p>'
        self.why.value = asked_together(strip_seen(found), f"yarn {self.letter}", found.say)

    def _on(self, task: Callable, key: str, value: Any) -> None:
        if not self._quiet:
            task(self, key, value)


class ComparisonBench(EditorView):
    """Columns beside one another, what differs between them, and a sheet to write.

    Parameters
    ----------
    editor : Editor
        The plan that all columns begin with.
    out_folder : Path
        Where the comparison sheet is written.
    """

    def __init__(self, editor: Editor, out_folder: Path) -> None:
        self.plan, self.out_folder = editor.plan, out_folder
        self.found: dict[str, Answer] = {}
        own = choice_of(self.plan)
        others = [name for name in _BESIDE_THE_PLAN if name != own.scheme]
        self.columns = [Column(LETTERS[0], own, self._choose, self._take)]
        for letter, scheme in zip(LETTERS[1:], others, strict=False):
            self.columns.append(Column(letter, self._beside(own, scheme), self._choose, self._take))
        self.count = w.ToggleButtons(
            options=[("two columns", 2), ("three columns", 3)], value=3, layout=_WIDE
        )
        self.count.observe(heard(self, lambda _: self._show()), "value")
        self.write = w.Button(
            description="Write the comparison sheet", layout=w.Layout(width="16em")
        )
        self.write.on_click(heard(self, lambda _: self._write()))
        self.said = w.HTML(layout=w.Layout(width="100%", min_height="4.2em"))
        read_so = READ_SO.format(metre=editor.answer.say.length.name)
        how = w.HTML(f'<p style="{_CLOSE_LINES}">{escape(read_so)}</p>', layout=_WIDE)
        self.lots = w.HTML(layout=_WIDE)
        self.differences = w.HTML(layout=w.Layout(width="100%", min_height="34em", overflow="auto"))
        row = w.HBox(self.columns, layout=w.Layout(flex_flow="row wrap", width="100%"))
        below = [self.lots, self.write, self.differences]
        super().__init__(editor, [self.count, how, self.said, row, *below])
        for column in self.columns:
            self.found[column.letter] = self._answer_to(column.choice)
        self._say("")
        self._show()

    def __repr__(self) -> str:
        return "A bench to put ways of spinning side by side; it needs a live notebook."

    @property
    def shown(self) -> dict[str, Answer]:
        """What follows from each column that is seen."""
        letters = [column.letter for column in self.columns[: self.count.value]]
        return {letter: self.found[letter] for letter in letters}

    def render(self) -> None:
        """Show the plan as it stands by now; what was chosen by hand stays where it can."""
        before, self.plan = choice_of(self.plan), self.editor.plan
        own = choice_of(self.plan)
        for column in self.columns:
            choice = own if column.choice == before else column.choice
            try:
                found = self._answer_to(choice)
            except PlanError:
                choice, found = own, self.editor.answer
            column.choice, self.found[column.letter] = choice, found
            column.show_choice()
        self._say("")
        self._show()

    def _beside(self, own: Choice, scheme: str) -> Choice:
        """Return the plan under another scheme; as it is where that cannot be."""
        try:
            return changed(self.plan, own, "scheme", scheme)
        except PlanError:
            return own

    def _answer_to(self, choice: Choice) -> Answer:
        """Return what follows from a choice; from the plan itself it is known already."""
        plan = chosen(self.plan, choice)
        return self.editor.answer if plan == self.editor.plan else answer(plan)

    def _choose(self, column: Column, key: str, value: Any) -> None:
        """Take what was chosen; where it is refused, say why and show what stands."""
        try:
            choice = changed(self.plan, column.choice, key, value)
            self.found[column.letter] = self._answer_to(choice)
        except PlanError as error:
            self._say(f"{column.letter}: {one_line(error)}")
        else:
            column.choice = choice
            self._say("")
            self._show()
        column.show_choice()

    def _take(self, column: Column) -> None:
        """Spin the plan as a column says, as one step; what it shows stays as it is."""
        taken = chosen(self.plan, column.choice)
        if taken == self.plan:
            self._say(f"{column.letter}: the plan is spun so already.")
            return
        self.editor.replace_plan(taken)
        self._say(f"{column.letter} is the plan now. Undo brings back what was.")

    def _show(self) -> None:
        shown = self.shown
        scale = one_scale(shown.values(), PANEL_PX)
        for column in self.columns:
            seen = column.letter in shown
            column.layout.display = None if seen else "none"
            if seen:
                column.show(shown[column.letter], scale)
        self.lots.value = _lots(list(shown.values()))
        self.differences.value = show_differences(shown, explained=True).html

    def _write(self) -> None:
        self._say(f"Making {SHEET} …")
        names = {column.letter: in_few_words(column.choice) for column in self.columns}
        plans = [(f"{letter}: {names[letter]}", found) for letter, found in self.shown.items()]
        self._say(outcome(lambda: self._written(plans)))

    def _written(self, plans: list[tuple[str, Answer]]) -> list[Path]:
        return write_all(self.out_folder, {SHEET: comparison_sheet(plans, "pdf")})

    def _say(self, words: str) -> None:
        self.said.value = status(words)


def _column() -> w.Layout:
    """Return a column's layout: beside others where there is room, under them where not."""
    return w.Layout(
        flex=f"1 1 {PANEL_PX - 40}px",
        max_width=f"{PANEL_PX + 12}px",
        min_width="0",
        overflow="visible",
    )


def _choosers(letter: str) -> dict[str, Any]:
    """Return the choosers of a column, before they say a choice."""
    choosers = {**way_choosers(), "order": w.Dropdown(options=list(ORDERS))}
    for key, chooser in choosers.items():
        chooser.words = chooser.description = f"{letter}: {_SAID[key]}"
        chooser.style = {"description_width": "9em"}
        chooser.layout = w.Layout(width="98%")
    return choosers


def _lots(plans: list[Answer]) -> str:
    """Return every lot that is seen, by its colour and name."""
    lots = dict.fromkeys(
        (found.palette.srgb[at], key_name(at, found.plan.names))
        for found in plans
        for at in sorted(set(found.layout.stretches.lot.ravel().tolist()))
    )
    return named_colours(lots, "colours")
