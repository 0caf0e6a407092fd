"""Every picture of every sample plan and of extremes: sizes, words, bytes, bad input, memory."""

import io
import re
import tracemalloc
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageChops

import yarncolor as yc
from tests.helpers.pictures_asked import AS_TABLE, TWISTED, answered, channel, extremes, three_pure
from tests.helpers.strip_pictures import SVG, any_colours, contrast, parsed, rgb, stash
from yarncolor.pictures import fonts
from yarncolor.pictures.captions import PRINT_MM, captioned_png, chips, with_caption, wrapped
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.fabric_pictures import knit_of, knitted_piece, stripe_heights, woven_cloth
from yarncolor.pictures.fabric_svg import fabric_svg
from yarncolor.pictures.knit_scenes import KINDS
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.view import ViewSettings
from yarncolor.pictures.yarn_pictures import skein_of_yarn, whole_yarn, wraps, yarn_at
from yarncolor.report.sheets import comparison_sheet, swatch_sheet

HERE = Path(__file__).parent
SAMPLES = sorted((HERE.parents[1] / "sample_data").glob("*.toml"))
STAGGERED = {"name": "staggered", "plies": 3}
HOSTILE = ("<script>alert(1)</script>", r"$\frac$", "A & B", '"quoted"', "]]>", "{x} %s")

SMALL = {
    "yarn": {"size_px": (320, 90)},
    "whole": {"size_px": (320, 120)},
    "wraps": {"size_px": 300},
    "skein": {"size_px": (320, 100)},
    "knitted": {"size_px": (320, 300)},
    "woven": {"size_px": (320, 240), "width_mm": 60.0},
}
FULL = {
    "yarn": (200, 1200),
    "whole": (640, 1200),
    "wraps": (1200, 1200),
    "skein": (300, 1100),
    "woven": (900, 1200),
}

PLANS = {path.stem: lambda path=path: yc.answer(yc.read_plan(path)) for path in SAMPLES}
PLANS |= extremes()


@cache
def plan(name: str):
    return PLANS[name]()


@cache
def small(name: str, picture: str):
    return PICTURES[picture](plan(name), **SMALL[picture])


OF_ONE = r"(?<![\d.,])1 (wraps|turns|rows|stitches|picks|plies)\b"

each_plan = pytest.mark.parametrize("name", PLANS)
each_picture = pytest.mark.parametrize("picture", PICTURES)


def opened(png: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(png))
    image.load()
    return image


# --- every picture of every plan ---


@each_plan
@each_picture
def test_every_picture_has_its_size_and_shows_something(name, picture):
    drawn = small(name, picture)
    wide, high = SMALL[picture]["size_px"] if picture != "wraps" else (300, 300)
    assert drawn.pixels.dtype == np.uint8
    assert drawn.pixels.shape[2] == 3
    if picture == "knitted":
        assert drawn.pixels.shape[0] <= high
        assert drawn.pixels.shape[1] <= wide
    else:
        assert drawn.pixels.shape[:2] == (high, wide)
    assert len(np.unique(drawn.pixels.reshape(-1, 3), axis=0)) > 3
    assert drawn.mm_per_px > 0


@each_plan
@each_picture
def test_every_picture_is_told_by_its_numbers_and_names(name, picture):
    drawn, found = small(name, picture), plan(name)
    names = [found.plan.names[lot] for lot in drawn.lots]
    assert names
    assert drawn.alt.rstrip(".").endswith(", ".join(names))
    assert re.search(r"Colours?: ", drawn.alt)
    assert (len(names) > 1) == ("Colours: " in drawn.alt)
    assert re.search(r"\d", drawn.caption)
    assert drawn.caption.endswith(".")
    for words in (drawn.alt, drawn.caption):
        assert "nan" not in words.lower().split()
        assert "  " not in words
        assert "None" not in words


@each_plan
@each_picture
def test_captions_count_as_people_do(name, picture):
    """No "1 wraps", no "1 turns"."""
    words = small(name, picture).caption
    assert not re.search(OF_ONE, words), words


@each_picture
def test_captions_of_one_of_a_thing_count_as_people_do(picture):
    found = answered(scheme=STAGGERED, target={"yarn_m": 1.4})
    of_one = {
        "whole": {"rows": 1},
        "skein": {"niddy_noddy_m": 1.4},
        "knitted": {"stitches": 1, "rows": 1},
        "wraps": {"card_mm": (10.0, 10.0)},
    }
    words = PICTURES[picture](found, **SMALL[picture] | of_one.get(picture, {})).caption
    assert not re.search(OF_ONE, words), words


