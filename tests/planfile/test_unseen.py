"""Characters that nobody can see: the Unicode Standard, general category Cf (format)."""

import sys
import unicodedata

import pytest

import yarncolor as yc
from yarncolor.report.advice import advice_on
from yarncolor.report.exports import made, told_apart

JOINERS = "\u200c\u200d"
"""Zero-width joiners: the Unicode Standard, chapter 23.2, letters of joined scripts."""
FORMAT = [
    letter
    for letter in map(chr, range(sys.maxunicode + 1))
    if unicodedata.category(letter) == "Cf" and letter not in JOINERS
]
SHOW_NOTHING = ["\u200b", "\ufeff\u2060", "\u00ad ", "\u200d", "\u3164", "\u2800", "\u115f\u1160"]
"""Format marks, a joiner, and letters drawn as nothing (chapters 18.6 and 21.1)."""


def plan(name: str, title: str = ""):
    lots = [{"name": name, "mass_g": 20, "colour": "#335522"}]
    lots.append({"name": "Foam", "mass_g": 20, "colour": "#ddeeff"})
    return yc.plan_from_data({"title": title, "lots": lots, "scheme": {"sequence": ["Kelp"]}})


def test_a_name_pasted_with_marks_is_the_name_and_that_is_said():
    assert len(FORMAT) > 100
    for mark in FORMAT:
        found = plan(f"{mark}Ke{mark}lp{mark}")
        assert found.names == ("Kelp", "Foam")
        assert found.unseen == ("Kelp",)
    (said,) = [one for one in advice_on(yc.answer(found)) if one.kind == "unseen"]
    assert "“Kelp”" in said.text


def test_joined_letters_stay_joined_and_nothing_is_said():
    name = "می\u200cخواهم"
    found = yc.plan_from_data({"lots": [{"name": name, "mass_g": 20, "colour": "#335522"}]})
    assert found.names == (name,)
    assert found.unseen == ()


@pytest.mark.parametrize(
    "name", SHOW_NOTHING, ids=lambda name: " ".join(f"U+{ord(mark):04X}" for mark in name)
)
def test_a_name_that_shows_nothing_is_a_fault(name):
    with pytest.raises(yc.PlanError, match=r"lots 1.*: name = .*give a name of 1 to 60 characters"):
        plan(name)


def test_two_names_that_look_alike_are_one_name_twice():
    with pytest.raises(yc.PlanError, match=r"lots 2 \(Foam\): name"):
        plan("Fo\u200bam")


def test_every_file_is_made_of_what_was_pasted():
    answer = yc.answer(plan("\ufeffKe\u200blp", "\ufeffTide\u200d"))
    contents, faults = told_apart(made(answer))
    assert faults == []
    assert len(contents) > 10
