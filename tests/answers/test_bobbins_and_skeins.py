"""Bobbins and skeins: what each holds, where it ends, what it weighs, in which order it comes off.

The second opinions here walk along the rows of ``plan.json`` one by one, and break yarns in every
way there is.
"""

from itertools import pairwise, product
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.strategies import EVERY_SCHEME, advised, answered, by_hand, plan_data

FEW_CHANGES = 12
THREE = {"Kelp": 27.0, "Foam": 27.0, "Wrack": 27.0}


def bobbins_of(data: dict) -> list[dict]:
    return answered(data)["bobbins"]


def spans(rows: list[dict], *keys: str) -> list[tuple]:
    return [tuple(row[key] for key in keys) for row in rows]


def one_ply(masses_g: dict[str, float], **tables: dict) -> dict:
    """Return a plan of one single of 1000 tex: as many metres as grams."""
    return by_hand(
        masses_g,
        scheme={"name": "matched", "plies": 1},
        spinning={"single_tex": 1000.0},
        **tables,
    )


def least_capacity(data: dict) -> float:
    """Return the least capacity that a plan may have: 1 g, and not a five-hundredth of all."""
    return max(1.0, sum(lot["mass_g"] for lot in data["lots"]) / 450)


# --- where a bobbin ends ---------------------------------------------------------------------


def test_without_a_capacity_each_single_is_one_bobbin():
    """81 g on three plies of 100 tex: 270 m each."""
    found = bobbins_of(by_hand(THREE))
    assert spans(found, "bobbin", "ply", "strand", "order", "of", "comes_off") == [
        (1, 1, 1, 1, 1, 1),
        (2, 2, 1, 1, 1, 1),
        (3, 3, 1, 1, 1, 1),
    ]
    for one in found:
        assert (one["start_m"], one["end_m"], one["net_g"]) == pytest.approx((0, 270, 27))
        assert one["tare_g"] is None
        assert one["gross_g"] is None


@pytest.mark.parametrize(
    ("masses", "capacity", "ends"),
    [
        ([9, 9, 9], 27, [27]),
        ([9, 9, 12], 20, [18, 30]),
        ([9, 9, 9], 9, [9, 18, 27]),
        ([9, 9, 9], 8, [6.75, 13.5, 20.25, 27]),
        ([4, 25], 10, [29 / 3, 58 / 3, 29]),
        ([6, 5, 5, 6], 10, [6, 16, 22]),
        ([1, 1, 30], 16, [16, 32]),
        ([5, 19.5, 9.5], 10, [5, 14.75, 24.5, 34]),
        ([50], 20, [50 / 3, 100 / 3, 50]),
    ],
)
def test_bobbins_are_few_and_end_with_portions_where_that_costs_no_other(masses, capacity, ends):
    """A break that no portion's end allows lies evenly between its neighbours."""
    names = ("Kelp", "Foam", "Wrack", "Dune")
    data = one_ply(
        dict(zip(names, map(float, masses), strict=False)), bobbins={"capacity_g": capacity}
    )
    found = bobbins_of(data)
    assert [one["end_m"] for one in found] == pytest.approx(ends)
    assert [one["start_m"] for one in found] == pytest.approx([0, *ends[:-1]])


