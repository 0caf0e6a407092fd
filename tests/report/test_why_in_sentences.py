"""Figures in sentences and captions answer why: none is left out, and their lines give them."""

import re
from dataclasses import replace

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.asked import headings, numbers_without, read, unanswered
from tests.helpers.lines_reckoned import lines_give_their_numbers
from tests.helpers.paths import SAMPLE_DATA
from tests.helpers.strategies import by_hand
from tests.helpers.tables_read import figures_in
from yarncolor.answers.choices import replan
from yarncolor.answers.evenness import ASSUMED, in_some_hands
from yarncolor.answers.rescues import rescued_yarns
from yarncolor.answers.spins import spins
from yarncolor.answers.straying import straying
from yarncolor.answers.where import where
from yarncolor.colour.palette import blend_doubts
from yarncolor.editing.editor import Editor
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.view import ViewSettings
from yarncolor.report.drift_words import what_happens
from yarncolor.report.orders_words import sure_told, worth_text, worth_told
from yarncolor.report.record.yarns import Yarn
from yarncolor.report.show.comparison import show_differences
from yarncolor.report.show.drift import drift_in_words, misfit_shown, yarns_shown
from yarncolor.report.show.fragment import Picture
from yarncolor.report.show.record import show_measures
from yarncolor.report.why.at_the_wheel import AFTER, FOUND, STRAYED, WEIGH, wheel_seen
from yarncolor.report.why.compared import compared_whys
from yarncolor.report.why.equation import METRIC
from yarncolor.report.why.hands import hands_reasons, helps_whys, portion_strays
from yarncolor.report.why.made import made_whys
from yarncolor.report.why.orders import order_reasons, search_reasons
from yarncolor.report.why.pictures import picture_seen
from yarncolor.report.why.plying import plying_seen, where_reasons
from yarncolor.report.why.seen import Seen, seen_in, told_of
from yarncolor.report.why.stash import batts_whys, left_whys
from yarncolor.report.why.weighing import first_weighed, weighing_reasons
from yarncolor.report.why.wheel import skeins_whys
from yarncolor.report.why.yarn_seen import strip_seen
from yarncolor.widgets.plying.plying_bench import PlyingBench
from yarncolor.widgets.spinning.spinning_bench import SpinningBench

FILES = sorted(SAMPLE_DATA.rglob("*.toml"))
LOTS = {"Kelp 2": 30.0, "Foam": 30.0, "Ebb": 30.0}


def found(**tables):
    return yc.answer(yc.plan_from_data(by_hand(LOTS, **tables)))


def of_file(file, units):
    return yc.answer(replace(yc.read_plan(file), units=units))


HANDS = {
    "even": {"variation": 0.05},
    "along them": {"variation": 0.08, "variation_within": 0.3},
    "drifting": {"variation": 0.08, "variation_drift": 0.5, "variation_bobbins": 0.04},
    "by eye": {"divided": "eye", "variation": 0.05},
}
TWO = {"name": "matched", "plies": 2}


@pytest.mark.parametrize("units", [None, "imperial"])
@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_no_figure_of_what_hands_do_is_without_an_answer(file, units):
    answer, assumed = in_some_hands(of_file(file, units))
    html = drift_in_words(answer, explained=True, assumed=assumed).html
    assert unanswered(html, answer.plan.names) == []
    assert read(html).names == ["Why these figures? What hands do"]
    for shown in (yarns_shown(answer, assumed=assumed), misfit_shown(answer, assumed=assumed)):
        if isinstance(shown, Picture):
            assert numbers_without(shown.alt, headings(shown.seen)) == []


@pytest.mark.parametrize("hands", HANDS.values(), ids=HANDS)
def test_lines_of_what_hands_do_give_its_figures(hands):
    answer = found(scheme=TWO, spinning={"single_tex": 100.0, **hands})
    drift = answer.drift_at_hand
    reasons = hands_reasons(answer, drift)
    assert sum(map(lines_give_their_numbers, {id(r): r for r in reasons.values()}.values())) > 8
    wanted = {
        "short_half": drift.short_by_m[1],
        "short_most": drift.short_by_m[2],
        "ends_first": drift.ends_first[-1],
        "wander": (drift.changes_m[:, 1] - drift.changes_m[:, 0]).max() / 2,
        "matched_planned": answer.shares[0],
    }
    for of, number in wanted.items():
        assert reasons[of].workings[-1].result == pytest.approx(number), of
    assert [line.result for line in reasons["off"].workings[1:]] == pytest.approx(
        [*filter(None, drift.off_m)]
    )
    whys = helps_whys(answer, drift)
    for one, working in zip(drift.helps, whys.heads["won"].workings, strict=True):
        assert working.result == pytest.approx(one.gain_m, abs=1e-9)
    for one, working in zip(drift.helps, whys.heads["work"].workings, strict=True):
        assert working.result == pytest.approx(one.short_by_m[1] - drift.short_by_m[1], abs=1e-9)


