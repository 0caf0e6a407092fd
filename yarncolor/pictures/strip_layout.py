"""What stands where on the overview strip: bands, labels, axis and names of the ends."""

from collections import Counter
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from yarncolor.answers.guessed_thickness import if_single_is
from yarncolor.colour.palette import DisplayColours
from yarncolor.layout.layout import Layout, in_words
from yarncolor.layout.stretches import WHOLE_PPB, Stretches
from yarncolor.layout.winding import FIRST_FIRST, LAST_FIRST, end_of_all
from yarncolor.phrases import title_of
from yarncolor.pictures.bands import axis_m
from yarncolor.pictures.drafted import Drafted, drafted_lots
from yarncolor.pictures.fonts import fitted, has_glyphs, in_drawing_order, pixel_name, width_px

WIDTH_PX, HEIGHT_PX = 1200, 360
LEFT_PX, RIGHT_PX, HEAD_PX, FOOT_PX, YARN_PX, GAP_PX = 128, 18, 46, 58, 62, 10
TITLE_PX, TEXT_PX, LABEL_PX = 18, 13, 13
CUT_PX = 4
"""A line where one of several alike ends stands out so far, with as much paper about it."""
_LABEL_ROOM_PX, _TITLE_ROOM_PX = 10, 230
_SMALLER_PX = (11, 9)


Role = Literal["heading", "row name", "label", "tick", "end"]


@dataclass(frozen=True)
class Text:
    """A line of text; ``x`` is its start, middle or end as ``anchor`` says, ``y`` its middle.

    ``role`` says what it stands for; ``pixels`` is what a raster writes where its font cannot
    write the text.
    """

    role: Role
    x: float
    y: float
    text: str
    anchor: Literal["start", "middle", "end"] = "start"
    size_px: int = TEXT_PX
    bold: bool = False
    on_lot: int | None = None
    pixels: str | None = None


@dataclass(frozen=True)
class Band:
    """One strand over the whole length: runs from edge to edge, each of one lot."""

    top_px: float
    height_px: float
    edges_px: np.ndarray
    lot: np.ndarray


@dataclass(frozen=True)
class Strip:
    """An overview strip, ready to be drawn by pixels or by shapes.

    ``cuts_px`` are where one of several alike ends; ``drafted`` what shows in lots whose colours
    lie side by side.
    """

    width_px: int
    height_px: int
    stretches: Stretches
    palette: DisplayColours
    bands: tuple[Band, ...]
    yarn_top_px: float
    ticks_px: tuple[float, ...]
    cuts_px: tuple[float, ...]
    texts: tuple[Text, ...]
    drafted: Drafted

    def texts_of(self, role: Role) -> list[Text]:
        """Return the texts of one role, from the top or the left."""
        return [text for text in self.texts if text.role == role]

    @property
    def inner_px(self) -> int:
        """Width of the yarn on the strip."""
        return self.width_px - LEFT_PX - RIGHT_PX

    @property
    def axis_px(self) -> float:
        """Height of the axis."""
        return self.yarn_top_px + YARN_PX + 4

    @property
    def cut_rows_px(self) -> tuple[float, float]:
        """From where to where a line says that one of several alike ends."""
        return HEAD_PX - CUT_PX, self.axis_px + CUT_PX


