"""The lots on a sheet to share: a swatch of each with its name, its grams and its dye notes."""

from collections.abc import Iterator
from math import ceil
from typing import NamedTuple

from yarncolor.answers.answer import Answer
from yarncolor.layout.layout import used_g
from yarncolor.pictures import fonts
from yarncolor.report.dye_notes import made_from, noted
from yarncolor.report.paper import MM_PER_POINT, Area, Paper, Pen, cut, wrapped
from yarncolor.report.share.tones import Tones
from yarncolor.report.sheets import mass_in_short

_GAP_MM, _COLUMNS_APART_MM, _LEADING, _MASS_MM = 2.4, 4.0, 1.28, 8.0
_NO_BREAK = "\N{NO-BREAK SPACE}"
_BETWEEN, _SHORT = f"{_NO_BREAK}· ", 24
"""Stays at the end of a line; letters up to which a note stands on one line."""

_LONGEST_NOTE, _MOST_G = 300, 1000.0
"""Letters of a note of which no sheet has room for more; grams that take as much room as any."""


class _Size(NamedTuple):
    """How lots are set: columns, rows, swatches, letters; how many lines stand under a name."""

    columns: int
    row_mm: float
    swatch_mm: tuple[float, float]
    name_pt: float
    note_pt: float
    lines: int


_SIZES = (
    _Size(1, 22.0, (24.0, 18.0), 10.0, 7.4, 4),
    _Size(1, 15.2, (16.0, 12.6), 9.2, 7.0, 3),
    _Size(1, 14.0, (16.0, 11.4), 9.2, 7.0, 2),
    _Size(1, 12.8, (14.0, 10.8), 8.4, 6.4, 3),
    _Size(1, 11.0, (13.0, 9.2), 8.6, 6.6, 2),
    _Size(1, 8.8, (11.0, 7.2), 8.2, 6.4, 1),
    _Size(1, 9.0, (10.0, 8.0), 7.0, 5.7, 2),
    _Size(1, 8.3, (9.5, 7.6), 6.8, 5.5, 2),
    _Size(1, 7.4, (9.0, 6.0), 7.4, 6.0, 1),
    _Size(1, 6.6, (8.5, 5.5), 7.0, 5.8, 1),
    _Size(1, 5.4, (7.0, 4.3), 7.0, 5.8, 0),
    _Size(2, 8.8, (7.0, 7.2), 7.2, 5.8, 1),
    _Size(2, 7.2, (6.0, 5.9), 6.8, 5.6, 1),
    _Size(2, 5.2, (5.2, 3.9), 6.4, 5.6, 0),
    _Size(2, 4.2, (4.6, 3.0), 6.0, 5.6, 0),
)
"""From the largest."""

_SIDE_BY_SIDE_MM = 90.0
"""Width from which on there is room for twice as many columns."""


def put_lots(paper: Paper, box: Area, answer: Answer, tones: Tones) -> None:
    """Put the lots of a plan into a box: as large as they all fit, else those that do.

    Parameters
    ----------
    paper : Paper
        The sheet.
    box : Area
        Where.
    answer : Answer
        What follows from a plan.
    tones : Tones
        Colours of the paper and its inks.
    """
    used = used_g(answer.layout)
    lots = [at for at, mass in enumerate(used) if mass > 0]
    sizes = [_widened(one) for one in _SIZES] if box.wide_mm > _SIDE_BY_SIDE_MM else _SIZES
    rows = [_Row(paper, answer, size, tones) for size in sizes]
    row = min(rows, key=lambda one: one.loses(box, lots))
    cells = _cells(box, row.size, len(lots))
    shown = lots if len(lots) == len(cells) else lots[: len(cells) - 1]
    for at, cell in zip(shown, cells, strict=False):
        row.put(cell, at, mass_in_short(used[at], answer.say.mass))
    if len(shown) < len(lots):
        at_mm = (cells[-1].left_mm, cells[-1].top_mm + cells[-1].high_mm / 2)
        paper.text(at_mm, f"and {len(lots) - len(shown)} more lots", row.name_pen)


def _widened(size: _Size) -> _Size:
    return size._replace(columns=2 * size.columns)


def _room(box: Area, size: _Size) -> int:
    return size.columns * _rows(box, size)


def _rows(box: Area, size: _Size) -> int:
    return int((box.high_mm + size.row_mm - size.swatch_mm[1]) / size.row_mm + 1e-9)


