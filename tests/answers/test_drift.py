"""What hands do to a plan: closed forms, laws, and a spinner whose yarns are spun apart."""

from math import erf, exp, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.signal import lfilter

import yarncolor as yc
from tests.helpers.strategies import DIVIDING, EVERY_SCHEME, answered, by_hand, plan_data
from yarncolor.answers.answer import Answer
from yarncolor.answers.drift import drift
from yarncolor.answers.drift_helps import HELPS
from yarncolor.answers.spins import SPINS, Spins, of_shares, spins
from yarncolor.answers.straying import Straying, drawn_shares, drifted, ply_by_ply, straying
from yarncolor.layout.layout import off_the_bobbins
from yarncolor.layout.stretches import sections

LOTS = {"Kelp": 40.0, "Foam": 60.0, "Slate": 50.0}
NEAR = 4 / sqrt(SPINS)
"""Four SD of a mean over all spins, in SD of what is averaged."""
BAND_Z = 1.6448536
SHORTEST_OF = {2: 0.5641896, 3: 0.8462844, 4: 1.0293754, 5: 1.1629645, 6: 1.2672064}


def plan_of(scheme: dict, masses: dict = LOTS, **tables: dict) -> dict:
    scale = {"step_g": 0.001} | tables.pop("scale", {})
    return by_hand(masses, scheme=scheme, scale=scale, **tables)


def answer_to(data: dict) -> Answer:
    return yc.answer(yc.plan_from_data(data))


def spun(data: dict, times: int = SPINS) -> Spins:
    found = answer_to(data)
    return spins(found.layout, straying(found.layout, found.on_scale_g), times)


def matched(plies: int) -> dict:
    return {"name": "matched", "plies": plies}


# --- a hand that strays by nothing -----------------------------------------------------------


@pytest.mark.parametrize("name", EVERY_SCHEME)
@given(data=st.data())
def test_a_hand_that_does_not_stray_spins_the_plan_to_the_last_bit(name, data):
    laid = answer_to(data.draw(plan_data(name))).layout
    nothing = np.zeros(len(laid.portions))
    even = spins(laid, Straying(*[nothing] * 4, 0.0), 3)
    assert (even.length_m == laid.portions.length_m[even.order]).all()
    if laid.resolved.is_chain:
        return
    edges, lot = sections(off_the_bobbins(laid.resolved, laid.portions))
    for these_edges, these_lots in even._merged():
        assert (these_edges == edges).all()
        assert (these_lots == lot).all()


@pytest.mark.parametrize("said", [{}, {"variation_drift": 0.5}, {"variation_reach_m": 9.0}])
def test_nothing_is_said_of_hands_that_the_plan_says_nothing_of(said):
    assert answered(plan_of(matched(2), spinning=said))["drift"] is None


def test_a_key_that_says_what_is_usual_changes_nothing():
    told = plan_of(matched(2), spinning={"variation": 0.05})
    same = plan_of(matched(2), spinning={"variation": 0.05, "divided": "scale"})
    assert answered(told) == answered(same)


def test_the_same_plan_strays_in_the_same_way_whoever_asks():
    data = plan_of(matched(3), spinning={"variation": 0.05, "variation_bobbins": 0.02})
    assert answered(data)["drift"] == answered(data)["drift"]


# --- closed forms ----------------------------------------------------------------------------


@pytest.mark.parametrize("plies", SHORTEST_OF)
def test_the_shortest_of_so_many_plies_lies_where_order_statistics_have_it(plies):
    """60 g of one lot on each of so many plies: 8 % of each is the spread."""
    yarns = spun(plan_of(matched(plies), {"Kelp": 60.0}, spinning={"variation": 0.08}))
    short = 1 - yarns.yarn_m.mean() / yarns.laid.stretches.yarn_m
    assert short == pytest.approx(0.08 * SHORTEST_OF[plies], abs=0.08 * NEAR)
    shares = yc.to_dict(answer_to(plan_of(matched(plies), spinning={"variation": 0.08})))["drift"]
    assert shares["ends_first"] == pytest.approx([1 / plies] * plies, abs=NEAR)


