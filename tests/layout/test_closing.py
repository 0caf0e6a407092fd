"""Where a fractal closes on its first lot: six ways by hand, what each costs, and the advice.

Kelp 60 g and Foam 30 g as Kelp, Foam, Kelp: each place gives 30 g, so c = 30 g. Two like plies
of one and two repeats, 100 tex: a gram is ten metres of single.
"""

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.helpers.strategies import CLOSINGS, advised, answered, by_hand, laid, plan_data
from yarncolor import plan_from_data
from yarncolor.answers import closing_costs as closing_costs_module
from yarncolor.answers.closing_costs import ClosingCost, closing_costs
from yarncolor.layout.resolved import resolve

CLOSED = ["Kelp", "Foam", "Kelp"]
K, F = "Kelp", "Foam"


def closed(closing: str, kelp: float = 60.0, foam: float = 30.0, **options) -> dict:
    scheme = {"name": "fractal", "divisions": [1, 2], "sequence": CLOSED, "closing": closing}
    return by_hand({"Kelp": kelp, "Foam": foam}, scheme=scheme | options, plying={"wound_off": 1})


@pytest.mark.parametrize(
    ("closing", "first", "second"),
    [
        ("keep", [(K, 10), (F, 15), (K, 5)], [(K, 5), (F, 7.5), (K, 2.5)] * 2),
        ("tail", [(K, 10), (F, 15), (K, 5)], [*[(K, 5), (F, 7.5)] * 2, (K, 5)]),
        ("share", [(K, 7.5), (F, 15), (K, 7.5)], [*[(K, 5), (F, 7.5)] * 2, (K, 5)]),
        ("halve", [(K, 3.75), (F, 15), (K, 3.75)], [(K, 1.875), (F, 7.5), (K, 1.875)] * 2),
        ("drop", [(K, 7.5), (F, 15)], [(K, 3.75), (F, 7.5)] * 2),
    ],
)
def test_portions_of_a_first_and_last_place_of_unequal_mass(closing, first, second):
    """Kelp 30 g by parts 2 to 1 is 20 g first and 10 g last; c = 15 g."""
    data = closed(closing, kelp=30.0, parts=[2, 1, 1])
    assert laid(data) == [first, second]
    left = [(row["lot"], row["mass_g"], row["ply"]) for row in answered(data)["leftovers"]]
    assert left == ([(K, 15, None)] if closing in ("halve", "drop") else [])


W = "Wrack"
FOUR = [K, F, W, K]


def of_four(closing: str, **options) -> dict:
    """Return Kelp, Foam, Wrack, Kelp of 10 g each place, on like plies of one and two repeats."""
    scheme = {"name": "fractal", "divisions": [1, 2], "sequence": FOUR, "closing": closing}
    masses = {K: 40.0, F: 20.0, W: 20.0}
    return by_hand(masses, scheme=scheme | options, plying={"wound_off": 1})


def test_the_last_two_pieces_change_places_at_every_inner_meeting():
    first, second = laid(of_four("swap"))
    assert first == [(K, 10), (F, 10), (W, 10), (K, 10)]
    assert second == [(K, 5), (F, 5), (K, 5), (W, 5), (K, 5), (F, 5), (W, 5), (K, 5)]
    places = laid(of_four("swap"), "place", "repeat")[1]
    assert places == [(1, 1), (2, 1), (4, 1), (3, 1), (1, 2), (2, 2), (3, 2), (4, 2)]


def test_a_reversed_ply_turns_the_swapped_order():
    there, back = of_four("swap"), of_four("swap", reversed_plies=[2])
    keys = ("lot", "place", "repeat", "mass_g")
    assert laid(back, *keys)[1] == laid(there, *keys)[1][::-1]


def test_a_swap_leaves_nothing_over_and_runs_nothing_double():
    found = answered(of_four("swap"))
    assert (found["closing"], found["leftovers"], found["doubled_runs"]) == ("swap", [], [])
    assert "doubled_run" not in dict(advised(of_four("swap")))


