"""Several alike, one after the other: each ply's finished order so many times, divided by it.

Kelp 30 g, Foam 60 g and Wrack 90 g: on two like plies each holds 15, 30 and 45 g.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.strategies import (
    DIVIDING,
    advised,
    answered,
    by_hand,
    laid,
    plan_data,
)
from yarncolor.editing import slips
from yarncolor.layout.layout import in_words, layout
from yarncolor.layout.many_orders import stretches_of_orders
from yarncolor.layout.resolved import resolve
from yarncolor.layout.stretches import stretches
from yarncolor.layout.winding import Strands
from yarncolor.plan import to_data

THREE = {"Kelp": 30.0, "Foam": 60.0, "Wrack": 90.0}
K, F, W = "Kelp", "Foam", "Wrack"
ONE = [(K, 7.5), (F, 15), (W, 22.5)]
ALIKE = [name for name in DIVIDING if name not in ("free", "chain")]


def socks(name: str = "matched", **options) -> dict:
    """Return two alike of the three lots on two plies."""
    scheme = {"name": name, "plies": 2, "copies": 2, **options}
    return by_hand(THREE, scheme=scheme, plying={"wound_off": 1})


def table(found: dict) -> list[tuple[float, float, list[str]]]:
    return [(row["start_m"], row["end_m"], row["lots"]) for row in found["stretches"]]


def test_the_order_is_spun_so_many_times_over_every_portion_divided():
    assert laid(socks()) == [ONE * 2, ONE * 2]
    keys = ("place", "repeat", "copy")
    once = [(1, 1), (2, 1), (3, 1)]
    assert laid(socks(), *keys)[0] == [(*row, copy) for copy in (1, 2) for row in once]


def test_a_reversed_ply_is_turned_before_it_is_copied():
    assert laid(socks(reversed_plies=[2]))[1] == ONE[::-1] * 2


def test_a_plan_that_does_not_speak_of_copies_has_none():
    data = socks()
    del data["scheme"]["copies"]
    assert {copy for ply in laid(data, "copy") for (copy,) in ply} == {None}


@pytest.mark.parametrize("scheme", DIVIDING)
@given(st.data())
def test_the_portions_of_every_copy_are_those_of_one_divided(scheme, data):
    drawn, copies = data.draw(plan_data(scheme)), data.draw(st.integers(2, 8))
    drawn.pop("target", None)
    plain = laid(drawn, "lot", "place", "repeat", "mass_g")
    drawn["scheme"]["copies"] = copies
    for one, many in zip(plain, laid(drawn, "lot", "place", "repeat", "mass_g"), strict=True):
        assert [row[:3] for row in many] == [row[:3] for row in one] * copies
        masses = [row[3] / copies for row in one] * copies
        assert [row[3] for row in many] == pytest.approx(masses)


@pytest.mark.parametrize("scheme", ALIKE)
@given(st.data())
def test_two_copies_halve_every_stretch_and_double_their_number(scheme, data):
    drawn = data.draw(plan_data(scheme))
    drawn.pop("target", None)
    one = answered(drawn)
    drawn["scheme"]["copies"] = 2
    two, yarn_m = answered(drawn), one["yarn"]["length_m"]
    assert two["yarn"]["length_m"] == pytest.approx(yarn_m)
    tick = 2e-9 * yarn_m
    if min(row["end_m"] - row["start_m"] for row in one["stretches"]) < 8 * tick:
        return
    halves = [(start / 2, end / 2, lots) for start, end, lots in table(one)]
    moved = [(start + yarn_m / 2, end + yarn_m / 2, lots) for start, end, lots in halves]
    assert [lots for *_, lots in table(two)] == [lots for *_, lots in halves + moved]
    for (start, end, _), (a, b, _) in zip(table(two), halves + moved, strict=True):
        assert (start, end) == pytest.approx((a, b), abs=tick)


@given(st.data())
def test_a_chain_is_looped_copy_by_copy(data):
    """Each copy is the yarn that half of every lot makes by itself."""
    drawn = data.draw(plan_data("chain"))
    drawn.pop("target", None)
    drawn["scale"] = {"step_g": 0.01}
    drawn["scheme"]["copies"] = 2
    two = answered(drawn)
    del drawn["scheme"]["copies"]
    for lot in drawn["lots"]:
        lot |= {"mass_g": lot["mass_g"] / 2, "reserve_g": lot["reserve_g"] / 2}
    one, yarn_m = answered(drawn), two["yarn"]["length_m"]
    assert yarn_m == pytest.approx(2 * one["yarn"]["length_m"])
    first = [row for row in table(two) if row[1] <= yarn_m * (0.5 + 1e-9)]
    long = [row for row in table(one) if row[1] - row[0] > 1e-7 * yarn_m]
    assert [row for row in first if row[1] - row[0] > 1e-7 * yarn_m] == [
        (pytest.approx(start, abs=1e-8 * yarn_m), pytest.approx(end, abs=1e-8 * yarn_m), lots)
        for start, end, lots in long
    ]


def test_a_run_over_the_end_of_a_copy_is_cut_there():
    data = socks(sequence=[K, F, K])
    assert answered(data)["doubled_runs"] == []
    assert [row["lots"] for row in answered(data)["stretches"]] == [[K, K], [F, F], [K, K]] * 2


@pytest.mark.parametrize("name", ["fractal", "chain"])
def test_where_copies_meet_no_ply_changes_and_no_check_point_says_so(name):
    options = {"divisions": [1, 3]} if name == "fractal" else {}
    data = socks(name, sequence=[K, F, W, K], **options)
    if name == "chain":
        del data["scheme"]["plies"]
    found = answered(data)
    half_m = found["yarn"]["length_m"] / 2
    assert half_m == pytest.approx(300 if name == "chain" else 450)
    assert half_m not in [pytest.approx(one["yarn_m"]) for one in found["check_points"]]
    assert "closes" not in dict(advised(data)).get("doubled_run", "")


@pytest.mark.parametrize(
    ("capacity_g", "ends_m"), [(None, [450, 900]), (60.0, [225, 450, 675, 900])]
)
def test_skeins_break_between_copies(capacity_g, ends_m):
    """900 m of 180 g; 45 m of each lot's third … in a copy Kelp to 75 m, Foam to 225 m."""
    data = socks() | {"bobbins": {"plying_capacity_g": capacity_g} if capacity_g else {}}
    skeins = answered(data)["yarn"]["skeins"]
    assert [skein["end_m"] for skein in skeins] == pytest.approx(ends_m)
    told = dict(advised(data))["skeins"]
    assert "2 alike" in told
    assert ("plying bobbin" in told) == (capacity_g is not None)


