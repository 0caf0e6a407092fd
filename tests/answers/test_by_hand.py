"""Drawn plans of which something is spun, against a second telling with loops, to 1e-9."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers import by_hand_spun as told
from tests.helpers.spun import TARE_G, planned, spun_entries, with_bobbins
from tests.helpers.strategies import EVERY_SCHEME, by_hand, plan_data

NEAR = {"rel": 1e-9, "abs": 1e-9}


@st.composite
def on_bobbins(draw, entries: list[dict]) -> list[dict]:
    """Draw where a new bobbin is begun, the scale showing what it gained as before."""
    bobbin, before_g, now_g, entries = {}, {}, {}, [dict(one) for one in entries]
    for one in entries:
        ply = one["ply"]
        if ply in bobbin and draw(st.integers(0, 5)) == 0:
            one["bobbin"] = bobbin[ply] + 1
            now_g[ply] = TARE_G
        bobbin[ply] = one.get("bobbin", bobbin.get(ply, 1))
        if "gross_g" in one:
            gained_g = one["gross_g"] - before_g.get(ply, TARE_G)
            before_g[ply] = one["gross_g"]
            one["gross_g"] = now_g[ply] = round(now_g.get(ply, TARE_G) + gained_g, 2)
    return entries


def drawn(data: st.DataObject, scheme: str) -> tuple[dict, dict]:
    """Draw a plan's data with what was spun, and its answer without."""
    plan = with_bobbins(data.draw(plan_data(scheme)))
    found = planned(plan)
    entries = data.draw(on_bobbins(data.draw(spun_entries(found))))
    return plan | {"spun": entries or [{"ply": 1, "row": 1}]}, found


def told_of(plan: dict, found: dict) -> list[dict]:
    return [
        told.lying(plan, one["portions"], one["ply"], one["linear_density_tex"])
        for one in found["singles"]
    ]


@pytest.mark.parametrize("scheme", EVERY_SCHEME)
@given(st.data())
def test_what_lies_on_the_bobbins_is_what_loops_tell(scheme, data):
    plan, found = drawn(data, scheme)
    kept = 1 - plan["spinning"]["spin_loss"]
    now = yc.to_dict(yc.answer(yc.plan_from_data(plan)))
    for by_loops, single in zip(told_of(plan, found), now["singles"], strict=True):
        measured = [single["measured_tex"], single["spin_loss_found"]]
        expected = [by_loops["measured_tex"], by_loops["loss"]]
        assert [one is None for one in measured] == [one is None for one in expected]
        assert [one or 0.0 for one in measured] == pytest.approx(
            [one or 0.0 for one in expected], **NEAR
        )
        assert [one["row"] for one in single["left_out"]] == by_loops["left_out"]
        for piece, portion in zip(by_loops["pieces"], single["portions"], strict=True):
            assert (portion["row"], portion["lot"]) == (piece["row"], piece["lot"])
            assert portion["state"] == ("spun" if piece["spun"] else "to_spin")
            assert portion["mass_g"] == pytest.approx(piece["grams"], **NEAR)
            tex = piece["grams"] * kept * 1000 / piece["metres"]
            assert portion["linear_density_tex"] == pytest.approx(tex, **NEAR)
            length_m = portion["end_m"] - portion["start_m"]
            near_m = 1e-9 * (1 + single["length_m"])
            assert length_m == pytest.approx(piece["metres"], rel=1e-9, abs=near_m)


@pytest.mark.parametrize("scheme", [name for name in EVERY_SCHEME if name != "chain"])
@given(st.data())
def test_the_ways_to_go_on_are_what_loops_tell(scheme, data):
    plan, found = drawn(data, scheme)
    kept = 1 - plan["spinning"]["spin_loss"]
    plies = [
        told.Ply(single["portions"], by_loops, single["wound_off"], kept)
        for single, by_loops in zip(found["singles"], told_of(plan, found), strict=True)
    ]
    ways, base = told.ways(plies), [ply.pieces for ply in plies]
    for choice in yc.wheel.replan(yc.answer(yc.plan_from_data(plan))).choices:
        if choice.name not in ways:
            continue
        pieces = ways[choice.name]
        factors = [told.factor(*each) for each in zip(base, pieces, strict=True)]
        more_g, total_g = told.more_g(base, pieces), sum(lot["mass_g"] for lot in plan["lots"])
        if choice.possible == "grist":
            pieces = [told.by_grist(*each) for each in zip(plies, factors, strict=True)]
        whole_m = sum(sum(ply.p) for ply in plies)
        shift_m = max(ply.shift(own) for ply, own in zip(plies, pieces, strict=True))
        assert choice.shift_m == pytest.approx(shift_m, rel=1e-9, abs=1e-9 * (1 + whole_m))
        assert choice.as_planned == pytest.approx(told.as_planned(plies, pieces), **NEAR)
        assert choice.factors.tolist() == pytest.approx(
            [float("nan") if one is None else one for one in factors], nan_ok=True, **NEAR
        )
        for name, grams in zip(choice.laid.resolved.plan.names, choice.more_g, strict=True):
            near_g = 1e-8 * (1 + total_g)
            assert grams == pytest.approx(more_g.get(name, 0.0), rel=1e-9, abs=near_g)


def test_what_is_there_to_a_hair_is_not_missing():
    """What three rows lack lies in the drawer, whatever the grams: it can be made up."""
    lacking = [{"ply": k, "row": 1, "mass_g": 0.5} for k in (1, 2, 3)]
    spinning = {"single_tex": [100.0, 107.0, 114.0]}
    for hundredths in range(700, 900, 3):
        lots = {"Kelp": hundredths / 100, "Foam": 7.77, "Dune": 9.13}
        plan = by_hand(lots, scheme={"plies": 3}, spinning=spinning, spun=lacking)
        choice = yc.wheel.replan(yc.answer(yc.plan_from_data(plan))).named("make_up")
        assert (choice.possible, choice.missing_g.any()) == ("grams", False)