def strip_layout(laid: Layout, palette: DisplayColours, width_px: int, height_px: int) -> Strip:
    """Return where everything stands on the overview strip of a yarn.

    Parameters
    ----------
    laid : Layout
        The plan laid out.
    palette : DisplayColours
        Colours of its lots.
    width_px, height_px : int
        From 480 × 240 to 20,000 × 4,000.
    """
    if not (480 <= width_px <= 20_000 and 240 <= height_px <= 4_000):
        raise ValueError("a strip is 480 × 240 to 20,000 × 4,000 pixels")
    along = laid.stretches
    inner = width_px - LEFT_PX - RIGHT_PX
    plies = along.lot.shape[1]
    room = height_px - HEAD_PX - FOOT_PX - YARN_PX - GAP_PX
    pitch = room / plies
    bands = tuple(
        _band(along, k, HEAD_PX + k * pitch, pitch - min(6, pitch / 5), inner) for k in range(plies)
    )
    yarn_top = HEAD_PX + room + GAP_PX
    ticks, tick_texts = _axis(laid, inner, yarn_top + YARN_PX + 4)
    names = laid.resolved.plan.names
    return Strip(
        width_px=width_px,
        height_px=height_px,
        stretches=along,
        palette=palette,
        bands=bands,
        yarn_top_px=yarn_top,
        ticks_px=ticks,
        cuts_px=tuple((along.copy_ends_ppb / WHOLE_PPB * inner + LEFT_PX).tolist()),
        texts=(
            *_heading(laid, width_px),
            *_row_names(laid, bands, yarn_top),
            *_labels(bands, names),
            *tick_texts,
            *_ends(laid, inner, height_px),
        ),
        drafted=drafted_lots(laid.resolved.plan.lots),
    )


def _band(along: Stretches, k: int, top: float, height: float, inner: int) -> Band:
    changes = along.lot[1:, k] != along.lot[:-1, k]
    last = np.append(changes | np.isin(along.edges_ppb[1:-1], along.copy_ends_ppb), True)
    edges = np.append(0, along.edges_ppb[1:][last]) / WHOLE_PPB * inner + LEFT_PX
    return Band(top, height, edges, along.lot[last, k])


def _labels(bands: tuple[Band, ...], names: tuple[str, ...]) -> list[Text]:
    """Return the name of each run where it fits; a lot that fits nowhere is named once, small.

    Names that are cut alike tell nothing apart and are left out.
    """
    texts: list[Text] = []
    for band in (band for band in bands if band.height_px >= LABEL_PX + 2):
        texts += [
            _label(band, at, names, LABEL_PX)
            for at in np.flatnonzero(np.diff(band.edges_px) > 2 * _LABEL_ROOM_PX).tolist()
            if _fits(band, at, names, LABEL_PX)
        ]
    named = {text.on_lot for text in texts}
    unnamed = {int(lot) for band in bands for lot in np.unique(band.lot)} - named
    small = [text for lot in sorted(unnamed) for text in _small_label(lot, bands, names)]
    written = Counter(text.pixels for text in small)
    return texts + [text for text in small if written[text.pixels] == 1]


def _small_label(lot: int, bands: tuple[Band, ...], names: tuple[str, ...]) -> list[Text]:
    """Return the name of a lot in its widest run, smaller or cut; nothing where not even that."""
    runs = [(band, at) for band in bands for at in np.flatnonzero(band.lot == lot).tolist()]
    band, at = max(runs, key=lambda run: np.diff(run[0].edges_px)[run[1]])
    for size in (size for size in _SMALLER_PX if band.height_px >= size + 2):
        if _fits(band, at, names, size):
            return [_label(band, at, names, size)]
    size = _SMALLER_PX[-1]
    if band.height_px < size + 2 or pixel_name(lot, names) != names[lot]:
        return []
    room = np.diff(band.edges_px)[at] - _LABEL_ROOM_PX / 2
    short = fitted(names[lot], room, size)
    return (
        [replace(_label(band, at, names, size), text=short, pixels=short)] if len(short) > 2 else []
    )


def _fits(band: Band, at: int, names: tuple[str, ...], size_px: int) -> bool:
    room = band.edges_px[at + 1] - band.edges_px[at] - _LABEL_ROOM_PX * size_px / LABEL_PX
    lot = band.lot[at]
    return all(width_px(name, size_px) <= room for name in (names[lot], pixel_name(lot, names)))


def _label(band: Band, at: int, names: tuple[str, ...], size_px: int) -> Text:
    lot = int(band.lot[at])
    return Text(
        "label",
        x=(band.edges_px[at] + band.edges_px[at + 1]) / 2,
        y=band.top_px + band.height_px / 2,
        text=names[lot],
        anchor="middle",
        size_px=size_px,
        on_lot=lot,
        pixels=pixel_name(lot, names),
    )


