"""The colour of fibre in a box: the robust middle, what is left out, and what is doubted.

Expected values are worked out here, in float64 and by sorting, or by colour-science.
"""

from functools import cache

import colour
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor import PlanError
from yarncolor.colour.photo.demo import TARGET_CORNERS, Conditions, demo_photo, heap_box
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.lots import read_boxes
from yarncolor.colour.photo.sampling import Box, fibre_colour, trimmed_linear
from yarncolor.colour.photo.target import by_target

WHOLE = Box(0, 0, 1, 1)
LIGHT = colour.cctf_decoding(np.arange(256) / 255, function="sRGB")
Y = np.array([0.2126, 0.7152, 0.0722])
CLIPPED_ALL = "box: every pixel in it is clipped or black; choose another box or expose otherwise"
OUTSIDE = "give left, top, width and height in shares of the picture, 0 to 1, all inside it"


def linear_of(srgb: np.ndarray) -> np.ndarray:
    """Return linear light of bytes, by colour-science."""
    return LIGHT[np.asarray(srgb)]


def robust_middle(srgb: np.ndarray) -> tuple[np.ndarray, int]:
    """Return the mean of what is kept, and how many that are, by sorting."""
    light = linear_of(srgb.reshape(-1, 3))
    light = light[(light.max(axis=1) <= 0.98) & (light @ Y >= 0.01)]
    light = light[np.argsort(light @ Y)]
    first, last = round(0.10 * len(light)), round(0.95 * len(light))
    return light[first:last].mean(axis=0), last - first


def lab_of(light: np.ndarray) -> np.ndarray:
    return colour.XYZ_to_Lab(colour.RGB_to_XYZ(light, "sRGB"))


def away(one: np.ndarray, other: np.ndarray) -> float:
    return float(colour.delta_E(one, other, method="CIE 2000"))


def patch(rgb: tuple[int, int, int], high: int = 100, wide: int = 100) -> np.ndarray:
    return np.full((high, wide, 3), rgb, np.uint8)


def fluff(rgb: tuple[int, int, int], sd: float, high: int = 150, wide: int = 200) -> np.ndarray:
    """Return fibre of a colour in light and shade, with a camera's noise."""
    return shaded(patch(rgb, high, wide), sd)


def shaded(srgb: np.ndarray, sd: float) -> np.ndarray:
    rng = np.random.default_rng(11)
    shade = rng.normal(1, sd, (*srgb.shape[:2], 1))
    noise = rng.normal(0, 20 * sd, srgb.shape)
    return np.clip(np.rint(srgb * shade + noise), 0, 255).astype(np.uint8)


# --- the robust middle --------------------------------------------------------------------------


@pytest.mark.parametrize("rgb", [(120, 80, 60), (30, 70, 110), (220, 210, 190), (140, 25, 70)])
def test_one_colour_is_read_as_that_colour(rgb):
    found = fibre_colour(Photo(patch(rgb)), WHOLE)
    assert away(found.lab, lab_of(linear_of(rgb))) < 0.02
    assert (found.spread, found.warnings) == (pytest.approx(0, abs=0.02), ())
    assert found.pixels == 10_000


@pytest.mark.parametrize("rgb", [(180, 20, 20), (200, 160, 0), (10, 40, 130), (90, 0, 90)])
def test_strong_colours_without_any_light_in_one_channel_are_read(rgb):
    assert away(fibre_colour(Photo(patch(rgb)), WHOLE).lab, lab_of(linear_of(rgb))) < 0.02


@pytest.mark.parametrize("sd", [0.05, 0.2, 0.5])
@pytest.mark.parametrize("rgb", [(120, 80, 60), (200, 190, 170), (60, 30, 50)])
def test_the_middle_is_the_mean_of_linear_light_without_shadow_and_shine(rgb, sd):
    srgb = fluff(rgb, sd)
    found = fibre_colour(Photo(srgb), WHOLE)
    right, count = robust_middle(srgb)
    assert away(found.lab, lab_of(right)) < 0.1
    np.testing.assert_allclose(found.linear, right, rtol=0.005)
    assert found.pixels == pytest.approx(count, rel=0.02)


def test_linear_light_is_averaged_not_coded_values():
    """Black and pale fibre by halves: half the light of each, which no mean of bytes gives."""
    srgb = patch((60, 60, 50))
    srgb[::2, ::2] = srgb[1::2, 1::2] = (130, 130, 120)
    kept, _, _ = trimmed_linear(Photo(srgb), WHOLE)
    right = (linear_of((60, 60, 50)) + linear_of((130, 130, 120))) / 2
    assert away(lab_of(kept.mean(axis=0)), lab_of(right)) < 1
    assert away(lab_of(kept.mean(axis=0)), lab_of(linear_of((95, 95, 85)))) > 2


