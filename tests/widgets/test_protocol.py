"""Messages between page and kernel: both sides declare the same, and say what they declare."""

import io
import re
from typing import get_type_hints

import numpy as np
import pytest
from PIL import Image

from tests.helpers.messages import declared, faults, in_javascript
from tests.helpers.paths import ROOT, SAMPLE_DATA
from yarncolor.colour.photo.demo import demo_photo, heap_box
from yarncolor.editing.editor import Editor
from yarncolor.scripts import joined
from yarncolor.widgets.card_printer import CardPrinter
from yarncolor.widgets.doorbell import Doorbell
from yarncolor.widgets.lots.lots_bench import LotsBench
from yarncolor.widgets.options.options_bench import OptionsBench
from yarncolor.widgets.order.order_painter import OrderPainter
from yarncolor.widgets.order.yarn_band import YarnBand
from yarncolor.widgets.photo.photo_bench import PhotoBench, shown_jpeg
from yarncolor.widgets.plan_bar import PlanBar
from yarncolor.widgets.plying.plying_bench import PlyingBench
from yarncolor.widgets.protocol.messages import HEARD, SAID
from yarncolor.widgets.spinning.spinning_bench import SpinningBench

PAGE = ROOT / "yarncolor" / "widgets"
SCRIPTS = {
    "bar": PAGE / "plan_bar.js",
    "band": PAGE / "order" / "yarn_band.js",
    "card": PAGE / "card_printer.js",
    "doorbell": PAGE / "doorbell.js",
    "form": PAGE / "options" / "options_bench.js",
    "lots": PAGE / "lots" / "lots_bench.js",
    "order": PAGE / "order" / "order_painter.js",
    "photo": PAGE / "photo" / "photo_bench.js",
    "plying": PAGE / "plying" / "plying_bench.js",
    "spinning": PAGE / "spinning" / "spinning_bench.js",
}
KERNELS = {
    "bar": PlanBar,
    "band": YarnBand,
    "card": CardPrinter,
    "doorbell": Doorbell,
    "form": OptionsBench,
    "lots": LotsBench,
    "order": OrderPainter,
    "photo": PhotoBench,
    "plying": PlyingBench,
    "spinning": SpinningBench,
}
NOT_READ = {"kind", "do", "view", "serial", "mass_g"}  # read by every listener, or typed by fingers
NOT_READ |= {"base", "held"}  # of steps that a page keeps as they are
widgets = pytest.mark.parametrize("widget", HEARD)


def script(widget):
    return joined(SCRIPTS[widget])


def keys(*messages):
    return {key for message in declared(*messages).values() for key in get_type_hints(message)}


@widgets
def test_the_page_declares_the_same_messages(widget):
    text = (PAGE / "protocol.js").read_text(encoding="utf-8")
    for message in declared(*HEARD[widget].values(), *SAID[widget].values()).values():
        assert in_javascript(message) in text


def test_the_page_declares_no_other_messages():
    text = (PAGE / "protocol.js").read_text(encoding="utf-8")
    named = re.findall(r"\}\}[\s*]+(\w+)", text)
    every = [kind for table in (HEARD, SAID) for side in table.values() for kind in side.values()]
    assert sorted(named) == sorted(declared(*every))


@widgets
def test_the_page_asks_for_what_the_kernel_hears(widget):
    told = script(widget)
    asked = {word for word in HEARD[widget] if re.search(rf'"{word}"|\b{word}: "', told)}
    assert asked == set(HEARD[widget])
    assert set(re.findall(r'\bdo: "(\w+)"', told)) <= set(HEARD[widget])


@widgets
def test_the_kernel_does_what_it_hears(widget):
    kernel = KERNELS[widget]
    own = [part for part in kernel.__mro__ if part.__module__.startswith("yarncolor.")]
    names = {name for part in own for name in vars(part)}
    tasks = {name.removeprefix("on_") for name in names if name.startswith("on_")}
    assert tasks == set(HEARD[widget]) == set(kernel.hears)


@widgets
def test_the_page_listens_to_what_the_kernel_says(widget):
    assert set(re.findall(r"^  on_(\w+)\(", script(widget), re.M)) == set(SAID[widget])


@widgets
def test_every_key_that_is_said_or_asked_is_known_to_the_page(widget):
    told = script(widget)
    said = keys(*SAID[widget].values(), *HEARD[widget].values()) - NOT_READ - {"buffers"}
    assert {key for key in said if not re.search(rf"\b{key}\b", told)} == set()


# --- what kernels really say --------------------------------------------------------------------


@pytest.fixture
def editor():
    return Editor.opened(SAMPLE_DATA / "slack_water.toml")


def talked(widget, messages):
    """Return all that a kernel says when a page asks these in their turn."""
    said = []
    widget.send = lambda content, *_: said.append(content)
    for message, *buffers in messages:
        hint = widget.hears[message["do"]]
        assert faults(message, hint, message["do"]) == []
        widget.handle(message, buffers)
    return said


def check(widget, said):
    for message in said:
        assert faults(message, SAID[widget][message["kind"]], message["kind"]) == []
    assert {message["kind"] for message in said} == set(SAID[widget])


def png() -> bytes:
    stream = io.BytesIO()
    Image.fromarray(np.full((30, 40, 3), 120, np.uint8)).save(stream, "PNG")
    return stream.getvalue()