def test_of_two_unequal_plies_the_expected_shorter_is_clark_s():
    """30 g and 32 g at 6 %: the mean of the lesser of two normal lengths (Clark 1961)."""
    portions = [
        {"ply": 1, "lot": "Kelp", "mass_g": 30.0},
        {"ply": 2, "lot": "Foam", "mass_g": 32.0},
    ]
    data = plan_of({"name": "free", "portions": portions}, spinning={"variation": 0.06})
    a, b = 300.0, 320.0
    spread = 0.06 * sqrt(a**2 + b**2)
    z = (b - a) / spread
    below = (1 + erf(z / sqrt(2))) / 2
    expected = a * below + b * (1 - below) - spread * exp(-(z**2) / 2) / sqrt(2 * pi)
    found = answered(data)
    assert spun(data).yarn_m.mean() == pytest.approx(expected, abs=NEAR * 0.06 * a)
    assert found["drift"]["ends_first"][0] == pytest.approx(below, abs=NEAR)


@pytest.mark.parametrize("contraction", [0.0, 0.1])
@pytest.mark.parametrize("places", [1, 4, 8])
@pytest.mark.parametrize("plies", [2, 3])
def test_plies_of_equal_portions_part_by_the_root_of_the_portions_so_far(
    plies, places, contraction
):
    """Each change of n portions of length l lies √(2n) · CV · l from the other ply's."""
    masses = dict.fromkeys("ABCDEFGH"[:places], 20.0 * plies)
    plying = {"contraction": contraction}
    yarns = spun(plan_of(matched(plies), masses, spinning={"variation": 0.05}, plying=plying))
    length_m = 200.0 * (1 - contraction)
    ends = np.arange(1, places + 1)
    expected = 0.05 * length_m * np.sqrt(2 * ends)
    assert yarns.off_m(ends * length_m) == pytest.approx(expected, rel=0.03)


def test_how_far_plies_part_grows_evenly_inside_a_portion_of_even_grist():
    yarns = spun(plan_of(matched(2), {"Kelp": 40.0}, spinning={"variation": 0.05}))
    parts = yarns.off_m(np.array([0.1, 0.5, 1.0]) * 200.0)
    assert parts == pytest.approx(parts[-1] * np.array([0.1, 0.5, 1.0]), rel=1e-9)


def test_a_mean_over_spins_settles_by_their_root():
    """Of 16 times as many spins the mean strays a quarter as far."""
    laid = answer_to(plan_of(matched(2), {"Kelp": 60.0}, spinning={"variation": 0.05})).layout
    strays = straying(laid, laid.portions.mass_g)
    one_ply = ply_by_ply(laid.portions.starts)

    def sd_of_means(times: int) -> float:
        each = (drawn_shares(laid, strays, times, one_ply, seed) for seed in range(300))
        return float(np.std([of_shares(laid, share).yarn_m.mean() for share in each]))

    assert sd_of_means(50) / sd_of_means(800) == pytest.approx(4, rel=0.2)


@pytest.mark.parametrize("reach_m", [0.5, 5.0, 50.0, 1000.0])
def test_spread_along_a_portion_averages_out_as_its_reach_says(reach_m):
    """200 m: CV² · 2 (a - 1 + e⁻ᵃ) / a² is left of it, a the length in reaches."""
    hands = {"variation_within": 0.1, "variation_reach_m": reach_m}
    yarns = spun(plan_of(matched(1), {"Kelp": 20.0}, spinning=hands))
    a = 200.0 / reach_m
    assert yarns.single_m.std() / 200.0 == pytest.approx(
        0.1 * sqrt(2 * (a - 1 + exp(-a))) / a, rel=0.03
    )


@pytest.mark.parametrize("reach_m", [5.0, 100.0])
def test_inside_a_portion_places_stray_as_the_length_up_to_them_does(reach_m):
    """Two plies, each its own: twice the variance of a length of 50 of 200 m."""
    hands = {"variation_within": 0.1, "variation_reach_m": reach_m}
    yarns = spun(plan_of(matched(2), {"Kelp": 40.0}, spinning=hands))
    a = 50.0 / reach_m
    expected = 0.1 * reach_m * sqrt(2 * 2 * (a - 1 + exp(-a)))
    assert yarns.off_m(np.array([50.0]))[0] == pytest.approx(expected, rel=0.02)


