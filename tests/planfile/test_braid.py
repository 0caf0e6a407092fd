"""A braid makes lots and an order: it is the plan that could be written out by hand."""

import copy

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.examples import times
from tests.helpers.paths import ROOT
from yarncolor.answers.answer import Answer
from yarncolor.plan import to_data
from yarncolor.planfile.read import plan_from_text
from yarncolor.planfile.save import merged_text

RIPPLE = (ROOT / "sample_data" / "ripple.toml").read_text(encoding="utf-8")
KINDS = ("matched", "staggered", "fractal", "flipped", "gradient", "stepped", "mirrored", "chain")
BRAIDED = {
    "braid": {
        "mass_g": 100.0,
        "segments": [
            {"name": "Ebb", "colour": "#1f4a63", "length_cm": 40.0},
            {"name": "Sand", "colour": "#b89f7b", "length_cm": 25.0},
            {"name": "Ebb", "length_cm": 15.0},
            {"name": "Thrift", "lab": [60.0, 30.0, 0.0], "length_cm": 20.0},
        ],
    }
}


def written_out(data: dict) -> dict:
    """Return the plan that hands would write: lots by their lengths, and the order."""
    data = copy.deepcopy(data)
    braid = data.pop("braid")
    whole = sum(one["length_cm"] for one in braid["segments"])
    lots: dict[str, dict] = {}
    for one in braid["segments"]:
        lot = lots.setdefault(one["name"], {"mass_g": 0.0, "preparation": "top"})
        lot |= {key: one[key] for key in ("name", "colour", "lab") if key in one}
        lot["mass_g"] += one["length_cm"]
    for lot in lots.values():
        lot["mass_g"] = braid["mass_g"] * lot["mass_g"] / whole
    turns = braid.get("repeats", 1)
    order = {
        "sequence": [one["name"] for one in braid["segments"]] * turns,
        "parts": [one["length_cm"] for one in braid["segments"]] * turns,
    }
    data["lots"] = [*data.get("lots", []), *lots.values()]
    return data | {"scheme": data.get("scheme", {}) | order}


def answered(data: dict) -> Answer:
    return yc.answer(yc.plan_from_data(data))


def told(**braid) -> list[str]:
    with pytest.raises(yc.PlanError) as caught:
        yc.plan_from_data({"braid": BRAIDED["braid"] | braid})
    return [str(fault) for fault in caught.value.faults]


@st.composite
def braids(draw) -> dict:
    names = draw(
        st.lists(st.sampled_from(["Ebb", "Sand", "Kelp", "Thrift"]), min_size=1, max_size=6)
    )
    colours = {name: f"#{draw(st.integers(0, 0xFFFFFF)):06x}" for name in dict.fromkeys(names)}
    segments = [
        {"name": name, "colour": colours[name], "length_cm": draw(st.floats(1, 90))}
        for name in names
    ]
    braid = {"mass_g": draw(st.floats(20, 200)), "segments": segments}
    if draw(st.booleans()):
        braid["repeats"] = draw(st.integers(1, 4))
    return braid


@times(3)
@given(braids(), st.sampled_from(KINDS), st.integers(1, 3))
def test_a_braid_is_the_plan_written_out_by_hand(braid, scheme, copies):
    data = {"braid": braid, "scheme": {"name": scheme, "copies": copies}}
    found, by_hand = answered(data), answered(written_out(data))
    for key in ("ply", "place", "repeat", "copy", "lot", "mass_g", "length_m"):
        mine, other = (getattr(one.layout.portions, key) for one in (found, by_hand))
        np.testing.assert_allclose(mine, other, rtol=1e-12)
    np.testing.assert_array_equal(found.layout.stretches.lot, by_hand.layout.stretches.lot)
    np.testing.assert_allclose(
        found.layout.stretches.edges_m, by_hand.layout.stretches.edges_m, rtol=1e-9
    )


def test_in_plan_json_only_what_is_weighed_differs():
    scheme = {"scheme": {"name": "fractal", "divisions": [1, 2, 4]}, "scale": {"step_g": 0.1}}
    braided = BRAIDED | scheme
    mine, other = (yc.to_dict(answered(data)) for data in (braided, written_out(braided)))
    for single, by_hand in zip(mine.pop("singles"), other.pop("singles"), strict=True):
        for row, weighed in zip(single["portions"], by_hand["portions"], strict=True):
            for key in ("weigh_g", "words", "running_g", "on_bobbin_g"):
                row.pop(key, None), weighed.pop(key, None)
            assert row == pytest.approx(weighed)
    assert mine["lots"] == other["lots"]
    assert mine["stretches"] == other["stretches"]
    assert mine["sequence"] == other["sequence"]


def test_its_colours_weigh_their_share_of_its_length():
    lots = yc.plan_from_data(BRAIDED).lots
    assert {lot.name: lot.mass_g for lot in lots} == {"Ebb": 55.0, "Sand": 25.0, "Thrift": 20.0}


