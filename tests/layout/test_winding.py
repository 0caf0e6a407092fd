"""Which end comes off first, what that does to the yarn, and what stays on a bobbin."""

from copy import deepcopy
from math import inf

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.helpers.strategies import DIVIDING, advised, answered, by_hand, plan_data
from yarncolor.layout.winding import FIRST_FIRST, LAST_FIRST, end_of_all

TWO = {"Kelp": 10.0, "Foam": 20.0}
"""On two plies of 100 tex: 50 m of Kelp, then 100 m of Foam."""


def rows_of(found: dict) -> list[tuple[float, str]]:
    """Return where each stretch ends, and the first letters of its lots."""
    return [(row["end_m"], "".join(name[0] for name in row["lots"])) for row in found["stretches"]]


def nearly(rows: list[tuple[float, str]]) -> list:
    return [(pytest.approx(end, rel=1e-8), lots) for end, lots in rows]


def matched(wound_off, **tables) -> dict:
    scheme = {"name": "matched", "plies": 2} | tables.pop("scheme", {})
    return by_hand(TWO, scheme=scheme, plying={"wound_off": wound_off}, **tables)


@pytest.mark.parametrize(
    ("wound_off", "rows"),
    [
        (0, [(100, "FF"), (150, "KK")]),
        (1, [(50, "KK"), (150, "FF")]),
        (2, [(100, "FF"), (150, "KK")]),
        (3, [(50, "KK"), (150, "FF")]),
        ([0, 1], [(50, "FK"), (100, "FF"), (150, "KF")]),
        ([1, 2], [(50, "KF"), (100, "FF"), (150, "FK")]),
    ],
)
def test_a_winding_turns_what_comes_off_first(wound_off, rows):
    found = answered(matched(wound_off))
    assert rows_of(found) == nearly(rows)
    ends = {0: "last spun first", 1: "first spun first"}
    each = wound_off if isinstance(wound_off, list) else [wound_off] * 2
    assert [single["comes_off"] for single in found["singles"]] == [ends[w % 2] for w in each]
    assert [single["wound_off"] for single in found["singles"]] == each


def test_places_in_the_yarn_are_shortened_by_what_plying_takes_up():
    data = matched(1)
    data["plying"]["contraction"] = 0.2
    assert rows_of(answered(data)) == nearly([(40, "KK"), (120, "FF")])


@pytest.mark.parametrize("mixed", [[0, 1], [1, 0], [3, 2]])
def test_mixed_winding_is_the_first_advice(mixed):
    assert [kind for kind, _ in advised(matched(mixed))][:1] == ["mixed_winding"]


def test_mixed_winding_stands_before_all_other_advice():
    scheme = {"name": "fractal", "divisions": [1, 2], "sequence": ["Kelp", "Foam", "Kelp"]}
    lots = {"Kelp": 60.0, "Foam": 30.0, "Dune": 9.0}
    kinds = [k for k, _ in advised(by_hand(lots, scheme=scheme, plying={"wound_off": [0, 1]}))]
    assert kinds[0] == "mixed_winding"
    assert {"doubled_run", "unused_lot"} < set(kinds)


def test_advice_on_mixed_winding_names_the_ply_and_three_remedies():
    text = dict(advised(matched([0, 1])))["mixed_winding"]
    assert "Ply 2" in text
    assert "ply 1" not in text
    assert all(word in text for word in ("all", "none", "once more", "reverse order"))


@pytest.mark.parametrize("wound_off", [0, 1, [0, 2], [3, 1]])
def test_no_advice_where_all_bobbins_turn_alike(wound_off):
    assert advised(matched(wound_off)) == []


def test_spinning_the_wound_off_ply_in_reverse_mends_mixed_winding():
    data = matched([0, 1], scheme={"reversed_plies": [2]})
    assert rows_of(answered(data)) == nearly([(100, "FF"), (150, "KK")])


def free(wound_off: int, **spinning) -> dict:
    """Return 10 g on ply 1; on ply 2 Kelp 3 g, Kelp 2 g, Foam 4 g and Dune 11 g."""
    portions = [("Dune", 1, 10.0), ("Kelp", 2, 3.0), ("Kelp", 2, 2.0), ("Foam", 2, 4.0)]
    portions.append(("Dune", 2, 11.0))
    return by_hand(
        {"Kelp": 5.0, "Foam": 4.0, "Dune": 21.0},
        scheme={
            "name": "free",
            "portions": [{"lot": lot, "ply": ply, "mass_g": mass} for lot, ply, mass in portions],
        },
        plying={"wound_off": wound_off, "contraction": 0.1},
        spinning=spinning,
    )


FIRST_SPUN = [("Kelp", 5, 0, 50), ("Foam", 4, 50, 90), ("Dune", 1, 90, 100)]


@pytest.mark.parametrize(
    ("wound_off", "end", "rows"),
    [
        (0, "first spun", FIRST_SPUN),
        (1, "last spun", [("Dune", 10, 100, 200)]),
        (2, "first spun", FIRST_SPUN),
    ],
)
def test_what_stays_on_a_bobbin_is_what_comes_off_last_run_by_run(wound_off, end, rows):
    """Ply 1 ends at 100 m of single; ply 2 is 200 m long."""
    found = answered(free(wound_off))
    assert found["yarn"]["length_m"] == pytest.approx(90)
    assert len(found["leftovers"]) == len(rows)
    for left, (lot, mass_g, start_m, end_m) in zip(found["leftovers"], rows, strict=True):
        assert (left["ply"], left["lot"], left["end"]) == (2, lot, end)
        assert left["mass_g"] == pytest.approx(mass_g)
        assert [left["start_m"], left["end_m"]] == pytest.approx([start_m, end_m])
        assert left["length_m"] == pytest.approx(end_m - start_m)


