"""The overview strip, asked what it shows: by its pixels and by its shapes."""

import io
import re
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from tests.helpers.strip_pictures import (
    COLOURS,
    NAMES,
    PAPER,
    SVG,
    answered,
    any_colours,
    bands_of,
    by_column,
    cut_columns,
    every_plan,
    parsed,
    pixels,
    rgb,
    runs_of,
    stash,
    table_of,
    words_of,
)
from yarncolor import to_dict
from yarncolor.colour.srgb import linear
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.strip import strip_png
from yarncolor.pictures.strip_layout import LEFT_PX, RIGHT_PX
from yarncolor.pictures.strip_svg import strip_svg


@pytest.mark.parametrize("plies", range(1, 13))
def test_there_is_a_band_for_each_ply_and_one_for_the_yarn(plies):
    found = answered(scheme={"plies": plies})
    assert len(bands_of(pixels(strip_png(found)))) == plies + 1


@every_plan
def test_every_band_changes_colour_exactly_where_the_table_says(tables):
    found = answered(**tables)
    picture = pixels(strip_png(found))
    *bands, _ = bands_of(picture)
    inner = picture.shape[1] - LEFT_PX - RIGHT_PX
    before, after = by_column(found, inner)
    assert len(bands) == before.shape[1]
    for k, rows in enumerate(bands):
        shown = picture[rows.start, LEFT_PX : LEFT_PX + inner]
        right = (shown == before[:, k]).all(axis=1) | (shown == after[:, k]).all(axis=1)
        edges = np.array([start * inner for _, start, _ in runs_of(found, k)][1:])
        right |= cut_columns(found, inner)
        for column in np.flatnonzero(~right):
            assert tuple(shown[column]) == PAPER
            assert np.abs(edges - column - 0.5).min() <= 1
        assert right.mean() > 0.9


def test_two_lots_that_meet_within_a_column_share_it():
    """Runs of five pixels and a bit, so that no line parts them."""
    found = answered(stash(["Foam", "Slate"]), scheme={"name": "fractal", "divisions": [64]})
    picture = pixels(strip_png(found, 900, 240))
    inner = picture.shape[1] - LEFT_PX - RIGHT_PX
    shown = linear(picture[bands_of(picture)[0].start, LEFT_PX : LEFT_PX + inner] / 255)
    runs = runs_of(found, 0)
    for (one, start, edge), (other, _, end) in pairwise(runs):
        at, left = divmod(edge * inner, 1)
        assert (edge - start) * inner > 2
        assert (end - edge) * inner > 2
        light = linear(np.array([one, other]) / 255)
        assert shown[int(at)] == pytest.approx(left * light[0] + (1 - left) * light[1], abs=0.07)


@every_plan
def test_a_run_of_three_pixels_is_not_lost_to_the_lines_between_runs(tables):
    found = answered(**tables)
    picture = pixels(strip_png(found))
    inner = picture.shape[1] - LEFT_PX - RIGHT_PX
    for k, rows in enumerate(bands_of(picture)[:-1]):
        shown = picture[rows.start, LEFT_PX : LEFT_PX + inner]
        for colour, start, end in runs_of(found, k):
            if (end - start) * inner >= 3:
                here = shown[int(np.ceil(start * inner)) : int(end * inner)]
                assert (here == colour).all(axis=1).any()


def test_the_strip_begins_and_ends_with_the_colours_of_the_ends():
    found = answered(scheme={"name": "staggered", "plies": 3})
    picture = pixels(strip_png(found))
    _, colour = table_of(found)
    for k, rows in enumerate(bands_of(picture)[:-1]):
        assert tuple(picture[rows.start, LEFT_PX]) == tuple(colour[0, k])
        assert tuple(picture[rows.start, -RIGHT_PX - 1]) == tuple(colour[-1, k])
        assert tuple(picture[rows.start, LEFT_PX - 1]) == PAPER
        assert tuple(picture[rows.start, -RIGHT_PX]) == PAPER


