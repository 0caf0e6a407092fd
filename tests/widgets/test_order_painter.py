"""The painter's kernel side without a browser: what is asked, what is sent."""

import json
import subprocess
import sys
import tracemalloc

import numpy as np
import pytest

from tests.helpers.paths import SAMPLES, TIDELINE
from tests.helpers.strategies import DIVIDING
from yarncolor import answer, plan_from_data, read_plan
from yarncolor.editing.editor import Editor
from yarncolor.pictures.as_knitted import piece_shown
from yarncolor.pictures.scene import FIXED_SRGB, LEVELS, Edges, Scene
from yarncolor.widgets.order.order_frames import (
    MOST_AHEAD,
    look_ahead,
    numbers_of,
    reading_of,
    scenes_of,
    table_of,
)
from yarncolor.widgets.order.order_painter import OrderPainter
from yarncolor.widgets.order.packed_scenes import packed_scene

SLACK_WATER = TIDELINE.with_name("slack_water.toml")  # every lot as sRGB
HOSTILE = "<script>alert(1)</script>"


class Heard(OrderPainter):
    """A painter whose messages are kept."""

    def __init__(self, editor):
        self.sent = []
        super().__init__(editor)
        editor.watch(self.refresh)

    def send(self, content, buffers=None, **_):
        json.dumps(content)
        self.sent.append((content, buffers or []))

    def of(self, kind):
        return [content for content, _ in self.sent if content["kind"] == kind]

    def ask(self, do, **more):
        self.sent.clear()
        self.handle({"do": do, "serial": 7, "turn": self._turn, **more}, [])


def lots(count, **scheme):
    rows = [
        {"name": f"Lot {at}", "colour": f"#{40 + 5 * at:02x}6070", "mass_g": 10.0 + at}
        for at in range(count)
    ]
    return plan_from_data({"lots": rows, "scheme": {"name": "matched", **scheme}})


@pytest.fixture
def painter():
    made = Heard(Editor.opened(TIDELINE))
    made.ask("ready")
    return made


def test_nothing_is_sent_before_a_browser_asks():
    made = Heard(Editor.opened(TIDELINE))
    made.editor.move(0, 2)
    assert made.sent == []


def test_a_browser_gets_scenes_a_frame_and_the_tables_of_every_move(painter):
    assert [content["kind"] for content, _ in painter.sent] == ["scenes", "frame", "ahead", "words"]
    frame = painter.of("frame")[0]
    assert frame["names"] == list(painter.editor.entry_names())
    assert len(painter.of("ahead")[0]["moves"]) == 7 * 6


def test_a_move_is_confirmed_with_its_table_alone(painter):
    painter.ask("move", moves=[[0, 3]])
    ((told, buffers),) = painter.sent
    assert told["kind"] == "moved"
    assert told["serial"] == 7
    assert told["entries"] == [1, 2, 3, 0, 4, 5, 6]
    along = answer(painter.editor.plan).layout.stretches
    np.testing.assert_array_equal(np.frombuffer(buffers[0], np.uint32), along.edges_ppb)
    np.testing.assert_array_equal(np.frombuffer(buffers[1], np.uint16), along.lot.ravel())


def test_numbers_and_words_follow_when_the_fingers_rest(painter):
    painter.ask("move", moves=[[0, 3]])
    painter.ask("rest")
    assert [content["kind"] for content, _ in painter.sent] == ["frame", "ahead", "words"]
    assert painter.of("frame")[0]["entries"] == [1, 2, 3, 0, 4, 5, 6]


def test_what_was_sent_ahead_holds_until_more_than_the_order_changes(painter):
    assert not painter.of("frame")[0]["ahead_holds"]
    painter.ask("move", moves=[[0, 3]])
    painter.ask("rest")
    assert painter.of("frame")[0]["ahead_holds"]
    painter.ask("reverse")
    assert not painter.of("frame")[0]["ahead_holds"]
    painter.ask("move", moves=[[0, 3]])
    painter.editor.change(name="staggered")
    painter.ask("rest")
    assert not painter.of("frame")[0]["ahead_holds"]


def test_numbers_of_carded_steps_hold_for_one_frame_alone():
    made = Heard(Editor(lots(5, name="gradient", blend_steps=2)))
    made.ask("ready")
    made.ask("move", moves=[[0, 3]])
    made.ask("rest")
    assert not made.of("frame")[0]["ahead_holds"]


