"""What lies on a ply's bobbin, piece by piece, and back into a plan's entries.

A piece is known by its ply and its row, or as the how manieth piece too many: ``2r14``, ``2x1``.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from yarncolor.plan import Plan, Spun

_KEY = re.compile(r"([1-9]\d{0,3})([rx])([1-9]\d{0,5})")
_PLAIN = ("bobbin", "on", "note")


@dataclass(frozen=True)
class PieceKey:
    """Which piece of which ply, both counted from 1.

    Parameters
    ----------
    ply : int
        Whose bobbin it lies on.
    row : int
        Row of that ply's page; 0 for a piece too many.
    extra : int
        Which of the pieces too many; 0 for a row.
    """

    ply: int
    row: int = 0
    extra: int = 0

    def __str__(self) -> str:
        return f"{self.ply}r{self.row}" if self.row else f"{self.ply}x{self.extra}"

    @classmethod
    def read(cls, text: str) -> "PieceKey | None":
        """Return the key that a text is; None where it is none."""
        found = _KEY.fullmatch(text)
        if found is None:
            return None
        ply, number = int(found[1]), int(found[3])
        return cls(ply, row=number) if found[2] == "r" else cls(ply, extra=number)


def pieces_on(plan: Plan, ply: int) -> list[Spun]:
    """Return what lies on a ply's bobbin in the order spun, each row by its own number.

    Parameters
    ----------
    plan : Plan
        Says what was spun.
    ply : int
        From 1.
    """
    pieces, named, reached = list[Spun](), set[int](), 0
    for one in (one for one in plan.spun if one.ply == ply):
        if one.through is None:
            pieces.append(one)
            named.add(one.row or 0)
            continue
        rows = [row for row in range(reached + 1, one.through + 1) if row not in named]
        pieces += [replace(one, row=row, through=None) for row in rows]
        reached = max(reached, one.through)
    return pieces


def keys_of_pieces(pieces: Iterable[Spun]) -> list[PieceKey]:
    """Return the key of each piece of one ply."""
    keys, extra = list[PieceKey](), 0
    for one in pieces:
        extra += one.row is None
        keys.append(PieceKey(one.ply, row=one.row) if one.row else PieceKey(one.ply, extra=extra))
    return keys


def with_pieces(plan: Plan, ply: int, pieces: Iterable[Spun]) -> Plan:
    """Return the plan of which these pieces lie on a ply's bobbin.

    Entries that say the same as before stay as they are; rows as planned are said short. Where
    nothing is spun any more nothing is decided for the rest either.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply : int
        From 1.
    pieces : iterable of Spun
        In the order spun, each row by its own number.
    """
    own = [one for one in plan.spun if one.ply == ply]
    spun = _in_their_places(plan.spun, ply, _entries(list(pieces), own, pieces_on(plan, ply)))
    if spun:
        return replace(plan, spun=spun)
    return replace(plan, spun=(), to_spin=(), pull_off=())


def _entries(pieces: list[Spun], own: list[Spun], before: list[Spun]) -> list[Spun]:
    """Return pieces as entries; runs of rows as planned are one, cut where they were cut before."""
    ends, followed = {one.through for one in own}, set(zip([None, *before], before, strict=False))
    entries, rows = list[Spun](), _Rows()
    for pair in zip([None, *pieces], pieces, strict=False):
        piece, stays = pair[1], pair in followed
        if (stays and piece in own) or not (_is_as_planned(piece) and rows.goes_on_with(piece)):
            entries.append(piece)
        elif entries and _goes_on(entries[-1], piece) and not (stays and rows.reached in ends):
            entries[-1] = replace(entries[-1], through=piece.row)
        else:
            entries.append(replace(piece, row=None, through=piece.row))
        rows.add(piece)
    return entries


class _Rows:
    """Rows that are named so far, and up to where none is missing."""

    def __init__(self) -> None:
        self.reached, self._named = 0, set[int]()

    def goes_on_with(self, piece: Spun) -> bool:
        """Return whether a piece is the next row, all before it named and none after it."""
        return piece.row == self.reached + 1 == len(self._named) + 1

    def add(self, piece: Spun) -> None:
        """Name one more."""
        if piece.row is not None:
            self._named.add(piece.row)
        while self.reached + 1 in self._named:
            self.reached += 1


def _is_as_planned(piece: Spun) -> bool:
    plain = {key: getattr(piece, key) for key in _PLAIN}
    return piece == Spun(piece.ply, piece.row, **plain)


def _goes_on(entry: Spun, piece: Spun) -> bool:
    same = all(getattr(entry, key) == getattr(piece, key) for key in _PLAIN)
    return same and entry.through is not None and entry.through + 1 == piece.row


def _in_their_places(spun: tuple[Spun, ...], ply: int, entries: list[Spun]) -> tuple[Spun, ...]:
    """Return all entries, a ply's own in the places where it had some, more of them at the end."""
    left = iter(entries)
    placed = [next(left, None) if one.ply == ply else one for one in spun]
    return (*(one for one in placed if one is not None), *left)
