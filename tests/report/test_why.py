"""Every figure answers why: its line gives it, and what is said of its origin is so."""

import re
from dataclasses import replace

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.asked import unanswered
from tests.helpers.lines_reckoned import number_in, sides, value_of
from tests.helpers.metric_words import metric_words
from tests.helpers.paths import SAMPLE_DATA
from tests.helpers.sections import SECTIONS
from tests.helpers.strategies import by_hand
from tests.helpers.tables_read import figures_in
from yarncolor.colour.difference import EXPLAINED
from yarncolor.plan.reference import keys_said_in
from yarncolor.report.assumption_text import plan_sentences
from yarncolor.report.why import (
    equations,
    equations_of_advice,
    equations_of_colour,
    equations_of_photos,
)
from yarncolor.report.why import sources as origins
from yarncolor.report.why.equation import QUANTITIES, Equation, Working, told
from yarncolor.report.why.everything import every_reason
from yarncolor.report.yarn_as_dict import yarn_dict
from yarncolor.widgets.tables_bench import NUMBERS, WEIGH_OUT

FILES = sorted(SAMPLE_DATA.rglob("*.toml"))
TWISTED = {
    "spinning": {"single_tex": 100.0, "twist_tpm": 320.0},
    "plying": {"twist_tpm": 200.0},
}
TWO = {"name": "matched", "plies": 2}
PLANS = {
    "bare": {},
    "two plies, twisted": {"scheme": TWO, **TWISTED},
    "by helix alone": {
        "scheme": TWO,
        "spinning": TWISTED["spinning"],
        "plying": {"twist_tpm": 200.0, "contraction_model": "helix"},
    },
    "unlike plies": {
        "scheme": TWO,
        "spinning": {"single_tex": [80.0, 130.0], "twist_tpm": [350.0, 250.0]},
        "plying": {"twist_tpm": 200.0},
    },
    "one ply": {"scheme": {"name": "matched", "plies": 1}, "spinning": TWISTED["spinning"]},
    "a chain": {"scheme": {"name": "chain"}, **TWISTED},
    "at the clock": {
        "scheme": TWO,
        "spinning": {**TWISTED["spinning"], "minutes_per_g": 4.0, "spin_loss": 0.03},
        "plying": {"twist_tpm": 200.0, "resting_shrinkage": 0.02},
        "fabric": {"finishing_shrinkage": 0.05, "width_cm": 40.0, "rows": 120},
        "bobbins": {"tare_g": 30.0, "plying_tare_g": 40.0, "plying_capacity_g": 25.0},
    },
    "by treadles": {
        "scheme": TWO,
        "spinning": {**TWISTED["spinning"], "treadles_per_min": 60.0, "drive_ratio": 9.0},
        "plying": {"twist_tpm": 200.0},
        "fabric": {"kind": "triangle", "stitches": 5, "rows": 90, "gauge_stitches": 20.0},
    },
    "a swatch": {
        "scheme": TWO,
        **TWISTED,
        "fabric": {"stitches": 60, "rows": 80, "swatch": {"stitches": 30, "rows": 40, "mass_g": 9}},
    },
}


def found(**tables):
    return yc.answer(
        yc.plan_from_data(by_hand({"Kelp": 30.0, "Foam": 30.0, "Ebb": 30.0}, **tables))
    )


@pytest.fixture(params=PLANS.values(), ids=PLANS)
def answer(request):
    return found(**request.param)


def reasons(answer) -> dict:
    return {words: one for own in every_reason(answer).values() for words, one in own.items()}


def named_equations():
    each_module = (equations, equations_of_colour, equations_of_advice, equations_of_photos)
    for name, one in (pair for module in each_module for pair in vars(module).items()):
        each = one if isinstance(one, dict) else {"": one}
        yield from ((f"{name} {key}", each[key]) for key in each if isinstance(each[key], Equation))


