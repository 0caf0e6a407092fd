"""Rescues of whole plans: grams, the table of them as data, what is offered and when."""

import json
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.spun_plans import spun_plans
from tests.helpers.strategies import by_hand
from yarncolor.answers.rescues import rescued_yarns, run_out
from yarncolor.report.rescue_hands import hands_lines
from yarncolor.report.rescues import rescue_dict, rescues_image
from yarncolor.report.rescues_text import rescues_text, stands_text

PLAN = by_hand(
    {"Kelp": 36.0, "Foam": 36.0, "Dune": 9.0},
    scheme={"plies": 3, "sequence": ["Kelp", "Foam"]},
    spinning={"single_tex": 100.0},
    plying={"contraction": 0.1, "twist_tpm": 120.0},
)
"""On each of three plies 120 m of Kelp, then of Foam; 9 g of Dune are never spun."""


def ran_out(at_m: float = 180.0, **tables: dict):
    """Return the plan of which ply 2 ran out: after 180 m, 40 m of Kelp are left on either side."""
    data = PLAN | {"plied": {"ended_ply": 2, "at_m": at_m}} | tables
    return yc.answer(yc.plan_from_data(data))


def by_kind(found) -> dict:
    return {one.kind: rescue_dict(found, one) for one in rescued_yarns(found)}


def test_every_rescue_of_a_three_ply_reckoned_by_hand():
    """Straight from the bobbin the Foam comes first, the Kelp last; all that is left is Kelp."""
    found = by_kind(ran_out())
    extra_m = {kind: one["extra_m"] for kind, one in found.items()}
    assert extra_m == {
        "fold": pytest.approx(18),
        "halves": pytest.approx(18),
        "top_up": pytest.approx(36),
        "chain": pytest.approx(12),
        "fewer_plies": pytest.approx(36),
        "both_ends": pytest.approx(18),
        "keep": 0.0,
    }
    fold = found["fold"]
    assert fold["stretches"] == [{"start_m": 0.0, "end_m": pytest.approx(18), "lots": ["Kelp"] * 3}]
    assert (fold["plies"], fold["splices"], fold["same_colour_at_splice"]) == (3, 1, True)
    assert fold["left_over"] == [{"ply": 3, "lot": "Kelp", "mass_g": pytest.approx(2)}]
    assert found["top_up"]["needs_g"] == [{"lot": "Dune", "mass_g": pytest.approx(4)}]
    assert found["top_up"]["same_colour_at_splice"] is False
    assert found["keep"]["stretches"] == []
    assert found["keep"]["left_over"] == [
        {"ply": ply, "lot": "Kelp", "mass_g": pytest.approx(4)} for ply in (1, 3)
    ]
    assert {one["same_colour_at_splice"] for one in found.values()} == {True, False, None}


def test_a_rescue_of_fewer_plies_is_thinner_and_wants_more_twist():
    """Two of three strands; at the same angle twist goes with one over the ring's radius.

    The ring of three touching strands of radius r has the radius 2r / √3, that of two r.
    """
    found = by_kind(ran_out())["fewer_plies"]
    assert found["linear_density_tex"] == pytest.approx(200 / 0.9)
    assert found["ply_twist_tpm"] == pytest.approx(120 * 2 / np.sqrt(3), rel=1e-3)
    told = hands_lines(ran_out(), rescued_yarns(ran_out())[4])
    assert told[2].startswith("This yarn is thinner: about 450 m in 100 g")


def test_a_rescue_keeps_the_twist_of_the_singles_it_is_made_of():
    """Ply 2 ran out: 1 and 3 are left."""
    spinning = {"single_tex": 100.0, "twist_tpm": [300.0, 400.0, 500.0]}
    found = {one.kind: one.yarn for one in rescued_yarns(ran_out(spinning=spinning))}
    assert found["fewer_plies"].twist_tpm.tolist() == [300, 500]
    assert found["fold"].twist_tpm.tolist() == [300, 400, 500]


