"""The files of a plan, made in memory and written together."""

from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from yarncolor.answers.answer import Answer
from yarncolor.files import write_all
from yarncolor.pictures.captions import captioned_png
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.cross_section import yarn_png
from yarncolor.pictures.fabric_svg import fabric_svg
from yarncolor.pictures.strip import strip_png
from yarncolor.pictures.strip_svg import strip_svg
from yarncolor.pictures.view import Rendered
from yarncolor.report.card.card import card_html
from yarncolor.report.card.forms import SHORT
from yarncolor.report.csv_json import plan_json, stretches_csv, weigh_out_csv
from yarncolor.report.phone.page import wheel_html
from yarncolor.report.sheets import swatch_sheet


def _picture(draw: Callable[[Answer], Rendered], answer: Answer) -> bytes:
    return captioned_png(answer, draw(answer))


CARD = "card.html"
"""The card's file, in the folder of its plan."""
_FILES: dict[str, Callable[[Answer], bytes]] = {
    "plan.json": plan_json,
    "weigh-out.csv": weigh_out_csv,
    "stretches.csv": stretches_csv,
    CARD: card_html,
    "wheel.html": wheel_html,
    "strip.png": strip_png,
    "strip.svg": strip_svg,
    "twist.png": yarn_png,
    **{f"{name}.png": partial(_picture, draw) for name, draw in PICTURES.items()},
    "knitted.svg": fabric_svg,
    "swatch.pdf": swatch_sheet,
}


FILES = tuple(_FILES)
"""Names of all files of a plan."""


def write_answer(
    answer: Answer, folder: str | Path, names: tuple[str, ...] = FILES, card: str = SHORT
) -> list[Path]:
    """Write the files of a plan into a folder, all or none; return their paths.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    folder : str or Path
        Made where it does not exist; other files in it are left alone.
    names : tuple of str
        Which files; all of them where nothing is said.
    card : str
        Form of the card: short or long.

    Raises
    ------
    PlanError
        Where the folder or the disk refuses, and for a form that there is not; then nothing has
        changed.
    """
    return write_all(Path(folder), dict(made(answer, names, card)))


def made(
    answer: Answer, names: tuple[str, ...] = FILES, card: str = SHORT
) -> Iterator[tuple[str, bytes]]:
    """Return the name and content of each file, made one after the other: some take a second.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    names : tuple of str
        Of files.
    card : str
        Form of the card: short or long.
    """
    for name in names:
        yield name, card_html(answer, card) if name == CARD else _FILES[name](answer)