def test_a_leftover_is_as_weighed_out_before_spinning_loss():
    """With half lost in spinning ply 2 is 100 m, ply 1 50 m: the metres halve, the grams stay."""
    left = answered(free(1, spin_loss=0.5))["leftovers"]
    assert [(row["mass_g"], row["start_m"], row["end_m"]) for row in left] == [
        pytest.approx((10, 50, 100))
    ]


def test_advice_says_which_ply_runs_out_and_what_is_left():
    text = dict(advised(free(0)))["runs_out"]
    assert all(word in text for word in ("ply 1", "ply 2", "100.0 m", "5.0 g of Kelp"))


@pytest.mark.parametrize(
    ("kelp_m", "rows"),
    [
        (2, [(1, "KFF"), (1.5, "KKF"), (3, "FFF")]),
        (3, [(1.5, "KKF"), (3, "FFF")]),
        (4, [(1, "KKK"), (1.5, "KKF"), (3, "FFF")]),
        (5, [(1.5, "KKK"), (2, "KFF"), (3, "FFF")]),
    ],
)
def test_chain_folds_the_middle_strand_back(kelp_m, rows):
    """9 m in two loops, l = 1.5 m: at t of loop n the strands are at 4.5n + t, + 3 - t, + 3 + t.

    With 2 m of Kelp first, the middle strand, 3 - t, comes to it after t = 1 m; with 4 m the
    last strand, 3 + t, leaves it there; with 5 m half a metre of the second loop is Kelp.
    """
    masses = {"Kelp": kelp_m / 10, "Foam": (9 - kelp_m) / 10}
    data = by_hand(masses, scheme={"name": "chain", "loop_m": 1.5}, plying={"wound_off": 1})
    found = [
        (row["end_m"], "".join(n[0] for n in row["lots"])) for row in answered(data)["stretches"]
    ]
    assert [lots for _, lots in found] == [lots for _, lots in rows]
    assert [end for end, _ in found] == pytest.approx([end for end, _ in rows])


def table_of(found: dict) -> list[tuple[float, float, list[str]]]:
    """Return the stretches that are longer than rounding, with their ends as shares."""
    length = found["yarn"]["length_m"]
    ends = [
        (row["start_m"] / length, row["end_m"] / length, row["lots"]) for row in found["stretches"]
    ]
    return [(start, end, lots) for start, end, lots in ends if end - start > 5e-9]


@pytest.mark.parametrize("scheme", [name for name in DIVIDING if name != "free"])
@given(st.data())
def test_one_winding_more_of_every_bobbin_mirrors_the_yarn(scheme, data):
    """Plies of a free scheme are not equally long. A chain's outer strands change places too."""
    drawn = data.draw(plan_data(scheme))
    each = drawn["plying"]["wound_off"]
    turned = [w + 1 for w in each] if isinstance(each, list) else each + 1
    there = table_of(answered(drawn))
    back = table_of(answered(drawn | {"plying": drawn["plying"] | {"wound_off": turned}}))
    strands = -1 if scheme == "chain" else 1
    mirrored = [(1 - end, 1 - start, lots[::strands]) for start, end, lots in there[::-1]]
    assert [lots for *_, lots in back] == [lots for *_, lots in mirrored]
    ends, expected = ([row[:2] for row in table] for table in (back, mirrored))
    assert np.array(ends) == pytest.approx(np.array(expected), abs=2.1e-9)


def not_alone_the_shortest(found: dict) -> list[int]:
    """Return the plies, from 0, that come off last spun first and have another as short."""
    lengths = [single["length_m"] for single in found["singles"]]
    return [
        k
        for k, single in enumerate(found["singles"])
        if single["wound_off"] % 2 == 0
        and min([*lengths[:k], *lengths[k + 1 :], inf]) <= lengths[k]
    ]


def lengthened(data: dict, ply: int, more_g: float) -> dict:
    """Return a free plan with more grams in the first portion of a ply, and in the drawer."""
    longer = deepcopy(data)
    first = next(row for row in longer["scheme"]["portions"] if row["ply"] == ply + 1)
    first["mass_g"] += more_g
    lot = next(lot for lot in longer["lots"] if lot["name"] == first["lot"])
    lot["mass_g"] += more_g / (1 - data["spinning"]["card_loss"])
    return longer


@given(st.data())
def test_more_of_what_is_spun_first_stays_on_the_bobbin_and_changes_no_stretch(data):
    drawn = data.draw(plan_data("free"))
    drawn.pop("target", None)
    short = answered(drawn)
    some = not_alone_the_shortest(short)
    assume(some)
    ply, more_g = data.draw(st.sampled_from(some)), data.draw(st.sampled_from((0.5, 7.0, 400.0)))
    long = answered(lengthened(drawn, ply, more_g))
    assert rows_of(long) == nearly(rows_of(short))

    def grams(found: dict, of: int | None) -> float:
        return sum(row["mass_g"] for row in found["leftovers"] if row["ply"] == of)

    assert grams(long, ply + 1) - grams(short, ply + 1) == pytest.approx(more_g, abs=1e-6)
    for other in {None, *range(1, len(short["singles"]) + 1)} - {ply + 1}:
        assert grams(long, other) == pytest.approx(grams(short, other), abs=1e-6)


@pytest.mark.parametrize(
    ("wound_off", "end"),
    [
        ([0], LAST_FIRST),
        ([1], FIRST_FIRST),
        ([0, 2], LAST_FIRST),
        ([1, 3, 1], FIRST_FIRST),
        ([0, 1], None),
    ],
)
def test_which_end_of_every_single_comes_off_first(wound_off, end):
    """Straight from the bobbin what was spun last; each winding turns it round."""
    assert end_of_all(np.array(wound_off)) == end
