"""Everything to know says why: each kind of advice, and its lines give the numbers it tells."""

import re

import pytest

import yarncolor as yc
from tests.helpers.asked import read
from tests.helpers.lines_reckoned import lines_give_their_numbers
from tests.helpers.strategies import by_hand
from yarncolor.report.advice import KINDS
from yarncolor.report.why.advice import REASONS, advice_seen
from yarncolor.yarn.balance import WORDS

LOTS = {"Kelp": 24.0, "Foam": 24.0, "Dune": 24.0}
TWO = {"name": "matched", "plies": 2}
UNEVEN = {"single_tex": 100.0, "variation": 0.2}


def plan(lots: dict = LOTS, of_lot: dict | None = None, **tables) -> dict:
    """Return a plan of two plies; what `of_lot` has by name is added to a lot."""
    data = by_hand(lots, **{"scheme": TWO, "spinning": {"single_tex": 100.0}, **tables})
    return data | {"lots": [one | (of_lot or {}).get(one["name"], {}) for one in data["lots"]]}


def striped(*rows: int, **fabric) -> dict:
    stripes = [{"lot": name, "rows": count} for name, count in zip(LOTS, rows, strict=False)]
    gauge = {"gauge_stitches": 20.0, "gauge_rows": 28.0, **fabric}
    return plan(scheme={"name": "stripes", "plies": 2, "stripes": stripes}, fabric=gauge)


def braided(mass_g: float, *lengths_cm: float, **tables) -> dict:
    segments = [
        {"name": name, "colour": colour, "length_cm": long}
        for name, colour, long in zip(LOTS, ("#345", "#ddd", "#a52"), lengths_cm, strict=False)
    ]
    return {"braid": {"mass_g": mass_g, "segments": segments}, **tables}


def in_rolags(rolags: int, rolag_g: float, **tables) -> dict:
    given = {"rolags": rolags, "rolag_g": rolag_g}
    lots = [{"name": name, "colour": "#345", **given} for name in LOTS]
    return plan(**tables) | {"lots": lots}


def spun(*pieces: dict, **tables) -> dict:
    return plan(spun=[{"ply": 2, **piece} for piece in pieces], **tables)


SWAPPED = {"plying": {"direction": "Z"}, "spinning": {"single_tex": 100.0, "direction": "Z"}}
TIGHT = {"spinning": {"single_tex": 100.0, "twist_tpm": 900.0}, "plying": {"twist_tpm": 700.0}}
THICK_AND_THIN = {
    "spinning": {"single_tex": [100.0, 240.0], "twist_tpm": [450.0, 300.0]},
    "plying": {"twist_tpm": 250.0},
}
FAST = {"single_tex": 100.0, "twist_tpm": 400.0, "minutes_per_g": 1.0}
TREADLED = {**FAST, "treadles_per_min": 60.0, "drive_ratio": 8.0}
CLOSING = {"name": "fractal", "divisions": [1, 4], "sequence": ["Kelp", "Foam", "Dune", "Kelp"]}
OWN = {"name": "mixed", "ply": [{"sequence": ["Kelp"]}, {"sequence": ["Foam"]}]}
PLANS = {
    "mixed_winding": plan(plying={"wound_off": [1, 0]}),
    "wrong_twist": plan(**SWAPPED),
    "few_bobbins": plan(bobbins={"count": 2}),
    "other_order": spun({"row": 3}, {"row": 2}, {"row": 1}),
    "left_out_row": spun({"row": 1}, {"row": 3}),
    "extra_piece": spun({"lot": "Dune", "mass_g": 3.0}, {"row": 1}),
    "other_lot": spun({"row": 1, "lot": "Foam"}),
    "short_lot": spun({"row": 2, "mass_g": 15.0}),
    "more_than_said": spun({"row": 1, "mass_g": 12.0, "gross_g": 75.0}, bobbins={"tare_g": 60.0}),
    "grist_drifts": spun({"row": 1, "mass_g": 12.0, "length_m": 90.0}),
    "doubled_run": plan({"Kelp": 20.0, "Foam": 10.0, "Dune": 10.0}, scheme=CLOSING),
    "runs_out": spun({"row": 1, "mass_g": 5.0}, plying={"contraction": 0.05}),
    "short_of_target": plan(target={"yarn_m": 900.0}, spinning={"card_loss": 0.1}),
    "short_of_stripes": striped(10, 200, stitches=100),
    "rows_of_stripes": striped(4, 4, stitches=40, rows=100),
    "short_stripes": striped(1, 4, stitches=3),
    "short_colours": braided(50.0, 5.0, 30.0, scheme=TWO),
    "thin_strips": braided(10.0, 50.0, 50.0, scheme={"name": "fractal", "divisions": [1, 8]}),
    "short_of_piece": plan(fabric={"stitches": 60, "rows": 900}),
    "steep_twist": plan(**TIGHT),
    "unlike_plies": plan(**THICK_AND_THIN),
    "hours": plan(spinning=TREADLED),
    "full_bobbin": plan(bobbins={"capacity_g": 20.0}),
    "skeins": plan(bobbins={"plying_capacity_g": 25.0}),
    "balance": plan(
        spinning={"single_tex": 100.0, "twist_tpm": 320.0}, plying={"twist_tpm": 400.0}
    ),
    "uneven": plan(spinning=UNEVEN),
    "drift": plan(spinning=UNEVEN, scheme={**TWO, "divisions": [4, 4]}),
    "moisture": plan(of_lot={"Kelp": {"regain": 0.1}, "Foam": {"regain": 0.16}}),
    "gauge": plan(fabric={"stitches": 60, "gauge_stitches": 50.0, "gauge_rows": 30.0}),
    "mostly_unspun": plan({"Kelp": 10.0, "Foam": 90.0}, scheme=OWN),
    "fades_backwards": plan(scheme={"name": "fade", "plies": 2, "from": ["Kelp"], "to": ["Foam"]}),
    "left_over": plan(target={"yarn_m": 100.0}),
    "heap": plan({"Kelp": 2.0, "Foam": 2.0}, scheme={"name": "fractal", "divisions": [9, 3]}),
    "rolags": in_rolags(7, 3.0, scheme={"name": "fractal", "divisions": [3, 4]}),
    "unused_lot": plan(scheme={**TWO, "sequence": ["Kelp", "Foam"]}),
    "near_twins": plan(of_lot={"Kelp": {"colour": "#556677"}, "Foam": {"colour": "#566778"}}),
    "lost_stripe": plan(of_lot={"Kelp": {"colour": "#6e7d34"}, "Foam": {"colour": "#a8662f"}}),
    "unsure": plan(
        of_lot={
            "Kelp": {"colour": "#556677", "colour_unsure": 9.0},
            "Foam": {"colour": "#4a6e80"},
        }
    ),
    "unseen": plan({"Kelp\u200b": 24.0, "Foam": 24.0}),
}
"""A plan for each kind of advice."""

