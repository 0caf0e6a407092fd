"""From a photograph to lots of a plan: uneven light, proposals, files, advice, what is shown."""

import io

import colour
import numpy as np
import pytest
from PIL import Image

import yarncolor as yc
from yarncolor.colour.photo.correction import Correction
from yarncolor.colour.photo.demo import DEMO_LOTS, TARGET_CORNERS, example_photo, heap_box
from yarncolor.colour.photo.illumination import BEYOND_WORDS, Illumination, light_of
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.sampling import PatchReading, fibre_colour
from yarncolor.plan import Lot
from yarncolor.report.advice import advice_on

WIDE, HIGH = 600, 400
FIBRE = np.array([0.2, 0.1, 0.05])
ON_FIBRE = yc.photo.Box(0.72, 0.72, 0.15, 0.15)
HOSTILE = "<script>alert('x')</script> & \"Foam\""


ALL_OVER = np.array([[0.0, 0.0], [1.0, 1.0]])


def coded(light: np.ndarray) -> np.ndarray:
    return np.rint(255 * colour.cctf_encoding(np.clip(light, 0, 1))).astype(np.uint8)


def lab_of(light: np.ndarray) -> np.ndarray:
    return colour.XYZ_to_Lab(colour.RGB_to_XYZ(light, "sRGB"))


def away(one: np.ndarray, other: np.ndarray) -> float:
    return float(colour.delta_E(one, other, method="CIE 2000"))


def refusal(task, *arguments) -> str:
    with pytest.raises(yc.PlanError) as told:
        task(*arguments)
    assert "\n" not in str(told.value)
    return str(told.value)


# --- uneven light -------------------------------------------------------------------------------


def on_paper(light_at) -> Photo:
    """Return fibre on a sheet of paper that fills the picture, in light by place."""
    y, x = np.mgrid[0:HIGH, 0:WIDE]
    light = np.full((HIGH, WIDE, 3), 0.85)
    light[int(0.7 * HIGH) : int(0.9 * HIGH), int(0.7 * WIDE) : int(0.9 * WIDE)] = FIBRE
    return Photo(coded(light * light_at((x + 0.5) / WIDE, (y + 0.5) / HIGH)[..., None]))


def aslant(x, y):
    return 0.7 * np.exp(-0.5 * (x - 0.5) - 0.4 * (y - 0.5))


def by_a_window(x, y):
    """Light that falls off with the square of the distance from a window to the left."""
    return 0.95 / (1 + 0.35 * ((x + 0.3) ** 2 + (y - 0.3) ** 2))


ROUND_IT = [
    yc.photo.Box(x, y, 0.08, 0.08) for x, y in ((0.02, 0.02), (0.9, 0.02), (0.02, 0.9), (0.9, 0.9))
]
WHITES = [*ROUND_IT, yc.photo.Box(0.45, 0.45, 0.1, 0.1)]


@pytest.mark.parametrize("white", WHITES)
def test_a_plane_of_light_is_made_even_wherever_the_white_lies(white):
    photo = on_paper(aslant)
    light = yc.photo.light_by_white(photo, ROUND_IT)
    found = yc.photo.by_white(photo, white, light=light)
    reading = yc.photo.read_boxes(photo, {"it": ON_FIBRE}, found, light)["it"]
    assert away(reading.lab, lab_of(FIBRE)) < 0.5


def test_light_that_falls_off_puts_a_colour_out_unless_made_even():
    photo = on_paper(aslant)
    found = yc.photo.by_white(photo, ROUND_IT[0])
    reading = yc.photo.read_boxes(photo, {"it": ON_FIBRE}, found)["it"]
    assert away(reading.lab, lab_of(FIBRE)) > 5


@pytest.mark.parametrize("white", ROUND_IT[:3])
def test_light_from_a_window_is_made_nearly_even(white):
    photo = on_paper(by_a_window)
    light = yc.photo.light_by_white(photo, ROUND_IT)
    even = yc.photo.read_boxes(
        photo, {"it": ON_FIBRE}, yc.photo.by_white(photo, white, light=light), light
    )
    assert away(even["it"].lab, lab_of(FIBRE)) < 1.5