@each_plan
@each_picture
def test_every_picture_is_framed_with_legend_and_caption(name, picture):
    drawn, found = small(name, picture), plan(name)
    page = with_caption(found, drawn)
    assert page.mode == "RGB"
    high, wide = drawn.pixels.shape[:2]
    assert page.width >= wide
    assert page.height > high + 24
    np.testing.assert_array_equal(np.asarray(page)[:high, :wide], drawn.pixels)
    below = np.asarray(page)[high:].reshape(-1, 3)
    for lot in drawn.lots:
        assert (below == rgb(found.palette.srgb[lot])).all(axis=1).sum() >= 100


@each_picture
def test_the_usual_sizes(picture):
    drawn = PICTURES[picture](plan("tideline"))
    high, wide = drawn.pixels.shape[:2]
    if picture == "knitted":
        assert (high == 1200 and wide <= 1600) or (wide == 1600 and high <= 1200)
    else:
        assert (high, wide) == FULL[picture]


@pytest.mark.parametrize("name", ["tideline", "shore_walk", "a hundred lots", "no twist known"])
@each_picture
def test_the_same_plan_gives_the_same_bytes(name, picture):
    anew = PLANS[name]()
    one = captioned_png(plan(name), small(name, picture))
    other = captioned_png(anew, PICTURES[picture](anew, **SMALL[picture]))
    assert one == other


def test_another_seed_gives_another_picture():
    found = plan("tideline")
    one, other = (
        yarn_at(found, 5.0, 400.0, (600, 60), ViewSettings(paint=Paint(seed=seed))).pixels
        for seed in (1, 2)
    )
    assert (one != other).any()


@each_picture
def test_the_file_says_what_it_is_and_how_large_it_prints(picture):
    found = answered(title="Tideline ▲ 昆布", scheme=STAGGERED)
    drawn = PICTURES[picture](found, **SMALL[picture])
    image = opened(captioned_png(found, drawn))
    assert image.format == "PNG"
    assert image.text["Title"] == "Tideline ▲ 昆布"
    assert image.text["Description"] == drawn.alt
    assert image.text["Software"] == f"yarncolor {yc.__version__}"
    assert image.width / image.info["dpi"][0] * 25.4 == pytest.approx(PRINT_MM, rel=2e-3)
    half = opened(captioned_png(found, drawn, print_mm=60.0))
    assert half.info["dpi"][0] == pytest.approx(2 * image.info["dpi"][0], rel=2e-3)


def test_an_untitled_plan_has_a_title_in_the_file():
    found = answered(scheme=STAGGERED)
    assert opened(captioned_png(found, small("one lot", "yarn"))).text["Title"] == "Untitled plan"


# --- the lots that are named are those that are seen ---


def lots_between(found, from_m: float, to_m: float) -> set[int]:
    along = found.layout.stretches
    rows = zip(along.edges_m[:-1], along.edges_m[1:], along.lot, strict=True)
    return {int(lot) for start, end, row in rows if start < to_m and end > from_m for lot in row}


def test_the_named_lots_are_those_of_the_length_that_is_seen():
    found = answered(scheme=STAGGERED)
    yarn_m = found.layout.stretches.yarn_m
    assert set(yarn_at(found, 100.0, 24.0).lots) == lots_between(found, 100.0, 100.024)
    assert set(whole_yarn(found).lots) == lots_between(found, 0, yarn_m)
    knit, _, _ = knit_of(found, "flat", 30, 30)
    taken_m = 900 * knit.stitch_m
    drawn = knitted_piece(found, "flat", 30, 30, from_m=60.0, size_px=(300, 300))
    assert set(drawn.lots) == lots_between(found, 60.0, 60.0 + taken_m)


def test_the_named_lots_of_wraps_are_those_on_the_card():
    found = answered(scheme=STAGGERED)
    drawn = wraps(found, (50.0, 50.0), 60.0, 300)
    taken = float(re.search(r"([\d.]+) m from 60\.0 m on", drawn.caption)[1])
    assert taken < 4
    assert set(drawn.lots) == lots_between(found, 60.0, 60.0 + taken)


def test_the_named_lots_of_sampled_wraps_are_those_on_the_card():
    """A hundred lots on a card of a few wraps."""
    found = plan("a hundred lots")
    drawn = wraps(found, (20.0, 10.0), None, 300, AS_TABLE)
    count = int(drawn.caption.split()[0])
    assert count < 8
    assert len(drawn.lots) <= 3 * 2 * count