@pytest.mark.parametrize("hands", HANDS.values(), ids=HANDS)
def test_the_line_of_one_portion_is_how_it_strays(hands):
    answer = found(scheme=TWO, spinning={"single_tex": 100.0, **hands})
    strays = straying(answer.layout, answer.on_scale_g)
    at = int(answer.layout.portions.length_m.argmax())
    parts = (strays.drifting_m, strays.within_m, strays.reading_m, strays.bobbin_m)
    (line,) = portion_strays(answer)
    assert line.result == pytest.approx(sum(part[at] ** 2 for part in parts) ** 0.5)


def test_the_ranks_that_are_told_are_those_between_which_a_figure_lies():
    """In a row of all yarns, the shortest first, counted: what is told of half and of most."""
    answer = found(scheme=TWO, spinning={"single_tex": 100.0, **HANDS["even"]})
    drift = answer.drift_at_hand
    spun = spins(answer.layout, straying(answer.layout, answer.on_scale_g), drift.spins)
    row, reasons = np.sort(spun.yarn_m), hands_reasons(answer, drift)
    planned_m = answer.layout.stretches.yarn_m
    for of, short_m in zip(("short_half", "short_most"), drift.short_by_m[1:], strict=True):
        told = re.search(r"numbers ([\d,]+) and ([\d,]+)", reasons[of].method).groups()
        low, high = (row[int(number.replace(",", "")) - 1] for number in told)
        assert low - 1e-9 <= planned_m - short_m <= high + 1e-9


PLANS = {
    "bare": {},
    "two plies": {
        "scheme": TWO,
        "spinning": {"single_tex": 100.0, "spin_loss": 0.03, "card_loss": 0.02},
        "bobbins": {"plying_capacity_g": 25.0},
    },
    "unlike plies": {"scheme": {**TWO, "name": "staggered"}, "scale": {"step_g": 0.7}},
    "a chain": {"scheme": {"name": "chain"}, "spinning": {"single_tex": 80.0}},
}


@pytest.mark.parametrize("tables", PLANS.values(), ids=PLANS)
def test_lines_of_weighing_and_of_what_stays_give_their_figures(tables):
    answer = found(**tables)
    reasons = weighing_reasons(answer)
    assert all(map(lines_give_their_numbers, (reasons["raw"], reasons["spun"])))
    assert reasons["spun"].workings[0].result == pytest.approx(
        answer.layout.portions.mass_g.sum() * (1 - answer.resolved.spin_loss)
    )
    for rest in reasons["rest"].workings:
        assert rest.result == pytest.approx(answer.weigh_rest_g.max())
    before, weigh = first_weighed(answer)
    row = next(row for row in answer.weigh_out[0].rows if row.weigh_g)
    assert before.result == pytest.approx(row.mass_g)
    assert weigh.result == pytest.approx(row.weigh_g)
    assert abs(before.result - weigh.result) < answer.resolved.step_g * 1.1
    for stays in left_whys(answer).heads["left over"].workings:
        on_ply = [one.mass_g for one in answer.leftovers if one.on_bobbin]
        assert stays.result <= sum(on_ply) * (1 + 1e-9)
        assert stays.result >= sum(on_ply) / len(answer.resolved.tex) * (1 - 1e-9)
    for count in skeins_whys(answer).heads["skein"].workings:
        assert count.result == len(answer.skeins)


def test_a_line_says_how_near_each_carded_lot_of_the_plan_comes_to_its_colour():
    lots = by_hand(LOTS)["lots"]
    blend = {"Kelp 2": 1, "Foam": 2}
    made = [*lots, {"name": "Batt", "mass_g": 9.0, "blend": blend}]
    answer = yc.answer(yc.plan_from_data({"lots": made, "scheme": TWO}))
    near = batts_whys(answer, drafted=False).heads["its colour"]
    assert lines_give_their_numbers(near) == 1
    (line,) = near.workings
    assert line.of == "Batt"
    assert line.result == pytest.approx(max(blend_doubts(answer.plan.lots)))


SCHEMES = ("matched", "staggered", "fractal")
VARIED = {"spinning": {"single_tex": 100.0, "twist_tpm": 320.0}, "plying": {"twist_tpm": 200.0}}


