"""Sentences about a yarn, its air and its mixtures answer why: no figure is left out."""

import re
from dataclasses import replace

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.asked import headings, numbers_without, read, unanswered
from tests.helpers.lines_reckoned import lines_give_their_numbers
from tests.helpers.metric_words import metric_words
from tests.helpers.paths import SAMPLE_DATA, TIDELINE
from tests.helpers.strategies import by_hand
from yarncolor.colour.blend_doubt import blend_doubt
from yarncolor.colour.carding import blended_reflectance
from yarncolor.colour.dye_depth import from_k_over_s, k_over_s
from yarncolor.colour.mixtures import Model, Pair, Recipe
from yarncolor.colour.reflectance import reflectance_from_lab
from yarncolor.editing.editor import Editor
from yarncolor.pictures.cross_section import yarn_drawn
from yarncolor.report.mixture_words import carded_words, merged_from_m, plied_words
from yarncolor.report.show.colours import show_mixtures, show_steps
from yarncolor.report.show.plan import show_yarn
from yarncolor.report.show.why import why_text
from yarncolor.report.show.yarn import show_moisture
from yarncolor.report.why.everything import every_reason
from yarncolor.report.why.mixtures import mixture_reasons
from yarncolor.report.why.pictures import picture_reasons
from yarncolor.report.why.yarn import other_air_reasons
from yarncolor.report.why.yarn_sentences import yarn_seen
from yarncolor.report.yarn_advice import weighed_otherwise
from yarncolor.report.yarn_lines import yarn_told
from yarncolor.widgets.mixing_bench import MixingBench
from yarncolor.widgets.order.order_payload import text_payload
from yarncolor.widgets.yarn_bench import YarnBench

FILES = sorted(SAMPLE_DATA.rglob("*.toml"))
LOTS = {"Kelp 2": 30.0, "Foam": 30.0, "{Ebb}": 30.0}


def found(**tables):
    return yc.answer(yc.plan_from_data(by_hand(LOTS, **tables)))


TWO = {"name": "matched", "plies": 2}
TWISTED = {
    "spinning": {"single_tex": 100.0, "twist_tpm": 320.0},
    "plying": {"twist_tpm": 200.0},
}
PACED = {"drive_ratio": 8.0, "treadles_per_min": 60.0}
UNEVEN = {"variation": 0.05, "variation_within": 0.2, "variation_drift": 0.4}
PLANS = {
    "bare": {},
    "one single": {"scheme": {"name": "matched", "plies": 1}, **TWISTED},
    "all that is told": {
        "scheme": TWO,
        "spinning": {**TWISTED["spinning"], **PACED, **UNEVEN},
        "plying": {"twist_tpm": 200.0, "resting_shrinkage": 0.03},
        "fabric": {
            "finishing_shrinkage": 0.05,
            "stitches": 60,
            "rows": 80,
            "gauge_stitches": 24.0,
        },
    },
    "unlike plies": {
        "scheme": {"name": "staggered", "plies": 3},
        "spinning": {
            "single_tex": [100.0, 80.0, 60.0],
            "twist_tpm": [320.0, 300.0, 280.0],
            "minutes_per_g": 3.0,
        },
        "plying": {"twist_tpm": 200.0},
    },
    "a chain": {"scheme": {"name": "chain"}, **TWISTED},
    "a triangle": {
        "scheme": {"name": "matched", "plies": 2, "copies": 2},
        "fabric": {"kind": "triangle", "width_cm": 150.0, "gauge_stitches": 22.0},
    },
    "a swatch": {
        "scheme": TWO,
        **TWISTED,
        "fabric": {
            "gauge_stitches": 22.0,
            "stitches": 40,
            "rows": 50,
            "swatch": {"mass_g": 5.0, "stitches": 30, "rows": 40},
        },
    },
    "in part spun": {
        "scheme": TWO,
        **TWISTED,
        "spun": [{"ply": 1, "row": 1, "mass_g": 12.0, "length_m": 100.0}, {"ply": 2, "row": 1}],
    },
}


@pytest.mark.parametrize("units", [{}, {"units": "imperial"}])
@pytest.mark.parametrize("tables", PLANS.values(), ids=PLANS)
def test_no_figure_of_the_sentences_about_a_yarn_is_without_an_answer(tables, units):
    answer = found(**tables, **units)
    told = [yarn_drawn(answer), *yarn_told(answer)]
    seen = yarn_seen(answer, told)
    assert numbers_without(" ".join(map(str, told)), headings(seen), LOTS) == []
    assert sum(lines_give_their_numbers(one.reason) for one in seen) > 2
    assert unanswered(show_yarn(answer, explained=True).html, LOTS) == []
    assert show_yarn(answer).text == show_yarn(answer, explained=True).text


