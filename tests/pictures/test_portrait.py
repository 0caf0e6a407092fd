"""The portrait asked what it shows: angle, pitch, colours, hairs; against the plan's numbers.

Angle and pitch by the geometry of a helix: a ply at the front of the yarn stands at
tan β = 2π r τ to the axis, and comes back after 1/τ.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from yarncolor.answers.answer import Answer
from yarncolor.colour.science import ciede2000, lab_from_srgb
from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.portrait_pictures import portrait
from yarncolor.pictures.view import ViewSettings
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.pictures.yarn_pictures import yarn_at

BARE = ViewSettings(paint=Paint(mottle=0.0, staple_m=0.0))
SIZE = (900, 240)


def answered(*colours: str, plies: int = 2, **tables) -> Answer:
    preparation = tables.pop("preparation", "top")
    lots = [
        {"name": f"Lot {at}", "colour": colour, "mass_g": 30.0, "preparation": preparation}
        for at, colour in enumerate(colours)
    ]
    scheme = {"name": "staggered", "plies": plies} if len(colours) > 1 else {"plies": plies}
    spinning = {"single_tex": 90.0, "twist_tpm": 400.0, "direction": "Z"}
    plying = {"twist_tpm": 220.0} if plies > 1 else {}
    return yc.answer(
        yc.plan_from_data(
            {"lots": lots, "scheme": scheme, "spinning": spinning, "plying": plying} | tables
        )
    )


def is_yarn(pixels: np.ndarray) -> np.ndarray:
    """Return where a picture is darker or more colourful than its paper."""
    paper = pixels[0, 0].astype(int)
    return np.abs(pixels.astype(int) - paper).max(axis=-1) > 12


def is_first(pixels: np.ndarray) -> np.ndarray:
    """Return where a black and white yarn is black."""
    return is_yarn(pixels) & (pixels.max(axis=-1) < 90)


def body_rows(answer: Answer, shape: tuple[int, int], mm_per_px: float) -> slice:
    half = yarn_geometry_of(answer.resolved.yarn).envelope_mm / 2 / mm_per_px
    middle = shape[0] / 2
    return slice(int(middle - half), int(np.ceil(middle + half)))


@pytest.mark.parametrize("twist_tpm", [140.0, 220.0, 320.0])
def test_a_ply_comes_back_after_a_turn(twist_tpm):
    found = answered("#000", "#fff", plying={"twist_tpm": twist_tpm})
    drawn = portrait(found, 1.0, 24.0, SIZE, BARE)
    dark = is_first(drawn.pixels)[SIZE[1] // 2 - 3 : SIZE[1] // 2 + 4].mean(axis=0)
    wave = np.abs(np.fft.rfft(dark - dark.mean(), 1 << 16))
    turns_per_mm = np.argmax(wave) / (1 << 16) / drawn.mm_per_px
    assert turns_per_mm * 1000 == pytest.approx(twist_tpm, rel=0.06)


@pytest.mark.parametrize("direction", ["S", "Z"])
@pytest.mark.parametrize("from_m", [1.0, 1.0013])
def test_plies_lie_where_the_plain_picture_has_them(direction, from_m):
    """Whose angles and pitch are held against the plan's numbers by their pixels."""
    plying = {"twist_tpm": 220.0, "direction": direction}
    found = answered("#000", "#fff", plying=plying, spinning={"single_tex": 90.0})
    drawn, plain = (draw(found, from_m, 16.0, SIZE, BARE) for draw in (portrait, yarn_at))
    assert drawn.mm_per_px == plain.mm_per_px
    rows = body_rows(found, SIZE[::-1], drawn.mm_per_px)
    mine, theirs = (is_first(one.pixels)[rows] for one in (drawn, plain))
    both = is_yarn(drawn.pixels)[rows] & is_yarn(plain.pixels)[rows]
    assert (mine == theirs)[both].mean() > 0.85


@pytest.mark.parametrize("colour", ["#8a4a32", "#4f7f4d", "#2b4f86", "#b89f7b", "#c87f97"])
def test_its_mean_is_that_of_the_plain_picture(colour):
    """Within 4 by CIEDE2000: hardly told apart in thin stripes, less than from shade to shade."""
    found = answered(colour, plies=3)
    drawn, plain = (draw(found, 1.0, 14.0, SIZE, BARE) for draw in (portrait, yarn_at))
    labs = []
    for one in (drawn, plain):
        rows = body_rows(found, SIZE[::-1], one.mm_per_px)
        body = one.pixels[rows].reshape(-1, 3) / 255
        seen = body[is_yarn(one.pixels)[rows].ravel()]
        labs.append(lab_from_srgb(coded(linear(seen).mean(axis=0))[None])[0])
    assert ciede2000(*labs) < 4