@pytest.mark.parametrize("slope", [(-0.5, -0.4), (0.0, 0.0), (1.2, -0.3)])
@pytest.mark.parametrize("middle", [-0.6, -2.0])
def test_a_plane_of_light_is_found_exactly(slope, middle):
    places = np.random.default_rng(3).uniform(0, 1, (7, 2))
    bright = np.exp(middle + (places - 0.5) @ np.array(slope))
    found = light_of(places, bright)
    np.testing.assert_allclose(found.slope, slope, atol=1e-9)
    assert found.middle == pytest.approx(middle, abs=1e-9)
    assert found.left_over == pytest.approx(0, abs=1e-9)
    assert found.falls_by == pytest.approx(1 - bright.min() / bright.max(), abs=1e-9)
    here = places.mean(axis=0) + np.array((0.1, -0.1))
    right = np.exp((np.array(here) - 0.5) @ np.array(slope))
    assert found.at(here) == pytest.approx(right, rel=1e-9)


def test_beyond_the_places_on_white_the_light_is_taken_as_amid_them():
    places = np.array([[0.2, 0.2], [0.6, 0.2], [0.2, 0.6], [0.6, 0.6]])
    found = light_of(places, np.exp((places - 0.5) @ (-1.0, 0.5)))
    for near in ((0.2, 0.2), (0.11, 0.69), (0.69, 0.11)):
        assert found.reaches(near)
        assert found.at(near) == pytest.approx(np.exp((np.array(near) - 0.5) @ (-1.0, 0.5)))
    for far in ((0.09, 0.4), (0.4, 0.71), (0.9, 0.9)):
        assert not found.reaches(far)
        assert found.at(far) == pytest.approx(np.exp(-0.1 * -1.0 + -0.1 * 0.5))


@pytest.mark.parametrize("falls_off", [0.2, 0.4])
def test_light_brightest_in_the_middle_is_made_even_by_five_places_round_the_fibre(falls_off):
    """Vignetting; the places lie on the grey table at the corners and between the things on it."""
    heaps = {str(number): yc.photo.Box(*heap_box(number)) for number in range(5)}
    white = yc.photo.Box(0.65, 0.2, 0.15, 0.2)
    still = yc.photo.demo_photo()
    right = yc.photo.read_boxes(still, heaps, yc.photo.by_white(still, white))
    photo = yc.photo.demo_photo(yc.photo.Conditions(falls_off=falls_off))
    places = [(x, y) for x in (0.0, 0.975) for y in (0.0, 0.95)] + [(0.5, 0.3), (0.5, 0.56)]
    light = yc.photo.light_by_white(photo, [yc.photo.Box(x, y, 0.02, 0.03) for x, y in places])
    assert light.falls_by == pytest.approx(falls_off * 0.95, abs=0.02)
    even = yc.photo.read_boxes(photo, heaps, yc.photo.by_white(photo, white, light=light), light)
    for name, reading in right.items():
        assert away(even[name].lab, reading.lab) < 0.5
        assert even[name].warnings == ()


def test_places_on_white_that_do_not_fit_are_said():
    light = Illumination(np.array([0.6, 0.0]), 0.0, -0.4, 0.12, 0.3, ALL_OVER)
    assert light.words == (
        "The light falls off by 30% between the places on white; readings among them are made "
        "even, though one place strays from that by 12%: is each box on the same white, none in a "
        "shadow?"
    )


def falling_demo(falls_off):
    """Return the demo photograph in falling light, its light by the paper, and heaps put right."""
    photo = yc.photo.demo_photo(yc.photo.Conditions(falls_off=falls_off))
    spots = [yc.photo.Box(x, y, 0.06, 0.06) for x in (0.56, 0.89) for y in (0.04, 0.47)]
    light = yc.photo.light_by_white(photo, spots)
    white = yc.photo.by_white(photo, yc.photo.Box(0.65, 0.2, 0.15, 0.2), light=light)
    heaps = {str(number): yc.photo.Box(*heap_box(number)) for number in range(5)}
    return yc.photo.read_boxes(photo, heaps, white, light), white


def test_a_reading_beyond_the_places_on_white_says_so_and_is_less_sure():
    found, white = falling_demo(0.4)
    for reading in found.values():
        assert reading.warnings == (BEYOND_WORDS,)
        lot = yc.photo.lot_from("it", 20.0, reading, white)
        assert lot.source.endswith(BEYOND_WORDS)
        assert lot.colour_unsure == round(float(np.hypot(6.0, reading.unsure)), 1)
    assert max(reading.unsure for reading in found.values()) > 3


