"""Every ply's page as the section at the wheel shows it: what lies there, what is to spin."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import isnan

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.progress import PlyProgress, progress
from yarncolor.editing.at_the_wheel import PIECE_FIELDS, field_name
from yarncolor.editing.at_the_wheel_pieces import PieceKey, keys_of_pieces, pieces_on
from yarncolor.editing.draft import Draft
from yarncolor.editing.field_units import in_units
from yarncolor.editing.option_text import format_value
from yarncolor.layout.portions import row_numbers
from yarncolor.measures import Measures
from yarncolor.plan import Plan, Spun, to_data
from yarncolor.report.wheel_words import instead_of, ply_stands
from yarncolor.widgets.protocol.spinning import PieceRow, PlyPage

SPUN, NEXT, TO_SPIN, LEFT_OUT = "spun", "next", "to spin", "left out"


def ply_pages(plan: Plan, answer: Answer, draft: Draft) -> list[PlyPage]:
    """Return the page of each ply.

    Parameters
    ----------
    plan : Plan
        As it is edited.
    answer : Answer
        What follows from it.
    draft : Draft
        What is typed and not in it yet.
    """
    far = progress(answer)
    return [
        {
            "ply": page.ply + 1,
            "words": page.words,
            "stands": "" if far is None else _stands(answer, far.plies[page.ply]),
            "bobbins": page.bobbins,
            "rows": list(page.rows(pieces_on(plan, page.ply + 1))),
        }
        for page in (_Page(answer, draft, ply) for ply in range(len(answer.resolved.tex)))
    ]


def _stands(answer: Answer, one: PlyProgress) -> str:
    words = ply_stands(answer, one)
    return words[:1].upper() + words[1:]


@dataclass(frozen=True)
class _Page:
    """A ply's page, counted from 0."""

    answer: Answer
    draft: Draft
    ply: int

    @property
    def words(self) -> str:
        return f"Ply {self.ply + 1}" if len(self.answer.resolved.tex) > 1 else "The single"

    @property
    def bobbins(self) -> int:
        own = (one.order for one in self.answer.bobbins if one.ply == self.ply)
        return max(own, default=1)

    def rows(self, said: list[Spun]) -> Iterator[PieceRow]:
        """Yield what is there in its order, and rows passed over where they were to be."""
        absent = self._absent()
        for row, shown in self._there(said):
            while absent and row > absent[0]:
                yield self._left_out(absent.pop(0))
            yield shown
        yield from map(self._left_out, absent)

    def _there(self, said: list[Spun]) -> Iterator[tuple[int, PieceRow]]:
        """Yield the row, 0 for none, and what is shown, of all that is spun and to spin."""
        laid, own = self.answer.layout, self.answer.layout.portions.of_ply(self.ply)
        keys = keys_of_pieces(said)
        for at, (key, one) in enumerate(zip(keys, said, strict=True), own.start):
            yield key.row, self._spun(at, key, one)
        extra, state = sum(key.extra > 0 for key in keys), NEXT
        for at in range(own.start + len(keys), own.stop):
            row = int(laid.row[at])
            extra += not row
            key = PieceKey(self.ply + 1, row=row, extra=0 if row else extra)
            yield row, self._to_spin(at, key, state)
            state = TO_SPIN

    def _absent(self) -> list[int]:
        """Return the rows that neither lie on the bobbin nor are to be spun."""
        laid = self.answer.layout
        rows = row_numbers(laid.planned)[laid.planned.of_ply(self.ply)]
        there = laid.row[laid.portions.of_ply(self.ply)]
        return [int(row) for row in np.setdiff1d(rows, there)]

    def _left_out(self, row: int) -> PieceRow:
        planned = self.answer.layout.planned
        at = planned.of_ply(self.ply).start + row - 1
        stays = f"{_weight(self.answer, float(planned.mass_g[at]))} in the drawer"
        shown = self._row(PieceKey(self.ply + 1, row=row), int(planned.lot[at]), LEFT_OUT)
        return {**shown, "found": stays}

    def _spun(self, at: int, key: PieceKey, said: Spun) -> PieceRow:
        shown = self._row(key, int(self.answer.layout.portions.lot[at]), SPUN)
        fields = {**_fields(said, self.answer.say), **shown["fields"]}
        found, after = _found(self.answer, at), _after(self.answer, at)
        return {**shown, "fields": fields, "found": found, "after": after}

    def _to_spin(self, at: int, key: PieceKey, state: str) -> PieceRow:
        if not self.answer.layout.to_spin[at]:  # plying has begun
            return self._spun(at, key, Spun(key.ply, key.row))
        shown = self._row(key, int(self.answer.layout.portions.lot[at]), state)
        return {**shown, "weigh": _weigh(self.answer, at), "after": _after(self.answer, at)}

    def _row(self, key: PieceKey, lot: int, state: str) -> PieceRow:
        """Return what all have: which it is, and what is typed and not in the plan."""
        draft, names = self.draft, {field: field_name(key, field) for field in PIECE_FIELDS}
        parts = (draft.typed, draft.faults, draft.needed)
        fields, faults, waits = (
            {field: part[name] for field, name in names.items() if name in part} for part in parts
        )
        return {
            "piece": str(key),
            "row": key.row,
            "lot": lot,
            "state": state,
            "weigh": "",
            "after": "",
            "found": "",
            "fields": fields,
            "faults": faults,
            "waits": waits,
        }