def test_lots_are_named_in_the_order_in_which_the_yarn_shows_them():
    found = answered(scheme={"name": "matched", "plies": 3})
    along = found.layout.stretches
    assert list(whole_yarn(found).lots) == along.lot[:, 0].tolist()


# --- legends ---

words = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), max_size=60)


@given(st.lists(words, max_size=40), st.integers(64, 2000))
def test_legend_chips_never_overlap_and_stay_inside(names, width_px):
    placed = chips(list(enumerate(names)), width_px)
    assert [chip.lot for chip in placed] == list(range(len(names)))
    for chip in placed:
        right = chip.text_x + fonts.width_px(chip.name, 14)
        assert chip.x >= 0
        assert chip.x + 16 <= chip.text_x
        assert right <= width_px
        assert right <= chip.x + chip.width_px + 1
    for at, one in enumerate(placed):
        for other in placed[at + 1 :]:
            apart = (
                one.x + one.width_px < other.x
                or other.x + other.width_px < one.x
                or abs(one.y - other.y) >= 16
            )
            assert apart


@given(st.lists(words, max_size=6), st.integers(64, 600))
def test_cut_names_say_that_they_are_cut(names, width_px):
    for chip, name in zip(chips(list(enumerate(names)), width_px), names, strict=True):
        assert chip.name == name or (
            chip.name.endswith("…") and name.startswith(chip.name.removesuffix("…"))
        )


@given(words, st.integers(64, 1200))
def test_wrapped_lines_fit_and_lose_no_word_that_fits(text, width_px):
    lines = wrapped(text, width_px)
    assert all(fonts.width_px(line, 14) <= width_px for line in lines)
    if not any(line.endswith("…") for line in lines):
        assert " ".join(lines).split() == text.split()


def test_labels_are_dark_on_paper():
    found = plan("near white")
    drawn = small("near white", "yarn")
    below = np.asarray(with_caption(found, drawn))[drawn.pixels.shape[0] :]
    ink = tuple(below.reshape(-1, 3)[below.reshape(-1, 3).sum(axis=1).argmin()].tolist())
    assert contrast(ink, (255, 255, 255)) >= 7


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("stitches", [1, 4])
def test_a_narrow_piece_has_words_that_can_be_read(kind, stitches):
    found = answered(scheme=STAGGERED)
    drawn = knitted_piece(found, kind, stitches, 60, size_px=(800, 600))
    page = with_caption(found, drawn)
    assert page.height - drawn.pixels.shape[0] < 24 * 12


def test_names_beside_the_piece_stand_apart_and_inside():
    found = plan("slack_water")
    for kind in KINDS:
        drawn = knitted_piece(found, kind, 40, 120, size_px=(500, 900))
        assert drawn.beside
        heights = [y for y, _ in drawn.beside]
        assert heights == sorted(heights)
        assert all(0 <= y <= drawn.pixels.shape[0] for y in heights)
        assert with_caption(found, drawn).width > drawn.pixels.shape[1]


def test_stripes_beside_the_piece_are_named_as_they_are_high():
    found = answered(three_pure(), scheme={"name": "matched", "plies": 3}, target={"yarn_m": 40.0})
    knit, _, _ = knit_of(found, "flat", 40, 60)
    drawn = knitted_piece(found, "flat", 40, 60, size_px=(700, 900), look=AS_TABLE)
    told = {name: rows for name, _, rows in stripe_heights(found, knit)}
    shown = channel(drawn.pixels)
    for y, text in drawn.beside:
        name, rows = re.fullmatch(r"(.+), (\d+) rows?", text).groups()
        assert int(rows) == pytest.approx(told[name], abs=0.51)
        here = shown[round(y)]
        assert np.bincount(here[here >= 0], minlength=3).argmax() == found.plan.names.index(name)


HARD = ("Kelp " * 11, "Φύκι", "昆布", "🧶👩\u200d🌾", "אצה", *HOSTILE)


@each_picture
def test_names_of_any_script_are_written_or_numbered(picture):
    found = answered(stash(HARD), title=HOSTILE[0], scheme=STAGGERED)
    drawn = PICTURES[picture](found, **SMALL[picture])
    image = opened(captioned_png(found, drawn))
    assert image.text["Title"] == HOSTILE[0]
    assert image.text["Description"] == drawn.alt


# --- what bad input gets ---

