"""The overview strip: plies side by side over the whole length, the plied yarn under them."""

from functools import lru_cache

import numpy as np
from PIL import Image

from yarncolor.answers.answer import Answer
from yarncolor.colour.palette import DisplayColours
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import label_ink
from yarncolor.phrases import title_of
from yarncolor.pictures import fonts
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.bands import (
    Columns,
    across_stripes,
    shared_columns,
    slanting_stripes,
)
from yarncolor.pictures.blending import lanes_of, packed_of, shared
from yarncolor.pictures.drafted import shown_lots, streaks
from yarncolor.pictures.painting import rgb
from yarncolor.pictures.png import INK, PAPER, png_bytes
from yarncolor.pictures.strip_layout import (
    CUT_PX,
    HEIGHT_PX,
    LEFT_PX,
    WIDTH_PX,
    YARN_PX,
    Band,
    Strip,
    Text,
    strip_layout,
)
from yarncolor.units import MM_PER_INCH

_FIRST_LOT = fonts.LEVELS + 1
SEPARATED_PX, ALMOST_PX, _DPI = 8, 1e-6, 144


def strip_png(answer: Answer, width_px: int = WIDTH_PX, height_px: int = HEIGHT_PX) -> bytes:
    """Return the overview strip as a PNG with its title, software and a text alternative.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    width_px, height_px : int
        From 480 × 240 to 20,000 × 4,000.
    """
    drawn = strip_layout(answer.layout, answer.palette, width_px, height_px)
    index, colours = raster(drawn)
    return _png(index, colours, title_of(answer.plan), strip_alt(answer))


def raster(drawn: Strip) -> tuple[np.ndarray, np.ndarray]:
    """Return the strip as an index map (height, width) and the palette (entries, 3) uint8.

    Entries: 0 paper, up to 4 its shades to ink, then the lots, then shades of labels on lots.
    """
    index = np.zeros((drawn.height_px, drawn.width_px), np.uint16)
    colours = _Colours(drawn.palette)
    columns = shared_columns(drawn.stretches, drawn.inner_px)
    inner = slice(LEFT_PX, LEFT_PX + drawn.inner_px)
    for k, band in enumerate(drawn.bands):
        rows = _rows(band.top_px, band.height_px)
        index[rows, inner] = colours.shared(*_of_ply(columns, k, rows, drawn))
        index[rows, _separators(band)] = 0
    top = round(drawn.yarn_top_px)
    index[top : top + YARN_PX, inner] = colours.shared(*_of_yarn(columns, drawn))
    _axis(index, drawn)
    _cuts(index, drawn)
    for text in drawn.texts:
        _write(index, text, colours, drawn)
    return index, colours.table()