def test_even_light_leaves_nothing_to_say_beyond_the_places_on_white():
    found, white = falling_demo(0.0)
    for reading in found.values():
        assert reading.warnings == ()
        assert yc.photo.lot_from("it", 20.0, reading, white).colour_unsure == 6.0


def test_a_doubtful_box_may_be_out_by_as_much_as_its_pixels_differ():
    photo = yc.photo.demo_photo()
    across = yc.photo.Box(0.14, 0.66, 0.20, 0.20)
    found = yc.photo.read_boxes(photo, {"two heaps": across}, yc.photo.uncorrected())["two heaps"]
    assert found.warnings
    assert found.unsure == found.spread > 5
    lot = yc.photo.lot_from("it", 20.0, found, yc.photo.uncorrected())
    assert lot.colour_unsure == round(float(np.hypot(10.0, found.spread)), 1)


def test_what_the_plane_does_not_meet_is_said_in_shares():
    places = np.array([[0.0, 0.0], [1, 0], [0, 1], [1, 1]])
    assert light_of(places, np.exp([0.1, -0.1, -0.1, 0.1])).left_over == pytest.approx(
        np.expm1(0.1)
    )


def test_even_light_is_said_to_be_even():
    light = Illumination(np.array([0.03, 0.0]), 0.0, -0.4, 0.0, 0.03, ALL_OVER)
    assert light.words == "The light is even: 3% between the places on white."


def test_uneven_light_is_said_with_how_much_is_lost():
    light = yc.photo.light_by_white(on_paper(aslant), ROUND_IT[:3])
    lost = 1 - np.exp(-0.5 * 0.88)
    assert light.words.startswith(
        f"The light falls off by {lost:.0%} between the places on white; "
    )


@pytest.mark.parametrize(
    "places",
    [[(0.1, 0.1), (0.5, 0.5), (0.9, 0.9)], [(0.1, 0.4), (0.5, 0.4), (0.8, 0.4), (0.9, 0.4)],
     [(0.3, 0.3)] * 3, [(0.5, 0.1), (0.5, 0.5), (0.5, 0.8)]],
)  # fmt: skip
def test_boxes_in_one_line_are_refused(places):
    photo = Photo(np.full((HIGH, WIDE, 3), 200, np.uint8))
    boxes = [yc.photo.Box(x - 0.02, y - 0.02, 0.04, 0.04) for x, y in places]
    assert refusal(yc.photo.light_by_white, photo, boxes) == (
        "boxes: these places lie in one line; add one beside it"
    )


@pytest.mark.parametrize("count", [0, 1, 2])
def test_fewer_than_three_boxes_on_white_are_refused(count):
    assert refusal(yc.photo.light_by_white, on_paper(aslant), ROUND_IT[:count]) == (
        "boxes: give at least 3 boxes on white, well apart"
    )


@pytest.mark.parametrize("falls_off", [0.2, 0.4])
def test_making_even_never_harms_the_demo_photograph(falls_off):
    """Its light falls off to the corners, its paper lies in one of them."""
    heaps = {str(number): yc.photo.Box(*heap_box(number)) for number in range(5)}
    white = yc.photo.Box(0.65, 0.2, 0.15, 0.2)
    still = yc.photo.demo_photo()
    right = yc.photo.read_boxes(still, heaps, yc.photo.by_white(still, white))
    photo = yc.photo.demo_photo(yc.photo.Conditions(falls_off=falls_off))
    spots = [yc.photo.Box(x, y, 0.06, 0.06) for x in (0.56, 0.89) for y in (0.04, 0.47)]
    light = yc.photo.light_by_white(photo, spots)
    assert "falls off" in light.words
    plain = yc.photo.read_boxes(photo, heaps, yc.photo.by_white(photo, white))
    even = yc.photo.read_boxes(photo, heaps, yc.photo.by_white(photo, white, light=light), light)
    for name, reading in right.items():
        harmless = away(plain[name].lab, reading.lab) + 0.5
        assert away(even[name].lab, reading.lab) < harmless


# --- several boxes ------------------------------------------------------------------------------


def test_every_box_is_read_by_its_name_and_in_order():
    photo = yc.photo.demo_photo()
    boxes = {name: yc.photo.Box(*heap_box(number)) for number, name in enumerate(DEMO_LOTS)}
    found = yc.photo.read_boxes(photo, boxes, yc.photo.uncorrected())
    assert list(found) == list(DEMO_LOTS)
    for name, box in boxes.items():
        np.testing.assert_array_equal(found[name].lab, fibre_colour(photo, box).lab)


