"""Hours at the wheel: drafted metres take as many turns of the flyer as they hold twist."""

from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.strategies import EVERY_SCHEME, advised, answered, by_hand, plan_data
from yarncolor.answers.hours import Hours, hours
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve

AT_60 = {"treadles_per_min": 60.0, "drive_ratio": 10.0}
LOTS = {"Kelp": 27.0, "Foam": 27.0}


def hours_of(data: dict) -> Hours:
    return hours(layout(resolve(yc.plan_from_data(data))))


def matched(spinning: dict, **tables: dict) -> dict:
    """Return 54 g of two lots on three plies: 18 g on each."""
    return by_hand(LOTS, spinning=spinning, **tables)


# --- spinning --------------------------------------------------------------------------------


def test_60_treadles_at_10_to_1_and_200_turns_a_metre_are_180_m_an_hour():
    """54 g of 100 tex are 540 m."""
    found = hours_of(matched(AT_60 | {"twist_tpm": 200.0}))
    assert found.spinning_h == pytest.approx(540 / 180)
    assert found.source == "derived"
    assert found.flyer_rpm == pytest.approx(600)


def test_1200_turns_a_minute_at_12_turns_to_the_inch_are_100_inches_a_minute():
    spinning = {"treadles_per_min": 100.0, "drive_ratio": 12.0, "twist_tpi": 12.0}
    found = hours_of(matched(spinning))
    assert found.spinning_h == pytest.approx(540 / 2.54 / 60)


def test_minutes_for_a_gram_are_those_of_what_is_weighed_out():
    """54 g at 3 minutes: 162 minutes, whatever is lost in spinning."""
    for loss in (0.0, 0.1):
        found = hours_of(matched({"minutes_per_g": 3.0, "spin_loss": loss}))
        assert found.spinning_h == pytest.approx(2.7)
        assert found.source == "given"


@pytest.mark.parametrize(
    "spinning",
    [
        {},
        AT_60,
        {"twist_tpm": 200.0},
    ],
)
def test_hours_are_not_known_by_halves(spinning):
    data = matched(spinning)
    found = answered(data)
    keys = ("hours", "hours_spinning", "hours_plying")
    assert [found["yarn"][key] for key in keys] == [None] * 3
    assert [found["yarn"]["source"][key] for key in keys] == [None] * 3
    assert {single["hours"] for single in found["singles"]} == {None}
    assert {row["minutes"] for single in found["singles"] for row in single["portions"]} == {None}
    assert not hours_of(data).is_implausible
    assert not hours_of(data).disagree


@pytest.mark.parametrize("strands", [2, [1, 2, 4]])
def test_every_strand_is_spun(strands):
    """Each strand takes its metres, so that more strands of a known grist take no longer."""
    spinning = AT_60 | {"twist_tpm": 200.0}
    found = hours_of(matched(spinning, plying={"strands": strands}))
    assert found.spinning_h == pytest.approx(540 / 180)


def test_a_single_of_more_twist_takes_longer_by_so_much():
    """18 g of each ply are 180 m: 180 · (100 + 200 + 300) turns at 600 a minute."""
    data = matched(AT_60 | {"twist_tpm": [100.0, 200.0, 300.0]})
    assert [one["hours"] for one in answered(data)["singles"]] == pytest.approx([0.5, 1.0, 1.5])


# --- plying ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("plying", "plying_h"),
    [
        ({}, None),
        ({"twist_tpm": 120.0}, 180 * 120 / 600 / 60),
        ({"twist_tpm": 120.0, "treadles_per_min": 40.0}, 180 * 120 / 400 / 60),
        ({"twist_tpm": 120.0, "drive_ratio": 5.0}, 180 * 120 / 300 / 60),
        ({"twist_tpm": 120.0} | {"treadles_per_min": 50.0, "drive_ratio": 8.0}, 0.9),
    ],
)
def test_plying_takes_the_turns_of_the_yarn(plying, plying_h):
    """180 m of yarn, nothing lost in plying; a pace of its own counts before that of spinning."""
    data = matched(AT_60 | {"twist_tpm": 200.0}, plying=plying | {"contraction": 0.0})
    found = answered(data)["yarn"]
    expected = None if plying_h is None else pytest.approx(plying_h)
    assert found["hours_plying"] == expected
    assert found["hours_spinning"] == pytest.approx(3.0)
    assert found["hours"] == pytest.approx(3.0 + (plying_h or 0))


def test_a_plan_that_only_tells_of_plying_has_no_hours_of_the_job():
    data = by_hand(LOTS, plying={"twist_tpm": 120.0, "contraction": 0.0} | AT_60)
    found = answered(data)["yarn"]
    assert found["hours_plying"] == pytest.approx(0.6)
    assert found["hours"] is None


def test_one_ply_is_not_plied():
    data = matched(
        AT_60 | {"twist_tpm": 200.0}, scheme={"plies": 1}, plying={"twist_tpm": 120.0} | AT_60
    )
    found = answered(data)["yarn"]
    assert found["hours_plying"] is None
    assert found["hours"] == pytest.approx(3.0)


