"""The card's rows: what is weighed, when to stop, and what is meant where a sequence closes."""

import csv
import io
import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.card_reader import (
    NOT_SAID,
    PLANS,
    THREE,
    Node,
    Page,
    answered,
    bobbin,
    card,
    closing_on_kelp,
    every_scheme,
    lines,
    words,
)
from tests.helpers.examples import times
from tests.helpers.strategies import CLOSINGS, DIVIDING, EVERY_SCHEME, by_hand, plan_data
from yarncolor.measures import METRIC
from yarncolor.report.csv_json import weigh_out_csv

ROW_LINE = re.compile(r"^ +\d+  .*  +[\d.]+ g  \S")


def weighed(text: str) -> float:
    return float(text.removesuffix(" g"))


# --- the list of each bobbin -----------------------------------------------------------------


def on_bobbin(single: dict, found: dict, spin_loss: float) -> list[float]:
    """Return what is on the one bobbin of a single after each row, reckoned row by row."""
    of_lot = {heap["lot"]: heap for heap in found["heaps"] if heap["ply"] == single["ply"]}
    pieces = [row for row in single["portions"] if row["weigh_g"] is None]
    whole = {name: sum(row["mass_g"] for row in pieces if row["lot"] == name) for name in of_lot}
    running, after = 0.0, []
    for row in single["portions"]:
        put = row["weigh_g"]
        if put is None:
            put = row["mass_g"] / whole[row["lot"]] * (of_lot[row["lot"]]["weigh_g"] or 0.0)
        running += put * (1 - spin_loss)
        after.append(running)
    return after


def expected_rows(single: dict) -> list[list[str | None]]:
    """Return number, lot and weight of every portion, from ``plan.json``."""
    return [
        [str(number), portion["lot"], portion["weigh_g"]]
        for number, portion in enumerate(single["portions"], 1)
    ]


def rows_on(section: Node) -> list[list[str]]:
    return [
        [*cells[1:3], None if cells[3] == "heap" else weighed(cells[3])]
        for cells in (row.cells() for row in section.all("tr", "portion"))
    ]


@pytest.mark.parametrize("name", EVERY_SCHEME)
def test_every_row_of_the_weigh_out_is_on_the_card_once(name):
    @times(1 / 2)
    @given(plan_data(name))
    def holds(data):
        found, page = yc.to_dict(answered(data)), card(data)
        singles, step = found["singles"], data["scale"]["step_g"]
        assert len(page.all("section", "bobbin")) == len(singles)
        for single, section in zip(singles, page.all("section", "bobbin"), strict=True):
            assert rows_on(section) == [
                [*named, None if mass is None else pytest.approx(mass, abs=1e-9)]
                for *named, mass in expected_rows(single)
            ]
            told = [weighed(row.cells()[5]) for row in section.all("tr", "portion")]
            after = on_bobbin(single, found, data["spinning"]["spin_loss"])
            assert told == pytest.approx(after, abs=0.51 * step)
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
        assert section.all("tr", "portion")[-1].cells()[5] == f"{all_in * 0.75:.1f} g"
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
    assert bobbin(page, 1).all("tr", "portion")[0].cells()[5] == "18.0 g"
    said = "On the bobbin, and where it says stop and weigh, 10% is taken off for loss in spinning."
    assert said in words(page)


@pytest.mark.parametrize(
    ("step_g", "shown"), [(0.01, "8.00 g"), (0.1, "8.0 g"), (0.5, "8.0 g"), (1.0, "8 g")]
)
def test_masses_have_the_decimals_of_the_scale(step_g, shown):
    page = card(by_hand(THREE, scale={"step_g": step_g}))
    assert {row.cells()[3] for row in page.all("tr", "portion")} == {shown}


@pytest.mark.parametrize("name", DIVIDING)
def test_the_rows_and_the_stops_are_one_running_total(name):
    """Whatever is weighed, lost, heaped or broken over bobbins: a stop says what its row says."""

    @times(1 / 2)
    @given(plan_data(name), st.sampled_from((None, 1 / 2.3, 1 / 1.01)), st.integers(1, 3))
    def holds(data, fits, strands):
        data["plying"]["strands"] = strands
        heaviest = max(single["mass_g"] for single in yc.to_dict(answered(data))["singles"])
        if fits is not None:
            data["bobbins"] = {"capacity_g": max(1.0, heaviest * fits)}
        found, page = answered(data), card(data)
        for section in page.all("section", "bobbin"):
            for before, after in pairwise(section.all("table", "portions")[0].all("tr")):
                if "Stop and weigh" in after.text or "All spun" in after.text:
                    said = after.text.split(": ")[-1].split(" g")[0]
                    at = before.cells()[5] if before.about["class"] == "portion" else None
                    assert at in (None, f"{said} g")
        totals = [
            row["on_bobbin_g"] for one in yc.to_dict(found)["singles"] for row in one["portions"]
        ]
        table = list(csv.DictReader(io.StringIO(weigh_out_csv(found).decode(), newline="")))
        assert [float(row["on_bobbin_g"]) for row in table if row["row"]] == pytest.approx(totals)
        step = data["scale"]["step_g"]
        points = yc.to_dict(found)["weigh_points"]
        for point in points:
            row = yc.to_dict(found)["singles"][point["ply"] - 1]["portions"][point["row"] - 1]
            if abs(row["end_m"] - point["at_m"]) < 1e-9 * row["end_m"]:
                assert point["on_bobbin_g"] == pytest.approx(row["on_bobbin_g"], abs=step)

    holds()


