"""Tables of a page, as a reader of its HTML meets them: text of each cell, and what it answers."""

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser


@dataclass
class ReadCell:
    """A cell: what is seen of it, what it tells when it is opened, and the name of that."""

    seen: str = ""
    told: str = ""
    name: str = ""


@dataclass
class ReadTable:
    """A table: its head, and its rows."""

    head: list[ReadCell] = field(default_factory=list)
    rows: list[list[ReadCell]] = field(default_factory=list)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tables: list[ReadTable] = []
        self._cell: ReadCell | None = None
        self._tells, self._depth = False, 0

    def handle_starttag(self, tag, attrs):
        if tag == "table":
            self.tables.append(ReadTable())
        elif tag == "tr":
            self.tables[-1].rows.append([])
        elif tag in ("td", "th"):
            self._cell = ReadCell()
        elif tag == "summary" and self._cell:
            self._cell.name = dict(attrs)["aria-label"]
        elif tag == "div" and self._cell:
            self._depth += 1

    def handle_endtag(self, tag):
        if tag in ("td", "th") and self._cell:
            own = self.tables[-1]
            (own.head if tag == "th" else own.rows[-1]).append(self._cell)
            self._cell = None
        elif tag == "div" and self._cell:
            self._depth -= 1
            self._cell.told += "\n"

    def handle_data(self, data):
        if self._cell and self._depth:
            self._cell.told += data
        elif self._cell:
            self._cell.seen += data


NAMES_IN = {"lot", "beside", "batt", "colours side by side"}
"""Columns of names, which may have digits in them."""


def figures_in(html: str) -> list[tuple[str, list[ReadCell]]]:
    """Return each cell that shows a number, with what answers for it: itself, its row, its head."""
    return [
        (
            f"{row[0].seen}, {head.seen}: {cell.seen}",
            [one for one in (cell, row[0], head) if one.told],
        )
        for table in tables_in(html)
        for row in table.rows
        for head, cell in zip(table.head[1:], row[1:], strict=True)
        if re.search(r"\d", cell.seen) and head.seen not in NAMES_IN
    ]


def tables_in(html: str) -> list[ReadTable]:
    """Return the tables of a piece of HTML, without the rows of their heads."""
    reader = _Reader()
    reader.feed(html)
    for table in reader.tables:
        table.rows = [row for row in table.rows if row]
    return reader.tables