@pytest.mark.parametrize(
    ("what", "rgb"), [("clipped", (255, 255, 255)), ("shadow", (5, 5, 5)), ("one", (255, 90, 70))]
)
def test_what_is_clipped_or_black_is_left_out(what, rgb):
    srgb = patch((120, 80, 60))
    srgb[:8] = rgb
    found = fibre_colour(Photo(srgb), WHOLE)
    assert away(found.lab, lab_of(linear_of((120, 80, 60)))) < 0.02
    assert found.warnings == ()
    assert found.pixels == 9_200


@pytest.mark.parametrize(("rows", "rgb"), [(9, (60, 35, 25)), (4, (240, 235, 230))])
def test_a_little_shadow_and_a_little_shine_do_not_count(rows, rgb):
    srgb = patch((120, 80, 60))
    srgb[:rows] = rgb
    found = fibre_colour(Photo(srgb), WHOLE)
    assert away(found.lab, lab_of(linear_of((120, 80, 60)))) < 0.1


def test_the_correction_is_laid_over_middle_and_spread():
    srgb = fluff((120, 80, 60), 0.2)
    gain = np.array([1.2, 0.9, 0.8])
    found = fibre_colour(Photo(srgb), WHOLE, lambda light: light * gain)
    right, _ = robust_middle(srgb)
    assert away(found.lab, lab_of(right * gain)) < 0.1
    np.testing.assert_allclose(found.linear, right, rtol=0.005)


def test_the_spread_is_the_mean_difference_of_what_counts():
    srgb = fluff((120, 80, 60), 0.2, 40, 50)
    light = linear_of(srgb.reshape(-1, 3))
    light = light[np.argsort(light @ Y)][200:1900]
    each = colour.delta_E(lab_of(light), lab_of(light.mean(axis=0)), method="CIE 2000")
    assert fibre_colour(Photo(srgb), WHOLE).spread == pytest.approx(each.mean(), rel=0.02)


def test_the_spread_grows_with_noise():
    spreads = [fibre_colour(Photo(fluff((120, 80, 60), sd)), WHOLE).spread for sd in
               (0.0, 0.02, 0.05, 0.1, 0.2, 0.4)]  # fmt: skip
    assert spreads == sorted(spreads)
    assert spreads[0] < 0.1
    assert spreads[-1] > 5


@pytest.mark.parametrize("noise", [0.002, 0.005, 0.01, 0.02])
def test_noise_widens_the_spread_and_hardly_moves_the_colour(noise):
    box = Box(*heap_box(1))
    still = fibre_colour(demo_photo(Conditions(noise=0.0)), box)
    noisy = fibre_colour(demo_photo(Conditions(noise=noise)), box)
    assert away(still.lab, noisy.lab) < 0.3
    assert noisy.spread > still.spread


# --- thinned ------------------------------------------------------------------------------------


@pytest.mark.parametrize("rgb", [(120, 80, 60), (60, 30, 50)])
def test_a_big_box_that_is_thinned_keeps_the_mean(rgb):
    srgb = fluff(rgb, 0.2, 1000, 1200)
    found = fibre_colour(Photo(srgb), WHOLE)
    right, count = robust_middle(srgb)
    assert away(found.lab, lab_of(right)) < 0.1
    assert found.pixels == pytest.approx(count, rel=0.02)


def striped(period: int, across: bool, high: int, wide: int) -> np.ndarray:
    """Return stripes: of so many pixels one is blue and the others are red."""
    srgb = patch((200, 80, 60), high, wide)
    if across:
        srgb[:, ::period] = (60, 90, 160)
    else:
        srgb[::period] = (60, 90, 160)
    return shaded(srgb, 0.1)


@pytest.mark.parametrize("across", [True, False])
@pytest.mark.parametrize("period", [2, 3, 4, 5, 7, 8, 10, 20])
@pytest.mark.parametrize("wide", [1000, pytest.param(1001, marks=pytest.mark.thorough)])
def test_a_big_box_of_stripes_is_thinned_evenly(period, across, wide):
    srgb = striped(period, across, 450, wide)
    kept, _, _ = trimmed_linear(Photo(srgb), WHOLE)
    right, _ = robust_middle(srgb)
    assert away(lab_of(kept.mean(axis=0)), lab_of(right)) < 0.5


# --- doubts -------------------------------------------------------------------------------------


