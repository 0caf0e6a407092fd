"""What lies on the bobbins, for every scheme: what it changes, and what it leaves alone."""

import json
from collections import Counter
from fractions import Fraction
from itertools import accumulate

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.reckoned import reckoned
from tests.helpers.spun import (
    interleaved,
    lengths,
    planned,
    rows_of,
    spun_entries,
    with_bobbins,
)
from tests.helpers.strategies import EVERY_SCHEME, answered, plan_data
from yarncolor.plan import to_data

every_scheme = pytest.mark.parametrize("scheme", EVERY_SCHEME)
OF_WHAT_WAS_SPUN = {
    *("weigh_g", "state", "row", "planned_mass_g", "spun_g", "spun_m", "measured_tex"),
    *("spin_loss_found", "left_out", "progress", "where", "heaps", "remedies", "why"),
}
"""Told of pieces alone, or gone once its rows are spun."""


def as_planned(found: dict) -> str:
    """Return an answer without what is told of pieces alone, as it would be written."""
    return json.dumps(_without(found))


def _without(value: object) -> object:
    if isinstance(value, list):
        return [_without(item) for item in value]
    if not isinstance(value, dict):
        return value
    own = OF_WHAT_WAS_SPUN | ({"linear_density_tex"} if "on_bobbin_g" in value else set())
    return {key: _without(item) for key, item in value.items() if key not in own}


def singly(found: dict, reached: list[int]) -> list[dict]:
    """Return an entry for each row of each ply, up to one."""
    return [
        {"ply": ply, "row": row}
        for ply, rows in enumerate(reached, 1)
        for row in range(1, rows + 1)
        if rows <= len(rows_of(found)[ply - 1])
    ]


@st.composite
def reaching(draw, found: dict) -> list[int]:
    """Draw up to which row each ply is spun; often to the end."""
    counts = [len(rows) for rows in rows_of(found)]
    return [draw(st.sampled_from((count, draw(st.integers(0, count))))) for count in counts]


@every_scheme
@times(0.3)
@given(st.data())
def test_rows_spun_as_planned_are_the_plan_byte_for_byte(scheme, data):
    drawn = with_bobbins(data.draw(plan_data(scheme)))
    before = planned(drawn)
    reached = data.draw(reaching(before))
    assume(any(reached))
    through = [{"ply": ply, "through": row} for ply, row in enumerate(reached, 1) if row]
    found = answered(drawn | {"spun": through})
    assert as_planned(found) == as_planned(before)
    for old, new in zip(before["singles"], found["singles"], strict=True):
        rows = reached[old["ply"] - 1]
        assert [row["weigh_g"] for row in new["portions"]] == [
            *[None] * rows,
            *(row["weigh_g"] for row in old["portions"][rows:]),
        ]
        assert [row["row"] for row in new["portions"]] == [*range(1, len(old["portions"]) + 1)]
        states = ["spun"] * rows + ["to_spin"] * (len(old["portions"]) - rows)
        assert [row["state"] for row in new["portions"]] == states