def test_the_demo_lots_are_met_by_a_target_as_well_as_is_said():
    photo = yc.photo.demo_photo(yc.photo.Conditions(illuminant="A", balanced=False, falls_off=0.1))
    corners = [(0.06, 0.08), (0.48, 0.08), (0.48, 0.50), (0.06, 0.50)]
    found = yc.photo.by_target(photo, corners, "older values").correction
    boxes = {name: yc.photo.Box(*heap_box(number)) for number, name in enumerate(DEMO_LOTS)}
    for name, reading in yc.photo.read_boxes(photo, boxes, found).items():
        right = np.array([int(DEMO_LOTS[name][at : at + 2], 16) for at in (1, 3, 5)]) / 255
        assert away(reading.lab, lab_of(colour.cctf_decoding(right))) < 8


@pytest.mark.parametrize(("illuminant", "balanced"), [("D65", True), ("A", True), ("FL2", False)])
def test_a_grey_card_alone_puts_the_example_right_as_paper_does(illuminant, balanced):
    light = yc.photo.Conditions(illuminant=illuminant, balanced=balanced, has_target=False)
    photo = yc.photo.demo_photo(light)
    card = yc.photo.by_white(photo, yc.photo.Box(0.15, 0.15, 0.2, 0.2), "grey")
    paper = yc.photo.by_white(photo, yc.photo.Box(0.62, 0.16, 0.25, 0.25))
    assert card.warnings == ()
    boxes = {name: yc.photo.Box(*heap_box(number)) for number, name in enumerate(DEMO_LOTS)}
    read = [yc.photo.read_boxes(photo, boxes, each) for each in (card, paper)]
    for name in boxes:
        assert away(read[0][name].lab, read[1][name].lab) < 0.5


def test_no_target_is_on_the_picture_that_a_bench_begins_with():
    photo = example_photo()
    assert photo.is_example
    said = refusal(yc.photo.by_target, photo, TARGET_CORNERS, "older values")
    assert "corners" in said


def test_a_box_outside_is_refused_among_good_ones():
    boxes = {"good": yc.photo.Box(0.1, 0.1, 0.2, 0.2), "bad": yc.photo.Box(0.9, 0.1, 0.2, 0.2)}
    said = refusal(yc.photo.read_boxes, yc.photo.demo_photo(), boxes, yc.photo.uncorrected())
    assert "0.9, 0.1, 0.2, 0.2: give left, top, width and height in shares" in said


# --- proposals ----------------------------------------------------------------------------------

ROW_TOP = 0.58


def row_of_heaps(conditions=None, size=(900, 675)) -> Photo:
    """Return the lower part of the demo photograph: five heaps on a table."""
    photo = yc.photo.demo_photo(conditions or yc.photo.Conditions(), size)
    return Photo(photo.srgb[round(ROW_TOP * size[1]) :])


def heap_under(box: yc.photo.Box) -> int | None:
    """Return which heap of the demo photograph a box lies in, all of it."""
    for number in range(5):
        left = 0.05 + 0.19 * number
        if left <= box.left and box.left + box.width <= left + 0.16:
            return number
    return None


CONDITIONS = {
    "plain": yc.photo.Conditions(),
    "lamp": yc.photo.Conditions(illuminant="A"),
    "uneven": yc.photo.Conditions(falls_off=0.3),
    "noisy": yc.photo.Conditions(noise=0.02),
    "dark": yc.photo.Conditions(exposure=0.5),
}


@pytest.mark.parametrize("conditions", CONDITIONS)
@pytest.mark.parametrize(
    "size", [(900, 675), pytest.param((1201, 903), marks=pytest.mark.thorough)]
)
def test_the_five_heaps_of_the_demo_photograph_are_found(conditions, size):
    photo = row_of_heaps(CONDITIONS[conditions], size)
    found = yc.photo.proposals(photo, 5)
    assert sorted(heap_under(proposal.box) for proposal in found) == [0, 1, 2, 3, 4]
    assert [proposal.twin_of for proposal in found] == [None] * 5
    for proposal in found:
        box = proposal.box
        assert box.top >= (0.60 - ROW_TOP) / (1 - ROW_TOP)
        assert box.top + box.height <= (0.94 - ROW_TOP) / (1 - ROW_TOP) + 0.01
        number = heap_under(box)
        whole = yc.photo.Box(0.06 + 0.19 * number, 0.1, 0.14, 0.7)
        assert away(fibre_colour(photo, box).lab, fibre_colour(photo, whole).lab) < 0.5
        assert away(proposal.lab, fibre_colour(photo, whole).lab) < 3
        assert proposal.share == pytest.approx(0.16 * 0.34 / (1 - ROW_TOP), rel=0.15)


