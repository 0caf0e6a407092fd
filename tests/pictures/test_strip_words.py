"""The words on the overview strip: ends, labels, axis, and names in any script."""

from itertools import combinations

import numpy as np
import pytest

from tests.helpers.strip_pictures import (
    COLOURS,
    NAMES,
    PAPER,
    SVG,
    answered,
    any_colours,
    as_hex,
    bands_of,
    box,
    contrast,
    every_plan,
    laid_out,
    parsed,
    pixels,
    rgb,
    runs_of,
    stash,
    words_of,
)
from yarncolor import to_dict
from yarncolor.colour.srgb import label_ink
from yarncolor.pictures import fonts
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.bands import nice_step
from yarncolor.pictures.fonts import pixel_name
from yarncolor.pictures.strip import strip_png
from yarncolor.pictures.strip_layout import LEFT_PX, RIGHT_PX
from yarncolor.pictures.strip_svg import strip_svg

ENDS = [
    (0, "▲ plying begins here, spun last", "ends here, spun first ▲"),
    (1, "▲ plying begins here, spun first", "ends here, spun last ▲"),
    (2, "▲ plying begins here, spun last", "ends here, spun first ▲"),
    ([1, 3, 1], "▲ plying begins here, spun first", "ends here, spun last ▲"),
    ([0, 1, 0], "▲ plying begins here", "ends here ▲"),
]
"""A bobbin is last in, first out: what was spun last comes off first, and each winding to
another bobbin turns that round."""


@pytest.mark.parametrize(("wound_off", "left", "right"), ENDS)
def test_both_ends_are_named_by_what_comes_off(wound_off, left, right):
    found = answered(plying={"wound_off": wound_off})
    words = words_of(strip_svg(found))
    assert [word for word in words if "▲" in word] == [left, right]
    foot = pixels(strip_png(found))[-40:]
    for text, from_left in ((left, True), (right, False)):
        inked = fonts.mask(text, 13, bold=True) > 0
        high, wide = inked.shape
        x = LEFT_PX if from_left else foot.shape[1] - RIGHT_PX - wide
        drawn = [
            (foot[y : y + high, x : x + wide] != PAPER).any(axis=2)
            for y in range(len(foot) - high + 1)
        ]
        assert any((one == inked).all() for one in drawn)


def test_what_was_spun_last_lies_where_spun_last_is_written():
    names = list(NAMES[:4])
    for wound_off, first in ((0, "Mussel"), (1, "Kelp")):
        found = answered(stash(names), scheme={"plies": 2}, plying={"wound_off": wound_off})
        leftmost = pixels(strip_png(found))[60, LEFT_PX + 1]
        assert tuple(leftmost) == rgb(COLOURS[names.index(first)])


@every_plan
@pytest.mark.parametrize("size", [(480, 240), (640, 300), (1200, 360), (3000, 500)])
def test_no_two_texts_overlap_and_none_leaves_the_picture(tables, size):
    drawn = laid_out(answered(title="Tideline, a scarf for the harbour", **tables), *size)
    boxes = [(text.text, box(text)) for text in drawn.texts if text.text]
    for name, (left, top, right, bottom) in boxes:
        assert (left >= 0, top >= 0, right <= size[0], bottom <= size[1]) == (True,) * 4, name
    for (name, one), (other, two) in combinations(boxes, 2):
        beside = one[2] <= two[0] + 0.5 or two[2] <= one[0] + 0.5
        above = one[3] <= two[1] + 0.5 or two[3] <= one[1] + 0.5
        assert beside or above, f"{name!r} lies on {other!r}"


def test_the_longest_names_of_rows_fit_beside_their_bands():
    divisions = [64] * 12
    drawn = laid_out(answered(scheme={"name": "fractal", "divisions": divisions}))
    rows = drawn.texts_of("row name")
    assert [text.text.startswith("ply ") for text in rows] == [True] * 12 + [False] * 2
    for text in rows:
        left, _, right, _ = box(text)
        assert left >= 0
        assert right <= LEFT_PX


@every_plan
def test_each_text_stands_where_its_role_says(tables):
    drawn = laid_out(answered(**tables))
    assert all(text.y < drawn.bands[0].top_px for text in drawn.texts_of("heading"))
    assert all(text.x < LEFT_PX for text in drawn.texts_of("row name"))
    assert [text.text.strip("▲ ").split()[0] for text in drawn.texts_of("end")] in (
        ["plying", "ends"],
        ["begins", "ends"],
    )


