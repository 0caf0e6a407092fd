"""Stripes of a knitted piece: rows to metres to grams, by hand, and as far as fibre suffices.

A piece of 100 stitches at 20 stitches and 30 rows in 10 cm: a loop is √(21.6 / 6) = 1.897 cm of
finished yarn, a row 1.897 m; cast-on and bind-off three times the width of 50 cm, 1.5 m each.
Washing leaves 0.9 of the yarn, plying 0.95 of a single; 100 tex are ten metres to a gram.
"""

from dataclasses import replace
from itertools import pairwise
from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.strategies import advised, answered, by_hand, laid
from yarncolor.answers.knitted_piece import piece
from yarncolor.layout.resolved import resolve
from yarncolor.layout.striped import striped as stripes_of
from yarncolor.pictures.as_knitted import piece_shown
from yarncolor.pictures.fabric_pictures import knitted_piece, stripe_heights

ROW_M, EDGE_M = sqrt(21.6 / 6), 1.5
G_PER_M = 0.1 / 0.9 / 0.95
FABRIC = {"stitches": 100, "gauge_stitches": 20, "gauge_rows": 30, "finishing_shrinkage": 0.1}
LOTS = {"Kelp": 60.0, "Foam": 60.0, "Rust": 60.0}
THREE = [{"rows": 4, "lot": "Kelp"}, {"rows": 6, "lot": "Foam"}, {"rows": 2, "lot": "Kelp"}]


def striped(stripes=THREE, lots=LOTS, plies=2, wound_off=1, fabric=FABRIC, **scheme) -> dict:
    scheme = {"name": "stripes", "plies": plies, "stripes": stripes, **scheme}
    tables = {"plying": {"wound_off": wound_off, "contraction": 0.05}, "fabric": fabric}
    return by_hand(lots, scheme=scheme, **tables)


def grams(*metres: float) -> list[float]:
    """Return grams of single for metres of finished yarn."""
    return [pytest.approx(length * G_PER_M) for length in metres]


def test_a_stripe_takes_the_single_of_its_rows_the_first_and_last_the_edges():
    kelp, foam, last = grams(4 * ROW_M + EDGE_M, 6 * ROW_M, 2 * ROW_M + EDGE_M)
    one = [("Kelp", kelp), ("Foam", foam), ("Kelp", last)]
    assert laid(striped()) == [one, one]
    assert answered(striped())["yarn"]["finished_length_m"] == pytest.approx(12 * ROW_M + 3)


def test_what_stripes_lack_is_told_before_carding():
    """Of 2 g of Foam 1.8 g are left when carded; both plies of six rows take more."""
    data = striped(lots=LOTS | {"Foam": 2.0}) | {"spinning": {"card_loss": 0.1}}
    takes_g = 2 * 6 * ROW_M * G_PER_M
    (lack,) = (one for one in answered(data)["missing"] if one["why"] == "stripes")
    assert lack["lot"] == "Foam"
    assert lack["mass_g"] == pytest.approx((takes_g - 1.8) / 0.9)


def test_straight_from_the_bobbin_the_bind_off_is_spun_first():
    turned = laid(striped(wound_off=0))
    assert turned == [ply[::-1] for ply in laid(striped(wound_off=1))]
    assert laid(striped(wound_off=2)) == turned
    assert laid(striped(wound_off=3)) == laid(striped(wound_off=1))
    mixed = laid(striped(wound_off=[0, 1]))
    assert mixed == [turned[0], laid(striped(wound_off=1))[1]]
    assert answered(striped(wound_off=[0, 1]))["shares"]["matched"] == 1
    assert "mixed_winding" not in dict(advised(striped(wound_off=[0, 1])))


def test_a_stripe_has_a_lot_for_all_plies_or_one_for_each():
    stripes = [{"rows": 4, "lot": "Rust"}, {"rows": 6, "lots": ["Kelp", "Foam"]}]
    assert [[lot for lot, _ in ply] for ply in laid(striped(stripes))] == [
        ["Rust", "Kelp"],
        ["Rust", "Foam"],
    ]


def test_plies_of_their_own_grist_and_losses_are_equally_long():
    data = striped() | {"spinning": {"single_tex": [50.0, 200.0], "spin_loss": 0.2}}
    thin, thick = laid(data)
    assert thin[0][1] == pytest.approx((4 * ROW_M + EDGE_M) * G_PER_M / 2 / 0.8)
    assert thick[0][1] == pytest.approx(4 * thin[0][1])
    lengths = [single["length_m"] for single in answered(data)["singles"]]
    assert lengths[0] == pytest.approx(lengths[1])


