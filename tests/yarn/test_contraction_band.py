"""Between which lengths lost in plying the true one is to be expected."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

import yarncolor as yc
from tests.helpers.card_reader import card, short_card, words
from tests.helpers.yarns import (
    PLIED,
    SPUN,
    THREE,
    TWO,
    lost_by_helix,
    lost_by_untwisting,
    plan_of,
    yarn_of,
)
from yarncolor.yarn.balance import MEASURED_LATER, said_too_much
from yarncolor.yarn.helix import Single

LATER = 1.2 / (2 / 3 * 2**0.5)
"""A two-ply of 2024 was as long as its singles at a ratio of twist coefficients of 1.2."""


def band_of(scheme, spinning, plying) -> tuple[float, float]:
    found = yarn_of(scheme=scheme, spinning=spinning, plying=plying)
    return found["contraction_low"], found["contraction_high"]


@pytest.mark.parametrize(("scheme", "plies"), [(TWO, 2), (THREE, 3)])
def test_from_the_lower_model_less_its_error_to_the_higher(scheme, plies):
    """The error by another search: what untwisting takes at the twist that takes nothing, later."""
    zero = brentq(lambda tpm: lost_by_untwisting(100.0, plies, 300.0, tpm), 20.0, 290.0)
    less = lost_by_untwisting(100.0, plies, 300.0, LATER * zero)
    untwisting = lost_by_untwisting(100.0, plies, 300.0, 190.0)
    low, high = band_of(scheme, SPUN, PLIED)
    assert low == pytest.approx(untwisting - less, rel=1e-6)
    assert high == pytest.approx(lost_by_helix(100.0, plies, 190.0), rel=1e-9)
    assert less > 0


def test_the_error_is_taken_at_more_ply_twist_by_what_was_measured():
    assert pytest.approx(1.2728, abs=1e-4) == MEASURED_LATER
    assert said_too_much(Single(0.5, 0.0), 2) == 0


@given(st.floats(60, 900), st.floats(40, 700))
def test_what_is_in_force_lies_between(twist, ply_twist):
    spinning, plying = SPUN | {"twist_tpm": twist}, {"twist_tpm": ply_twist}
    for model in ("untwisting", "helix"):
        found = yarn_of(scheme=TWO, spinning=spinning, plying=plying | {"contraction_model": model})
        inside = found["contraction_low"], found["contraction"], found["contraction_high"]
        assert inside == tuple(sorted(inside))
        assert inside[0] > -1
        assert inside[2] < 1


@pytest.mark.parametrize(
    ("spinning", "plying"),
    [
        (SPUN, PLIED | {"contraction": 0.04}),
        (SPUN, PLIED | {"contraction_model": "none"}),
        ({}, PLIED),
        (SPUN, {}),
    ],
)
def test_no_band_where_one_model_or_none_is_asked_or_all_was_measured(spinning, plying):
    assert band_of(THREE, spinning, plying) == (None, None)


def test_plied_the_way_they_were_spun_both_models_alone_bound_it():
    """The measured yarn was plied the other way."""
    spinning = SPUN | {"direction": "Z"}
    plying = PLIED | {"direction": "Z"}
    found = yarn_of(scheme=TWO, spinning=spinning, plying=plying)
    by_model = sorted(found["contraction_by_model"].values())
    assert [found["contraction_low"], found["contraction_high"]] == by_model


def test_in_words_as_shares_and_as_metres():
    """30 + 30 g of two singles of 100 tex: 300 m each."""
    low, high = band_of(TWO, SPUN, PLIED)
    line = told_of(SPUN, PLIED)
    assert f"so {300 * (1 - high):.0f} m to {300 * (1 - low):.0f} m" in line
    assert f"{-low:.1%} won and {high:.1%} lost" in line


def test_helices_alone_are_the_most_where_singles_untwist():
    assert "That is the most" in told_of({}, PLIED)
    same_way = told_of({"direction": "Z"}, PLIED | {"direction": "Z"})
    assert same_way
    assert "That is the most" not in same_way + told_of({}, PLIED | {"contraction": 0.04})


def test_on_both_forms_of_the_card_beside_the_twist():
    low, high = band_of(TWO, SPUN, PLIED)
    data = plan_of(scheme=TWO, spinning=SPUN, plying=PLIED)
    for page in (card(data), short_card(data)):
        assert f"Expect {300 * (1 - high):.0f} m to {300 * (1 - low):.0f} m: what" in words(page)
    assert "Expect" not in words(card(plan_of(scheme=TWO, plying=PLIED)))


def told_of(spinning: dict, plying: dict) -> str:
    data = plan_of(scheme=TWO, spinning=spinning, plying=plying)
    lines = yc.summary_text(yc.answer(yc.plan_from_data(data))).splitlines()
    (line,) = [line for line in lines if line.startswith("Length in plying")]
    return line