def _axis(laid: Layout, inner: int, top: float) -> tuple[tuple[float, ...], list[Text]]:
    yarn_m = laid.stretches.yarn_m
    marks = axis_m(yarn_m, yarn_m / max(2, inner // 110), laid.say.length)
    at_px = [LEFT_PX + metre / yarn_m * inner for metre, _ in marks]
    edge = LEFT_PX + inner + RIGHT_PX
    texts = []
    for x, (_, label) in zip(at_px, marks, strict=True):
        middle = min(x, edge - width_px(label, TEXT_PX) / 2 - 1)
        texts.append(Text("tick", middle, top + 15, label, "middle"))
    return tuple(at_px), texts


def _facts(laid: Layout, room_px: int) -> str:
    """Return how the yarn is spun and how long it is, and on what that hangs where there is room.

    Parameters
    ----------
    laid : Layout
        The plan, laid out.
    room_px : int
        For the words.
    """
    long, hangs_on = f"{laid.say.long(laid.stretches.yarn_m)} of yarn", if_single_is(laid)
    ways = (f"{long} {hangs_on}", f"about {long}") if hangs_on else (long,)
    facts = [f"{in_words(laid)} · {way}".replace(", ", " · ") for way in ways]
    return next((said for said in facts if width_px(said, TEXT_PX) <= room_px), facts[-1])


def _heading(laid: Layout, width: int) -> list[Text]:
    plan = laid.resolved.plan
    inner = width - LEFT_PX - RIGHT_PX
    facts = _facts(laid, inner - _TITLE_ROOM_PX)
    room = inner - width_px(facts, TEXT_PX) - 30
    title = fitted(title_of(plan), room, TITLE_PX, bold=True)
    written = (has_glyphs(title) and in_drawing_order(title)) or "Plan"
    return [
        Text("heading", LEFT_PX, 24, title, size_px=TITLE_PX, bold=True, pixels=written),
        Text("heading", width - RIGHT_PX, 25, facts, "end"),
    ]


def _row_names(laid: Layout, bands: tuple[Band, ...], yarn_top: float) -> list[Text]:
    scheme = laid.resolved.scheme
    right = LEFT_PX - 12
    word = "strand" if laid.resolved.is_chain else "ply"
    pitch = np.diff([band.top_px for band in bands[:2]]).sum() or YARN_PX
    size = min(TEXT_PX, max(_SMALLER_PX[-1], int(pitch) - 2))
    texts = []
    for k, band in list(enumerate(bands))[:: int(np.ceil((size + 2) / pitch))]:
        name = f"{word} {k + 1}"
        if scheme.name == "fractal" and scheme.divisions:
            name += f" · {_times(scheme.divisions[k])}"
        middle = band.top_px + band.height_px / 2
        texts.append(Text("row name", right, middle, name, "end", size_px=size))
    middle = yarn_top + YARN_PX / 2
    return [
        *texts,
        Text("row name", right, middle - 8, "plied", "end"),
        Text("row name", right, middle + 8, "not to scale", "end", 11),
    ]


def _times(division: int | tuple[float, ...]) -> str:
    count = division if isinstance(division, int) else len(division)
    return "once" if count == 1 else f"{count} times"


_SPUN = {
    LAST_FIRST: (", spun last", ", spun first"),
    FIRST_FIRST: (", spun first", ", spun last"),
    None: ("", ""),
}
"""What was spun where plying begins and ends, by which end of the singles comes off first."""


def _ends(laid: Layout, inner: int, height: int) -> list[Text]:
    first, last = _SPUN[end_of_all(laid.resolved.wound_off)]
    wordings = (
        (f"▲ plying begins here{first}", f"ends here{last} ▲"),
        (f"▲ begins{first}", f"ends{last} ▲"),
    )
    left, right = next(
        (
            pair
            for pair in wordings
            if sum(width_px(each, TEXT_PX, True) for each in pair) < inner - 20
        ),
        wordings[-1],
    )
    y = height - 14
    return [
        Text("end", LEFT_PX, y, left, bold=True),
        Text("end", LEFT_PX + inner, y, right, "end", bold=True),
    ]
