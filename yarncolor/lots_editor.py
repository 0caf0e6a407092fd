"""The stash, to edit: rows checked as they are typed; the plan follows when all is right."""

from pathlib import Path
from typing import Any

from yarncolor.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.live import Live, module
from yarncolor.lot_rows import (
    FIELDS,
    Row,
    faults_by_field,
    needed_words,
    plan_with_rows,
    rows_of,
)
from yarncolor.palettes import shown
from yarncolor.plan_bar import Kept
from yarncolor.strips import label_ink

_MEANWHILE = (
    "The lots were changed elsewhere meanwhile. Undo shows them as they are now; "
    "what is typed here and not in the plan goes."
)


def lots_bench(plan_file: str | Path, out_folder: str | Path = "out") -> Kept:
    """Return a bench to add, change, weigh and remove the lots of a plan file.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where a plan goes that has no file yet.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    editor = Editor.opened(plan_file)
    return Kept(LotsBench(editor), editor, Path(out_folder))


class LotsBench(Live):
    """Rows of lots round one editor.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    _esm = module("element", "lots_editor")["_esm"]
    _css = module("element", "lots_editor")["_css"]

    def __init__(self, editor: Editor) -> None:
        super().__init__()
        self.editor = editor
        self._heard = self._busy = self._faulty = False
        self._lots, self._version = editor.plan.lots, 0
        self._seen: object = editor.step

    def __repr__(self) -> str:
        lots = len(self.editor.plan.lots)
        return f"A bench to edit {lots} lots; it needs a live notebook."

    def _do_ready(self, content: dict[str, Any]) -> None:
        self._heard = True
        self._tell("rows", content, **self._told(), said="")

    def _do_rows(self, content: dict[str, Any]) -> None:
        """Take rows as typed; where anything is wrong the plan and what is typed both stay."""
        if content.get("version", self._now()) != self._now():
            self._refuse(content, {}, [_MEANWHILE])
            return
        plan = self.editor.plan
        rows = [_row(told, len(plan.lots)) for told in content["rows"]]
        needed = needed_words(plan, rows)
        if needed:
            self._tell("refused", content, said=needed)
            return
        try:
            self._quietly(lambda: self.editor.replace_plan(plan_with_rows(plan, rows)))
        except PlanError as error:
            self._refuse(content, *faults_by_field(error))
        else:
            self._show("", content)

    def _refuse(self, content: dict[str, Any], fields: dict, rest: list[str]) -> None:
        self._faulty = True
        self.editor.keep_draft(self, lambda: self._show("", anew=True))
        told = [{"row": at, "field": field, "words": fields[at, field]} for at, field in fields]
        self._tell("faults", content, faults=told, said="; ".join(rest))

    def _now(self) -> int:
        """Return a number that is another whenever the lots are others."""
        if self.editor.plan.lots != self._lots:
            self._lots, self._version = self.editor.plan.lots, self._version + 1
        return self._version

    def _quietly(self, task: Any) -> None:
        self._busy = True
        try:
            task()
        finally:
            self._busy = False

    def follow(self) -> None:
        """Follow another bench, but never over rows that are typed and not right yet."""
        if self._seen is not self.editor.step and not self._busy and not self._faulty:
            self._show("")

    def _show(self, said: str, content: dict[str, Any] | None = None, anew: bool = False) -> None:
        self._faulty, self._seen = False, self.editor.step
        self.editor.end_draft(self)
        self._tell("rows", content or {}, **self._told(), said=said, anew=anew)

    def _told(self) -> dict[str, Any]:
        plan = self.editor.plan
        colours = shown(plan.lots).srgb
        rows = [
            {"key": row.key, **{field: getattr(row, field) for field in FIELDS}}
            for row in rows_of(plan)
        ]
        total_g = sum(lot.mass_g for lot in plan.lots)
        count = f"{len(rows)} lots" if len(rows) > 1 else "1 lot"
        return {
            "rows": rows,
            "version": self._now(),
            "colours": list(colours),
            "inks": [label_ink(colour) for colour in colours],
            "total": f"{count}, {total_g:,.1f} g",
        }

    def _tell(self, kind: str, content: dict[str, Any], **told: Any) -> None:
        if self._heard:
            asked = {key: content.get(key) for key in ("do", "view", "serial")}
            self.send({"kind": kind, **asked, **told})


def _row(told: dict[str, Any], lots: int) -> Row:
    key = told.get("key")
    texts = {field: str(told.get(field, "")) for field in FIELDS}
    return Row(key if type(key) is int and 0 <= key < lots else None, **texts)