def test_a_scale_s_step_alone_leaves_the_error_of_its_rounding():
    """Eight portions of 4 g on a scale of 1 g: 1/√12 g each, √8 times that on the ply, 10 m a g."""
    masses = dict.fromkeys("ABCDEFGH", 4.0)
    data = plan_of(matched(1), masses, spinning={"variation": 0.0}, scale={"step_g": 1.0})
    assert spun(data).single_m.std() == pytest.approx(10 * sqrt(8 / 12), rel=0.03)


# --- divided by eye --------------------------------------------------------------------------

EYE = {"divided": "eye"}


@pytest.mark.parametrize("scheme", [matched(3), {"name": "fractal", "divisions": [1, 2, 4]}])
def test_by_eye_each_lot_keeps_what_it_had(scheme):
    yarns = spun(plan_of(scheme, spinning=EYE), 200)
    portions = yarns.laid.portions
    grams = yarns.length_m / portions.length_m[yarns.order] * portions.mass_g[yarns.order]
    lots = portions.lot[yarns.order]
    for lot, mass in enumerate(LOTS.values()):
        assert grams[:, lots == lot].sum(axis=1) == pytest.approx(mass, rel=1e-12)
    assert grams.std(axis=0).min() > 0


def test_by_eye_a_lot_divided_in_two_strays_by_a_fifth_of_a_share_over_the_root_of_two():
    yarns = spun(plan_of(matched(2), {"Kelp": 40.0}, spinning=EYE))
    away = yarns.single_m[:, 0] / 200.0 - 1
    low, high = np.quantile(away, (0.1587, 0.8413))
    assert (high - low) / 2 == pytest.approx(0.2 / sqrt(2), rel=0.03)


def test_what_is_not_divided_does_not_stray_by_eye():
    found = answered(plan_of(matched(1), {"Kelp": 40.0}, spinning=EYE))["drift"]
    assert found["short_by_m"] == pytest.approx([0, 0, 0], abs=1e-9)


def test_by_eye_no_scale_is_read():
    coarse, fine = (
        answered(plan_of(matched(2), spinning=EYE, scale={"step_g": step}))["drift"]
        for step in (5.0, 0.01)
    )
    assert coarse["off_m"] == fine["off_m"]
    assert "finer_scale" not in [one["what"] for one in coarse["helps"]]


# --- agreement with what stands beside it ----------------------------------------------------


FREE = [
    {"ply": ply, "lot": lot, "mass_g": mass}
    for ply, lot, mass in (
        (1, "Kelp", 25.0),
        (1, "Foam", 12.0),
        (2, "Foam", 16.0),
        (2, "Slate", 20.0),
    )
]


NEEDS = {
    "free": {"portions": FREE},
    "mixed": {"ply": [{"sequence": ["Kelp", "Foam"]}, {"sequence": ["Slate", "Foam"]}]},
    "fade": {"from": ["Kelp", "Foam"], "to": ["Slate"]},
}


@pytest.mark.parametrize("name", DIVIDING)
@pytest.mark.parametrize("variation", [0.0, 0.03, 0.08])
def test_lengths_agree_with_the_bands_within_a_hundredth(name, variation):
    scheme = {"name": name} | NEEDS.get(name, {})
    scale = {"step_g": 0.5}
    found = answered(plan_of(scheme, spinning={"variation": variation}, scale=scale))
    yarn, short = found["yarn"], found["drift"]["short_by_m"]
    low, high = yarn["length_m"] - short[2], yarn["length_m"] - short[0]
    assert yarn["length_low_m"] == pytest.approx(low, rel=0.01)
    assert yarn["length_high_m"] == pytest.approx(high, rel=0.01)


