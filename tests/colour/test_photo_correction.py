"""Photographs put right: by white, by grey, by a target however it lies, or refused in one line.

Pictures of a target are drawn here, from published values and a camera invented for the purpose;
the leave-one-out error is worked out again by plain least squares.
"""

import io

import colour
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms

from tests.helpers.colour_profiles import linear_wide_gamut
from yarncolor import PlanError
from yarncolor.colour.photo.correction import by_white, uncorrected
from yarncolor.colour.photo.demo import TARGET_CORNERS, Conditions, demo_photo, heap_box
from yarncolor.colour.photo.illumination import Illumination
from yarncolor.colour.photo.image import Photo, photo_from_bytes
from yarncolor.colour.photo.sampling import Box, fibre_colour
from yarncolor.colour.photo.target import by_target, fit_target
from yarncolor.colour.science import target_linear

AFTER, BEFORE = "newer values", "older values"
CAMERA = np.array([[0.82, 0.14, 0.02], [0.10, 0.70, 0.12], [0.02, 0.16, 0.60]])
SIZE = 480, 360
PLAIN = [(0.10, 0.15), (0.85, 0.15), (0.85, 0.82), (0.10, 0.82)]
NO_TARGET = (
    "corners: no 24-patch target is seen there, or it is badly lit; mark the patches' corners"
)
FOLDED = "corners: the corners make no plain four-sided field; give them going round"
OUTSIDE = "corners: a corner lies outside the picture; the whole target has to be seen"
FOUR = "corners: give four corners as (x, y), 0 to 1"
DARK = "corners: the target is too dark to be used; give it more light"
CLIPPED_ALL = "box: every pixel in it is clipped or black; choose another box or expose otherwise"


def coded(light: np.ndarray) -> np.ndarray:
    return np.rint(255 * colour.cctf_encoding(np.clip(light, 0, 1))).astype(np.uint8)


def lab_of(light: np.ndarray) -> np.ndarray:
    return colour.XYZ_to_Lab(colour.RGB_to_XYZ(light, "sRGB"))


