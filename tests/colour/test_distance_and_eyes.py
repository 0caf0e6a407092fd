"""Distance and other eyes: what no colour, no thread and no plan may change."""

from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.endless import endless
from yarncolor import answer, plan_from_data
from yarncolor.colour.carding import blended_lab
from yarncolor.colour.colour_vision import DEFICIENCIES, lightness_srgb, seen_lab, seen_srgb
from yarncolor.colour.difference import contrast_word
from yarncolor.colour.dye_depth import later_baths_lab
from yarncolor.colour.optical_mixing import (
    far_lab,
    reads_as_one_m,
    stripes_lab,
)
from yarncolor.colour.science import lab_from_srgb
from yarncolor.report.show.colours import show_mixtures, show_pairs

colours = st.tuples(*[st.floats(0, 1)] * 3)
severities = st.floats(0, 1)


@given(st.floats(0, 1), st.sampled_from(DEFICIENCIES), severities)
def test_grey_is_grey_to_all_eyes(grey, eyes, severity):
    """Rows sum to 1 within 1e-6 (Machado, Oliveira and Fernandes 2009)."""
    seen = seen_srgb(np.full((1, 3), grey), eyes, severity)
    np.testing.assert_allclose(seen, grey, atol=2e-5)


@given(colours, st.sampled_from(DEFICIENCIES))
def test_no_severity_changes_nothing(colour, eyes):
    srgb = np.array([colour])
    np.testing.assert_allclose(seen_srgb(srgb, eyes, 0.0), srgb, atol=1e-9)
    lab = lab_from_srgb(srgb)
    np.testing.assert_allclose(seen_lab(lab, eyes, 0.0), lab, atol=0.03)


@given(colours, st.sampled_from(DEFICIENCIES), severities)
def test_what_is_seen_can_be_shown(colour, eyes, severity):
    seen = seen_srgb(np.array([colour]), eyes, severity)
    assert ((seen >= 0) & (seen <= 1)).all()


@given(colours)
def test_lightness_alone_is_a_grey_of_that_lightness(colour):
    lab = lab_from_srgb(np.array([colour]))
    seen = lab_from_srgb(lightness_srgb(lab))
    assert seen[0, 0] == pytest.approx(lab[0, 0], abs=0.03)
    np.testing.assert_allclose(seen[0, 1:], 0, atol=0.03)


@given(st.lists(colours, min_size=2, max_size=6))
def test_at_no_distance_stripes_are_as_they_are(srgb):
    lab = lab_from_srgb(np.array(srgb))
    np.testing.assert_allclose(stripes_lab(lab, endless(0.0, len(lab))), lab, atol=1e-6)


@given(st.lists(colours, min_size=2, max_size=6))
def test_from_infinitely_far_stripes_are_the_mean_of_their_lights(srgb):
    lab = lab_from_srgb(np.array(srgb))
    mean = far_lab(np.ones((1, len(lab))), lab)
    np.testing.assert_allclose(
        stripes_lab(lab, endless(1e4, len(lab))), np.repeat(mean, len(lab), 0), atol=1e-3
    )


def everything(seed: int) -> bytes:
    """Return what every model says of some colours, to the last bit."""
    drawn = np.random.default_rng(seed)
    srgb = drawn.random((5, 3)) * 0.8 + 0.1
    lab = lab_from_srgb(srgb)
    lab = lab[np.argsort(lab[:, 0])]
    found = [
        blended_lab(drawn.random((20, 5)), lab),
        blended_lab(drawn.random((20, 5)), lab, "friele"),
        later_baths_lab(lab[0], lab[-1], 0.6, np.arange(1, 9)),
        far_lab(drawn.random((20, 5)), lab),
        stripes_lab(lab, endless(7.0, len(lab))),
        reads_as_one_m(lab, 6.0, 1.5),
        *(seen_srgb(srgb, eyes, 0.55) for eyes in DEFICIENCIES),
    ]
    return b"".join(np.asarray(part).tobytes() for part in found)


def test_eight_threads_find_the_same_as_one():
    """Each thread has other colours at the same time, so that nothing shared may be kept."""
    seeds = list(range(8)) * 6
    alone = {seed: everything(seed) for seed in range(8)}
    with ThreadPoolExecutor(8) as threads:
        found = list(threads.map(everything, seeds))
    assert found == [alone[seed] for seed in seeds]
    assert len(set(alone.values())) == 8


def plan_of(*labs: tuple):
    lots = [{"name": f"Lot {at}", "lab": list(lab), "mass_g": 10.0} for at, lab in enumerate(labs)]
    return answer(plan_from_data({"lots": lots}))


def pairs(found):
    return show_pairs(found, 6.0)


@pytest.mark.parametrize("show", [pairs, show_mixtures])
@pytest.mark.parametrize(
    "lab", [(0, 0, 0), (100, 0, 0), (97, -20, 90), (30, 70, -100), (0, 128, -128), (0, 0, 128)]
)
def test_the_lightest_the_darkest_and_the_most_vivid_lots_are_shown_beside_another(lab, show):
    assert "Lot 0" in show(plan_of(lab, (60, 0, 0))).text


@pytest.mark.parametrize(
    ("show", "lab"),
    [
        (pairs, (90, 20, -80)),
        (pairs, (100, 128, -128)),
        (show_mixtures, (100, 128, -128)),
    ],
)
def test_every_colour_that_a_plan_may_give_can_be_seen_beside_another(show, lab):
    """L* 0 to 100, a* and b* -128 to 128, as the page of every key says."""
    assert "Lot 0" in show(plan_of(lab, (60, 0, 0))).text


@pytest.mark.parametrize(
    ("difference", "hyab", "word"),
    [
        (0, 0, "alike"),
        (1.79, 200, "alike"),
        (1.8, 0, "close"),
        (9.99, 200, "close"),
        (10, 69.9, "clear"),
        (10, 70, "loud"),
        (100, 70, "loud"),
    ],
)
def test_the_words_change_at_their_cut_offs(difference, hyab, word):
    """1.8: Paravina and others, Journal of Esthetic and Restorative Dentistry 27, 2015, abstract:
    half of 175 observers accept a difference up to CIEDE2000 1.8. The others are ours."""
    assert contrast_word(difference, hyab) == word
