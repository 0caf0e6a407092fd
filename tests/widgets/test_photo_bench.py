"""What is drawn on a photograph, without a browser: boxes, corrections, readings, lots taken."""

import numpy as np
import pytest

import yarncolor as yc
from yarncolor.colour.photo.annotations import read_annotations
from yarncolor.colour.photo.demo import DEMO_LOTS, heap_box
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.proposals import proposals_said
from yarncolor.colour.photo.readings import said_of, seen_on
from yarncolor.editing.lots_from_photo import NOTHING_TAKEN, lots_from_annotations
from yarncolor.planfile import checks

CORNERS = [[0.06, 0.08], [0.48, 0.08], [0.48, 0.50], [0.06, 0.50]]
WHITE = [0.62, 0.18, 0.2, 0.2]
PLACES = [[0.0, 0.0, 0.02, 0.03], [0.975, 0.0, 0.02, 0.03], [0.5, 0.56, 0.02, 0.03]]
BAD = "good & <b>bold</b>"


@pytest.fixture(scope="module")
def photo():
    return yc.photo.demo_photo(yc.photo.Conditions(illuminant="A", balanced=False), (600, 450))


@pytest.fixture(scope="module")
def plan():
    lots = [{"name": name, "colour": "#56612d", "mass_g": 27.0} for name in ("Kelp", "Foam")]
    return yc.plan_from_data({"lots": lots})


def fibre(key, box, name="", mass_g=25.0):
    return {"key": key, "kind": "fibre", "box": list(box), "name": name, "mass_g": mass_g}


def box(key, kind, shares):
    return {"key": key, "kind": kind, "box": list(shares)}


def drawn(*boxes, **more):
    return {"boxes": list(boxes), "corners": [], "way": "nothing", "degree": 1, **more}


def seen(photo, *boxes, **more):
    return seen_on(photo, read_annotations(drawn(*boxes, **more)))


def said(photo, *boxes, **more):
    return said_of(seen(photo, *boxes, **more), photo.size_px)


# --- what is drawn ------------------------------------------------------------------------------


def test_nothing_drawn_is_nothing_wrong():
    marks = read_annotations({})
    assert (marks.boxes, marks.corners, marks.way, marks.even) == ((), (), "nothing", False)
    assert marks.faults == {}


def test_a_box_on_fibre_has_its_name_and_grams():
    (mark,) = read_annotations(drawn(fibre("3", (0.1, 0.2, 0.3, 0.4), "  Kelp ", 31))).boxes
    assert (mark.key, mark.kind, mark.name, mark.mass_g) == ("3", "fibre", "Kelp", 31.0)
    assert mark.box == yc.photo.Box(0.1, 0.2, 0.3, 0.4)


@pytest.mark.parametrize(
    ("shares", "words"),
    [
        ([None, 0.1, 0.2, 0.2], "left: give a number, 0 to 100 percent"),
        ([0.1, 0.1, None, None], "width, height: give a number, 0 to 100 percent"),
        ([True, 0.1, 0.2, "0.2"], "left, height: give a number, 0 to 100 percent"),
        ([float("nan"), 0.1, 0.2, 0.2], "left: give a number, 0 to 100 percent"),
        ([-0.05, 0.1, 0.2, 0.2], "left = -5 %: give 0 percent or more"),
        ([0.1, 0.1, 0, 0.2], "width = 0 %: give more than 0 percent"),
        (
            [0.9, 0.1, 0.2, 0.2],
            "left + width = 110 %: the box has to end inside the picture, at 100 percent or before",
        ),
        ([], "box: give a number, 0 to 100 percent"),
    ],
)
def test_a_box_that_is_none_is_told_in_its_own_row_and_the_others_are_read(shares, words):
    marks = read_annotations(drawn(fibre("1", shares), fibre("2", (0.1, 0.1, 0.2, 0.2))))
    assert marks.faults == {"1": words}
    assert [mark.key for mark in marks.boxes] == ["2"]


def test_all_that_is_wrong_with_a_box_is_told_at_once():
    faults = read_annotations(drawn(fibre("1", (-0.1, 0.9, 0.0, 0.2)))).faults
    assert faults["1"].count(";") == 2
    assert all(word in faults["1"] for word in ("left", "width", "top + height"))


def test_a_box_that_ends_at_the_edge_is_inside():
    marks = read_annotations(drawn(fibre("1", (0.1, 0.7, 0.9, 0.3))))
    assert marks.faults == {}
    assert marks.boxes[0].box.left + marks.boxes[0].box.width == pytest.approx(1)


@pytest.mark.parametrize("corners", [[[None, 0.1]], [["a", 0.1]], [[0.1]], [[0.1, 0.2, 0.3]]])
def test_corners_that_are_no_numbers_are_told(corners):
    assert read_annotations(drawn(corners=corners)).faults == {
        "corners": "corners: give numbers, 0 to 100 percent"
    }