SHARES = (0.02, 0.3)
RANGES = {
    **dict.fromkeys(("plies", "rows", "stitches", "folds", "steps"), (4, 60)),
    **dict.fromkeys(("bobbins_full", "bobbins_plying", "part", "parts"), (1, 9)),
    **dict.fromkeys(("rows_per_10cm", "stitches_per_10cm"), (10, 40)),
    "has_m": (3000, 5000),
    "finished_tex": (200, 900),
    **dict.fromkeys(("kept_m", "strand_m", "planned_m", "spun_m", "early_m", "late_m"), (1, 90)),
    **dict.fromkeys(("short_m", "then_short_m"), (1, 90)),
    **{f"{when}_{at}_m": (1, 90) for when in ("now", "then") for at in (10, 50, 90)},
    "such_spins": (1, 90),
    "spins": (100, 1000),
    **dict.fromkeys(("best", "best_share"), (1, 9)),
    **dict.fromkeys(("worst", "worst_share", "value", "value_share"), (20, 90)),
    **dict.fromkeys(("longest_m", "shorter_m", "so_far_m", "change_m"), (1, 90)),
    "gross_g": (40, 90),
    "tare_g": (1, 9),
    "there_g": (1, 9),
    "needed_g": (40, 90),
    **dict.fromkeys(("start_m", "bobbins_there", "stated_g"), (1, 9)),
    **dict.fromkeys(("end_m", "bobbins_at_once", "found_g"), (20, 90)),
    "wanted_m": (200, 900),
    "rolags": (3, 60),
    "pairs": (100, 9000),
    "k_of_fibre": (1, 9),
    "k_of_dyed": (20, 90),
}


def drawn(equation, rng) -> dict:
    slots = dict.fromkeys(re.findall(r"{(\w+)}", equation.text))
    for slot in slots:
        unit = QUANTITIES[slot].unit
        usual = SHARES if unit == "%" else (8, 35) if unit == "°" else (0.5, 90)
        low, high = RANGES.get(slot, usual)
        slots[slot] = int(rng.integers(low, high)) if slot in RANGES else rng.uniform(low, high)
    return slots


@pytest.mark.parametrize(("name", "equation"), [*named_equations()])
def test_a_line_as_it_is_written_gives_what_its_function_gives(name, equation):
    """The written line is a second way to the number: words and numbers, as they are printed."""
    rng = np.random.default_rng(sum(name.encode()))
    for _ in range(20):
        working = Working(equation, drawn(equation, rng))
        _, formula, result = sides(working.line("it"))
        largest = max(map(abs, working.values.values()))
        near = 2e-3 * max(abs(working.result), 1e-3 * largest if equation.unit != "%" else 1.0)
        if equation in (equations.ROWS, equations.SKEINS):
            near = 0.003 * working.result + 1
        assert value_of(formula) == pytest.approx(working.result, abs=near), formula
        assert result.startswith(told(working.result, equation.unit))


def test_a_line_of_the_yarn_gives_the_figure_of_its_table(answer):
    numbers, known = yarn_dict(answer), reasons(answer)
    of = {
        "grist of the yarn": "m_per_100g",
        "wraps to the inch": "wpi",
        "thickness on a ruler": "diameter_mm",
        "thickness of a single in the twist": "single_diameter_mm",
        "angle of the plies": "helix_angle_deg",
        "one turn of the ply twist": "pitch_mm",
        "as mills write it": "linear_density_tex",
        "length as plied": "length_m",
        "length when rested": "rested_length_m",
        "length when washed": "finished_length_m",
        "length lost in plying": "contraction",
    }
    checked = 0
    for words, key in of.items():
        reason, number = known.get(words), numbers[key]
        if reason is None or number is None or not reason.workings:
            continue
        checked += 1
        working = reason.workings[-1]
        assert working.result == pytest.approx(number, rel=1e-9), words
        assert value_of(sides(working.line("it"))[1]) == pytest.approx(number, rel=5e-3, abs=1e-3)
    assert checked >= 5


def test_lines_of_bobbins_hours_and_skeins_give_their_figures(answer):
    told_of, first, takes = reasons(answer), answer.bobbins[0], answer.hours
    need, skein = answer.bobbins_needed, answer.skeins[0]
    assert told_of["bobbin"].workings[0].result == need.full + need.plying
    assert told_of["single"].workings[0].result == pytest.approx(first.end_m - first.start_m)
    assert told_of["weighs"].workings[0].result == pytest.approx(skein.mass_g)
    if takes.spinning_h is None:
        assert "spinning in all" not in told_of
        return
    plies = range(1, len(answer.resolved.tex) + 1)
    each = [told_of[f"ply {k}"].workings[0].result for k in plies]
    assert sum(each) == pytest.approx(takes.spinning_h)
    if takes.plying_h is not None:
        assert told_of["plying"].workings[0].result == pytest.approx(takes.plying_h)
        assert told_of["the job"].workings[0].result == pytest.approx(takes.job_h)


