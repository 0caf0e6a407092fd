"""What can hurt is said where that work is shown: common practice, no source."""

import json
import re
from collections import Counter
from html import unescape

import nbformat
import pytest

import yarncolor as yc
from tests.helpers.paths import ROOT, SAMPLE_DATA
from yarncolor import cautions
from yarncolor.editing.editor import Editor
from yarncolor.report.card.card import card_html
from yarncolor.report.exports import made
from yarncolor.widgets.lots.lots_bench import LotsBench
from yarncolor.widgets.mixing_bench import MixingBench
from yarncolor.widgets.tables_bench import weigh_out_bench

HARMS = {
    "dust": ("dust", "mask"),
    "carder": ("carder", "teeth"),
    "powder": ("powder", "gloves", "mask", "kitchen"),
    "scald": ("scald", "lid"),
    "acid": ("acid", "burn"),
    "wash": ("Hot water", "scald"),
    "sheets": ("makers' data sheets", "your local rules"),
    "wheel": ("hair", "sleeves", "Stop the wheel", "flyer", "hooks"),
    "breaks": ("once an hour",),
    "licence": ("for sale", "teaching", "spent baths", "authority"),
    "harm": ("first aid", "data sheet", "doctor", "poison centre"),
}
"""By what can hurt, the words that a caution against it cannot do without."""


@pytest.fixture(scope="module")
def answer():
    return yc.answer(yc.read_plan(SAMPLE_DATA / "two_ply_batts.toml"))


def warned_of(text: str) -> set[str]:
    """Return what a text warns of."""
    plain = unescape(text)
    return {harm for harm, words in HARMS.items() if all(word in plain for word in words)}


@pytest.mark.parametrize("form", ["short", "long"])
def test_the_card_warns_of_dust_carder_wheel_and_hot_water(answer, form):
    card = card_html(answer, form).decode()
    assert warned_of(card) >= {"dust", "carder", "wheel", "wash", "sheets"}


def test_every_bobbins_page_of_the_long_card_warns_of_the_wheel(answer):
    card = card_html(answer, "long").decode()
    pages = card.split('<section class="bobbin')[1:]
    assert len(pages) == 2
    assert all("wheel" in warned_of(page) for page in pages)


def test_the_phone_is_told_of_the_wheel(answer):
    ((_, page),) = made(answer, ("wheel.html",))
    (told,) = re.findall('"caution": ?"[^"]*"', page.decode())
    assert "wheel" in warned_of(told)


def test_sections_of_the_page_say_it_in_plain_sight(answer):
    editor = Editor(answer.plan)
    assert warned_of(weigh_out_bench(editor).html.value) >= {
        "dust",
        "carder",
        "sheets",
        "wheel",
        "breaks",
    }
    told = [child.value for child in MixingBench(editor).children if hasattr(child, "value")]
    assert warned_of(" ".join(map(str, told))) >= {"powder", "scald", "acid", "sheets"}


def test_the_lots_are_told_with_the_dyers_cautions(answer, monkeypatch):
    said = []
    bench = LotsBench(Editor(answer.plan))
    monkeypatch.setattr(bench, "send", lambda message, **_: said.append(message))
    bench.on_ready({"do": "ready", "view": "a"})
    assert warned_of(json.dumps(said)) >= {"powder", "scald", "acid", "sheets"}


def test_the_notebook_of_baths_warns_before_its_bench_and_lists_all_after():
    cells = nbformat.read(
        ROOT / "notebooks" / "04_blends_baths_and_distance.ipynb", as_version=4
    ).cells
    (bench,) = [at for at, cell in enumerate(cells) if "yc.bench.mixing" in cell.source]
    assert "can hurt" in cells[bench - 1].source
    assert warned_of(cells[bench + 1].source) >= {"licence", "harm", "acid"}


def test_each_caution_warns_of_something():
    texts = [text for name, text in vars(cautions).items() if name.isupper() and name != "DYEING"]
    count = Counter(harm for text in texts for harm in warned_of(text))
    assert set(count) == set(HARMS)