def test_stripes_go_round_until_the_piece_is_full_and_the_last_is_cut_there():
    data = striped(THREE[:2], repeat=True, fabric=FABRIC | {"rows": 17})
    first = laid(data, "lot", "repeat", "place")[0]
    assert first == [("Kelp", 1, None), ("Foam", 1, None), ("Kelp", 2, None), ("Foam", 2, None)]
    assert laid(data, "mass_g")[0][-1] == tuple(grams(3 * ROW_M + EDGE_M))
    assert answered(data)["sequence"] == []


def test_where_a_lot_gives_out_the_piece_ends_after_the_last_whole_stripe():
    """Foam has enough for the second stripe and not for the fourth, six more rows."""
    stripes = [*THREE, {"rows": 6, "lot": "Foam"}, {"rows": 3, "lot": "Rust"}]
    foam_g = 2 * 7 * ROW_M * G_PER_M
    data = striped(stripes, lots=LOTS | {"Foam": foam_g})
    first = laid(data)[0]
    assert [lot for lot, _ in first] == ["Kelp", "Foam", "Kelp"]
    assert first[-1][1] == pytest.approx((2 * ROW_M + EDGE_M) * G_PER_M)
    found = answered(data)
    (lack,) = found["missing"]
    assert (lack["lot"], lack["why"]) == ("Foam", "stripes")
    assert lack["mass_g"] == pytest.approx(2 * 5 * ROW_M * G_PER_M)
    told = dict(advised(data))
    assert "3 of 5 stripes, 12 of 21 rows" in told["short_of_stripes"]
    assert "short_of_piece" not in told


def test_what_the_bind_off_takes_is_counted_where_the_piece_ends():
    """With Kelp for the rows of the third stripe and not for its edge the piece ends before it."""
    kelp_g = 2 * (6 * ROW_M + EDGE_M + 0.5) * G_PER_M
    assert [lot for lot, _ in laid(striped(lots=LOTS | {"Kelp": kelp_g}))[0]] == ["Kelp", "Foam"]
    longer = [*THREE, {"rows": 1, "lot": "Rust"}]
    ends = laid(striped(longer, lots=LOTS | {"Kelp": kelp_g}))[0]
    assert [lot for lot, _ in ends] == ["Kelp", "Foam", "Kelp", "Rust"]


def test_a_target_changes_nothing_and_that_is_said():
    wanted = striped() | {"target": {"yarn_m": 5.0}}
    assert laid(wanted) == laid(striped())
    assert any(
        "as much yarn as their rows take" in said for said in answered(wanted)["assumptions"]
    )


def test_several_alike_have_every_row_each():
    one, two = answered(striped()), answered(striped(copies=2))
    assert two["yarn"]["length_m"] == pytest.approx(2 * one["yarn"]["length_m"])
    assert laid(striped(copies=2))[0] == laid(striped())[0] * 2
    assert two["fabric"]["rows_possible"] == one["fabric"]["rows_possible"] == 12


@given(st.data())
def test_in_the_knitted_picture_stripes_have_the_rows_asked_for(data):
    heights = data.draw(st.lists(st.integers(1, 9), min_size=1, max_size=6))
    names = list(LOTS)
    stripes = [{"rows": rows, "lot": names[at % 3]} for at, rows in enumerate(heights)]
    fabric = FABRIC | data.draw(
        st.fixed_dictionaries(
            {
                "kind": st.sampled_from(("flat", "round", "triangle")),
                "stitches": st.integers(3, 60),
                "gauge_rows": st.sampled_from((24, 30.5)),
            }
        )
    )
    wound, plies = data.draw(st.integers(0, 2)), data.draw(st.integers(1, 3))
    answer = yc.answer(
        yc.plan_from_data(striped(stripes, plies=plies, wound_off=wound, fabric=fabric))
    )
    shown = piece_shown(answer)
    told = stripe_heights(answer, shown.fabric, shown.from_m)
    assert [name for name, _, _ in told] == [stripe["lot"] for stripe in stripes]
    assert [rows for _, _, rows in told] == pytest.approx(heights, abs=1e-5)


def test_counted_stitch_by_stitch_the_picture_has_the_rows_asked_for():
    """The lot under the middle of each stitch, row by row, as the scene of the picture has it."""
    answer = yc.answer(yc.plan_from_data(striped()))
    shown, along = piece_shown(answer), answer.layout.stretches
    assert shown.fabric.rows == 12
    starts = shown.from_m + shown.fabric.first_stitch * shown.fabric.stitch_m
    middles = [(low + high) / 2 for low, high in pairwise(starts)]
    lots = [int(along.lot[(along.edges_m <= metre).sum() - 1, 0]) for metre in middles]
    assert lots == [0] * 4 + [1] * 6 + [0] * 2
    words = knitted_piece(answer, size_px=(400, 300)).caption
    assert "12 rows" in words
    assert "gives" not in words