def most_worth(length: float, places: list[tuple[float, int]], room: float, count: int) -> int:
    """Return the most that count - 1 breaks can be worth, by trying every combination.

    A break stands on a place, or on none: then it may lie anywhere between its neighbours.
    """
    best = 0
    for chosen in product([None, *places], repeat=count - 1):
        fixed = [
            (0, 0.0),
            *((at, place[0]) for at, place in enumerate(chosen, 1) if place is not None),
            (count, length),
        ]
        apart = [(after[1] - before[1], after[0] - before[0]) for before, after in pairwise(fixed)]
        if all(0 <= metres <= parts * room * (1 + 1e-8) for metres, parts in apart):
            best = max(best, sum(place[1] for place in chosen if place is not None))
    return best


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@times(1 / 2)
@given(st.data())
def test_bobbins_hold_what_fits_and_all_of_the_single(scheme, data):
    drawn = data.draw(plan_data(scheme))
    drawn.pop("target", None)
    strands = data.draw(st.sampled_from((1, 1, 2, 3)))
    heaviest = max(single["mass_g"] for single in answered(drawn)["singles"]) / strands
    capacity = max(
        least_capacity(drawn), heaviest / data.draw(st.sampled_from((0.7, 1.0, 2.3, 2.9, 4.0, 7.9)))
    )
    drawn["plying"]["strands"] = strands
    drawn["bobbins"] = {"capacity_g": capacity}
    found = answered(drawn)
    assert [one["bobbin"] for one in found["bobbins"]] == list(range(1, len(found["bobbins"]) + 1))
    for single in found["singles"]:
        spun_g = single["length_m"] * single["linear_density_tex"] / 1000 / strands
        for strand in range(1, strands + 1):
            own = [
                one
                for one in found["bobbins"]
                if (one["ply"], one["strand"]) == (single["ply"], strand)
            ]
            assert max(one["net_g"] for one in own) <= capacity * (1 + 1e-8)
            assert own[0]["start_m"] == 0
            assert own[-1]["end_m"] == pytest.approx(single["length_m"])
            assert all(one["end_m"] == after["start_m"] for one, after in pairwise(own))
            assert sum(one["net_g"] for one in own) == pytest.approx(spun_g)
            assert len(own) == max(1, ceil(spun_g / capacity * (1 - 1e-9)))
            assert [one["order"] for one in own] == list(range(1, len(own) + 1))
            assert {one["of"] for one in own} == {len(own)}


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@times(1 / 2)
@given(st.data())
def test_as_many_bobbins_as_can_be_end_with_a_portion(scheme, data):
    drawn = data.draw(plan_data(scheme))
    drawn.pop("target", None)
    heaviest = max(single["mass_g"] for single in answered(drawn)["singles"])
    capacity = max(
        least_capacity(drawn), heaviest / data.draw(st.sampled_from((1.0, 1.6, 2.3, 2.9, 3.95)))
    )
    drawn["bobbins"] = {"capacity_g": capacity}
    found = answered(drawn)
    for single in found["singles"]:
        breaks = [one["end_m"] for one in found["bobbins"] if one["ply"] == single["ply"]][:-1]
        ends = [row["end_m"] for row in single["portions"]][:-1]
        if len(ends) > FEW_CHANGES:
            continue
        near = 1e-8 * single["length_m"]
        with_portion = sum(any(abs(end - at) <= near for end in ends) for at in breaks)
        room = capacity / single["linear_density_tex"] * 1000
        most = most_worth(single["length_m"], [(end, 1) for end in ends], room, len(breaks) + 1)
        assert with_portion == most


@pytest.mark.parametrize(
    ("wound_off", "comes_off"), [(0, [3, 2, 1]), (1, [1, 2, 3]), (2, [3, 2, 1]), (3, [1, 2, 3])]
)
def test_bobbins_come_off_as_the_single_does(wound_off, comes_off):
    """Straight from the bobbins what was filled last comes off first: with it plying begins."""
    data = one_ply(THREE, bobbins={"capacity_g": 27.0}, plying={"wound_off": wound_off})
    found = answered(data)
    assert [one["comes_off"] for one in found["bobbins"]] == comes_off
    first = next(one for one in found["bobbins"] if one["comes_off"] == 1)
    (single,) = found["singles"]
    at = (first["start_m"] + first["end_m"]) / 2
    lot = next(row["lot"] for row in single["portions"] if row["start_m"] < at < row["end_m"])
    assert found["stretches"][0]["lots"] == [lot]


def test_each_ply_comes_off_as_it_was_wound():
    data = by_hand(
        THREE,
        scheme={"name": "matched", "plies": 2},
        plying={"wound_off": [0, 1]},
        bobbins={"capacity_g": 14.0},
    )
    assert spans(bobbins_of(data), "bobbin", "ply", "order", "of", "comes_off") == [
        *((1, 1, 1, 3, 3), (2, 1, 2, 3, 2), (3, 1, 3, 3, 1)),
        *((4, 2, 1, 3, 1), (5, 2, 2, 3, 2), (6, 2, 3, 3, 3)),
    ]