@pytest.mark.parametrize(
    "more", [{"variation_drift": 0.6}, {"variation_bobbins": 0.04}, {"variation_within": 0.2}, EYE]
)
def test_with_more_said_the_bands_are_those_of_the_spins(more):
    found = answered(plan_of({"name": "fractal", "divisions": [1, 4]}, spinning=more | {
        "variation": 0.06}))  # fmt: skip
    yarn, short = found["yarn"], found["drift"]["short_by_m"]
    assert yarn["length_low_m"] == pytest.approx(yarn["length_m"] - short[2], rel=1e-12)
    assert yarn["length_high_m"] == pytest.approx(yarn["length_m"] - short[0], rel=1e-12)
    shares, band = found["shares"], found["drift"]["matched"]
    assert [shares["matched_low"], shares["matched_high"]] == [band[0], band[2]]


@pytest.mark.parametrize("scheme", [matched(3), {"name": "fractal", "divisions": [2, 4]},
                                    {"name": "chain"}])  # fmt: skip
def test_nine_changes_of_ten_lie_where_their_spread_has_them(scheme):
    found = answered(plan_of(scheme, spinning={"variation": 0.05}, plying={"contraction": 0.04}))
    points, changes = found["check_points"], found["drift"]["changes"]
    assert len(points) == len(changes) > 0
    for point, change in zip(points, changes, strict=True):
        assert (change["ply"], change["yarn_m"]) == (point["ply"], point["yarn_m"])
        half_m = BAND_Z * point["spread_m"]
        assert change["low_m"] == pytest.approx(point["yarn_m"] - half_m, abs=0.06 * half_m)
        assert change["high_m"] == pytest.approx(point["yarn_m"] + half_m, abs=0.06 * half_m)


def test_straight_from_the_bobbin_what_was_spun_last_lies_nearest_its_place():
    found = answered(plan_of(matched(2), spinning={"variation": 0.05}))["drift"]
    assert found["off_m"] == sorted(found["off_m"])
    wide = [one["high_m"] - one["low_m"] for one in found["changes"] if one["ply"] == 1]
    assert wide == sorted(wide)


@pytest.mark.parametrize(("variation", "off"), [(0.5, [3, 3, 3]), (1e-6, [0, 0, 0])])
def test_a_matched_stripe_is_off_where_metres_stray_and_not_where_millimetres_do(variation, off):
    found = answer_to(plan_of(matched(2), spinning={"variation": variation}))
    assert found.drift.stripes.count == 3
    assert found.drift.stripes.off.tolist() == off


@pytest.mark.parametrize(("more", "off"), [(1.15, 1), (0.85, 0)])
def test_a_stripe_is_off_in_half_the_yarns_where_its_middle_strays_by_a_hand_at_even_odds(
    more, off
):
    """Two plies of 200 m of one portion: √2 · CV · 100 m in the middle; half of all normal
    values lie beyond 0.6745 SD, so at a hand's breadth of 0.1 m the CV is 0.00105."""
    variation = 0.1 / 0.67449 / (sqrt(2) * 100) * more
    data = plan_of(matched(2), {"Kelp": 40.0}, spinning={"variation": variation})
    assert answer_to(data).drift.stripes.off[1] == off


def test_the_middle_of_a_stripe_lies_between_its_ends():
    """After 199 m a metre: with an SD of 0.24 m off in two yarns of three; at 100 m, 0.12 m, in
    two of five."""
    data = plan_of(matched(2), {"Kelp": 39.8, "Foam": 0.2}, spinning={"variation": 0.00085},
                   plying={"wound_off": 1})  # fmt: skip
    stripes = answer_to(data).drift.stripes
    assert (stripes.count, stripes.off[1]) == (2, 1)


def test_where_plies_are_of_two_lots_there_is_no_stripe():
    portions = [{"ply": 1, "lot": "Kelp", "mass_g": 20}, {"ply": 2, "lot": "Foam", "mass_g": 20}]
    data = plan_of({"name": "free", "portions": portions}, spinning={"variation": 0.05})
    assert answer_to(data).drift.stripes.count == 0