def test_stripes_that_do_not_come_to_the_piece_s_rows_are_told():
    fewer = dict(advised(striped(fabric=FABRIC | {"rows": 20})))["rows_of_stripes"]
    assert "12 rows" in fewer
    assert "20" in fewer
    assert "rows_of_stripes" not in dict(advised(striped(fabric=FABRIC | {"rows": 12})))


def test_a_stripe_shorter_than_two_staples_is_told():
    narrow = FABRIC | {"stitches": 3}
    rows = [(4, "Kelp"), (6, "Foam"), (1, "Rust"), (5, "Kelp")]
    stripes = [{"rows": high, "lot": lot} for high, lot in rows]
    told = dict(advised(striped(stripes, fabric=narrow)))
    assert told["short_stripes"].startswith("Stripe 3 is shorter than two staples")
    assert "short_stripes" not in dict(advised(striped()))


def test_every_row_says_its_stripe():
    text = yc.summary_text(yc.answer(yc.plan_from_data(striped(wound_off=0))))
    rows = [line for line in text.splitlines() if "stripe " in line]
    assert ["stripe 3, 2 rows" in rows[0], "stripe 1, 4 rows" in rows[2]] == [True, True]


def test_wound_once_more_every_piece_of_a_ply_keeps_its_stripe():
    spun = [{"ply": 1, "row": row} for row in (3, 2, 1)]
    plan = yc.plan_from_data(striped(wound_off=0) | {"spun": spun})
    wound = yc.wheel.wound_once_more(plan, 1)
    for one in (plan, wound):
        names = [portion["lot"] for portion in yc.to_dict(yc.answer(one))["singles"][0]["portions"]]
        assert names == ["Kelp", "Foam", "Kelp"]
    found = yc.to_dict(yc.answer(wound))
    assert found["singles"][0]["comes_off"] == "first spun first"
    assert found["shares"]["matched"] == pytest.approx(1)


@pytest.mark.parametrize(
    ("stripes", "lots"),
    [
        ([{"rows": 4, "lot": "Kelp"}], [("Kelp", 1), ("Kelp", 2), ("Kelp", 3)]),
        (
            [{"rows": 4, "lot": "Kelp"}, {"rows": 2, "lot": "Foam"}],
            [("Kelp", 1), ("Foam", 1), ("Kelp", 2), ("Foam", 2)],
        ),
    ],
)
def test_a_repeat_begins_where_the_list_of_stripes_does_also_of_one_alone(stripes, lots):
    found = laid(striped(stripes, repeat=True, fabric=FABRIC | {"rows": 12}), "lot", "repeat")
    assert found == [lots] * 2


def test_the_wingspan_of_a_striped_triangle_is_that_of_its_rows():
    shawl = {"kind": "triangle", "stitches": 5, "gauge_stitches": 20, "gauge_rows": 30}
    plain = by_hand(LOTS, fabric=shawl | {"rows": 12})
    found, same = (
        piece(yc.answer(yc.plan_from_data(data)).layout) for data in (striped(fabric=shawl), plain)
    )
    assert found.rows == 12
    assert found.wingspan_cm == pytest.approx(same.wingspan_cm)


def test_of_no_stripes_none_are_reckoned():
    plan = yc.plan_from_data(striped())
    yarn, bare = resolve(plan).yarn, replace(plan, scheme=replace(plan.scheme, stripes=()))
    assert stripes_of(bare, yarn, np.full(3, 60.0)) is None
    assert len(stripes_of(plan, yarn, np.full(3, 60.0)).rows) == 3


def test_what_a_piece_takes_exactly_suffices_for_it():
    """With a millionth less the last stripe goes, and Foam has nothing to bind off with."""
    plan = yc.plan_from_data(striped())
    yarn = resolve(plan).yarn
    whole = stripes_of(plan, yarn, np.full(3, 60.0))
    takes_g = np.zeros(3)
    np.add.at(takes_g, whole.lot, whole.mass_g)
    np.add.at(takes_g, whole.lot[0], whole.edge_g[0, 0])
    np.add.at(takes_g, whole.lot[-1], whole.edge_g[1, -1])
    counts = [stripes_of(plan, yarn, takes_g * share).count for share in (1.0, 1 - 1e-6)]
    assert counts == [3, 1]