def test_each_strand_fills_its_own_bobbins():
    """Two strands of 100 tex in each of two plies: 81 g are 202.5 m of 400 tex."""
    data = by_hand(
        THREE,
        scheme={"name": "matched", "plies": 2},
        plying={"strands": 2},
        bobbins={"capacity_g": 14.0},
    )
    found = bobbins_of(data)
    assert spans(found, "bobbin", "ply", "strand", "order", "of") == [
        *((1, 1, 1, 1, 2), (2, 1, 1, 2, 2), (3, 1, 2, 1, 2), (4, 1, 2, 2, 2)),
        *((5, 2, 1, 1, 2), (6, 2, 1, 2, 2), (7, 2, 2, 1, 2), (8, 2, 2, 2, 2)),
    ]
    assert sorted(one["net_g"] for one in found) == pytest.approx([6.75] * 4 + [13.5] * 4)


def test_a_chain_fills_the_bobbins_of_its_one_single():
    data = by_hand(THREE, scheme={"name": "chain"}, bobbins={"capacity_g": 60.0})
    assert spans(bobbins_of(data), "ply", "order", "of") == [(1, 1, 2), (1, 2, 2)]
    assert sorted(one["net_g"] for one in bobbins_of(data)) == pytest.approx([27, 54])


# --- what it weighs --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tares", "expected"),
    [
        (60.0, [60, 60, 60]),
        ([61.0, 60.5, 62.0], [61, 60.5, 62]),
        ([61.0, 60.5], [61, 60.5, None]),
        ([61.0, 60.5, 62.0, 63.0], [61, 60.5, 62]),
    ],
)
def test_a_full_bobbin_weighs_what_it_holds_and_itself(tares, expected):
    found = bobbins_of(by_hand(THREE, bobbins={"tare_g": tares}))
    assert [one["tare_g"] for one in found] == expected
    assert [one["net_g"] for one in found] == pytest.approx([27] * 3)
    assert [one["gross_g"] for one in found] == [
        None if tare is None else pytest.approx(tare + 27) for tare in expected
    ]


def test_what_is_lost_in_spinning_is_on_no_bobbin():
    data = by_hand(THREE, spinning={"spin_loss": 0.1}, bobbins={"tare_g": 60.0})
    assert [one["gross_g"] for one in bobbins_of(data)] == pytest.approx([84.3] * 3)


def test_a_bobbin_is_weighed_at_the_end_of_each_repeat_and_when_it_is_full():
    """24 g on ply 2 in four repeats of 3 + 3 g; 13 g fit: full after row 4."""
    data = by_hand(
        {"Kelp": 24.0, "Foam": 24.0},
        scheme={"name": "fractal", "divisions": [1, 4]},
        bobbins={"capacity_g": 13.0, "tare_g": [61.0, 60.0, 62.0, 63.0]},
    )
    found = answered(data)["weigh_points"]
    assert spans(found, "ply", "bobbin", "row", "repeat") == [
        *((1, 1, 1, 1), (1, 2, 2, 1)),
        *((2, 3, 2, 1), (2, 3, 4, 2), (2, 4, 6, 3), (2, 4, 8, 4)),
    ]
    assert [row["net_g"] for row in found] == pytest.approx([12, 12, 6, 12, 6, 12])
    assert [row["gross_g"] for row in found] == pytest.approx([73, 72, 68, 74, 69, 75])
    assert [row["at_m"] for row in found] == pytest.approx([120, 240, 60, 120, 180, 240])