@every_plan
def test_the_plied_band_shows_the_colours_that_lie_side_by_side_and_no_others(tables):
    found = answered(**tables)
    picture = pixels(strip_png(found))
    rows = bands_of(picture)[-1]
    inner = picture.shape[1] - LEFT_PX - RIGHT_PX
    sides = by_column(found, inner)
    for column in np.flatnonzero(~cut_columns(found, inner)):
        shown = set(map(tuple, picture[rows, LEFT_PX + column].tolist()))
        side_by_side = [set(map(tuple, side[column].tolist())) for side in sides]
        assert shown in side_by_side


def test_twelve_plies_show_no_colour_in_the_yarn_that_is_not_there():
    found = answered(scheme={"name": "staggered", "plies": 12})
    picture = pixels(strip_png(found))
    inner = picture.shape[1] - LEFT_PX - RIGHT_PX
    before, after = by_column(found, inner)
    for column in np.flatnonzero(~cut_columns(found, inner)):
        shown = set(map(tuple, picture[bands_of(picture)[-1], LEFT_PX + column].tolist()))
        assert shown <= set(map(tuple, np.vstack([before[column], after[column]]).tolist()))


@pytest.mark.parametrize("plies", [2, 3, 4, 6])
def test_each_ply_takes_an_equal_share_of_the_plied_band(plies):
    found = answered(scheme={"name": "solid", "plies": plies, "solid_lot": "Slate"})
    picture = pixels(strip_png(found))
    yarn = picture[bands_of(picture)[-1], LEFT_PX:-RIGHT_PX]
    slate = (yarn == rgb(COLOURS[NAMES.index("Slate")])).all(axis=2).mean()
    assert slate == pytest.approx(1 / plies, abs=0.01)


def test_the_png_is_small_and_says_what_it_is():
    found = answered(title="Tideline ▲ 昆布", scheme={"name": "fractal", "divisions": [1, 2, 4]})
    png = strip_png(found)
    with Image.open(io.BytesIO(png)) as image:
        image.load()
        assert (image.format, image.mode, image.size) == ("PNG", "P", (1200, 360))
        assert image.text["Title"] == "Tideline ▲ 昆布"
        assert image.text["Description"] == strip_alt(found)
        assert image.text["Software"].startswith("yarncolor ")
        assert image.info["dpi"] == pytest.approx((144, 144), abs=0.1)
    assert len(png) < 60_000


def test_the_same_plan_gives_the_same_bytes():
    for drawn in (strip_png, strip_svg):
        assert drawn(answered(title="Twice")) == drawn(answered(title="Twice"))


@pytest.mark.parametrize(("count", "mode"), [(40, "P"), (120, "P"), (251, "RGB"), (400, "RGB")])
def test_more_than_a_palette_can_hold_is_drawn_in_full_colour(count, mode):
    """Paper, four shades of ink, the lots, and what each two make that share a column."""
    lots = stash([f"L{at}" for at in range(count)], any_colours(count, count))
    found = answered(lots, scheme={"plies": 2})
    png = strip_png(found)
    assert Image.open(io.BytesIO(png)).mode == mode
    picture = pixels(png)
    inner = picture.shape[1] - LEFT_PX - RIGHT_PX
    for k, (rows, side) in enumerate(zip(bands_of(picture), (0, 1), strict=False)):
        shown = picture[rows.start, LEFT_PX : LEFT_PX + inner]
        right = [(shown == column[:, k]).all(axis=1) for column in by_column(found, inner)]
        assert (right[0] | right[1] | cut_columns(found, inner)).mean() > 0.9, side


def test_a_full_palette_with_labels_is_drawn_in_full_colour():
    names = [f"L{at}" for at in range(100)]
    found = answered(stash(names), scheme={"plies": 1})
    assert Image.open(io.BytesIO(strip_png(found, 480, 240))).mode == "P"
    assert Image.open(io.BytesIO(strip_png(found, 12_000, 240))).mode == "RGB"


def shape_of(rect: ElementTree.Element) -> tuple:
    return rgb(rect.get("fill")), *(float(rect.get(key)) for key in ("x", "width"))


