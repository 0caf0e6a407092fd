"""The text that a phone takes home: its tables, and whether it came through whole.

Tables stand as in a plan file between two lines that name the plan and close it. Each is summed
up in its own head, all of them in the last line (CRC-32).
"""

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from zlib import crc32

from yarncolor.errors import Fault, PlanError, quoted
from yarncolor.planfile.toml_text import BYTE_ORDER_MARK

AGAIN = "take it home again: copy all of it, or save it as a file"
_CHANGED = f"was changed on the way; {AGAIN}, or write it into the plan file by hand"
_FIRST = re.compile(r'# Taken home from the wheel: (".*")')
_COUNTS = re.compile(r"# tables: (\d+), rows: (\w+), known: ([\w. ]+)")
_HEAD = re.compile(r"(\[\[spun\]\]|\[plied\]) # (\d+) of (\d+), (\w{8})")
_END = re.compile(r"# The end, tables: (\d+), sum: (\w{8})")
Lines = list[tuple[int, str]]
"""Lines with their numbers, from 1."""


@dataclass(frozen=True)
class TakenTable:
    """One table of the text.

    Parameters
    ----------
    name : str
        spun or plied.
    number : int
        The how-manieth it is by its own head, from 1.
    is_whole : bool
        Whether it is as the phone wrote it.
    lines : list of tuple of int and str
        Its lines with their numbers, its head first.
    """

    name: str
    number: int
    is_whole: bool
    lines: Lines

    @property
    def text(self) -> str:
        """The table as TOML."""
        return "\n".join(line for _, line in self.lines)

    def line_of(self, key: str) -> int:
        """Return the number of the line in which a key stands; that of the head without one."""
        of_key = (number for number, line in self.lines if re.match(rf"{re.escape(key)}\s*=", line))
        return next(of_key, self.lines[0][0])


@dataclass(frozen=True)
class TakenText:
    """What a phone took home, as it stands in the text.

    Parameters
    ----------
    title : str
        Of the plan.
    title_line : int
        Where it stands; counts and marks stand in the line after it.
    rows_mark : str
        Mark of the rows that were ticked.
    known : frozenset of str
        Marks of the plan file's entries that the phone has seen.
    tables : tuple of TakenTable
        In the order of the text.
    """

    title: str
    title_line: int
    rows_mark: str
    known: frozenset[str]
    tables: tuple[TakenTable, ...]


def taken_text(text: str, file: str) -> tuple[TakenText, list[Fault]]:
    """Return what stands in a text, and what was cut off or changed on its way.

    Line ends, blanks at their ends, and what stands before and after do not matter: mail adds it.

    Parameters
    ----------
    text : str
        As the phone gave it.
    file : str
        How faults name it.

    Raises
    ------
    PlanError
        Where its beginning is missing, so that nothing can be said of the rest.
    """
    plain = text.removeprefix(BYTE_ORDER_MARK).replace("\r\n", "\n").replace("\r", "\n")
    lines = [line.rstrip() for line in plain.split("\n")]
    numbered = list(enumerate(lines, 1))
    start = next((at for at, line in enumerate(lines) if _FIRST.fullmatch(line)), None)
    counts = None if start is None else _COUNTS.fullmatch("".join(lines[start + 1 : start + 2]))
    if start is None or counts is None:
        remedy = "does not begin as what a phone takes home, # Taken home from the wheel; "
        raise PlanError([Fault(file, "", "", remedy + AGAIN)])
    end = next((at for at, line in enumerate(lines) if at > start and _END.fullmatch(line)), None)
    inside = numbered[start : len(lines) if end is None else end]
    taken = TakenText(
        title=_title(lines[start]),
        title_line=start + 1,
        rows_mark=counts[2],
        known=frozenset(counts[3].split()),
        tables=tuple(_tables(inside)),
    )
    closing = None if end is None else _END.fullmatch(lines[end])
    return taken, list(_faults(file, taken, int(counts[1]), inside, closing))


def _title(line: str) -> str:
    first = _FIRST.fullmatch(line)
    try:
        return str(json.loads(first[1] if first else '""'))
    except ValueError:
        return ""


def _tables(lines: Lines) -> Iterator[TakenTable]:
    heads = [at for at, (_, line) in enumerate(lines) if _HEAD.fullmatch(line)]
    for start, end in pairwise([*heads, len(lines)]):
        own = [(number, line) for number, line in lines[start:end] if line]
        head = _HEAD.fullmatch(own[0][1])
        if head is not None:
            told = "\n".join([head[1], *(line for _, line in own[1:])])
            is_whole = f"{crc32(told.encode()):08x}" == head[4]
            yield TakenTable(head[1].strip("[]"), int(head[2]), is_whole, own)


def _faults(
    file: str, taken: TakenText, count: int, inside: Lines, end: re.Match[str] | None
) -> Iterator[Fault]:
    changed = [table for table in taken.tables if not table.is_whole]
    cut = changed[-1:] if end is None and changed and changed[-1] is taken.tables[-1] else []
    for table in changed:
        if table not in cut:
            number = table.lines[0][0]
            yield Fault(f"{file}, line {number}", f"table {table.number}", "", _CHANGED)
    whole = {table.number for table in taken.tables if table not in cut}
    lost = sorted(set(range(1, count + 1)) - whole)
    if end is None:
        told = f"is cut off: {count} tables were taken home and {len(whole)} came through"
        yield Fault(file, "", "", f"{told}; {AGAIN}")
    elif lost:
        for number in lost:
            yield Fault(file, f"table {number}", "", f"is missing; {AGAIN}")
    elif not changed and (int(end[1]), end[2]) != (count, _sum_of(inside)):
        place = f"{file}, line {taken.title_line}"
        yield Fault(place, "", quoted(inside[0][1]), f"this or a line between tables {_CHANGED}")


def _sum_of(inside: Lines) -> str:
    text = "\n".join(line for _, line in inside).rstrip("\n")
    return f"{crc32(text.encode()):08x}"