BAD = {
    "no width": ("yarn", {"size_px": (0, 200)}),
    "no height": ("yarn", {"size_px": (1200, 0)}),
    "less than nothing": ("whole", {"size_px": (-5, 200)}),
    "a wall": ("woven", {"size_px": (100_000, 200)}),
    "a tower": ("skein", {"size_px": (200, 1e300)}),
    "no size": ("knitted", {"size_px": (float("nan"), 200)}),
    "endless": ("knitted", {"size_px": (float("inf"), 200)}),
    "wraps of no width": ("wraps", {"size_px": 0}),
    "wraps of a wall": ("wraps", {"size_px": 10**9}),
    "wraps of no size": ("wraps", {"size_px": float("nan")}),
    "endless wraps": ("wraps", {"size_px": float("inf")}),
    "before the yarn": ("yarn", {"from_m": -0.001}),
    "beyond the yarn": ("yarn", {"from_m": 1e6}),
    "nowhere on the yarn": ("yarn", {"from_m": float("nan")}),
    "wraps beyond the yarn": ("wraps", {"from_m": 1e6}),
    "knitted beyond the yarn": ("knitted", {"from_m": 1e6}),
    "woven beyond the yarn": ("woven", {"from_m": float("inf")}),
    "no length": ("yarn", {"length_mm": 0}),
    "an absurd length": ("yarn", {"length_mm": 1e7}),
    "a length that is no number": ("yarn", {"length_mm": float("nan")}),
    "no rows": ("whole", {"rows": 0}),
    "rows without end": ("whole", {"rows": 10**6}),
    "a card without width": ("wraps", {"card_mm": (0.0, 50.0)}),
    "a card as a door": ("wraps", {"card_mm": (50.0, 2000.0)}),
    "a card that is no number": ("wraps", {"card_mm": (float("nan"), 50.0)}),
    "no niddy-noddy": ("skein", {"niddy_noddy_m": 0.0}),
    "a niddy-noddy as a house": ("skein", {"niddy_noddy_m": 50.0}),
    "lace": ("knitted", {"kind": "lace"}),
    "no stitches": ("knitted", {"stitches": 0}),
    "no rows of knitting": ("knitted", {"rows": 0}),
    "less than no stitches": ("knitted", {"stitches": -3}),
    "too many stitches": ("knitted", {"stitches": 10**7}),
    "too many rows": ("knitted", {"rows": 10**7}),
    "no gauge": ("knitted", {"gauge": (0.0, 28.0)}),
    "a gauge that is no number": ("knitted", {"gauge": (20.0, float("nan"))}),
    "cloth of no width": ("woven", {"width_mm": 0.0}),
    "cloth as a field": ("woven", {"width_mm": 1e9}),
    "no picks": ("woven", {"picks_per_cm": 0.0}),
    "picks without end": ("woven", {"picks_per_cm": 1e9}),
    "another eye": ("yarn", {"look": lambda: ViewSettings(view="an owl")}),
    "more than blind": ("yarn", {"look": lambda: ViewSettings(view="protanomaly", severity=2.0)}),
    "a distance that is no number": (
        "yarn",
        {"look": lambda: ViewSettings(distance_m=float("nan"))},
    ),
    "behind the eye": ("yarn", {"look": lambda: ViewSettings(distance_m=-1.0)}),
}


def drawn_with(picture: str, options: dict):
    """Draw a picture with options, of which a look is made only now."""
    made = {key: value() if key == "look" else value for key, value in options.items()}
    return PICTURES[picture](plan("tideline"), **made)


@pytest.mark.parametrize(("picture", "options"), BAD.values(), ids=BAD)
def test_what_cannot_be_is_said_in_one_line(picture, options):
    with pytest.raises(yc.PlanError) as told:
        drawn_with(picture, options)
    said = str(told.value)
    assert len(told.value.faults) == 1
    assert "\n" not in said
    assert 15 < len(said) < 160
    name = next(iter(options))
    assert name in said or name == "look"


def test_a_picture_that_there_is_not_is_said_with_those_that_there_are():
    with pytest.raises(yc.PlanError) as told:
        yc.show.picture(plan("tideline"), "warps")
    assert "wraps" in str(told.value)
    for name in PICTURES:
        assert name in str(told.value)


@pytest.mark.parametrize("from_m", [0.0, "the end"])
def test_both_ends_of_the_yarn_can_be_looked_at(from_m):
    found = plan("five metres")
    at = found.layout.stretches.yarn_m if from_m == "the end" else from_m
    assert yarn_at(found, at, size_px=(300, 60)).pixels.shape == (60, 300, 3)