def test_lots_stand_beside_it_and_are_blended_from_it():
    data = BRAIDED | {
        "lots": [
            {"name": "Gull", "colour": "#eee", "mass_g": 30.0},
            {"name": "Heather", "blend": {"Ebb": 1, "Gull": 1}, "mass_g": 10.0},
        ]
    }
    plan = yc.plan_from_data(data)
    assert plan.names == ("Gull", "Heather", "Ebb", "Sand", "Thrift")
    assert [lot.name for lot in plan.own_lots] == ["Gull", "Heather"]
    assert to_data(plan)["lots"] == data["lots"]


def test_saved_it_stays_as_it_was_written_comments_and_all():
    plan = plan_from_text(RIPPLE, "ripple.toml")
    assert merged_text(RIPPLE, plan, "ripple.toml") == RIPPLE
    assert plan_from_text(RIPPLE, "again").lots == plan.lots


@pytest.mark.parametrize(
    ("braid", "words"),
    [
        ({"segments": []}, "plan: braid: segments = []: give 1 to 500 lengths of one "
         "colour, each as a [[braid.segments]] table"),
        ({"mass_g": 0}, "plan: braid: mass_g = 0: give grams, 0.001 to 100,000"),
        ({"repeats": 0}, "plan: braid: repeats = 0: give a whole number of repeats from 1 to 64"),
        ({"segments": [{"name": "Ebb", "colour": "navy", "length_cm": 0}]},
         "plan: braid: segments 1 (Ebb): length_cm = 0: give centimetres of the braid, "
         "0.1 to 100,000"),
        ({"segments": [{"name": "Ebb", "length_cm": 9}]},
         'plan: braid: segments 1 (Ebb): colour: is missing; give colour, as "brick red", or lab'),
        ({"segments": [{"name": "Ebb", "colour": "navy", "lab": [1, 2, 3], "length_cm": 9}]},
         "plan: braid: segments 1 (Ebb): lab = [1, 2, 3]: a colour is given too; "
         "give one of the two"),
        ({"segments": [{"name": "Ebb", "colour": "navy", "length_cm": 9},
                       {"name": "Ebb", "colour": "red", "length_cm": 9}]},
         'plan: braid: segments 2 (Ebb): colour = "red": "Ebb" has another colour in segment 1; '
         "give one"),
        ({"segments": [{"name": "Ebb", "colour": "navy", "length_cm": 9}] * 10, "repeats": 64},
         "plan: braid: repeats = 64: makes 640 lengths of one colour; at most 500 can be planned"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_it_is_told(braid, words):
    assert told(**braid) == [words]


@pytest.mark.parametrize("key", ["mass_g", "segments"])
def test_half_a_braid_says_what_it_lacks(key):
    braid = {name: value for name, value in BRAIDED["braid"].items() if name != key}
    with pytest.raises(yc.PlanError, match=f"braid: {key}: is missing"):
        yc.plan_from_data({"braid": braid})


@pytest.mark.parametrize(
    ("beside", "words"),
    [
        ({"scheme": {"sequence": ["Ebb"]}},
         'plan: scheme: sequence = ["Ebb"]: a braid was dyed in its order; '
         "leave one of the two out"),
        ({"scheme": {"parts": [1, 2, 3, 4]}},
         "plan: scheme: parts = [1, 2, 3, 4]: a braid was dyed in its order; "
         "leave one of the two out"),
        ({"lots": [{"name": "Sand", "colour": "#eee", "mass_g": 3}]},
         'plan: braid: segments 2 (Sand): name = "Sand": a lot has that name; '
         "give the braid's colours names of their own"),
        ({"orders": {"closed": False}},
         "plan: orders: a braid was dyed in its order; leave one of the two tables out"),
        ({"scheme": {"name": "solid"}},
         'plan: scheme: solid_lot: "Ebb" is a colour of the braid; name a lot beside it'),
        ({"lots": [{"name": "Heather", "blend": {"Ebb": 1}, "mass_g": 90}]},
         "plan: braid: blends take 90 g of \"Ebb\", but there are 55 g"),
    ],
)  # fmt: skip
def test_what_clashes_with_it_is_told(beside, words):
    with pytest.raises(yc.PlanError) as caught:
        yc.plan_from_data(BRAIDED | beside)
    assert [str(fault) for fault in caught.value.faults] == [words]


def test_a_braid_that_is_wrong_makes_nothing_else_wrong():
    data = {
        "braid": BRAIDED["braid"] | {"mass_g": -1},
        "spun": [{"ply": 1, "lot": "Ebb", "mass_g": 3}],
    }
    with pytest.raises(yc.PlanError) as caught:
        yc.plan_from_data(data | {"lots": [{"name": "Gull", "colour": "#eee", "mass_g": 30.0}]})
    assert [fault.path for fault in caught.value.faults] == [("braid", "mass_g")]