def test_a_swap_of_fewer_than_four_places_does_nothing_and_says_so():
    data, plain = closed("swap"), closed("keep")
    assert laid(data) == laid(plain)
    found = answered(data)
    assert found["closing"] == "keep"
    assert any("four places" in said for said in found["assumptions"])
    assert "swap" not in {remedy["closing"] for remedy in found["remedies"]}


def test_a_swap_is_ranked_among_those_that_leave_nothing_over():
    found = {one["closing"]: one for one in answered(of_four("keep"))["remedies"]}
    assert list(found)[:2] == ["tail", "swap"]
    swap = found["swap"]
    assert (swap["left_over_g"], swap["shifted_m"], swap["hands"]) == (0, 0, "hands")
    assert swap["longest_run_ratio"] == pytest.approx(1)


@given(st.data())
def test_a_swap_parts_the_closing_lot_wherever_it_can(data):
    """At an inner meeting it stands alone if neither of the two places before the last is it."""
    drawn = data.draw(plan_data("fractal"))
    names = [lot["name"] for lot in drawn["lots"]]
    inner = st.lists(st.sampled_from(names), min_size=2, max_size=4)
    drawn["scheme"] |= {"sequence": [names[0], *data.draw(inner), names[0]], "closing": "swap"}
    drawn["scheme"] |= {"reversed_plies": []}
    drawn["scheme"].pop("parts", None)
    found = answered(drawn)
    kelp = [row for row in found["leftovers"] if row["lot"] == names[0] and row["ply"] is None]
    assert not kelp or "target" in drawn
    if found["closing"] != "swap" or names[0] in found["sequence"][-3:-1]:
        return
    for single in found["singles"]:
        rows = single["portions"]
        for row, after in pairwise(rows):
            if row["repeat"] != after["repeat"]:
                assert (row["lot"], after["lot"]) != (names[0], names[0])


@pytest.mark.parametrize(
    ("closing", "second"),
    [
        ("keep", [(K, 7.5), (F, 11.25), (K, 3.75), (K, 2.5), (F, 3.75), (K, 1.25)]),
        ("tail", [(K, 7.5), (F, 11.25), (K, 2.5), (F, 3.75), (K, 5)]),
        ("share", [(K, 5), (F, 11.25), (K, 5), (F, 3.75), (K, 5)]),
        ("halve", [(K, 2.8125), (F, 11.25), (K, 2.8125), (K, 0.9375), (F, 3.75), (K, 0.9375)]),
        ("drop", [(K, 5.625), (F, 11.25), (K, 1.875), (F, 3.75)]),
    ],
)
def test_repeats_of_unequal_sizes_close_by_their_own_shares(closing, second):
    """The second ply's repeats take 3/4 and 1/4."""
    data = closed(closing, kelp=30.0, parts=[2, 1, 1], divisions=[1, [3, 1]])
    assert laid(data)[1] == second


def test_a_tail_s_band_is_the_last_place_in_the_last_repeat_and_equally_long_on_every_ply():
    data = closed("tail", divisions=[1, 2, 4])
    bands = [ply[-1] for ply in laid(data, "place", "repeat", "mass_g")]
    assert bands == [(3, repeats, pytest.approx(10)) for repeats in (1, 2, 4)]


RUNS = {
    "keep": [(2, 150, 300, 2, False)],
    "tail": [(1, 300, 450, 1, True), (2, 300, 450, 2, True)],
    "share": [],
    "halve": [(2, 112.5, 187.5, 1, False)],
    "drop": [],
    "swap": [(2, 150, 300, 2, False)],
}


@pytest.mark.parametrize("closing", CLOSINGS)
def test_doubled_runs_are_those_of_two_portions_and_the_tail_s_band(closing):
    keys = ("ply", "start_m", "end_m", "ratio", "meant")
    found = answered(closed(closing))["doubled_runs"]
    assert {run["lot"] for run in found} <= {K}
    assert [tuple(run[key] for key in keys) for run in found] == [
        pytest.approx(run) for run in RUNS[closing]
    ]