@pytest.mark.parametrize("units", [{}, {"units": "imperial"}])
def test_no_figure_of_yarns_side_by_side_is_without_an_answer(units):
    plans = {
        letter: found(scheme={"name": name, "plies": 3}, **units, **VARIED)
        for letter, name in zip("ABC", SCHEMES, strict=True)
    }
    html = show_differences(plans, explained=True).html
    assert unanswered(html, LOTS) == []
    figures = figures_in(html)
    assert len(figures) > 12
    assert [figure for figure, answers in figures if not answers] == []
    for answer in plans.values():
        assert numbers_without(strip_alt(answer), headings(strip_seen(answer)), LOTS) == []
    whys = compared_whys(plans, 3)
    assert sum(map(lines_give_their_numbers, whys)) > 12
    for answer, line in zip(plans.values(), whys.rows["matched"].workings, strict=True):
        assert line.result == pytest.approx(answer.shares[0])
    for answer, line in zip(plans.values(), whys.rows["yarn"].workings, strict=True):
        assert line.result == pytest.approx(answer.layout.stretches.yarn_m)


WASHED = {"fabric": {"finishing_shrinkage": 0.05}}
MADE = {
    "length_m": 260.0,
    "washed_m": 240.0,
    "mass_g": 85.0,
    "wpi": 11.0,
    "skeins": 2,
    "hours_spinning": 9.0,
    "hours_plying": 2.0,
}


@pytest.mark.parametrize("more", [{}, {"units": "imperial"}, WASHED, {"made": MADE}])
def test_no_figure_of_what_came_out_is_without_an_answer(more):
    for tables in ({}, VARIED):
        answer = found(scheme=TWO, **{**tables, **more})
        html = show_measures(Yarn("plan.toml", answer), explained=True).html
        assert unanswered(html, LOTS) == []
        figures = figures_in(html)
        assert len(figures) > 3
        assert [figure for figure, answers in figures if not answers] == []
        assert sum(map(lines_give_their_numbers, made_whys(answer))) > 2


AIMS = {"smooth": 2.0, "even": 1.0, "lively": 1.0}


def test_points_of_an_order_are_added_from_its_aims():
    lots = {"Kelp": 20.0, "Foam": 35.0, "Ebb": 15.0, "Slate": 50.0}
    scheme = {"name": "staggered", "plies": 2}
    own = yc.answer(yc.plan_from_data(by_hand(lots, scheme=scheme, orders={"aims": AIMS})))
    looked = yc.orders.search(own.plan)
    for one in (looked.now, *looked.best):
        reasons = order_reasons(looked, one, own)
        assert lines_give_their_numbers(reasons["score"]) >= 2
        added = sum(line.result for line in reasons["score"].workings)
        assert added == pytest.approx(100 * one.score)
        seen = seen_in([worth_told(one)], reasons)
        assert numbers_without(worth_text(one), headings(seen)) == []
    sure = sure_told(looked)
    assert numbers_without(str(sure), headings(seen_in([sure], search_reasons(own)))) == []


PLIED = {
    "said": {"so_far_m": 40.0},
    "by turns": {"turns": 30.0, "turn_m": 1.5},
    "by weight": {"gross_g": 50.0, "plying_tare_g": 40.0},
}


@pytest.mark.parametrize("plied", [{}, *({"plied": one} for one in PLIED.values())])
def test_no_figure_at_the_plying_wheel_is_without_an_answer(plied):
    answer = found(scheme={**TWO, "name": "staggered"}, **VARIED, **plied)
    told = PlyingBench(Editor(answer.plan)).state()
    said = [*told["where"], *told["changes"], told["stands"]]
    said += [text for one in told["rescues"] for text in (one["name"], one["worth"])]
    asked = "\n".join(heading for heading, _ in told["why"])
    assert numbers_without("\n".join(said), asked, LOTS) == []
    assert all(lines for _, lines in told["why"])
    reasons = where_reasons(answer)
    assert bool(reasons) == bool(plied)
    place = where(answer)
    wanted = {"so_far": place.yarn_m, "to_come": place.left_m} if place else {}
    for of, number in wanted.items():
        for line in reasons[of].workings:
            assert line.result == pytest.approx(number)
    for reason in reasons.values():
        lines_give_their_numbers(reason)


RAN_OUT = {"plied": {"so_far_m": 20.0, "ended_ply": 2, "at_m": 60.0}}


@pytest.mark.parametrize("more", [RAN_OUT, {**RAN_OUT, **VARIED, "units": "imperial"}])
def test_each_rescue_says_by_its_own_line_what_it_comes_to(more):
    answer = found(scheme={**TWO, "plies": 3}, **more)
    yarns = rescued_yarns(answer)
    seen = plying_seen(answer, yarns, 4)[-len(yarns) :]
    assert {one.kind for one in yarns} >= {"fewer_plies", "fold", "both_ends", "chain", "keep"}
    for one, told in zip(yarns, seen, strict=True):
        lines_give_their_numbers(told.reason)
        assert [line.result for line in told.reason.workings] == pytest.approx(
            [one.extra_m] if one.plies else []
        )