def test_a_knitted_piece_is_one_of_those_alike():
    fabric = {"stitches": 60, "rows": 40, "gauge_stitches": 24, "gauge_rows": 32}
    both = answered(socks() | {"fabric": fabric})["fabric"]
    alone = socks() | {"fabric": fabric}
    del alone["scheme"]["copies"]
    one = answered(alone)["fabric"]
    assert both["has_m"] == pytest.approx(one["has_m"] / 2)
    assert both["needs_m"] == one["needs_m"]
    assert [lot["to_card_g"] for lot in both["lots"]] == pytest.approx(
        [2 * lot["to_card_g"] for lot in one["lots"]]
    )
    plan = yc.plan_from_data(socks() | {"fabric": fabric})
    assert yc.for_the_piece(plan).target.yarn_m == pytest.approx(2 * one["needs_plied_m"])


def test_orders_of_several_alike_are_laid_out_at_once_as_one_by_one():
    sources = np.array([[0, 1, 2], [2, 0, 1], [1, 2, 0]])
    for name in ("matched", "fractal", "chain"):
        data = socks(name) if name != "chain" else socks(name, plies=3)
        plan = yc.plan_from_data(data)
        for order, found in zip(
            sources, stretches_of_orders(plan, resolve(plan), sources), strict=True
        ):
            sequence = [list(THREE)[at] for at in order]
            data["scheme"]["sequence"] = sequence
            alone = layout(resolve(yc.plan_from_data(data))).stretches
            assert (found.edges_ppb == alone.edges_ppb).all()
            assert (found.lot == alone.lot).all()
            assert (found.copy_ends_ppb == alone.copy_ends_ppb).all()
            assert found.copy_ends_ppb.tolist() == [500_000_000]


def test_what_is_spun_belongs_to_its_copy():
    spun = [
        {"ply": 1, "through": 4},
        {"ply": 1, "lot": "Foam", "mass_g": 2.0},
        {"ply": 2, "row": 2},
    ]
    first, second = laid(socks() | {"spun": spun}, "row", "copy")
    assert first == [(1, 1), (2, 1), (3, 1), (4, 2), (None, 2), (5, 2), (6, 2)]
    assert second == [(2, 1), (3, 1), (4, 2), (5, 2), (6, 2)]
    found = answered(socks() | {"spun": spun})
    whole, half = found["yarn"]["length_m"], found["yarn"]["skeins"][0]["end_m"]
    assert len(found["yarn"]["skeins"]) == 2
    assert 0.4 * whole < half < 0.6 * whole