def test_measured_metres_do_not_stray():
    spun_rows = [{"ply": ply, "row": row, "length_m": 200.0, "mass_g": 20.0}
                 for ply in (1, 2) for row in (1, 2, 3)]  # fmt: skip
    data = plan_of(matched(2), {"Kelp": 40.0, "Foam": 40.0, "Slate": 40.0},
                   spinning={"variation": 0.1}, spun=spun_rows)  # fmt: skip
    found = answered(data)["drift"]
    assert found["off_m"] == pytest.approx([0, 0, 0], abs=1e-9)
    assert found["short_by_m"] == pytest.approx([0, 0, 0], abs=1e-9)


# --- what helps ------------------------------------------------------------------------------


def helps_of(data: dict) -> dict[str, dict]:
    return {one["what"]: one for one in answered(data)["drift"]["helps"]}


def test_to_stop_and_weigh_leaves_the_error_of_the_last_repeat_only():
    """Four repeats of 200 m at 8 %: 16 m are left, in place of 32 m."""
    scheme = {"name": "fractal", "divisions": [4]}
    data = plan_of(scheme, {"Kelp": 80.0}, spinning={"variation": 0.08})
    short = helps_of(data)["stop_and_weigh"]["short_by_m"]
    assert (short[2] - short[0]) / 2 == pytest.approx(BAND_Z * 0.08 * 200, rel=0.04)
    without = answered(data)["drift"]["short_by_m"]
    assert (without[2] - without[0]) / 2 == pytest.approx(BAND_Z * 0.08 * 400, rel=0.04)


def test_to_weigh_takes_away_what_an_eye_strays():
    hands = {"variation": 0.05}
    by_scale = answered(plan_of(matched(2), spinning=hands))["drift"]
    helped = helps_of(plan_of(matched(2), spinning=hands | EYE))["weigh"]
    assert helped["off_m"] == pytest.approx(by_scale["off_m"], rel=1e-9)


def test_a_finer_scale_takes_a_tenth_of_the_step():
    data = plan_of(matched(2), {"Kelp": 20.0}, spinning={"variation": 0.0}, scale={"step_g": 1.0})
    now, then = answered(data)["drift"]["off_m"], helps_of(data)["finer_scale"]["off_m"]
    assert np.array(now) / then == pytest.approx([10, 10, 10], rel=1e-9)


def test_in_turn_what_strays_with_the_day_strays_on_all_bobbins():
    """Equal repeats on each ply: a day's grist parts no plies, and shortens as much."""
    scheme = {"name": "fractal", "divisions": [4, 4, 4]}
    data = plan_of(scheme, spinning={"variation": 0.0, "variation_bobbins": 0.05})
    now, helped = answered(data)["drift"], helps_of(data)["in_turn"]
    assert max(helped["off_m"]) < 0.01 * min(now["off_m"])


def test_in_turn_is_not_offered_where_days_do_not_differ_or_there_is_one_repeat():
    assert "in_turn" not in helps_of(plan_of({"name": "fractal", "divisions": [4, 4]},
                                             spinning={"variation": 0.05}))  # fmt: skip
    assert "in_turn" not in helps_of(plan_of(matched(2), spinning={"variation_bobbins": 0.05}))


@pytest.mark.parametrize(
    ("divisions", "changes"), [([1, 4], None), ([2, 2], 3), ([2, 3], 3), ([2, 2, 1], 4)]
)
@pytest.mark.parametrize("days", [{"variation_bobbins": 0.05}, {"variation_drift": 0.5}])
def test_in_turn_is_offered_for_two_plies_that_repeat_and_counts_each_bobbin_put_on(
    divisions, changes, days
):
    """Of two and three repeats 1, 2, 1, 2, 2: the last is on already."""
    scheme = {"name": "fractal", "divisions": divisions, "plies": len(divisions)}
    data = plan_of(scheme, spinning={"variation": 0.02} | days)
    works = {one.what: one.work for one in answer_to(data).drift.helps}
    assert works.get("in_turn") == changes
    assert "in_turn" not in helps_of(data | {"spun": [{"ply": 1, "row": 1}]})


