"""The file that a plan is kept in: saved whole or not at all, never over another's change."""

from datetime import timedelta
from pathlib import Path

from yarncolor.errors import fail
from yarncolor.plan import Plan
from yarncolor.plan.hands import Hands
from yarncolor.planfile.plain_name import plain_name
from yarncolor.planfile.read import hands_beside
from yarncolor.planfile.save import merged_text, save_new
from yarncolor.planfile.toml_text import read_text
from yarncolor.planfile.versions import save_over


class PlanDocument:
    """Where a plan is kept, what stands there, and what that says.

    Parameters
    ----------
    path : Path or None
        The file; None where there is none yet.
    text : str
        What stands in it, comments and all.
    saved : Plan
        What that text says.
    """

    def __init__(self, path: Path | None, text: str, saved: Plan) -> None:
        self.path, self.text, self.saved = path, text, saved

    def hands_of(self, plan: Plan) -> Hands | None:
        """Return what the file beside this one says of a plan's hands; None where it is none."""
        if not plan.hand or self.path is None:
            return None
        if plan.hand == self.saved.hand and self.saved.hands is not None:
            return self.saved.hands
        return hands_beside(plan.hand, self.path)

    def merged(self, plan: Plan) -> str:
        """Return a plan as it would be saved, with the comments of the file."""
        return merged_text(self.text, plan, str(self.path or "plan"), self.saved)

    def write(self, plan: Plan, spare: timedelta = timedelta(0)) -> Path:
        """Save a plan to the file, keep what that said, and return its path.

        Parameters
        ----------
        plan : Plan
            As it stands.
        spare : timedelta
            What the file said is not kept where another version is younger than this.

        Raises
        ------
        PlanError
            Where there is no file, it has gone, or was changed by someone else meanwhile.
        """
        if self.path is None:
            fail("save", "this plan has no file yet; save it under a name")
        if not self.path.exists():
            fail(str(self.path), "the file has gone since it was opened; save under a name")
        if read_text(self.path) != self.text:
            fail(
                str(self.path),
                "the file was changed since it was opened; save under another name or open it anew",
            )
        text = self.merged(plan)
        return self._kept(plan, save_over(self.path, text, spare, self.text), text)

    def write_new(self, plan: Plan, path: Path) -> Path:
        """Save a plan under a name that is not taken, and go on there.

        Parameters
        ----------
        plan : Plan
            As it stands.
        path : Path
            Where nothing is yet.
        """
        text = self.merged(plan)
        return self._kept(plan, save_new(path, text), text)

    def beside(self, name: str, otherwise: Path) -> Path:
        """Return a path for a plain name beside the file, or in another folder without one.

        Parameters
        ----------
        name : str
            Plain, without a folder.
        otherwise : Path
            A folder, for a plan that has no file yet.
        """
        return (self.path.parent if self.path else otherwise) / plain_name(name)

    def _kept(self, plan: Plan, path: Path, text: str) -> Path:
        self.path, self.text, self.saved = path, text, plan
        return path
