"""What is typed on the phone, read by its page and by the bench: the same to the last digit."""

import json
from math import isfinite
from pathlib import Path

import numpy as np
import pytest

import yarncolor as yc
from tests.helpers.phone import plan_of
from yarncolor.editing.field_units import in_units
from yarncolor.editing.option_text import parse_value
from yarncolor.measures import measures_of
from yarncolor.plan.reference import KEYS
from yarncolor.report.phone.facts import facts
from yarncolor.scripts import program
from yarncolor.units import UNITS

pytestmark = pytest.mark.browser

DRAWN = 600
FIELDS = {
    ("mass", "mass_g"): KEYS["spun", "mass_g"],
    ("mass", "gross_g"): KEYS["spun", "gross_g"],
    ("length", "length_m"): KEYS["spun", "length_m"],
    ("length", "turn_m"): KEYS["plied", "turn_m"],
}
NUMBERS = (
    *("27,5", "27.5", "0", "-3", "−3", "+4", "5.", ".5", "1e3", "1e-7", "1_000", "12345678.9"),
    *("1 1/4", "1-1/4", "1/3", "2 ⁄ 7", "1/0", "½", "1½", "1 ⅔", "⅓", "10 ⅞", "0.1 1/2"),
    *("1,250", "1.250,5", "1 200", "12 345 678", "1'250", "1\u202f250,5", "0,125", "1,2,3"),
    *("٣,٥", "٣.٥", "१२,५", "1e400", "nan", "inf", "0.1000000000000000055511", "9" * 70),
)
USUAL = ("", " g", " oz", "oz", " lb", " YD", " m", "m", " ft", " in", ' "', " Kg", " metres")
JOINED = (
    "",
    " ",
    "  ",
    "\u00a0",
    "\t",
    " in ",
    " per ",
    "/",
    " for 100 ",
    " and ",
    ", ",
    "=",
    " a ",
)
HOSTILE = (
    "six",
    "<b>",
    "ſ",
    "K",
    " שלום",
    "\u202e",
    "\ufeff",
    "\x1c",
    "(",
    "%",
    "__",
    "\x00",
    "\\",
)


def text_from(chance: np.random.Generator) -> str:
    """Return what a hand may type, and now and then what none would."""
    parts = []
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3))):
        unit = one_of(chance, (*USUAL, f" {one_of(chance, [*UNITS])}"))
        drawn = str(int(chance.integers(10**7)) / 10 ** int(chance.integers(6)))
        parts.append(one_of(chance, (*NUMBERS, drawn)) + unit + one_of(chance, JOINED))
    if chance.random() < 0.15:
        parts.insert(int(chance.integers(len(parts) + 1)), one_of(chance, HOSTILE))
    return "".join(parts)


def one_of(chance: np.random.Generator, texts) -> str:
    return texts[int(chance.integers(len(texts)))]


def by_the_bench(key, text: str):
    """Return a number, or None where the bench finds none."""
    found = parse_value(key, text.strip())
    return float(found) if not isinstance(found, str) and isfinite(found) else None


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_the_phone_reads_what_the_bench_reads(chromium, units):
    plan = yc.plan_from_data(plan_of("Kelp", "Foam") | {"units": units})
    chance = np.random.default_rng(19)
    drawn = [(field, text_from(chance)) for field in FIELDS for _ in range(DRAWN // len(FIELDS))]
    whole = [(field, number + unit) for field in FIELDS for number in NUMBERS for unit in USUAL]
    asked = whole + drawn
    page = chromium.new_page()
    page.evaluate(program(Path(__file__).parents[1] / "helpers" / "phone_reads.js"))
    read = page.evaluate(
        "([plan, asked]) => phoneReads(JSON.parse(plan), asked)",
        [json.dumps(facts(yc.answer(plan))), [[*field, text] for field, text in asked]],
    )
    page.close()
    say = measures_of(plan)
    expected = [by_the_bench(in_units(FIELDS[field], say), text) for field, text in asked]
    assert [*zip(asked, read, strict=True)] == [*zip(asked, expected, strict=True)]
    assert sum(value is not None for value in read) > DRAWN