HARD = {
    "lamp taken for daylight": yc.photo.Conditions(illuminant="A", balanced=False, falls_off=0.15),
    "dark corners": yc.photo.Conditions(illuminant="A", falls_off=0.4),
    **CONDITIONS,
}
EASIER = [name for name in HARD if name != "dark corners"]


@pytest.mark.parametrize(
    "conditions",
    ["dark corners", *(pytest.param(name, marks=pytest.mark.thorough) for name in EASIER)],
)
def test_the_paper_and_all_heaps_are_found_beside_a_target(conditions):
    """One heap is nearly as dark as the table, and the target has two dozen colours."""
    paper, *heaps = yc.photo.proposals(yc.photo.demo_photo(HARD[conditions]), 6)
    assert paper.share == pytest.approx(0.43 * 0.54, rel=0.05)
    assert sorted(heap_under(one.box) for one in heaps) == [0, 1, 2, 3, 4]


def test_the_same_picture_gives_the_same_proposals():
    one, two = (yc.photo.proposals(row_of_heaps(), 5) for _ in "12")
    assert [proposal.box for proposal in one] == [proposal.box for proposal in two]


def test_proposals_come_largest_first():
    shares = [proposal.share for proposal in yc.photo.proposals(yc.photo.demo_photo(), 8)]
    assert shares == sorted(shares, reverse=True)


NEAR = [(60, 90, 140), (150, 60, 50), (160, 66, 48), (60, 110, 60)]
FAR = [(60, 90, 140), (150, 60, 50), (200, 170, 60), (60, 110, 60)]


def heaps_of(colours) -> Photo:
    """Return heaps of these colours in a row on a grey table, with a camera's noise."""
    picture = np.full((300, 640, 3), 60.0)
    for number, rgb in enumerate(colours):
        picture[60:240, 160 * number + 15 : 160 * number + 145] = rgb
    noise = np.random.default_rng(1).normal(0, 5, picture.shape)
    return Photo(np.clip(picture + noise, 0, 255).astype(np.uint8))


def place_of(proposal) -> int:
    return int(proposal.box.middle[0] * 4)


def test_lots_of_their_own_colour_are_no_twins():
    found = yc.photo.proposals(heaps_of(FAR), 4)
    assert sorted(place_of(proposal) for proposal in found) == [0, 1, 2, 3]
    assert [proposal.twin_of for proposal in found] == [None] * 4


def test_near_twins_are_pointed_out():
    """3.6 CIEDE2000 apart: less than what passes for one in a yarn."""
    found = yc.photo.proposals(heaps_of(NEAR), 4)
    assert sorted(place_of(proposal) for proposal in found) == [0, 1, 2, 3]
    (twin,) = [proposal for proposal in found if proposal.twin_of is not None]
    assert {place_of(twin), place_of(found[twin.twin_of])} == {1, 2}


@pytest.mark.parametrize("colours", [FAR, NEAR])
@pytest.mark.parametrize("count", [4, 5, 6])
def test_no_edge_is_taken_for_a_lot(colours, count):
    for proposal in yc.photo.proposals(heaps_of(colours), count):
        assert proposal.box.width > 0.05


def test_two_heaps_of_the_same_colour_are_two_lots_and_twins():
    found = yc.photo.proposals(heaps_of([FAR[0], FAR[1], FAR[1], FAR[0]]), 4)
    assert sorted(place_of(proposal) for proposal in found) == [0, 1, 2, 3]
    pairs = {
        frozenset((place_of(one), place_of(found[one.twin_of])))
        for one in found
        if one.twin_of is not None
    }
    assert pairs == {frozenset((0, 3)), frozenset((1, 2))}


