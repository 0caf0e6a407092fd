"""Files of a plan from buttons: one, or all with progress and a way to stop."""

import asyncio
from collections.abc import Iterator
from pathlib import Path

import ipywidgets as w

from yarncolor.editing.editor import Editor
from yarncolor.errors import Fault, PlanError, one_line
from yarncolor.files import write_all
from yarncolor.report.card.forms import CARD_FORMS
from yarncolor.report.exports import CARD, FILES, SHARED, made, told_apart
from yarncolor.widgets.bring_home import BringHome
from yarncolor.widgets.card_printer import CardPrinter
from yarncolor.widgets.earlier_versions import EarlierVersions
from yarncolor.widgets.mishaps import heard, kept_for_the_log
from yarncolor.widgets.parts import grey, in_rows, status

PLAN_FILE = "plan.toml"
GROUPS = {
    "For the wheel": {
        CARD: "the card, as a file (HTML)",
        "wheel.html": "the card for a phone",
        "weigh-out.csv": "weigh-out, for a spreadsheet (CSV)",
        "swatch.pdf": "swatch sheet, to print (PDF)",
    },
    "Pictures of the yarn": {
        "strip.png": "overview strip",
        "strip.svg": "overview strip, for enlarging (SVG)",
        "portrait.png": "portrait of the yarn, fibre by fibre",
        "yarn.png": "yarn at true scale",
        "twist.png": "twist, large",
        "whole.png": "the whole yarn, folded",
        "wraps.png": "wraps on a card",
        "skein.png": "a skein",
    },
    "Pictures of the fabric": {
        "knitted.png": "knitted",
        "knitted.svg": "knitted, for enlarging (SVG)",
        "woven.png": "woven",
    },
    "To share": {
        "share.png": "a sheet to share, to post (PNG)",
        "share-a5.pdf": "a sheet to share, A5 (PDF)",
        "share-half-letter.pdf": "a sheet to share, 5.5 × 8.5 in (PDF)",
    },
    "For other programs": {
        PLAN_FILE: "the plan itself (TOML)",
        "plan.json": "all numbers (JSON)",
        "stretches.csv": "every section of the yarn (CSV)",
    },
}
WORDS = {name: words for files in GROUPS.values() for name, words in files.items()}

_NOTHING_MADE = "nothing is being made"


class ExportBench(w.VBox):
    """A button for each file, one for all; what is written where is shown.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    out_folder : Path
        Where files are written.
    """

    def __init__(self, editor: Editor, out_folder: Path) -> None:
        self.editor, self.out_folder = editor, out_folder
        self.said = w.HTML(layout=w.Layout(width="100%"))
        unseen = w.Layout(width="18em", visibility="hidden")
        self.progress = w.IntProgress(max=len(WORDS), layout=unseen)
        self.buttons = {name: self._button(words, (name,)) for name, words in WORDS.items()}
        self.all = self._button("Write everything", (*FILES, *SHARED, PLAN_FILE))
        self.stop = w.Button(description="Stop", layout=w.Layout(width="8em"))
        grey(self.stop, _NOTHING_MADE)
        self.stop.on_click(heard(self, lambda _: self._stop()))
        self.card = _card_chooser()
        self.printer = CardPrinter(editor, lambda: self.card.value)
        self.earlier = EarlierVersions(editor)
        self.task: asyncio.Task | None = None
        super().__init__(
            [
                in_rows([self.all, self.stop, self.progress]),
                self.said,
                *self._groups(),
                w.HTML(_heading("From the phone")),
                BringHome(editor),
                w.HTML(_heading("Earlier versions of the plan")),
                self.earlier,
            ],
            layout=w.Layout(width="100%", overflow="visible"),
        )
        self._say(f"Files are written into {out_folder.as_posix()}")

    def __repr__(self) -> str:
        return f"A bench to write {len(WORDS)} files; it needs a live notebook."

    def _groups(self) -> Iterator[w.Widget]:
        for words, files in GROUPS.items():
            yield w.HTML(_heading(words))
            if CARD in files:
                yield in_rows([self.card, self.printer])
            yield in_rows([self.buttons[name] for name in files])

    def refresh(self) -> None:
        """Show the earlier versions anew; files are made of the plan as it stands when asked."""
        self.earlier.refresh()

    def _button(self, words: str, names: tuple[str, ...]) -> w.Button:
        button = w.Button(description=words, layout=w.Layout(width="20em"))
        button.on_click(heard(self, lambda _: self._begin(names)))
        return button

    def _begin(self, names: tuple[str, ...]) -> None:
        if self.task is not None and not self.task.done():
            return
        self.progress.layout.visibility = "visible"
        work = self.written(names)
        try:
            self.task = asyncio.get_running_loop().create_task(work)
        except RuntimeError:
            asyncio.run(work)

    async def written(self, names: tuple[str, ...]) -> None:
        """Make files one after the other, stopping where asked; then write them, all or none."""
        self.progress.value = 0
        grey(self.stop, "")
        tried: list[tuple[str, bytes | Fault]] = []
        try:
            for name, content in self._made(names):
                tried.append((name, content))
                self.progress.value = self.progress.max * len(tried) // len(names)
                self._say(f"{WORDS[name]} made, {len(tried)} of {len(names)}")
                await asyncio.sleep(0.01)
            files, faults = told_apart(tried)
            paths = write_all(self.out_folder, files)
            written = f"Written: {', '.join(path.as_posix() for path in paths)}"
            self._say("; ".join([*map(str, faults), *([written] if paths else [])]))
        except PlanError as error:
            self._say(one_line(error))
        except asyncio.CancelledError:
            self._say("Stopped; nothing was written.")
        except Exception as error:  # whatever it is, it is said where one looks
            self._say(kept_for_the_log(error))
        finally:
            grey(self.stop, _NOTHING_MADE)

    def _made(self, names: tuple[str, ...]) -> Iterator[tuple[str, bytes | Fault]]:
        files = tuple(name for name in names if name != PLAN_FILE)
        yield from made(self.editor.answer, files, self.card.value)
        if PLAN_FILE in names:
            yield PLAN_FILE, self.editor.text().encode()

    def _stop(self) -> None:
        if self.task is not None:
            self.task.cancel()

    def _say(self, words: str) -> None:
        self.said.value = status(words)


def _card_chooser() -> w.Dropdown:
    return w.Dropdown(
        options=[(words, form) for form, words in CARD_FORMS.items()],
        description="the card",
        layout=w.Layout(width="26em", max_width="98%", height="auto"),
    )


def _heading(words: str) -> str:
    return f'<h4 style="margin:.6em 0 .2em">{words}</h4>'
