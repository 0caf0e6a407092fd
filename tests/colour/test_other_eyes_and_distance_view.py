"""A plan as other eyes see it, its near-twins, and pictures from afar."""

import numpy as np
import pytest

from tests.helpers.paths import TIDELINE
from yarncolor import advice_on, answer, plan_from_data, read_plan, seen_as
from yarncolor.answers.near_twins import lost_to_other_eyes, near_twins
from yarncolor.colour.csf_filter import seen_from_afar, wraps
from yarncolor.colour.difference import contrast_word
from yarncolor.colour.optical_mixing import far_lab
from yarncolor.colour.palette import VIEWS
from yarncolor.colour.science import srgb_from_hex
from yarncolor.report.show.colours import show_pairs, show_twins

PAIR = np.array([[85.0, 1, 10], [35.0, 10, 15]])


def plan_of(**colours: str):
    lots = [{"name": n, "colour": c, "mass_g": 10.0} for n, c in colours.items()]
    return answer(plan_from_data({"lots": lots}))


@pytest.fixture(scope="module")
def tideline():
    return answer(read_plan(TIDELINE))


@pytest.mark.parametrize("view", VIEWS)
def test_every_view_keeps_the_yarn_and_changes_only_its_colours(tideline, view):
    seen = seen_as(tideline, view)
    assert seen.layout is tideline.layout
    assert (seen.palette.srgb == tideline.palette.srgb) == (view == "as it is")


def test_lightness_is_grey_and_as_light(tideline):
    seen = seen_as(tideline, "lightness").palette
    srgb = srgb_from_hex(seen.srgb)
    assert (np.ptp(srgb, axis=1) == 0).all()
    np.testing.assert_allclose(seen.lab[:, 0], tideline.palette.lab[:, 0])


def test_no_severity_changes_nothing(tideline):
    for view in VIEWS[2:]:
        assert seen_as(tideline, view, 0.0).palette.srgb == tideline.palette.srgb


@pytest.mark.parametrize(("view", "severity"), [("moonlight", 1.0), ("protanomaly", 1.1)])
def test_another_view_or_severity_is_refused(tideline, view, severity):
    with pytest.raises(ValueError, match="severity of 0 to 1"):
        seen_as(tideline, view, severity)


def test_contrast_of_a_red_green_marl_falls_for_a_red_green_deficiency():
    """Machado, Oliveira and Fernandes (2009) on sRGB (.8, .2, .2) and (.35, .45, .15): the
    difference falls from about 52 to about 7 (computed apart)."""
    found = plan_of(Red="#cc3333", Green="#597326")
    seen = seen_as(found, "deuteranomaly")
    assert found.palette.between.ciede2000[0, 1] == pytest.approx(52, abs=1)
    assert seen.palette.between.ciede2000[0, 1] == pytest.approx(6.6, abs=0.5)


def test_near_twins_are_told_in_the_advice_and_far_pairs_are_not():
    found = plan_of(Kelp="#56612d", Weed="#58632e", Foam="#e9e2d5")
    (twins,) = near_twins(found)
    assert (twins.one, twins.other) == (0, 1)
    assert [item.kind for item in advice_on(found)] == ["near_twins"]
    assert "Kelp  Weed  every eye" in show_twins(found).text


@pytest.mark.parametrize("seed", range(40))
def test_no_pair_is_called_close_and_told_to_be_merged(seed):
    """And none is called alike that may only be parted."""
    rng = np.random.default_rng(seed)
    one = rng.uniform((30, -50, -50), (80, 50, 50))
    lab = {"Kelp": one.tolist(), "Weed": (one + rng.uniform(-4, 4, 3)).tolist()}
    lots = [{"name": name, "lab": own, "mass_g": 10.0} for name, own in lab.items()]
    found = answer(plan_from_data({"lots": lots}))
    between = found.palette.between
    word = contrast_word(between.ciede2000[0, 1], between.hyab[0, 1])
    for item in advice_on(found):
        if item.kind == "near_twins":
            merged = any(way.choice.startswith("merge ") for way in item.remedies)
            assert (merged, "Merge" in item.text) == (word == "alike",) * 2
            assert word in item.text.lower()


def test_a_stripe_that_is_lost_to_other_eyes_is_told():
    found = plan_of(Red="#b5483a", Green="#6f7433")
    assert near_twins(found) == []
    assert {twins.eyes for twins in lost_to_other_eyes(found)} >= {"deuteranomaly"}
    assert "lost_stripe" in {item.kind for item in advice_on(found)}


def test_a_lot_that_is_not_spun_has_no_twin():
    lots = [{"name": n, "colour": "#56612d", "mass_g": 10.0} for n in ("Kelp", "Weed")]
    found = answer(plan_from_data({"lots": lots, "scheme": {"sequence": ["Kelp"]}}))
    assert near_twins(found) == []


def test_each_pair_has_its_row_and_numbers_come_on_request(tideline):
    plain, full = show_pairs(tideline, 6.0), show_pairs(tideline, 6.0, numbers=True)
    assert len(plain.text.splitlines()) == 6 * 5 / 2
    assert "HyAB</th>" not in plain.html
    assert "HyAB</th>" in full.html


def test_a_pair_reads_as_one_alone_first_then_wrapped(tideline):
    """Beside a thread in a swatch lie others, whose stripes are not its own."""
    rows = [row.split("  ") for row in show_pairs(tideline, 6.0).text.splitlines()]
    metres = np.array([[float(cell.split()[0]) for cell in row[3:6]] for row in rows])
    assert (metres[:, 0] <= metres[:, 1] + 0.051).all()


def test_a_picture_at_no_distance_is_as_it_is():
    index = wraps(120, 40, 2, 20.0, 10.0)
    seen = seen_from_afar(index, PAIR, 0.0)
    assert len(np.unique(seen.reshape(-1, 3), axis=0)) == 2


def test_a_picture_of_one_colour_stays_so_at_any_distance():
    index = np.zeros((30, 50), int)
    for degrees in (0.001, 0.05, 2.0):
        np.testing.assert_allclose(
            seen_from_afar(index, PAIR, degrees).astype(int),
            seen_from_afar(index, PAIR, 0.0).astype(int),
            atol=1,
        )


def test_from_very_far_a_marl_is_the_mean_of_its_lights():
    """Grassmann's law: lights add."""
    index = wraps(400, 100, 2, 20.0, 10.0)
    seen = seen_from_afar(index, PAIR, 0.0005)
    mean = seen_from_afar(np.zeros((1, 1), int), far_lab([[1, 1]], PAIR), 0.0)[0, 0]
    np.testing.assert_allclose(seen[50, 200].astype(int), mean.astype(int), atol=2)


def test_stripes_blur_more_from_farther():
    index = wraps(400, 60, 2, 20.0, 10.0)
    spread = [
        np.ptp(seen_from_afar(index, PAIR, degrees)[30, 100:300, 0].astype(int))
        for degrees in (0.5, 0.01, 0.005, 0.003, 0.002)
    ]
    assert spread == sorted(spread, reverse=True)
    assert spread[0] > 10 * spread[-1]