@every_plan
def test_the_shapes_are_the_runs_of_the_table(tables):
    found = answered(**tables)
    plies = len(to_dict(found)["stretches"][0]["lots"])
    ground, *rects = parsed(strip_svg(found)).iter(f"{SVG}rect")
    assert (ground.get("width"), ground.get("height")) == ("1200", "360")
    inner = 1200 - LEFT_PX - RIGHT_PX
    runs = [row for k in range(plies) for row in runs_of(found, k)]
    assert len(rects) == 2 * len(runs)
    in_bands = [shape_of(rect) for rect in rects[: len(runs)]]
    for (shown, x, wide), (colour, start, end) in zip(in_bands, runs, strict=True):
        assert shown == colour
        assert x == pytest.approx(LEFT_PX + start * inner, abs=0.011)
        assert wide == pytest.approx((end - start) * inner, abs=0.011)
    in_yarn = [shape_of(rect) for rect in rects[len(runs) :]]
    assert sorted(in_yarn) == sorted(in_bands)
    assert len({rect.get("y") for rect in rects}) == plies + 1


def painted_by_shapes(svg: ElementTree.Element, x: float, share: float) -> tuple | None:
    """Return the colour of the plied band at x and a share of its height; None near an edge.

    What is drawn later lies on top; a group is seen through its own clip path alone.
    """
    top = max(float(rect.get("y")) for rect in svg.findall(f"{SVG}rect")[1:])
    clips = {
        clip.get("id"): clip.find(f"{SVG}path").get("d") for clip in svg.iter(f"{SVG}clipPath")
    }
    ground = [rect for rect in svg.findall(f"{SVG}rect")[1:] if float(rect.get("y")) == top]
    layers = [(True, ground)]
    for group in svg.findall(f"{SVG}g"):
        numbers = map(float, re.findall(r"-?[\d.]+", clips[group.get("clip-path")[5:-1]]))
        corners = list(zip(*[numbers] * 6, strict=True))  # x, y, right at the top, x, y, x there
        past = [x - (high + (low - high) * share) for high, _, _, _, _, low in corners]
        if any(min(abs(here), abs(here - 6)) < 1 for here in past):
            return None
        layers.append((any(0 < here < 6 for here in past), group.findall(f"{SVG}rect")))
    for seen, rects in reversed(layers):
        if seen:
            edges = [(shape_of(rect)[1], sum(shape_of(rect)[1:])) for rect in rects]
            if min(abs(x - edge) for pair in edges for edge in pair) < 1:
                return None
            return next(
                rgb(rect.get("fill"))
                for rect, (left, right) in zip(rects, edges, strict=True)
                if left < x < right
            )
    return None


@pytest.mark.parametrize("plies", [1, 2, 3, 5])
def test_the_plied_band_is_the_same_by_pixels_and_by_shapes(plies):
    found = answered(scheme={"name": "staggered", "plies": plies})
    picture, svg = pixels(strip_png(found)), parsed(strip_svg(found))
    rows, inner = bands_of(picture)[-1], picture.shape[1] - LEFT_PX - RIGHT_PX
    drawn = np.random.default_rng(plies).integers(1, (inner - 1, 62), (400, 2)).tolist()
    compared = 0
    for column, row in drawn:
        colour = painted_by_shapes(svg, LEFT_PX + column + 0.5, (row + 0.5) / 62)
        if colour is not None:
            assert tuple(picture[rows.start + row, LEFT_PX + column]) == colour
            compared += 1
    assert compared > 150


@pytest.mark.parametrize("size", [(480, 240), (1200, 360), (1200, 900)])
@pytest.mark.parametrize("plies", [1, 3, 12])
def test_bands_stand_at_the_same_height_by_pixels_and_by_shapes(plies, size):
    found = answered(scheme={"plies": plies})
    _, *rects = parsed(strip_svg(found, *size)).iter(f"{SVG}rect")
    heights = sorted({(float(rect.get("y")), float(rect.get("height"))) for rect in rects})
    rows = bands_of(pixels(strip_png(found, *size)))
    assert len(rows) == len(heights) == plies + 1
    for shown, (top, height) in zip(rows, heights, strict=True):
        assert shown.start == pytest.approx(top, abs=0.51)
        assert shown.stop == pytest.approx(top + height, abs=0.51)


