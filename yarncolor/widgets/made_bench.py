"""What came out: what was measured of the finished yarn, beside its plan, and its record."""

from collections.abc import Iterable
from pathlib import Path

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.report.record.command import write_record
from yarncolor.report.record.photograph import photograph
from yarncolor.report.record.yarns import Yarn
from yarncolor.report.show.record import show_measures
from yarncolor.widgets.choosing import outcome
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.options.options_bench import OptionsBench
from yarncolor.widgets.parts import EditorView, in_rows, status
from yarncolor.widgets.plan_bar import WithPlanBar

GROUPS = {"made": "What came out; leave empty what you did not measure"}
_NO_FILE = "plan.toml"
_ABOUT = (
    "A page with planned, spun and made, the dye notes, what was left over and what the advice had "
    "said; it opens anywhere without a network."
)


def made_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench to write down what came out of a plan file, and to make its record.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where the record is written.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return WithPlanBar.opened(plan_file, out_folder, MadeBench)


class MadeBench(EditorView):
    """A form of what came out, planned, spun and made side by side, and a button for the record.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    out_folder : Path
        Where the record is written.
    """

    def __init__(self, editor: Editor, out_folder: Path) -> None:
        self.out_folder = out_folder
        self.form = OptionsBench(editor, GROUPS)
        self.table = w.HTML(layout=w.Layout(width="100%", overflow="auto"))
        self.button = w.Button(description="Write the record", layout=w.Layout(width="20em"))
        self.button.on_click(heard(self, lambda _: self.write()))
        self.said = w.HTML(status(_ABOUT), layout=w.Layout(width="100%"))
        super().__init__(editor, [self.form, self.table, in_rows([self.button]), self.said])
        self.render()

    def __repr__(self) -> str:
        return "What came out, beside the plan; it needs a live notebook."

    def refresh(self) -> None:
        """Show the plan as it stands, whoever changed it, in the form as well."""
        self.form.refresh()
        super().refresh()

    def render(self) -> None:
        """Show planned, spun and made side by side."""
        self.table.value = show_measures(self._yarn(), explained=True).html

    def write(self) -> None:
        """Write the record of the plan as it stands, and say where it is."""
        self.said.value = status(outcome(self._written))

    def _written(self) -> Iterable[Path]:
        made, photo = self.editor.plan.made, b""
        if made is not None and made.picture:
            photo = photograph(str(self.editor.path or _NO_FILE), made.picture)
        return write_record([self._yarn(photo)], self.out_folder)

    def _yarn(self, photo: bytes = b"") -> Yarn:
        return Yarn(str(self.editor.path or _NO_FILE), self.editor.answer, photo)
