"""The card, read as a spinner reads it: page after page, row after row."""

import re
from collections import Counter
from dataclasses import dataclass, field
from html.parser import HTMLParser

import numpy as np
import pytest
from hypothesis import given

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.strategies import CLOSINGS, EVERY_SCHEME, by_hand, plan_data
from yarncolor.answers.answer import Answer
from yarncolor.report.card.card import card_html
from yarncolor.report.card.points import most_telling
from yarncolor.report.card.stash import plies_in_words

HOSTILE = "<script>alert(1)</script>&\"'"
RIGHT_TO_LEFT = "ירוק ים עמוק"
LONGEST = "W" * 60
AWKWARD = (HOSTILE, RIGHT_TO_LEFT, LONGEST, "{{ 7 * 7 }}", "$\\frac$ \u202eabc")
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
    **{name: {"scheme": {"name": name}} for name in EVERY_SCHEME if name != "free"},
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
    return Page(card_html(answered(data))).root


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


def weighed(text: str) -> float:
    return float(text.removesuffix(" g"))


# --- the list of each bobbin -----------------------------------------------------------------


def expected_rows(single: dict, decimals: int) -> list[list[str]]:
    """Return number, lot, weight and running total of every portion, from ``plan.json``."""
    rows, running = [], 0.0
    for number, portion in enumerate(single["portions"], 1):
        weigh = portion["weigh_g"]
        running += weigh or 0.0
        shown = [f"{mass:.{decimals}f} g" for mass in (weigh or 0.0, running)]
        rows.append([str(number), portion["lot"], *(["heap", ""] if weigh is None else shown)])
    return rows


def rows_on(section: Node) -> list[list[str]]:
    return [
        [cells[1], cells[2], cells[3], cells[5]]
        for cells in (row.cells() for row in section.all("tr", "portion"))
    ]


@pytest.mark.parametrize("name", EVERY_SCHEME)
def test_every_row_of_the_weigh_out_is_on_the_card_once(name):
    @times(1 / 2)
    @given(plan_data(name))
    def holds(data):
        found, page = answered(data), card(data)
        decimals = {0.01: 2, 0.1: 1, 0.5: 1, 1.0: 0, 5.0: 0}[found.resolved.step_g]
        singles = yc.to_dict(found)["singles"]
        assert len(page.all("section", "bobbin")) == len(singles)
        for single, section in zip(singles, page.all("section", "bobbin"), strict=True):
            assert rows_on(section) == expected_rows(single, decimals)
        assert not NOT_SAID.search(words(page))

    holds()


@every_scheme
def test_words_for_hands_stand_beside_what_is_weighed(tables):
    data = by_hand(THREE, **tables)
    for single, section in zip(
        yc.to_dict(answered(data))["singles"], card(data).all("section", "bobbin"), strict=True
    ):
        told = [row.all("td", "words")[0].inside[0] for row in section.all("tr", "portion")]
        assert told == [portion["words"] for portion in single["portions"]]


@every_scheme
def test_the_totals_of_stash_bobbins_and_stops_agree(tables):
    data = by_hand(THREE, **tables) | {"spinning": {"spin_loss": 0.25}}
    page, found = card(data), yc.to_dict(answered(data))
    on_bobbins = []
    for single, section in zip(found["singles"], page.all("section", "bobbin"), strict=True):
        all_in = sum(portion["weigh_g"] for portion in single["portions"])
        assert f"{all_in:.1f} g to spin" in section.text
        assert section.all("tr", "portion")[-1].cells()[5] == f"{all_in:.1f} g"
        last = section.all("tr", "stop")[-1].text
        assert last == f"All spun: weigh: {all_in * 0.75:.1f} g plus your empty bobbin found g"
        on_bobbins.append(all_in)
    to_card = [row.cells()[2] for row in page.all("tr", "lot-row")]
    shown = {lot["name"]: f"{lot['to_card_g']:.1f} g" for lot in found["lots"]}
    used = {lot["name"]: lot["used_g"] for lot in found["lots"]}
    assert to_card == [shown[name] if used[name] else "none" for name in used]
    (total,) = page.all("tr", "total")
    assert weighed(total.cells()[2]) == sum(weighed(text) for text in to_card if text != "none")
    in_portions = total.cells()[-1].removesuffix(" in portions") or total.cells()[2]
    assert weighed(in_portions) == pytest.approx(sum(on_bobbins), abs=0.051)


def test_a_stop_and_weigh_point_stands_after_each_time_through():
    data = by_hand(THREE, scheme={"name": "fractal", "divisions": [1, 4]}, plying={"wound_off": 1})
    page = card(data)
    stops = [[row.text for row in bobbin(page, k).all("tr", "stop")] for k in (1, 2)]
    tail = "plus your empty bobbin found g"
    assert stops[0] == [f"All spun: weigh: 36.0 g {tail}"]
    assert stops[1] == [
        *(f"Stop and weigh: {mass} g {tail}" for mass in ("9.0", "18.0", "27.0")),
        f"All spun: weigh: 36.0 g {tail}",
    ]
    assert [row.text for row in bobbin(page, 2).all("tr", "time")] == [
        f"time {number} of 4" for number in (1, 2, 3, 4)
    ]


def test_what_is_on_the_bobbin_is_less_what_is_lost_in_spinning():
    page = card(by_hand({"Kelp": 20.0}, scheme={"plies": 1}, spinning={"spin_loss": 0.1}))
    assert "All spun: weigh: 18.0 g plus your empty bobbin" in bobbin(page, 1).text
    assert "Where it says stop and weigh, 10% is taken off for loss in spinning." in words(page)


