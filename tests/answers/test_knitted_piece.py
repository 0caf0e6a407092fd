"""What a knitted piece takes and gives, and the way back from it to grams of each lot.

A stitch takes l = √(21.6 / S) cm of yarn, S stitches in a cm²; cast-on
and bind-off take three widths each. Rows are summed here one by one.
"""

from math import floor, pi, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.strategies import DIVIDING, answered, by_hand, plan_data
from yarncolor.answers.knitted_piece import piece
from yarncolor.editing.variants import for_the_piece, miniature
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve

LOTS = {"Kelp": 60.0, "Foam": 60.0, "Wrack": 60.0}


def loop_m(stitches: float, rows: float) -> float:
    return sqrt(21.6 / (stitches * rows / 100)) / 100


def row_by_row(fabric: dict, loop: float, rows: int) -> float:
    """Return metres of so many rows and both edges, summed one by one."""
    grows = fabric.get("increases_per_row", 2) if fabric.get("kind") == "triangle" else 0
    stitches = [fabric["stitches"] + grows * row for row in range(rows)]
    widths = [stitches[0], stitches[-1]]
    return sum(stitches) * loop + sum(3 * 0.1 * wide / fabric["gauge_stitches"] for wide in widths)


def knitted(fabric: dict, **tables: dict) -> dict:
    return answered(by_hand(LOTS, fabric=fabric, **tables))["fabric"]


# --- how much a piece takes ------------------------------------------------------------------

HAND = {"stitches": 20, "rows": 28, "gauge_stitches": 20.0, "gauge_rows": 28.0}


@pytest.mark.parametrize("kind", [{}, {"kind": "flat"}, {"kind": "round"}])
def test_10_by_10_cm_take_11_m_and_their_edges(kind):
    """Wet relaxed wool, Ks = 21.6 (Munden 1959, as lecture slides print it): l = 1.964 cm, 11 m;
    the edges are six widths of 10 cm."""
    found = knitted(HAND | kind)
    assert found["loop_length_mm"] == pytest.approx(19.64, abs=0.005)
    assert found["needs_m"] - 0.6 == pytest.approx(11.00, abs=0.005)
    assert (found["width_cm"], found["height_cm"]) == pytest.approx((10, 10))
    assert found["row_m"] == pytest.approx(20 * 0.01964, rel=1e-4)
    assert (found["loop_source"], found["band"]) == ("derived", 0.15)
    assert found["kind"] == kind.get("kind", "flat")


@pytest.mark.parametrize(("stitches", "rows"), [(28, 40), (22, 30), (18, 25), (14, 20)], ids=str)
def test_a_whole_piece_is_its_rows_one_by_one(stitches, rows):
    fabric = {
        "stitches": 57,
        "rows": 123,
        "gauge_stitches": float(stitches),
        "gauge_rows": float(rows),
    }
    found = knitted(fabric)
    assert found["needs_m"] == pytest.approx(row_by_row(fabric, loop_m(stitches, rows), 123))
    assert found["width_cm"] == pytest.approx(570 / stitches)
    assert found["height_cm"] == pytest.approx(1230 / rows)


def test_rows_that_were_not_counted_are_1_3_to_a_stitch():
    found = knitted({"stitches": 40, "rows": 50, "gauge_stitches": 20.0})
    assert found["gauge_rows"] == pytest.approx(26)
    assert found["loop_length_mm"] == pytest.approx(1000 * loop_m(20, 26))


@pytest.mark.parametrize("grows", [None, 0.01, 0.5, 1.0, 2.0, 4.0, 20.0])
@pytest.mark.parametrize("rows", [1, 2, 3, 50])
def test_a_triangle_is_its_growing_rows_one_by_one(grows, rows):
    own = {} if grows is None else {"increases_per_row": grows}
    fabric = HAND | {"kind": "triangle", "stitches": 5, "rows": rows} | own
    found = knitted(fabric)
    assert found["needs_m"] == pytest.approx(row_by_row(fabric, loop_m(20, 28), rows))
    last = 5 + (2 if grows is None else grows) * (rows - 1)
    assert found["width_cm"] == pytest.approx(floor(last) / 2)


