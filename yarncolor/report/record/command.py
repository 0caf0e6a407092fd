"""The command that writes what is remembered of yarns."""

from collections.abc import Sequence
from pathlib import Path

from yarncolor.files import write_all
from yarncolor.report.record.page import record_contents
from yarncolor.report.record.words import yarn_text
from yarncolor.report.record.yarns import Yarn, read_yarns


def record_files(files: Sequence[str | Path], out: str | Path) -> tuple[str, list[Path]]:
    """Write the record of plan files into a folder, all or none; return what is said of them.

    Parameters
    ----------
    files : sequence of str or Path
        Plan files, one at least.
    out : str or Path
        Made where it does not exist; other files in it are left alone.

    Raises
    ------
    PlanError
        With every fault of every file, one line each; then nothing is written.
    """
    yarns = read_yarns(files)
    told = "\n".join(map(yarn_text, yarns))
    return told, write_record(yarns, out)


def write_record(yarns: Sequence[Yarn], folder: str | Path) -> list[Path]:
    """Write a page for each yarn, ``record.json``, and of several one page and one picture.

    Parameters
    ----------
    yarns : sequence of Yarn
        One at least.
    folder : str or Path
        Made where it does not exist; other files in it are left alone.
    """
    return write_all(Path(folder), record_contents(yarns))