@every_scheme
@times(0.3)
@given(st.data())
def test_the_order_of_naming_rows_as_planned_changes_nothing(scheme, data):
    drawn = data.draw(plan_data(scheme))
    before = planned(drawn)
    reached = data.draw(reaching(before))
    assume(any(reached))
    through = [{"ply": ply, "through": row} for ply, row in enumerate(reached, 1) if row]
    found = answered(drawn | {"spun": through})
    one_by_one = singly(before, reached)
    plies = [[one for one in one_by_one if one["ply"] == ply + 1] for ply in range(len(reached))]
    in_turns = data.draw(interleaved(plies))
    half_way = [one | {"through": -(-one["through"] // 2)} for one in through]
    for entries in (one_by_one, in_turns, [*half_way, *through], [*through, *half_way]):
        assert answered(drawn | {"spun": entries}) == found


@every_scheme
@times(0.3)
@given(st.data())
def test_plies_may_be_told_in_any_turn(scheme, data):
    drawn = with_bobbins(data.draw(plan_data(scheme)))
    before = planned(drawn)
    entries = data.draw(spun_entries(before))
    assume(entries)
    plies = [[one for one in entries if one["ply"] == k + 1] for k in range(len(rows_of(before)))]
    sorted_by_ply = [one for own in plies for one in own]
    assert answered(drawn | {"spun": sorted_by_ply}) == answered(drawn | {"spun": entries})


@every_scheme
@times(0.3)
@given(st.data())
def test_every_gram_is_spun_or_to_spin_or_in_the_drawer_or_lost_or_short(scheme, data):
    drawn = with_bobbins(data.draw(plan_data(scheme)))
    before = planned(drawn)
    lot = data.draw(st.sampled_from(before["lots"]))["name"]
    lost = data.draw(st.sampled_from(([], [{"lot": lot, "mass_g": 0.75}])))
    entries = data.draw(spun_entries(before))
    assume(entries)
    found = answered(drawn | {"spun": entries, "lost": lost})
    kept, step_g = 1 - drawn["spinning"]["card_loss"], drawn["scale"]["step_g"]
    pieces = Counter()
    for portion in (one for single in found["singles"] for one in single["portions"]):
        pieces[portion["lot"]] += portion["mass_g"]
    drawer = {row["lot"]: row["mass_g"] for row in found["leftovers"] if row["ply"] is None}
    short = {row["lot"]: row["mass_g"] for row in found["missing"] if row["why"] == "spun"}
    for one in found["lots"]:
        spoilt_g = sum(row["mass_g"] for row in lost if row["lot"] == one["name"])
        has_g = (one["to_card_g"] - spoilt_g) * kept
        over_g = (pieces[one["name"]] - has_g) / kept
        near = 1e-7 * (1 + abs(over_g) + one["mass_g"])
        if over_g <= near:
            assert drawer.get(one["name"], 0.0) == pytest.approx(-over_g * kept, abs=near)
            assert one["name"] not in short
        else:
            assert drawer.get(one["name"], 0.0) <= near
            lacks_g = max(over_g - one["reserve_g"], 0.0) if over_g >= step_g + near else 0.0
            if abs(over_g - step_g) > near:
                assert short.get(one["name"], 0.0) == pytest.approx(lacks_g, abs=near)


@every_scheme
@times(0.3)
@given(st.data())
def test_rows_that_no_entry_names_are_left_out_below_the_highest_and_to_spin_above(scheme, data):
    drawn = with_bobbins(data.draw(plan_data(scheme)))
    before = planned(drawn)
    entries = data.draw(spun_entries(before))
    assume(entries)
    found = answered(drawn | {"spun": entries})
    for old, new in zip(before["singles"], found["singles"], strict=True):
        named = named_rows([one for one in entries if one["ply"] == old["ply"]])
        highest = max(named, default=0)
        rows = [one["row"] for one in new["portions"] if one["row"]]
        to_spin = range(highest + 1, len(old["portions"]) + 1)
        assert rows == [*named, *to_spin]
        left_out = [row for row in range(1, highest) if row not in named]
        assert [one["row"] for one in new["left_out"]] == left_out
        for one in new["left_out"]:
            asked = old["portions"][one["row"] - 1]
            assert (one["lot"], one["mass_g"]) == (asked["lot"], asked["mass_g"])
        extra = [one for one in new["portions"] if one["row"] is None]
        assert all(one["place"] is None and one["planned_mass_g"] is None for one in extra)


@every_scheme
@times(0.3)
@given(st.data())
def test_grams_metres_and_grist_are_those_of_exact_fractions(scheme, data):
    drawn = with_bobbins(data.draw(plan_data(scheme)))
    before = planned(drawn)
    entries = data.draw(spun_entries(before))
    assume(entries)
    found, loss = answered(drawn | {"spun": entries}), drawn["spinning"]["spin_loss"]
    for old, new in zip(before["singles"], found["singles"], strict=True):
        own = [one for one in entries if one["ply"] == old["ply"]]
        planned_tex = old["linear_density_tex"]
        pieces, measured, tex = reckoned(own, old["portions"], planned_tex, loss)
        assert new["measured_tex"] == (measured and pytest.approx(float(measured), rel=1e-12))
        rows = old["portions"][max(named_rows(own), default=0) :]
        kept = 1 - Fraction(loss)
        grams = [one["grams"] for one in pieces] + [Fraction(row["mass_g"]) for row in rows]
        metres = [one["metres"] for one in pieces]
        metres += [Fraction(row["mass_g"]) * kept * 1000 / tex for row in rows]
        told = new["portions"]
        assert [one["mass_g"] for one in told] == pytest.approx([*map(float, grams)], rel=1e-11)
        ends = [*map(float, accumulate(metres))]
        assert [one["end_m"] for one in told] == pytest.approx(ends, rel=1e-11)


def named_rows(entries: list[dict]) -> list[int]:
    """Return the rows that entries of one ply name, in the order spun."""
    named = []
    for one in entries:
        if "through" in one:
            named += [row for row in range(1, one["through"] + 1) if row not in named]
        elif "row" in one:
            named.append(one["row"])
    return named


@st.composite
def spun_too_long(draw, scheme: str, wound_off: int) -> tuple[dict, int, float]:
    """Draw a plan whose every row's length is measured, and a ply that is not the shortest."""
    drawn = draw(plan_data(scheme, in_order=True))
    drawn["plying"]["wound_off"] = wound_off
    before = planned(drawn)
    entries = [one | {"length_m": draw(lengths)} for one in _all_rows(before)]
    single_m = Counter()
    for one in entries:
        single_m[one["ply"]] += one["length_m"]
    longest = max(single_m, key=single_m.get)
    assume(single_m[longest] > min(single_m.values()) + 0.005)
    return drawn | {"spun": entries}, longest, draw(lengths)


def _all_rows(found: dict) -> list[dict]:
    return singly(found, [len(rows) for rows in rows_of(found)])


SEVERAL = [scheme for scheme in EVERY_SCHEME if scheme != "chain"]


@pytest.mark.parametrize("scheme", SEVERAL)
@times(0.3)
@given(st.data())
def test_straight_from_the_bobbin_what_was_spun_first_moves_nothing(scheme, data):
    drawn, ply, more_m = data.draw(spun_too_long(scheme, 0))
    before = answered(drawn)
    first = next(one for one in drawn["spun"] if one["ply"] == ply)
    first["length_m"] += more_m
    assert answered(drawn)["stretches"] == before["stretches"]


@pytest.mark.parametrize("scheme", SEVERAL)
@times(0.3)
@given(st.data())
def test_wound_off_what_was_spun_first_moves_all_after_it_by_just_that_length(scheme, data):
    drawn, ply, more_m = data.draw(spun_too_long(scheme, 1))
    before = answered(drawn)
    first = next(one for one in drawn["spun"] if one["ply"] == ply)
    first["length_m"] += more_m
    after, kept = answered(drawn), 1 - drawn["plying"]["contraction"]
    old, new = (changes_of(found, ply) for found in (before, after))
    yarn_m, moved_m = before["yarn"]["length_m"], more_m * kept
    assert after["yarn"]["length_m"] == yarn_m
    expected = [(at + moved_m, *lots) for at, *lots in old if at + moved_m < yarn_m * (1 - 1e-8)]
    assert len(new) == len(expected)
    for (at, *lots), (where, *both) in zip(new, expected, strict=True):
        assert at == pytest.approx(where, abs=2e-9 * yarn_m)
        assert lots == both
    others = [k for k in range(1, before["plies"] + 1) if k != ply]
    assert [changes_of(before, k) for k in others] == [changes_of(after, k) for k in others]


def changes_of(found: dict, ply: int) -> list[tuple[float, str, str]]:
    """Return where a ply changes its lot, and from which to which."""
    return [
        (point["yarn_m"], point["from"], point["to"])
        for point in found["check_points"]
        if point["ply"] == ply
    ]


@every_scheme
@times(0.3)
@given(st.data())
def test_the_table_is_a_list_of_centimetres_moved_as_hands_would(scheme, data):
    """Each bobbin is a list of centimetres by colour; hands turn it round, or fold it in three."""
    drawn = data.draw(plan_data(scheme))
    if scheme == "chain":
        drawn["scheme"]["loop_m"] = 100.0
    before = planned(drawn)
    names = [lot["name"] for lot in before["lots"]]
    singles = [
        [(data.draw(st.integers(1, 40)), data.draw(st.sampled_from(names))) for _ in rows]
        for rows in rows_of(before)
    ]
    if scheme == "chain":  # three whole thirds
        singles = [[(centimetres * 3, lot) for centimetres, lot in own] for own in singles]
    drawn["spun"] = [
        {"ply": ply, "row": row, "lot": lot, "length_m": centimetres / 100}
        for ply, own in enumerate(singles, 1)
        for row, (centimetres, lot) in enumerate(own, 1)
    ]
    found, kept = answered(drawn), 1 - drawn["plying"]["contraction"]
    strands = []
    for single, own in zip(found["singles"], singles, strict=True):
        spun = [lot for centimetres, lot in own for _ in range(centimetres)]
        strands.append(spun if single["wound_off"] % 2 else spun[::-1])
    if scheme == "chain":
        third = len(strands[0]) // 3
        ball = strands[0]
        strands = [ball[:third], ball[third : 2 * third][::-1], ball[2 * third :]]
    hands = [list(lots) for lots in zip(*strands, strict=False)]
    edges = np.array([row["end_m"] for row in found["stretches"]])
    assert edges[-1] == pytest.approx(len(hands) / 100 * kept)
    middles = (np.arange(len(hands)) + 0.5) / 100 * kept
    table = [found["stretches"][at]["lots"] for at in np.searchsorted(edges, middles)]
    assert table == hands


@every_scheme
@times(0.3)
@given(st.data())
def test_what_was_spun_is_saved_and_read_again(scheme, data):
    drawn = with_bobbins(data.draw(plan_data(scheme)))
    drawn["spun"] = data.draw(spun_entries(planned(drawn)))
    plan = yc.plan_from_data(drawn)
    assert yc.plan_from_data(to_data(plan)) == plan