@every_plan
def test_a_label_lies_inside_a_run_of_its_own_lot(tables):
    drawn = laid_out(answered(**tables))
    labels = drawn.texts_of("label")
    assert labels == [text for text in drawn.texts if text.on_lot is not None]
    assert labels
    for text in labels:
        left, _, right, _ = box(text)
        (band,) = (b for b in drawn.bands if b.top_px <= text.y <= b.top_px + b.height_px)
        at = int(np.searchsorted(band.edges_px, text.x)) - 1
        assert band.lot[at] == text.on_lot
        written = text.text.removesuffix("…")
        assert len(written) > 1
        assert NAMES[text.on_lot].startswith(written)
        assert band.edges_px[at] <= left
        assert right <= band.edges_px[at + 1]


def test_names_that_are_cut_alike_are_left_out():
    lots = [
        {"name": f"Heather Moor {at}", "colour": f"#{20 + 5 * at:02x}6070", "mass_g": 5.0}
        for at in range(30)
    ]
    drawn = laid_out(answered(lots, scheme={"name": "matched", "plies": 1}))
    labels = [text.text for text in drawn.texts_of("label")]
    assert len(set(labels)) == len(labels)
    one = laid_out(answered([*lots[:20], {**lots[0], "name": "Foam", "mass_g": 5.0}]))
    assert "Foam" in [text.text for text in one.texts_of("label")]


def mixed(share: np.ndarray, ground: np.ndarray, ink: np.ndarray) -> np.ndarray:
    return ground + (ink - ground) * share[:, None]


def inked_only_inside_their_runs(found) -> bool:
    """Return whether all ink on the bands is that of the lot it stands on, in the pixels."""
    picture = pixels(strip_png(found))
    *bands, _ = bands_of(picture)
    inner = picture.shape[1] - LEFT_PX - RIGHT_PX
    for k, rows in enumerate(bands):
        shown = picture[rows, LEFT_PX : LEFT_PX + inner]
        ground = shown[0]
        edges = [start * inner for _, start, _ in runs_of(found, k)]
        for column in range(inner):
            if np.abs(np.array(edges) - column - 0.5).min() <= 1:
                continue
            ink = np.array(rgb(label_ink(as_hex(ground[column]))))
            span = ink - ground[column]
            part = (shown[:, column] - ground[column]) @ span / (span @ span)
            if np.abs(shown[:, column] - mixed(part, ground[column], ink)).max() > 1.5:
                return False
    return True


@every_plan
def test_all_ink_on_a_band_belongs_to_the_lot_it_stands_on(tables):
    assert inked_only_inside_their_runs(answered(**tables))


@pytest.mark.parametrize("first", ["昆", "𝔎", "ꔀ"])
def test_a_name_written_as_a_number_stays_inside_its_run_too(first):
    """The number is wider than the one sign that it stands for."""
    names = [chr(ord(first) + at) for at in range(32)]
    assert inked_only_inside_their_runs(answered(stash(names), scheme={"plies": 1}))


def test_ink_on_any_colour_meets_wcag_aa():
    """WCAG 2.2, success criterion 1.4.3: at least 4.5 : 1."""
    grounds = np.random.default_rng(1).integers(0, 256, (4000, 3))
    greys = np.repeat(np.arange(256)[:, None], 3, axis=1)
    for ground in np.vstack([grounds, greys]).tolist():
        ink = label_ink(as_hex(ground))
        assert contrast(ground, rgb(ink)) >= 4.5


def test_the_darkest_or_lightest_pixels_of_each_label_meet_wcag_aa():
    colours = any_colours(40, 2)
    for start in range(0, 40, 8):
        found = answered(stash(colours=colours[start : start + 8]), scheme={"plies": 1})
        picture = pixels(strip_png(found))
        rows = bands_of(picture)[0]
        for colour, left, right in runs_of(found, 0):
            inner = picture.shape[1] - LEFT_PX - RIGHT_PX
            columns = slice(LEFT_PX + int(left * inner) + 3, LEFT_PX + int(right * inner) - 3)
            shown = np.unique(picture[rows, columns].reshape(-1, 3), axis=0).tolist()
            assert max(contrast(colour, other) for other in shown) >= 4.5


def test_ink_of_the_shapes_meets_wcag_aa_too():
    found = answered(scheme={"plies": 2})
    labels = [text for text in parsed(strip_svg(found)).iter(f"{SVG}text") if text.text in NAMES]
    assert len(labels) == 2 * len(NAMES)
    for text in labels:
        assert contrast(rgb(text.get("fill")), rgb(COLOURS[NAMES.index(text.text)])) >= 4.5