def test_nothing_is_offered_for_a_two_hundredth_of_the_yarn():
    assert rescued_yarns(ran_out(215.5)) == ()
    assert rescued_yarns(ran_out(214.0))
    assert rescued_yarns(yc.answer(yc.plan_from_data(PLAN))) == ()
    assert stands_text(ran_out(215.5), ()) == (
        "The plies run out together: hardly anything stays on a bobbin."
    )


def test_one_single_has_nothing_to_be_rescued_from():
    chain = PLAN | {"scheme": {"name": "chain"}, "plied": {"ended_ply": 1, "at_m": 150.0}}
    assert rescued_yarns(yc.answer(yc.plan_from_data(chain))) == ()


def test_it_is_offered_before_plying_where_something_will_be_left():
    """Ply 1 came out 30 m longer; wound off, its last colour is that which was spun last."""
    spun = [{"ply": 1, "through": 1}, {"ply": 1, "row": 2, "length_m": 150.0}]
    plying = PLAN["plying"] | {"wound_off": 1}
    found = yc.answer(yc.plan_from_data(PLAN | {"spun": spun, "plying": plying}))
    kinds = [
        one["kind"]
        for one in json.loads(json.dumps(yc.wheel.numbers(yc.wheel.replan(found))))["rescues"]
    ]
    assert kinds[-1] == "keep"
    assert {"chain", "both_ends"} <= set(kinds)
    assert stands_text(found, rescued_yarns(found)) == (
        "As it is now, ply 2 and ply 3 run out first, after 216 m of yarn. "
        "Left then: 30 m of ply 1."
    )


@given(spun_plans("fractal"))
def test_whatever_was_spun_the_grams_left_are_those_that_the_plan_leaves(data):
    """To keep what is left leaves on the bobbins what the plan's own leftovers say."""
    found = yc.answer(yc.plan_from_data(data))
    yarns = rescued_yarns(found)
    if yarns:
        left_g = sum(one.mass_g for one in found.leftovers if one.on_bobbin)
        assert sum(part.mass_g for part in yarns[-1].over) == pytest.approx(left_g, rel=1e-6)
        text = rescues_text(found, yarns)
        assert "nan" not in text
        assert "{" not in text


def test_the_picture_shows_each_rescue_at_its_length_beside_the_yarn():
    """The longest fills the right part; a rescue half as long fills half of that."""
    found = ran_out()
    yarns = rescued_yarns(found)
    pixels = np.asarray(rescues_image(found, yarns, 1000))
    kelp = [int("56612d"[at : at + 2], 16) for at in (0, 2, 4)]
    is_kelp = (pixels == kelp).all(axis=2)
    left_px = 8 + round(984 * 0.35) - 5
    right = is_kelp[:, left_px + 10 :].sum(axis=1)
    bars = {int(count) for count in right if count > 150}
    whole = max(bars)
    assert whole == pytest.approx(984 - (left_px - 8) - 10, abs=2)
    assert any(count == pytest.approx(whole / 2, abs=3) for count in bars)
    assert any(count == pytest.approx(whole / 3, abs=3) for count in bars)


def test_plies_that_lose_each_their_own_length_are_all_accounted_for():
    """A thick ply among thin ones, twists known: to keep leaves what the plan's leftovers say."""
    spinning = {"single_tex": [100.0, 100.0, 220.0], "twist_tpm": [500.0, 400.0, 300.0]}
    plying = {"twist_tpm": 220.0}
    found = ran_out(150.0, spinning=spinning, plying=plying)
    assert np.ptp(found.resolved.yarn.contractions) > 0
    assert found.layout.stretches.yarn_m == pytest.approx(150.0)
    lost = found.resolved.yarn.contractions[1]
    assert found.layout.portions.single_m[1] == pytest.approx(150 / (1 - lost))
    yarns = rescued_yarns(found)
    left_g = sum(one.mass_g for one in found.leftovers if one.on_bobbin)
    assert sum(part.mass_g for part in yarns[-1].over) == pytest.approx(left_g)
    single_m = found.layout.portions.single_m
    used_m = 150 / (1 - found.resolved.yarn.contractions)
    assert yarns[0].left_m == pytest.approx(single_m - used_m, abs=1e-6)


