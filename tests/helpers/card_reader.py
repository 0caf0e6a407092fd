"""The card, read as a spinner reads it: its pages, rows, stops and tables."""

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

import pytest

import yarncolor as yc
from tests.helpers.strategies import EVERY_SCHEME, bare_scheme, by_hand
from yarncolor.answers.answer import Answer
from yarncolor.report.card.card import card_html

NOT_SAID = re.compile(
    r"\b[Tt]ex\b|ΔE|CIEDE|[Ss]tretch|[Cc]ontraction|\b[Dd]ivisions?\b|[Ll]inear density"
    r"|[Gg]r[ea]y.?scale|[Gg]amut|[Ll]ightness|None|\bnan\b|[Uu]ndefined"
)


INLINE = {"b", "bdi", "span", "small"}


VOID = {"meta", "col", "link", "img", "br", "input", "hr"}


THREE = {"Kelp": 24.0, "Foam": 24.0, "Wrack": 24.0}


PLANS = {
    "free": {
        "scheme": {
            "name": "free",
            "portions": [
                {"ply": 1, "lot": "Kelp", "mass_g": 6.0},
                {"ply": 1, "lot": "Foam", "mass_g": 3.0},
                {"ply": 2, "lot": "Wrack", "mass_g": 9.0},
            ],
        }
    },
    "stripes": {
        "scheme": {
            "name": "stripes",
            "stripes": [
                {"rows": 8, "lot": "Kelp"},
                {"rows": 12, "lots": ["Foam", "Foam", "Wrack"]},
                {"rows": 2, "lot": "Kelp"},
            ],
        },
        "fabric": {"stitches": 120, "gauge_stitches": 20},
    },
    **{
        name: {"scheme": bare_scheme(name, [*THREE])}
        for name in EVERY_SCHEME
        if name not in ("free", "stripes")
    },
}


every_scheme = pytest.mark.parametrize("tables", PLANS.values(), ids=PLANS)


@dataclass
class Node:
    """An element of a page: its tag, what is said about it, and what is in it."""

    tag: str
    about: dict[str, str | None]
    inside: list = field(default_factory=list)

    @property
    def text(self) -> str:
        """All text in it, spaces as a reader sees them."""
        return re.sub(r"\s+", " ", self._told()).strip()

    def _told(self) -> str:
        told = "".join(item if isinstance(item, str) else item._told() for item in self.inside)
        return told if self.tag in INLINE else f" {told} "

    def all(self, tag: str = "", kind: str = "") -> list["Node"]:
        """Return the elements of a tag and a class inside it, in order."""
        found = []
        for item in self.inside:
            if isinstance(item, Node):
                kinds = (item.about.get("class") or "").split()
                if tag in ("", item.tag) and (not kind or kind in kinds):
                    found.append(item)
                found += item.all(tag, kind)
        return found

    def cells(self) -> list[str]:
        """Return the texts of a row."""
        return [item.text for item in self.inside if isinstance(item, Node)]


class Page(HTMLParser):
    """A page as a browser reads it; tags that are not closed, or not open, are a fault."""

    def __init__(self, html: bytes) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Node("", {})
        self._open = [self.root]
        self.feed(html.decode())
        self.close()
        assert self._open == [self.root]

    def handle_starttag(self, tag: str, attrs: list) -> None:
        node = Node(tag, dict(attrs))
        self._open[-1].inside.append(node)
        if tag not in VOID:
            self._open.append(node)

    def handle_startendtag(self, tag: str, attrs: list) -> None:
        self._open[-1].inside.append(Node(tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop().tag == tag

    def handle_data(self, data: str) -> None:
        self._open[-1].inside.append(data)


def answered(data: dict) -> Answer:
    return yc.answer(yc.plan_from_data(data))


def card(data: dict) -> Node:
    """Return the long card of a plan."""
    return Page(card_html(answered(data), "long")).root


def short_card(data: dict) -> Node:
    """Return the short card of a plan."""
    return Page(card_html(answered(data), "short")).root


def words(page: Node) -> str:
    """Return what is read on a card: all of its body."""
    (body,) = page.all("body")
    return body.text


def bobbin(page: Node, number: int) -> Node:
    return page.all("section", "bobbin")[number - 1]


def lines(section: Node) -> list[str]:
    """Return a bobbin's list line after line: headings, lots with what is meant, notes, stops."""
    told = []
    for row in section.all("table", "portions")[0].all("tr"):
        kind = row.about.get("class")
        if kind == "portion":
            lot, meant = row.all("bdi", "name")[0].text, row.all("div", "meant")
            told.append(f"{lot}: {meant[0].text}" if meant else lot)
        elif kind is not None:
            told.append(row.text)
    return told


def closing_on_kelp(closing: str, divisions: list, **scheme: object) -> dict:
    sequence = ["Kelp", "Foam", "Wrack", "Kelp"]
    options = {"name": "fractal", "divisions": divisions, "sequence": sequence}
    return by_hand(
        {"Kelp": 48.0, "Foam": 24.0, "Wrack": 24.0}, scheme=options | scheme | {"closing": closing}
    )


# --- the yarn as a body ----------------------------------------------------------------------

TWISTS = {"spinning": {"twist_tpi": 7.6}, "plying": {"twist_tpi": 4.8}}


def tag(plies: list[str]) -> str:
    """Return what is written on a tag: the lot of each ply, or the one of all."""
    return plies[0] if len(set(plies)) == 1 else " + ".join(plies)
