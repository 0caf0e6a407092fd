"""What a page keeps in case it loses its kernel: steps as messages, and steps of such a message."""

from collections.abc import Collection
from pathlib import Path

from yarncolor.editing.kept_steps import KeptStep, KeptSteps
from yarncolor.widgets.protocol.bar import Draft, Resume, StepKept


def draft_of(kept: KeptSteps, section: str, pending: bool) -> Draft:
    """Return steps as a page keeps them: every text once.

    Parameters
    ----------
    kept : KeptSteps
        The plan's.
    section : str
        Which section is seen.
    pending : bool
        Whether something is typed that the plan cannot take yet.
    """
    texts = [text for step in kept.steps for text in (step.text, step.file_text)]
    numbers = {text: number for number, text in enumerate(dict.fromkeys(texts))}
    return {
        "kind": "draft",
        "texts": list(numbers),
        "steps": [_told(step, numbers) for step in kept.steps],
        "now": kept.now,
        "section": section,
        "pending": pending,
    }


def steps_of(message: Resume, folders: Collection[Path]) -> KeptSteps:
    """Return the steps that a page kept; a file elsewhere is none.

    Parameters
    ----------
    message : Resume
        Of the page.
    folders : collection of Path
        Where plans may be kept.
    """
    known = {folder.as_posix() for folder in folders}
    steps = [_step(step, message["texts"], known) for step in message["steps"]]
    return KeptSteps(tuple(steps), message["now"])


def _told(step: KeptStep, numbers: dict[str, int]) -> StepKept:
    path = step.path
    return {
        "text": numbers[step.text],
        "base": numbers[step.file_text],
        "folder": path.parent.as_posix() if path else "",
        "file": path.name if path else "",
        "held": list(step.held),
    }


def _step(step: StepKept, texts: list[str], folders: Collection[str]) -> KeptStep:
    named = step["file"] and step["folder"] in folders
    path = Path(step["folder"]) / Path(step["file"]).name if named else None
    return KeptStep(texts[step["text"]], texts[step["base"]], path, tuple(step["held"]))