@pytest.mark.parametrize(
    ("step_g", "shown"), [(0.01, "8.00 g"), (0.1, "8.0 g"), (0.5, "8.0 g"), (1.0, "8 g")]
)
def test_masses_have_the_decimals_of_the_scale(step_g, shown):
    page = card(by_hand(THREE, scale={"step_g": step_g}))
    assert {row.cells()[3] for row in page.all("tr", "portion")} == {shown}


# --- heaps -----------------------------------------------------------------------------------


def test_a_heap_is_weighed_once_and_its_pieces_are_named():
    data = by_hand({"Kelp": 16.0, "Foam": 8.0}, scale={"step_g": 1.0})
    section = bobbin(card(data | {"scheme": {"name": "fractal", "divisions": [1, 8]}}), 2)
    heaps = [row.cells()[1:] for row in section.all("tr", "heap")]
    assert heaps == [
        ["Kelp", "8 g", "divide by hand into 8 equal pieces"],
        ["Foam", "4 g", "divide by hand into 8 equal pieces"],
    ]
    assert {tuple(row.cells()[3:6]) for row in section.all("tr", "portion")} == {
        ("heap", "1 of 8 pieces", "")
    }
    stops = [row.text.split(" plus")[0] for row in section.all("tr", "stop")]
    assert stops[1] == "Stop and weigh: 3 g"
    assert stops[-1] == "All spun: weigh: 12 g"


def test_pieces_of_a_heap_that_are_not_alike_are_told_by_their_share():
    sizes = {"name": "fractal", "divisions": [[2, 1]]}
    section = bobbin(card(by_hand({"Kelp": 12.0}, scheme=sizes, scale={"step_g": 5.0})), 1)
    (heap,) = section.all("tr", "heap")
    assert heap.cells()[1:] == ["Kelp", "10 g", "divide by hand into 2 pieces, larger and smaller"]
    assert [row.cells()[3:5] for row in section.all("tr", "portion")] == [
        ["heap", "about 67% of it"],
        ["heap", "about 33% of it again Kelp: meant"],
    ]
    assert "Stop and weigh: 7 g" in section.text


def test_a_heap_that_the_scale_cannot_show_is_a_pinch():
    section = bobbin(card(by_hand({"Kelp": 40.0, "Foam": 4.0}, scale={"step_g": 5.0})), 1)
    (heap,) = section.all("tr", "heap")
    assert heap.cells()[1:] == ["Foam", "", "a pinch"]
    assert [row.cells()[1:6] for row in section.all("tr", "portion")][1] == [
        *("2", "Foam", "heap", "all of it", "")
    ]


# --- where the sequence closes ---------------------------------------------------------------

STOP = "Stop and weigh: {} g plus your empty bobbin found g"
DONE = "All spun: weigh: {} g plus your empty bobbin found g"
ASIDE = "Kelp closes the sequence here: leave it out and lay it aside for the very end."
AT_ONCE = "Kelp closes the sequence here: leave it out, it was spun at the beginning."
NOT_SPUN = "Kelp stands here in the sequence too: leave it out, it is not spun."
TWICE = "Kelp would stand here twice: spin it once, it closes {} time only."
CLOSED = {
    "keep": [
        *("time 1 of 2", "Kelp", "Foam", "Wrack", "Kelp", STOP.format("24.0")),
        *("time 2 of 2", "Kelp: again Kelp: meant", "Foam", "Wrack", "Kelp", DONE.format("48.0")),
    ],
    "tail": [
        *("time 1 of 2", "Kelp", "Foam", "Wrack", ASIDE, STOP.format("18.0")),
        *("time 2 of 2", "Kelp", "Foam", "Wrack", STOP.format("36.0")),
        "close once, at the very end",
        "Kelp: close once: all that was laid aside, in one piece",
        DONE.format("48.0"),
    ],
    "share": [
        *("time 1 of 2", "Kelp: one of 3 equal pieces", "Foam", "Wrack"),
        *(TWICE.format("after the last"), STOP.format("20.0")),
        *("time 2 of 2", "Kelp: one of 3 equal pieces", "Foam", "Wrack"),
        *("Kelp: one of 3 equal pieces", DONE.format("48.0")),
    ],
    "halve": [
        *("time 1 of 2", "Kelp: half a piece", "Foam", "Wrack", "Kelp: half a piece"),
        *(STOP.format("18.0"), "time 2 of 2", "Kelp: half a piece; again Kelp: meant"),
        *("Foam", "Wrack", "Kelp: half a piece", DONE.format("36.0")),
    ],
    "drop": [
        *("time 1 of 2", "Kelp", "Foam", "Wrack", NOT_SPUN, STOP.format("18.0")),
        *("time 2 of 2", "Kelp", "Foam", "Wrack", NOT_SPUN, DONE.format("36.0")),
    ],
}


@pytest.mark.parametrize("closing", CLOSINGS)
def test_where_the_sequence_closes_each_row_says_what_is_meant(closing):
    page = card(closing_on_kelp(closing, [1, 2]))
    assert lines(bobbin(page, 2)) == CLOSED[closing]


CLOSED_IN_REVERSE = {
    "tail": [
        "close once, at the beginning",
        "Kelp: close once: all closing pieces, in one",
        STOP.format("12.0"),
        *("time 1 of 2", "Wrack", "Foam", "Kelp", AT_ONCE, STOP.format("30.0")),
        *("time 2 of 2", "Wrack", "Foam", "Kelp", DONE.format("48.0")),
    ],
    "share": [
        *("time 1 of 2", "Kelp: one of 3 equal pieces", "Wrack", "Foam"),
        *("Kelp: one of 3 equal pieces", TWICE.format("before the first"), STOP.format("28.0")),
        *("time 2 of 2", "Wrack", "Foam", "Kelp: one of 3 equal pieces", DONE.format("48.0")),
    ],
    "drop": [
        *("time 1 of 2", NOT_SPUN, "Wrack", "Foam", "Kelp", STOP.format("18.0")),
        *("time 2 of 2", NOT_SPUN, "Wrack", "Foam", "Kelp", DONE.format("36.0")),
    ],
}


