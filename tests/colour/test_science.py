"""The one door to colour-science: what comes through it, and what is kept out."""

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from coloraide import Color

from tests.helpers.paths import SAMPLES as SAMPLE_PLANS
from yarncolor.colour.science import (
    ciede2000,
    hex_from_srgb,
    lab_from_srgb,
    shown_srgb,
    srgb_from_hex,
    srgb_from_lab,
)

ASKED_BEFORE_AND_AFTER = """
import sys
from unittest.mock import NonCallableMock
import numpy as np

def state():
    return np.get_printoptions(), np.geterr(), repr(np.float64(0.1)), repr(np.array([0.1, 1e-9]))

before = state()
import yarncolor
from yarncolor.colour.science import lab_from_srgb
assert "colour" not in sys.modules
lab_from_srgb(np.array([[0.1, 0.2, 0.3]]))
assert "colour" in sys.modules
assert state() == before, (before, state())
made_up = [name for name, module in sys.modules.items() if isinstance(module, NonCallableMock)]
assert not made_up, made_up
print("as before")
"""

FIRST_USED_BY_MANY_THREADS = """
from concurrent.futures import ThreadPoolExecutor
import numpy as np
from yarncolor.colour.science import lab_from_srgb

options = np.get_printoptions()
srgb = np.linspace(0, 1, 300).reshape(-1, 3)
with ThreadPoolExecutor(8) as pool:
    found = list(pool.map(lab_from_srgb, [srgb] * 16))
assert all((lab == found[0]).all() for lab in found)
assert np.get_printoptions() == options
print("as before")
"""


