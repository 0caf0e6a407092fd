"""The files of a plan, made in memory and written together."""

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from pathlib import Path

from yarncolor.answers.answer import Answer
from yarncolor.errors import Fault, PlanError, on_one_line, one_line
from yarncolor.files import write_all
from yarncolor.pictures.captions import captioned_png
from yarncolor.pictures.catalogue import WRITTEN
from yarncolor.pictures.cross_section import yarn_png
from yarncolor.pictures.fabric_svg import fabric_svg
from yarncolor.pictures.strip import strip_png
from yarncolor.pictures.strip_svg import strip_svg
from yarncolor.pictures.view import Rendered
from yarncolor.report.card.card import card_html
from yarncolor.report.card.forms import SHORT, check_form
from yarncolor.report.csv_json import plan_json, stretches_csv, weigh_out_csv
from yarncolor.report.phone.page import wheel_html
from yarncolor.report.share.sheet import share_sheet
from yarncolor.report.sheets import swatch_sheet


def _picture(draw: Callable[[Answer], Rendered], answer: Answer) -> bytes:
    return captioned_png(answer, draw(answer))


CARD = "card.html"
"""The card's file, in the folder of its plan."""
_Makers = dict[str, Callable[[Answer], bytes]]
_FILES: _Makers = {
    "plan.json": plan_json,
    "weigh-out.csv": weigh_out_csv,
    "stretches.csv": stretches_csv,
    CARD: card_html,
    "wheel.html": wheel_html,
    "strip.png": strip_png,
    "strip.svg": strip_svg,
    "twist.png": yarn_png,
    **{f"{name}.png": partial(_picture, draw) for name, draw in WRITTEN.items()},
    "knitted.svg": fabric_svg,
    "swatch.pdf": swatch_sheet,
}


_SHARED: _Makers = {
    "share.png": partial(share_sheet, form="png"),
    "share-a5.pdf": partial(share_sheet, form="a5"),
    "share-half-letter.pdf": partial(share_sheet, form="half-letter"),
}

FILES = tuple(_FILES)
"""Names of all files of a plan."""

SHARED = tuple(_SHARED)
"""Names of the sheets to share, which are made where they are asked for: each takes its time."""


class NotAllMadeError(PlanError):
    """Files that could not be made, each with why; all others are written.

    Parameters
    ----------
    faults : iterable of Fault
        One for each file that could not be made.
    written : list of Path
        The others.
    """

    def __init__(self, faults: Iterable[Fault], written: list[Path]) -> None:
        self.written = written
        super().__init__(faults)


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
        Which files; all of them but the sheets to share where nothing is said.
    card : str
        Form of the card: short or long.

    Raises
    ------
    PlanError
        Where the folder or the disk refuses, and for a form that there is not; then nothing has
        changed.
    NotAllMadeError
        Where a file could not be made: it costs the others nothing, they are written.
    """
    check_form(card)
    contents, faults = told_apart(made(answer, names, card))
    written = write_all(Path(folder), contents)
    if faults:
        raise NotAllMadeError(faults, written)
    return written


def made(
    answer: Answer, names: tuple[str, ...] = FILES, card: str = SHORT
) -> Iterator[tuple[str, bytes | Fault]]:
    """Return the name and content of each file, made one after the other: some take a second.

    One that cannot be made has its fault instead.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    names : tuple of str
        Of files.
    card : str
        Form of the card: short or long.
    """
    makers: _Makers = {**_FILES, **_SHARED, CARD: partial(card_html, form=card)}
    for name in names:
        try:
            yield name, makers[name](answer)
        except Exception as error:  # whatever it is, it costs this file alone
            yield name, _not_made(name, error)


def told_apart(
    files: Iterable[tuple[str, bytes | Fault]],
) -> tuple[dict[str, bytes], list[Fault]]:
    """Return what was made by its name, and the faults of what was not."""
    contents: dict[str, bytes] = {}
    faults: list[Fault] = []
    for name, content in files:
        if isinstance(content, Fault):
            faults.append(content)
        else:
            contents[name] = content
    return contents, faults


def _not_made(name: str, error: Exception) -> Fault:
    if isinstance(error, PlanError):
        return Fault(name, "", "", f"could not be made: {one_line(error)}")
    what = on_one_line(f"{type(error).__name__}: {error}")
    return Fault(name, "", "", f"could not be made, by a fault of this program ({what})")
