"""At the plying wheel: how far it is, what changes next, and what to do when a single runs out."""

from collections.abc import Callable
from pathlib import Path

from yarncolor.answers.rescues import rescued_yarns
from yarncolor.answers.where import where
from yarncolor.editing.at_plying import END, PLYING_FIELDS, goes_on, put_said, ran_out
from yarncolor.editing.draft import Draft
from yarncolor.editing.editor import Editor
from yarncolor.editing.fault_words import in_form_words
from yarncolor.editing.option_text import format_value
from yarncolor.errors import PlanError
from yarncolor.plan import Plan
from yarncolor.report.plying_words import (
    ended_lines,
    hangs_text,
    next_changes,
    skein_text,
    where_text,
)
from yarncolor.report.rescues_text import CAUTIONS, stands_text
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.plying.care_shown import LOOPS, care_told
from yarncolor.widgets.plying.rescues_shown import rescues_shown
from yarncolor.widgets.protocol.asks import Ask
from yarncolor.widgets.protocol.messages import HEARD
from yarncolor.widgets.protocol.plying import (
    BackOfPlying,
    LookAtTwist,
    PlyingField,
    PlyingState,
    PutOfPlying,
    RanOut,
)

_MOST_CHANGES = 6
_NOTHING_YET = "Nothing is plied yet. Say how far you are in one of these ways; saving keeps it."
_FAR = ("so_far_m", "turns", "turn_m", "gross_g", "plying_tare_g")


def plying_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench for the plying wheel: how far, what is next, and one that ran out.

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
    return WithPlanBar.opened(plan_file, out_folder, lambda editor, _: PlyingBench(editor))


class PlyingBench(MessageWidget):
    """How far the plying is, round one editor.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    _esm = module("plying/plying_bench")
    hears = HEARD["plying"]

    def __init__(self, editor: Editor) -> None:
        super().__init__()
        self.editor, self.draft = editor, Draft()
        self._heard, self._busy, self._said, self._refused = False, False, "", False
        self._seen: object = None

    def __repr__(self) -> str:
        return "A bench for the plying wheel; it needs a live notebook."

    def on_ready(self, _: Ask) -> None:
        """Show how far it is to a page that is there now."""
        self._heard = True
        self._show()

    def on_put(self, message: PutOfPlying) -> None:
        """Put what was typed into the plan, or say why not; what was typed stays."""
        if message["name"] in PLYING_FIELDS:
            self._said, self._refused, self._busy = "", False, True
            self.draft = put_said(self.editor, self.draft, message["name"], message["text"])
            self._busy = False
            self._mark_pending()
            self._show()

    def on_back(self, message: BackOfPlying) -> None:
        """Let a field say again what the plan says."""
        self.draft = self.draft.without(message["name"])
        self._mark_pending()
        self._show()

    def on_ended(self, message: RanOut) -> None:
        """Write down that a single ran out where the plying is now."""
        place, ply = where(self.editor.answer), message["ply"]
        if place is not None and place.yarn_m > 0:
            at_m = round(place.yarn_m, 3)
            said = f"Ply {ply} ran out here. Undo takes it back."
            self._change(lambda plan: ran_out(plan, ply, at_m), said)

    def on_goes_on(self, _: Ask) -> None:
        """Write down that none has run out after all."""
        self._change(goes_on, "None has run out. Undo brings back what was.")

    def on_look(self, message: LookAtTwist) -> None:
        """Say what to do about twist that was looked at."""
        if self._heard:
            self.send(care_told(self.editor.answer, message))

    def _change(self, change: Callable[[Plan], Plan], said: str) -> None:
        """Change the plan by one step, or say why it cannot be."""
        self._busy, self.draft = True, Draft()
        try:
            self.editor.replace_plan(change(self.editor.plan))
            self._said, self._refused = said, False
        except PlanError as error:
            self._said = "; ".join(in_form_words(fault.remedy) for fault in error.faults)
            self._refused = True
        finally:
            self._busy = False
        self._mark_pending()
        self._show()

    def _mark_pending(self) -> None:
        if self.draft:
            self.editor.set_pending(self, self._drop)
        else:
            self.editor.clear_pending(self)

    def _drop(self) -> None:
        self.draft = Draft()
        self._show()

    def refresh(self) -> None:
        """Show the plan as it stands, whoever changed it."""
        if self._seen is not self.editor.revision and not self._busy:
            self._said, self._refused = "", False
            self._show()

    def _show(self) -> None:
        if self._heard:
            self._seen = self.editor.revision
            self.send(self.state())

    def state(self) -> PlyingState:
        """Return how far it is, what changes next, and what can still be made."""
        answer, plied = self.editor.answer, self.editor.plan.plied
        yarns = rescued_yarns(answer)
        told = [
            where_text(answer) or _NOTHING_YET,
            skein_text(answer),
            hangs_text(answer),
            *ended_lines(answer),
        ]
        place, ended = where(answer), answer.layout.ended is not None
        plies = len(answer.resolved.tex)
        can_end = plied is not None and place is not None and place.yarn_m > 0 and not ended
        return {
            "kind": "plying",
            "said": self._said,
            "refused": self._refused,
            "far": [self._field(name) for name in _FAR],
            "end": [self._field(name) for name in ("ended_ply", *END)],
            "where": [line for line in told if line],
            "changes": next_changes(answer, _MOST_CHANGES),
            "plies": [(k + 1, f"ply {k + 1} ran out here") for k in range(plies)] * can_end,
            "ended": ended,
            "stands": stands_text(answer, yarns) if plies > 1 else "",
            "rescues": rescues_shown(answer, yarns),
            "cautions": CAUTIONS,
            "loops": LOOPS,
        }

    def _field(self, name: str) -> PlyingField:
        path, plied, draft = f"plied.{name}", self.editor.plan.plied, self.draft
        key = PLYING_FIELDS[path]
        text = format_value(key, None if plied is None else getattr(plied, name))
        plies = range(1, len(self.editor.answer.resolved.tex) + 1)
        none = [("", "none yet"), *((str(ply), f"ply {ply}") for ply in plies)]
        return {
            "name": path,
            "words": key.words,
            "text": draft.typed.get(path, text),
            "fault": draft.faults.get(path, ""),
            "waits": draft.needed.get(path, ""),
            "choices": none if name == "ended_ply" else [],
        }
