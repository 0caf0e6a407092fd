"""What a plan's file said before it was saved over: the last versions, in one folder beside it.

Each is a plan file by itself, called by the moment (UTC) at which it was saved over.
"""

import contextlib
import re
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from yarncolor.errors import Fault, PlanError, system_says
from yarncolor.files import followed, write_all

MOST_VERSIONS = 20
_STAMP = "%Y%m%d-%H%M%S-%f"
_NAME = re.compile(r"\d{8}-\d{6}-\d{6}\.toml")


@dataclass(frozen=True)
class Version:
    """What a plan's file said before it was saved over.

    Parameters
    ----------
    path : Path
        The file that holds it.
    until : datetime
        When it was saved over, in universal time.
    """

    path: Path
    until: datetime


def versions_of(path: Path) -> tuple[Version, ...]:
    """Return the versions that are kept of a plan's file, the newest first."""
    with contextlib.suppress(OSError):
        kept = [each for each in folder_of_versions(path).iterdir() if _NAME.fullmatch(each.name)]
        return tuple(
            Version(each, datetime.strptime(each.stem, _STAMP).replace(tzinfo=UTC))
            for each in sorted(kept, reverse=True)
        )
    return ()


def save_over(
    path: Path, text: str, spare: timedelta = timedelta(0), said: str | None = None
) -> Path:
    """Write a plan's file, keep what it said, and return its path; links are followed.

    What it said is on the disk before it is gone, and either both are written or, until the
    first rename, none. Nothing is kept of a file that says the same already, or that is kept.

    Parameters
    ----------
    path : Path
        The plan's file; it need not exist.
    text : str
        What it is to say.
    spare : timedelta
        Nothing is kept where the newest version is younger than this.
    said : str, optional
        What it is known to say, and must say until it is replaced; without, what is found there.

    Raises
    ------
    PlanError
        Where the disk refuses, or the file changes meanwhile; then it says what it said.
    """
    real = followed(path)
    before = {real.name: _said_so_far(real)} if real.is_file() else {}
    still = before if said is None else {real.name: said.encode()}
    write_all(real.parent, kept_beside(real, text, spare), still=still)
    drop_oldest(real)
    return path


def kept_beside(path: Path, text: str, spare: timedelta = timedelta(0)) -> dict[str, bytes]:
    """Return what is to be written to save a plan: what its file said, then what it is to say.

    Parameters
    ----------
    path : Path
        The plan's file, links resolved; names are relative to its folder.
    text : str
        What it is to say.
    spare : timedelta
        Nothing is kept where the newest version is younger than this.
    """
    new = {path.name: text.encode()}
    if not path.is_file() or (before := _said_so_far(path)) == new[path.name]:
        return new
    newest = next(iter(versions_of(path)), None)
    now = datetime.now(UTC)
    if newest is not None:
        if timedelta(0) <= now - newest.until < spare or _says(newest, before):
            return new
        now = max(now, newest.until + timedelta(microseconds=1))
    return {f"{folder_of_versions(path).name}/{now.strftime(_STAMP)}.toml": before, **new}


def _said_so_far(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        what = system_says(error)
        remedy = f"cannot be read, so that nothing was saved: {what}; save under another name"
        raise PlanError([Fault(str(path), "", "", remedy)]) from error


def _says(version: Version, text: bytes) -> bool:
    with contextlib.suppress(OSError):
        return version.path.read_bytes() == text
    return False


def drop_oldest(path: Path) -> None:
    """Take away the oldest versions of a plan's file, beyond the twenty that are kept."""
    for version in versions_of(path)[MOST_VERSIONS:]:
        with contextlib.suppress(OSError):
            version.path.unlink()


def folder_of_versions(path: Path) -> Path:
    """Return the folder beside a plan's file that holds what it said before; links are followed."""
    real = followed(path)
    return real.with_name(f"{real.name.removesuffix('.toml')} versions")
