"""The yarn in sight whatever is worked on: all of it as a strip, and a hand's breadth of it."""

import asyncio

from yarncolor.answers.answer import Preview
from yarncolor.answers.guessed_thickness import about
from yarncolor.editing.editor import Editor
from yarncolor.layout.layout import in_words
from yarncolor.pictures.shown_part import last_m, opening_m
from yarncolor.pictures.yarn_pictures import seen_mm, yarn_scene
from yarncolor.report.why.pictures import band_reasons
from yarncolor.report.why.seen import seen_in, told_of
from yarncolor.said import Figure, Filling, Said, said
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.order.order_frames import shades_of, strip_shape, table_of
from yarncolor.widgets.order.order_payload import table_payload
from yarncolor.widgets.order.packed_scenes import packed_scene
from yarncolor.widgets.protocol.asks import Ask
from yarncolor.widgets.protocol.band import BandFrame, BandWhy
from yarncolor.widgets.protocol.messages import HEARD
from yarncolor.widgets.protocol.order import StripShape

HAND_MM = 100.0
"""Yarn that is seen: a hand's breadth."""
_SCENE_PX = (1200, 32)
_WIDE_PX, _PLIES_PX, _LEAST_PX, _YARN_PX = 1200, 24, 2, 12
_REST_S = 0.12
"""Seconds without a change after which the band follows: fingers on an order come first."""
_FIRST_S = 0.5
"""Seconds after which it is first drawn: what is worked on is drawn by then."""


class YarnBand(MessageWidget):
    """A strip and a length of one editor's yarn; while an order is dragged its page paints it.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    _esm = module("order/yarn_band")
    hears = HEARD["band"]

    def __init__(self, editor: Editor) -> None:
        super().__init__()
        self.editor = editor
        self._heard = False
        self._waiting: asyncio.TimerHandle | None = None
        editor.watch(self._on_change)

    def __repr__(self) -> str:
        return "The yarn in small; it needs a live notebook."

    def on_ready(self, _: Ask) -> None:
        """Show the yarn to a page that is there now, after what is being worked on."""
        self._heard = True
        self._follow_in(_FIRST_S)

    def on_why(self, _: Ask) -> None:
        """Tell why the figures of the caption are what they are; nobody waits for it unasked."""
        found = self.editor.answer
        told = caption_told(found, self.editor.mark_m)
        why = told_of(seen_in([told], band_reasons(found)), found.say)
        answered: BandWhy = {"kind": "why", "why": why}
        self.send(answered)

    def _on_change(self) -> None:
        self._follow_in(_REST_S)

    def _follow_in(self, seconds: float) -> None:
        if self._waiting is not None:
            self._waiting.cancel()
            self._waiting = None
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            self.refresh()
        else:
            self._waiting = loop.call_later(seconds, heard(self, self.refresh))

    def refresh(self) -> None:
        """Show the plan as it stands."""
        if self._heard:
            self.send(*band_frame(self.editor.preview, self.editor.mark_m))


def band_frame(found: Preview, mark_m: float | None = None) -> tuple[BandFrame, list[bytes]]:
    """Return what a page paints the band from, and its buffers.

    Parameters
    ----------
    found : Preview
        The plan laid out.
    mark_m : float, optional
        Metre from which the yarn is seen; by default where it first shows most colours.
    """
    along = found.layout.stretches
    plies = along.lot.shape[1]
    from_m = _from_m(found, mark_m)
    scene = yarn_scene(found, from_m, HAND_MM, _SCENE_PX)
    table, of_table = table_payload(table_of(along), plies)
    size, of_scene = packed_scene(scene)
    part = _part_told(found, from_m)
    frame: BandFrame = {
        "kind": "band",
        "strip": _shape(plies),
        "scene": size,
        "shades": shades_of(found),
        "colours": list(found.palette.srgb),
        "table": table,
        "strip_alt": f"The whole yarn: {in_words(found.layout)}",
        "yarn_alt": f"{part}.",
        "caption": str(_caption(found, part)),
    }
    return frame, of_table + of_scene


def caption_told(found: Preview, mark_m: float | None = None) -> Said:
    """Return what stands below the band, its numbers as figures.

    Parameters
    ----------
    found : Preview
        The plan laid out.
    mark_m : float, optional
        Metre from which the yarn is seen; by default where it first shows most colours.
    """
    return _caption(found, _part_told(found, _from_m(found, mark_m)))


def _caption(found: Preview, part: Said) -> Said:
    long = Figure(f"{about(found)}{found.say.long(found.layout.stretches.yarn_m)}", "length")
    return said("The whole yarn, {long}, and {part}", long=long, part=part)


def _from_m(found: Preview, mark_m: float | None) -> float:
    along = found.layout.stretches
    return opening_m(along, HAND_MM) if mark_m is None else min(mark_m, last_m(along, HAND_MM))


def _part_told(found: Preview, from_m: float) -> Said:
    place: Filling = ", its beginning"
    if from_m:
        begin = Figure(f"{about(found)}{found.say.length(from_m)}", "from")
        place = said(", from {begin} on", begin=begin)
    shown = Figure(found.say.thickness(seen_mm(found, HAND_MM, _SCENE_PX), 0), "shown")
    return said("{shown} of it{place}", shown=shown, place=place)


def _shape(plies: int) -> StripShape:
    """Return where the bands of a low strip lie: a line of paper between any two."""
    each = max(_PLIES_PX // plies - 1, _LEAST_PX)
    bands = [(k * (each + 1), k * (each + 1) + each) for k in range(plies)]
    top = plies * (each + 1) + 1
    return strip_shape(_WIDE_PX, bands, (top, top + _YARN_PX))