def test_a_bobbin_that_is_full_within_a_portion_is_weighed_there():
    data = one_ply({"Kelp": 25.0, "Foam": 4.0}, bobbins={"capacity_g": 10.0, "tare_g": 50.0})
    found = answered(data)["weigh_points"]
    assert spans(found, "bobbin", "row") == [(1, 1), (2, 1), (3, 2)]
    assert [row["at_m"] for row in found] == pytest.approx([29 / 3, 58 / 3, 29])
    assert [row["gross_g"] for row in found] == pytest.approx([50 + 29 / 3] * 3)


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@times(1 / 2)
@given(st.data())
def test_every_repeat_ends_in_a_weigh_point_and_every_bobbin_too(scheme, data):
    drawn = data.draw(plan_data(scheme))
    drawn.pop("target", None)
    heaviest = max(single["mass_g"] for single in answered(drawn)["singles"])
    drawn["bobbins"] = {"capacity_g": max(least_capacity(drawn), heaviest / 2.3), "tare_g": 60.0}
    found = answered(drawn)
    starts = {one["bobbin"]: one["start_m"] for one in found["bobbins"]}
    for single in found["singles"]:
        own = [point for point in found["weigh_points"] if point["ply"] == single["ply"]]
        rows = single["portions"]
        ends = [
            rows[at]["end_m"]
            for at in range(len(rows))
            if at + 1 == len(rows) or rows[at + 1]["repeat"] != rows[at]["repeat"]
        ]
        full = [one["end_m"] for one in found["bobbins"] if one["ply"] == single["ply"]]
        expected = sorted({round(end / single["length_m"], 9) for end in ends + full})
        assert [point["at_m"] / single["length_m"] for point in own] == pytest.approx(
            expected, abs=3e-9
        )
        for point in own:
            row = rows[point["row"] - 1]
            near = 1e-8 * single["length_m"]
            assert row["start_m"] - near <= point["at_m"] <= row["end_m"] + near
            assert row["repeat"] == point["repeat"]
            g_per_m = single["linear_density_tex"] / 1000
            net = (point["at_m"] - starts[point["bobbin"]]) * g_per_m
            assert point["net_g"] == pytest.approx(net, abs=1e-9)
            assert point["gross_g"] == pytest.approx(net + 60)


# --- are there enough ------------------------------------------------------------------------


def need_of(data: dict) -> tuple[int, int, bool]:
    need = yc.answer(yc.plan_from_data(data)).bobbins_needed
    return need.full, need.at_once, need.is_short


@pytest.mark.parametrize(
    ("tables", "full", "at_once"),
    [
        ({}, 3, 4),
        ({"plying": {"strands": 2}}, 6, 7),
        ({"plying": {"strands": [1, 2, 1]}}, 4, 5),
        ({"plying": {"wound_off": [0, 2, 2]}}, 1, 2),
        ({"plying": {"wound_off": 1}}, 0, 1),
        ({"bobbins": {"plying_count": 1}}, 3, 3),
        ({"scheme": {"name": "chain"}}, 1, 2),
        ({"scheme": {"plies": 1}}, 1, 1),
        ({"bobbins": {"capacity_g": 14.0}}, 6, 7),
    ],
)
@pytest.mark.parametrize("spare", [-1, 0, 1])
def test_bobbins_needed_are_the_full_ones_and_one_to_ply_on(tables, full, at_once, spare):
    count = at_once + spare
    if count < 1:
        return
    data = by_hand(THREE, **tables)
    data["bobbins"] = tables.get("bobbins", {}) | {"count": count}
    if "capacity_g" in data["bobbins"]:
        data["lots"] = data["lots"][:2]
    assert need_of(data) == (full, at_once, spare < 0)
    assert ("few_bobbins" in dict(advised(data))) == (spare < 0)


def test_nothing_is_short_where_the_bobbins_were_not_counted():
    assert need_of(by_hand(THREE)) == (3, 4, False)


# --- skeins ----------------------------------------------------------------------------------


def skeins_of(data: dict) -> list[dict]:
    return answered(data)["yarn"]["skeins"]


def test_without_a_capacity_the_yarn_is_one_skein():
    (skein,) = skeins_of(by_hand(THREE))
    assert skein["start_m"] == 0
    assert (skein["end_m"], skein["mass_g"]) == pytest.approx((270, 81))
    assert skein["near_end"] == ["Wrack"] * 3
    assert skein["far_end"] == ["Kelp"] * 3
    assert skein["plies_changing"] == 0


@pytest.mark.parametrize(
    ("capacity", "ends", "changing"),
    [
        (81.0, [270], [0]),
        (80.95, [180, 270], [3, 0]),
        (54.0, [90, 270], [3, 0]),
        (40.0, [90, 180, 270], [3, 3, 0]),
        (27.0, [90, 180, 270], [3, 3, 0]),
    ],
)
def test_a_break_falls_where_all_plies_change(capacity, ends, changing):
    found = skeins_of(by_hand(THREE, bobbins={"plying_capacity_g": capacity}))
    if len(ends) == 2:
        assert found[0]["end_m"] in (pytest.approx(90), pytest.approx(180))
    else:
        assert [one["end_m"] for one in found] == pytest.approx(ends)
    assert [one["plies_changing"] for one in found] == changing


