"""What is said on a page, and which of its numbers answer why: as a reader of its HTML meets it."""

import re
from collections.abc import Iterable
from html.parser import HTMLParser

from yarncolor.report.why.seen import Seen

_NUMBER = re.compile(r"\d[\d.,]*")


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.said, self.headings, self.told, self.names = "", "", "", []
        self._tables, self._told, self._bold, self._asked = 0, 0, 0, 0

    def handle_starttag(self, tag, attrs):
        self._tables += tag == "table"
        if self._tables:
            return
        self._told += tag == "details"
        self._bold += tag == "b" and self._told > 0
        self._asked += tag == "summary" and self._told > 0
        if tag == "summary" and self._told:
            self.names.append(dict(attrs)["aria-label"])

    def handle_endtag(self, tag):
        if tag == "table":
            self._tables -= 1
        elif not self._tables and self._told:
            self._told -= tag == "details"
            self._bold -= tag == "b"
            self._asked -= tag == "summary"

    def handle_data(self, data):
        if self._tables or self._asked:
            return
        if self._bold:
            self.headings += f"{data}\n"
        elif self._told:
            self.told += f"{data}\n"
        else:
            self.said += f"{data}\n"


def read(html: str) -> _Reader:
    """Return what a piece of HTML says outside its tables, and what it tells when it is asked."""
    reader = _Reader()
    reader.feed(html)
    return reader


def headings(seen: Iterable[Seen]) -> str:
    """Return the words of figures as they stand above their lines."""
    return "\n".join(one.words for one in seen)


def unanswered(html: str, names: Iterable[str] = ()) -> list[str]:
    """Return the numbers of sentences that nothing beside them answers; those in names aside."""
    found = read(html)
    return numbers_without(found.said, found.headings, names)


def numbers_without(said: str, headings: str, names: Iterable[str] = ()) -> list[str]:
    """Return the numbers of a text that no heading has; those in names and of plies aside."""
    for name in sorted(names, key=len, reverse=True):
        said = said.replace(name, "")
    said = said.replace("CIEDE2000", "")
    said = re.sub(r"(?i)\bpl(?:y|ies) \d+(?:(?:, | and )(?:ply )?\d+\b(?! in))*", "", said)
    known = {number.rstrip(".,") for number in _NUMBER.findall(headings)}
    each = (number.rstrip(".,") for number in _NUMBER.findall(said))
    return [number for number in each if number not in known]
