"""Every picture of every plan: sizes, words, bytes, the lots that are named."""

import re

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.drawn import (
    FULL,
    OF_ONE,
    PLANS,
    SMALL,
    STAGGERED,
    each_picture,
    each_plan,
    opened,
    plan,
    small,
)
from tests.helpers.pictures_asked import AS_TABLE, answered
from tests.helpers.strip_pictures import rgb
from yarncolor.pictures.as_knitted import knit_of
from yarncolor.pictures.captions import PRINT_MM, captioned_png, with_caption
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.view import MOST_NAMED, ViewSettings
from yarncolor.pictures.yarn_pictures import whole_yarn, wraps, yarn_at

# --- every picture of every plan ------------------------------------------------------------------


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
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    assert drawn.alt.rstrip(".").endswith(", ".join(names[:MOST_NAMED]) + more)
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
    assert image.text["Description"] == f"{drawn.alt} {drawn.caption}"
    assert image.text["Software"] == f"yarncolor {yc.__version__}"
    assert image.width / image.info["dpi"][0] * 25.4 == pytest.approx(PRINT_MM, rel=2e-3)
    half = opened(captioned_png(found, drawn, print_mm=60.0))
    assert half.info["dpi"][0] == pytest.approx(2 * image.info["dpi"][0], rel=2e-3)


def test_an_untitled_plan_has_a_title_in_the_file():
    found = answered(scheme=STAGGERED)
    assert opened(captioned_png(found, small("one lot", "yarn"))).text["Title"] == "Untitled plan"


# --- the lots that are named are those that are seen ----------------------------------------------


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


@pytest.mark.parametrize("single_tex", [1.0, 50_000.0])
@pytest.mark.parametrize("plies", [1, 12])
@each_picture
def test_the_finest_and_the_thickest_yarn_of_a_plan_file_have_every_picture(
    picture, single_tex, plies
):
    spinning = {"single_tex": single_tex, "relaxed_density_g_per_cm3": 0.02}
    lots = [{"name": "Kelp", "colour": "#56612d", "mass_g": 90_000.0}]
    scheme = {"name": "matched", "plies": plies}
    found = answered(lots, spinning=spinning, scheme=scheme, plying={"twist_tpm": 1.0})
    drawn = PICTURES[picture](found, **SMALL[picture])
    assert min(drawn.pixels.shape[:2]) > 1
    assert "nan" not in drawn.caption


def test_the_longest_yarn_of_a_plan_file_is_knitted_in_small():
    lots = [{"name": f"Lot {k}", "colour": "#56612d", "mass_g": 100_000.0} for k in range(9)]
    found = answered(lots, spinning={"single_tex": 1.0}, scheme={"name": "matched", "plies": 1})
    assert "each row for" in knitted_piece(found, size_px=(100, 100)).caption