@pytest.mark.parametrize("units", [None, "imperial"])
@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_no_figure_about_the_yarn_of_a_file_is_without_an_answer(file, units):
    answer = yc.answer(replace(yc.read_plan(file), units=units))
    assert unanswered(show_yarn(answer, explained=True).html, answer.plan.names) == []


def test_both_sections_that_tell_of_the_yarn_answer_why():
    answer = found(**PLANS["all that is told"])
    bench = YarnBench(Editor(answer.plan))
    assert unanswered(text_payload(answer, 0.0)["html"]["yarn"], LOTS) == []
    told = [yarn_drawn(answer), *yarn_told(answer)]
    assert numbers_without(" ".join(map(str, told)), read(bench.asked.value).headings, LOTS) == []


def test_lines_of_the_yarn_give_what_its_sentences_say():
    answer = found(**PLANS["all that is told"])
    yarn, knit = answer.resolved.yarn, answer.piece
    wanted = {
        f"{answer.layout.yarn_g:.0f} g": answer.layout.yarn_g,
        "2.5 mm": yarn.ply_spacing_mm,
        "2.5 cm": 8.0 / 320.0 * 100,
    }
    seen = {one.words: one.reason for one in yarn_seen(answer, yarn_told(answer))}
    for words, number in wanted.items():
        assert seen[words].workings[-1].result == pytest.approx(number), words
    between = next(reason for words, reason in seen.items() if reason.figure.endswith("expected"))
    low_m, high_m = sorted(line.result for line in between.workings)
    assert (low_m, high_m) == pytest.approx(answer.lengths.plied_between_m)
    needs = f"{answer.say.long(knit.needs_m)}"
    assert seen[needs].workings[-1].result == pytest.approx(knit.needs_m)


@pytest.mark.parametrize("units", [{}, {"units": "imperial"}])
@pytest.mark.parametrize("day", [{}, {"scale": {"regain": 0.15}}])
@pytest.mark.parametrize("many", [2, 9])
def test_grams_of_lots_in_other_air_answer_why(units, day, many):
    lots = {f"Lot {chr(65 + at)}": 20.0 for at in range(many)}
    data = by_hand(lots, **day, **units)
    for at, lot in enumerate(data["lots"]):
        lot["regain"] = 0.10 + 0.01 * at
    answer = yc.answer(yc.plan_from_data(data))
    html = show_moisture(answer, explained=True).html
    assert "Lots were weighed in different air" in html
    assert unanswered(html, lots) == []
    reasons = other_air_reasons(answer)
    off = weighed_otherwise(answer)
    for one, line in zip(off, reasons["then"].workings, strict=True):
        assert line.result == pytest.approx(one.then_g)
        assert line.result == pytest.approx(20.0 * (1 + one.regain_after) / (1 + one.regain_before))
    assert lines_give_their_numbers(reasons["worst"]) == len(off) > 0


COLOURS = {"Kelp 2": "#2f4a34", "Foam": "#e6e2d4", "{Ebb}": "#7b93a8"}
MODELS = ("stearns-noechel", "friele", "linear")


def mixed(**tables):
    data = by_hand(LOTS, **tables)
    for lot in data["lots"]:
        lot["colour"] = COLOURS[lot["name"]]
    return MixingBench(Editor(yc.plan_from_data(data)))


@pytest.mark.parametrize("units", [{}, {"units": "imperial"}])
@pytest.mark.parametrize("tables", [{}, TWISTED, {"scheme": {"name": "matched", "plies": 1}}])
@pytest.mark.parametrize("model", MODELS)
def test_no_figure_of_a_mixture_is_without_an_answer(units, tables, model):
    bench = mixed(**tables, **units)
    bench.controls["model"].value = model
    for parts in ((1, 2), (1, 0)):
        for control, many in zip(("parts_one", "parts_other"), parts, strict=True):
            bench.controls[control].value = many
        told = f"{bench.pictures.value}{bench.turn_words.value}{bench.asked.value}"
        assert unanswered(told, LOTS) == []
        assert unanswered(bench.taken.value, LOTS) == []
        assert unanswered(bench.steps.value, LOTS) == []
    bench.buttons["Make the batt a lot"].click()
    assert "is among the lots" in bench.taken.value
    assert unanswered(bench.taken.value, [*LOTS, *bench.editor.plan.names]) == []