def test_moves_that_came_while_the_kernel_was_busy_are_done_in_turn(painter):
    painter.ask("move", moves=[[0, 3], [6, 0], [0, 1]])
    assert painter.of("moved")[0]["entries"] == [6, 0, 1, 2, 3, 4, 5]


def test_what_is_asked_of_lots_that_are_others_by_now_moves_none(painter):
    turn = painter.of("frame")[0]["turn"]
    painter.editor.replace_plan(lots(3))
    for do, more in (("move", {"moves": [[5, 0]]}), ("hold", {"entry": 0, "held": True})):
        painter.ask(do, turn=turn, **more)
        assert painter.of("words")[0]["said"].startswith("The lots of the order changed meanwhile")
        (frame,) = painter.of("frame")
        assert (frame["serial"], frame["entries"], frame["held"]) == (7, [0, 1, 2], [])
        assert painter.of("moved") == []
    painter.ask("move", moves=[[0, 2]])
    assert painter.of("moved")[0]["entries"] == [1, 2, 0]


def test_what_is_asked_while_another_bench_turned_the_order_is_done(painter):
    turn = painter.of("frame")[0]["turn"]
    painter.editor.reverse()
    painter.ask("move", turn=turn, moves=[[0, 0]])
    assert painter.of("moved")[0]["entries"] == [0, 6, 5, 4, 3, 2, 1]


def test_a_refused_move_says_why_and_shows_what_stands(painter):
    painter.ask("hold", entry=1, held=True)
    painter.ask("move", moves=[[1, 4]])
    (frame,) = painter.of("frame")
    assert "is held; let it go first" in painter.of("words")[0]["said"]
    assert frame["serial"] == 7
    assert frame["entries"] == [0, 1, 2, 3, 4, 5, 6]
    painter.ask("move", moves=[[0, 99]])
    assert "there is no place 100" in painter.of("words")[0]["said"]


@pytest.mark.parametrize(("do", "then"), [("reverse", "undo"), ("turn", "undo")])
def test_every_button_does_what_it_says_and_can_be_undone(painter, do, then):
    painter.ask(do)
    assert painter.of("frame")[0]["entries"] != [0, 1, 2, 3, 4, 5, 6]
    painter.ask(then)
    (frame,) = painter.of("frame")
    assert frame["entries"] == [0, 1, 2, 3, 4, 5, 6]
    painter.ask("redo")
    assert painter.of("frame")[0]["entries"] != [0, 1, 2, 3, 4, 5, 6]


def test_the_order_is_closed_and_opened_again(painter):
    editor = Editor(lots(4))
    made = Heard(editor)
    made.ask("ready")
    assert not made.of("frame")[0]["closed"]
    made.ask("close")
    (frame,) = made.of("frame")
    assert (frame["closed"], frame["names"]) == (
        True,
        ["Lot 0", "Lot 1", "Lot 2", "Lot 3", "Lot 0"],
    )
    made.ask("close")
    assert made.of("frame")[0]["names"] == ["Lot 0", "Lot 1", "Lot 2", "Lot 3"]


@pytest.mark.parametrize("asked", [{}, {"do": "nonsense"}, {"do": None}, {"do": "_tried"}])
def test_what_nobody_asks_is_passed_over(painter, asked):
    painter.sent.clear()
    painter.handle(asked, [])
    assert painter.sent == []


def test_another_bench_on_the_same_plan_is_followed(painter):
    painter.sent.clear()
    painter.editor.change(name="staggered")
    assert "staggered" in " ".join(painter.of("frame")[0]["strip"]["heading"])


def test_scenes_are_sent_again_only_when_they_are_others(painter):
    painter.ask("rest")
    assert painter.of("scenes") == []
    painter.ask("look", metre=3.0)
    assert len(painter.of("scenes")) == 1
    assert [each["name"] for each in painter.of("scenes")[0]["scenes"]] == ["yarn"]
    (looked,) = painter.of("looked")
    words = looked["words"]["yarn"]
    assert words["caption"] == "30 mm of the yarn, from 3.0 m on"
    assert words["alt"].startswith("30 mm of the yarn, from 3.0 m on. Colours: ")
    assert painter.of("words") == []
    painter.sent.clear()
    painter.editor.change("spinning", single_tex=180.0)
    assert len(painter.of("scenes")) == 1


