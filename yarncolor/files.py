"""Bytes to disk: the only writer. Old file or new file, never half of one."""

import contextlib
import os
import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path

from yarncolor.errors import Fault, PlanError

_BESIDE = ".part"
_LONGEST_PREFIX = 40


def write_all(folder: Path, contents: Mapping[str, bytes]) -> list[Path]:
    """Write several files into a folder, all or (until the first rename) none.

    Every file is first written and synced beside its place, then all are renamed. Other
    files in the folder are left alone. A folder that had to be made goes again on failure.

    Parameters
    ----------
    folder : Path
        Made where it does not exist.
    contents : mapping of str to bytes
        File name to what it holds; a folder may stand before the name.

    Returns
    -------
    list of Path
        The written files, in the order given.

    Raises
    ------
    PlanError
        Where the folder or the disk refuses.
    """
    folders = dict.fromkeys((folder, *((folder / name).parent for name in contents)))
    made = _missing_folders(folders)
    beside: list[Path] = []
    try:
        for each in folders:
            each.mkdir(parents=True, exist_ok=True)
        for name, content in contents.items():
            _refuse_folder(folder / name)
            beside.append(_written_beside(folder / name, content))
        for temporary, name in zip(beside, contents, strict=True):
            os.replace(temporary, folder / name)
    except BaseException as error:
        _take_back(beside, made)
        if not isinstance(error, OSError):
            raise
        raise PlanError([_disk_fault(folder, error)]) from error
    return [folder / name for name in contents]


def _refuse_folder(path: Path) -> None:
    if path.is_dir():
        raise IsADirectoryError(None, "a folder of that name is in the way", str(path))


def _missing_folders(folders: Iterable[Path]) -> list[Path]:
    """Return the folders that would have to be made, deepest first."""
    with contextlib.suppress(OSError):
        every = {path for folder in folders for path in (folder, *folder.parents)}
        missing = [path for path in every if not path.exists()]
        return sorted(missing, key=lambda path: len(path.parts), reverse=True)
    return []


def _written_beside(path: Path, content: bytes) -> Path:
    """Return a synced temporary file that holds the content, beside its later place."""
    prefix = f".{path.name[:_LONGEST_PREFIX]}."
    handle, name = tempfile.mkstemp(prefix=prefix, suffix=_BESIDE, dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        with contextlib.suppress(OSError):
            os.chmod(name, _mode(path))
    except BaseException:
        os.unlink(name)
        raise
    return Path(name)


def _mode(path: Path) -> int:
    """Return the permissions of the file that is replaced, or those of a new one."""
    with contextlib.suppress(OSError):
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _take_back(beside: list[Path], made: list[Path]) -> None:
    for path in beside:
        with contextlib.suppress(OSError):
            path.unlink()
    for path in made:
        with contextlib.suppress(OSError):
            path.rmdir()


def _disk_fault(folder: Path, error: OSError) -> Fault:
    in_the_way = next((path for path in (folder, *folder.parents) if _is_no_folder(path)), None)
    if in_the_way:
        return Fault(str(in_the_way), "", "", "is not a folder; choose another folder")
    lost = next((path for path in (folder, *folder.parents) if _leads_nowhere(path)), None)
    if lost:
        return Fault(str(lost), "", "", "is a link that leads nowhere; choose another folder")
    what = (error.strerror or str(error)).lower()
    where = str(error.filename or folder)
    where = str(folder) if where.endswith(_BESIDE) else where
    return Fault(where, "", "", f"cannot write here: {what}; choose another folder")


def followed(path: Path) -> Path:
    """Return where a path leads, links followed; `PlanError` where they lead round and round."""
    real = Path(os.path.realpath(path))
    if real.is_symlink():
        remedy = "is a link that leads nowhere; choose another file"
        raise PlanError([Fault(str(path), "", "", remedy)])
    return real


def _leads_nowhere(path: Path) -> bool:
    return path.is_symlink() and not path.exists()


def _is_no_folder(path: Path) -> bool:
    with contextlib.suppress(OSError):
        return path.exists() and not path.is_dir()
    return False