@pytest.mark.parametrize(
    "fabric",
    [
        {"stitches": 60, "rows": 6000, "gauge_stitches": 22.0},
        {"stitches": 4000, "rows": 10, "gauge_stitches": 22.0},
        {"stitches": 10_000, "rows": 100_000, "gauge_stitches": 22.0},
        {"stitches": 1, "rows": 1, "gauge_stitches": 1.0, "gauge_rows": 1.0},
    ],
    ids=["a long scarf", "a wide cowl", "the most", "the least"],
)
def test_any_piece_that_a_plan_may_hold_can_be_drawn(fabric):
    found = answered(fabric=fabric, target={"yarn_m": 50.0})
    drawn = knitted_piece(found, size_px=(200, 200))
    assert drawn.pixels.shape[2] == 3


@pytest.mark.parametrize(("stitches", "rows"), [(60, 6000), (4000, 10), (1, 1)])
def test_any_piece_that_a_plan_may_hold_has_its_shapes(stitches, rows):
    fabric = {"stitches": stitches, "rows": rows, "gauge_stitches": 22.0}
    found = answered(fabric=fabric, target={"yarn_m": 50.0})
    assert parsed(fabric_svg(found)).get("role") == "img"


# --- other eyes and from afar ---


@each_picture
def test_by_lightness_a_picture_is_grey_but_for_card_and_warp(picture):
    drawn = PICTURES[picture](
        plan("tideline"), **SMALL[picture], look=ViewSettings(view="lightness")
    )
    spread = np.ptp(drawn.pixels.astype(int), axis=2)
    plain = PICTURES[picture](plan("tideline"), **SMALL[picture]).pixels.astype(int)
    same = (drawn.pixels == plain).all(axis=2)
    assert spread[~same].max() <= 2
    assert (~same).mean() > 0.1
    assert "lightness" in drawn.alt
    assert "lightness" in drawn.caption


def linear(srgb: np.ndarray) -> np.ndarray:
    share = srgb / 255
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


@each_picture
@pytest.mark.parametrize("distance_m", [0.5, 5.0])
def test_from_afar_a_picture_blurs_and_keeps_its_light(picture, distance_m):
    near = PICTURES[picture](plan("shore_walk"), **SMALL[picture])
    far = PICTURES[picture](
        plan("shore_walk"), **SMALL[picture], look=ViewSettings(distance_m=distance_m)
    )
    assert far.pixels.shape == near.pixels.shape
    steps = [
        sum(np.abs(np.diff(each.pixels.astype(int), axis=axis)).mean() for axis in (0, 1))
        for each in (near, far)
    ]
    assert steps[1] < steps[0]
    light = [linear(each.pixels).mean(axis=(0, 1)) for each in (near, far)]
    assert light[1] == pytest.approx(light[0], abs=0.02)
    assert f"from {distance_m:g} m" in far.alt


@pytest.mark.parametrize("view", ["protanomaly", "deuteranomaly", "tritanomaly"])
@each_picture
def test_other_eyes_see_other_colours_and_the_same_shapes(picture, view):
    drawn = PICTURES[picture](plan("tideline"), **SMALL[picture], look=ViewSettings(view=view))
    plain = small("tideline", picture)
    assert (drawn.pixels != plain.pixels).any(axis=2).mean() > 0.05
    assert view in drawn.alt
    paper = (plain.pixels == 255).all(axis=2)
    assert (drawn.pixels[paper] == 255).all()


# --- fabric as shapes ---


def rects_by_row(svg: bytes) -> dict[float, list[ElementTree.Element]]:
    _, *rects = parsed(svg).iter(f"{SVG}rect")
    rows: dict[float, list] = {}
    for rect in rects:
        rows.setdefault(float(rect.get("y")), []).append(rect)
    return rows


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("plies", [1, 3])
def test_the_shapes_are_rows_of_so_many_stitches(kind, plies):
    found = answered(scheme={"name": "staggered", "plies": plies})
    knit, _, _ = knit_of(found, kind)
    rows = rects_by_row(fabric_svg(found, kind))
    assert len(rows) == knit.rows * plies
    counted = sorted(np.repeat(knit.stitches, plies).tolist())
    widths = sorted(sum(float(r.get("width")) - 0.05 for r in rects) for rects in rows.values())
    assert widths == pytest.approx([8.0 * stitches for stitches in counted], abs=0.2)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("from_m", [0.0, 5.0])