REMEDIES = {
    "keep": {"longest_run_ratio": 2, "matched": 1 / 3, "left_over_g": 0, "hands": "hands"},
    "tail": {"longest_run_ratio": 1, "matched": 2 / 3, "left_over_g": 0, "hands": "hands"},
    "share": {"longest_run_ratio": 1, "matched": 5 / 9, "left_over_g": 0, "hands": "hands"},
    "halve": {"longest_run_ratio": 1, "matched": 1 / 2, "left_over_g": 30, "hands": "hands"},
    "drop": {"longest_run_ratio": 1, "matched": 1 / 2, "left_over_g": 30, "hands": "hands"},
}


def test_remedies_say_what_each_way_of_closing_costs():
    """Of the 60 g of Kelp hands divide eighths, the sixths of share and sixteenths.

    Share: three pieces of 10 g on ply 2, so the second repeat starts after 17.5 g, not 22.5 g.
    """
    found = {remedy["closing"]: remedy for remedy in answered(closed("keep"))["remedies"]}
    assert set(found) == set(CLOSINGS) - {"swap"}
    for closing, costs in REMEDIES.items():
        assert {key: found[closing][key] for key in costs} == pytest.approx(costs)
        assert found[closing]["shifted_m"] == pytest.approx(50 if closing == "share" else 0)


def costs_of(data: dict) -> dict[str, ClosingCost]:
    return {cost.closing: cost for cost in closing_costs(resolve(plan_from_data(data)))}


def test_the_longest_run_is_the_closing_lot_s_whatever_others_run_to():
    """Kelp runs 150, 150 m and 75, 150, 75 m, as the medians are; Foam 450 m beside them."""
    assert costs_of(closed("keep", foam=90.0))["keep"].longest_run_ratio == pytest.approx(1)


def test_a_closing_lot_of_short_runs_alone_has_a_ratio_below_one():
    """Once through 6, 60, 60 and 6 g: 6 over the median of 33."""
    scheme = {"name": "fractal", "divisions": [1], "sequence": FOUR}
    data = by_hand({K: 12.0, F: 60.0, W: 60.0}, scheme=scheme)
    assert costs_of(data)["keep"].longest_run_ratio == pytest.approx(6 / 33)


@pytest.mark.parametrize(("in_odd_rolags", "by_hand"), [(F, True), (K, False)])
def test_hands_divide_the_closing_lot_whatever_the_others_need(in_odd_rolags, by_hand):
    data = closed("keep")
    for lot in data["lots"]:
        if lot["name"] == in_odd_rolags:
            lot |= {"rolags": 5.1, "rolag_g": lot.pop("mass_g") / 5.1}
    assert costs_of(data)["keep"].by_hand is by_hand


@pytest.mark.parametrize(("yarn_m", "left_g"), [(150.0, 15), (300.0, 30), (600.0, 30)])
def test_of_half_the_yarn_half_is_left_over_and_of_more_than_there_is_no_more(yarn_m, left_g):
    """Halved, 60 g of 90 g come to 300 m."""
    data = closed("halve") | {"target": {"yarn_m": yarn_m}}
    assert costs_of(data)["halve"].left_over_g == pytest.approx(left_g)


@pytest.mark.parametrize("grams", [0.7, 33.3, 7e4])
def test_what_spins_all_leaves_nothing_over_to_the_last_bit(grams):
    data = closed("keep", kelp=grams, foam=grams / 3, divisions=[3, 7, 11])
    found = costs_of(data)
    assert [found[way].left_over_g for way in ("keep", "tail", "share")] == [0, 0, 0]


def test_of_little_yarn_a_repeat_is_shifted_by_little():
    """A hundredth of 60 g and 30 g: half a metre in place of 50 m."""
    shared = costs_of(closed("share", kelp=0.6, foam=0.3))["share"]
    assert shared.shifted_m == pytest.approx(0.5)


def test_remedies_are_ranked_with_those_that_mend_first_and_those_that_waste_behind():
    order = [remedy["closing"] for remedy in answered(closed("keep"))["remedies"]]
    assert order[:2] == ["tail", "share"]
    assert set(order[2:4]) == {"halve", "drop"}
    assert order[4] == "keep"