GIVEN_BY_A_LINE = {
    "few_bobbins": ("bobbins that lack", "bobbins needed at once"),
    "extra_piece": ("pieces too many",),
    "short_lot": ("how much of the lot", "enough for"),
    "more_than_said": ("how much heavier",),
    "grist_drifts": ("how thick it is",),
    "doubled_run": ("how long it runs on", "times the usual run"),
    "runs_out": ("single that is left",),
    "short_of_target": ("share of the yarn that is wanted", "missing"),
    "short_of_stripes": ("missing, before carding",),
    "short_stripes": ("two staples",),
    "short_colours": ("two staples",),
    "thin_strips": ("thinnest strip",),
    "short_of_piece": ("washed yarn", "rows", "fibre for the rest"),
    "steep_twist": ("angle of the outer fibres",),
    "unlike_plies": ("how much longer",),
    "hours": ("turns of the flyer", "all plies together", "by treadling"),
    "balance": (WORDS["parallel_fibres"],),
    "skeins": ("skeins",),
    "uneven": ("how much shorter",),
    "drift": ("matched as planned",),
    "moisture": ("it would be", "up to"),
    "gauge": ("yarn in a stitch",),
    "mostly_unspun": ("spun",),
    "left_over": ("never spun",),
}
"""Figures of advice that a line gives, by kind."""
_OF_SAID = {"%": 100.0, "m in 100 g": 0.01, "turns in a metre": 0.0254}
"""What a line's number is multiplied by, as it is said: metres to a gram, turns to the inch."""


def answered(kind: str, **more):
    answer = yc.answer(yc.plan_from_data({**PLANS[kind], **more}))
    return answer, [one for one in yc.advice_on(answer) if one.kind == kind]


def test_every_kind_of_advice_has_its_reason_and_its_plan():
    assert set(REASONS) == set(KINDS) == set(PLANS)


@pytest.mark.parametrize("units", [{}, {"units": "imperial"}])
@pytest.mark.parametrize("kind", PLANS)
def test_each_kind_of_advice_says_why_and_its_lines_give_their_numbers(kind, units):
    answer, told = answered(kind, **units)
    assert told
    seen = advice_seen(answer, told)
    assert seen
    for one in seen:
        lines_give_their_numbers(one.reason)
        assert list(one.reason.lines(answer.say))
        assert one.reason.rests_on


def _is_said(value: float, number: str) -> bool:
    """Return whether a number is a value, rounded as it is written."""
    return abs(value - float(number)) <= 0.5001 * 10.0 ** -len(number.partition(".")[2])


@pytest.mark.parametrize("kind", GIVEN_BY_A_LINE)
def test_a_line_gives_the_number_that_is_told(kind):
    answer, told = answered(kind)
    text = " ".join(one.text for one in told).replace(",", "")
    numbers = re.findall(r"\d+(?:\.\d+)?", text)
    reasons = {one.reason.figure: [] for one in advice_seen(answer, told)}
    for one in advice_seen(answer, told):
        reasons[one.reason.figure] += one.reason.workings
    for figure in GIVEN_BY_A_LINE[kind]:
        given = [
            abs(line.result) * _OF_SAID.get(line.equation.unit, 1.0) for line in reasons[figure]
        ]
        assert any(_is_said(one, number) for one in given for number in numbers), (figure, given)