def test_a_lot_of_the_colour_of_the_table_is_found_where_it_lies_apart():
    """The table, a heap of its colour, and a shadow round that heap."""
    photo = heaps_of([FAR[0], (30, 30, 30), FAR[2], FAR[3]])
    picture = photo.srgb.copy()
    picture[80:220, 195:285] = np.random.default_rng(2).normal(60, 5, (140, 90, 3))
    found = yc.photo.proposals(Photo(picture), 6)
    assert any(
        place_of(one) == 1 and away(one.lab, lab_of(np.full(3, 0.0452))) < 2 for one in found
    )


def test_heaps_that_fill_the_picture_are_no_ground():
    picture = np.full((300, 600, 3), FAR[0], np.uint8)
    picture[:, 300:] = FAR[1]
    assert len(yc.photo.proposals(Photo(picture), 2)) == 2


@pytest.mark.parametrize("count", [0, -1, 25, 1000])
def test_no_lots_and_too_many_are_refused(count):
    assert (
        refusal(yc.photo.proposals, yc.photo.demo_photo(), count)
        == f"count = {count}: give 1 to 24 lots"
    )


@pytest.mark.parametrize("size", [(300, 400), (16, 16), (16, 20000), (20000, 16), (17, 5000)])
@pytest.mark.parametrize("count", [1, 5, 24])
def test_a_picture_of_one_colour_has_nothing_to_propose(size, count, recwarn):
    photo = Photo(np.full((*size, 3), (120, 80, 60), np.uint8))
    assert yc.photo.proposals(photo, count) == []
    assert len(recwarn) == 0