def ended_or_refused(data: dict, ply: int, at_m: float):
    """Return the answer to a plan of which a single ended, or None and the places of its faults."""
    try:
        plan = yc.plan_from_data(data | {"plied": {"ended_ply": ply, "at_m": at_m}})
    except yc.PlanError as error:
        return None, [fault.path[:2] for fault in error.faults]
    return yc.answer(plan), []


@given(spun_plans("fractal"), st.data())
def test_whatever_lies_on_the_bobbins_an_end_is_refused_or_brings_all_into_line(data, draw):
    """The yarn ends there; measured pieces keep their metres; no single is too short for it."""
    before = yc.answer(yc.plan_from_data(data))
    plies = len(before.resolved.tex)
    ply = draw.draw(st.integers(1, plies))
    at_m = before.layout.stretches.yarn_m * draw.draw(st.sampled_from((0.3, 0.8, 1.0, 1.2, 2.0)))
    found, refused = ended_or_refused(data, ply, round(at_m, 6))
    if found is None:
        assert refused == [("plied", "at_m")]
        return
    laid = found.layout
    assert laid.stretches.yarn_m == pytest.approx(at_m, rel=1e-5)
    assert (laid.portions.single_m >= laid.single_used_m * (1 - 1e-9)).all()
    kept = laid.wheel.is_measured & ~np.isin(laid.portions.ply, laid.ended.also)
    then = {(piece.ply, piece.row): piece.length_m for piece in found.plan.spun if piece.length_m}
    for at in np.flatnonzero(kept & (laid.row > 0)):
        key = int(laid.portions.ply[at]) + 1, int(laid.row[at])
        assert laid.portions.length_m[at] == pytest.approx(then[key])
    yarns = rescued_yarns(found)
    if yarns:
        left_g = sum(one.mass_g for one in found.leftovers if one.on_bobbin)
        assert sum(part.mass_g for part in yarns[-1].over) == pytest.approx(left_g, rel=1e-6)


def test_what_the_scale_cannot_show_is_said_to_be_less_than_it_shows():
    """To spin 0.4 g of Dune on whole grams is no 0 g; half a gram left over is no 0 g either."""
    lots = [*PLAN["lots"][:2], PLAN["lots"][2] | {"mass_g": 0.4}]
    found = ran_out(lots=lots, scale={"step_g": 1.0})
    (top_up,) = (one for one in rescued_yarns(found) if one.kind == "top_up")
    assert hands_lines(found, top_up)[0].startswith("Spin less than 1 g of Dune for ply 2, 4.0 m")
    assert not re.search(r"\b0 g of", rescues_text(found, rescued_yarns(found)))
    half = ran_out(at_m=211.5, scale={"step_g": 1.0})
    assert not re.search(r"\b0 g of", rescues_text(half, rescued_yarns(half)))


def test_more_of_a_ply_is_spun_as_thick_as_it_was_measured():
    """Pieces of 5 g in 40 m are 125 tex, whatever was planned."""
    rows = [{"ply": 1, "row": row, "mass_g": 5.0, "length_m": 40.0} for row in range(1, 9)]
    data = by_hand(
        {"Kelp": 40.0, "Foam": 40.0},
        scheme={"name": "fractal", "divisions": [4, 1]},
        spun=[*rows, {"ply": 2, "through": 2}],
    )
    out = run_out(yc.answer(yc.plan_from_data(data)).layout)
    assert out.tex.tolist() == pytest.approx([125.0, 100.0])
