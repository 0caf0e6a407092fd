"""Steps as texts: what is kept of them in case the program is lost, and steps made of it again."""

from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from yarncolor.editing.history import History, Step
from yarncolor.editing.steps import fresh_step
from yarncolor.plan import Plan
from yarncolor.planfile.document import PlanDocument
from yarncolor.planfile.read import plan_from_text

MOST_KEPT = 20
"""Steps to undo, and as many to do again, that are kept."""
_NAME = "the plan as it was"


@dataclass(frozen=True)
class KeptStep:
    """A step without anything that only lives in a program.

    Parameters
    ----------
    text : str
        The plan file as it would be saved.
    file_text : str
        What stands in the file.
    path : Path or None
        The file; None where there is none yet.
    held : tuple of int
        Places that are held.
    """

    text: str
    file_text: str
    path: Path | None
    held: tuple[int, ...]


@dataclass(frozen=True)
class KeptSteps:
    """Steps one after the other, and which of them stands.

    Parameters
    ----------
    steps : tuple of KeptStep
        From the first to the last that was undone.
    now : int
        The one that stands, from 0.
    """

    steps: tuple[KeptStep, ...]
    now: int

    @property
    def standing(self) -> KeptStep:
        """The step that stands."""
        return self.steps[self.now]


def kept_steps(history: History) -> KeptSteps:
    """Return what is kept of a history; of many steps those nearest to the one that stands.

    Raises
    ------
    PlanError
        Where a step cannot be written.
    """
    past, future = history.past[-MOST_KEPT:], history.future[:MOST_KEPT]
    return KeptSteps(tuple(_kept(step) for step in (*past, history.now, *future)), len(past))


def history_of(kept: KeptSteps) -> History:
    """Return the history that was kept.

    Raises
    ------
    PlanError
        Where a text is no plan.
    """
    documents: dict[tuple[Path | None, str], PlanDocument] = {}
    steps = tuple(_step(each, documents) for each in kept.steps)
    return History(steps[kept.now], steps[: kept.now], steps[kept.now + 1 :])


def _kept(step: Step) -> KeptStep:
    document, order = step.document, step.order
    text = _text(document.path, document.text, document.saved, step.plan)
    held = tuple(sorted(order.place_of(entry) for entry in order.held))
    return KeptStep(text, document.text, document.path, held)


@lru_cache(maxsize=4 * MOST_KEPT)
def _text(path: Path | None, file_text: str, saved: Plan, plan: Plan) -> str:
    """Return a plan as it would be saved; a step is asked for it again and again."""
    return PlanDocument(path, file_text, saved).merged(plan)


def _step(kept: KeptStep, documents: dict[tuple[Path | None, str], PlanDocument]) -> Step:
    """Return a step; those of one file share its document."""
    key = (kept.path, kept.file_text)
    if key not in documents:
        documents[key] = PlanDocument(*key, plan_from_text(kept.file_text, _NAME))
    step = fresh_step(plan_from_text(kept.text, _NAME), documents[key])
    return replace(step, order=replace(step.order, held=frozenset(kept.held)))