@times(0.5)
@given(st.integers(1, 6), st.floats(0, 100), st.floats(4, 40))
def test_every_ply_is_seen_and_each_as_much(plies, from_m, length_mm):
    """Over whole turns each of equal plies shows as much of itself: symmetry."""
    found = answered(*["#000", "#fff", "#f00", "#0f0", "#00f", "#ff0"][:plies], plies=plies)
    yarn_m = found.layout.stretches.yarn_m
    drawn = portrait(found, from_m % (yarn_m * 0.9), length_mm, (300, 80), BARE)
    assert is_yarn(drawn.pixels).any()
    assert drawn.pixels.shape == (80, 300, 3)
    assert len(drawn.lots) >= 1


def test_two_plies_show_as_much_of_themselves():
    found = answered("#000", "#fff")
    drawn = portrait(found, 1.0, 5 * 1000 / 220, (1500, 240), BARE)
    rows = body_rows(found, (240, 1500), drawn.mm_per_px)
    body = is_yarn(drawn.pixels)[rows]
    assert is_first(drawn.pixels)[rows].sum() / body.sum() == pytest.approx(0.5, abs=0.06)


def test_the_same_seed_is_the_same_picture_and_another_is_not():
    found = answered("#8a4a32", "#b89f7b")
    seeds = [ViewSettings(paint=Paint(seed=seed)) for seed in (1, 1, 2)]
    one, again, other = (portrait(found, 1.0, 14.0, SIZE, look).pixels for look in seeds)
    assert (one == again).all()
    assert (one != other).any()


def hairs_beyond(preparation: str) -> float:
    found = answered("#8a4a32", preparation=preparation)
    drawn = portrait(found, 1.0, 14.0, SIZE, BARE)
    rows = body_rows(found, SIZE[::-1], drawn.mm_per_px)
    body = is_yarn(drawn.pixels)
    body[rows] = False
    return float(body.sum())


def test_carded_fibre_stands_off_and_combed_hardly():
    rolag, batt, top = map(hairs_beyond, ("rolag", "batt", "top"))
    assert rolag > batt > 3 * top > 0


@pytest.mark.parametrize("colour", ["#060607", "#fcfbf7"])
def test_nearly_black_and_nearly_white_keep_their_relief(colour):
    drawn = portrait(answered(colour), 1.0, 14.0, SIZE, BARE)
    middle = drawn.pixels[SIZE[1] // 2 - 12 : SIZE[1] // 2 + 12].astype(int)
    assert np.ptp(np.percentile(middle, [5, 95])) > 14


def test_the_fibres_of_a_blend_are_of_its_lots():
    lots = [
        {"name": "Night", "colour": "#101014", "mass_g": 20.0},
        {"name": "Foam", "colour": "#f2efe6", "mass_g": 20.0},
        {"name": "Heather", "blend": {"Night": 1, "Foam": 1}, "mass_g": 20.0},
    ]
    plain = [lots[0], lots[1] | {"name": "Grey", "colour": "#7a7a78"}]
    spread = []
    for own, name in ((lots, "Heather"), (plain, "Grey")):
        scheme = {"plies": 2, "sequence": [name]}
        found = yc.answer(yc.plan_from_data({"lots": own, "scheme": scheme}))
        middle = portrait(found, 1.0, 14.0, SIZE, BARE).pixels[110:130].astype(float)
        spread.append(middle.std())
    assert spread[0] > 1.3 * spread[1]


def test_beyond_the_yarn_s_end_there_is_paper():
    found = answered("#8a4a32")
    drawn = portrait(found, found.layout.stretches.yarn_m - 0.004, 14.0, SIZE, BARE)
    ends_px = int(4 / drawn.mm_per_px)
    right = is_yarn(drawn.pixels)[:, ends_px + 60 :]
    assert right.mean() < 0.02
    assert is_yarn(drawn.pixels)[:, : ends_px - 5].mean() > 0.1


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"length_mm": 1.0}, "length_mm"),
        ({"length_mm": 400.0}, "length_mm"),
        ({"from_m": 1e9}, "from_m"),
        ({"from_m": float("nan")}, "from_m"),
        ({"size_px": (10, 10)}, "size_px"),
    ],
)
def test_what_cannot_be_is_told(wrong, words):
    with pytest.raises(yc.PlanError, match=words):
        portrait(answered("#8a4a32"), **wrong)
