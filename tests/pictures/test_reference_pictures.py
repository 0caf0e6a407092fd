"""Pictures that were looked at, and the memory that they take."""

import tracemalloc
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageChops

from tests.helpers.drawn import STAGGERED, each_picture, plan
from tests.helpers.pictures_asked import TWISTED, answered
from tests.helpers.strip_pictures import any_colours, stash
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.skein_pictures import ball_of_yarn, skein_of_yarn
from yarncolor.pictures.view import ViewSettings
from yarncolor.pictures.woven_pictures import woven_cloth
from yarncolor.pictures.yarn_pictures import whole_yarn, wraps, yarn_at

# --- reference pictures: each was looked at -------------------------------------------------------

REFERENCES = Path(__file__).parent / "reference_pictures"
REFERENCE = {
    "yarn": lambda found: yarn_at(found, 60.3, 12.0, (200, 60)),
    "yarn at a join": lambda found: yarn_at(
        found, found.layout.stretches.edges_m[1] - 0.02, 40.0, (400, 60)
    ),
    "wraps": lambda found: wraps(found, (25.0, 25.0), None, 120),
    "whole": lambda found: whole_yarn(found, 12, (200, 120)),
    "skein": lambda found: skein_of_yarn(found, size_px=(200, 60)),
    "ball": lambda found: ball_of_yarn(found, size_px=(120, 120)),
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


# --- memory ---------------------------------------------------------------------------------------

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