@pytest.mark.parametrize("model", MODELS)
@pytest.mark.parametrize("parts", [(1, 2), (3, 0)])
def test_lines_of_a_mixture_give_its_numbers(model, parts):
    pair = Pair(("Foam", "Kelp"), np.array([[88.0, 1.0, 10.0], [28.0, -14.0, 9.0]]))
    recipe = Recipe(parts=parts, exhaustion=0.6, model=Model(model))
    reasons = mixture_reasons(found(), pair, recipe)
    assert sum(map(lines_give_their_numbers, reasons.values())) >= 10
    (doubt,) = blend_doubt([parts], pair.lab, model)
    for line in reasons["within"].workings:
        assert line.result == pytest.approx(doubt)
    assert len(reasons["within"].workings) == (doubt > 0)
    made = {line.figure: line.result for line in reasons["carded"].workings}
    green = reflectance_from_lab(pair.lab)
    (batt,) = blended_reflectance([parts], green, model)[:, 34]
    if model == "stearns-noechel":
        assert made["the batt’s reflectance"] == pytest.approx(batt)
    elif model == "linear":
        assert made["f of the batt"] == pytest.approx(batt)
    (bath,) = (one for one in reasons["left"].workings if one.figure == "what it reflects")
    fibre, dyed = k_over_s(green[:, 34])
    assert bath.result == pytest.approx(from_k_over_s(fibre + (dyed - fibre) * 0.4))
    assert reasons["left"].workings[0].result == pytest.approx(0.4)


def test_mixtures_of_a_notebook_answer_why():
    answer = yc.answer(yc.read_plan(TIDELINE))
    for show in (show_mixtures, show_steps):
        assert unanswered(show(answer, explained=True).html, answer.plan.names) == []
        assert "Why these figures?" not in show(answer).html


def test_one_lot_alone_is_no_mixture_and_asks_for_nothing():
    data = by_hand({"Kelp": 30.0})
    bench = MixingBench(Editor(yc.plan_from_data(data)))
    assert bench.asked.value == bench.steps.value == ""


AIMS = {"smooth": 2.0, "even": 1.0}


def test_every_reason_of_a_plan_knows_its_order_where_it_says_what_it_looks_for():
    scheme = {"name": "staggered", "plies": 2}
    answer = found(scheme=scheme, orders={"aims": AIMS})
    told = every_reason(answer)["which order"]
    now = yc.orders.search(answer.plan).now
    assert sum(line.result for line in told["points"].workings) == pytest.approx(100 * now.score)
    assert len(told) >= len(AIMS) + 2
    assert "which order" not in every_reason(found(scheme=scheme))
    without = found(scheme={"name": "fractal", "plies": 2}, orders={"aims": AIMS})
    assert "Which order" in why_text(without)


def test_a_search_that_cannot_be_whole_says_how_many_orders_were_valued():
    lots = {f"Lot {chr(65 + at)}": 20.0 + at for at in range(26)}
    scheme = {"name": "staggered", "plies": 3}
    answer = yc.answer(yc.plan_from_data(by_hand(lots, scheme=scheme, orders={"aims": AIMS})))
    assert "orders valued" in every_reason(answer)["which order"]


@pytest.mark.parametrize("tables", PLANS.values(), ids=PLANS)
def test_every_reason_of_a_plan_knows_sentences_captions_and_yarns_side_by_side(tables):
    answer = found(**tables)
    told = every_reason(answer)
    captions = {reason.figure for reason in picture_reasons(answer).values()}
    assert captions == set(told["captions of pictures"])
    assert {"yarn", "matched", "left over"} <= set(told["side by side with others"])
    known = {one.figure for about in told.values() for one in about.values()}
    assert {one.reason.figure for one in yarn_seen(answer, yarn_told(answer))} <= known
    assert all(map(lines_give_their_numbers, (told["side by side with others"]["matched"],)))


MADE = [
    {"name": "Tide", "bath": {"of": "Kelp", "number": 3, "undyed": "Foam", "exhaustion": 0.7}},
    {"name": "Batt", "blend": {"Kelp": 1, "Foam": 2}},
    {"name": "Three", "blend": {"Kelp": 1, "Foam": 2, "Ebb": 1}},
    {"name": "Beside", "drafted": {"Kelp": 1, "Foam": 1}},
]