def test_lines_of_the_knitted_piece_give_its_figures(answer):
    knit, told_of = answer.piece, reasons(answer)
    if knit is None:
        assert "yarn in a stitch" not in told_of
        return
    wanted = {
        "yarn in a stitch": knit.loop_cm,
        "one row of the cast-on": knit.row_m,
        "how tight, in numbers (tightness factor)": knit.tightness,
        "washed yarn there is": knit.has_m,
        "rows it gives": knit.rows_possible,
        f"washed yarn that {knit.rows} rows take": knit.needs_m,
        "the same as plied": knit.needs_plied_m,
        "how wide": knit.width_cm,
        "how high": knit.height_cm,
    }
    if knit.gauge_is_guess:
        wanted["stitches in 10 cm"] = knit.gauge_stitches
    for words, number in wanted.items():
        if told_of[words].workings:
            assert told_of[words].workings[0].result == pytest.approx(number), words


@pytest.mark.parametrize("units", [None, "imperial"])
@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_no_figure_of_the_tables_is_without_an_answer(file, units):
    answer, figures = yc.answer(replace(yc.read_plan(file), units=units)), 0
    for show in (*WEIGH_OUT, *NUMBERS):
        html = show(answer, explained=True).html
        assert unanswered(html.replace(EXPLAINED, ""), answer.plan.names) == [], show
        for figure, answers in figures_in(html):
            assert answers, (show, figure)
            figures += 1
            for one in answers:
                assert one.name == f"why {one.seen}?"
                assert "Where from: " in one.told
                assert "Surer: " in one.told
    assert figures > 60


def test_tables_stay_as_they_are_where_nobody_asks(answer):
    for show in (yc.show.known, yc.show.weigh_out, yc.show.hours, yc.show.stash):
        assert "<details" not in show(answer).html
        assert show(answer).text == show(answer, explained=True).text


@pytest.mark.parametrize(
    ("tables", "of", "how", "by"),
    [
        ({}, origins.grist, "assumed", "as is usual"),
        ({"spinning": {"single_tex": 90.0}}, origins.grist, "given", "by the tex of the singles"),
        (
            {"spinning": {"sample": {"length_m": 20.0, "mass_g": 2.0}}},
            origins.grist,
            "measured",
            "by the weighed sample",
        ),
        ({"spinning": {"single_wpi": 30.0}}, origins.grist, "reckoned", "by the singles' wraps"),
        ({"plying": {"contraction": 0.04}}, origins.length_lost, "measured", ""),
        ({}, origins.length_lost, "assumed", "to be none"),
        ({"scheme": TWO, **TWISTED}, origins.length_lost, "reckoned", ""),
        ({}, origins.spin_loss, "assumed", "as is usual"),
        ({"spinning": {"spin_loss": 0.02}}, origins.spin_loss, "given", ""),
        (
            {"spinning": {"wrapped_skein": {"wpi": 12.0, "m_per_100g": 250.0}}},
            origins.ruler_density,
            "measured",
            "by a wrapped skein",
        ),
        ({}, origins.ply_twist, "not said", ""),
    ],
)
def test_it_is_said_how_a_thing_is_known(tables, of, how, by):
    source = of(found(**tables))
    assert (source.how, source.by) == (how, by)


HAND = """
format = 1
kind = "yarncolor hand"
yarns = ["Ebb", "Neap"]
[spin_loss]
value = 0.02
rests_on = 4
[contraction]
value = 0.04
rests_on = 2
[finishing_shrinkage]
value = 0.05
rests_on = 3
[minutes_per_g]
value = 3.0
rests_on = 2
"""
PLAN = """hand = "hand.toml"
[[lots]]
name = "Kelp"
mass_g = 40.0
colour = "#446688"
[[lots]]
name = "Foam"
mass_g = 40.0
colour = "#eeeeee"
"""


def test_what_your_hand_says_is_told_as_the_assumptions_tell_it(tmp_path):
    (tmp_path / "hand.toml").write_text(HAND, encoding="utf-8")
    (tmp_path / "plan.toml").write_text(PLAN, encoding="utf-8")
    answer = yc.answer(yc.read_plan(tmp_path / "plan.toml"))
    assumed = plan_sentences(answer.resolved)
    each = {
        "lost in spinning": origins.spin_loss(answer),
        "length lost in plying": origins.length_lost(answer),
        "shrinks in the wash": origins.wash(answer),
        "minutes for a gram": origins.pace(answer)[0],
    }
    for words, source in each.items():
        said = next(line for line in assumed if line.startswith(words))
        assert said.endswith(f", {source.known}")
        assert source.known.startswith("from your hand, by ")
    told_of = yc.show.why(answer, "length as plied").text
    assert "length lost in plying (from your hand, by 2 yarns)" in told_of