def _cells(box: Area, size: _Size, lots: int) -> list[Area]:
    """Return where lots stand, down one column and then the next; at most as many as fit."""
    count = min(lots, _room(box, size))
    rows = ceil(count / size.columns)
    wide = (box.wide_mm - (size.columns - 1) * _COLUMNS_APART_MM) / size.columns
    apart = wide + _COLUMNS_APART_MM
    return [
        Area(
            box.left_mm + number // rows * apart,
            box.top_mm + number % rows * size.row_mm,
            wide,
            size.swatch_mm[1],
        )
        for number in range(count)
    ]


class _Row:
    """Puts one lot after the other on a sheet, all set alike."""

    def __init__(self, paper: Paper, answer: Answer, size: _Size, tones: Tones) -> None:
        self.paper, self.answer, self.size, self.tones = paper, answer, size, tones
        self.name_pen = Pen(size.name_pt, colour=tones.ink)
        self.note_pen = Pen(size.note_pt, colour=tones.quiet)

    def loses(self, box: Area, lots: list[int]) -> tuple[int, int, int]:
        """Return what would be lost in a box: how many lots; names, notes that are cut."""
        beside_mm = self._beside(_cells(box, self.size, 1)[0]).wide_mm
        room_mm = beside_mm - (0 if self.size.lines else _MASS_MM)
        cut_names = sum(self._name(at, room_mm).endswith("…") for at in lots)
        cut_notes = sum(not self._holds_notes(at, beside_mm) for at in lots)
        return max(0, len(lots) - _room(box, self.size)), cut_names, cut_notes

    def put(self, cell: Area, at: int, mass: str) -> None:
        """Put a lot into its cell: its swatch, and beside it what is said of it."""
        swatch = Area(cell.left_mm, cell.top_mm, *self.size.swatch_mm)
        self.paper.swatch(swatch, self.answer.palette.srgb[at], self.tones.ink, 0.5)
        beside = self._beside(cell)
        if self.size.lines:
            self._lines(beside, at, mass)
        else:
            self._line(beside, at, mass)

    def _beside(self, cell: Area) -> Area:
        swatch_mm = self.size.swatch_mm[0] + _GAP_MM
        return cell._replace(left_mm=cell.left_mm + swatch_mm, wide_mm=cell.wide_mm - swatch_mm)

    def _line(self, beside: Area, at: int, mass: str) -> None:
        middle, room = beside.top_mm + beside.high_mm / 2, beside.wide_mm - _MASS_MM
        self.paper.text((beside.left_mm, middle), self._name(at, room), self.name_pen)
        self.paper.text((beside.right_mm, middle), mass, self.note_pen, "right")

    def _lines(self, beside: Area, at: int, mass: str) -> None:
        notes = self._noted(at, mass, beside.wide_mm)
        name_mm, note_mm = (
            pen.size_pt * MM_PER_POINT * _LEADING for pen in (self.name_pen, self.note_pen)
        )
        top = beside.top_mm + (beside.high_mm - name_mm - note_mm * len(notes)) / 2
        name = self._name(at, beside.wide_mm)
        self.paper.text((beside.left_mm, top + name_mm / 2), name, self.name_pen)
        for number, note in enumerate(notes):
            middle = top + name_mm + note_mm * (number + 0.5)
            self.paper.text((beside.left_mm, middle), note, self.note_pen)

    def _name(self, at: int, room_mm: float) -> str:
        name = self.answer.plan.names[at]
        return cut(name if fonts.has_glyphs(name) else f"lot {at + 1}", room_mm, self.name_pen)

    def _holds_notes(self, at: int, room_mm: float) -> bool:
        if not self.size.lines:
            return not any(self._notes(at))
        return not self._noted(at, self.answer.say.mass(_MOST_G, 0), room_mm)[-1].endswith("…")

    def _noted(self, at: int, mass: str, room_mm: float) -> list[str]:
        said = _BETWEEN.join(map(_kept_together, [mass, *self._notes(at)]))[:_LONGEST_NOTE]
        return wrapped(said, room_mm, self.note_pen, self.size.lines)

    def _notes(self, at: int) -> Iterator[str]:
        lots = self.answer.plan.lots
        if len({lot.fibre for lot in lots}) > 1 and lots[at].fibre:
            yield " ".join(lots[at].fibre.split())
        yield from noted(lots[at])
        yield from made_from(lots[at])


def _kept_together(note: str) -> str:
    return note.replace(" ", _NO_BREAK) if len(note) <= _SHORT else note