def test_what_lies_on_nothing_known_is_left_out():
    assert read_annotations(drawn({"key": "1", "kind": "proposed", "box": WHITE})).boxes == ()
    assert read_annotations(drawn(way="magic")).way == "nothing"


# --- readings -----------------------------------------------------------------------------------


@pytest.mark.parametrize("number", range(5))
def test_a_box_is_read_where_it_lies_and_put_right_by_white(photo, number):
    told = said(photo, fibre("1", heap_box(number)), box("2", "white", WHITE), way="white")
    right = yc.photo.by_white(photo, yc.photo.Box(*WHITE))
    alone = yc.photo.read_boxes(photo, {"": yc.photo.Box(*heap_box(number))}, right)
    (row,) = told["rows"]
    assert row["colour"] in yc.show.readings(alone, right).html
    assert row["name"] == "fibre 1"
    assert row["out_by"] == "6"
    assert told["faults"] == {}


def test_every_correction_gives_another_colour_and_says_which(photo):
    words = {
        "nothing": "The picture was not corrected",
        "white": "The picture was corrected by something white",
        "grey": "The picture was corrected by something grey",
        "target": "The picture was corrected by a 24-patch target, 3 × 3",
    }
    boxes = [fibre("1", heap_box(0)), box("2", "white", WHITE), box("3", "grey", WHITE)]
    colours = set()
    for way, start in words.items():
        told = said(photo, *boxes, way=way, corners=CORNERS, edition="newer values")
        assert told["correction"][0].startswith(start)
        colours.add(told["rows"][0]["colour"])
    assert len(colours) == 4


@pytest.mark.parametrize("more", [{"edition": "older values"}, {"degree": 2}])
def test_edition_and_degree_change_what_the_target_gives(photo, more):
    usual = {"way": "target", "corners": CORNERS, "edition": "newer values"}
    assert said(photo, **usual)["fit"] != said(photo, **usual | more)["fit"]


def test_the_leave_one_out_error_of_the_target_is_said(photo):
    told = said(photo, way="target", corners=CORNERS, edition="newer values")
    fit = yc.photo.by_target(photo, [tuple(corner) for corner in CORNERS], "newer values")
    assert told["fit"] == (
        f"Patches left out one by one are met to {fit.left_out_mean:.1f} CIEDE2000 in the mean, "
        f"{fit.left_out_max:.1f} at worst; by the grey ones alone {fit.by_grey_mean:.1f}."
    )


BAD_CORNERS = [
    ([], "set the four corners of the target: 0 of 4 are set"),
    (CORNERS[:3], "set the four corners of the target: 3 of 4 are set"),
    (
        [[0.1, 0.1], [1.5, 0.1], [1.5, 0.5], [0.1, 0.5]],
        "corners: a corner lies outside the picture; the whole target has to be seen",
    ),
    (
        [CORNERS[0], CORNERS[2], CORNERS[1], CORNERS[3]],
        "corners: the corners make no plain four-sided field; give them going round",
    ),
    (
        [[0.05, 0.60], [0.95, 0.60], [0.95, 0.94], [0.05, 0.94]],
        "corners: no 24-patch target is seen there, or it is badly lit; mark the patches' corners",
    ),
]


@pytest.mark.parametrize(("corners", "words"), BAD_CORNERS)
def test_a_bad_target_is_said_beside_it_and_nothing_is_read(photo, corners, words):
    boxes = fibre("1", heap_box(0))
    told = said(photo, boxes, way="target", corners=corners, edition="newer values")
    assert told["faults"] == {"corners": words}
    assert told["rows"] == []


@pytest.mark.parametrize(("way", "thing"), [("white", "something white"), ("grey", "a grey card")])
def test_a_correction_asks_for_the_box_that_it_needs(photo, way, thing):
    told = said(photo, fibre("1", heap_box(0)), way=way)
    assert told["faults"] == {"way": f"draw a box on {thing} in the picture, or choose nothing"}
    assert told["rows"] == []


def test_a_box_that_cannot_be_read_leaves_the_others(photo):
    srgb = photo.srgb.copy()
    srgb[:60, :60] = 255
    told = said(Photo(srgb), fibre("1", (0, 0, 0.05, 0.05)), fibre("2", heap_box(1)))
    assert list(told["faults"]) == ["1"]
    assert told["faults"]["1"].startswith("box: every pixel in it is clipped or black")
    assert [row["name"] for row in told["rows"]] == ["fibre 2"]


def test_a_white_that_cannot_be_read_is_told_in_its_row(photo):
    black = Photo(np.where(np.arange(600)[None, :, None] < 60, 0, photo.srgb).astype(np.uint8))
    told = said(black, fibre("1", heap_box(2)), box("7", "white", (0, 0, 0.05, 0.5)), way="white")
    assert list(told["faults"]) == ["7"]