def test_the_shapes_are_as_high_as_the_stripes(kind, from_m):
    found = answered(three_pure(), scheme={"name": "matched", "plies": 1})
    knit, _, _ = knit_of(found, kind)
    total: dict[str, float] = {}
    for rects in rects_by_row(fabric_svg(found, kind, from_m)).values():
        wide = sum(float(rect.get("width")) - 0.05 for rect in rects)
        for rect in rects:
            share = (float(rect.get("width")) - 0.05) / wide
            total[rect.get("fill")] = total.get(rect.get("fill"), 0) + share
    told: dict[str, float] = {}
    for name, _, high in stripe_heights(found, knit, from_m):
        fill = found.palette.srgb[found.plan.names.index(name)]
        told[fill] = told.get(fill, 0) + high
    assert total == pytest.approx(told, abs=0.05)


def test_the_shapes_end_where_the_yarn_ends():
    found = answered(three_pure(), scheme={"name": "matched", "plies": 1}, target={"yarn_m": 5.0})
    knit, _, _ = knit_of(found)
    total = sum(
        float(rect.get("width")) - 0.05
        for rects in rects_by_row(fabric_svg(found)).values()
        for rect in rects
    )
    assert total / 8.0 == pytest.approx(5.0 / knit.stitch_m, rel=0.01)


@each_plan
def test_every_plan_has_its_shapes(name):
    svg = parsed(fabric_svg(plan(name)))
    assert svg.get("role") == "img"
    assert svg.find(f"{SVG}desc").text
    assert {element.tag.removeprefix(SVG) for element in svg.iter()} == {
        *("svg", "title", "desc", "rect"),
    }


def test_the_shapes_can_be_asked_for_again_and_again_by_their_public_name():
    """A function must not hide behind the module of its name once that is imported."""
    found = plan("one lot")
    assert yc.draw.fabric_svg(found) == yc.draw.fabric_svg(found)
    assert callable(yc.answer)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_stay_text_in_the_shapes(name):
    found = answered(stash([name, "Kelp"]), title=name, scheme=STAGGERED)
    svg = fabric_svg(found)
    assert parsed(svg).find(f"{SVG}title").text == name
    assert name in parsed(svg).find(f"{SVG}desc").text
    assert b"<script" not in svg
    assert {element.tag.removeprefix(SVG) for element in parsed(svg).iter()} == {
        *("svg", "title", "desc", "rect"),
    }


# --- sheets ---

QUICK = 40


def sheet(found, form: str) -> bytes:
    return swatch_sheet(found, form, dpi=QUICK)


@pytest.mark.parametrize("form", ["pdf", "png", "svg"])
def test_the_sheet_is_the_same_every_time_and_a_whole_file(form):
    found = plan("slack_water")
    one = sheet(found, form)
    assert one == sheet(PLANS["slack_water"](), form)
    begins = {"pdf": b"%PDF-", "png": b"\x89PNG", "svg": b"<?xml"}
    assert one.startswith(begins[form])
    if form == "pdf":
        assert one.rstrip().endswith(b"%%EOF")
    if form == "svg":
        assert parsed(one).tag == f"{SVG}svg"


def test_the_sheet_is_a5():
    pdf = sheet(plan("slack_water"), "pdf")
    (box,) = set(re.findall(rb"/MediaBox *\[ *([\d. ]+)\]", pdf))
    assert pdf.count(b"/MediaBox") == 1
    left, top, right, bottom = (float(number) for number in box.split())
    assert (left, top) == (0, 0)
    assert right / 72 * 25.4 == pytest.approx(148, abs=0.1)
    assert bottom / 72 * 25.4 == pytest.approx(210, abs=0.1)
    image = opened(sheet(plan("slack_water"), "png"))
    assert np.array(image.size) / image.info["dpi"] * 25.4 == pytest.approx([148, 210], abs=0.8)


def test_the_sheet_is_printed_at_300_dots_where_nothing_is_said():
    image = opened(swatch_sheet(plan("slack_water"), "png"))
    assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)
    assert image.size == (1748, 2480)
    assert image.text["Title"] == "Slack Water"
    assert image.text["Software"] == f"yarncolor {yc.__version__}"
    assert "8 colours" in image.text["Description"]


def test_the_sheet_says_its_title_in_its_file():
    pdf = sheet(plan("slack_water"), "pdf")
    assert b"/Title (Slack Water)" in pdf
    assert f"yarncolor {yc.__version__}".encode() in pdf
    assert b"/CreationDate" not in pdf