def test_a_break_beside_a_change_is_none():
    """59.9 m of yarn change at 29.9 m; of 29.955 m a skein, it has to be broken 5 cm farther."""
    plan = one_ply({"Kelp": 30.0, "Foam": 29.9}, bobbins={"plying_capacity_g": 29.955})
    found = skeins_of(plan)
    assert [one["end_m"] for one in found] == pytest.approx([29.95, 59.9], abs=0.006)
    assert [one["plies_changing"] for one in found] == [0, 0]


def test_the_most_even_of_equally_good_breaks_is_taken():
    masses = {"Kelp": 30.0, "Foam": 30.0, "Wrack": 30.0, "Dune": 30.0}
    found = skeins_of(by_hand(masses, bobbins={"plying_capacity_g": 100.0}))
    assert [one["mass_g"] for one in found] == pytest.approx([60, 60])


def test_plies_change_against_the_section_just_before():
    """20 m in two skeins of 15 m: at the middle one ply changes, at 14 m both do, though there the
    second ply is what it was at the beginning."""
    portions = [
        {"ply": 1, "lot": "Kelp", "mass_g": 1.4},
        {"ply": 1, "lot": "Foam", "mass_g": 0.6},
        {"ply": 2, "lot": "Kelp", "mass_g": 1.0},
        {"ply": 2, "lot": "Foam", "mass_g": 0.4},
        {"ply": 2, "lot": "Kelp", "mass_g": 0.6},
    ]
    data = by_hand(
        {"Kelp": 3.0, "Foam": 1.0},
        scheme={"name": "free", "portions": portions},
        plying={"wound_off": 1},
        bobbins={"plying_capacity_g": 3.0},
    )
    first, second = skeins_of(data)
    assert (first["end_m"], first["plies_changing"]) == (pytest.approx(14), 2)
    assert (first["far_end"], second["near_end"]) == (["Kelp", "Foam"], ["Foam", "Kelp"])


def test_a_yarn_of_one_colour_is_broken_evenly():
    found = skeins_of(by_hand({"Kelp": 90.0}, bobbins={"plying_capacity_g": 40.0}))
    assert [one["mass_g"] for one in found] == pytest.approx([30, 30, 30])
    assert [one["plies_changing"] for one in found] == [0, 0, 0]
    assert [one["near_end"] == one["far_end"] == ["Kelp"] * 3 for one in found] == [True] * 3


def test_between_two_breaks_on_changes_one_without_a_change_finds_its_place():
    """34 m, 10 m a skein: 5 and 24.5 m are changes, and from 14.5 to 15 m a break lets both be."""
    data = one_ply(
        {"Kelp": 5.0, "Foam": 19.5, "Wrack": 9.5},
        plying={"wound_off": 1},
        bobbins={"plying_capacity_g": 10.0},
    )
    found = skeins_of(data)
    assert [one["plies_changing"] for one in found] == [1, 0, 1, 0]
    assert found[0]["end_m"] == pytest.approx(5)
    assert found[2]["end_m"] == pytest.approx(24.5)


def plies_that_change(found: dict) -> list[tuple[float, int]]:
    return [
        (
            row["end_m"],
            sum(one != other for one, other in zip(row["lots"], after["lots"], strict=True)),
        )
        for row, after in pairwise(found["stretches"])
    ]


@st.composite
def small_plans(draw) -> tuple[dict, int]:
    """Draw a plan of few changes, and how many skeins it is to have."""
    count = draw(st.integers(2, 4))
    least = st.integers(1, 20).map(float)
    names = ("Kelp", "Foam", "Wrack")[: draw(st.integers(1, 3))]
    name = draw(st.sampled_from(("matched", "fractal", "flipped", "staggered", "free")))
    plies = draw(st.integers(1, 3))
    scheme = {"name": name, "plies": plies}
    if name == "fractal":
        scheme["divisions"] = [draw(st.integers(1, 3)) for _ in range(plies)]
    masses = {lot: draw(least) for lot in names}
    if name == "free":
        portions = [
            {"ply": ply, "lot": lot, "mass_g": draw(st.integers(1, 9)) * masses[lot] / 9 / plies}
            for ply in range(1, plies + 1)
            for lot in draw(st.permutations(names))
        ]
        scheme["portions"] = portions
    data = by_hand(masses, scheme=scheme, spinning={"single_tex": 500.0})
    whole_g = answered(data)["yarn"]["mass_g"]
    capacity = whole_g / (count - draw(st.sampled_from((0.9, 0.6, 0.4, 0.2, 0.05, 0.0))))
    if capacity < 1:
        data["lots"] = [lot | {"mass_g": lot["mass_g"] / capacity} for lot in data["lots"]]
        for portion in scheme.get("portions", ()):
            portion["mass_g"] /= capacity
        capacity = 1.0
    return data | {"bobbins": {"plying_capacity_g": capacity}}, count