@pytest.mark.parametrize("size", [(16, 16), (16, 20000), (5000, 17), (100, 100)])
def test_a_picture_of_two_colours_is_no_trouble(size, recwarn):
    srgb = np.full((*size, 3), (120, 80, 60), np.uint8)
    srgb[size[0] // 2 :] = (30, 60, 150)
    for proposal in yc.photo.proposals(Photo(srgb), 24):
        assert np.isfinite(fibre_colour(Photo(srgb), proposal.box).lab).all()
    assert len(recwarn) == 0


# --- into a plan and its file -------------------------------------------------------------------

READING = PatchReading(np.array([0.1, 0.1, 0.1]), np.array([41.237, 20.004, -7.118]), 2.0, 900, ())
WHITE = Correction("white", np.ones(3), 0, 6.0, "corrected by something white")
TWO = {
    "lots": [
        {"name": "Kelp", "colour": "#56612d", "mass_g": 27.0, "note": "from the pier",
         "dye": "weld", "fibre": "wool"},
        {"name": "Foam", "lab": [86.0, 0.5, 8.0], "mass_g": 20.0},
    ]
}  # fmt: skip
SOURCE = (
    "a photograph, corrected by something white; loose fibre looks paler than spun yarn, wet "
    "fibre darker"
)


def test_a_lot_has_the_colour_and_where_it_comes_from():
    lot = yc.photo.lot_from("Rust", 25.0, READING, WHITE)
    assert lot == Lot("Rust", 25.0, lab=(41.24, 20.0, -7.12), source=SOURCE, colour_unsure=6.0)


def test_doubts_go_with_the_lot():
    doubted = PatchReading(READING.linear, READING.lab, 2.0, 90, ("one doubt", "another"))
    assert yc.photo.lot_from("Rust", 25.0, doubted, WHITE).source == f"{SOURCE}; one doubt; another"


def test_a_colour_beyond_what_a_plan_takes_is_brought_in(tmp_path):
    far = PatchReading(READING.linear, np.array([131.0, 160.0, -190.0]), 2.0, 900, ())
    lot = yc.photo.lot_from("Rust", 25.0, far, WHITE)
    assert lot.lab == (100, 128, -128)
    path = tmp_path / "plan.toml"
    yc.save_plan(yc.photo.with_lot(yc.plan_from_data(TWO), lot), path)
    assert yc.read_plan(path).lots[-1] == lot


def test_a_new_lot_is_written_and_read_back(tmp_path):
    plan, path = yc.plan_from_data(TWO), tmp_path / "plan.toml"
    lot = yc.photo.lot_from("Rust", 25.0, READING, WHITE)
    yc.save_plan(yc.photo.with_lot(plan, lot), path)
    found = yc.read_plan(path)
    assert found.lots == (*plan.lots, lot)
    assert (found.lots[2].source, found.lots[2].colour_unsure) == (SOURCE, 6.0)


def test_a_lot_of_that_name_gets_another_colour_and_keeps_the_rest(tmp_path):
    plan, path = yc.plan_from_data(TWO), tmp_path / "plan.toml"
    yc.save_plan(yc.photo.with_lot(plan, yc.photo.lot_from("Kelp", 99.0, READING, WHITE)), path)
    found = yc.read_plan(path).lots
    assert [lot.name for lot in found] == ["Kelp", "Foam"]
    assert (found[0].colour, found[0].lab) == (None, (41.24, 20.0, -7.12))
    assert (found[0].mass_g, found[0].note, found[0].dye) == (27.0, "from the pier", "weld")
    assert (found[0].source, found[0].colour_unsure) == (SOURCE, 6.0)
    assert found[1] == plan.lots[1]


def test_a_blend_of_that_name_becomes_a_lot_of_its_own_colour(tmp_path):
    data = {"lots": [*TWO["lots"], {"name": "Mix", "blend": {"Kelp": 1, "Foam": 1}, "mass_g": 9.0}]}
    plan, path = yc.plan_from_data(data), tmp_path / "plan.toml"
    yc.save_plan(yc.photo.with_lot(plan, yc.photo.lot_from("Mix", 5.0, READING, WHITE)), path)
    mix = yc.read_plan(path).lots[-1]
    assert (mix.blend, mix.lab, mix.mass_g) == (None, (41.24, 20.0, -7.12), 9.0)


def test_the_plan_that_was_given_is_not_changed():
    plan = yc.plan_from_data(TWO)
    yc.photo.with_lot(plan, yc.photo.lot_from("Kelp", 99.0, READING, WHITE))
    assert plan == yc.plan_from_data(TWO)


# --- contrasts that are not sure ----------------------------------------------------------------

ONE, OTHER = (50.0, 20.0, 10.0), (56.0, 26.0, 14.0)


def told_of(one_unsure, other_unsure, other=OTHER) -> list[str]:
    """Return what is said of unsure contrasts of two lots."""
    lots = [
        {"name": "Rust", "lab": list(ONE), "mass_g": 20.0},
        {"name": "Rose", "lab": list(other), "mass_g": 20.0},
    ]
    for lot, unsure in zip(lots, (one_unsure, other_unsure), strict=True):
        if unsure is not None:
            lot |= {"colour_unsure": unsure, "source": "a photograph"}
    found = yc.answer(yc.plan_from_data({"lots": lots}))
    return [item.text for item in advice_on(found) if item.kind == "unsure"]


SAID = (
    "Closer in colour than a photograph can tell: Rust and Rose. Lay the fibre side by side in "
    "daylight before you count on that contrast."
)


@pytest.mark.oracle
def test_the_two_colours_are_so_far_apart():
    assert 6.5 < away(np.array(ONE), np.array(OTHER)) < 7.5


@pytest.mark.parametrize("unsure", [(6, 6), (5.5, 5.5), (10, None), (None, 8), (3, 7)])
def test_a_contrast_smaller_than_its_uncertainty_is_said(unsure):
    assert told_of(*unsure) == [SAID]


@pytest.mark.parametrize("unsure", [(None, None), (0, 0), (3, 3), (4.5, 4.5), (None, 6)])
def test_a_contrast_larger_than_its_uncertainty_is_not(unsure):
    assert told_of(*unsure) == []


def test_near_twins_are_said_to_be_that_and_not_unsure_as_well():
    assert told_of(6, 6, other=(52.0, 20.0, 10.0)) == []


def test_a_large_contrast_is_sure():
    assert told_of(10, 10, other=(90.0, 0.0, 10.0)) == []


# --- shown --------------------------------------------------------------------------------------


def test_what_was_read_is_shown_with_doubts_and_how_far_it_may_be_out():
    doubted = PatchReading(READING.linear, READING.lab, 13.27, 1234, ("a doubt",))
    shown = yc.show.readings({"Rust": doubted}, yc.photo.uncorrected())
    first, *rest = shown.text.splitlines()
    assert first.startswith("Rust  #")
    assert first.endswith("  10  ± 13.3  1,234  a doubt")
    assert rest[0].startswith("The picture was not corrected; each colour may be out by 10 ")
    assert "Loose fibre looks paler than spun yarn, wet fibre darker" in rest[0]
    assert "purples often come out too blue" in rest[0]
    assert rest[1:] == list(yc.photo.uncorrected().warnings)
    assert all(line in shown.html.replace("&#x27;", "'") for line in rest)


def test_the_chip_has_the_colour_that_was_read():
    shown = yc.show.readings({"Rust": READING}, WHITE)
    srgb = colour.XYZ_to_sRGB(colour.Lab_to_XYZ(READING.lab))
    right = "#" + "".join(f"{round(value * 255):02x}" for value in srgb)
    assert f"background:{right}" in shown.html


def test_hostile_names_and_words_are_escaped():
    doubted = PatchReading(READING.linear, READING.lab, 2.0, 900, ("<b>doubt</b>",))
    words = Correction("white", np.ones(3), 0, 6.0, "<i>corrected</i>", ("<u>warned</u>",))
    shown = yc.show.readings({HOSTILE: doubted}, words)
    assert not [tag for tag in ("<script", "<b>", "<i>", "<u>") if tag in shown.html]
    assert "&lt;script&gt;alert(&#x27;x&#x27;)&lt;/script&gt; &amp; &quot;Foam&quot;" in shown.html
    assert HOSTILE in shown.text


PLAIN = (120, 80, 60)


def shown_pixels(picture) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(picture.png)).convert("RGB")).astype(int)


