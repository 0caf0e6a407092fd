"""Legends, captions and names beside a picture."""

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.drawn import HARD, HOSTILE, SMALL, STAGGERED, each_picture, opened, plan, small
from tests.helpers.pictures_asked import AS_TABLE, answered, channel, three_pure
from tests.helpers.strip_pictures import contrast, stash
from yarncolor.pictures import fonts
from yarncolor.pictures.as_knitted import knit_of
from yarncolor.pictures.captions import captioned_png, chips, with_caption, wrapped
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.fabric_pictures import knitted_piece, stripe_heights
from yarncolor.pictures.knit_scenes import KINDS

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


@each_picture
def test_names_of_any_script_are_written_or_numbered(picture):
    found = answered(stash(HARD), title=HOSTILE[0], scheme=STAGGERED)
    drawn = PICTURES[picture](found, **SMALL[picture])
    image = opened(captioned_png(found, drawn))
    assert image.text["Title"] == HOSTILE[0]
    assert image.text["Description"] == f"{drawn.alt} {drawn.caption}"