@times(2.5)
@given(small_plans())
def test_skeins_are_as_few_as_can_be_and_break_where_most_plies_change(drawn):
    data, count = drawn
    found = answered(data)
    skeins, capacity = found["yarn"]["skeins"], data["bobbins"]["plying_capacity_g"]
    assert len(skeins) == ceil(found["yarn"]["mass_g"] / capacity * (1 - 1e-9)) == count
    assert [one["skein"] for one in skeins] == list(range(1, count + 1))
    assert max(one["mass_g"] for one in skeins) <= capacity * (1 + 1e-8)
    assert sum(one["mass_g"] for one in skeins) == pytest.approx(found["yarn"]["mass_g"])
    room_m = capacity / found["yarn"]["linear_density_tex"] * 1000
    if len(plies_that_change(found)) <= FEW_CHANGES:
        changing = sum(one["plies_changing"] for one in skeins)
        assert changing == most_worth(
            found["yarn"]["length_m"], plies_that_change(found), room_m, count
        )


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@times(1 / 2)
@given(st.data())
def test_both_ends_of_a_skein_are_those_of_the_sections_there(scheme, data):
    drawn = data.draw(plan_data(scheme))
    drawn.pop("target", None)
    parts = data.draw(st.sampled_from((1.0, 1.7, 3.1, 6.5)))
    drawn["bobbins"] = {
        "plying_capacity_g": max(least_capacity(drawn), answered(drawn)["yarn"]["mass_g"] / parts),
    }
    found = answered(drawn)
    skeins, rows = found["yarn"]["skeins"], found["stretches"]
    assert skeins[0]["start_m"] == 0
    assert skeins[-1]["end_m"] == pytest.approx(found["yarn"]["length_m"])
    assert skeins[0]["near_end"] == rows[0]["lots"]
    assert skeins[-1]["far_end"] == rows[-1]["lots"]
    assert skeins[-1]["plies_changing"] == 0
    near = 4e-9 * found["yarn"]["length_m"]
    for one, after in pairwise(skeins):
        assert one["end_m"] == after["start_m"]
        changes = sum(
            before != behind
            for before, behind in zip(one["far_end"], after["near_end"], strict=True)
        )
        assert one["plies_changing"] == changes
        at = one["end_m"]
        before = [row["lots"] for row in rows if row["start_m"] - near <= at <= row["end_m"] + near]
        assert one["far_end"] in before
        assert after["near_end"] in before
        if not changes:
            assert one["far_end"] == after["near_end"]


def test_a_chain_is_broken_where_its_strands_change_or_anywhere():
    data = by_hand(THREE, scheme={"name": "chain"}, bobbins={"plying_capacity_g": 30.0})
    found = skeins_of(data)
    assert len(found) == 3
    assert max(one["mass_g"] for one in found) <= 30
    assert {len(one["near_end"]) for one in found} == {3}


@pytest.mark.parametrize("tare", [None, 0.0, 85.5])
def test_a_skein_weighs_what_it_is_and_with_the_plying_bobbin_more(tare):
    own = {} if tare is None else {"plying_tare_g": tare}
    found = skeins_of(by_hand(THREE, bobbins={"plying_capacity_g": 40.0} | own))
    for one in found:
        assert one["gross_g"] == (None if tare is None else pytest.approx(one["mass_g"] + tare))


def test_skeins_are_counted_from_one_to_as_many_as_there_are():
    data = by_hand(THREE, bobbins={"plying_capacity_g": 40.0})
    told = yc.answer(yc.plan_from_data(data)).skeins
    assert [(one.number, one.of) for one in told] == [
        (number, len(told)) for number in range(1, len(told) + 1)
    ]
    assert len(told) > 1
