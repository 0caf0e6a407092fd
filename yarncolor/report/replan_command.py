"""The command that goes on from what lies on the bobbins: what is at fault, what is written."""

from pathlib import Path

from yarncolor.answers.answer import answer
from yarncolor.answers.choice import Choice
from yarncolor.answers.choices import Replan, replan
from yarncolor.answers.taking import taken
from yarncolor.errors import Fault, PlanError, on_one_line, quoted, suggestion
from yarncolor.files import write_all
from yarncolor.layout.going_on import WAYS
from yarncolor.planfile.read import read_plan
from yarncolor.report.saving import saving_faults, written_with_plan
from yarncolor.report.ways_on import replan_contents, replan_text
from yarncolor.report.ways_on_text import possible_text, way_words


def replanned(file: str, take: str | None, save: str | None) -> tuple[Replan, Choice | None]:
    """Return every way to go on of a plan file, and the one that is to be taken.

    Parameters
    ----------
    file : str
        The plan file.
    take : str, optional
        Name of a choice.
    save : str, optional
        Where its plan goes.

    Raises
    ------
    PlanError
        With every fault, one line each.
    """
    found_plan = answer(read_plan(file))
    faults = saving_faults(file, take, save, "the name of a choice")
    if found_plan.layout.wheel is None:
        remedy = "is missing; say what lies on the bobbins, in [[spun]] tables"
        raise PlanError([Fault(file, "spun", "", remedy), *faults])
    found = replan(found_plan)
    choice = found.named(take) if take else None
    if take and (choice is None or choice.possible is None):
        faults.append(Fault("", "--take", quoted(take), _cannot_take(found, take, choice)))
    if faults:
        raise PlanError(faults)
    return found, choice


def _cannot_take(found: Replan, name: str, choice: Choice | None) -> str:
    if choice is not None:
        return possible_text(found, choice)
    names = [one.name for one in found.choices]
    why = "changes nothing here" if name in WAYS else "is none of the choices"
    return f"{why}; give one of {', '.join(names)}{suggestion(name, names)}"


def replan_files(
    found: Replan, choice: Choice | None, out: str, file: str, save: str | None
) -> tuple[str, list[Path]]:
    """Write the files of every way to go on, and the plan that one makes; return what is said.

    All is made before the first file is written.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice or None
        The one that is taken.
    out : str
        Folder to write into.
    file, save : str
        The plan file, and where the plan of the choice goes.
    """
    told, contents = replan_text(found), replan_contents(found, choice)
    if choice is None or save is None:
        return told, write_all(Path(out), contents)
    written = written_with_plan(out, contents, taken(found.answer, choice), file, save)
    taken_words = f"Taken: {way_words(found, choice)}. The plan is saved to {on_one_line(save)}."
    return f"{told}\n{taken_words}", written
