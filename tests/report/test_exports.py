"""The files of a plan: tables that a spreadsheet opens, pictures that a browser opens."""

import asyncio
import csv
import io
import json
from xml.etree import ElementTree

import pytest
from PIL import Image

import yarncolor as yc
from yarncolor.answers.answer import Answer
from yarncolor.editing.editor import Editor
from yarncolor.errors import Fault
from yarncolor.pictures.catalogue import WRITTEN
from yarncolor.plan import Lot, Plan
from yarncolor.report import exports
from yarncolor.report.csv_json import stretches_csv, weigh_out_csv
from yarncolor.report.exports import FILES
from yarncolor.widgets.export_bench import ExportBench

_WEIGHED = ["mass_g", "weigh_g", "words", "running_g"]
_WEIGH_OUT = ["ply", "row", "lot", *_WEIGHED, "start_m", "end_m", "on_bobbin_g", "state"]
HOSTILE = "<script>alert(1)</script>&\"'"


def answer(*lots: tuple, **tables: dict) -> Answer:
    """Return the answer to lots given as name, grams and colour, and to other tables."""
    rows = [{"name": name, "mass_g": mass, "colour": colour} for name, mass, colour in lots]
    return yc.answer(yc.plan_from_data({"lots": rows, **tables}))


def rows(table: bytes) -> list[list[str]]:
    """Return the rows of a CSV as a spreadsheet reads them."""
    return list(csv.reader(io.StringIO(table.decode(), newline=""), strict=True))


@pytest.fixture(scope="module")
def two_plies() -> Answer:
    """Return 12 g of Kelp, then 8 g of Foam, alike on two plies of 100 tex."""
    return answer(("Kelp", 12, "#000"), ("Foam", 8, "#fff"), scheme={"plies": 2})


def test_weigh_out_says_what_to_weigh_and_how_far_it_reaches(two_plies):
    head, *found = rows(weigh_out_csv(two_plies))
    assert head == _WEIGH_OUT
    half = "½ of the lot"
    expected = [
        ("1", "1", "Kelp", 6.0, 6.0, half, 6.0, 0.0, 60.0, 6.0, ""),
        ("1", "2", "Foam", 4.0, 4.0, half, 10.0, 60.0, 100.0, 10.0, ""),
        ("2", "1", "Kelp", 6.0, 6.0, half, 6.0, 0.0, 60.0, 6.0, ""),
        ("2", "2", "Foam", 4.0, 4.0, half, 10.0, 60.0, 100.0, 10.0, ""),
    ]
    assert [_typed(row) for row in found] == [pytest.approx(row) for row in expected]


def _typed(row: list[str]) -> tuple:
    words = {0, 1, 2, 5, 10}
    return tuple(cell if at in words else float(cell) for at, cell in enumerate(row))


def test_what_is_too_small_to_weigh_stands_in_a_heap_after_the_portions():
    found = answer(("Kelp", 12, "#000"), ("Foam", 0.3, "#fff"), scheme={"plies": 2})
    _, *table = rows(weigh_out_csv(found))
    assert [row[:3] for row in table] == [
        ["1", "1", "Kelp"],
        ["1", "2", "Foam"],
        ["2", "1", "Kelp"],
        ["2", "2", "Foam"],
        ["1", "", "Foam"],
        ["2", "", "Foam"],
    ]
    for foam, kelp in ((table[1], table[0]), (table[3], table[2])):
        assert foam[4:6] == ["", "heap: all of it"]
        assert foam[6] == kelp[6] == "6.0"
        assert float(foam[9]) in (6.1, 6.2)
    heaps = table[4:]
    assert [row[5] for row in heaps] == ["heap: one piece"] * 2
    assert sorted(float(row[4]) for row in heaps) == [0.1, 0.2]
    assert all([row[3], *row[6:]] == [""] * 6 for row in heaps)


def test_a_heap_that_the_scale_cannot_show_is_a_pinch_of_no_grams():
    found = answer(("Kelp", 12, "#000"), ("Foam", 0.05, "#fff"), scheme={"plies": 1})
    *_, heap = rows(weigh_out_csv(found))
    assert heap == ["1", "", "Foam", "", "", "heap: a pinch", "", "", "", "", ""]


def test_running_grams_carry_no_noise():
    found = answer(*((f"lot {number}", 0.3, "#000") for number in range(9)), scheme={"plies": 1})
    _, *table = rows(weigh_out_csv(found))
    assert [row[6] for row in table] == [f"{tenths / 10}" for tenths in range(3, 28, 3)]