@pytest.mark.parametrize("kind", ["doubled_run", "hours"])
def test_the_page_tells_why_of_its_advice_and_a_notebook_only_where_it_is_asked(kind):
    answer, _ = answered(kind)
    found = read(yc.show.advice(answer, explained=True).html)
    assert found.names == ["Why these figures? What to know"]
    assert REASONS[kind][0] in found.headings
    assert read(yc.show.advice(answer).html).names == []


ALIKE = {f"Lot {letter}": f"#5566{70 + at}" for at, letter in enumerate("ABCDE")}
UNSURE = {f"Lot {letter}": f"#{4 + at}56677" for at, letter in enumerate("ABCD")}
HARDLY = {
    "Kelp": "#6e7d34",
    "Wrack": "#6d7e36",
    "Ebb": "#6f7c35",
    "Rust": "#a8662f",
    "Dune": "#a7652e",
}


def told_with_more(kind, colours, **of_each):
    lots = [
        {"name": name, "colour": colour, "mass_g": 24.0, **of_each}
        for name, colour in colours.items()
    ]
    answer = yc.answer(yc.plan_from_data(plan() | {"lots": lots}))
    return answer, [one for one in yc.advice_on(answer) if one.kind == kind]


@pytest.mark.parametrize(
    ("kind", "colours", "of_each"),
    [
        ("near_twins", ALIKE, {}),
        ("unsure", UNSURE, {"colour_unsure": 30.0}),
        ("lost_stripe", HARDLY, {}),
    ],
)
def test_pairs_that_are_not_named_are_counted_with_the_limit_by_which_they_are_told(
    kind, colours, of_each
):
    answer, told = told_with_more(kind, colours, **of_each)
    more = [int(number) for number in re.findall(r"and (\d+) more pairs", told[0].text)]
    reasons = [one.reason for one in advice_seen(answer, told)]
    lines = [line for one in reasons for line in one.workings if line.figure == "more pairs"]
    assert more
    assert more[0] in [line.result for line in lines]
    for line in lines:
        assert line.values["named"] == 4
    assert all("CIEDE2000" in one.method for one in reasons)


def test_each_pair_that_is_named_says_how_far_apart_it_is():
    answer, told = told_with_more("near_twins", ALIKE)
    methods = " ".join(one.reason.method for one in advice_seen(answer, told))
    numbers = re.findall(r"(Lot [A-E]) and (Lot [A-E]) (\d+\.\d)", methods)
    names = list(answer.plan.names)
    assert len(numbers) >= 4
    for one, other, far in numbers:
        apart = answer.palette.between.ciede2000[names.index(one), names.index(other)]
        assert float(far) == pytest.approx(apart, abs=0.051)


def test_a_contrast_that_is_not_sure_says_how_far_it_may_be_out():
    answer, told = answered("unsure")
    (reason,) = [one.reason for one in advice_seen(answer, told)]
    (line,) = reason.workings
    assert line.of == "Kelp and Foam"
    assert line.result == pytest.approx(9.0)


def test_what_is_named_whole_is_not_counted():
    answer, told = answered("near_twins")
    for one in advice_seen(answer, told):
        assert [line for line in one.reason.workings if line.figure.startswith("more")] == []


def test_places_to_break_a_yarn_beyond_those_that_are_named_are_counted():
    data = plan(bobbins={"plying_capacity_g": 8.0})
    answer = yc.answer(yc.plan_from_data(data))
    told = [one for one in yc.advice_on(answer) if one.kind == "skeins"]
    (more,) = re.findall(r"and (\d+) times more", told[0].text)
    lines = [line for one in advice_seen(answer, told) for line in one.reason.workings]
    assert [line.result for line in lines if line.figure.startswith("more")] == [int(more)]


@pytest.mark.parametrize("kind", ["short_stripes", "short_colours", "mostly_unspun"])
def test_what_is_short_or_left_is_counted_by_one_rule_for_advice_and_for_why(kind):
    answer, told = answered(kind)
    assert [
        line
        for one in advice_seen(answer, told)
        for line in one.reason.workings
        if line.figure.startswith("more")
    ] == []


def test_lots_of_which_a_piece_takes_more_are_counted_beyond_those_that_are_named():
    lots = {f"Lot {letter}": 9.0 for letter in "ABCDEFGH"}
    answer = yc.answer(yc.plan_from_data(plan(lots, fabric={"stitches": 60, "rows": 900})))
    told = [one for one in yc.advice_on(answer) if one.kind == "short_of_piece"]
    (more,) = re.findall(r"and of (\d+) more lots", told[0].text)
    lines = [line for one in advice_seen(answer, told) for line in one.reason.workings]
    assert [line.result for line in lines if line.figure == "more lots"] == [int(more)]