def drawn_at(pixels: np.ndarray, x: int, y: int) -> bool:
    """Return whether something light is drawn on the plain picture within two pixels."""
    near = pixels[max(0, y - 2) : y + 3, max(0, x - 2) : x + 3]
    return bool((near.min(axis=2) > 200).any())


def test_boxes_are_drawn_where_they_are():
    photo = Photo(np.full((400, 600, 3), PLAIN, np.uint8))
    shown = yc.show.photo(photo, {"Rust": yc.photo.Box(0.25, 0.25, 0.5, 0.5)})
    pixels = shown_pixels(shown)
    assert pixels.shape == (400, 600, 3)
    for x, y in ((150, 250), (450, 250), (300, 300), (400, 100), (150, 300), (450, 300)):
        assert drawn_at(pixels, x, y)
    for x, y in ((100, 200), (300, 200), (500, 350), (300, 50)):
        assert not drawn_at(pixels, x, y)
        np.testing.assert_allclose(pixels[y, x], PLAIN, atol=4)
    assert shown.alt == "A photograph of 600 × 400 pixels with boxes on Rust."


def test_the_corners_of_a_target_are_joined():
    photo = Photo(np.full((400, 600, 3), PLAIN, np.uint8))
    pixels = shown_pixels(
        yc.show.photo(photo, corners=[(0.1, 0.1), (0.9, 0.1), (0.8, 0.9), (0.2, 0.9)])
    )
    for x, y in ((300, 40), (510, 200), (300, 360), (90, 200)):
        assert drawn_at(pixels, x, y)
    assert not drawn_at(pixels, 300, 200)


def test_a_picture_without_boxes_is_only_shown():
    shown = yc.show.photo(Photo(np.full((40, 60, 3), PLAIN, np.uint8)))
    assert repr(shown) == shown.alt == "A photograph of 60 × 40 pixels."


@pytest.mark.parametrize("size", [(1500, 2000), (5000, 30), (30, 5000), (3000, 1000)])
def test_a_large_picture_is_shown_small_with_its_boxes_in_place(size):
    photo = Photo(np.full((*size, 3), PLAIN, np.uint8))
    shown = yc.show.photo(photo, {"": yc.photo.Box(0.5, 0.5, 0.4, 0.4)})
    high, wide, _ = shown_pixels(shown).shape
    assert (wide <= 900, high <= 1200) == (True, True)
    assert drawn_at(shown_pixels(shown), round(0.9 * wide), round(0.7 * high))
    assert len(shown.png) < 100_000


def test_hostile_names_are_drawn_not_run():
    photo = Photo(np.full((400, 600, 3), PLAIN, np.uint8))
    shown = yc.show.photo(
        photo,
        {HOSTILE: yc.photo.Box(0.1, 0.1, 0.2, 0.2), "新\n\x00": yc.photo.Box(0.5, 0.5, 0.2, 0.2)},
    )
    assert drawn_at(shown_pixels(shown), 60, 100)
    assert set(shown._repr_mimebundle_()[0]) == {"image/png", "text/plain"}