def test_stretches_run_from_the_start_of_plying_last_spun_first(two_plies):
    assert rows(stretches_csv(two_plies)) == [
        ["start_m", "end_m", "ply_1", "ply_2", "ciede2000"],
        ["0.0", "40.0", "Foam", "Foam", "0.0"],
        ["40.0", "100.0", "Kelp", "Kelp", "0.0"],
    ]


def test_stretches_name_the_lot_of_each_ply_and_tell_black_from_white():
    flipped = {"name": "flipped", "plies": 3}
    found = answer(("Kelp", 9, "#000"), ("Foam", 9, "#fff"), scheme=flipped)
    head, first, second = rows(stretches_csv(found))
    assert head == ["start_m", "end_m", "ply_1", "ply_2", "ply_3", "ciede2000"]
    assert first[2:5] == ["Foam", "Kelp", "Foam"]
    assert second[2:5] == ["Kelp", "Foam", "Kelp"]
    assert [float(row[5]) for row in (first, second)] == pytest.approx([100, 100], abs=1e-3)


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@SUM(A1)", '=HYPERLINK(1,"x")'])
def test_a_name_that_a_spreadsheet_would_reckon_gets_an_apostrophe(name):
    found = answer((name, 12, "#000"), ("Foam", 8, "#fff"), scheme={"plies": 1})
    assert rows(weigh_out_csv(found))[1][2] == f"'{name}"
    assert rows(stretches_csv(found))[2][2] == f"'{name}"
    assert json.loads(yc.draw.plan_json(found))["lots"][0]["name"] == name


def test_a_name_that_begins_with_a_tab_gets_an_apostrophe():
    found = yc.answer(Plan(lots=(Lot("\t=1", 12.0, colour="#000"),)))
    assert rows(weigh_out_csv(found))[1][2] == "'\t=1"


@pytest.mark.parametrize("name", ["1=1", "'=1", "a,b", 'a"b', "a;b", "Φύκι", "海帶", HOSTILE])
def test_any_other_name_comes_back_from_both_tables_as_it_was(name):
    found = answer((name, 12, "#000"), scheme={"plies": 2})
    assert [row[2] for row in rows(weigh_out_csv(found))[1:]] == [name] * 2
    assert rows(stretches_csv(found))[1][2:4] == [name] * 2


def test_tables_end_their_lines_as_rfc_4180_says(two_plies):
    for table in (weigh_out_csv(two_plies), stretches_csv(two_plies)):
        assert table.endswith(b"\r\n")
        assert table.count(b"\r\n") == table.count(b"\n") == table.count(b"\r")


def test_plan_json_is_utf_8_of_one_format_and_ends_in_advice():
    found = answer(("海帶", 12, "#000"), ("Foam", 8, "#fff"), scheme={"sequence": ["海帶"]})
    text = yc.draw.plan_json(found).decode()
    data = json.loads(text, parse_constant=pytest.fail)
    assert text.endswith("}\n")
    assert '"海帶"' in text
    assert (data["format"], data["yarncolor"]) == (1, yc.__version__)
    assert data["advice"] == [{"kind": "unused_lot", "text": "Never used: Foam."}]
    assert list(data)[-1] == "advice"


def svg_texts(found: Answer) -> list[str]:
    """Return what every element of the strip says, and make sure that none is a script."""
    svg = ElementTree.fromstring(yc.draw.strip_svg(found))  # noqa: S314
    tags = {element.tag.removeprefix("{http://www.w3.org/2000/svg}") for element in svg.iter()}
    assert tags <= {"svg", "title", "desc", "rect", "defs", "clipPath", "path", "g", "line", "text"}
    return [element.text for element in svg.iter() if element.text]


@pytest.mark.parametrize("name", [HOSTILE, "]]>", "&amp;", "$\\frac$", "אצה", "🧶👩\u200d🌾"])
def test_a_name_in_a_picture_is_text_and_nothing_else(name):
    found = answer((name, 12, "#000"), scheme={"plies": 1}, title=name)
    texts = svg_texts(found)
    assert texts[0] == name
    assert name in texts[2:]
    assert yc.draw.strip_png(found).startswith(b"\x89PNG\r\n\x1a\n")