@pytest.mark.parametrize("form", ["pdf", "png", "svg"])
def test_hostile_names_on_the_sheet_are_text(form):
    found = answered(stash(HARD), title=r"<script>$\frac$ & co", scheme=STAGGERED)
    made = sheet(found, form)
    if form == "svg":
        assert b"<script" not in made
        tags = {element.tag.rpartition("}")[2] for element in parsed(made).iter()}
        assert "script" not in tags
    if form == "png":
        assert opened(made).text["Title"] == r"<script>$\frac$ & co"


LONG = {
    "the longest title": {"title": "W" * 120},
    "a long title of words": {"title": "a shawl that fades from deep water to foam " * 2},
}


FEW = ("tideline", "a hundred lots")


@pytest.mark.parametrize(
    "name",
    [
        *FEW,
        *LONG,
        *(pytest.param(name, marks=pytest.mark.thorough) for name in PLANS if name not in FEW),
    ],
)
def test_nothing_on_the_sheet_runs_off_the_page(name):
    """Four millimetres at every edge stay white."""
    found = answered(**LONG[name], scheme=STAGGERED) if name in LONG else plan(name)
    page = np.asarray(opened(sheet(found, "png")).convert("RGB"))
    edge = round(4 / 25.4 * QUICK)
    for side in (page[:edge], page[-edge:], page[:, :edge], page[:, -edge:]):
        assert (side > 245).all()


COMPARED = ("tideline", "ebb", "shore_walk", "slack_water", "two_ply_batts", "chain")


@pytest.mark.parametrize("count", [1, 6])
def test_one_to_six_plans_are_compared(count):
    plans = [(name, plan(name)) for name in COMPARED[:count]]
    image = opened(comparison_sheet(plans, dpi=QUICK))
    wide_mm, high_mm = np.array(image.size) / QUICK * 25.4
    assert wide_mm == pytest.approx(210, abs=1)
    assert high_mm == pytest.approx(12 + 44 * count, abs=1)
    assert all(name in image.text["Title"] for name, _ in plans)
    assert comparison_sheet(plans, dpi=QUICK) == comparison_sheet(plans, dpi=QUICK)


@pytest.mark.parametrize("count", [0, 7])
def test_no_plan_or_more_than_six_are_refused(count):
    plans = [("again", plan("chain"))] * count
    with pytest.raises(ValueError, match=f"1 to 6 plans, not {count}"):
        comparison_sheet(plans)


@pytest.mark.parametrize("form", ["pdf", "svg", "png"])
def test_plans_are_compared_in_every_form_under_any_name(form):
    plans = [(name, plan("chain")) for name in HOSTILE]
    made = comparison_sheet(plans, form, dpi=QUICK)
    assert made == comparison_sheet(plans, form, dpi=QUICK)
    assert b"<script" not in made or form != "svg"


def filled_mm(page: np.ndarray, box_mm: tuple[float, float, float, float]) -> np.ndarray:
    """Return which pixels of a box, by its left, top, right and bottom, are not white."""
    left, top, right, bottom = (round(side / 25.4 * 100) for side in box_mm)
    return (page[top:bottom, left:right] < 250).any(axis=2)


@pytest.mark.parametrize("share", [0.5, 0.3, 0.06])
def test_compared_yarns_are_drawn_to_one_scale(share):
    """The areas of two yarns on the sheet are as their lengths."""
    lots = stash()
    long = answered(lots, scheme=STAGGERED)
    target = {"yarn_m": share * long.layout.stretches.yarn_m}
    short = answered(lots, scheme=STAGGERED, target=target)
    page = np.asarray(
        opened(comparison_sheet([("long", long), ("short", short)], dpi=100)).convert("RGB")
    )
    areas = [filled_mm(page, (9, 6 + 44 * at + 10.6, 140, 6 + 44 * at + 43)).sum() for at in (0, 1)]
    assert areas[1] / areas[0] == pytest.approx(share, rel=0.12)


def test_compared_fabrics_are_drawn_to_one_scale():
    """Four times the grist is twice the thickness, and stitches twice as wide."""
    thin, thick = (
        answered(scheme=STAGGERED, spinning={"single_tex": tex}, plying={"twist_tpm": 60.0})
        for tex in (100.0, 400.0)
    )
    expected = knit_of(thin)[0].gauge_stitches / knit_of(thick)[0].gauge_stitches
    assert expected == pytest.approx(2, rel=0.05)
    page = np.asarray(
        opened(comparison_sheet([("thin", thin), ("thick", thick)], dpi=100)).convert("RGB")
    )
    widths = [
        filled_mm(page, (143, 6 + 44 * at + 2, 202, 6 + 44 * at + 43)).any(axis=0).sum()
        for at in (0, 1)
    ]
    assert widths[1] / widths[0] == pytest.approx(expected, rel=0.1)