def test_the_fabric_shows_the_whole_yarn_or_is_knitted_from_the_mark_on(painter):
    painter.ask("look", metre=60.0)
    whole = painter.of("looked")[0]["words"]["fabric"]
    assert whole["caption"].startswith("Knitted from the bottom up: the whole yarn in small, each")
    painter.ask("knit", part=True)
    assert [each["name"] for each in painter.of("scenes")[0]["scenes"]] == ["fabric"]
    part = painter.of("looked")[0]["words"]["fabric"]
    assert part["caption"].startswith("Knitted from the bottom up: from 60 m to ")
    assert part["alt"].startswith(part["caption"])
    painter.ask("look", metre=90.0)
    assert ": from 90 m to " in painter.of("looked")[0]["words"]["fabric"]["caption"]
    painter.ask("reverse")
    assert painter.of("frame")[0]["knits_part"]
    assert ": from 90 m to " in painter.of("words")[0]["captions"]["fabric"]
    painter.ask("knit", part=False)
    assert painter.of("looked")[0]["words"]["fabric"] == whole


def test_the_fabric_says_where_it_begins(painter):
    painter.ask("rest")
    assert painter.of("words")[0]["captions"]["fabric"].startswith("Knitted from the bottom up")
    piece = {"stitches": 7, "rows": 90, "gauge_stitches": 22, "gauge_rows": 31}
    painter.editor.change("fabric", kind="triangle", **piece)
    painter.ask("rest")
    assert painter.of("words")[0]["captions"]["fabric"].startswith("Knitted from the top down")


def test_one_cannot_look_beyond_the_end(painter):
    painter.ask("look", metre=1e9)
    yarn_m = answer(painter.editor.plan).layout.stretches.yarn_m
    assert painter.of("looked")[0]["from_m"] == pytest.approx(yarn_m - 0.03)


@pytest.mark.parametrize("name", DIVIDING)
def test_every_scheme_has_frames(name):
    editor = Editor(lots(4))
    editor.change(name=name)
    made = Heard(editor)
    made.ask("ready")
    assert made.of("frame")[0]["entries"] == list(editor.entries)


def test_the_steps_that_a_gradient_cards_have_colours_of_their_own():
    editor = Editor(lots(3))
    editor.change(name="gradient", blend_steps=1)
    made = Heard(editor)
    made.ask("ready")
    (frame,) = made.of("frame")
    assert len(frame["lot_names"]) == 5
    assert len(frame["colours"]) == len(frame["inks"]) == len(frame["shades"]["lots"]) == 5
    assert frame["colours"] == list(editor.answer.palette.srgb)


def test_what_a_move_would_card_comes_with_its_colours():
    editor = Editor(lots(3))
    editor.change(name="gradient", blend_steps=1)
    made = Heard(editor)
    made.ask("ready")
    (more,) = (ahead["more"] for ahead in made.of("ahead"))
    assert more["lot_names"][:2] == ["Lot 1 1:1 Lot 0", "Lot 0 1:1 Lot 2"]
    moved = Editor(lots(3))
    moved.change(name="gradient", blend_steps=1)
    moved.move(0, 1)
    found = moved.answer
    by_name = dict(zip(found.plan.names, found.palette.srgb, strict=True))
    sent = dict(zip(more["lot_names"], more["colours"], strict=True))
    assert [sent[name] for name in more["lot_names"][:2]] == [
        by_name[name] for name in more["lot_names"][:2]
    ]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_tables_sent_ahead_are_what_the_move_then_leads_to(path):
    editor = Editor.opened(path)
    numbers = numbers_of(editor)
    moves, tables = look_ahead(editor, numbers, 0)
    names = np.array([*editor.preview.plan.names, *numbers.more()["lot_names"]])
    edge = cell = 0
    plies = answer(editor.plan).layout.stretches.lot.shape[1]
    for (entry, place), count, yarn_m in zip(moves, tables.counts, tables.yarn_m, strict=True):
        own = Editor.opened(path)
        own.move(own.place_of(entry), place)
        found = answer(own.plan)
        along = found.layout.stretches
        np.testing.assert_array_equal(tables.ticks[edge : edge + count + 1], along.edges_ppb)
        lot = tables.lot[cell : cell + count * plies].reshape(count, plies)
        np.testing.assert_array_equal(names[lot], np.array(found.plan.names)[along.lot])
        assert yarn_m == along.yarn_m
        edge, cell = edge + count + 1, cell + count * plies
    assert (edge, cell) == (len(tables.ticks), len(tables.lot))