@pytest.mark.parametrize("closing", CLOSED_IN_REVERSE)
def test_a_ply_in_reverse_order_closes_at_its_beginning(closing):
    page = card(closing_on_kelp(closing, [1, 2], reversed_plies=[2]))
    assert bobbin(page, 2).all("h2")[0].text == "Bobbin 2 of 2 twice through, in reverse order"
    assert lines(bobbin(page, 2)) == CLOSED_IN_REVERSE[closing]


def test_a_sequence_that_does_not_close_says_nothing_of_it():
    text = words(card(by_hand(THREE, scheme={"name": "fractal"})))
    assert "closes" not in text.replace("where the sequence closes", "")
    assert "meant" not in text


def test_there_and_back_turns_on_one_colour_and_that_is_meant():
    assert lines(bobbin(card(by_hand(THREE, scheme={"name": "mirrored", "plies": 2})), 1)) == [
        *("there", "Kelp", "Foam", "Wrack", STOP.format("18.0")),
        *("and back again", "Wrack: again Wrack: meant, here the colours turn back"),
        *("Foam", "Kelp", DONE.format("36.0")),
    ]


@pytest.mark.parametrize(
    ("scheme", "said"),
    [
        ({"name": "matched", "plies": 2}, ["once through"] * 2),
        ({"name": "flipped", "plies": 2}, ["once through", "once through, in reverse order"]),
        ({"name": "solid", "plies": 2}, ["one lot alone", "once through"]),
        ({"name": "shuffled", "plies": 2}, ["in the order drawn"] * 2),
        ({"name": "chain"}, ["once through"]),
        ({"name": "fractal", "divisions": [2, 5]}, ["twice through", "5 times through"]),
        ({"name": "fractal", "divisions": [[2, 1]]}, ["2 times through, sizes 2 : 1"]),
        (PLANS["free"]["scheme"], ["", ""]),
    ],
)
def test_how_many_times_through(scheme, said):
    page = card(by_hand(THREE, scheme=scheme))
    assert [s.all("h2")[0].all("small")[0].text for s in page.all("section", "bobbin")] == said
    assert not page.all("tr", "time") or scheme["name"] == "fractal"


# --- which end comes off first ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("wound_off", "said", "first", "off"),
    [
        (0, "Straight from the bobbin: Wrack, spun last, comes off first (arrow).", False, "no"),
        (1, "Wound off once: Kelp, spun first, comes off first (arrow).", True, "once"),
        (2, "Wound off twice: Wrack, spun last, comes off first (arrow).", False, "twice"),
        (3, "Wound off 3 times: Kelp, spun first, comes off first (arrow).", True, "3 times"),
    ],
)
def test_the_end_that_comes_off_first_is_said_and_pointed_at(wound_off, said, first, off):
    page = card(by_hand(THREE, plying={"wound_off": wound_off}))
    section = bobbin(page, 2)
    assert said in section.text
    assert "first colour on Kelp" in section.text
    assert "last colour on Wrack" in section.text
    drawn = [node.about["class"] for node in section.all("div", "ends")[0].all("svg")]
    assert drawn == (["arrow", "bar"] if first else ["bar", "arrow"])
    ends = ["Kelp", "Wrack"] if first else ["Wrack", "Kelp"]
    (order,) = page.all("table", "order")
    assert [row.cells()[1:] for row in order.all("tr")[1:]] == [
        [str(ply), *ends, off] for ply in (1, 2, 3)
    ]


def test_a_bobbin_is_drawn_in_spinning_order_and_to_scale():
    masses = {"Kelp": 30.0, "Foam": 60.0, "Wrack": 10.0}
    (bar,) = bobbin(card(by_hand(masses, scheme={"plies": 2})), 1).all("svg", "bar")
    drawn = [(rect.about["fill"], float(rect.about["width"])) for rect in bar.all("rect")]
    assert drawn == [("#56612d", 300), ("#dcdad0", 600), ("#3b2f2a", 100)]


def test_twist_is_left_to_tick():
    page = card(by_hand(THREE))
    assert "Spun, all alike: clockwise (Z) anticlockwise (S)" in bobbin(page, 1).text
    assert "Empty bobbin g" in bobbin(page, 1).text
    (plying,) = page.all("section", "plying")
    assert "Plied, the other way from the singles: anticlockwise (S) clockwise (Z)" in plying.text


# --- the stash -------------------------------------------------------------------------------


def stash_of(data: dict) -> list[list[str]]:
    return [row.cells()[1:] for row in card(data).all("tr", "lot-row")]


def test_rolags_are_a_multiple_of_the_plies():
    lot = {"name": "Kelp", "colour": "#56612d", "rolags": 18, "rolag_g": 3.0}
    data = {"lots": [lot], "scheme": {"name": "fractal", "divisions": [1, 3, 6]}}
    then = "then ply 1: whole; ply 2: 3 equal pieces; ply 3: 6 equal pieces"
    assert stash_of(data) == [["Kelp", "54.0 g", "–", f"18 rolags: 6 for each ply {then}"]]


def test_rolags_that_hands_cannot_divide_say_how_many_are_needed():
    lot = {"name": "Kelp", "colour": "#56612d", "rolags": 7, "rolag_g": 3.0}
    ((_, _, _, how),) = stash_of({"lots": [lot], "scheme": {"plies": 5}})
    weigh = "4.2 g for each ply"
    assert how == f"7 rolags: {weigh} 5 rolags would divide by hand"