def told_on_the_page(found) -> list[list[str]]:
    """Return weigh, by hand and on bobbin of each row of the page's tables."""
    tables = Page(yc.show.weigh_out(found).html.encode()).root.all("tbody")
    return [row.cells()[1:] for table in tables for row in table.all("tr")]


@pytest.mark.parametrize("name", DIVIDING)
def test_card_summary_table_and_page_say_one_running_total(name):
    """Heaps and all: what is weighed, by hand and on the bobbin is the same in four places."""

    @times(1 / 2)
    @given(plan_data(name), st.sampled_from((0.1, 1.0, 2.0)))
    def holds(data, step_g):
        data["scale"]["step_g"] = step_g
        found = answered(data)
        table = list(csv.DictReader(io.StringIO(weigh_out_csv(found).decode(), newline="")))
        rows = [row for row in table if row["row"]]
        weigh = [
            row["weigh_g"] and f"{METRIC.on_scale(float(row['weigh_g']), step_g)} g" for row in rows
        ]
        by_hand_said = [row["words"].removeprefix("heap: ") for row in rows]
        page = [row for row in told_on_the_page(found) if row[-1]]
        on_card = [
            row.cells()[3:6]
            for section in card(data).all("section", "bobbin")
            for row in section.all("tr", "portion")
        ]
        for told in (page, on_card):
            assert [row[0] for row in told] == [one or "heap" for one in weigh]
            assert [row[2] for row in told] == [row[2] for row in page]
        assert [row[1] for row in page] == by_hand_said
        lines = [line for line in yc.summary_text(found).splitlines() if ROW_LINE.match(line)]
        for at, row in enumerate(rows):
            assert on_card[at][1].startswith(by_hand_said[at])
            assert lines[at].endswith(f" {page[at][2]}  {by_hand_said[at]}")
            total_g, near_g = float(row["on_bobbin_g"]), step_g * (1 / 2 + 1e-6)
            assert float(page[at][2].removesuffix(" g")) == pytest.approx(total_g, abs=near_g)

    holds()


# --- heaps -----------------------------------------------------------------------------------


def test_a_heap_is_weighed_once_and_its_pieces_are_named():
    data = by_hand({"Kelp": 16.0, "Foam": 8.0}, scale={"step_g": 1.0})
    section = bobbin(card(data | {"scheme": {"name": "fractal", "divisions": [1, 8]}}), 2)
    heaps = [row.cells()[1:] for row in section.all("tr", "heap")]
    assert heaps == [
        ["Kelp", "8 g", "divide by hand into 8 equal pieces"],
        ["Foam", "4 g", "divide by hand into 8 equal pieces"],
    ]
    portions = section.all("tr", "portion")
    assert {tuple(row.cells()[3:5]) for row in portions} == {("heap", "1 of 8 pieces")}
    assert [row.cells()[5] for row in portions][:4] == ["1 g", "2 g", "2 g", "3 g"]
    assert portions[-1].cells()[5] == "12 g"
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
    section = bobbin(card(by_hand({"Kelp": 45.0, "Foam": 4.0}, scale={"step_g": 5.0})), 1)
    (heap,) = section.all("tr", "heap")
    assert heap.cells()[1:] == ["Foam", "", "a pinch"]
    assert [row.cells()[1:6] for row in section.all("tr", "portion")][1] == [
        *("2", "Foam", "heap", "all of it", "15 g")
    ]


# --- where the sequence closes ---------------------------------------------------------------

STOP = "Stop and weigh: {} g plus your empty bobbin found g"


DONE = "All spun: weigh: {} g plus your empty bobbin found g"


ASIDE = "Kelp closes the sequence here: leave it out and lay it aside for the very end."


AT_ONCE = "Kelp closes the sequence here: leave it out, it was spun at the beginning."


NOT_SPUN = "Kelp stands here in the sequence too: leave it out, it is not spun."


LAST_TWO = "last two swapped: meant"


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
    "swap": [
        *("time 1 of 2", "Kelp", "Foam", f"Kelp: {LAST_TWO}", f"Wrack: {LAST_TWO}"),
        *(STOP.format("24.0"), "time 2 of 2", "Kelp", "Foam", "Wrack", "Kelp"),
        DONE.format("48.0"),
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
    "swap": [
        *("time 1 of 2", "Kelp", "Wrack", "Foam", "Kelp", STOP.format("24.0")),
        *("time 2 of 2", f"Wrack: {LAST_TWO}", f"Kelp: {LAST_TWO}", "Foam", "Kelp"),
        DONE.format("48.0"),
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


def test_the_head_of_a_bobbin_says_what_its_rows_come_to():
    """Whole grams: 16 of 46 are not 15.3 on the same sheet."""
    lots = {"Kelp": 46.0, "Foam": 31.0, "Rust": 22.0}
    data = by_hand(lots, scheme={"name": "fractal", "plies": 3}, scale={"step_g": 1.0})
    told = yc.summary_text(answered(data)).split("Yarn:")[0].split("Bobbin ")[1:]
    assert len(told) == 3
    for one in told:
        head = re.search(r"\((\d+) g,", one)[1]
        rows = re.findall(r"^ +\d+  .* (\d+) g  \S", one, re.MULTILINE)
        assert rows[-1] == head
