"""A command that takes one of what it found, and saves its plan: what can be wrong with that."""

import os
from collections.abc import Mapping
from pathlib import Path

from yarncolor.errors import Fault
from yarncolor.files import followed, write_all
from yarncolor.plan import Plan
from yarncolor.planfile.save import merged_text
from yarncolor.planfile.toml_text import read_text
from yarncolor.planfile.versions import drop_oldest, kept_beside


def saving_faults(file: str, take: str | None, save: str | None, what: str) -> list[Fault]:
    """Return what is wrong with where a plan is to go.

    Parameters
    ----------
    file : str
        The plan file.
    take, save : str, optional
        What is taken, and where its plan goes.
    what : str
        What would be given to take one.
    """
    if take and not save:
        return [Fault("", "--save", "", "is missing; give the file that the plan goes to")]
    if save and not take:
        return [Fault("", "--take", "", f"is missing; give {what}")]
    if save and os.path.exists(save) and not _are_one(save, file):
        return [Fault(save, "", "", "there is a file of that name already; choose another")]
    return []


def written_with_plan(
    out: str, contents: Mapping[str, bytes], plan: Plan, file: str, save: str
) -> list[Path]:
    """Write what a command found and the plan that was taken, all or nothing; return the former.

    Parameters
    ----------
    out : str
        Folder of what was found.
    contents : Mapping of str to bytes
        Its files.
    plan : Plan
        What was taken; comments of its file stay.
    file, save : str
        Where it comes from, and where it goes.
    """
    text, real = merged_text(read_text(file), plan, file), followed(Path(save))
    saved = {str(real.parent / name): one for name, one in kept_beside(real, text).items()}
    new = () if _are_one(save, file) else (str(real),)
    written = write_all(Path(out), {**contents, **saved}, new)[: len(contents)]
    drop_oldest(real)
    return written


def _are_one(save: str, file: str) -> bool:
    """Return whether a plan is saved over the file that it was read from."""
    return os.path.exists(save) and os.path.samefile(save, file)