def test_the_bar_says_what_is_declared(editor, tmp_path):
    asks = [{"do": task, "view": "v"} for task in ("ready", "undo", "redo", "download")]
    more = [
        {"do": "new", "view": "v", "keeps": True},
        {"do": "save_as", "view": "v", "name": "other"},
        {"do": "keep", "view": "v", "on": False},
        {"do": "save", "view": "v"},
        {"do": "beat", "view": "v"},
        {"do": "draft", "view": "v"},
        {"do": "bring_back", "view": "v"},
        {"do": "throw_away", "view": "v"},
        {
            "do": "resume",
            "view": "v",
            "texts": [editor.text()],
            "steps": [{"text": 0, "base": 0, "folder": "", "file": "", "held": []}],
            "now": 0,
            "section": "Lots",
        },
    ]
    plan = {"do": "open", "view": "v", "name": "other.toml"}
    said = talked(PlanBar(editor, tmp_path), [*([each] for each in asks + more), [plan, b"#"]])
    check("bar", said)


def test_the_card_says_what_is_declared(editor):
    asks = [[{"do": task, "view": "v"}] for task in ("print", "download")]
    check("card", talked(CardPrinter(editor, lambda: "short"), asks))


def test_the_form_says_what_is_declared(editor):
    put = {"do": "put", "name": "spinning.variation", "text": "much"}
    back = {"do": "back", "name": "spinning.variation"}
    check("form", talked(OptionsBench(editor), [[{"do": "ready"}], [put], [back]]))


def test_lots_say_what_is_declared(editor):
    lots = LotsBench(editor)
    (shown,) = talked(lots, [[{"do": "ready", "view": "v"}]])
    ask = {"do": "rows", "view": "v", "serial": 1, "version": shown["version"]}
    rows = shown["rows"]
    mixed = [*rows, {**rows[0], "key": None, "name": "Mix", "mass_g": "5"}]
    mixed[-1]["colour"] = f"1 {rows[0]['name']} + 1 {rows[1]['name']}"
    said = talked(lots, [[{**ask, "rows": mixed}]])
    version = said[-1]["version"]
    wrong = [{**said[-1]["rows"][0], "mass_g": "plenty"}, *said[-1]["rows"][1:]]
    gone = said[-1]["rows"][1:]
    asks = [[{**ask, "rows": each, "version": version}] for each in (wrong, gone)]
    drawn = {"boxes": [{"key": "fibre", "kind": "fibre", "box": [0, 0, 1, 1]}], "way": "nothing"}
    look = {"do": "photograph", "view": "v", "of": "1", "name": "Mix", "take": True, "drawn": drawn}
    asks += [[look, shown_jpeg(demo_photo())], [look, b"no picture"], [look]]
    asks += [[{"do": "lines", "view": "v", "text": text}] for text in ("Ebb 9 g", "Ebb")]
    check("lots", [shown, *said, *talked(lots, asks)])


def test_an_order_says_what_is_declared(editor):
    asks = [
        {"do": "ready"},
        {"do": "move", "moves": [[0, 2]], "serial": 1, "turn": 1},
        {"do": "rest", "entry": 0},
        {"do": "grab", "entry": 1},
        {"do": "hold", "entry": 1, "held": True, "serial": 2, "turn": 1},
        {"do": "look", "metre": 20.5, "serial": 3},
        {"do": "knit", "part": True, "serial": 4},
        {"do": "undo"},
        {"do": "redo"},
        *({"do": task, "serial": 4} for task in ("reverse", "turn", "close")),
    ]
    check("order", talked(OrderPainter(editor), [[each] for each in asks]))


def test_photographs_say_what_is_declared(editor):
    boxes = [{"key": "1", "kind": "fibre", "box": heap_box(0), "name": "Kelp", "mass_g": 5.0}]
    about = {"view": "v", "serial": 1}
    drawn = {**about, "drawn": {"boxes": boxes}}
    picture = {"do": "picture", **drawn, "name": "mine.png", "from": [40, 30]}
    asks = [
        [{"do": "open", **about}],
        [{"do": "read", **drawn}],
        [{"do": "find", **drawn, "count": 3}],
        [{"do": "find", **drawn, "count": 0}],
        [{"do": "take", **drawn}],
        [picture, png()],
        [picture, b"no picture"],
    ]
    photographs = PhotoBench(demo_photo(size_px=(300, 225)), editor)
    editor.watch(photographs.refresh)
    check("photo", talked(photographs, asks))


def test_the_section_at_the_wheel_says_what_is_declared(editor):
    row, extra = "2r5", "2x1"
    asks = [
        {"do": "ready"},
        {"do": "up_to", "piece": row},
        {"do": "tick", "piece": "1r1", "on": True},
        {"do": "tick", "piece": "1r1", "on": False},
        {"do": "extra", "piece": row},
        {"do": "shift", "piece": extra, "by": -1},
        {"do": "put", "name": "2r5.mass_g", "text": "much"},
        {"do": "back", "name": "2r5.mass_g"},
        {"do": "put", "name": "2r5.sample", "text": "2 m 0.2 g"},
        {"do": "slip", "slip": "left_out", "ply": 2, "piece": "2r7"},
        {"do": "weigh", "ply": 2, "bobbin": 1, "text": "80"},
        {"do": "weigh", "ply": 2, "bobbin": 1, "text": "a lot"},
        {"do": "take", "way": "make_up"},
        {"do": "bring", "text": "nothing"},
        {"do": "rest"},
    ]
    check("spinning", talked(SpinningBench(editor), [[each] for each in asks]))


def test_the_section_at_the_plying_wheel_says_what_is_declared(editor):
    asks = [
        {"do": "ready"},
        {"do": "put", "name": "plied.so_far_m", "text": "40"},
        {"do": "put", "name": "plied.turns", "text": "many"},
        {"do": "back", "name": "plied.turns"},
        {"do": "ended", "ply": 1},
        {"do": "goes_on"},
        {"do": "look", "bumps": "60", "over_cm": "10", "loop": "with", "catches": True},
    ]
    check("plying", talked(PlyingBench(editor), [[each] for each in asks]))