def test_the_text_alternative_says_what_the_table_says():
    found = answered(scheme={"name": "fractal", "divisions": [1, 2, 4]})
    data, alt = to_dict(found), strip_alt(found)
    by_colours = data["shares"]["by_colours"]
    assert alt == (
        f"Fractal, 3 plies, {data['yarn']['length_m']:.0f} m of yarn in 8 colours, "
        "if your single is about 10 m/g; "
        f"matched over {by_colours['1']:.0%} of its length, "
        f"all plies different over {by_colours['3']:.0%} of its length."
    )


@pytest.mark.parametrize("metres", [0.5, 5, 83, 412, 5000, 123_456])
def test_the_axis_says_where_one_is_on_the_yarn(metres):
    lots = [lot | {"mass_g": 1e5} for lot in stash(NAMES[:3])]
    found = answered(lots, spinning={"single_tex": 2.0}, target={"yarn_m": float(metres)})
    drawn = laid_out(found)
    marks = drawn.texts_of("tick")
    assert 2 <= len(marks) <= 14
    assert marks[0].text == "0 m"
    for text, x in zip(marks, drawn.ticks_px, strict=True):
        at = float(text.text.removesuffix(" m"))
        assert text.x == x
        assert x == pytest.approx(LEFT_PX + at / metres * drawn.inner_px, abs=0.6)


def test_a_step_of_the_axis_is_one_two_or_five_and_no_larger_than_it_must_be():
    for least in np.geomspace(1e-6, 1e6, 5000):
        step = nice_step(least)
        digit = step / 10.0 ** np.floor(np.log10(step) + 1e-9)
        assert np.isclose(digit, [1, 2, 5]).any()
        assert least * (1 - 1e-9) <= step < least * 2.5 * (1 + 1e-9)


@pytest.mark.parametrize("name", ["昆布", "ขนแกะ", "कपास", "🐑🐑", "mix 毛"])
def test_a_name_that_the_font_cannot_write_is_a_number_in_pixels_and_itself_in_shapes(name):
    """A name written as a number looks like a lot that is named so."""
    for at in (0, 3):
        names = list(NAMES[:4])
        true, number = names.copy(), names.copy()
        true[at], number[at] = name, f"lot {at + 1}"
        found = answered(stash(true), scheme={"plies": 2})
        np.testing.assert_array_equal(
            pixels(strip_png(found)),
            pixels(strip_png(answered(stash(number), scheme={"plies": 2}))),
        )
        assert words_of(strip_svg(found)).count(name) == 2
        assert f"lot {at + 1}" not in words_of(strip_svg(found))


@pytest.mark.parametrize(
    "name", ["Vĺna", "Ấm áp", "Mørkeblå", "Шерсть", "Λαδί", "Ǻ", "a\u0301\u0302", "שלום", "ڵ", "Ḗ"]
)
def test_a_name_that_the_font_can_write_is_drawn(name):
    names = [name, "Foam"]
    png = strip_png(answered(stash(names), scheme={"plies": 1}))
    other = strip_png(answered(stash(["lot 1", "Foam"]), scheme={"plies": 1}))
    assert (pixels(png) != pixels(other)).any()


def test_every_letter_of_the_latin_greek_and_cyrillic_alphabets_is_drawn():
    letters = [chr(code) for code in (*range(0x21, 0x530), *range(0x1E00, 0x2000))]
    letters = [letter for letter in letters if letter.isalpha() and fonts.has_glyphs(letter)]
    assert len(letters) > 1400
    for size_px, bold in ((13, False), (18, True)):
        for letter in letters:
            assert fonts.mask(letter, size_px, bold).any(), letter


@pytest.mark.parametrize(
    ("name", "drawn"),
    [
        ("Kelp", "Kelp"),
        ("חוף", "ףוח"),
        ("שלום חוף", "ףוח םולש"),
        ("بحر", "lot 1"),
        ("חוף 2", "lot 1"),
    ],
)
def test_letters_that_run_from_right_to_left_are_set_so_or_not_at_all(name, drawn):
    assert pixel_name(0, (name,)) == drawn


@pytest.mark.parametrize(
    ("text", "set_so"),
    [
        ("Kelp", "Kelp"),
        ("\u05e9\u05dc\u05d5\u05dd", "\u05dd\u05d5\u05dc\u05e9"),
        ("1 \u05d0\u05d1, Kelp + \u05d2\u05d3 \u05d4\u05d5: 3 m",
         "1 \u05d1\u05d0, Kelp + \u05d5\u05d4 \u05d3\u05d2: 3 m"),
    ],
)  # fmt: skip
def test_hebrew_names_in_a_sentence_are_turned_round_for_a_raster(text, set_so):
    assert fonts.turned(text) == set_so
