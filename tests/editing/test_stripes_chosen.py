"""Stripes chosen and typed on a bench: what a plan brings along, and what it asks for."""

import pytest

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.editing.lot_rows import with_lots
from yarncolor.editing.option_text import format_option, format_value, parse_option
from yarncolor.plan import Stripe
from yarncolor.plan.reference import KEYS

FABRIC = {"stitches": 60, "gauge_stitches": 20, "gauge_rows": 28}
LOTS = {"Kelp": 40.0, "Foam": 20.0, "Rust": 20.0}
STRIPES = KEYS["scheme", "stripes"]


def plan_of(scheme: dict | None = None, **tables) -> object:
    return yc.plan_from_data(by_hand(LOTS, scheme=scheme or {}, **{"fabric": FABRIC, **tables}))


def test_stripes_begin_as_the_order_lay_each_as_high_as_its_fibre_gives():
    plan = yc.variant(plan_of({"plies": 2}), "stripes")
    kelp, foam, rust = plan.scheme.stripes
    assert [one.lot for one in (kelp, foam, rust)] == ["Kelp", "Foam", "Rust"]
    assert kelp.rows > foam.rows == rust.rows > 1
    found = yc.to_dict(yc.answer(plan))
    assert found["missing"] == []
    assert plan.scheme.sequence is None


def test_a_free_plan_begins_with_the_portions_of_the_stripes():
    plan = yc.variant(plan_of({"plies": 2}), "stripes")
    free = yc.variant(plan, "free")
    one, other = (yc.to_dict(yc.answer(each))["stretches"] for each in (plan, free))
    assert [row["lots"] for row in one] == [row["lots"] for row in other]
    assert free.scheme.stripes == ()


def test_without_a_fabric_stripes_ask_for_what_they_lack():
    with pytest.raises(yc.PlanError, match="stripes need a knitted piece") as refused:
        yc.variant(plan_of(fabric={}), "stripes")
    assert "stripes fall on their rows" in str(refused.value)


def test_lots_of_the_plies_are_cut_and_filled_with_the_plies():
    scheme = {"name": "stripes", "plies": 2, "stripes": [{"rows": 4, "lots": ["Kelp", "Foam"]}]}
    assert yc.variant(plan_of(scheme), plies=3).scheme.stripes[0].lots == ("Kelp", "Foam", "Foam")
    assert yc.variant(plan_of(scheme), plies=1).scheme.stripes[0].lots == ("Kelp",)


@pytest.mark.parametrize("lot", ["Kelp", "Kelp, blue", "Kelp + Foam", "海苔", 'a "b"'])
def test_what_is_written_of_a_stripe_is_read_back(lot):
    for stripe in ({"rows": 6, "lot": lot}, {"rows": 6, "lots": ["Kelp", "Foam"]}):
        text = "\n".join([format_value(STRIPES, [stripe])] * 2)
        assert parse_option(STRIPES, text) == [stripe, stripe]


def test_a_plan_s_stripes_stand_in_their_field_one_a_line():
    stripes = [{"rows": 4, "lot": "Kelp"}, {"rows": 2, "lots": ["Foam", "Rust"]}]
    plan = plan_of({"name": "stripes", "plies": 2, "stripes": stripes})
    assert format_option(plan, STRIPES) == "4, Kelp\n2, Foam + Rust"
    assert plan.scheme.stripes == (Stripe(4, "Kelp"), Stripe(2, lots=("Foam", "Rust")))


def test_lots_of_stripes_are_renamed_with_their_lots():
    named = {"Kelp": "Wrack"}
    assert with_lots({"rows": 4, "lot": "Kelp"}, named) == {"rows": 4, "lot": "Wrack"}
    both = {"rows": 4, "lots": ["Foam", "Kelp"]}
    assert with_lots(both, named) == {"rows": 4, "lots": ["Foam", "Wrack"]}


def test_a_plan_of_stripes_is_saved_and_read_again(tmp_path):
    stripes = [{"rows": 4, "lot": "Kelp"}, {"rows": 2, "lots": ["Foam", "Rust"]}]
    scheme = {"name": "stripes", "plies": 2, "stripes": stripes, "repeat": True}
    plan = plan_of(scheme, fabric=FABRIC | {"rows": 20})
    yc.save_plan(plan, tmp_path / "plan.toml")
    text = (tmp_path / "plan.toml").read_text("utf-8")
    assert "repeat = true" in text
    again = yc.read_plan(tmp_path / "plan.toml")
    assert again.scheme == plan.scheme


def test_a_miniature_of_stripes_is_refused_with_a_way_out():
    plan = plan_of({"name": "stripes", "stripes": [{"rows": 4, "lot": "Kelp"}]})
    with pytest.raises(yc.PlanError, match="cast on fewer stitches"):
        yc.miniature(plan)
    assert yc.for_the_piece(plan) == plan