def with_made(*made, **tables):
    dyed = {"Kelp": "#223344", "Foam": "#eeeedd", "Ebb": "#996655"}
    lots = [{"name": name, "colour": colour, "mass_g": 30.0} for name, colour in dyed.items()]
    lots += [{"mass_g": 9.0, **one} for one in made]
    return yc.answer(yc.plan_from_data({"lots": lots, **tables}))


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_lots_that_are_made_from_others_say_how_their_colours_are_reckoned(units):
    answer = with_made(*MADE, units=units)
    told = every_reason(answer)["reckoned colours"]
    assert [words.partition(",")[0] for words in told] == ["Tide", "Batt", "Three", "Beside"]
    assert [lines_give_their_numbers(one) for one in told.values()] == [5, 2, 4, 0]
    html = yc.show.stash(answer, explained=True).html
    assert "Why these figures? Reckoned colours" in read(html).names
    for words in told:
        assert words in read(html).headings


def test_one_band_of_a_bath_and_of_batts_is_as_the_whole_is_reckoned():
    answer = with_made(*MADE)
    tide, batt, three, _ = every_reason(answer)["reckoned colours"].values()
    green = reflectance_from_lab(answer.palette.lab[:3])[:, (550 - 380) // 5]
    dyed, fibre = k_over_s(green[:2])
    assert tide.workings[0].result == pytest.approx(0.3 * 0.3)
    assert tide.workings[-1].result == pytest.approx(from_k_over_s(fibre + (dyed - fibre) * 0.3**2))
    for reason, parts in ((batt, [[1, 2, 0]]), (three, [[1, 2, 1]])):
        whole = blended_reflectance(parts, reflectance_from_lab(answer.palette.lab[:3]))
        assert reason.workings[-1].result == pytest.approx(whole[0, (550 - 380) // 5])


def test_of_the_steps_of_a_gradient_the_first_alone_is_told():
    scheme = {"name": "gradient", "plies": 2, "blend_steps": 2}
    told = every_reason(with_made(MADE[1], scheme=scheme))["reckoned colours"]
    steps = [lot.name for lot in with_made(MADE[1], scheme=scheme).plan.lots if lot.is_step]
    assert len(steps) > 1
    assert [words.partition(", #")[0] for words in told] == ["Batt", steps[0]]


def test_a_stash_of_lots_as_they_were_dyed_reckons_no_colour():
    assert "reckoned colours" not in every_reason(with_made())
    assert "Reckoned colours" not in yc.show.stash(with_made(), explained=True).html


def test_how_far_steps_are_apart_has_its_line():
    told = read(show_steps(with_made(), explained=True).html).told
    assert "the largest step over the smallest, Weighed in even steps, = the largest" in told


def test_mixtures_of_a_plan_in_ounces_are_told_in_ounces_inches_and_feet():
    """Half an ounce is 14.17 g, a foot 0.3048 m."""
    pair = Pair(("Kelp", "Foam"), np.array([[35.0, -10, 20], [88, 0, 5]]))
    recipe = Recipe(parts=(1, 3), width_mm=1.27)
    answer = with_made(units="imperial")
    words = str(carded_words(pair, recipe, answer.say))
    assert "0.12 oz and 0.38 oz for a batt of 0.5 oz" in words or "0.13 oz and 0.38 oz" in words
    plied = str(plied_words(pair, recipe, answer.say))
    far = [float(feet) for feet in re.findall(r"([\d.]+) ft", plied)]
    metres = [merged_from_m(pair, recipe, laid) for laid in ("alone", "wrapped", "knitted")]
    assert far[1:] == pytest.approx([one / 0.3048 for one in metres], abs=0.051)
    assert "a single thread of 0.050 in" in plied
    shown = read(show_mixtures(answer, explained=True).html)
    assert metric_words(shown.said) == []
    assert unanswered(show_mixtures(answer, explained=True).html, answer.plan.names) == []
    reason = mixture_reasons(answer, pair, recipe)["of_batt"]
    assert sum(line.result for line in reason.workings) == pytest.approx(28.349523125 / 2)


def test_the_mixing_bench_of_a_plan_in_ounces_says_no_metre():
    bench = MixingBench(Editor(with_made(units="imperial").plan))
    words = f"{read(bench.pictures.value).said} {bench.turn_words.value}"
    assert metric_words(words) == []