def test_much_that_is_clipped_is_said():
    srgb = patch((120, 80, 60))
    srgb[:23] = 255
    assert fibre_colour(Photo(srgb), WHOLE).warnings == ("23% of the box is clipped or black",)


def test_much_that_is_black_is_said():
    srgb = patch((120, 80, 60))
    srgb[:31] = 3
    assert fibre_colour(Photo(srgb), WHOLE).warnings == ("31% of the box is clipped or black",)


def test_a_dark_colour_is_doubted():
    found = fibre_colour(Photo(patch((34, 34, 38))), WHOLE)
    assert found.warnings == ("it is too dark to be sure of",)


def test_two_colours_in_one_box_are_doubted():
    srgb = patch((160, 60, 60))
    srgb[:, 50:] = (60, 90, 160)
    assert fibre_colour(Photo(srgb), WHOLE).warnings == (
        "it is too mixed: more than one colour may be in the box",
    )


def test_few_pixels_are_doubted():
    found = fibre_colour(Photo(patch((120, 80, 60), 20, 19)), WHOLE)
    assert found.warnings == ("only 380 pixels count; draw a larger box",)


@pytest.mark.parametrize(
    ("rows", "doubted"), [(9, False), (10, False), (11, True)], ids=["9%", "10%", "11%"]
)
def test_more_than_a_tenth_that_is_clipped_is_doubted(rows, doubted):
    """Judgement, no source; so are the borders below."""
    srgb = patch((120, 80, 60))
    srgb[:rows] = 255
    assert bool(fibre_colour(Photo(srgb), WHOLE).warnings) == doubted


@pytest.mark.parametrize(("pixels", "doubted"), [(399, True), (400, False)])
def test_fewer_than_400_pixels_are_doubted(pixels, doubted):
    """Of one colour all are in the middle, none is darkest or brightest."""
    found = fibre_colour(Photo(patch((120, 80, 60), 1, pixels)), WHOLE)
    assert (found.pixels, bool(found.warnings)) == (pixels, doubted)


@pytest.mark.parametrize(("grey", "doubted"), [(38, True), (39, False)])
def test_less_than_two_hundredths_of_the_light_is_too_dark(grey, doubted):
    """Of the sRGB bytes 38 and 39 one lies on either side of 0.02 (IEC 61966-2-1)."""
    assert (LIGHT[grey] < 0.02) == doubted
    assert bool(fibre_colour(Photo(patch((grey,) * 3)), WHOLE).warnings) == doubted


@pytest.mark.parametrize("apart", range(10, 70, 4))
def test_a_mean_difference_above_twelve_is_too_mixed(apart):
    """Half of the box darker, half lighter: the mean CIEDE2000 by colour-science."""
    srgb = patch((120, 120, 120))
    srgb[:, :50], srgb[:, 50:] = 120 - apart, 120 + apart
    middle, _ = robust_middle(srgb)
    sides = [lab_of(linear_of(np.full(3, grey))) for grey in (120 - apart, 120 + apart)]
    shares = (0.40 / 0.85, 0.45 / 0.85)
    mean = sum(part * away(side, lab_of(middle)) for part, side in zip(shares, sides, strict=True))
    if abs(mean - 12) > 0.5:
        found = fibre_colour(Photo(srgb), WHOLE)
        assert any("mixed" in doubt for doubt in found.warnings) == (mean > 12)


def test_several_doubts_are_all_said():
    srgb = patch((34, 34, 38), 18, 20)
    srgb[:9] = 255
    assert fibre_colour(Photo(srgb), WHOLE).warnings == (
        "50% of the box is clipped or black",
        "it is too dark to be sure of",
        "only 180 pixels count; draw a larger box",
    )


@pytest.mark.parametrize("rgb", [(255, 255, 255), (0, 0, 0), (255, 40, 40), (252, 253, 254)])
def test_a_box_without_a_pixel_of_use_is_refused(rgb):
    with pytest.raises(PlanError) as told:
        fibre_colour(Photo(patch(rgb)), WHOLE)
    assert str(told.value) == CLIPPED_ALL


