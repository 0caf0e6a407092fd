"""On the phone: what it reckons when a single runs out, against what the bench does."""

import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import yarncolor as yc
from tests.helpers.spun_plans import spun_plans
from tests.helpers.strategies import by_hand
from yarncolor.answers.rescues import rescued_yarns
from yarncolor.report.phone.facts import facts
from yarncolor.report.plying_words import ended_lines
from yarncolor.report.rescue_hands import rescue_words
from yarncolor.report.rescues import rescue_dict
from yarncolor.report.rescues_text import stands_text, worth_text
from yarncolor.scripts import program

pytestmark = pytest.mark.browser

LRM = "\N{LEFT-TO-RIGHT MARK}"


@pytest.fixture(scope="module")
def reckons(chromium):
    """Return what the phone says of a plan as it stands, and of a single that ended."""
    page = chromium.new_page()
    page.evaluate(program(Path(__file__).parents[1] / "helpers" / "phone_rescues.js"))
    yield lambda data, ended: page.evaluate(
        "([plan, ended]) => phoneRescues(JSON.parse(plan), ended)",
        [json.dumps(facts(yc.answer(yc.plan_from_data(data)))), ended],
    )
    page.close()


def by_the_bench(answer) -> list[dict]:
    """Return every rescue as the bench has it, with its words."""
    return [
        rescue_dict(answer, one)
        | {"name": rescue_words(answer, one), "worth": worth_text(answer, one)}
        for one in rescued_yarns(answer)
    ]


def agree(phone: dict, bench: dict, names: list[str]) -> None:
    """Hold a rescue of the phone against the bench's: numbers, lots and every word."""
    assert (phone["kind"], len(phone["plies"])) == (bench["kind"], bench["plies"])
    assert phone["extraM"] == pytest.approx(bench["extra_m"], rel=1e-7, abs=1e-9)
    for key in ("name", "worth"):
        assert phone[key] == bench[key].replace(LRM, "")
    assert phone["hands"] == [line.replace(LRM, "") for line in bench["hands"]]
    assert phone["isSame"] == bench["same_colour_at_splice"]
    over = [(part["ply"] + 1, names[part["lot"]], part["massG"]) for part in phone["over"]]
    assert over == [
        (part["ply"], part["lot"], pytest.approx(part["mass_g"], rel=1e-6, abs=1e-7))
        for part in bench["left_over"]
    ]
    along = phone["along"] or {"edges": [0.0], "lots": []}
    ends = [part["end_m"] for part in bench["stretches"]]
    assert along["edges"][1:] == pytest.approx(ends, rel=1e-6, abs=1e-6)
    assert [[names[lot] for lot in lots] for lots in along["lots"]] == [
        part["lots"] for part in bench["stretches"]
    ]


def answered_or_refused(data: dict):
    """Return the answer to a plan, or None and why it is none."""
    try:
        return yc.answer(yc.plan_from_data(data)), ""
    except yc.PlanError as error:
        return None, str(error.faults[0].remedy)


def is_metric(data: dict) -> bool:
    """Return whether page and file say lengths alike: faults of a file are in its own metres."""
    return data.get("units") != "imperial"


def all_agree(reckons, data: dict, end: tuple[int, float] | None) -> None:
    """Hold the phone against the bench, told of an end by its own notes and by the plan file."""
    ended = None if end is None else {"ply": end[0], "at_m": end[1]}
    told = data if end is None else data | {"plied": {"ended_ply": end[0], "at_m": end[1]}}
    phone = reckons(data, ended)
    answer, refused = answered_or_refused(told)
    if answer is None and is_metric(data):
        assert phone["wrong"].lower() == refused.lower()
    if answer is None:
        assert phone["wrong"]
        return
    names, yarns = list(answer.plan.names), rescued_yarns(answer)
    for said in (phone, reckons(told, ended)):
        assert said["told"] == list(ended_lines(answer))
        assert said["stands"] == stands_text(answer, yarns)
        bench = by_the_bench(answer)
        assert [one["kind"] for one in said["ways"]] == [one["kind"] for one in bench]
        for one, other in zip(said["ways"], bench, strict=True):
            agree(one, other, names)


THREE = by_hand(
    {"Kelp": 36.0, "Foam": 36.0, "Dune": 9.0},
    scheme={"plies": 3, "sequence": ["Kelp", "Foam"]},
    spinning={"single_tex": 100.0},
    plying={"contraction": 0.1, "twist_tpm": 120.0},
)
UNLIKE = {"single_tex": [100.0, 100.0, 220.0], "twist_tpm": [500.0, 400.0, 300.0]}
ALL_MEASURED = [
    {"ply": 2, "row": 1, "length_m": 118.0},
    {"ply": 2, "row": 2, "length_m": 121.0},
]
CASES = {
    "one ended": (THREE, (2, 180.0)),
    "none ended, one came out longer": (
        THREE | {"spun": [{"ply": 1, "through": 1}, {"ply": 1, "row": 2, "length_m": 150.0}]},
        None,
    ),
    "two ended": (
        THREE | {"spun": [{"ply": 1, "through": 1}, {"ply": 1, "row": 2, "mass_g": 8}]},
        None,
    ),
    "run out together": (THREE, None),
    "wound off": (THREE | {"plying": THREE["plying"] | {"wound_off": [1, 0, 1]}}, (1, 150.0)),
    "each loses its own": (
        THREE | {"spinning": UNLIKE, "plying": {"twist_tpm": 220.0}},
        (2, 150.0),
    ),
    "all was measured": (THREE | {"spun": ALL_MEASURED}, (2, 200.0)),
    "beyond every other": (THREE, (1, 400.0)),
    "more was measured": (THREE | {"spun": ALL_MEASURED[:1]}, (2, 60.0)),
    "no such loss": (THREE | {"spun": ALL_MEASURED}, (2, 30.0)),
    "on whole grams": (THREE | {"scale": {"step_g": 1.0}}, (3, 210.0)),
    "too little to rescue": (THREE, (2, 215.5)),
    "two of many lots": (
        by_hand(
            {f"Lot {n}": 7.0 + n for n in range(9)},
            scheme={"plies": 2},
            spinning={"single_tex": 80.0},
        ),
        (1, 300.0),
    ),
}


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize(("data", "end"), CASES.values(), ids=CASES)
def test_the_phone_offers_what_the_bench_offers(reckons, data, end, units):
    all_agree(reckons, data | {"units": units}, end)


def test_why_an_end_cannot_be_is_said_in_yards(reckons):
    """24 g at 100 tex on each ply are 240 m, 216 m with a tenth lost, and those 236.22 yards."""
    told = reckons(THREE | {"units": "imperial"}, {"ply": 1, "at_m": 500.0})
    longest = "No other single reaches so far; the longest ends after 236.2 yd of yarn"
    assert told["wrong"] == longest


@given(st.sampled_from(("fractal", "matched", "gradient", "staggered")), st.data())
@settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_whatever_was_spun_and_wherever_one_ends_the_phone_agrees(reckons, scheme, draw):
    data = draw.draw(spun_plans(scheme)) | {
        "units": draw.draw(st.sampled_from(("metric", "imperial")))
    }
    data.pop("plied", None)
    answer = yc.answer(yc.plan_from_data(data))
    plies = len(answer.resolved.tex)
    assume(plies > 1)
    part = draw.draw(st.sampled_from((None, 0.4, 0.8, 0.97, 1.0, 1.1)))
    ply = draw.draw(st.integers(1, plies))
    yarn_m = answer.layout.stretches.yarn_m
    all_agree(reckons, data, None if part is None else (ply, round(yarn_m * part, 1) or 0.1))