def _of_ply(
    columns: Columns, ply: int, rows: slice, drawn: Strip
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the lots of each pixel of a ply's band, and the share of the second."""
    turn = streaks(rows.stop - rows.start)[:, None]
    one, other = (
        np.broadcast_to(shown_lots(lot[:, ply], turn, drawn.drafted), (len(turn), len(lot)))
        for lot in (columns.lot, columns.other)
    )
    return one, other, np.broadcast_to(columns.share[:, ply], one.shape)


def _of_yarn(columns: Columns, drawn: Strip) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the same of the plied yarn, whose plies take turns in slanting stripes."""
    size, x = (drawn.inner_px, YARN_PX), np.arange(drawn.inner_px)
    stripe, across = slanting_stripes(*size, len(drawn.bands)), across_stripes(*size)
    one, other = (
        shown_lots(lot[x, stripe], across, drawn.drafted) for lot in (columns.lot, columns.other)
    )
    return one, other, columns.share[x, stripe]


class _Colours:
    """The palette of one raster: grows by lots that share a pixel, and by shades of labels."""

    def __init__(self, palette: DisplayColours) -> None:
        self._lots = palette.srgb
        greys = _between(PAPER, INK)
        self._table = [PAPER, *greys, *palette.srgb]
        self._shades: dict[int, np.ndarray] = {}
        self._shared: dict[str, int] = {}

    def shades(self, lot: int | None) -> np.ndarray:
        """Return the palette entries from the ground (unused) to the ink on a lot, or on paper."""
        if lot is None:
            return np.arange(fonts.LEVELS + 1, dtype=np.uint16)
        if lot not in self._shades:
            ground = self._lots[lot]
            entries = np.arange(fonts.LEVELS + 1, dtype=np.uint16) + len(self._table) - 1
            self._table += _between(ground, label_ink(ground))
            self._shades[lot] = entries
        return self._shades[lot]

    def shared(self, one: np.ndarray, other: np.ndarray, share: np.ndarray) -> np.ndarray:
        """Return the palette entries of pixels that two lots share; arrays of one shape.

        Parameters
        ----------
        one, other : int array
            Lots.
        share : uint8 array
            Of the other, in `WHOLE_SHARE` parts.
        """
        entry = one + _FIRST_LOT
        at = np.nonzero((share > 0) & (one != other))
        met = np.stack([one[at], other[at], share[at]], axis=1)
        pairs, which = np.unique(met, axis=0, return_inverse=True)
        entry[at] = self._mixed(pairs)[which.ravel()]
        return entry

    def _mixed(self, pairs: np.ndarray) -> np.ndarray:
        """Return the entries of lots mixed with others: (pairs,)."""
        lots = packed_of(srgb_from_hex(list(self._lots)) * 255)
        one, other = (lanes_of(lots[pairs[:, at]]) for at in (0, 1))
        mixed = rgb(shared(one, other, pairs[:, 2].astype(np.uint8))[:, None])[:, 0]
        found = [self._entry(f"#{bytes(colour).hex()}") for colour in mixed]
        return np.array(found, dtype=np.intp)

    def _entry(self, colour: str) -> int:
        if colour not in self._shared:
            self._shared[colour] = len(self._table)
            self._table.append(colour)
        return self._shared[colour]

    def table(self) -> np.ndarray:
        """Return all entries as (n, 3) uint8."""
        entries: np.ndarray = np.rint(srgb_from_hex(self._table) * 255).astype(np.uint8)
        return entries


@lru_cache(maxsize=1024)
def _between(ground: str, ink: str) -> list[str]:
    ends = srgb_from_hex([ground, ink]) * 255
    steps = np.arange(1, fonts.LEVELS + 1)[:, None] / fonts.LEVELS
    levels = np.rint(ends[0] + (ends[1] - ends[0]) * steps).astype(np.uint8)
    return [f"#{bytes(row).hex()}" for row in levels]


def _separators(band: Band) -> np.ndarray:
    """Return the columns in which two runs meet that are both wide enough to be parted."""
    wide = np.diff(band.edges_px) >= SEPARATED_PX
    cut = band.edges_px[1:-1][wide[1:] & wide[:-1]]
    columns: np.ndarray = np.floor(cut + ALMOST_PX).astype(int)
    return columns


def _rows(top: float, height: float) -> slice:
    return slice(round(top), round(top + height))


def _axis(index: np.ndarray, drawn: Strip) -> None:
    top = round(drawn.axis_px)
    for x in drawn.ticks_px:
        index[top : top + 6, min(round(x), drawn.width_px - 1)] = fonts.LEVELS


def _cuts(index: np.ndarray, drawn: Strip) -> None:
    """Draw a line with paper about it where one of several alike ends."""
    top, end = map(round, drawn.cut_rows_px)
    for x in map(round, drawn.cuts_px):
        index[top:end, x - CUT_PX // 2 : x + CUT_PX // 2 + 1] = 0
        index[top:end, x] = fonts.LEVELS


def _write(index: np.ndarray, text: Text, colours: _Colours, drawn: Strip) -> None:
    levels = fonts.mask(text.pixels or text.text, text.size_px, text.bold)
    high, wide = levels.shape
    shift = {"start": 0, "middle": wide / 2, "end": wide}[text.anchor]
    x, y = max(0, round(text.x - shift)), max(0, round(text.y - high / 2))
    ground = index[y : y + high, x : x + wide]
    levels = levels[: ground.shape[0], : ground.shape[1]]
    if text.on_lot in drawn.drafted:
        ground[:] = (text.on_lot or 0) + _FIRST_LOT
    inked = levels > 0
    ground[inked] = colours.shades(text.on_lot)[levels[inked]]


def _png(index: np.ndarray, colours: np.ndarray, title: str, alt: str) -> bytes:
    if len(colours) <= 256:
        image = Image.fromarray(index.astype(np.uint8), mode="P")
        image.putpalette(colours.tobytes())
    else:
        image = Image.fromarray(colours[index])
    return png_bytes(image, title, alt, width_mm=image.width / _DPI * MM_PER_INCH, compress_level=2)