def test_plies_that_lie_otherwise_break_at_the_middle_one_s_end():
    """Copies end after 450, 470 and 430 m of single: 450 m counts."""
    data = by_hand(THREE, scheme={"plies": 3, "copies": 2}, plying={"wound_off": 1})
    metres = [{"ply": k, "row": 1, "length_m": m} for k, m in ((1, 50.0), (2, 70.0), (3, 30.0))]
    ends = [skein["end_m"] for skein in answered(data | {"spun": metres})["yarn"]["skeins"]]
    assert ends[0] == pytest.approx(300)
    assert ends[1] == pytest.approx(580)


def test_a_free_plan_begins_with_the_portions_of_one_of_those_alike():
    free = yc.variant(yc.plan_from_data(socks()), "free")
    assert [(one.ply, one.lot, one.mass_g) for one in free.scheme.portions] == [
        (ply, lot, pytest.approx(2 * mass)) for ply in (1, 2) for lot, mass in ONE
    ]
    assert laid(to_data(free)) == laid(socks())


def test_pieces_that_would_run_double_are_spun_at_the_end_of_their_own_copy():
    data = socks("fractal", sequence=[K, F, W, K], divisions=[1, 2])
    data["spun"] = [{"ply": 2, "through": 1}]
    plan = slips.closed_once_from_here(yc.plan_from_data(data))
    one = [(K, 1.875), (F, 7.5), (W, 11.25)]
    tail = [*one, *one, (K, 3.75)]
    assert laid(to_data(plan))[1] == [(lot, pytest.approx(mass)) for lot, mass in tail * 2]


def test_a_shared_closing_shifts_repeats_as_far_as_in_one_of_half_the_grams():
    data = socks("fractal", sequence=[K, F, K], divisions=[1, 3], closing="share")
    half = {lot: mass / 2 for lot, mass in THREE.items()}
    one = by_hand(half, scheme=data["scheme"] | {"copies": 1}, plying=data["plying"])
    said = [
        [text for text in answered(each)["assumptions"] if "shared" in text] for each in (data, one)
    ]
    assert said[0] == said[1] != []


def test_every_copy_has_its_heading_in_words():
    text = yc.summary_text(yc.answer(yc.plan_from_data(socks())))
    assert "Matched, 2 plies, 2 alike" in text
    assert text.count("-- 1 of 2 alike") == text.count("-- 2 of 2 alike") == 2


@pytest.mark.parametrize(
    ("scheme", "words"),
    [
        ({"name": "fractal", "plies": 3}, "fractal, 3 plies"),
        ({"name": "matched", "plies": 2}, "matched, 2 plies"),
        ({"name": "matched", "plies": 1}, "matched, one single"),
        ({"name": "matched", "plies": 2, "copies": 2}, "matched, 2 plies, 2 alike"),
    ],
)
def test_a_plan_in_a_few_words(scheme, words):
    lots = [{"name": name, "colour": "#345", "mass_g": 9.0} for name in ("Kelp", "Foam")]
    plan = yc.plan_from_data({"lots": lots, "scheme": scheme})
    assert in_words(layout(resolve(plan))) == words


@pytest.mark.parametrize(
    ("other_m", "at_ppb"),
    [((30.0, 30.0), [500_000_000]), ((45.0, 45.0), [750_000_000]), ((60.0, 30.0), [])],
)
def test_a_copy_that_ends_where_the_yarn_does_cuts_nothing(other_m, at_ppb):
    """Two plies of two copies, the first 30 m and 30 m; of two places the farther counts."""
    both = Strands(
        starts=np.array([0, 2, 4]),
        length_m=np.array([30.0, 30.0, *other_m]),
        lot=np.array([0, 0, 1, 1]),
        copy=np.array([1, 2, 1, 2]),
    )
    along = stretches(both, 0.0)
    assert along.copy_ends_ppb.tolist() == at_ppb
    assert along.edges_ppb.tolist() == [0, *at_ppb, 1_000_000_000]
    assert along.copy_ends_m.tolist() == [ppb * 60 / 1e9 for ppb in at_ppb]