def test_what_is_kept_back_lost_and_left_over_is_told_apart():
    lots = [{"name": "Kelp", "colour": "#56612d", "mass_g": 30.0, "reserve_g": 2.0}]
    data = {"lots": lots, "spinning": {"card_loss": 0.1}, "scheme": {"plies": 2}}
    quarter = "¼ of what is left for each ply"
    assert stash_of(data | {"target": {"yarn_g": 12.6}}) == [
        ["Kelp", "28.0 g", "2.0 g", f"{quarter} after carding 25.2 g; 12.6 g stay over"]
    ]
    assert "What is lost in carding, 10%, is taken off." in words(card(data))


def test_plies_that_get_the_same_are_named_together():
    data = by_hand({"Kelp": 40.0}, scheme={"plies": 3}, spinning={"single_tex": [100, 200, 100]})
    assert stash_of(data)[0][3] == "¼ of the lot for plies 1 and 3; ½ of the lot for ply 2"


def test_a_lot_that_is_not_used_is_not_carded():
    assert stash_of(by_hand(THREE, scheme={"sequence": ["Kelp", "Foam"]}))[2] == [
        *("Wrack", "none", "–", "not used in this plan")
    ]


def test_a_blend_says_what_it_is_carded_from_and_its_lots_what_goes_into_it():
    data = by_hand({"Kelp": 24.0, "Foam": 24.0}, scheme={"plies": 2})
    data["lots"].append({"name": "Wrack", "blend": {"Kelp": 2, "Foam": 1}, "mass_g": 18.0})
    rest, half = "½ of what is left for each ply", "½ of the lot for each ply"
    assert stash_of(data) == [
        ["Kelp", "12.0 g", "–", f"12.0 g into blends {rest}"],
        ["Foam", "18.0 g", "–", f"6.0 g into blends {rest}"],
        ["Wrack", "18.0 g", "–", f"carded from 12.0 g of Kelp and 6.0 g of Foam {half}"],
    ]
    data["scheme"]["sequence"] = ["Wrack"]
    assert stash_of(data)[0] == ["Kelp", "none", "–", "12.0 g into blends not spun by itself"]


def test_a_carded_step_of_a_gradient_stands_in_the_stash():
    data = by_hand({"Kelp": 24.0, "Foam": 24.0})
    *_, step = stash_of(data | {"scheme": {"name": "gradient", "plies": 2, "blend_steps": 1}})
    assert step[1:] == [
        *("12.0 g", "–"),
        "carded from 6.0 g of Kelp and 6.0 g of Foam 1 of 2 strips for each ply",
    ]


@pytest.mark.parametrize(
    ("numbers", "plies", "said"),
    [
        ([1], 1, ""),
        ([1, 2], 2, "each ply"),
        ([2], 3, "ply 2"),
        ([1, 3], 3, "plies 1 and 3"),
        ([1, 2, 4], 5, "plies 1, 2 and 4"),
    ],
)
def test_plies_in_words(numbers, plies, said):
    assert plies_in_words(numbers, plies) == said


# --- plying ----------------------------------------------------------------------------------


def points_on(page: Node) -> list[tuple]:
    """Return metre, ply, from and to of every change; the metre stands once for all of them."""
    told, metre = [], ""
    for row in page.all("tr", "change"):
        cells = row.cells()
        metre = cells[1] if len(cells) > 4 else metre
        told += [(metre, ply, *cells[-2:]) for ply in cells[-3].split(", ")]
    return told


@pytest.mark.parametrize("name", [name for name in EVERY_SCHEME if name not in ("chain", "free")])
def test_check_points_are_those_of_the_plan(name):
    data = by_hand(THREE, scheme={"name": name, "plies": 2})
    told = Counter(
        (metre, number, before, after)
        for metre, ply, before, after in points_on(card(data))
        for number in (("1", "2") if ply == "all" else (ply,))
    )
    points = yc.to_dict(answered(data))["check_points"]
    assert told == Counter(
        (f"{at['yarn_m']:.1f} m", str(at["ply"]), at["from"], at["to"]) for at in points
    )
    assert points


def test_check_points_weigh_what_is_plied_so_far():
    data = by_hand({"Kelp": 30.0, "Foam": 30.0}, plying={"contraction": 0.1})
    (row,) = card(data).all("tr", "change")
    assert row.cells() == ["", "90.0 m", "30.0 g", "all", "Foam", "Kelp"]


@pytest.mark.parametrize(
    ("wound_off", "joins"),
    [
        (0, [("30.0 m", "Wrack", "Foam"), ("70.0 m", "Foam", "Kelp")]),
        (1, [("30.0 m", "Kelp", "Foam"), ("70.0 m", "Foam", "Wrack")]),
    ],
)
def test_check_points_of_a_chain_are_its_joins_at_a_third_of_the_single(wound_off, joins):
    data = by_hand({"Kelp": 9.0, "Foam": 12.0, "Wrack": 9.0}, scheme={"name": "chain"})
    page = card(data | {"plying": {"wound_off": wound_off}})
    assert [(row.cells()[1], *row.cells()[3:]) for row in page.all("tr", "change")] == joins


def test_of_too_many_check_points_those_where_most_plies_change_are_kept():
    masses = {f"Lot {number}": 30.0 for number in range(10)}
    lots = [{"name": n, "mass_g": g, "colour": "#56612d"} for n, g in masses.items()]
    data = {"lots": lots, "scheme": {"name": "fractal", "divisions": [1, 5, 10]}}
    page, found = card(data), answered(data)
    changes = (np.diff(found.layout.stretches.lot, axis=0) != 0).sum(axis=1)
    kept = [row for row in page.all("tr", "change") if len(row.cells()) > 4]
    assert len(kept) == 60
    assert f"The 60 where most plies change; {len(changes) - 60} more are left out." in words(page)
    assert len([c for c in changes if c > 1]) <= 60
    singly = [row for row in kept if row.all("td")[0].about["rowspan"] == "1"]
    assert 60 - len(singly) == len([c for c in changes if c > 1])