def test_light_is_made_even_by_three_places_where_that_is_asked(photo):
    places = [box(str(at), "place", shares) for at, shares in enumerate(PLACES)]
    light = yc.photo.light_by_white(photo, [yc.photo.Box(*shares) for shares in PLACES])
    assert said(photo, *places, even=True)["light"] == light.words
    assert said(photo, *places)["light"] == ""
    asked = said(photo, *places[:2], fibre("9", heap_box(0)), even=True)
    assert asked["faults"] == {"light": "boxes: give at least 3 boxes on white, well apart"}
    assert asked["rows"] == []


def test_uneven_light_changes_what_is_read():
    uneven = yc.photo.demo_photo(yc.photo.Conditions(falls_off=0.4), (600, 450))
    places = [box(str(at), "place", shares) for at, shares in enumerate(PLACES)]
    boxes = [*places, fibre("9", heap_box(0)), box("8", "white", WHITE)]
    colours = [said(uneven, *boxes, way="white", even=even)["rows"] for even in (True, False)]
    assert colours[0] != colours[1]


def test_the_text_alternative_says_what_is_drawn_and_read(photo):
    assert said(photo)["alt"] == "A photograph of 600 × 450 pixels, no boxes."
    told = said(
        photo,
        fibre("1", (0.08, 0.66, 0.1, 0.2), "Kelp"),
        fibre("2", heap_box(1)),
        box("3", "white", WHITE),
        corners=CORNERS[:2],
    )
    assert told["alt"].startswith(
        "A photograph of 600 × 450 pixels, drawn on it, from the left and the top: "
        "Kelp at 8 %, 66 %; fibre 2 at 27 %, 66 %; white 1 at 62 %, 18 %; "
        "2 of 4 corners of a target. Read: Kelp is #"
    )


def test_twins_among_proposals_are_named_in_words():
    srgb = np.full((240, 320, 3), (40, 42, 45), np.uint8)
    srgb[40:120, 30:110], srgb[40:110, 180:250] = (150, 60, 50), (152, 60, 51)
    told = proposals_said(yc.photo.proposals(Photo(srgb), 2))
    assert [one["number"] for one in told] == [1, 2]
    assert "hardly" not in told[0]["words"]
    assert told[1]["words"].endswith("hardly another colour than proposal 1")


# --- taken --------------------------------------------------------------------------------------


def test_every_box_on_fibre_becomes_a_lot_with_its_reading(photo, plan):
    boxes = [fibre(str(at), heap_box(at), name, 20 + at) for at, name in enumerate(DEMO_LOTS)]
    found = seen(photo, *boxes, box("9", "white", WHITE), way="white")
    done = lots_from_annotations(plan, found)
    assert done.plan.lots[:2] == plan.lots
    assert done.plan.names[2:] == tuple(DEMO_LOTS)
    assert [lot.mass_g for lot in done.plan.lots[2:]] == [20, 21, 22, 23, 24]
    for lot, reading in zip(done.plan.lots[2:], found.readings.values(), strict=True):
        assert lot.lab == pytest.approx(tuple(reading.lab), abs=0.01)
        assert lot.source.startswith("a photograph, corrected by something white; ")
    assert done.words.startswith("Taken into the plan: Harbour Blue (20 g), Rope (21 g), ")
    assert done.faults == {}


def test_a_lot_that_is_there_gets_the_colour_and_keeps_its_grams(photo, plan):
    done = lots_from_annotations(plan, seen(photo, fibre("1", heap_box(0), "Kelp", None)))
    assert done.plan.names == plan.names
    assert done.plan.lots[0].mass_g == 27.0
    assert done.plan.lots[0].lab is not None
    assert done.words.startswith("Taken for lots that were there, whose grams stay: Kelp.")


def test_a_new_lot_comes_last_in_an_order_of_its_own():
    lots = [{"name": name, "colour": "#56612d", "mass_g": 27.0} for name in ("Kelp", "Foam")]
    data = {"lots": lots, "scheme": {"name": "matched", "sequence": ["Kelp", "Foam"]}}
    done = lots_from_annotations(
        yc.plan_from_data(data), seen(yc.photo.demo_photo(), fibre("1", heap_box(0), "Rust"))
    )
    assert "New lots come last in the order." in done.words
    assert done.plan.scheme.sequence == ("Kelp", "Foam", "Rust")