def test_write_answer_writes_every_file_or_those_that_are_named(two_plies, tmp_path):
    written = yc.write_answer(two_plies, tmp_path / "all")
    assert written == [tmp_path / "all" / name for name in FILES]
    assert (tmp_path / "all/weigh-out.csv").read_bytes() == weigh_out_csv(two_plies)
    assert (tmp_path / "all/plan.json").read_bytes() == yc.draw.plan_json(two_plies)
    some = yc.write_answer(two_plies, tmp_path / "some", ("strip.svg",))
    assert list((tmp_path / "some").iterdir()) == some == [tmp_path / "some/strip.svg"]


def test_every_picture_is_written_as_the_kind_of_file_that_its_name_says(two_plies, tmp_path):
    begins = {".png": b"\x89PNG\r\n\x1a\n", ".svg": b"<?xml", ".pdf": b"%PDF-"}
    pictures = tuple(name for name in FILES if name.endswith(tuple(begins)))
    assert {*(f"{name}.png" for name in WRITTEN), "knitted.svg", "swatch.pdf"} <= set(pictures)
    for path in yc.write_answer(two_plies, tmp_path, pictures):
        assert path.read_bytes().startswith(begins[path.suffix])
        if path.suffix == ".svg":
            ElementTree.parse(path)  # noqa: S314


@pytest.mark.parametrize("name", [HOSTILE, "$\\frac$", "אצה", "🧶👩\u200d🌾"])
def test_a_name_in_any_of_the_pictures_is_text_and_nothing_else(name, tmp_path):
    found = answer((name, 12, "#000"), ("Foam", 8, "#fff"), scheme={"plies": 2}, title=name)
    yc.write_answer(found, tmp_path)
    fabric = ElementTree.parse(tmp_path / "knitted.svg")  # noqa: S314
    assert {element.tag.rpartition("}")[2] for element in fabric.iter()} == {
        *("svg", "title", "desc", "rect"),
    }
    assert fabric.find("{http://www.w3.org/2000/svg}title").text == name
    for picture in WRITTEN:
        with Image.open(tmp_path / f"{picture}.png") as image:
            image.load()
            assert image.text["Title"] == name
            assert name in image.text["Description"] or picture in {"yarn", "knitted"}


def test_write_answer_writes_nothing_where_one_file_cannot_be(two_plies, tmp_path):
    (tmp_path / "strip.png").mkdir()
    with pytest.raises(yc.PlanError, match="a folder of that name is in the way"):
        yc.write_answer(two_plies, tmp_path)
    assert list(tmp_path.iterdir()) == [tmp_path / "strip.png"]


def spoilt(monkeypatch, name: str, error: Exception) -> None:
    """Let one of the files fail as a library under it would."""

    def fails(_):
        raise error

    monkeypatch.setitem(exports._FILES, name, fails)


def test_one_file_that_cannot_be_made_costs_the_others_nothing(two_plies, monkeypatch, tmp_path):
    spoilt(monkeypatch, "swatch.pdf", IndexError("string index\nout of range"))
    spoilt(monkeypatch, "strip.svg", yc.PlanError([Fault("", "strip", "9", "give fewer")]))
    with pytest.raises(exports.NotAllMadeError) as told:
        yc.write_answer(two_plies, tmp_path)
    assert str(told.value).splitlines() == [
        "strip.svg: could not be made: strip = 9: give fewer",
        "swatch.pdf: could not be made, by a fault of this program "
        "(IndexError: string index\\nout of range)",
    ]
    rest = [name for name in FILES if name not in ("swatch.pdf", "strip.svg")]
    assert [path.name for path in told.value.written] == rest
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(rest)


def test_the_page_names_what_could_not_be_made_and_writes_the_rest(
    two_plies, monkeypatch, tmp_path
):
    spoilt(monkeypatch, "swatch.pdf", IndexError("string index out of range"))
    bench = ExportBench(Editor(two_plies.plan), tmp_path)
    asyncio.run(bench.written(("plan.json", "swatch.pdf")))
    assert "swatch.pdf: could not be made" in bench.said.value
    assert "plan.json" in bench.said.value
    assert [path.name for path in tmp_path.iterdir()] == ["plan.json"]


def test_a_card_of_a_form_that_there_is_not_writes_nothing(two_plies, tmp_path):
    with pytest.raises(yc.PlanError, match='card = "tall": give "short" or "long"'):
        yc.write_answer(two_plies, tmp_path, card="tall")
    assert list(tmp_path.iterdir()) == []