def test_the_most_telling_places_are_kept_evenly():
    assert most_telling(np.array([1, 3, 1, 2, 1]), 9).tolist() == [0, 1, 2, 3, 4]
    assert most_telling(np.array([1, 3, 1, 2, 1, 1, 1]), 4).tolist() == [0, 1, 3, 6]
    assert most_telling(np.ones(101, dtype=int), 5).tolist() == [0, 25, 50, 75, 100]
    assert most_telling(np.array([], dtype=int), 60).tolist() == []


@pytest.mark.parametrize(
    ("scheme", "needed"),
    [
        ({"plies": 2}, "Bobbins needed: 3, 2 full and 1 for plying."),
        ({"plies": 4}, "Bobbins needed: 5, 4 full and 1 for plying."),
        ({"name": "chain"}, "Bobbins needed: 2, 1 full and 1 for the chain."),
    ],
)
def test_bobbins_needed(scheme, needed):
    assert needed in words(card(by_hand(THREE, scheme=scheme)))


def test_a_single_is_not_plied():
    text = words(card(by_hand(THREE, scheme={"plies": 1})))
    assert "Nothing to ply: the single is the yarn." in text
    assert "Bobbins needed" not in text
    assert "If one runs out" not in text


ALONE = "All or none: a bobbin wound off alone runs backwards against the rest."
EACH = "Wind each bobbin off as often as it says below, no more and no less: all run the same way"


@pytest.mark.parametrize(
    ("wound_off", "said", "warned"),
    [(0, ALONE, False), (1, EACH, False), ([0, 2, 0], EACH, False), ([0, 1, 0], None, True)],
)
def test_winding_off_is_for_all_or_none(wound_off, said, warned):
    data = by_hand(THREE, plying={"wound_off": wound_off})
    (plying,) = card(data).all("section", "plying")
    assert [text for text in (ALONE, EACH) if text in plying.text] == ([said] if said else [])
    told = {item.kind: item.text for item in yc.advice_on(answered(data))}
    assert [node.text for node in plying.all("p", "warning")] == (
        [told["mixed_winding"]] if warned else []
    )


def test_what_to_do_if_one_runs_out_is_three_lines_and_names_what_was_kept_back():
    data = by_hand(THREE)
    data["lots"][1]["reserve_g"] = 2.0
    (plying,) = card(data).all("section", "plying")
    assert [line.text for line in plying.all("ol")[0].all("li")] == [
        "Ply on with what is left of one single: from a plying bracelet, or as a chain ply.",
        "Or spin a small top-up of the colour that ran out, from what was kept back (Foam).",
        "Or end the yarn there, and keep the rest for mending.",
    ]
    ran_out = "Or spin a small top-up of the colour that ran out, if any of its fibre is left."
    assert ran_out in words(card(by_hand(THREE)))


# --- the yarn as a body ----------------------------------------------------------------------

TWISTS = {"spinning": {"twist_tpi": 7.6}, "plying": {"twist_tpi": 4.8}}


def test_twist_is_said_where_the_plan_says_it():
    """4.8 turns of three plies are 14.4 bumps to the inch."""
    page = card(by_hand(THREE, **TWISTS))
    own = "Spun, all alike: clockwise (Z) anticlockwise (S), 7.6 turns to the inch"
    assert own in bobbin(page, 2).text
    (plying,) = page.all("section", "plying")
    assert (
        "Plied, the other way from the singles: anticlockwise (S) clockwise (Z), 4.8 turns to the "
        "inch: count 14 bumps to the inch along one side."
    ) in plying.text


@pytest.mark.parametrize(
    ("tables", "spun", "plied"),
    [
        ({"spinning": {"direction": "Z"}}, "clockwise (Z)", "anticlockwise (S)"),
        ({"spinning": {"direction": "S"}}, "anticlockwise (S)", "clockwise (Z)"),
        ({"plying": {"direction": "Z"}}, "anticlockwise (S)", "clockwise (Z)"),
    ],
)
def test_a_direction_that_the_plan_gives_is_no_longer_left_to_tick(tables, spun, plied):
    page = card(by_hand(THREE, **tables))
    for number in (1, 2, 3):
        assert f"Spun {spun}" in bobbin(page, number).text
        assert "all alike" not in bobbin(page, number).text
    (plying,) = page.all("section", "plying")
    assert f"Plied {plied}." in plying.text


def test_each_bobbin_says_its_own_direction_and_twist():
    spinning = {"direction": ["Z", "S", "Z"], "twist_tpi": [7.0, 8.0, 9.0]}
    page = card(by_hand(THREE, spinning=spinning, plying={"direction": "S"}))
    for number, said in ((1, "clockwise (Z), 7.0"), (2, "anticlockwise (S), 8.0")):
        assert f"Spun {said} turns to the inch" in bobbin(page, number).text


def test_stops_weigh_with_the_bobbin_where_that_is_known():
    data = by_hand(
        THREE,
        scheme={"name": "fractal", "divisions": [1, 4]},
        spinning={"spin_loss": 0.1},
        bobbins={"tare_g": [61.0, 60.5]},
    )
    section = bobbin(card(data), 2)
    assert "Empty bobbin 60.5 g" in section.text
    assert [row.text for row in section.all("tr", "stop")] == [
        "Stop and weigh: 8.1 g, with the bobbin 68.6 g found g",
        "Stop and weigh: 16.2 g, with the bobbin 76.7 g found g",
        "Stop and weigh: 24.3 g, with the bobbin 84.8 g found g",
        "All spun: weigh: 32.4 g, with the bobbin 92.9 g found g",
    ]


