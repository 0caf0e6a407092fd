"""Light and dark on fibre: every lot has them, and keeps its own colour in the mean."""

import coloraide
import numpy as np
import pytest

from tests.helpers.pictures_asked import PLAIN, answered, place_at
from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.as_knitted import knit_of
from yarncolor.pictures.fabric_pictures import piece_scene
from yarncolor.pictures.painting import painted, rgb
from yarncolor.pictures.relief import LEAST_RELIEF, at_every_level, heights, let_through
from yarncolor.pictures.scene import LEVELS, SHADES
from yarncolor.pictures.yarn_pictures import yarn_scene

BETWEEN, AT_THE_ENDS = 2.0, 6.0
"""CIEDE2000 by which a lot may look another in the mean: as a rule, and near black and white."""

ENDS = ("#000000", "#0a0a0a", "#f0c030", "#fafafa", "#ffffff")
OTHERS = ("#1a1c22", "#404858", "#808080", "#7a2030", "#4ac05e", "#c0a080")


def of_one_lot(colour: str):
    lots = [{"name": "Kelp", "colour": colour, "mass_g": 60.0}]
    return answered(lots, scheme={"name": "staggered", "plies": 3})


def core_of(found, scene) -> np.ndarray:
    """Return the pixels of a scene that are yarn and no hair: (pixels, 3)."""
    core = (place_at(scene) >= 0) & (scene.index % LEVELS < SHADES)
    return rgb(painted(scene, found, PLAIN))[core]


def knitted_scene(found):
    knit, aspect, _ = knit_of(found, "flat", 20, 20)
    return piece_scene(found, knit, aspect, 0.0, (500, 400))[2]


def along(found):
    return yarn_scene(found, 1.0, 24.0, (1200, 300))


@pytest.mark.parametrize("draw", [knitted_scene, along], ids=["knitted", "yarn"])
@pytest.mark.parametrize("colour", [*ENDS, *OTHERS])
def test_a_lot_is_its_own_colour_in_the_mean_of_its_light(draw, colour):
    found = of_one_lot(colour)
    mean = coded(linear(core_of(found, draw(found)) / 255).mean(axis=0))
    away = coloraide.Color("srgb", mean.tolist()).delta_e(colour, method="2000")
    assert away < (AT_THE_ENDS if colour in ENDS else BETWEEN)


@pytest.mark.parametrize("draw", [knitted_scene, along], ids=["knitted", "yarn"])
@pytest.mark.parametrize("colour", [*ENDS, *OTHERS])
def test_no_lot_is_flat(draw, colour):
    found = of_one_lot(colour)
    dark, bright = np.percentile(core_of(found, draw(found)).max(axis=1), [5, 98])
    assert bright - dark > LEAST_RELIEF / 3


@pytest.mark.parametrize("colour", ENDS + OTHERS)
def test_the_levels_of_a_lot_rise_and_none_is_cut_off(colour):
    own = np.array([[int(colour[at : at + 2], 16) for at in (1, 3, 5)]], float)
    shades = at_every_level(own)[0, :SHADES]
    peak = shades[:, own[0].argmax()]
    assert (np.diff(peak) > 1).all()
    assert peak[-1] - peak[0] >= LEAST_RELIEF - 1e-9
    assert peak.max() <= 255 + 1e-9


def test_levels_run_from_dark_to_bright_and_then_to_paper():
    high, through = heights(), let_through()
    assert (high[0], high[SHADES - 1]) == (0, 1)
    assert (np.diff(high[:SHADES]) > 0).all()
    assert (through[:SHADES] == 0).all()
    assert (np.diff(through[SHADES:]) > 0).all()


# --- no black between stitches --------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["flat", "round", "triangle", "garter"])
@pytest.mark.parametrize("size_px", [(90, 70), (380, 290), (1200, 900)])
def test_between_stitches_there_is_yarn_and_no_black(kind, size_px):
    """At a stitch of four pixels, at 1:1 on a screen of 96 dpi, and enlarged."""
    found = of_one_lot("#d8d0c0")
    knit, aspect, _ = knit_of(found, kind, 20, 20)
    scene = piece_scene(found, knit, aspect, 0.0, size_px)[2]
    assert core_of(found, scene).min() > 0.4 * 0xC0