def test_in_turn_is_offered_where_a_repeat_is_a_single_portion():
    data = plan_of({"name": "fractal", "divisions": [2, 2]}, {"Kelp": 60.0},
                   spinning={"variation": 0.02, "variation_bobbins": 0.05})  # fmt: skip
    works = {one.what: one.work for one in answer_to(data).drift.helps}
    assert works["in_turn"] == 3


@pytest.mark.parametrize("masses", [LOTS, {"Kelp": 60.0}], ids=["seen", "of one colour"])
def test_a_help_gains_what_it_brings_nearer_or_where_that_is_not_seen_what_is_less_short(masses):
    told = answer_to(plan_of(matched(2), masses, spinning={"variation": 0.05} | EYE)).drift
    assert {"weigh", "chain"} <= {one.what for one in told.helps}
    for one in told.helps:
        nearer_m = sum(told.off_m - one.off_m) / 3
        less_short_m = told.short_by_m[2] - one.short_by_m[2]
        assert one.gain_m == pytest.approx(nearer_m if masses is LOTS else less_short_m)


def test_mended_at_each_change_plies_part_by_one_portion_at_most():
    """Two plies, 4 portions of 100 m at 5 %: the shorter of each pair goes on, 0.564 SD short."""
    masses = dict.fromkeys("ABCD", 20.0)
    data = plan_of(matched(2), masses, spinning={"variation": 0.05})
    helped = helps_of(data)["mend"]
    assert helped["short_by_m"][1] == pytest.approx(4 * 0.5642 * 5, rel=0.05)
    # 10 % of the yarn is 0.4 of the first portion, 50 % the end of the second, 90 % 0.6 of the last
    assert helped["off_m"] == pytest.approx(5 * sqrt(2) * np.array([0.4, 1.0, 0.6]), rel=0.03)


@pytest.mark.parametrize("contraction", [0.0, 0.1])
def test_a_chain_keeps_its_strands_together_and_strays_in_length_alone(contraction):
    plying = {"contraction": contraction}
    data = plan_of(matched(3), {"Kelp": 60.0}, spinning={"variation": 0.05}, plying=plying)
    helped = helps_of(data)["chain"]
    assert helped["off_m"] == [0, 0, 0]
    half = (helped["short_by_m"][2] - helped["short_by_m"][0]) / 2
    assert half == pytest.approx(BAND_Z * 0.05 * 200 * (1 - contraction), rel=0.04)
    assert helped["short_by_m"][1] == pytest.approx(0, abs=0.5)
    assert "chain" not in helps_of(plan_of({"name": "flipped"}, spinning={"variation": 0.05}))
    assert "chain" not in helps_of(plan_of(matched(1), spinning={"variation": 0.05}))


def test_a_chain_strays_along_its_whole_single():
    """600 m are 12 reaches of 50 m: SD 60 · √(2 · 11) / 12 m of single, a third of it of yarn."""
    hands = {"variation_within": 0.1, "variation_reach_m": 50.0}
    helped = helps_of(plan_of(matched(3), {"Kelp": 60.0}, spinning=hands))["chain"]
    half = (helped["short_by_m"][2] - helped["short_by_m"][0]) / 2
    assert half == pytest.approx(BAND_Z * 60 * sqrt(22) / 12 / 3, rel=0.04)


@pytest.mark.parametrize("name", EVERY_SCHEME)
@settings(max_examples=15)
@given(data=st.data())
def test_helps_are_finite_ranked_and_known_for_every_plan(name, data):
    plan = data.draw(plan_data(name))
    plan["spinning"] |= {"variation": 0.06, "variation_drift": 0.4, "variation_bobbins": 0.03}
    found = answer_to(plan)
    told = drift(found.layout, found.on_scale_g, 40)
    assert {one.what for one in told.helps} <= set(HELPS)
    assert [one.gain_m for one in told.helps] == sorted(
        (o.gain_m for o in told.helps), reverse=True
    )
    all_told = [told.short_by_m, told.off_m, told.changes_m, told.ends_first]
    all_told += [numbers for one in told.helps for numbers in (one.short_by_m, one.off_m)]
    for numbers in all_told:
        assert np.isfinite(numbers).all()
    assert told.ends_first.sum() == pytest.approx(1)
    assert (told.off_m >= 0).all()


