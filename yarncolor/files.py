"""Bytes to disk: the only writer. Old file or new file, never half of one."""

import contextlib
import io
import os
import re
import shutil
import tempfile
import time
from collections.abc import Collection, Iterable, Iterator, Mapping, Set
from pathlib import Path

from yarncolor.errors import Fault, PlanError, system_says

_BESIDE = ".part"
_LONGEST_PREFIX = 40
UNFINISHED = "not finished.txt"
"""The note in a folder of which some files are of one set and some of another."""
_UNFINISHED_TEXT = (
    "Writing these files was stopped in between: some of them belong to another plan than the\n"
    "others. Write them anew, all of them; this note goes by itself then.\n\n"
)
_STALE_S = 3600.0
"""Seconds after which nobody writes any more to a file beside its place."""


def write_all(
    folder: Path,
    contents: Mapping[str, bytes],
    new: Collection[str] = (),
    still: Mapping[str, bytes] | None = None,
) -> list[Path]:
    """Write several files into a folder, all or (until the first rename) none.

    Every file is first written and synced beside its place, then all are renamed, and the
    folders synced; a note lies beside a set meanwhile, which stays where that ends half-way.
    Permissions, owner and attributes of a file that is replaced stay, as far as the system lets
    them; one that has several names (hard links) keeps them all, as it is written over in place.
    Other files in the folder are left alone, but for what a kill left beside these an hour ago
    or more. A folder that had to be made goes again on failure.

    Parameters
    ----------
    folder : Path
        Made where it does not exist.
    contents : mapping of str to bytes
        File name to what it holds; a folder may stand before the name.
    new : collection of str
        Those names at which nothing may be yet, though it appeared just now.
    still : mapping of str to bytes, optional
        What some of them must say until they are replaced, though it changed just now.

    Returns
    -------
    list of Path
        The written files, in the order given.

    Raises
    ------
    PlanError
        Where the folder or the disk refuses, or a file is read-only or another's by now.
    """
    folders = dict.fromkeys((folder, *((folder / name).parent for name in contents)))
    made = _missing_folders(folders)
    beside: dict[str, Path] = {}
    try:
        for each in folders:
            each.mkdir(parents=True, exist_ok=True)
        for name in contents:
            _refuse_to_replace(folder / name)
        for name, content in contents.items():
            _clear_stale(folder / name)
            beside[name] = _written_beside(folder / name, content)
        in_order = sorted(contents, key=lambda name: name not in new)
        with _one_at_a_time(folder):
            _refuse_what_changed(folder, still or {})
            _put({beside[name]: folder / name for name in in_order}, {folder / n for n in new})
        _sync(folders)
    except BaseException as error:
        _take_back(beside.values(), made)
        if isinstance(error, PlanError) or not isinstance(error, OSError | ValueError):
            raise
        raise PlanError([_disk_fault(folder, error)]) from error
    return [folder / name for name in contents]


def _refuse_to_replace(path: Path) -> None:
    if path.is_dir():
        raise IsADirectoryError(None, "a folder of that name is in the way", str(path))
    if path.exists() and not (path.stat().st_mode & 0o222 and os.access(path, os.W_OK)):
        remedy = "is read-only and was not replaced; make it writable or choose another name"
        raise PlanError([Fault(str(path), "", "", remedy)])


def _refuse_what_changed(folder: Path, still: Mapping[str, bytes]) -> None:
    for path, said in ((folder / name, said) for name, said in still.items()):
        if path.read_bytes() != said:
            remedy = "was changed meanwhile and was not replaced; choose another name"
            raise PlanError([Fault(str(path), "", "", remedy)])


@contextlib.contextmanager
def _one_at_a_time(folder: Path) -> Iterator[None]:
    """Let other writers wait while a set is put into a folder, where the system can do that."""
    handle = None
    with contextlib.suppress(ImportError, OSError):
        import fcntl

        handle = os.open(folder, os.O_RDONLY)
        fcntl.flock(handle, fcntl.LOCK_EX)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


def _put(places: Mapping[Path, Path], new: Collection[Path]) -> None:
    """Rename what is written to its places; an interrupt is heard after the last of them.

    Parameters
    ----------
    places : mapping of Path to Path
        From what is written beside to where it goes, in this order.
    new : collection of Path
        Places where nothing may be yet.
    """
    with contextlib.ExitStack() as notes:
        for folder in dict.fromkeys(path.parent for path in places.values()):
            here = {beside: path for beside, path in places.items() if path.parent == folder}
            notes.enter_context(_noted(folder, here))
        try:
            _rename(places, new)
        except KeyboardInterrupt:
            _rename({beside: path for beside, path in places.items() if beside.exists()}, new)
            raise


def _rename(places: Mapping[Path, Path], new: Collection[Path]) -> None:
    for beside, path in places.items():
        (_put_new if path in new else _put_over)(beside, path)


def _put_over(beside: Path, path: Path) -> None:
    if path.is_symlink() or not path.is_file() or path.stat().st_nlink == 1:
        os.replace(beside, path)
    else:
        _pour(path, beside.read_bytes())
        beside.unlink()


def _pour(path: Path, content: bytes) -> None:
    """Write a file over in place, so that its other names follow; undone where that fails.

    Parameters
    ----------
    path : Path
        One of its names. What it is to say lies beside it, on the disk, until it does.
    content : bytes
        What it is to say.
    """
    with open(path, "r+b", buffering=0) as stream:
        before = stream.read()
        try:
            _write_over(stream, content)
        except BaseException:
            _write_over(stream, before)
            raise


