"""A plan in ounces and yards: no document of it says a gram or a metre, and numbers stay exact.

The expected numbers are those of the metric documents by the agreement of 1959: an ounce is
28.349523125 g, a yard 0.9144 m.
"""

import csv
import html
import json
import re

import pytest

import yarncolor as yc
from tests.helpers.metric_words import metric_words
from tests.helpers.paths import SAMPLES
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.cross_section import yarn_alt
from yarncolor.plan import to_data
from yarncolor.planfile.read import plan_from_data
from yarncolor.report.card.card import card_html
from yarncolor.report.csv_json import plan_json, stretches_csv, weigh_out_csv
from yarncolor.report.phone.facts import facts
from yarncolor.report.record.page import page, several
from yarncolor.report.record.yarns import Yarn

OUNCE_G, YARD_M = 28.349523125, 0.9144
HARD = {
    "lots": [
        {"name": "Kelp", "colour": "#345", "mass_g": 100.0, "reserve_g": 3, "regain": 0.1},
        {"name": "Foam", "colour": "#eee", "mass_g": 60.0, "fibre": "wool"},
        {"name": "Slate", "colour": "#678", "mass_g": 40.0, "rolag_g": 7.0},
        {"name": "Batt", "blend": {"Kelp": 1, "Foam": 2}, "mass_g": 20.0},
        {"name": "Dawn", "colour": "#c88", "mass_g": 30.05},
    ],
    "scheme": {"name": "fractal", "divisions": [1, 3]},
    "spinning": {
        "single_m_per_g": 6,
        "twist_tpi": 5,
        "card_loss": 0.05,
        "spin_loss": 0.03,
        "variation": 0.1,
        "variation_within": 0.1,
        "drive_ratio": 10,
        "treadles_per_min": 60,
        "minutes_per_g": 4,
    },
    "plying": {"twist_tpi": 2.0, "resting_shrinkage": 0.03},
    "bobbins": {
        "count": 3,
        "capacity_g": 60,
        "tare_g": 31.5,
        "plying_capacity_g": 90,
        "plying_tare_g": 60,
    },
    "fabric": {
        "width_cm": 60,
        "rows": 300,
        "gauge_stitches": 30,
        "gauge_rows": 20,
        "finishing_shrinkage": 0.05,
        "swatch": {"stitches": 20, "rows": 28, "mass_g": 9.0},
    },
    "scale": {"regain": 0.15},
}
GUESSED = {**HARD, "scheme": {"name": "chain"}, "spinning": {}, "plying": {}, "fabric": {}}
SPUN = {
    **HARD,
    "spun": [
        {"ply": 1, "row": 1, "mass_g": 80.5, "length_m": 250},
        {"ply": 2, "row": 1, "mass_g": 20.5, "length_m": 250},
        {"ply": 1, "lot": "Foam", "mass_g": 9.5},
    ],
    "plied": {"so_far_m": 35.5},
}
CASES = {"hard": HARD, "guessed": GUESSED, "spun": SPUN}


def answered(data: dict, units: str = "imperial"):
    return yc.answer(plan_from_data({**data, "units": units}))


def read_aloud(page: bytes) -> str:
    """Return what a page says to the eye, its drawings among it, and beside its pictures."""
    text = re.sub(r"<style.*?</style>", "", page.decode(), flags=re.DOTALL)
    beside = re.findall(r"\b(?:alt|title|aria-label)=\"([^\"]*)\"", text)
    return html.unescape("\n".join([re.sub(r"<[^>]*>", "", text), *beside]))


@pytest.mark.parametrize("name", CASES)
def test_summary_and_cards_say_neither_gram_nor_metre(name):
    found = answered(CASES[name])
    assert metric_words(yc.summary_text(found)) == []
    assert metric_words(yarn_alt(found)) == []
    for form in ("short", "long"):
        assert metric_words(read_aloud(card_html(found, form))) == []


@pytest.mark.parametrize("name", CASES)
def test_the_same_plan_in_metres_says_both(name):
    found = answered(CASES[name], "metric")
    assert len(metric_words(yc.summary_text(found))) > 20
    assert len(metric_words(read_aloud(card_html(found)))) > 20


def test_captions_say_neither_gram_nor_metre():
    found = answered(HARD)
    drawn = [draw(found) for draw in PICTURES.values()]
    assert [metric_words(f"{one.caption} {one.alt}") for one in drawn] == [[]] * len(drawn)
    assert any("yd" in one.caption for one in drawn)


def data_of(plan) -> dict:
    return {key: value for key, value in to_data(plan).items() if key != "hand"}


@pytest.mark.parametrize("path", SAMPLES[:3], ids=lambda path: path.stem)
def test_a_plan_that_says_metric_is_the_plan_that_says_nothing(path):
    plan = yc.read_plan(path)
    said = yc.answer(plan_from_data({**data_of(plan), "units": "metric"}))
    bare = yc.answer(plan_from_data(data_of(plan)))
    assert yc.summary_text(said) == yc.summary_text(bare)
    assert card_html(said) == card_html(bare)
    assert weigh_out_csv(said) == weigh_out_csv(bare)


def table(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(content.decode().splitlines()))