def fresh(*arguments: str, **more) -> subprocess.CompletedProcess:
    """Return what a fresh Python says to arguments."""
    return subprocess.run(
        [sys.executable, *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        **more,
    )


def hue_deg(lab: np.ndarray) -> np.ndarray:
    return np.degrees(np.arctan2(lab[:, 2], lab[:, 1]))


def any_lab(count: int, seed: int) -> np.ndarray:
    drawn = np.random.default_rng(seed).random((count, 3))
    return drawn * [100, 256, 256] - [0, 128, 128]


def seen_by_a_second_library(srgb: np.ndarray) -> np.ndarray:
    return np.array([Color("srgb", list(row)).convert("lab-d65").coords() for row in srgb])


@pytest.mark.parametrize("program", [ASKED_BEFORE_AND_AFTER, FIRST_USED_BY_MANY_THREADS])
def test_the_first_colour_leaves_the_process_as_it_was(program):
    done = fresh("-c", program)
    assert (done.stdout, done.stderr, done.returncode) == ("as before\n", "", 0)


def test_importing_the_package_warns_of_nothing():
    done = fresh("-W", "error", "-c", "import yarncolor")
    assert (done.stdout, done.stderr, done.returncode) == ("", "", 0)


def test_there_are_sample_plans_to_try():
    assert len(SAMPLE_PLANS) >= 3


def test_threads_agree():
    lab = [any_lab(4000, seed) for seed in range(8)]
    with ThreadPoolExecutor(4) as pool:
        together = list(pool.map(lambda one: (ciede2000(one, one[::-1]), srgb_from_lab(one)), lab))
    for one, (difference, srgb) in zip(lab, together, strict=True):
        np.testing.assert_array_equal(difference, ciede2000(one, one[::-1]))
        np.testing.assert_array_equal(srgb, srgb_from_lab(one))


@pytest.mark.parametrize(
    "srgb", [(128, 64, 0), (1.0001, 0, 0), (-0.0001, 0, 0), (0.5, np.nan, 0.5), (np.inf, 0, 0)]
)
def test_screen_colours_on_another_scale_are_refused(srgb):
    with pytest.raises(ValueError, match=r"^colour values from 0 to 1 are needed$"):
        lab_from_srgb(np.array([[0.2, 0.2, 0.2], srgb]))


@pytest.mark.parametrize(
    "lab", [(5000, 0, 0), (50, 201, 0), (50, 0, -201), (50, np.nan, 0), (50, 0, -np.inf)]
)
def test_cielab_on_another_scale_is_refused(lab):
    good, bad = np.array([[50.0, 0, 0]]), np.array([lab], dtype=float)
    complaint = r"^colour values from -200 to 200 are needed$"
    for refused in (
        lambda: srgb_from_lab(bad),
        lambda: shown_srgb(bad),
        lambda: ciede2000(good, bad),
        lambda: ciede2000(bad, good),
    ):
        with pytest.raises(ValueError, match=complaint):
            refused()


def test_a_colour_that_a_screen_can_show_is_shown_as_it_is():
    srgb = np.random.default_rng(1).random((3000, 3))
    lab = lab_from_srgb(srgb)
    shown, inside = shown_srgb(lab)
    assert inside.all()
    np.testing.assert_allclose(shown, srgb, rtol=0, atol=0.5 / 255)


def test_a_colour_beyond_the_screen_is_marked():
    lab = any_lab(3000, 2)
    _, inside = shown_srgb(lab)
    fits = [Color("lab-d65", list(one)).in_gamut("srgb", tolerance=2e-3) for one in lab]
    fits_well = [Color("lab-d65", list(one)).in_gamut("srgb", tolerance=0) for one in lab]
    assert 0 < inside.sum() < len(lab)
    assert (inside <= fits).all()
    assert (inside >= fits_well).all()


def test_a_colour_beyond_the_screen_keeps_lightness_and_hue_and_gives_up_chroma():
    lab = any_lab(4000, 3)
    lab = lab[(lab[:, 0] > 5) & (lab[:, 0] < 98)]
    srgb, inside = shown_srgb(lab)
    lab, seen = lab[~inside], seen_by_a_second_library(srgb[~inside])
    before, after = np.hypot(*lab.T[1:]), np.hypot(*seen.T[1:])
    np.testing.assert_allclose(seen[:, 0], lab[:, 0], rtol=0, atol=0.3)
    turned = (hue_deg(seen) - hue_deg(lab) + 180) % 360 - 180
    assert (2 * after * np.abs(np.sin(np.radians(turned / 2))) < 0.5).all()
    assert (after < before + 0.5).all()


def test_no_more_chroma_is_given_up_than_the_screen_asks_for():
    lab = any_lab(2000, 4)
    srgb, inside = shown_srgb(lab)
    margin = np.minimum(srgb, 1 - srgb).min(axis=1)
    assert (margin[~inside] < 1 / 255).all()


def test_white_and_black_of_any_chroma_are_shown_as_white_and_black():
    srgb, inside = shown_srgb(np.array([[100.0, 60, -40], [0.0, -60, 40]]))
    assert hex_from_srgb(srgb) == ["#ffffff", "#000000"]
    assert not inside.any()


def test_a_shown_colour_is_never_outside_the_screen():
    srgb, _ = shown_srgb(any_lab(3000, 5))
    assert srgb.min() >= 0
    assert srgb.max() <= 1


def test_colours_beyond_the_screen_come_through_unclipped_where_they_are_asked_for():
    """CIELAB 60, -60, 80 has a negative blue; below 0 the encoding is a straight line."""
    red, green, blue = srgb_from_lab(np.array([[60.0, -60, 80]]))[0]
    beyond = Color("lab-d65", [60, -60, 80])
    assert (red, green) == pytest.approx(beyond.convert("srgb").coords()[:2], abs=2e-3)
    assert blue < -0.1
    assert blue / 12.92 == pytest.approx(beyond.convert("srgb-linear").coords()[2], abs=2e-4)


def test_no_colours_are_no_fault():
    assert lab_from_srgb(srgb_from_hex([])).shape == (0, 3)
    assert hex_from_srgb(np.empty((0, 3))) == []
    assert ciede2000(np.empty((0, 3)), np.empty((0, 3))).shape == (0,)