def _write_over(stream: io.FileIO, content: bytes) -> None:
    stream.seek(0)
    left = memoryview(content)
    while left:
        left = left[stream.write(left) :]
    stream.truncate()
    os.fsync(stream.fileno())


@contextlib.contextmanager
def _noted(folder: Path, places: Mapping[Path, Path]) -> Iterator[None]:
    """Have a note in a folder while a set is put there; it stays where that ends half-way."""
    note, names = folder / UNFINISHED, {path.name for path in places.values()}
    before = _told_in(note)
    if not before and (len(names) < 2 or not any(path.exists() for path in places.values())):
        yield
        return
    _tell(note, before | names)
    try:
        yield
    finally:
        waiting = [beside for beside in places if beside.exists()]
        if len(waiting) in (0, len(places)):
            _tell(note, before if waiting else before - names)


def _tell(note: Path, names: Set[str]) -> None:
    if names:
        text = _UNFINISHED_TEXT + "".join(f"{name}\n" for name in sorted(names))
        os.replace(_written_beside(note, text.encode(errors="surrogateescape")), note)
    else:
        note.unlink(missing_ok=True)


def _told_in(note: Path) -> set[str]:
    """Return the names in the note that stays where a set was never finished."""
    with contextlib.suppress(OSError):
        text = note.read_text(encoding="utf-8", errors="surrogateescape")
        return set(text.removeprefix(_UNFINISHED_TEXT).splitlines())
    return set()


def _put_new(beside: Path, path: Path) -> None:
    """Put a file in a place where nothing is; where the disk knows no links, by way of an empty."""
    try:
        try:
            os.link(beside, path)
        except FileExistsError:
            raise
        except OSError:
            os.close(os.open(path, os.O_CREAT | os.O_EXCL))
            os.replace(beside, path)
        else:
            beside.unlink()
    except FileExistsError as error:
        remedy = "there is a file of that name already; choose another"
        raise PlanError([Fault(str(path), "", "", remedy)]) from error


def _sync(folders: Iterable[Path]) -> None:
    """Have the names in folders on the disk as well, where the system can do that."""
    for folder in folders:
        with contextlib.suppress(OSError):
            handle = os.open(folder, os.O_RDONLY)
            try:
                os.fsync(handle)
            finally:
                os.close(handle)


def _clear_stale(path: Path) -> None:
    """Take away what a kill left beside a file: of its name and ours, and an hour old."""
    ours = re.compile(rf"{re.escape(_prefix(path))}\w{{8}}{re.escape(_BESIDE)}")
    with contextlib.suppress(OSError), os.scandir(path.parent) as entries:
        for entry in entries:
            is_ours = ours.fullmatch(entry.name) and entry.is_file(follow_symlinks=False)
            if is_ours and time.time() - entry.stat().st_mtime > _STALE_S:
                os.unlink(entry.path)


def _prefix(path: Path) -> str:
    return f".{path.name[:_LONGEST_PREFIX]}."


def _missing_folders(folders: Iterable[Path]) -> list[Path]:
    """Return the folders that would have to be made, deepest first."""
    with contextlib.suppress(OSError):
        every = {path for folder in folders for path in (folder, *folder.parents)}
        missing = [path for path in every if not path.exists()]
        return sorted(missing, key=lambda path: len(path.parts), reverse=True)
    return []


def _written_beside(path: Path, content: bytes) -> Path:
    """Return a synced temporary file that holds the content, beside its later place."""
    handle, name = tempfile.mkstemp(prefix=_prefix(path), suffix=_BESIDE, dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        _take_after(path, name)
    except BaseException:
        os.unlink(name)
        raise
    return Path(name)


def _take_after(path: Path, name: str) -> None:
    """Give a file owner, permissions and attributes of the one that it replaces, or of a new one.

    Parameters
    ----------
    path : Path
        What is replaced; it need not be there.
    name : str
        What takes its place.
    """
    try:
        before = path.stat()
    except OSError:
        mask = os.umask(0)
        os.umask(mask)
        with contextlib.suppress(OSError):
            os.chmod(name, 0o666 & ~mask)
        return
    if hasattr(os, "chown"):
        for owner, group in ((before.st_uid, -1), (-1, before.st_gid)):
            with contextlib.suppress(OSError):
                os.chown(name, owner, group)
    with contextlib.suppress(OSError):
        shutil.copystat(path, name)
    with contextlib.suppress(OSError):
        os.chmod(name, before.st_mode & 0o777)
        os.utime(name)


def _take_back(beside: Iterable[Path], made: Iterable[Path]) -> None:
    for path in beside:
        with contextlib.suppress(OSError):
            path.unlink()
    for path in made:
        with contextlib.suppress(OSError):
            path.rmdir()


def _disk_fault(folder: Path, error: OSError | ValueError) -> Fault:
    in_the_way = next((path for path in (folder, *folder.parents) if _is_no_folder(path)), None)
    if in_the_way:
        return Fault(str(in_the_way), "", "", "is not a folder; choose another folder")
    lost = next((path for path in (folder, *folder.parents) if _leads_nowhere(path)), None)
    if lost:
        return Fault(str(lost), "", "", "is a link that leads nowhere; choose another folder")
    what = system_says(error)
    where = str(getattr(error, "filename", None) or folder)
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