def away(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    return colour.delta_E(one, other, method="CIE 2000")


def seen_by_camera(edition: str = AFTER) -> np.ndarray:
    return np.maximum(target_linear(edition), 0) @ CAMERA.T * 0.9


def drawn_target(light: np.ndarray, patch_px: int = 40) -> np.ndarray:
    """Return a target's patches (4, 6) drawn edge to edge."""
    return coded(np.kron(light.reshape(4, 6, 3), np.ones((patch_px, patch_px, 1))))


def target_photo(light: np.ndarray, matrix: np.ndarray | None = None, size=SIZE):
    """Return a photograph of a target on a dark table, and its corners.

    `matrix` leads from pixels of the photograph to those of the drawn target, in homogeneous
    coordinates; without it the target stands straight.
    """
    flat = Image.fromarray(drawn_target(light))
    if matrix is None:
        (left, top), _, (right, bottom), _ = PLAIN
        wide, high = (right - left) * size[0], (bottom - top) * size[1]
        across, down = flat.width / wide, flat.height / high
        matrix = np.array([[across, 0, -left * size[0] * across],
                           [0, down, -top * size[1] * down], [0, 0, 1]])  # fmt: skip
    matrix = matrix / matrix[2, 2]
    picture = flat.transform(
        size, Image.Transform.PERSPECTIVE, matrix.ravel()[:8].tolist(), fillcolor=(40, 40, 40)
    )
    ends = [(0, 0), (flat.width, 0), (flat.width, flat.height), (0, flat.height)]
    placed = np.column_stack([np.array(ends, float), np.ones(4)]) @ np.linalg.inv(matrix).T
    corners = placed[:, :2] / placed[:, 2:] / size
    return Photo(np.asarray(picture)), [tuple(corner) for corner in corners.tolist()]


def refusal(task, *arguments, **options) -> str:
    with pytest.raises(PlanError) as told:
        task(*arguments, **options)
    assert "\n" not in str(told.value)
    return str(told.value)


def left_out_by_least_squares(seen, wanted, degree: int) -> np.ndarray:
    """Return the error of each patch put right by the 23 others, each fit solved anew."""
    r, g, b = seen.T
    roots = [np.sqrt(r * g), np.sqrt(g * b), np.sqrt(r * b)] if degree == 2 else []
    terms = np.column_stack([seen, *roots])
    errors = []
    for out in range(24):
        kept = np.arange(24) != out
        matrix, *_ = np.linalg.lstsq(terms[kept], wanted[kept], rcond=None)
        errors.append(away(lab_of(terms[out] @ matrix), lab_of(wanted[out])))
    return np.array(errors)


# --- nothing, white, grey -----------------------------------------------------------------------


def test_no_correction_leaves_light_as_it_is_and_says_so():
    light = np.array([[0.1, 0.2, 0.3]])
    found = uncorrected()
    np.testing.assert_array_equal(found.apply(light), light)
    assert (found.kind, found.words, found.unsure) == ("none", "not corrected", 10)
    assert found.warnings == (
        "nothing white was used: the picture's light and camera are taken as they come",
    )


def paper_and_fibre(cast, exposure=1.0, reflects=0.85) -> Photo:
    """Return a photograph, left paper and right fibre (0.3, 0.2, 0.1), in light of a cast."""
    light = np.empty((100, 200, 3))
    light[:, :100], light[:, 100:] = reflects, (0.3, 0.2, 0.1)
    return Photo(coded(light * cast * exposure))


PAPER, FIBRE = Box(0.1, 0.1, 0.3, 0.8), Box(0.6, 0.1, 0.3, 0.8)


@pytest.mark.parametrize("cast", [(1, 1, 1), (1.1, 0.8, 0.5), (0.6, 0.9, 1.1), (0.3, 0.3, 0.3)])
@pytest.mark.parametrize(("what", "reflects"), [("white", 0.85), ("grey", 0.18)])
def test_paper_or_a_grey_card_takes_the_cast_away(cast, what, reflects):
    photo = paper_and_fibre(np.array(cast), reflects=reflects)
    found = by_white(photo, PAPER, what)
    right = lab_of(np.array([0.3, 0.2, 0.1]))
    assert away(fibre_colour(photo, FIBRE, found.apply).lab, right) < 0.6
    assert (found.kind, found.words) == (what, f"corrected by something {what}")
    assert (found.unsure, found.warnings) == (6, ())


def test_white_is_white_unless_said_to_be_grey():
    assert by_white(paper_and_fibre(1), PAPER).kind == "white"


def test_white_that_is_none_is_refused():
    said = refusal(by_white, paper_and_fibre(1), PAPER, "beige")
    assert said == "what = beige: give one of white, grey"


def test_white_that_is_partly_clipped_is_doubted():
    srgb = paper_and_fibre(1).srgb.copy()
    srgb[:40, :100] = 255
    assert by_white(Photo(srgb), PAPER).warnings == (
        "the white is clipped or black: expose otherwise",
    )


def test_white_that_is_all_clipped_is_refused():
    assert refusal(by_white, paper_and_fibre(1, exposure=2), PAPER) == CLIPPED_ALL


@pytest.mark.parametrize("what", ["white", "grey"])
def test_white_that_is_dark_is_doubted(what):
    photo = paper_and_fibre(1, exposure=0.025)
    found = by_white(photo, PAPER, what)
    assert found.warnings == (f"the {what} is very dark: is the box on it?",)
    assert found.unsure == 25  # judgement, no source


@pytest.mark.parametrize(("rows", "doubted"), [(20, False), (22, True)])
def test_more_than_a_fifth_of_the_white_that_is_clipped_is_doubted(rows, doubted):
    """Judgement, no source. The box on the paper is of rows 10 to 90: 16 are a fifth."""
    srgb = paper_and_fibre(1).srgb.copy()
    srgb[: 6 + rows, :100] = 255
    found = by_white(Photo(srgb), PAPER)
    assert (bool(found.warnings), found.unsure) == (doubted, 25 if doubted else 6)


def test_white_outside_the_picture_is_refused():
    assert refusal(by_white, paper_and_fibre(1), Box(0.9, 0, 0.2, 0.2)) == (
        "box = 0.9, 0, 0.2, 0.2: give left, top, width and height in shares of the picture, "
        "0 to 1, all inside it"
    )


# --- the fit, and what it is worth --------------------------------------------------------------


@pytest.mark.parametrize("degree", [1, 2])
@pytest.mark.parametrize("edition", [AFTER, BEFORE])
@pytest.mark.parametrize("seed", [1, 2])
def test_the_leave_one_out_error_by_plain_least_squares(degree, edition, seed):
    wanted = target_linear(edition)
    noise = np.random.default_rng(seed).normal(1, 0.05, (24, 3))
    seen = seen_by_camera(edition) * noise
    found = fit_target(seen, wanted, degree)
    errors = left_out_by_least_squares(seen, wanted, degree)
    assert found.left_out_mean == pytest.approx(errors.mean(), rel=1e-4)
    assert found.left_out_max == pytest.approx(errors.max(), rel=1e-4)


@pytest.mark.parametrize("degree", [1, 2])
@given(st.integers(0, 10**6), st.floats(0.005, 0.2))
def test_the_leave_one_out_error_is_larger_than_the_fit_error(degree, seed, noise):
    scatter = np.random.default_rng(seed).normal(1, noise, (24, 3))
    found = fit_target(seen_by_camera() * np.clip(scatter, 0.2, 2), target_linear(AFTER), degree)
    assert found.left_out_mean > found.fit_mean
    assert found.left_out_max >= found.left_out_mean
    assert found.correction.unsure >= 3


@pytest.mark.parametrize("degree", [1, 2])
def test_a_camera_that_mixes_its_channels_is_undone(degree):
    wanted = np.maximum(target_linear(AFTER), 0)
    found = fit_target(seen_by_camera(), wanted, degree)
    assert found.left_out_mean < 0.01
    assert found.by_grey_mean > 3
    fibre = np.array([[0.3, 0.2, 0.1], [0.05, 0.1, 0.2]])
    put_right = found.correction.apply(fibre @ CAMERA.T * 0.9)
    np.testing.assert_allclose(put_right, fibre, atol=1e-4)


@pytest.mark.parametrize(("degree", "words"), [(1, "3 × 3"), (2, "root polynomial")])
def test_the_way_is_said_and_at_least_three_is_unsure(degree, words):
    found = fit_target(seen_by_camera(), target_linear(AFTER), degree).correction
    assert (found.kind, found.unsure) == ("target", 3)
    assert found.words == f"corrected by a 24-patch target, {words}"


@pytest.mark.parametrize("degree", [1, 2])
def test_the_grey_patches_alone_are_used_where_they_do_better(degree):
    """A camera that mixes nothing, and coloured patches that were badly read."""
    wanted = np.maximum(target_linear(AFTER), 0.001)
    cast = np.array([0.9, 0.7, 0.5])
    scatter = np.ones((24, 3))
    scatter[:18] = np.random.default_rng(4).normal(1, 0.12, (18, 3))
    found = fit_target(wanted * cast * scatter, wanted, degree)
    assert found.by_grey_mean < found.left_out_mean
    assert found.correction.words == "corrected by the grey patches of a 24-patch target"
    assert found.correction.unsure == max(3, found.by_grey_mean)
    fibre = np.array([[0.3, 0.2, 0.1]])
    np.testing.assert_allclose(found.correction.apply(fibre * cast), fibre, rtol=1e-6)


@pytest.mark.parametrize("degree", [1, 2])
@given(st.floats(0.05, 1.0), st.tuples(*[st.floats(0.4, 1.6)] * 3))
def test_exposure_and_white_balance_change_nothing(degree, exposure, cast):
    wanted = target_linear(AFTER)
    seen = seen_by_camera() * np.random.default_rng(7).normal(1, 0.05, (24, 3))
    other = seen * exposure * np.array(cast)
    one, two = (fit_target(light, wanted, degree) for light in (seen, other))
    assert two.left_out_mean == pytest.approx(one.left_out_mean, rel=1e-5)
    assert two.by_grey_mean == pytest.approx(one.by_grey_mean, rel=1e-5)
    fibre = np.array([[0.3, 0.2, 0.1]])
    np.testing.assert_allclose(
        two.correction.apply(fibre * exposure * np.array(cast)),
        one.correction.apply(fibre),
        rtol=1e-5,
    )


def test_the_error_grows_with_noise_in_the_picture():
    found = [
        by_target(demo_photo(Conditions(noise=noise)), TARGET_CORNERS, BEFORE).left_out_mean
        for noise in (0.0, 0.03, 0.1)
    ]
    assert found == sorted(found)
    assert found[1] < found[0] + 1


@pytest.mark.parametrize(("illuminant", "most"), [("D65", 1.13), ("A", 2.93), ("FL2", 2.21)])
@pytest.mark.parametrize("balanced", [True, False])
def test_a_demo_photograph_is_met_nearly_as_without_noise(illuminant, most, balanced):
    """Noise, bytes and the published values of the other reflectances cost half a unit."""
    photo = demo_photo(Conditions(illuminant=illuminant, balanced=balanced))
    assert by_target(photo, TARGET_CORNERS, BEFORE).left_out_mean < most + 0.5


FAR_OUT = (0.7, 0.02, 0.02), (0.02, 0.02, 0.9), (0.02, 0.9, 0.02), (0.6, 0.05, 0.9)


@pytest.mark.parametrize("light", FAR_OUT)
def test_a_correction_by_what_is_not_white_at_all_still_reads_something(light):
    """The box on white lies on black fibre: strong colours are put far beyond what is seen."""
    picture = np.empty((100, 200, 3))
    picture[:, :100], picture[:, 100:] = (0.026, 0.013, 0.017), light
    photo = Photo(coded(picture))
    found = by_white(photo, PAPER)
    assert found.warnings == ("the white is very dark: is the box on it?",)
    assert np.isfinite(fibre_colour(photo, FIBRE, found.apply).lab).all()


# --- a target however it lies -------------------------------------------------------------------


@pytest.fixture(scope="module")
def plain():
    return target_photo(seen_by_camera())


LAYINGS = [(first, step) for first in range(4) for step in (1, -1)]


@pytest.mark.parametrize(("first", "step"), LAYINGS)
def test_any_corner_may_come_first_and_either_way_round(plain, first, step):
    photo, corners = plain
    given_so = [corners[(first + step * at) % 4] for at in range(4)]
    found = by_target(photo, given_so, AFTER)
    assert found.left_out_mean < 1


TURNS = {
    "a quarter": np.rot90,
    "a half": lambda picture: np.rot90(picture, 2),
    "three quarters": lambda picture: np.rot90(picture, 3),
    "mirrored": lambda picture: picture[:, ::-1],
    "mirrored and a quarter": lambda picture: np.rot90(picture[:, ::-1]),
}
MOVES = {
    "a quarter": lambda x, y: (y, 1 - x),
    "a half": lambda x, y: (1 - x, 1 - y),
    "three quarters": lambda x, y: (1 - y, x),
    "mirrored": lambda x, y: (1 - x, y),
    "mirrored and a quarter": lambda x, y: (y, x),
}


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize("first", [0, 1])
def test_a_target_may_lie_any_way_in_the_picture(plain, turn, first):
    photo, corners = plain
    turned = Photo(np.ascontiguousarray(TURNS[turn](photo.srgb)))
    moved = [MOVES[turn](*corner) for corner in corners]
    found = by_target(turned, moved[first:] + moved[:first], AFTER)
    assert found.left_out_mean < 1
    straight = by_target(photo, corners, AFTER).correction.apply(np.array([[0.2, 0.1, 0.1]]))
    np.testing.assert_allclose(
        found.correction.apply(np.array([[0.2, 0.1, 0.1]])), straight, rtol=0.01
    )


@pytest.mark.parametrize("degrees", [10, 30, 45, -20])
def test_a_target_may_lie_aslant(degrees):
    turn = np.radians(degrees)
    scale, middle = 0.95, np.array(SIZE) / 2
    matrix = np.eye(3)
    matrix[:2, :2] = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    matrix[:2, :2] *= scale
    matrix[:2, 2] = np.array([120, 80]) - matrix[:2, :2] @ middle
    photo, corners = target_photo(seen_by_camera(), matrix)
    assert by_target(photo, corners, AFTER).left_out_mean < 1


@pytest.mark.parametrize("lean", [(0.0006, 0.0), (0.0, -0.0006), (-0.0006, 0.0004)])
def test_a_target_may_be_seen_from_the_side(lean):
    straight = np.array([[0.8, 0, -70.0], [0, 0.8, -60.0], [*lean, 1]])
    photo, corners = target_photo(seen_by_camera(), straight)
    assert 0 < np.min(corners) < np.max(corners) < 1
    for first in (0, 1):
        assert by_target(photo, corners[first:] + corners[:first], AFTER).left_out_mean < 1


@pytest.mark.parametrize("moved", [(0.006, 0.0), (-0.006, 0.008), (0.0, -0.008)])
def test_corners_marked_a_little_off_hardly_matter(plain, moved):
    photo, corners = plain
    near = [(x + moved[0], y + moved[1]) for x, y in corners]
    assert by_target(photo, near, AFTER).left_out_mean < 1


@pytest.mark.parametrize("edition", [AFTER, BEFORE])
def test_the_right_edition_fits_better(edition):
    photo, corners = target_photo(seen_by_camera(edition))
    errors = {each: by_target(photo, corners, each).left_out_mean for each in (AFTER, BEFORE)}
    assert min(errors, key=errors.get) == edition


@pytest.mark.parametrize("patch_px", [7, 8, 10])
def test_a_target_of_small_patches_is_read(patch_px):
    small = np.pad(drawn_target(seen_by_camera(), patch_px), ((20, 20), (20, 20), (0, 0)))
    high, wide, _ = small.shape
    left, top = 20 / wide, 20 / high
    corners = [(left, top), (1 - left, top), (1 - left, 1 - top), (left, 1 - top)]
    assert by_target(Photo(small), corners, AFTER).left_out_mean < 2


def test_a_target_in_light_that_falls_off_is_made_even():
    """A plane of light in logarithms, as the package has it."""
    photo, corners = target_photo(seen_by_camera())
    slope = np.array([-0.6, 0.5])
    y, x = np.mgrid[0 : SIZE[1], 0 : SIZE[0]]
    at = np.stack([(x + 0.5) / SIZE[0], (y + 0.5) / SIZE[1]], axis=-1) - 0.5
    light = colour.cctf_decoding(photo.srgb / 255) * np.exp(at @ slope)[..., None] * 0.6
    uneven = Photo(coded(light))
    known = Illumination(slope, 0.0, 0.0, 0.0, 0.5, np.array([[0.0, 0.0], [1.0, 1.0]]))
    assert by_target(uneven, corners, AFTER, light=known).left_out_mean < 1
    assert by_target(uneven, corners, AFTER).left_out_mean > 2


# --- refused or doubted -------------------------------------------------------------------------


@pytest.mark.parametrize("degree", [3, 4, 0, -1])
def test_a_higher_degree_is_refused(plain, degree):
    assert refusal(by_target, *plain, AFTER, degree) == (
        f"degree = {degree}: give 1 or 2; 24 patches do not carry a higher degree"
    )


@pytest.mark.parametrize("edition", ["", "2014", "After 2014"])
def test_an_edition_that_is_none_is_asked_for(plain, edition):
    where = f"edition = {edition}" if edition else "edition"
    assert refusal(by_target, *plain, edition) == (
        f"{where}: give newer values or older values, as the target's own sheet says"
    )


@pytest.mark.parametrize("swapped", [[0, 2, 1, 3], [0, 1, 3, 2], [1, 0, 2, 3], [0, 2, 3, 1]])
def test_a_folded_target_is_refused(plain, swapped):
    photo, corners = plain
    assert refusal(by_target, photo, [corners[at] for at in swapped], AFTER) == FOLDED


@pytest.mark.parametrize(
    "corners",
    [[(0.1, 0.1)] * 4, [(0.1, 0.1), (0.5, 0.1), (0.9, 0.1), (0.3, 0.1)],
     [(0.1, 0.1), (0.9, 0.1), (0.4, 0.3), (0.1, 0.9)]],
    ids=["one point", "one line", "a dent"],
)  # fmt: skip
def test_corners_that_make_no_field_are_refused(plain, corners):
    assert refusal(by_target, plain[0], corners, AFTER) == FOLDED


@pytest.mark.parametrize("by", [(0.3, 0), (0, 0.4), (-0.2, 0), (0, -0.5)])
def test_a_target_half_outside_is_refused(plain, by):
    photo, corners = plain
    moved = [(x + by[0], y + by[1]) for x, y in corners]
    assert refusal(by_target, photo, moved, AFTER) == OUTSIDE


@pytest.mark.parametrize(
    "corners",
    [[], PLAIN[:3], [*PLAIN, (0.1, 0.1)], [(0.1, float("nan")), *PLAIN[1:]],
     [(float("inf"), 0.1), *PLAIN[1:]], [(0.1, 0.1, 0.1)] * 4],
)  # fmt: skip
def test_other_than_four_corners_are_refused(plain, corners):
    assert refusal(by_target, plain[0], corners, AFTER) == FOUR


def test_a_target_too_small_is_refused(plain):
    corners = [(0.1, 0.1), (0.15, 0.1), (0.15, 0.15), (0.1, 0.15)]
    said = refusal(by_target, plain[0], corners, AFTER)
    assert said == "corners: its patches are 4 pixels wide; come nearer"


@pytest.mark.parametrize("exposure", [0.0, 0.001, 0.01, 0.02])
def test_a_target_too_dark_is_refused(exposure):
    photo, corners = target_photo(seen_by_camera() * exposure)
    assert refusal(by_target, photo, corners, AFTER) == DARK


@pytest.mark.parametrize("rgb", [(255, 255, 255), (128, 128, 128), (200, 60, 40)])
def test_a_plain_field_is_no_target(rgb):
    photo = Photo(np.full((300, 400, 3), rgb, np.uint8))
    assert refusal(by_target, photo, PLAIN, AFTER) == NO_TARGET


def test_patches_in_another_order_are_no_target():
    shuffled = np.random.default_rng(9).permutation(seen_by_camera())
    assert refusal(by_target, *target_photo(shuffled), AFTER) == NO_TARGET


def test_fibre_is_no_target():
    corners = [(0.05, 0.60), (0.95, 0.60), (0.95, 0.94), (0.05, 0.94)]
    assert refusal(by_target, demo_photo(), corners, AFTER) == NO_TARGET


def test_patches_that_are_clipped_are_told():
    seen = seen_by_camera()
    over = seen * 1.3 / seen.max()
    count = int((over > 0.98).any(axis=1).sum())
    photo, corners = target_photo(over)
    assert count > 0
    assert by_target(photo, corners, AFTER).correction.warnings == (
        f"{count} of its patches are clipped: expose less",
    )


def test_a_good_target_has_no_doubts(plain):
    assert by_target(*plain, AFTER).correction.warnings == ()


numbers = st.one_of(st.floats(-0.1, 1.1), st.sampled_from([0.0, 1.0, float("nan")]))
corner = st.tuples(numbers, numbers)


@given(st.lists(corner, min_size=4, max_size=4))
def test_whatever_the_corners_they_are_used_or_refused_in_one_line(corners):
    photo = target_photo(seen_by_camera(), size=(120, 90))[0]
    try:
        found = by_target(photo, corners, AFTER)
    except PlanError as error:
        told = str(error)
    else:
        told = "used"
        assert np.isfinite([found.left_out_mean, found.by_grey_mean]).all()
    assert told == "used" or (told.startswith("corners: ") and "\n" not in told)


# --- the same picture, otherwise kept -----------------------------------------------------------


def read_by_target(photo: Photo, number: int = 0) -> np.ndarray:
    found = by_target(photo, TARGET_CORNERS, BEFORE)
    return fibre_colour(photo, Box(*heap_box(number)), found.correction.apply).lab


def saved(image: Image.Image, form: str, **options) -> Photo:
    stream = io.BytesIO()
    image.save(stream, form, **options)
    return photo_from_bytes(stream.getvalue())


@pytest.fixture(scope="module")
def demo():
    return demo_photo()


@pytest.mark.parametrize("number", [0, 4])
def test_a_picture_turned_by_its_tag_gives_the_same_colour(demo, number):
    tags = Image.Exif()
    tags[274] = 6
    lying = Image.fromarray(np.rot90(demo.srgb))
    turned = saved(lying, "JPEG", quality=95, subsampling=0, exif=tags)
    assert turned.size_px == demo.size_px
    assert away(read_by_target(turned, number), read_by_target(demo, number)) < 0.3


@pytest.mark.parametrize("number", range(5))
def test_a_picture_with_a_wide_profile_gives_the_same_colour(demo, number):
    wide = linear_wide_gamut()
    image = ImageCms.profileToProfile(
        Image.fromarray(demo.srgb),
        ImageCms.createProfile("sRGB"),
        ImageCms.ImageCmsProfile(io.BytesIO(wide)),
    )
    profiled = saved(image, "PNG", icc_profile=wide)
    assert np.abs(np.asarray(image).astype(int) - demo.srgb).mean() > 20
    assert away(read_by_target(profiled, number), read_by_target(demo, number)) < 1


@pytest.mark.parametrize("quality", [95, 80, 60])
def test_a_picture_that_lost_a_little_gives_the_same_colour(demo, quality):
    lossy = saved(Image.fromarray(demo.srgb), "JPEG", quality=quality)
    assert away(read_by_target(lossy), read_by_target(demo)) < 1


@pytest.mark.parametrize("number", range(5))
def test_a_target_brings_a_wrong_white_balance_home(number):
    right = read_by_target(demo_photo(), number)
    wrong = demo_photo(Conditions(illuminant="A", balanced=False))
    box = Box(*heap_box(number))
    assert away(fibre_colour(wrong, box).lab, right) > 5
    assert away(read_by_target(wrong, number), right) < 4
