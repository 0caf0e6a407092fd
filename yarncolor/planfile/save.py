"""A changed plan back into its file, whole or not at all; comments stay."""

import os
from pathlib import Path

from yarncolor.errors import Fault, PlanError
from yarncolor.files import followed, write_all
from yarncolor.plan import Plan, to_data
from yarncolor.planfile.read import plan_as_given, plan_from_data
from yarncolor.planfile.toml_merge import Data, merged_tables
from yarncolor.planfile.toml_text import BYTE_ORDER_MARK, line_end, parsed, read_text
from yarncolor.planfile.versions import save_over


def save_plan(plan: Plan, path: str | Path, like: str | Path | None = None) -> Path:
    """Write a plan to a file, keeping the comments and the order of what stands there.

    Parameters
    ----------
    plan : Plan
        What the file is to say.
    path : str or Path
        Where to write; replaced as a whole or not at all, and what it said is kept beside it. A
        link is followed.
    like : str or Path, optional
        A plan file to start from when ``path`` does not exist, so that its comments come along.

    Raises
    ------
    PlanError
        Where the file that stands there is no plan file, or the disk refuses.
    """
    path = Path(path)
    source = path if os.path.exists(path) else like
    text = read_text(source) if source is not None else ""
    return save_over(path, merged_text(text, plan, str(source or path)))


def save_new(path: Path, text: str) -> Path:
    """Write a plan's file where nothing is yet, and return its path.

    Parameters
    ----------
    path : Path
        Where to.
    text : str
        What it is to say.

    Raises
    ------
    PlanError
        Where a file is, though it appeared just now; or the disk refuses.
    """
    write_all(path.parent, {path.name: text.encode()}, new={path.name})
    return path


def write_text(path: Path, text: str) -> Path:
    """Write a text as UTF-8, as a whole or not at all, and return its path; links are followed.

    Parameters
    ----------
    path : Path
        Where to.
    text : str
        All of it.
    """
    real = followed(path)
    write_all(real.parent, {real.name: text.encode()})
    return path


def merged_text(text: str, plan: Plan, file: str, saved: Plan | None = None) -> str:
    """Return the text of a plan file that says what the plan says, changing as little as it can.

    Line ends and a byte order mark stay as they are.

    Parameters
    ----------
    text : str
        What stands in the file; empty for a new one.
    plan : Plan
        What it is to say.
    file : str
        How faults name the file.
    saved : Plan, optional
        What the text says, where that is known already.
    """
    before = parsed(text, file)
    old = to_data(saved or plan_from_data(before, file)) if before else {}
    wanted = to_data(plan_from_data(to_data(plan), file))
    if old == wanted:
        return text
    mark = BYTE_ORDER_MARK * text.startswith(BYTE_ORDER_MARK)
    lines = text.removeprefix(mark)
    end = line_end(lines)
    merged = merged_tables(lines.replace(end, "\n"), old, wanted)
    if merged is None or _data_of(merged) != wanted:
        remedy = "is laid out so that it cannot be changed in place; save to a new file"
        raise PlanError([Fault(file, "", "", remedy)])
    return mark + merged.replace("\n", end)


def _data_of(text: str) -> Data | None:
    """Return what a text says; None where it says nothing that can be a plan."""
    said = plan_as_given(text)
    return None if said is None else to_data(said)