@pytest.mark.parametrize(("step_g", "gross"), [(0.01, "98.00"), (0.1, "98.0"), (1.0, "98")])
def test_a_weight_with_the_bobbin_has_the_decimals_of_the_scale(step_g, gross):
    data = by_hand(THREE, scheme={"plies": 2}, scale={"step_g": step_g}, bobbins={"tare_g": 62.0})
    assert f", with the bobbin {gross} g found" in bobbin(card(data), 1).text


def test_net_and_empty_bobbin_add_up_to_what_is_weighed():
    """A tare of finer steps than the scale keeps them."""
    data = by_hand(THREE, scheme={"plies": 2}, bobbins={"tare_g": 61.25})
    assert "All spun: weigh: 36.0 g, with the bobbin 97.25 g" in bobbin(card(data), 1).text


@pytest.mark.parametrize(
    ("spinning", "said"),
    [
        ({}, "10.0 m to the gram, about 28 wraps to the inch."),
        ({"single_tex": 400.0}, "2.5 m to the gram, about 14 wraps to the inch."),
        (
            {"treadles_per_min": 60.0, "drive_ratio": 10.0, "twist_tpm": 200.0},
            "10.0 m to the gram, about 28 wraps to the inch; draft 5.0 cm for each treadle.",
        ),
    ],
)
def test_how_thick_the_single_is_and_how_it_is_drafted(spinning, said):
    """10 turns a treadle at 200 turns a metre are 5 cm."""
    page = card(by_hand(THREE, spinning=spinning))
    assert f"Single: {said}" in bobbin(page, 3).text


def test_a_bobbin_whose_weight_is_not_known_is_left_blank():
    page = card(by_hand(THREE, scheme={"plies": 2}, bobbins={"tare_g": [61.4]}))
    assert "Empty bobbin 61.4 g" in bobbin(page, 1).text
    assert "Empty bobbin g" in bobbin(page, 2).text
    assert "All spun: weigh: 36.0 g plus your empty bobbin found g" in bobbin(page, 2).text


def test_where_a_bobbin_is_full_the_next_is_taken():
    """12 + 12 + 15 g on each of two plies: 25 g fit, full after row 2."""
    data = by_hand(
        THREE | {"Wrack": 30.0},
        scheme={"plies": 2},
        bobbins={"capacity_g": 25.0, "tare_g": [61.0, 60.5, 62.3, 63.4]},
    )
    section = bobbin(card(data), 2)
    assert lines(section) == [
        *("Kelp", "Foam"),
        "Bobbin 3 is full, 24.0 g, with the bobbin 86.3 g: take the next found g",
        "Wrack",
        "All spun: weigh: 15.0 g, with the bobbin 78.4 g found g",
    ]
    assert "empty bobbin 3: 62.3 g, 4: 63.4 g" in section.text
    assert [node.text for node in section.all("p", "warning")] == [
        "This single fills 2 bobbins, numbers 3, 4: change where the list says so. In plying, they "
        "come off in this order: 4, 3."
    ]


def test_bobbins_that_are_full_within_one_row_are_each_told():
    """50 g in three bobbins of at most 20 g: 16.7 g each."""
    data = by_hand({"Kelp": 50.0}, scheme={"plies": 1}, bobbins={"capacity_g": 20.0})
    full = "Bobbin {} is full within this row, 16.7 g plus your empty bobbin: take the next found g"
    assert lines(bobbin(card(data), 1)) == [
        *("Kelp", full.format(1), full.format(2)),
        "All spun: weigh: 16.7 g plus your empty bobbin found g",
    ]


@pytest.mark.parametrize(("wound_off", "order"), [(0, "3, 2, 1"), (1, "1, 2, 3"), (2, "3, 2, 1")])
def test_bobbins_of_one_single_come_off_as_it_is_wound(wound_off, order):
    data = by_hand(
        THREE,
        scheme={"plies": 1},
        plying={"wound_off": wound_off},
        bobbins={"capacity_g": 24.0},
    )
    assert f"they come off in this order: {order}." in bobbin(card(data), 1).text


@pytest.mark.parametrize("scheme", [{"name": "fractal", "plies": 2}, {"name": "chain"}])
@pytest.mark.parametrize("capacity", [5.0, 11.0, 30.0])
def test_every_bobbin_of_the_plan_is_full_once_on_the_card(scheme, capacity):
    """The last of each ply is spun to its end instead."""
    data = by_hand(THREE, scheme=scheme, bobbins={"capacity_g": capacity})
    page, found = card(data), yc.to_dict(answered(data))
    told = re.findall(r"Bobbin (\d+) is full", words(page))
    expected = [one["bobbin"] for one in found["bobbins"] if one["order"] < one["of"]]
    assert [int(number) for number in told] == expected
    assert words(page).count("All spun: weigh") == len(found["singles"])


def test_strands_are_spun_alike_and_weighed_each():
    page = card(by_hand(THREE, plying={"strands": [1, 2, 1]}, bobbins={"tare_g": 60.4}))
    said = (
        "2 strands lie side by side in this ply: halve or divide every portion into 2, and spin 2 "
        "bobbins alike. Weights where it says stop are those of one strand."
    )
    assert [said in bobbin(page, number).text for number in (1, 2, 3)] == [False, True, False]
    assert "36.0 g to spin" in bobbin(page, 2).text
    assert "All spun: weigh: 18.0 g, with the bobbin 78.4 g" in bobbin(page, 2).text
    assert "All spun: weigh: 18.0 g, with the bobbin 78.4 g" in bobbin(page, 1).text


@pytest.mark.parametrize(("count", "warned"), [(4, False), (3, True), (1, True)])
def test_too_few_bobbins_are_warned_of_where_the_yarn_is_plied(count, warned):
    data = by_hand(THREE, bobbins={"count": count})
    (plying,) = card(data).all("section", "plying")
    told = {item.kind: item.text for item in yc.advice_on(answered(data))}
    assert [node.text for node in plying.all("p", "warning")] == (
        [told["few_bobbins"]] if warned else []
    )


