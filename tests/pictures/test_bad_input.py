"""What pictures say of options that cannot be."""

import pytest

import yarncolor as yc
from tests.helpers.drawn import plan
from tests.helpers.pictures_asked import answered
from tests.helpers.strip_pictures import parsed
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.fabric_pictures import knitted_piece
from yarncolor.pictures.fabric_svg import fabric_svg
from yarncolor.pictures.view import ViewSettings
from yarncolor.pictures.yarn_pictures import yarn_at

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
