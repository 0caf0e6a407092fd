"""The files of a plan, made in memory and written together."""

from pathlib import Path

from yarncolor.answers import Answer
from yarncolor.card import card_html
from yarncolor.files import write_all
from yarncolor.strips import strip_png, strip_svg
from yarncolor.tables import plan_json, stretches_csv, weigh_out_csv

_FILES = {
    "plan.json": plan_json,
    "weigh-out.csv": weigh_out_csv,
    "stretches.csv": stretches_csv,
    "card.html": card_html,
    "strip.png": strip_png,
    "strip.svg": strip_svg,
}


FILES = tuple(_FILES)
"""Names of all files of a plan."""


def write_answer(found: Answer, folder: str | Path, names: tuple[str, ...] = FILES) -> list[Path]:
    """Write the files of a plan into a folder, all or none; return their paths.

    Parameters
    ----------
    found : Answer
        What follows from a plan.
    folder : str or Path
        Made where it does not exist; other files in it are left alone.
    names : tuple of str
        Which files; all of them where nothing is said.

    Raises
    ------
    PlanError
        Where the folder or the disk refuses; then nothing has changed.
    """
    return write_all(Path(folder), {name: _FILES[name](found) for name in names})