def test_with_many_places_tables_are_sent_for_the_lot_in_hand():
    editor = Editor(lots(MOST_AHEAD + 1))
    assert look_ahead(editor, numbers_of(editor))[0] == []
    ahead_of_one, _ = look_ahead(editor, numbers_of(editor), 5)
    assert ahead_of_one == [(5, place) for place in range(13) if place != 5]
    made = Heard(editor)
    made.ask("ready")
    made.ask("grab", entry=5)
    assert len(made.of("ahead")[0]["moves"]) == 12
    made.ask("rest", entry=5)
    assert {entry for entry, _ in made.of("ahead")[0]["moves"]} == {5}


def test_held_places_are_not_sent_ahead():
    editor = Editor(lots(4))
    editor.hold(1)
    moves, _ = look_ahead(editor, numbers_of(editor))
    assert moves == [(0, 2), (0, 3), (2, 0), (2, 3), (3, 0), (3, 2)]


def test_a_large_shawl_is_not_cut_off_at_its_sides():
    """3 stitches and 2 more in every row: its last row is 423 wide, two pixels each."""
    fabric = {"kind": "triangle", "stitches": 3, "rows": 211, "increases_per_row": 2.0}
    editor = Editor(lots(4))
    editor.change("fabric", **fabric, gauge_stitches=26.0)
    found = editor.preview
    scene = scenes_of(found, 0.0).fabric
    rows = piece_shown(found).fabric.rows
    shown = scene.index // LEVELS >= len(FIXED_SRGB)
    assert shown.any(axis=0).sum() >= 2 * (3 + 2 * (rows - 1)) * 0.9
    assert not shown[:, 0].any()
    assert not shown[:, -1].any()


def test_places_of_a_scene_come_ply_by_ply_along_the_yarn():
    found = answer(read_plan(TIDELINE))
    for scene in (scenes_of(found, 0.5).yarn, scenes_of(found, 0.5).fabric):
        head, (place, metre, mottle, *maps) = packed_scene(scene)
        place, metre = np.frombuffer(place, np.uint32), np.frombuffer(metre)
        assert head["width"] * head["height"] * 2 == len(maps[0])
        assert len(mottle) == len(place) == len(metre)
        for k, (start, end) in enumerate(zip(head["starts"], head["starts"][1:], strict=False)):
            assert (scene.ply[place[start:end]] == k).all()
            assert (np.diff(metre[start:end]) >= 0).all()
        np.testing.assert_array_equal(scene.metre[place], metre)


def number(low: bytes, above: bytes) -> np.ndarray:
    lower = np.frombuffer(low, np.uint16)
    kind = np.uint8 if len(above) == len(lower) else np.uint16
    return lower.astype(np.intp) + (np.frombuffer(above, kind).astype(np.intp) << 16)


@pytest.mark.parametrize("places", [9, 3000, 90_000, 2_000_000])
def test_index_and_edges_come_whole_however_far_apart_and_however_many(places):
    draw = np.random.default_rng(places)
    index = draw.integers(0, places * LEVELS, (40, 50))
    at = np.array([3, 4, 700, 1999])
    share = np.array([1, 128, 77, 5], np.uint8)
    edges = Edges(at, draw.integers(0, places * LEVELS, 4), share)
    scene = Scene(index, np.zeros(9, int), np.linspace(0, 1, 9), 0.2, edges)
    _, (_, _, _, low, above, steps, *second, shares) = packed_scene(scene)
    np.testing.assert_array_equal(number(low, above), index.ravel())
    told = np.cumsum(np.frombuffer(steps, np.uint8).astype(int))
    shared = np.frombuffer(shares, np.uint8)
    np.testing.assert_array_equal(told[shared > 0], at)
    np.testing.assert_array_equal(shared[shared > 0], share)
    np.testing.assert_array_equal(number(*second)[shared > 0], edges.index)


