"""What comes with the program to begin with: the notebooks, and the invented plans they use."""

from pathlib import Path

from yarncolor.errors import Fault, PlanError, on_one_line
from yarncolor.files import write_all

NOTEBOOKS, PLANS = "notebooks", "sample_data"
_KINDS = {NOTEBOOKS: "*.ipynb", PLANS: "*.toml"}
_FIRST, _EXAMPLE = "00_contents.ipynb", "tideline.toml"
_PACKAGE = Path(__file__).parent


def example_plan() -> Path:
    """Return where the plan stands that the first notebook looks at."""
    return _folder(PLANS) / _EXAMPLE


def copied_notebooks(folder: str | Path) -> tuple[list[Path], Path]:
    """Copy notebooks and plans into a folder; return what was written, and where to begin.

    They stand there as they do here, so that notebooks find their plans. Nothing is written over.

    Parameters
    ----------
    folder : str or Path
        Made where it does not exist.

    Raises
    ------
    PlanError
        Where notebooks or plans lie there already, and where the disk refuses.
    """
    folder = Path(folder)
    taken = [folder / name for name in _KINDS if (folder / name).exists()]
    if taken:
        remedy = "is there already, and what you did in it stays; choose another folder"
        raise PlanError([Fault(str(path), "", "", remedy) for path in taken])
    contents = {
        f"{name}/{path.name}": path.read_bytes()
        for name, kind in _KINDS.items()
        for path in sorted(_folder(name).glob(kind))
    }
    return write_all(folder, contents, new=contents), folder / NOTEBOOKS / _FIRST


def copied_words(folder: str | Path) -> str:
    """Copy notebooks and plans into a folder; return what was written, and how to open them."""
    written, first = copied_notebooks(folder)
    count = sum(path.parent.name == NOTEBOOKS for path in written)
    return (
        f"Written to {on_one_line(str(folder))}: {count} notebooks, "
        f"{len(written) - count} invented plans\n"
        f'Open them with: jupyter lab "{on_one_line(str(first))}"'
    )


def _folder(name: str) -> Path:
    """Return where they stand: in the package once it is installed, in a checkout beside it."""
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name