def test_singles_that_are_all_wound_off_leave_no_full_bobbin_to_count():
    (plying,) = card(by_hand(THREE, plying={"wound_off": 1})).all("section", "plying")
    assert "0 full" not in plying.text


def skeins_on(page: Node) -> list[list[str]]:
    """Return number, metre, weight and both tags of every skein."""
    return [row.cells()[1:] for table in page.all("table", "skeins") for row in table.all("tr")[1:]]


def tag(plies: list[str]) -> str:
    """Return what is written on a tag: the lot of each ply, or the one of all."""
    return f"{plies[0]} (all)" if len(set(plies)) == 1 < len(plies) else " + ".join(plies)


def test_skeins_have_their_metre_weight_and_tags():
    """Straight from the bobbins: 80 m each of Wrack, Foam, Kelp."""
    page = card(by_hand(THREE, bobbins={"plying_capacity_g": 30.0}))
    assert skeins_on(page) == [
        ["1 of 3", "80.0 m", "24.0 g", *(f"1, {end}: Wrack (all)" for end in ENDS)],
        ["2 of 3", "160.0 m", "24.0 g", *(f"2, {end}: Foam (all)" for end in ENDS)],
        ["3 of 3", "240.0 m", "24.0 g", *(f"3, {end}: Kelp (all)" for end in ENDS)],
    ]
    assert "knit on from the far end of one skein into the near end of the next" in words(page)


ENDS = ("near", "far")


def test_a_skein_weighs_more_on_its_bobbin():
    bobbins = {"plying_capacity_g": 30.0, "plying_tare_g": 85.5}
    page = card(by_hand(THREE, bobbins=bobbins))
    assert [row[2] for row in skeins_on(page)] == ["24.0 g on it 109.5 g"] * 3


def test_check_points_begin_anew_with_each_skein():
    """240 m in skeins of 120 m, 36 g: changes at 80 m, and at 40 m of the second."""
    data = by_hand(
        THREE,
        scheme={"name": "free", "portions": APART},
        bobbins={"plying_capacity_g": 36.0, "plying_tare_g": 85.5},
    )
    (points,) = card(data).all("table", "points")
    rows = [row.cells()[1:] for row in points.all("tr")[2:]]
    assert rows == [
        ["80.0 m", "24.0 g on it 109.5 g", "all", "Wrack", "Foam"],
        [
            *("120.0 m", "36.0 g on it 121.5 g"),
            "Skein 1 ends: break, tag both ends, wind it off, go on from 0 g",
        ],
        ["160.0 m", "12.0 g on it 97.5 g", "all", "Foam", "Kelp"],
    ]


APART = [
    {"ply": ply, "lot": lot, "mass_g": 8.0}
    for ply in (1, 2, 3)
    for lot in ("Kelp", "Foam", "Wrack")
]


def test_each_skein_is_measured_when_it_is_finished():
    page = card(by_hand(THREE, bobbins={"plying_capacity_g": 30.0}))
    (finishing,) = page.all("section", "finishing")
    for number in (1, 2, 3):
        assert f"Skein {number}: planned 80 m, 24.0 g; found" in finishing.text


@pytest.mark.parametrize("bobbins", [{}, {"plying_capacity_g": 72.0}])
def test_a_yarn_in_one_skein_has_no_table_of_them(bobbins):
    assert skeins_on(card(by_hand(THREE, bobbins=bobbins))) == []


@every_scheme
def test_skeins_on_the_card_are_those_of_the_plan(tables):
    data = by_hand(THREE, **tables) | {"bobbins": {"plying_capacity_g": 7.0}}
    found = yc.to_dict(answered(data))["yarn"]["skeins"]
    assert skeins_on(card(data)) == [
        [
            f"{one['skein']} of {len(found)}",
            f"{one['end_m']:.1f} m",
            f"{one['mass_g']:.1f} g",
            f"{one['skein']}, near: {tag(one['near_end'])}",
            f"{one['skein']}, far: {tag(one['far_end'])}",
        ]
        for one in found
    ]


def test_check_points_say_how_far_they_may_stray():
    """Portions of 80 m ± 5 %: 4.0 m, then 4.0 · √2 m; 0.01 g on 8 g is nothing."""
    data = by_hand(THREE, spinning={"variation": 0.05}, scale={"step_g": 0.01})
    metres = [row.cells()[1] for row in card(data).all("tr", "change")]
    assert metres == ["80.0 m ± 4.0", "160.0 m ± 5.7"]


def test_hours_stand_where_they_are_worked():
    """24 g at 5 minutes are 2 hours; 240 m of 150 turns at 600 a minute one."""
    data = by_hand(
        THREE,
        spinning={"minutes_per_g": 5.0, "treadles_per_min": 60.0, "drive_ratio": 10.0},
        plying={"twist_tpm": 150.0, "contraction": 0.0},
    )
    page = card(data)
    assert (
        "24.0 g to spin, about 240 m of single, about 2.0 h at the wheel." in bobbin(page, 1).text
    )
    (plying,) = page.all("section", "plying")
    assert "About 1.0 h at the wheel." in plying.text


def test_what_is_left_after_rest_and_wash_is_planned():
    data = by_hand(THREE, plying={"resting_shrinkage": 0.05}, fabric={"finishing_shrinkage": 0.1})
    (finishing,) = card(data).all("section", "finishing")
    rows = {row.cells()[0]: row.cells() for row in finishing.all("tr")[1:]}
    assert rows["metres"][1] == "240 m rested 228 m, washed 205 m"