def test_the_shapes_have_a_title_and_a_description():
    found = answered(title="Tideline")
    svg = parsed(strip_svg(found))
    assert svg.get("role") == "img"
    assert svg.get("viewBox") == "0 0 1200 360"
    assert svg.find(f"{SVG}title").text == "Tideline"
    assert svg.find(f"{SVG}desc").text == strip_alt(found)
    assert parsed(strip_svg(answered())).find(f"{SVG}title").text


AWKWARD = ("<b>&amp;", "]]> --", '"quoted"', r"$\frac$", "{x} %s", "<svg/onload=x>", "a'b", "100 %")


def test_awkward_names_stay_text():
    found = answered(stash(AWKWARD), title="<script>alert(1)</script>", scheme={"plies": 1})
    svg = strip_svg(found)
    assert {name for name in words_of(svg) if name in AWKWARD} == set(AWKWARD)
    assert parsed(svg).find(f"{SVG}title").text == "<script>alert(1)</script>"
    known = {"svg", "title", "desc", "rect", "defs", "clipPath", "path", "g", "line", "text"}
    assert {element.tag.removeprefix(SVG) for element in parsed(svg).iter()} <= known
    assert pixels(strip_png(found)).shape == (360, 1200, 3)


EXTREMES = {
    "one lot": (stash(["Kelp"]), {}),
    "one lot, one ply": (stash(["Kelp"]), {"scheme": {"plies": 1}}),
    "twelve plies": (stash(), {"scheme": {"plies": 12}}),
    "twelve plies of 64 repeats": (
        stash(),
        {"scheme": {"name": "fractal", "divisions": [64] * 12}},
    ),
    "a hundred lots": (stash([f"Lot number {at}" for at in range(100)]), {}),
    "five metres": (stash(), {"target": {"yarn_m": 5.0}}),
    "five kilometres": (stash(), {"spinning": {"single_tex": 5.0}, "target": {"yarn_m": 5e3}}),
    "the longest title": (stash(), {"title": "W" * 120}),
    "the longest names": (stash(["W" * 59 + str(at) for at in range(8)]), {"scheme": {"plies": 2}}),
    "a colour no screen shows": ([{"name": "Neon", "lab": [60, -90, 90], "mass_g": 9.0}], {}),
}


@pytest.mark.parametrize("size", [(480, 240), (1200, 360)])
@pytest.mark.parametrize(("lots", "tables"), EXTREMES.values(), ids=EXTREMES)
def test_extremes_are_drawn(lots, tables, size):
    found = answered(lots, **tables)
    width, height = size
    picture = pixels(strip_png(found, *size))
    assert picture.shape == (height, width, 3)
    assert parsed(strip_svg(found, *size)).get("width") == str(width)
    _, colour = table_of(found)
    first = tuple(picture[bands_of(picture)[-1].start, LEFT_PX])
    is_cut = cut_columns(found, width - LEFT_PX - RIGHT_PX)[0]
    assert is_cut or first in set(map(tuple, colour[0].tolist()))


def test_extremes_of_length_are_as_long_as_they_say():
    lengths = [
        to_dict(answered(*EXTREMES[key][:1], **EXTREMES[key][1]))["yarn"]["length_m"]
        for key in ("five metres", "five kilometres")
    ]
    assert lengths == pytest.approx([5, 5000])


@pytest.mark.parametrize("drawn", [strip_png, strip_svg])
@pytest.mark.parametrize("size", [(479, 360), (20_001, 360), (1200, 239), (1200, 4001), (0, 0)])
def test_a_strip_of_another_size_is_refused(drawn, size):
    with pytest.raises(ValueError, match=r"^a strip is 480 × 240 to 20,000 × 4,000 pixels$"):
        drawn(answered(), *size)


@pytest.mark.parametrize("size", [(480, 240), (20_000, 240), (480, 4000)])
def test_the_least_and_the_largest_size_are_drawn(size):
    with Image.open(io.BytesIO(strip_png(answered(), *size))) as image:
        assert image.size == size