# --- boxes --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shares", "said"),
    [
        ((0.9, 0.1, 0.2, 0.2), "0.9, 0.1, 0.2, 0.2"),
        ((0.1, 0.9, 0.2, 0.2), "0.1, 0.9, 0.2, 0.2"),
        ((-0.1, 0.1, 0.2, 0.2), "-0.1, 0.1, 0.2, 0.2"),
        ((0.1, -1e-3, 0.2, 0.2), "0.1, -0.001, 0.2, 0.2"),
        ((2, 2, 0.1, 0.1), "2, 2, 0.1, 0.1"),
        ((0.1, 0.1, 0, 0.2), "0.1, 0.1, 0, 0.2"),
        ((0.1, 0.1, 0.2, -0.2), "0.1, 0.1, 0.2, -0.2"),
        ((1.0, 0.5, 0.0, 0.1), "1, 0.5, 0, 0.1"),
        ((float("nan"), 0.1, 0.2, 0.2), "nan, 0.1, 0.2, 0.2"),
        ((0.1, 0.1, 0.2, float("nan")), "0.1, 0.1, 0.2, nan"),
        ((0.1, 0.1, float("inf"), 0.2), "0.1, 0.1, inf, 0.2"),
        ((1e300, 0.1, 0.2, 0.2), "1e+300, 0.1, 0.2, 0.2"),
    ],
)
def test_a_box_outside_or_without_size_is_refused(shares, said):
    with pytest.raises(PlanError) as told:
        fibre_colour(Photo(patch((120, 80, 60))), Box(*shares))
    assert str(told.value) == f"box = {said}: {OUTSIDE}"


shares = st.floats(-0.2, 1.2, allow_nan=False)


def test_of_two_pixels_both_count():
    srgb = patch((120, 80, 60), 1, 2)
    srgb[0, 1] = (130, 90, 70)
    found = fibre_colour(Photo(srgb), WHOLE)
    assert found.pixels == 2
    assert away(found.lab, lab_of(linear_of(srgb.reshape(-1, 3)).mean(axis=0))) < 0.1


@given(shares, shares, shares, shares)
def test_a_box_is_read_or_refused_in_one_line(left, top, width, height):
    photo = Photo(fluff((120, 80, 60), 0.1, 40, 30))
    box = Box(left, top, width, height)
    try:
        found = fibre_colour(photo, box)
    except PlanError as error:
        told = str(error)
    else:
        told = ""
        assert np.isfinite(found.lab).all()
        assert 1 <= found.pixels <= 1200
    inside = min(left, top) >= 0 < min(width, height) and max(left + width, top + height) <= 1
    assert told == "" if inside else "\n" not in told


def test_a_box_is_where_it_says():
    srgb = patch((120, 80, 60), 80, 120)
    srgb[20:40, 30:90] = (60, 90, 160)
    found = fibre_colour(Photo(srgb), Box(30 / 120, 20 / 80, 60 / 120, 20 / 80))
    assert (found.pixels, found.warnings) == (1200, ())
    assert away(found.lab, lab_of(linear_of((60, 90, 160)))) < 0.02


def test_a_box_of_hardly_any_size_is_one_pixel():
    srgb = patch((120, 80, 60))
    srgb[50, 70] = (60, 90, 160)
    found = fibre_colour(Photo(srgb), Box(0.702, 0.502, 0.001, 0.001))
    assert found.pixels == 1
    assert away(found.lab, lab_of(linear_of((60, 90, 160)))) < 0.02


# --- invariance ---------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def read_by_target():
    """Return what reads a heap of the demo photograph under such conditions."""

    @cache
    def photo_and_fit(conditions):
        photo = demo_photo(conditions)
        return photo, by_target(photo, TARGET_CORNERS, "older values")

    def read(conditions=None, number=0, moved=(0.0, 0.0)):
        photo, fit = photo_and_fit(conditions or Conditions())
        left, top, width, height = heap_box(number)
        box = Box(left + moved[0], top + moved[1], width, height)
        return read_boxes(photo, {"": box}, fit.correction)[""].lab

    return read


@pytest.mark.parametrize("moved", [(4 / 900, 0), (-4 / 900, 0), (0, 6 / 675), (-5 / 900, -5 / 675)])
def test_a_box_moved_by_a_few_pixels_hardly_changes_the_colour(read_by_target, moved):
    for number in (0, 3):
        assert away(read_by_target(number=number), read_by_target(number=number, moved=moved)) < 0.2


@pytest.mark.parametrize("number", range(5))
def test_half_the_exposure_hardly_changes_the_colour(read_by_target, number):
    half = read_by_target(Conditions(exposure=0.5), number)
    assert away(read_by_target(number=number), half) < 0.5


@pytest.mark.parametrize("wild", [(2, -0.2, -0.2), (-0.2, 2, 0), (9, -5, 40), (-3, -3, -3)])
def test_a_wild_correction_gives_a_colour_and_no_fault(wild):
    found = fibre_colour(Photo(patch((120, 80, 60))), WHOLE, lambda light: 0 * light + wild)
    assert np.isfinite(found.lab).all()
    assert found.spread == pytest.approx(0, abs=1e-9)
