"""How far a carded blend may come out: put together from trials, constants and spectra."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.colour.blend_doubt import LEAST_M, OF_MEASURED_SPECTRA, blend_doubt, farthest_other
from yarncolor.colour.carding import blended_lab
from yarncolor.colour.palette import blend_doubts
from yarncolor.colour.reflectance import lab_from_reflectance, smooth_reflectance_from_lab
from yarncolor.colour.science import ciede2000, lab_from_srgb, target_reflectances
from yarncolor.plan import Lot

TRIALS = [(44, 1.23), (87, 1.14), (87, 1.02)]
"""Blends and their mean CIEDE2000 as printed: Wei and others 2017; yarns and fabrics of 2025."""

colours = st.tuples(*[st.floats(0.0, 1.0)] * 3)
parts = st.tuples(st.floats(0.05, 20), st.floats(0.05, 20))


def test_no_trial_printed_more_than_is_taken_and_all_together_less():
    blends, apart = np.array(TRIALS).T
    assert round(apart.max(), 1) == OF_MEASURED_SPECTRA
    assert np.average(apart, weights=blends) < OF_MEASURED_SPECTRA


@given(colours, colours, parts)
def test_never_less_than_where_spectra_were_measured_and_finite(one, other, mix):
    lab = lab_from_srgb(np.array([one, other]))
    (doubt,) = blend_doubt([mix], lab)
    assert OF_MEASURED_SPECTRA <= doubt < 100
    reckoned = blended_lab([mix], lab)
    for constant in (LEAST_M, 0.15):
        assert ciede2000(reckoned, blended_lab([mix], lab, constant=constant)) <= doubt


@given(colours, colours, parts, st.floats(0.1, 50))
def test_it_is_of_the_shares_alone(one, other, mix, by):
    lab = lab_from_srgb(np.array([one, other]))
    twice = [mix, (mix[0] * by, mix[1] * by)]
    first, second = blend_doubt(twice, lab)
    assert second == pytest.approx(first, rel=1e-6)
    turned = blend_doubt([mix[::-1]], lab[::-1])
    assert turned[0] == pytest.approx(first, rel=1e-6)


def test_one_lot_alone_is_no_blend():
    lab = lab_from_srgb(np.array([[0.2, 0.4, 0.1], [0.9, 0.8, 0.7]]))
    np.testing.assert_array_equal(blend_doubt([[1, 0], [0, 3]], lab), [0, 0])


def test_a_way_that_shades_nothing_is_the_more_in_doubt():
    lab = np.array([[85.0, 1, 10], [35, 10, 15]])
    wool, friele, plain = (
        blend_doubt([[1, 1]], lab, model)[0] for model in ("stearns-noechel", "friele", "linear")
    )
    apart = ciede2000(blended_lab([[1, 1]], lab), blended_lab([[1, 1]], lab, "linear"))[0]
    assert plain >= apart > wool
    assert friele > wool


def test_smooth_spectra_have_the_colour_that_was_asked_for():
    """Of colours that pigments have, none of them strong or dark: the 24-patch target's."""
    wanted = lab_from_reflectance(target_reflectances())
    found = smooth_reflectance_from_lab(wanted)
    assert ((found > 0) & (found <= 1)).all()
    assert np.median(ciede2000(lab_from_reflectance(found), wanted)) < 0.01


def test_smooth_spectra_are_near_measured_ones():
    """Against the target's own reflectances (ISO 17321-1), from 400 to 700 nm."""
    measured = target_reflectances()[:, 4:65]
    found = smooth_reflectance_from_lab(lab_from_reflectance(target_reflectances()))[:, 4:65]
    assert np.sqrt(((found - measured) ** 2).mean()) < 0.06


def test_of_a_plan_s_lots_the_carded_ones_alone():
    lots = (
        Lot("Kelp", 40.0, colour="#3f5b3a"),
        Lot("Foam", 40.0, colour="#e9e2d5"),
        Lot("Wrack", 18.0, blend=(("Kelp", 2.0), ("Foam", 1.0))),
    )
    kelp, foam, wrack = blend_doubts(lots)
    assert kelp == foam == 0
    lab = lab_from_srgb(np.array([[0x3F, 0x5B, 0x3A], [0xE9, 0xE2, 0xD5]]) / 255)
    assert wrack == pytest.approx(blend_doubt([[2, 1]], lab)[0], rel=1e-9)
    assert blend_doubts(lots[:2]) == (0, 0)


@pytest.mark.parametrize(("model", "constant"), [("friele", 0.9), ("stearns-noechel", 0.5)])
def test_a_constant_far_from_any_printed_one_is_doubted_as_far_as_it_leads(model, constant):
    lab = lab_from_srgb(np.array([[0.1, 0.1, 0.3], [0.9, 0.8, 0.6]]))
    (doubt,) = blend_doubt([[1, 1]], lab, model, constant)
    said = blended_lab([[1, 1]], lab, model, constant)
    (usual,) = blend_doubt([[1, 1]], lab, model)
    away = max(ciede2000(said, blended_lab([[1, 1]], lab, constant=m))[0] for m in (LEAST_M, 0.15))
    assert doubt >= np.hypot(OF_MEASURED_SPECTRA, away) - 1e-9
    assert abs(doubt - usual) > 1


def test_each_of_several_blends_is_doubted_as_it_is_alone():
    lab = np.array([[80.0, 5.0, 40.0], [35.0, -2.0, -25.0], [50.0, 40.0, 20.0]])
    parts = np.array([[1.0, 1.0, 0.0], [0.0, 1.0, 3.0]])
    alone = [farthest_other(own, lab)[0] for own in parts]
    assert farthest_other(parts, lab) == pytest.approx(alone)
    assert alone[0] != pytest.approx(alone[1], rel=0.05)