def test_a_plan_of_very_many_portions_is_spun_less_often():
    scheme = {"name": "fractal", "divisions": [64, 64, 64]}
    masses = {f"Lot {number}": 50.0 for number in range(8)}
    found = answer_to(plan_of(scheme, masses, spinning={"variation": 0.05}))
    assert drift(found.layout, found.on_scale_g).spins == 2_000_000 // (3 * 64 * 8)


@pytest.mark.parametrize("drift", [0.0, 0.3, 0.95, 0.999])
def test_running_sums_are_those_of_a_filter(drift):
    """scipy.signal.lfilter, with 1 over 1 less the share kept, reckons the same another way."""
    drawn = np.random.default_rng(7).standard_normal((40, 500))
    for new in (drawn, drawn[0], drawn[:, :1], drawn[0, :1]):
        expected = lfilter([1.0], [1.0, -drift], new, axis=-1)
        assert drifted(new, drift) == pytest.approx(expected, rel=1e-12, abs=1e-12)


# --- how pieces stray, each by itself ----------------------------------------------------------


def test_every_kind_of_straying_goes_along_into_another_order():
    kinds = np.arange(12.0).reshape(4, 3)
    turned = Straying(*kinds, 0.5).in_order(np.array([2, 0, 1]))
    found = (turned.drifting_m, turned.within_m, turned.reading_m, turned.bobbin_m)
    assert np.array_equal(found, kinds[:, [2, 0, 1]])
    assert turned.drift == 0.5


def test_beside_a_drift_what_strays_by_itself_strays_apart_from_its_neighbours():
    """The covariance of three portions of 3 and 4 m: 25 m² each, and none between them."""
    none, within, reading = np.zeros(3), np.full(3, 3.0), np.full(3, 4.0)
    strays = Straying(none, within, reading, none, 0.5)
    drawn = strays.drawn(np.random.default_rng(3), 9000, ply_by_ply(np.array([0, 3])))
    assert np.cov(drawn.T) == pytest.approx(25 * np.eye(3), abs=25 * 0.06)


def test_to_stop_and_weigh_leaves_each_ply_the_error_of_its_own_last_repeat():
    """Two plies of four repeats of 100 m at 8 %: of two, the shorter (quantiles by its own law)."""
    scheme = {"name": "fractal", "divisions": [4, 4]}
    data = plan_of(scheme, {"Kelp": 80.0}, spinning={"variation": 0.08})
    short = helps_of(data)["stop_and_weigh"]["short_by_m"]
    # chances that both are longer than a length: 0.95, 0.5 and 0.05, of squares of a normal tail
    expected = 8 * np.array([-0.7601, 0.5450, 1.9545])
    assert short == pytest.approx(expected, abs=0.6)


def test_in_turn_what_is_divided_by_eye_strays_as_much():
    scheme = {"name": "fractal", "divisions": [4, 4, 4]}
    data = plan_of(scheme, spinning={"variation": 0.0, "variation_bobbins": 1e-6} | EYE)
    now, helped = answered(data)["drift"], helps_of(data)["in_turn"]
    assert helped["off_m"] == pytest.approx(now["off_m"], rel=0.1)


def test_unlike_plies_are_spun_to_the_yarn_that_they_are_planned_for():
    """A hand that does not stray, and plies that plying shortens by unlike shares."""
    data = plan_of(
        matched(2),
        spinning={"single_tex": [200.0, 50.0], "twist_tpm": [200.0, 400.0]},
        plying={"twist_tpm": 150.0, "contraction_model": "untwisting"},
    )
    laid = answer_to(data).layout
    assert np.ptp(laid.resolved.yarn.contractions) > 0.01
    even = spins(laid, Straying(*[np.zeros(len(laid.portions))] * 4, 0.0), 3)
    share = (laid.stretches.lot == laid.stretches.lot[:, :1]).all(axis=1)
    planned = np.diff(laid.stretches.edges_m)[share].sum() / laid.stretches.yarn_m
    assert even.matched == pytest.approx([planned] * 3, abs=1e-6)
