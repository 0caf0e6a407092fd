"""At the plying wheel: how far it is, what changes next, and what to do when a single runs out."""

from collections.abc import Callable
from pathlib import Path

from yarncolor.answers.rescues import rescued_yarns
from yarncolor.answers.where import where
from yarncolor.editing.at_plying import END, PLYING_FIELDS, goes_on, put_said, ran_out
from yarncolor.editing.draft import Draft
from yarncolor.editing.fault_words import in_form_words
from yarncolor.editing.field_units import in_units
from yarncolor.editing.option_text import format_value
from yarncolor.errors import PlanError
from yarncolor.plan import Plan
from yarncolor.plan.key import Key
from yarncolor.report.plying_words import (
    ended_lines,
    hangs_text,
    next_changes,
    skein_text,
    where_text,
)
from yarncolor.report.rescue_phrases import CAUTIONS
from yarncolor.report.rescues_text import stands_text
from yarncolor.report.why.plying import plying_seen
from yarncolor.report.why.seen import told_of
from yarncolor.widgets.draft_bench import DraftBench
from yarncolor.widgets.message_widget import module
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.plying.care_shown import LOOPS, OVER, care_told
from yarncolor.widgets.plying.rescues_shown import rescues_shown
from yarncolor.widgets.protocol.asks import Ask
from yarncolor.widgets.protocol.messages import HEARD
from yarncolor.widgets.protocol.plying import LookAtTwist, PlyingField, PlyingState, RanOut

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


class PlyingBench(DraftBench):
    """How far the plying is, round one editor.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    _esm = module("plying/plying_bench")
    hears = HEARD["plying"]

    def __repr__(self) -> str:
        return "A bench for the plying wheel; it needs a live notebook."

    def _key_of(self, name: str) -> Key | None:
        """Return the key of a field; None where there is no such field."""
        return PLYING_FIELDS.get(name)

    def _with_typed(self, draft: Draft, name: str, text: str) -> Draft:
        """Put what was typed into the plan, with all that waited; return what is left."""
        return put_said(self.editor, draft, name, text)

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
        self._say(care_told(self.editor.answer, message))

    def _change(self, change: Callable[[Plan], Plan], said: str) -> None:
        """Change the plan by one step, or say why it cannot be; what is typed goes."""
        self._keep(Draft())
        try:
            with self._busy:
                self.editor.replace_plan(change(self.editor.plan))
        except PlanError as error:
            say = self.editor.answer.say
            words = (in_form_words(fault.remedy, say) for fault in error.faults)
            self._tell("; ".join(words), refused=True)
        else:
            self._tell(said)

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
            "why": told_of(plying_seen(answer, yarns, _MOST_CHANGES), answer.say),
            "over_words": f"over so many {answer.say.width.unit}",
            "over": OVER[answer.say.width.unit],
        }

    def _field(self, name: str) -> PlyingField:
        path, plied, draft = f"plied.{name}", self.editor.plan.plied, self.draft
        key = in_units(PLYING_FIELDS[path], self.editor.answer.say)
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