ROWS = [{"ply": 1, "row": 1, "mass_g": 12.0, "length_m": 100.0}, {"ply": 2, "row": 1}]


@pytest.mark.parametrize("spun", [[], ROWS])
@pytest.mark.parametrize("tare", [{}, {"bobbins": {"tare_g": 30.0}}])
def test_no_figure_at_the_wheel_is_without_an_answer(spun, tare):
    spinning = {**VARIED["spinning"], "minutes_per_g": 4.0}
    answer = found(**{**VARIED, "scheme": TWO, "spinning": spinning, "spun": spun}, **tare)
    bench = SpinningBench(Editor(answer.plan))
    told, wheel = bench.ways(), bench.state()
    asked = "\n".join(heading for heading, _ in told["why"])
    said = [told["matters"], told["reason"], *([wheel["progress"]] if spun else [])]
    said += [text for one in told["choices"] for text in (one["name"], one["worth"])]
    assert numbers_without("\n".join(said), asked, LOTS) == []
    beside = {"weigh": WEIGH, "after": AFTER, **({"found": FOUND} if spun else {})}
    for page in wheel["plies"]:
        for row in page["rows"]:
            assert all(words in asked for key, words in beside.items() if row[key])
    assert (STRAYED in asked) == bool(spun)
    assert all(lines for _, lines in told["why"])


def test_each_way_to_go_on_says_by_its_own_line_what_it_keeps():
    far = replan(found(scheme=TWO, **VARIED, spun=ROWS))
    own = [one.reason for one in wheel_seen(far.answer, far)]
    kept = [line for one in own for line in one.workings if line.figure == "kept as planned"]
    assert len(far.choices) > 1
    assert [line.result for line in kept] == pytest.approx([one.as_planned for one in far.choices])


OF_PICTURES = {
    "yarn": {"from_m": 3.2, "length_mm": 100.0, "size_px": (400, 60)},
    "portrait": {"length_mm": 14.0, "size_px": (300, 80)},
    "whole": {"rows": 6, "size_px": (300, 120)},
    "wraps": {"size_px": 200},
    "skein": {},
    "ball": {"size_px": (200, 200)},
    "knitted": {"size_px": (300, 200)},
    "woven": {"size_px": (300, 200)},
}


@pytest.mark.parametrize("picture", PICTURES)
def test_no_figure_of_a_caption_is_without_an_answer(picture):
    plans = (found(scheme=TWO, **VARIED), found(units="imperial"))
    for answer, distance_m in zip(plans, (2.0, 0.0), strict=True):
        look = ViewSettings(distance_m=distance_m)
        drawn = PICTURES[picture](answer, look=look, **OF_PICTURES[picture])
        seen = picture_seen(answer, drawn)
        words = f"{drawn.alt} {drawn.caption}"
        assert numbers_without(words, headings(seen), LOTS) == []
        assert str(drawn.told) == drawn.caption


def test_a_caption_s_figures_have_reasons_that_are_found_without_spinning_the_plan():
    answer = found(scheme=TWO, spinning={"variation": 0.1, "variation_within": 0.3})
    picture_seen(answer, PICTURES["yarn"](answer, **OF_PICTURES["yarn"]))
    compared_whys({"A": answer}, 2)
    assert not {"spread", "drift", "drift_at_hand", "matched_band"} & set(vars(answer))


def test_hands_that_are_assumed_are_called_so_and_those_of_the_plan_are_not():
    answer, assumed = in_some_hands(found(scheme=TWO))
    told = read(drift_in_words(answer, explained=True, assumed=assumed).html).told
    assert f"how even your hands are (assumed, to be {ASSUMED.name})" in told
    given = found(scheme=TWO, spinning={"variation": 0.05})
    told = read(drift_in_words(given, explained=True).html).told
    assert "how even your hands are (given)" in told


def test_what_several_figures_say_is_told_once():
    answer = found(scheme=TWO, spinning={"variation": 0.05})
    html = drift_in_words(answer, explained=True).html
    told = read(html).told
    assert told.count("one portion strays, as a standard deviation") == 1
    drift = answer.drift_at_hand
    assert set(hands_reasons(answer, drift)) >= {
        figure.of
        for sentence in what_happens(answer, drift)
        for figure in sentence.slots.values()
        if hasattr(figure, "of")
    }


def test_a_figure_asked_alone_has_all_its_lines():
    answer = found(scheme=TWO, spinning={"variation": 0.05})
    reason = hands_reasons(answer, answer.drift_at_hand)["short_most"]
    ((heading, lines),) = told_of([Seen("12 m", reason)], METRIC)
    assert heading == "12 m: short, of one in twenty"
    assert lines == list(reason.lines())