RICH = {
    "spinning": TWISTS["spinning"] | {"variation": 0.08, "minutes_per_g": 3.0},
    "plying": TWISTS["plying"] | {"resting_shrinkage": 0.03},
    "scale": {"regain": 0.14},
    "bobbins": {"count": 2, "capacity_g": 9.0, "tare_g": [60.0, 61.0], "plying_capacity_g": 20.0},
    "fabric": {"stitches": 60, "rows": 400, "gauge_stitches": 20.0, "finishing_shrinkage": 0.08},
}


@every_scheme
def test_a_card_of_a_yarn_with_a_body_says_nothing_in_our_own_words(tables):
    data = by_hand(THREE, **{**RICH, **tables})
    data["lots"][0]["regain"] = 0.16
    said = words(card(data))
    assert not NOT_SAID.search(said)
    for kind in ("variation", "strand twist", "wound_off", "regain", "finishing_shrinkage"):
        assert kind not in said


# --- finishing, and to keep ------------------------------------------------------------------


def test_finishing_leaves_blanks_for_what_is_measured():
    (finishing,) = card(by_hand(THREE)).all("section", "finishing")
    assert finishing.text.startswith(
        "Finishing First test a wisp of each lot in the wash: does the colour stay? Follow the "
        "dye maker's data sheets;"
    )
    rows = {row.cells()[0]: row for row in finishing.all("tr")[1:]}
    assert list(rows) == ["turns", "metres", "grams", "wraps to the inch"]
    assert [len(row.all("span", "blank")) for row in rows.values()] == [2] * 4
    assert rows["metres"].cells() == ["metres", "240 m", "m", "m"]
    assert "Tag the end where plying began." in finishing.text


def test_the_page_to_keep_holds_picture_record_advice_and_assumptions():
    data = closing_on_kelp("keep", [1, 3])
    record = {"dye": "acid dye", "mordant": "alum", "bath_number": "2", "note": "a <b>browner</b>"}
    data["lots"][0] |= record | {"dyed_on": "2024-05-01", "source": "a friend", "fibre": "wool"}
    (keep,) = card(data).all("section", "keep")
    assert len(keep.all("div", "strip")[0].all("svg")) == 1
    assert keep.all("div", "record")[0].text == (
        "Kelp fibre: wool; dye: acid dye; mordant: alum; bath: 2; dyed on: 2024-05-01; "
        "from: a friend a <b>browner</b>"
    )
    told = [item.text for item in yc.advice_on(answered(data))]
    assert [item.text for item in keep.all("ol")[0].all("li")] == told
    assert told
    granted = [item.text for item in keep.all("ul")[0].all("li")]
    assert len(granted) == len(answered(data).assumptions)
    assert "grist of the singles: 1000 m in 100 g" in granted


# --- what a card must never hold -------------------------------------------------------------


def awkward(name: str = "fractal") -> dict:
    lots = [
        {
            "name": text,
            "mass_g": 24.0,
            "colour": f"#{at}{at}{at}",
            "reserve_g": 1.0,
            **dict.fromkeys(("note", "dye", "mordant", "bath_number", "source", "fibre"), HOSTILE),
        }
        for at, text in enumerate(AWKWARD)
    ]
    scheme = {"name": name, "plies": 3}
    if name == "fractal":
        scheme |= {"sequence": [*AWKWARD, AWKWARD[0]], "closing": "tail"}
    return {"title": HOSTILE, "purpose": HOSTILE, "lots": lots, "scheme": scheme}


@pytest.mark.parametrize("name", [name for name in EVERY_SCHEME if name != "free"])
def test_names_and_notes_are_only_text(name):
    page = card(awkward(name))
    tags = {node.tag for node in page.all()}
    assert tags.isdisjoint({"script", "iframe", "object", "embed", "link", "img", "base", "form"})
    assert not [key for node in page.all() for key in node.about if key.startswith("on")]
    assert page.all("h1")[0].text == HOSTILE
    names = [row.cells()[1] for row in page.all("tr", "lot-row")]
    assert names == list(AWKWARD)


def test_a_card_asks_for_nothing_from_elsewhere():
    html = card_html(answered(awkward())).decode()
    assert not re.search(r"https?:|//\w|@import|url\((?!#)|src=|href=", html)
    (policy,) = [
        node.about["content"]
        for node in Page(html.encode()).root.all("meta")
        if node.about.get("http-equiv") == "Content-Security-Policy"
    ]
    assert policy.startswith("default-src 'none'")


@pytest.mark.parametrize("count", [1, 60])
def test_one_lot_and_sixty_fit_a_card(count):
    lots = [
        {"name": f"Lot {number}", "mass_g": 20.0, "colour": f"#{number:02x}8844"}
        for number in range(count)
    ]
    page = card({"lots": lots, "scheme": {"name": "fractal", "plies": 3}})
    assert len(page.all("tr", "lot-row")) == count
    assert len(page.all("tr", "portion")) == count * 7
    kinds = [node.about["class"] for node in page.all("section")]
    assert kinds == ["stash-page", *["bobbin"] * 3, "plying", "finishing", "keep"]


def test_every_chip_has_the_name_of_its_lot_beside_it():
    page = card(by_hand(THREE, scheme={"name": "fractal"}))
    colour = {lot["srgb"]: lot["name"] for lot in yc.to_dict(answered(by_hand(THREE)))["lots"]}
    pairs = {
        (lot.all("span", "chip")[0].about["style"], lot.all("bdi", "name")[0].text)
        for lot in page.all("span", "lot")
    }
    assert pairs == {(f"background:{srgb}", name) for srgb, name in colour.items()}
    assert len(page.all("span", "chip")) == len(page.all("span", "lot"))


def test_the_same_plan_gives_the_same_card():
    data = awkward()
    assert card_html(answered(data)) == card_html(answered(data))
