"""What of a plan was never saved: a plan file of its own, in the folder of its earlier versions."""

import contextlib
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from yarncolor.planfile.versions import folder_of_versions

_STEM = "not saved"
MOST_UNSAVED = 9
"""Of one plan; more pages than that on it at once keep theirs in the browser alone."""


@dataclass(frozen=True)
class Unsaved:
    """What a plan said that was never saved.

    Parameters
    ----------
    path : Path
        The file that holds it.
    since : datetime
        When it was written, in universal time.
    """

    path: Path
    since: datetime


def unsaved_names(path: Path) -> tuple[Path, ...]:
    """Return where that of a plan's file may stand."""
    numbers = ("", *(f" {number}" for number in range(2, MOST_UNSAVED + 1)))
    return tuple(folder_of_versions(path) / f"{_STEM}{number}.toml" for number in numbers)


def unsaved_of(path: Path) -> tuple[Unsaved, ...]:
    """Return what was never saved of a plan's file, the newest first."""
    found: list[Unsaved] = []
    for each in unsaved_names(path):
        with contextlib.suppress(OSError):
            found.append(Unsaved(each, datetime.fromtimestamp(each.stat().st_mtime, UTC)))
    return tuple(sorted(found, key=lambda one: one.since, reverse=True))