def test_a_new_lot_goes_before_the_lot_that_closes_the_order():
    lots = [{"name": name, "colour": "#56612d", "mass_g": 27.0} for name in ("Kelp", "Foam")]
    scheme = {"name": "matched", "sequence": ["Kelp", "Foam", "Kelp"], "parts": [2, 1, 3]}
    done = lots_from_annotations(
        yc.plan_from_data({"lots": lots, "scheme": scheme}),
        seen(yc.photo.demo_photo(), fibre("1", heap_box(0), "Rust")),
    )
    assert "New lots come last in the order, before the lot that closes it." in done.words
    assert done.plan.scheme.sequence == ("Kelp", "Foam", "Rust", "Kelp")
    assert done.plan.scheme.parts == (2, 1, 1, 3)


@pytest.mark.parametrize(
    ("name", "mass_g", "words"),
    [
        ("", 25.0, "name: give a name of 1 to 60 characters, without control characters"),
        ("x" * 61, 25.0, "name: give a name of 1 to 60 characters, without control characters"),
        ("a\nb", 25.0, "name: give a name of 1 to 60 characters, without control characters"),
        ("Rust", None, "grams: give grams, 0.001 to 100,000"),
        ("Rust", -3.0, "grams: give grams, 0.001 to 100,000"),
        ("Rust", float("inf"), "grams: give grams, 0.001 to 100,000"),
    ],
)
def test_a_lot_that_no_plan_takes_is_told_in_its_row_and_none_is_taken(
    photo, plan, name, mass_g, words
):
    good, bad = fibre("1", heap_box(0), "Good"), fibre("2", heap_box(1), name, mass_g)
    done = lots_from_annotations(plan, seen(photo, good, bad))
    assert done.plan is plan
    assert done.words == NOTHING_TAKEN
    assert done.faults == {"2": words}


def test_faults_of_all_rows_are_told_at_once(photo, plan):
    rows = [fibre("1", heap_box(0)), fibre("2", heap_box(1), "Rust", 0), fibre("3", (2, 0, 1, 1))]
    assert set(lots_from_annotations(plan, seen(photo, *rows)).faults) == {"1", "2", "3"}


def test_all_boxes_are_validated_at_once(photo, plan, monkeypatch):
    checked = []
    monkeypatch.setattr(checks, "check", lambda *told, own=checks.check: checked.append(own(*told)))
    boxes = [fibre(str(at), heap_box(at), name, 20 + at) for at, name in enumerate(DEMO_LOTS)]
    assert lots_from_annotations(plan, seen(photo, *boxes)).plan is not plan
    assert len(checked) == 1


def test_an_order_that_a_new_lot_makes_too_long_is_told_beside_the_box(photo):
    lots = [{"name": name, "colour": "#56612d", "mass_g": 27.0} for name in ("Kelp", "Foam")]
    full = yc.plan_from_data({"lots": lots, "scheme": {"sequence": ["Kelp", "Foam"] * 250}})
    done = lots_from_annotations(full, seen(photo, fibre("1", heap_box(0), "Rust")))
    assert done.plan is full
    assert done.faults == {"1": "scheme: sequence: give a list of 1 to 500 names of lots"}


def test_a_lot_that_others_are_made_from_is_told_what_they_cannot_be(photo):
    lots = [
        {"name": "Kelp", "colour": "#56612d", "mass_g": 27.0},
        {"name": "Foam", "colour": "#ffffff", "mass_g": 27.0},
        {"name": "Pale", "mass_g": 5.0,
         "bath": {"of": "Kelp", "number": 2, "exhaustion": 0.7, "undyed": "Foam"}},
    ]  # fmt: skip
    pale = yc.plan_from_data({"lots": [{**lots[0], "colour": "#fefefe"}, *lots[1:]]})
    boxes = [fibre("1", heap_box(0), "Rust"), fibre("2", heap_box(1), "Foam")]
    done = lots_from_annotations(pale, seen(photo, *boxes))
    told = 'lots 3 (Pale): bath: undyed: is not lighter than "Kelp"; name the fibre before dyeing'
    assert done.faults == {"2": told}


def test_two_boxes_of_one_name_are_not_taken(photo, plan):
    rows = [fibre("1", heap_box(0), "Rust"), fibre("2", heap_box(1), "Rust")]
    done = lots_from_annotations(plan, seen(photo, *rows))
    assert done.plan is plan
    assert set(done.faults.values()) == {
        "name: another box has that name too; give each lot its own"
    }


def test_nothing_is_taken_while_nothing_is_read(photo, plan):
    done = lots_from_annotations(plan, seen(photo, fibre("1", heap_box(0), "Rust"), way="target"))
    assert done.plan is plan
    assert done.words == NOTHING_TAKEN
    none = lots_from_annotations(plan, seen(photo))
    assert (none.plan, none.words) == (
        plan,
        "Draw a box on the fibre first, and give it a name.",
    )


def test_names_are_only_names(photo, plan):
    done = lots_from_annotations(plan, seen(photo, fibre("1", heap_box(0), BAD)))
    assert done.plan.names[-1] == BAD
    assert "&lt;b&gt;" in yc.show.stash(yc.answer(done.plan)).html