# --- reference pictures: each was looked at ---

REFERENCES = HERE / "reference_pictures"
REFERENCE = {
    "yarn": lambda found: yarn_at(found, 60.3, 12.0, (200, 60)),
    "yarn at a join": lambda found: yarn_at(
        found, found.layout.stretches.edges_m[1] - 0.02, 40.0, (400, 60)
    ),
    "wraps": lambda found: wraps(found, (25.0, 25.0), None, 120),
    "whole": lambda found: whole_yarn(found, 12, (200, 120)),
    "skein": lambda found: skein_of_yarn(found, size_px=(200, 60)),
    "knitted": lambda found: knitted_piece(found, "flat", 12, 12, None, 60.3, (160, 120)),
    "in the round": lambda found: knitted_piece(found, "round", 10, 9, None, 60.3, (160, 120)),
    "garter": lambda found: knitted_piece(found, "garter", 12, 12, None, 60.3, (160, 120)),
    "triangle": lambda found: knitted_piece(found, "triangle", 3, 10, None, 60.3, (160, 120)),
    "woven": lambda found: woven_cloth(found, 20.0, None, 60.3, (160, 120)),
}
MEAN_OFF, FAR_OFF_SHARE = 2.0, 0.02
"""Of 255: how far pixels may be off on average; which share may be off by more than 24."""


@pytest.mark.parametrize("name", REFERENCE)
def test_pictures_are_as_they_were_looked_at(name):
    found = plan("slack_water")
    drawn = Image.fromarray(REFERENCE[name](found).pixels)
    reference = Image.open(REFERENCES / f"{name.replace(' ', '_')}.png").convert("RGB")
    assert drawn.size == reference.size
    off = np.asarray(ImageChops.difference(drawn, reference)).astype(float).max(axis=2)
    assert off.mean() <= MEAN_OFF
    assert (off > 24).mean() <= FAR_OFF_SHARE


# --- memory ---

MOST_MB = 200


def peak_mb(draw) -> float:
    tracemalloc.start()
    try:
        draw()
        return tracemalloc.get_traced_memory()[1] / 1e6
    finally:
        tracemalloc.stop()


@each_picture
def test_a_picture_at_full_size_takes_less_than_200_mb(picture):
    """A grist of its own, so that nothing is kept ready."""
    own = {**TWISTED["spinning"], "single_tex": 111.7}
    found = answered(scheme=STAGGERED, spinning=own)
    assert peak_mb(lambda: PICTURES[picture](found)) < MOST_MB


def test_a_picture_from_afar_takes_less_than_200_mb():
    found = answered(scheme=STAGGERED, spinning={**TWISTED["spinning"], "single_tex": 112.3})
    assert peak_mb(lambda: knitted_piece(found, look=ViewSettings(distance_m=2.0))) < MOST_MB


@pytest.mark.thorough
@pytest.mark.parametrize("name", ["very fine", "very thick", "a hundred lots", "twelve plies"])
def test_extremes_take_less_than_200_mb_too(name):
    found = plan(name)
    for picture in PICTURES:
        assert peak_mb(lambda draw=PICTURES[picture]: draw(found)) < MOST_MB, picture


def test_a_large_piece_takes_less_than_200_mb():
    found = answered(stash(["Kelp", "Foam"], any_colours(2, 2)), scheme=STAGGERED)
    assert peak_mb(lambda: knitted_piece(found, "flat", 1000, 1200)) < MOST_MB


# --- in a notebook ---


@each_picture
def test_a_notebook_s_picture_has_its_words_and_keeps_small(picture):
    shown = yc.show.picture(plan("tideline"), picture)
    assert opened(shown.png).width == shown.width_px
    assert re.search(r"Colours?: ", shown.alt)
    assert len(shown.png) < 600_000


def test_stripes_are_told_as_a_table_with_escaped_names():
    found = answered(stash(HOSTILE), scheme={"name": "matched", "plies": 3}, target={"yarn_m": 6.0})
    told = yc.show.stripes(found)
    assert "<script" not in told.html
    assert "&lt;script" in told.html
    assert "A &amp; B" in told.html
    assert "A & B" in told.text


def test_sheets_are_shown_with_their_words():
    shown = yc.show.sheet(plan("tideline"))
    assert "Tideline" in shown.alt
    both = yc.show.comparison({"as it is": plan("tideline"), "a chain": plan("chain")})
    assert "as it is, a chain" in both.alt