def test_the_table_of_a_yarn_is_the_yarn():
    along = answer(read_plan(TIDELINE)).layout.stretches
    table = table_of(along)
    np.testing.assert_array_equal(table.ticks, along.edges_ppb)
    assert (table.counts, table.yarn_m) == ([len(along.lot)], [along.yarn_m])


def test_names_in_fragments_are_escaped():
    data = {"lots": [{"name": name, "colour": "#123", "mass_g": 3.0} for name in (HOSTILE, "x")]}
    made = Heard(Editor(plan_from_data(data)))
    made.ask("ready")
    (words,) = made.of("words")
    assert HOSTILE in made.of("frame")[0]["names"]
    assert not [html for html in words["html"].values() if "<script" in html]


@pytest.mark.parametrize(
    ("wound_off", "ends"),
    [
        (0, ["spun first, plied last", "spun last, plied first"]),
        (1, ["spun first, plied first", "spun last, plied last"]),
        (2, ["spun first, plied last", "spun last, plied first"]),
        ([0, 1, 0], ["spun first", "spun last"]),
    ],
)
def test_both_ends_say_what_is_spun_and_plied_first(wound_off, ends):
    editor = Editor(lots(3))
    editor.change("plying", wound_off=wound_off)
    made = Heard(editor)
    made.ask("ready")
    (frame,) = made.of("frame")
    assert frame["ends"] == ends
    begins = {
        "spun first, plied last": "what is spun last: that comes off a bobbin first",
        "spun first, plied first": "what is spun first: the bobbins are wound off",
        "spun first": "not all bobbins are wound off alike",
    }
    assert begins[ends[0]] in frame["turning"]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_grams_in_a_metre_of_each_ply_sum_up_to_what_is_in_the_yarn(path):
    found = Editor.opened(path).answer
    reading, laid = reading_of(found), found.layout
    kept = 1 - found.resolved.spin_loss
    in_the_yarn_g = sum(reading["g_per_m"]) * laid.stretches.yarn_m * kept
    assert in_the_yarn_g == pytest.approx(laid.yarn_g, rel=0.02)
    assert len(reading["plies"]) == laid.stretches.lot.shape[1]


FIRST_PICTURE = """
import sys
import tracemalloc
from yarncolor.editing.editor import Editor
from yarncolor.widgets.order.order_painter import OrderPainter
from yarncolor.widgets.order.packed_scenes import packed_scene
loaded = {}
class Heard(OrderPainter):
    def send(self, content, buffers=None, **_):
        loaded[content["kind"]] = "colour" in sys.modules
Heard(Editor.opened(sys.argv[1])).handle({"do": "ready"}, [])
print(loaded["scenes"], loaded["frame"], loaded["words"])
"""


def test_the_first_picture_does_not_wait_for_colour_science():
    command = [sys.executable, "-c", FIRST_PICTURE, str(SLACK_WATER)]
    told = subprocess.run(command, capture_output=True, text=True, check=True)
    assert told.stdout.split() == ["False", "False", "True"]


@pytest.mark.thorough
def test_hundreds_of_lots_on_a_dozen_plies_are_answered_in_parts():
    """What a finger waits for comes first and alone; words, which take longest, come last."""
    rows = [{"name": f"Lot {at}", "colour": "#406070", "mass_g": 20.0} for at in range(500)]
    scheme = {"name": "staggered", "plies": 12}
    made = Heard(Editor(plan_from_data({"lots": rows, "scheme": scheme})))
    made.ask("ready")
    made.ask("move", moves=[[0, 400]])
    assert [content["kind"] for content, _ in made.sent] == ["moved"]
    made.ask("rest", entry=0)
    told = [content["kind"] for content, _ in made.sent]
    assert told[-3:] == ["frame", "ahead", "words"]


@pytest.mark.thorough
def test_memory_stays_as_it_is_over_thousands_of_moves():
    made = Heard(Editor.opened(SLACK_WATER))
    made.ask("ready")

    def moves(count):
        for at in range(count):
            made.ask("move", moves=[[at % 8, (at * 5) % 8]])

    moves(2000)
    tracemalloc.start()
    moves(10)
    before, _ = tracemalloc.get_traced_memory()
    moves(3000)
    after, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert after - before < 4e6