@given(st.data())
def test_costs_that_are_kept_are_those_that_would_be_reckoned_anew(data):
    """Whatever else than the order and the lengths of the singles has changed meanwhile."""
    drawn = data.draw(plan_data("fractal"))
    closing_costs(resolve(plan_from_data(drawn)))
    more = {
        "spinning": drawn["spinning"] | {"twist_tpi": data.draw(st.floats(1, 9))},
        "plying": drawn["plying"] | {"contraction": data.draw(st.floats(-0.1, 0.3))},
        "scale": {"step_g": data.draw(st.sampled_from((0.1, 1.0)))},
    }
    changed = resolve(plan_from_data(drawn | more))
    kept = closing_costs(changed)
    closing_costs_module._costs.cache_clear()
    assert closing_costs(changed) == kept


def test_costs_follow_the_parts_of_the_places():
    closes = {"name": "fractal", "divisions": [1, 3], "sequence": ["Kelp", "Foam", "Kelp"]}
    masses = {"Kelp": 20.0, "Foam": 10.0}

    def costs(parts):
        return closing_costs(resolve(plan_from_data(by_hand(masses, scheme=closes | parts))))

    equal, unequal = costs({}), costs({"parts": [3, 1, 1]})
    closing_costs_module._costs.cache_clear()
    assert (costs({}), costs({"parts": [3, 1, 1]})) == (equal, unequal)
    assert equal != unequal


def test_one_advice_ranks_the_remedies_by_name():
    texts = [text for kind, text in advised(closed("keep")) if kind == "doubled_run"]
    assert len(texts) == 1
    at = [texts[0].index(f"({closing})") for closing in ("tail", "share")]
    assert all(before < after for before, after in pairwise(at))
    assert "(keep)" not in texts[0]
    assert "150.0 m" in texts[0]


@pytest.mark.parametrize("closing", ["tail", "share", "halve", "drop"])
def test_no_advice_where_the_closing_mends_it(closing):
    assert answered(closed(closing))["remedies"] == []
    assert "doubled_run" not in dict(advised(closed(closing)))


def test_a_shared_closing_says_by_how_many_metres_its_worst_repeat_is_shifted():
    """On ply 2 the second repeat starts after 17.5 g where half the ply is 22.5 g."""
    data = closed("share")
    said = [*answered(data)["assumptions"], *(text for _, text in advised(data))]
    assert any(re.search(r"\b50(\.0)? m\b", text) for text in said)


def test_a_target_scales_the_metres_that_a_remedy_shifts():
    """Half of the 450 m: the run of the advice is 75 m, and share moves a repeat by 25 m."""
    found = answered(closed("keep") | {"target": {"yarn_m": 225.0}})
    (run,) = found["doubled_runs"]
    (shared,) = (remedy for remedy in found["remedies"] if remedy["closing"] == "share")
    assert run["end_m"] - run["start_m"] == pytest.approx(75)
    assert shared["shifted_m"] == pytest.approx(25)


@pytest.mark.parametrize(("foam", "faults"), [(40.0, 0), (39.9, 1)])
def test_a_run_is_at_fault_only_above_one_and_a_half_median_runs(foam, faults):
    """Ply 2 of 60 g of Kelp runs 7.5, f/4, 15, f/4, 7.5 g: 15 is 1.5 times the median at 40 g."""
    data = closed("keep", foam=foam)
    assert len(answered(data)["doubled_runs"]) == 1
    assert [kind for kind, _ in advised(data)].count("doubled_run") == faults
    assert len(answered(data)["remedies"]) == 5 * faults


def test_a_run_that_another_lot_outdoes_is_no_fault():
    """20 g among 5, 5, 5, 40 and 40 g, in two repeats: 10 g of Kelp meet 10 g in the middle, four
    times the median run of 5 g, but half as long as the runs of the two large lots."""
    masses = {K: 40.0, "A": 5.0, "B": 5.0, "C": 5.0, "D": 40.0, "E": 40.0}
    scheme = {"name": "fractal", "divisions": [1, 2], "sequence": [*masses, K]}
    data = by_hand(masses, scheme=scheme)
    (run,) = answered(data)["doubled_runs"]
    assert run["ratio"] > 1.5
    assert "doubled_run" not in dict(advised(data))
    small = dict(masses, D=5.0, E=5.0)
    assert "doubled_run" in dict(advised(by_hand(small, scheme=scheme)))