def test_rows_of_a_triangle_by_hand():
    """3 + 5 + 7 stitches of 1.964 cm; cast on 3, bind off 7, three widths of 5 mm each."""
    found = knitted(HAND | {"kind": "triangle", "stitches": 3, "rows": 3})
    assert found["needs_m"] == pytest.approx(15 * 0.0196396 + 10 * 0.015, rel=1e-5)


@pytest.mark.parametrize("rows", [None, 40])
def test_a_weighed_swatch_counts_before_the_formula(rows):
    """30 by 40 stitches of 6 g at 300 tex are 20 m: 1.667 cm in a stitch."""
    fabric = HAND | {"swatch": {"stitches": 30, "rows": 40, "mass_g": 6.0}}
    fabric = {key: value for key, value in fabric.items() if key != "rows"}
    found = knitted(fabric | ({"rows": rows} if rows else {}))
    assert found["loop_length_mm"] == pytest.approx(50 / 3)
    assert (found["loop_source"], found["band"]) == ("measured", 0.03)
    if rows:
        assert found["needs_m"] == pytest.approx(20 * 40 / 60 + 0.6)


def test_a_swatch_of_washed_yarn_is_weighed_washed():
    """A tenth of the length is lost: 330 tex are 366.7; 6 g are 16.36 m."""
    fabric = HAND | {"swatch": {"stitches": 30, "rows": 40, "mass_g": 6.0}}
    found = knitted(fabric | {"finishing_shrinkage": 0.1}, spinning={"single_tex": 110.0})
    assert found["loop_length_mm"] == pytest.approx(6 / (330 / 0.9) * 1e6 / 1200)


def test_the_tightness_factor_is_the_root_of_tex_over_the_loop():
    """√497.1 tex over 1.964 cm: 11.35, by hand."""
    found = knitted(HAND, spinning={"yarn_m_per_100g": 1e5 / 497.1})
    assert found["tightness_factor"] == pytest.approx(11.35, abs=0.005)


def test_what_is_needed_as_plied_is_more_by_rest_and_wash():
    found = knitted(HAND | {"finishing_shrinkage": 0.08}, plying={"resting_shrinkage": 0.04})
    assert found["needs_plied_m"] == pytest.approx(found["needs_m"] / 0.92 / 0.96)
    assert found["has_m"] == pytest.approx(600 * 0.92 * 0.96)


@pytest.mark.parametrize("fabric", [{}, {"finishing_shrinkage": 0.08}])
def test_a_plan_that_speaks_of_no_piece_has_none(fabric):
    found = answered(by_hand(LOTS, fabric=fabric))
    assert found["fabric"] is None
    assert found["yarn"]["finished_length_m"] == (pytest.approx(552) if fabric else None)


def test_without_rows_only_what_is_possible_is_said():
    fabric = {key: value for key, value in HAND.items() if key != "rows"}
    found = knitted(fabric)
    for key in ("rows", "needs_m", "needs_plied_m", "height_cm", "lots"):
        assert found[key] is None
    assert found["rows_possible"] > 0


# --- what it gives ---------------------------------------------------------------------------

fabrics = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(("flat", "round", "triangle")),
        "stitches": st.integers(1, 400),
        "gauge_stitches": st.floats(6, 30),
        "gauge_rows": st.floats(8, 45),
        "finishing_shrinkage": st.floats(0, 0.2),
        "increases_per_row": st.sampled_from((0.01, 0.3, 0.5, 1.0, 2.0, 7.0, 20.0)),
    }
)


@times(2.5)
@given(fabrics, st.floats(0.5, 60))
def test_the_rows_that_are_possible_are_the_most_that_the_yarn_gives(fabric, grams):
    """One row more would take more than there is."""
    spinning = {"single_tex": 60.0}
    plan = yc.plan_from_data(by_hand({"Kelp": grams}, fabric=fabric, spinning=spinning))
    found = piece(layout(resolve(plan)))
    loop = loop_m(fabric["gauge_stitches"], fabric["gauge_rows"])
    rows = found.rows_possible
    assume(rows < 20_000)
    has = found.has_m
    if rows:
        assert row_by_row(fabric, loop, rows) <= has * (1 + 1e-9)
    assert row_by_row(fabric, loop, rows + 1) > has * (1 - 1e-9)