def _fields(said: Spun, say: Measures) -> dict[str, str]:
    """Return what a piece says, as it would be typed."""
    data = to_data(said)
    return {
        name: str(data[name]) if name == "on" else format_value(in_units(key, say), data[name])
        for name, key in PIECE_FIELDS.items()
        if name in data
    }


def _weigh(answer: Answer, at: int) -> str:
    portions = answer.layout.portions
    if isnan(portions.weigh_g[at]):
        return f"from its heap, about {answer.say.mass(portions.mass_g[at])}"
    return _weight(answer, float(portions.weigh_g[at]))


def _weight(answer: Answer, mass_g: float) -> str:
    """Return a weight with its unit, as the scale shows it."""
    return f"{answer.say.on_scale(mass_g, answer.resolved.step_g)} {answer.say.mass.unit}"


def _after(answer: Answer, at: int) -> str:
    """Return what the bobbin weighs when a piece is spun; without it where that is not known."""
    bobbin = answer.on_bobbins.in_use[at]
    net = answer.say.on_scale(float(answer.on_bobbins.after_each_g[at]), answer.resolved.step_g)
    if bobbin.tare_g is None:
        return f"on it {net} {answer.say.mass.unit}"
    return f"bobbin {answer.say.gross(net, bobbin.tare_g)} {answer.say.mass.unit}"


def _found(answer: Answer, at: int) -> str:
    """Return what a piece on the bobbin is: as planned, or in whose place, its grams and metres."""
    instead = instead_of(answer, at)
    told = _grams_found(answer, at)
    return ", ".join(filter(None, (instead and f"in place of {instead}", told))) or "as planned"


def _grams_found(answer: Answer, at: int) -> str:
    wheel = answer.layout.wheel
    if wheel is None or (wheel.as_planned[at] and not wheel.is_measured[at]):
        return ""
    mass_g, length_m = float(wheel.pieces.mass_g[at]), float(wheel.pieces.length_m[at])
    off_g, step_g = mass_g - float(wheel.planned_mass_g[at]), answer.resolved.step_g
    how = " measured" if wheel.is_measured[at] else ""
    more = ""
    if abs(off_g) >= step_g / 2:
        more = f", {_weight(answer, abs(off_g))} {'more' if off_g > 0 else 'less'} than planned"
    return f"{_weight(answer, mass_g)}{more}, {answer.say.long(length_m)}{how}"