def test_what_is_assumed_is_among_the_assumptions(answer):
    keys = {
        "loss in spinning": ("spinning", "spin_loss"),
        "loss in carding": ("spinning", "card_loss"),
        "density in the twist": ("spinning", "packed_density_g_per_cm3"),
        "the scale’s step": ("scale", "step_g"),
    }
    seen = {
        source.words: source for reason in reasons(answer).values() for source in reason.rests_on
    }
    for words, (table, key) in keys.items():
        assumed = answer.resolved.assumed(table, key) is not None
        assert (seen[words].how == "assumed") == assumed, words


def test_a_name_out_of_a_file_is_text_and_nothing_more():
    data = by_hand({"<script>alert(1)</script>": 30.0, "Foam": 30.0})
    answer = yc.answer(yc.plan_from_data(data))
    for html in (yc.show.why(answer).html, yc.show.stash(answer, explained=True).html):
        assert "<script" not in html
        assert "&lt;script&gt;" in html


def test_a_plan_in_yards_gets_its_lengths_in_yards_too():
    lines = yc.show.why(found(units="imperial"), "length as plied").text
    metres, yards = re.search(r"= ([\d.]+) m, ([\d.]+) yd", lines).groups()
    assert float(metres) / float(yards) == pytest.approx(0.9144, rel=1e-3)
    assert " yd" not in yc.show.why(found(), "length as plied").text


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_fields_to_type_in_are_called_as_the_form_calls_them(units):
    """In a plan in ounces no field is called by its grams or its metres."""
    answer = found(units=units, scheme=TWO, **TWISTED)
    fields = {key.words for key in keys_said_in(units).values()}
    named = re.findall("enter “([^”]+)”", yc.show.why(answer).text)
    assert len(set(named)) > 5
    assert set(named) <= fields
    if units == "imperial":
        assert [words for name in named for words in metric_words(name)] == []


KEPT_AS_THEY_ARE = ("by turns in a metre", "turns in a metre from yarn to single (ISO 1139)")
"""The name of a way that was typed, and how mills write a yarn."""


@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_words_beside_formulas_are_in_the_units_of_the_plan(file):
    answer = yc.answer(replace(yc.read_plan(file), units="imperial"))
    for about, own in every_reason(answer).items():
        for words, reason in own.items():
            lines = [reason.figure, *list(reason.lines(answer.say))[len(reason.workings) :]]
            told = "\n".join(lines)
            for kept in KEPT_AS_THEY_ARE:
                told = told.replace(kept, "")
            if reason.figure not in ("m/g", "m/100 g"):
                assert metric_words(told) == [], (about, words)


@pytest.mark.parametrize(
    ("units", "long", "little"),
    [
        ("metric", "weigh 20 m of single", "spin ten grams by the clock"),
        ("imperial", "weigh 20 yd of single", "spin half an ounce by the clock"),
    ],
)
def test_what_hands_are_asked_for_is_round_in_the_units_of_the_plan(units, long, little):
    answer = found(units=units)
    assert origins.grist(answer).surer.startswith(long)
    assert origins.pace(answer)[-1].surer.startswith(little)


def test_what_would_be_surer_begins_with_what_is_least_known():
    text = yc.show.why(found(scheme=TWO, **TWISTED), "wraps to the inch").text
    surer = next(line for line in text.splitlines() if "Surer: " in line)
    assert "Surer: wrap a skein of your own" in surer
    assert surer.count(", in Every option") == 2


def test_one_figure_is_asked_for_by_its_name_and_a_misspelling_is_told():
    answer = found()
    text = yc.show.why(answer, "wraps to the inch").text
    assert text.startswith(
        "Why\n\nThe yarn\n  wraps to the inch\n    wraps to the inch = 25.4 mm ÷ "
    )
    assert number_in(sides(text.splitlines()[4])[2]) == pytest.approx(
        yarn_dict(answer)["wpi"], rel=1e-3
    )
    assert "hours" not in every_reason(answer)
    with pytest.raises(yc.PlanError) as error:
        yc.show.why(answer, "wraps to an inch")
    assert "is no figure of this plan" in str(error.value)
    assert "“wraps to the inch”" in str(error.value)


def test_what_would_be_surer_is_typed_in_a_section_that_there_is():
    assert set(origins.SECTIONS) <= set(SECTIONS)
    seen = {
        source.section
        for tables in PLANS.values()
        for reason in reasons(found(**tables)).values()
        for source in reason.rests_on
        if source.surer
    }
    assert seen <= set(origins.SECTIONS)