def test_a_yarn_that_is_too_short_for_its_edges_gives_no_row():
    fabric = HAND | {"stitches": 4000, "gauge_stitches": 20.0}
    found = answered(by_hand({"Kelp": 9.0}, fabric=fabric))["fabric"]
    assert found["rows_possible"] == 0


def test_just_enough_is_enough():
    """The plan is scaled to what 28 rows take: those are possible, and no more."""
    plan = for_the_piece(yc.plan_from_data(by_hand(LOTS, fabric=HAND)))
    found = piece(layout(resolve(plan)))
    assert found.rows_possible == 28
    assert found.has_m == pytest.approx(found.needs_m)


# --- from the piece back to the lots ---------------------------------------------------------


def test_the_weigh_out_chain_by_hand():
    """400 m of R 300 tex/3, 8 % shrinkage, 2 % lost in plying, 7 % waste: 43.01 g for each ply."""
    data = by_hand(
        LOTS,
        spinning={"yarn_m_per_100g": 1e5 / 300, "spin_loss": 0.07},
        plying={"contraction": 0.02},
        fabric={"finishing_shrinkage": 0.08},
        target={"yarn_m": 400 / 0.92},
    )
    found = answered(data)
    yarn = found["yarn"]
    assert yarn["finished_length_m"] == pytest.approx(400)
    assert yarn["length_m"] == pytest.approx(434.78, abs=0.005)
    assert yarn["mass_g"] == pytest.approx(120.00, abs=0.005)
    for single in found["singles"]:
        assert single["length_m"] == pytest.approx(443.66, abs=0.005)
        assert single["linear_density_tex"] == pytest.approx(90.16, abs=0.005)
        assert single["mass_g"] == pytest.approx(43.01, abs=0.005)
    assert sum(single["mass_g"] for single in found["singles"]) == pytest.approx(129.03, abs=0.005)


CHAINED = {
    "spinning": {"yarn_m_per_100g": 1e5 / 300, "spin_loss": 0.07, "card_loss": 0.05},
    "plying": {"contraction": 0.02, "resting_shrinkage": 0.03},
    "fabric": HAND | {"stitches": 100, "rows": 200, "finishing_shrinkage": 0.08},
}


def test_the_grams_to_card_go_back_through_every_loss():
    """Finished metres · 300 tex are grams of yarn; 7 % are lost in spinning, 5 % in carding."""
    data = by_hand({"Kelp": 90.0, "Foam": 60.0, "Wrack": 30.0}, **CHAINED)
    found = answered(data)["fabric"]
    needs = row_by_row(data["fabric"], loop_m(20, 28), 200)
    card_g = needs * 0.3 / 0.93 / 0.95
    assert found["needs_plied_m"] == pytest.approx(needs / 0.92 / 0.97)
    assert found["lots"] == [
        {"lot": name, "to_card_g": pytest.approx(card_g * share)}
        for name, share in (("Kelp", 1 / 2), ("Foam", 1 / 3), ("Wrack", 1 / 6))
    ]


def test_the_plan_for_the_piece_uses_just_those_grams():
    data = by_hand({"Kelp": 900.0, "Foam": 600.0, "Wrack": 300.0}, **CHAINED)
    needed = answered(data)["fabric"]
    found = yc.to_dict(yc.answer(for_the_piece(yc.plan_from_data(data))))
    assert [lot["used_g"] for lot in found["lots"]] == pytest.approx(
        [row["to_card_g"] for row in needed["lots"]]
    )
    assert found["yarn"]["finished_length_m"] == pytest.approx(needed["needs_m"])
    assert found["missing"] == []
    assert found["fabric"]["rows_possible"] == 200


@pytest.mark.parametrize("target", [{"yarn_m": 5.0}, {"yarn_g": 900.0}])
def test_a_target_of_the_plan_does_not_bind_the_piece(target):
    plain = yc.plan_from_data(by_hand(LOTS, **CHAINED))
    bound = yc.plan_from_data(by_hand(LOTS, target=target, **CHAINED))
    assert for_the_piece(bound) == for_the_piece(plain)