def test_headings_of_tables_say_their_unit_and_numbers_are_the_same_masses():
    data = {**HARD, "scale": {"step_g": 0.1}}
    ounces, grams = (
        table(weigh_out_csv(answered(data, units))) for units in ("imperial", "metric")
    )
    assert len(ounces) == len(grams)
    for name in ("mass", "weigh", "running", "on_bobbin"):
        for one, other in zip(ounces, grams, strict=True):
            if other[f"{name}_g"]:
                mass_g = float(one[f"{name}_oz"]) * OUNCE_G
                assert mass_g == pytest.approx(float(other[f"{name}_g"]), abs=1e-7)
    for name in ("start", "end"):
        yards = [float(row[f"{name}_yd"] or 0) * YARD_M for row in ounces]
        assert yards == pytest.approx([float(row[f"{name}_m"] or 0) for row in grams])


def test_stretches_are_in_yards():
    yards, metres = (
        table(stretches_csv(answered(GUESSED, units))) for units in ("imperial", "metric")
    )
    assert [float(row["end_yd"]) * YARD_M for row in yards] == pytest.approx(
        [float(row["end_m"]) for row in metres]
    )


def test_the_numbers_for_other_programs_stay_metric():
    data = {**HARD, "scale": {"step_g": 0.1}}
    ours, metric = (
        json.loads(plan_json(answered(data, units))) for units in ("imperial", "metric")
    )
    for answer in (ours, metric):
        for words in ("advice", "assumptions"):
            answer.pop(words)
    assert ours == metric


def texts(told) -> list[str]:
    """Return every text in data, however deep, its slots left open."""
    if isinstance(told, dict | list):
        parts = told.values() if isinstance(told, dict) else told
        return [text for part in parts for text in texts(part)]
    return [re.sub(r"\{\w+\}", "…", told)] if isinstance(told, str) else []


@pytest.mark.parametrize("name", CASES)
def test_what_the_phone_is_told_says_neither_gram_nor_metre(name):
    """But for the names of units, any of which may be typed."""
    told, in_grams = facts(answered(CASES[name])), facts(answered(CASES[name], "metric"))
    assert told.pop("units") == in_grams.pop("units")
    assert metric_words("\n".join(texts(told))) == []
    assert len(metric_words("\n".join(texts(in_grams)))) > 4


MADE = {"made": {"length_m": 300.0, "mass_g": 180.0, "washed_m": 280.0, "skeins": 2}}
TOLD = {"target": {"yarn_m": 5000.0}, **MADE}


def yarn_of(data: dict, units: str, name: str = "Low Tide") -> Yarn:
    return Yarn(f"{name}.toml", answered({**data, "title": name}, units))


@pytest.mark.parametrize("name", CASES)
def test_the_record_of_a_yarn_says_neither_gram_nor_metre(name):
    yarn = yarn_of(CASES[name] | TOLD, "imperial")
    shown = [yc.record.measures(yarn), yc.record.advice(yarn), yc.record.notes(yarn)]
    told = [yc.record.summary(yarn), yc.record.picture(yarn).alt, *(one.text for one in shown)]
    assert [metric_words(text) for text in (*told, read_aloud(page(yarn)))] == [[]] * 6
    assert "328 yd" in told[0]
    assert len(metric_words(yc.record.summary(yarn_of(CASES[name] | TOLD, "metric")))) > 10


def test_yarns_of_one_unit_are_side_by_side_in_it():
    yarns = [yarn_of(HARD | MADE, "imperial", name) for name in ("Ebb", "Neap")]
    for text in (yc.record.table(yarns).text, yc.record.side_by_side(yarns).alt):
        assert metric_words(text) == []
    assert metric_words(read_aloud(several(yarns, b""))) == []


def test_yarns_of_different_units_are_side_by_side_in_metres_and_it_is_said():
    yarns = [
        yarn_of(HARD | MADE, units, name)
        for units, name in (("imperial", "Ebb"), ("metric", "Neap"))
    ]
    said = "Their plans are in different units: here all is in grams and metres."
    for text in (yc.record.table(yarns).text, read_aloud(several(yarns, b""))):
        assert said in text
        assert text.count("300 m") >= 2
        assert "yd" not in text
    assert said not in yc.record.table([yarns[1], yarns[1]]).text


@pytest.mark.parametrize("name", CASES)
def test_the_data_of_a_record_stay_in_grams_and_metres(name):
    """Its texts too: they stand beside its numbers, and what reads them knows no plan."""
    ours, metric = (yc.record.numbers([yarn_of(CASES[name], u)]) for u in ("imperial", "metric"))
    assert re.findall(r"\d (?:oz|yd|yd/lb)\b|\b(?:ounce|yard)s?\b", json.dumps(ours)) == []
    assert ours["yarns"][0].keys() == metric["yarns"][0].keys()


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize("tex", [20.0, 99.9, 100.05, 333.0, 4000.0])
def test_no_number_of_the_yarn_is_told_with_a_power_of_ten(units, tex):
    lots = [{"name": "Kelp", "colour": "#345", "mass_g": 60.0}]
    data = {"units": units, "lots": lots, "spinning": {"single_tex": tex}, "scheme": {"plies": 1}}
    assert not re.search(r"\de\+", yc.show.known(yc.answer(plan_from_data(data))).text)
