"""A knitted piece as shapes."""

import re
from xml.etree import ElementTree

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.drawn import HOSTILE, STAGGERED, each_plan, plan
from tests.helpers.pictures_asked import answered, three_pure
from tests.helpers.strip_pictures import SVG, parsed, stash
from yarncolor.pictures.as_knitted import knit_of
from yarncolor.pictures.fabric_pictures import stripe_heights
from yarncolor.pictures.fabric_svg import MOST_SHAPES, fabric_svg
from yarncolor.pictures.knit_scenes import KINDS


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
    rows = rects_by_row(fabric_svg(found, kind, 0.0))
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
    assert svg.get("shape-rendering") == "crispEdges"
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


@pytest.mark.parametrize("plies", [1, 3])
@pytest.mark.parametrize("kind", ["flat", "round"])
def test_a_piece_of_a_hundred_thousand_rows_is_drawn_as_far_as_shapes_are_told_apart(kind, plies):
    fabric = {"kind": kind, "stitches": 3, "rows": 100_000}
    lots = [lot | {"mass_g": 50_000.0} for lot in three_pure()]
    found = answered(lots, fabric=fabric, scheme={"name": "staggered", "plies": plies})
    svg = parsed(fabric_svg(found))
    _, *rects = svg.iter(f"{SVG}rect")
    assert MOST_SHAPES * 0.9 < len(rects) <= MOST_SHAPES
    told = svg.find(f"{SVG}text").text
    rows = int(re.match(r"Drawn are the first ([\d,]+) of", told)[1].replace(",", ""))
    assert svg.find(f"{SVG}desc").text.endswith(told)
    ends = [float(rect.get("y")) + float(rect.get("height")) for rect in rects]
    assert len({rect.get("y") for rect in rects}) == rows * plies
    high = float(svg.get("height"))
    assert max(ends) < float(svg.find(f"{SVG}text").get("y")) - 8 < high
    knit, _, _ = knit_of(found, kind)
    wide = sum(float(rect.get("width")) - 0.05 for rect in rects) / plies
    assert wide == pytest.approx(8.0 * knit.first_stitch[rows], rel=0.01)


def test_a_row_of_more_shapes_than_are_told_apart_is_begun():
    divisions, sequence = list(range(64, 52, -1)), ["Rust", "Samphire", "Mussel"] * 8
    scheme = {"name": "fractal", "divisions": divisions, "sequence": sequence}
    found = answered(three_pure(), scheme=scheme, fabric={"stitches": 200, "rows": 1})
    svg = parsed(fabric_svg(found))
    _, *rects = svg.iter(f"{SVG}rect")
    assert MOST_SHAPES * 0.9 < len(rects) <= MOST_SHAPES
    assert svg.find(f"{SVG}text").text == "Drawn is the beginning of the first row."