@pytest.mark.parametrize(
    "fabric", [{}, {"finishing_shrinkage": 0.1}, {"stitches": 60, "gauge_stitches": 20.0}]
)
def test_a_plan_that_does_not_say_how_much_is_knitted_cannot_be_made_for_it(fabric):
    plan = yc.plan_from_data(by_hand(LOTS, fabric=fabric))
    with pytest.raises(yc.PlanError) as raised:
        for_the_piece(plan)
    assert str(raised.value) == (
        "fabric: say what is to be knitted: how wide or how many stitches, and how many rows"
    )


# --- a miniature -----------------------------------------------------------------------------


@pytest.mark.parametrize("scheme", [name for name in DIVIDING if name != "chain"])
@times(1 / 2)
@given(st.data())
def test_a_miniature_is_the_same_yarn_of_10_g(scheme, data):
    """A chain's loops stay as long as they are, so that its pattern is another."""
    drawn = data.draw(plan_data(scheme))
    drawn.pop("target", None)
    whole = answered(drawn)
    assume(whole["yarn"]["mass_g"] > 10)
    small = yc.to_dict(yc.answer(miniature(yc.plan_from_data(drawn))))
    assert small["yarn"]["mass_g"] == pytest.approx(10)
    part = 10 / whole["yarn"]["mass_g"]
    for one, other in zip(whole["singles"], small["singles"], strict=True):
        assert [row["mass_g"] for row in other["portions"]] == pytest.approx(
            [row["mass_g"] * part for row in one["portions"]]
        )
    assert [row["lots"] for row in small["stretches"]] == [
        row["lots"] for row in whole["stretches"]
    ]
    for key in ("end_m", "start_m"):
        assert [row[key] for row in small["stretches"]] == pytest.approx(
            [row[key] * part for row in whole["stretches"]], abs=4e-9 * whole["yarn"]["length_m"]
        )
    assert small["yarn"]["wpi"] == pytest.approx(whole["yarn"]["wpi"])


def test_a_miniature_may_be_of_any_size():
    plan = miniature(yc.plan_from_data(by_hand(LOTS, plying={"contraction": 0.1})), 25.0)
    found = yc.to_dict(yc.answer(plan))
    assert found["yarn"]["mass_g"] == pytest.approx(25)
    assert [single["mass_g"] for single in found["singles"]] == pytest.approx([25 / 3] * 3)


# --- what charts call it ---------------------------------------------------------------------


def class_of(tex: float, density: float = 0.16, **fabric: float) -> dict:
    spinning = {"single_tex": tex / 3, "relaxed_density_g_per_cm3": density}
    data = by_hand(LOTS, spinning=spinning, fabric=fabric)
    return answered(data)["yarn"]["weight_class"]


def test_charts_that_do_not_agree_say_between():
    """500 tex: 200 m in 100 g, 12.7 wraps: fine or light by wraps, light or medium by metres."""
    assert 25.4 / sqrt(4 * 500 / (pi * 160)) == pytest.approx(12.73, abs=0.01)
    assert class_of(500.0) == {
        "name": "between light and medium",
        "agreed": False,
        "by": {"wraps": ["fine", "light"], "metres": ["light"], "other metres": ["medium"]},
    }


def test_charts_that_agree_name_one():
    """950 tex: 105 m in 100 g; at 0.14 g/cm³ 8.6 wraps, at 0.16 9.2. 13 stitches are bulky."""
    assert class_of(950.0, 0.14, stitches=40, gauge_stitches=13.0) == {
        "name": "bulky",
        "agreed": True,
        "by": {
            "gauge": ["bulky"],
            "wraps": ["bulky"],
            "metres": ["bulky"],
            "other metres": ["bulky"],
        },
    }
    assert class_of(950.0)["name"] == "between medium and bulky"
    assert class_of(950.0)["agreed"] is False


def test_a_yarn_is_called_what_it_is_when_it_is_washed():
    """400 tex and a fifth of the length lost are 500 tex."""
    assert class_of(400.0, finishing_shrinkage=0.2) == class_of(500.0)