def test_a_chain_is_plied_over_a_third_of_the_single():
    data = matched(
        AT_60 | {"twist_tpm": 200.0},
        scheme={"name": "chain"},
        plying={"twist_tpm": 120.0, "contraction": 0.0},
    )
    found = answered(data)["yarn"]
    assert found["hours_spinning"] == pytest.approx(3.0)
    assert found["hours_plying"] == pytest.approx(180 * 120 / 600 / 60)


# --- sums ------------------------------------------------------------------------------------


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@times(1 / 2)
@given(st.data())
def test_portions_sum_to_bobbins_and_bobbins_to_the_job(scheme, data):
    drawn = data.draw(plan_data(scheme))
    by_gram = data.draw(st.booleans())
    drawn["spinning"] |= {"minutes_per_g": 2.5} if by_gram else AT_60 | {"twist_tpm": 120.0}
    drawn["plying"] |= {"twist_tpm": 90.0} | AT_60
    found = answered(drawn)
    yarn = found["yarn"]
    for single in found["singles"]:
        minutes = [row["minutes"] for row in single["portions"]]
        assert sum(minutes) / 60 == pytest.approx(single["hours"])
        for row in single["portions"]:
            metres = row["end_m"] - row["start_m"]
            assert row["minutes"] == pytest.approx(
                row["mass_g"] * 2.5 if by_gram else metres * 120 / 600, rel=1e-6, abs=1e-9
            )
    assert sum(single["hours"] for single in found["singles"]) == pytest.approx(
        yarn["hours_spinning"]
    )
    plying_h = None if found["plies"] == 1 else yarn["length_m"] * 90 / 600 / 60
    assert yarn["hours_plying"] == (None if plying_h is None else pytest.approx(plying_h))
    assert yarn["hours"] == pytest.approx(yarn["hours_spinning"] + (plying_h or 0))
    assert yarn["source"]["hours"] == "derived"


# --- whether that can be ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("spinning", "plying", "rpm"),
    [
        ({"treadles_per_min": 150.0, "drive_ratio": 10.0}, {}, 1500),
        ({"treadles_per_min": 151.0, "drive_ratio": 10.0}, {}, 1510),
        (AT_60, {"treadles_per_min": 100.0, "drive_ratio": 16.0}, 1600),
        ({"minutes_per_g": 1.0, "twist_tpm": 150.0}, {}, 1500),
        ({"minutes_per_g": 1.0, "twist_tpm": [150.0, 160.0, 150.0]}, {}, 1600),
        ({"minutes_per_g": 0.1}, {}, None),
    ],
)
def test_a_flyer_above_1500_turns_a_minute_is_implausible(spinning, plying, rpm):
    """A gram of 100 tex is 10 m: at a minute for it and 150 turns a metre, 1500 a minute."""
    found = hours_of(matched(spinning, plying=plying))
    assert found.flyer_rpm == (None if rpm is None else pytest.approx(rpm))
    assert found.is_implausible == (rpm is not None and rpm > 1500)
    assert ("hours" in dict(advised(matched(spinning, plying=plying)))) == found.is_implausible


@pytest.mark.parametrize(
    ("minutes_per_g", "disagree"),
    [(1.99, True), (2.3, True), (2.7, False), (10 / 3, False), (4.1, False), (4.2, True)],
)
def test_minutes_and_treadling_agree_within_a_quarter(minutes_per_g, disagree):
    """At 60 · 10 and 200 turns a gram of 10 m takes 3⅓ minutes: 2⅔ to 4⅙ agree."""
    data = matched(AT_60 | {"twist_tpm": 200.0, "minutes_per_g": minutes_per_g})
    found = hours_of(data)
    assert found.disagree == disagree
    assert found.spinning_h == pytest.approx(54 * minutes_per_g / 60)
    assert found.by_treadling_h == pytest.approx(3.0)
    assert ("hours" in dict(advised(data))) == disagree


@pytest.mark.parametrize(
    ("by_treadling_h", "disagree"), [(5.0, False), (5.001, True), (3.2, False)]
)
def test_a_quarter_more_is_agreed_and_anything_beyond_is_not(by_treadling_h, disagree):
    """4 h by minutes for a gram: a quarter lies between 3.2 h and 5 h."""
    told = Hours(np.array([3.0, 1.0]), None, "given", by_treadling_h, None)
    assert told.disagree == disagree


def test_a_finer_single_takes_longer_by_the_same_angle():
    """At one angle turns go with 1/√tex and metres with 1/tex."""
    angle = {"twist_angle_deg": 20.0}
    takes = [hours_of(matched(AT_60 | angle | {"single_tex": tex})) for tex in (100.0, 50.0)]
    assert takes[1].spinning_h / takes[0].spinning_h == pytest.approx(2 * sqrt(2))
    wide_m = sqrt(4 * 100 / (pi * 500)) / 1000
    twist = 0.36397023426620234 / (pi * wide_m)
    assert takes[0].spinning_h == pytest.approx(540 * twist / 600 / 60)
