"""Several plan files read one after the other, so that the faults of all are told at once."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from yarncolor.errors import Fault, PlanError

_Read = TypeVar("_Read")


def of_each_file(
    files: Sequence[str | Path], read: Callable[[str], _Read]
) -> tuple[list[tuple[str, _Read]], list[Fault]]:
    """Return what was read of each file, beside its name, and every fault of the others.

    Parameters
    ----------
    files : sequence of str or Path
        Plan files, one at least.
    read : callable
        From a file's name to what is made of it, or `PlanError`.
    """
    found, faults = list[tuple[str, _Read]](), list[Fault]()
    if not files:
        faults.append(Fault("", "FILE", "", "is missing; give one plan file or more"))
    for file in map(str, files):
        try:
            found.append((file, read(file)))
        except PlanError as error:
            faults += error.faults
    return found, faults