def test_a_closing_does_nothing_where_the_sequence_is_open_and_the_answer_says_so():
    closing = {"sequence": ["Kelp", "Foam"]}
    data, plain = closed("drop", **closing), closed("keep", **closing)
    assert laid(data) == laid(plain)
    assert any("nothing closes here" in said for said in answered(data)["assumptions"])


def test_places_of_no_mass_are_left_out_before_a_sequence_closes():
    """Kelp, Foam, Kelp with nothing at the first place is Foam, Kelp: open."""
    data = closed("drop", parts=[0, 1, 1])
    assert [lot for lot, _ in laid(data)[0]] == ["Foam", "Kelp"]
    assert answered(data)["leftovers"] == []


@pytest.mark.parametrize("scheme", ["matched", "staggered", "flipped", "gradient", "stepped"])
def test_other_schemes_keep_both_places_and_advise_nothing(scheme):
    data = closed("drop", name=scheme, plies=3)
    del data["scheme"]["divisions"]
    assert [sum(grams for _, grams in ply) for ply in laid(data)] == pytest.approx([30] * 3)
    assert answered(data)["remedies"] == []


def test_the_turn_of_a_mirrored_scheme_is_meant_and_advised_nothing_on():
    scheme = {"name": "mirrored", "plies": 2, "sequence": ["Kelp", "Foam", "Kelp", "Kelp"]}
    found = answered(by_hand({"Kelp": 30.0, "Foam": 60.0}, scheme=scheme))
    assert [run["meant"] for run in found["doubled_runs"]] == [True, True]
    assert found["remedies"] == []


def test_a_doubled_run_inside_an_open_sequence_is_listed_but_no_fault():
    """Kelp, Kelp, Foam three times on ply 2: runs of 100 m and 50 m, so 75 m in the middle."""
    data = closed("keep", sequence=["Kelp", "Kelp", "Foam"], divisions=[1, 3])
    found = answered(data)["doubled_runs"]
    assert [(run["ply"], run["meant"]) for run in found] == [(1, False)] + [(2, False)] * 3
    assert found[1]["ratio"] == pytest.approx(100 / 75)
    assert "doubled_run" not in dict(advised(data))


@given(st.data())
def test_a_remedy_is_worth_what_its_plan_says(data):
    """Each remedy's share and grams are those of the plan that closes so."""
    drawn = data.draw(plan_data("fractal"))
    drawn.pop("target", None)
    for remedy in answered(drawn)["remedies"]:
        drawn["scheme"]["closing"] = remedy["closing"]
        found = answered(drawn)
        assert found["shares"]["matched"] == pytest.approx(remedy["matched"], abs=1e-9)
        kelp = drawn["scheme"]["sequence"][0]
        left = sum(row["mass_g"] for row in found["leftovers"] if row["lot"] == kelp)
        assert left == pytest.approx(remedy["left_over_g"], abs=1e-6)


@pytest.mark.parametrize(
    ("through", "parts", "open_still"),
    [
        (2, [1, 1, 1], {"keep", "tail", "drop"}),
        (3, [1, 1, 1], {"keep", "tail", "drop"}),
        (4, [1, 1, 1], set()),
        (2, [2, 1, 1], {"keep", "tail", "share"}),
        (3, [2, 1, 1], set()),
    ],
)
def test_a_way_of_closing_that_would_make_other_rows_of_what_is_spun_comes_too_late(
    through, parts, open_still
):
    """Ply 2 is Kelp, Foam, Kelp twice: the third row is the first of the next repeat to a tail.

    With 40 and 20 g at its ends, a third of both is as much as half of the first.
    """
    data = closed("keep", parts=parts) | {"spun": [{"ply": 2, "through": through}]}
    assert {remedy["closing"] for remedy in answered(data)["remedies"]} == open_still
    told = dict(advised(data))["doubled_run"]
    assert ("comes too late" in told) == (not open_still)
