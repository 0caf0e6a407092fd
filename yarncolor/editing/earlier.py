"""Earlier versions of a plan's file: when each was saved over, what changed, and back to one."""

from dataclasses import dataclass

from yarncolor.editing.editor import Editor
from yarncolor.editing.step_words import change_words
from yarncolor.errors import PlanError
from yarncolor.plan import Plan
from yarncolor.planfile.read import plan_of_file
from yarncolor.planfile.toml_text import read_text
from yarncolor.planfile.versions import Version, versions_of

_COMMENTS = "nothing but comments or the way it is written"
_DAMAGED = "it cannot be read"


@dataclass(frozen=True)
class Earlier:
    """An earlier version of a plan.

    Parameters
    ----------
    version : Version
        Where it is kept, and since when it is no longer the plan.
    plan : Plan or None
        What it says; None where it cannot be read.
    changed : str
        What was changed when it was saved over.
    """

    version: Version
    plan: Plan | None
    changed: str

    @property
    def words(self) -> str:
        """When it was saved over, on this computer's clock, and what was changed then."""
        until = self.version.until.astimezone()
        return f"{until:%Y-%m-%d %H:%M:%S}, before the change of: {self.changed}"


def earlier(editor: Editor) -> tuple[Earlier, ...]:
    """Return the earlier versions of an editor's file, the newest first."""
    if editor.path is None:
        return ()
    found: list[Earlier] = []
    after = _plan_in(editor.file_text, editor)
    for version in versions_of(editor.path):
        plan = _plan_of(version, editor)
        found.append(Earlier(version, plan, _changed(plan, after)))
        after = plan or after
    return tuple(found)


def _changed(before: Plan | None, after: Plan | None) -> str:
    if before is None or after is None:
        return _DAMAGED
    return change_words(before, after) or _COMMENTS


def _plan_of(version: Version, editor: Editor) -> Plan | None:
    try:
        return _plan_in(read_text(version.path), editor)
    except PlanError:
        return None


def _plan_in(text: str, editor: Editor) -> Plan | None:
    """Return the plan that a text says where the editor's file lies; None for no plan."""
    try:
        return plan_of_file(text, editor.path or "")
    except PlanError:
        return None


def go_back(editor: Editor, version: Version) -> None:
    """Put an earlier version in the place of an editor's plan, as one step; nothing is saved.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    version : Version
        Of its file.

    Raises
    ------
    PlanError
        Where the version has gone or cannot be read; then nothing has changed.
    """
    text = read_text(version.path)
    editor.say_spun(plan_of_file(text, editor.path or version.path))
