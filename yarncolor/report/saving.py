"""A command that takes one of what it found, and saves its plan: what can be wrong with that."""

import os

from yarncolor.errors import Fault


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
    if save and os.path.exists(save) and not are_one(save, file):
        return [Fault(save, "", "", "there is a file of that name already; choose another")]
    return []


def are_one(save: str, file: str) -> bool:
    """Return whether a plan is saved over the file that it was read from.

    Parameters
    ----------
    save, file : str
        Where it goes, and where it comes from.
    """
    return os.path.exists(save) and os.path.samefile(save, file)
