"""What is said of a fault: a sentence with slots, worded once for each audience."""

import pytest

from yarncolor.editing.fault_words import in_form_words, in_row_words
from yarncolor.errors import Fault, Place, PlanError
from yarncolor.said import (
    LIST_OF_PLIES,
    PORTIONS,
    Choice,
    Choices,
    KeyName,
    ShareSpan,
    one_for_each,
    predicate,
    said,
)

CRITERIA = ("two_thirds", "self_plied")


@pytest.mark.parametrize(
    ("slot", "file", "form"),
    [
        (KeyName("spinning", "single_tex"), "single_tex", "“single, tex (g in 1,000 m)”"),
        (KeyName("plying", "twist_tpm", with_table=True),
         "plying twist_tpm", "“turns in a metre” in plying"),
        (KeyName("lots", "mass_g"), "mass_g", "mass_g"),
        (ShareSpan(0, 0.9), "a share from 0 to 0.9", "per cent from 0 to 90"),
        (ShareSpan(0, 0.6, "water over dry mass"), "water over dry mass, a share from 0 to 0.6",
         "water over dry mass, per cent from 0 to 60"),
        (Choice("plying", "balance", "self_plied"), "self_plied", "as a single plies itself"),
        (Choices("plying", "balance", CRITERIA), "two_thirds, self_plied",
         "two thirds of the singles' twist, as a single plies itself"),
        (one_for_each("ply"), "a list with one for each ply", "one for each ply"),
        (LIST_OF_PLIES, "a list of plies", "plies"),
        (PORTIONS, "[[scheme.portions]]", "portions"),
    ],
)  # fmt: skip
def test_a_slot_is_worded_for_file_and_form(slot, file, form):
    remedy = said("give {it}", it=slot)
    assert str(remedy) == f"give {file}"
    assert in_form_words(remedy) == f"give {form}"


def test_a_row_of_the_stash_has_water_in_per_cent():
    remedy = said("give {span}", span=ShareSpan(0, 0.6, "water over dry mass"))
    assert in_row_words(remedy) == "give water over dry mass in per cent, 0 to 60"


@pytest.mark.parametrize("name", ["wound_off", "{name}", "a share from 0 to 1", "{", "}}"])
def test_a_text_of_the_user_is_said_as_it_is(name):
    inside = said("{name}", name=name)
    for remedy in (said("no lot is {name}", name=name), said("no lot is {it}", it=inside)):
        assert str(remedy) == in_form_words(remedy) == in_row_words(remedy) == f"no lot is {name}"


def test_numbers_are_said_as_the_sentence_says():
    assert str(predicate("says {value:.4g} {what}", value=12.34567, what="tex")) == "says 12.35 tex"


@pytest.mark.parametrize(
    ("path", "names", "words"),
    [
        (("lots", 1, "mass_g"), ("", "Foam", ""), "lots 2 (Foam): mass_g"),
        (("lots", 1), ("", ""), "lots 2"),
        (("scheme", "portions", 0, "lot"), (), "scheme: portions 1: lot"),
        (("a\nb",), (), "a\\nb"),
        ((), (), ""),
    ],
)
def test_a_place_is_said_from_its_path(path, names, words):
    assert str(Place(path, names)) == words


def test_a_fault_knows_its_path_and_its_line():
    place = Place(("lots", 0, "mass_g"), ("", "Kelp", ""))
    fault = Fault("plan.toml", place, "-1", said("give {span}", span=ShareSpan(0, 1)))
    assert fault.path == ("lots", 0, "mass_g")
    told = "plan.toml: lots 1 (Kelp): mass_g = -1: give a share from 0 to 1"
    assert str(PlanError([fault])) == told
    assert Fault("", "view", "", "").path == ("view",)
    assert Fault("plan.toml", "", "", "").path == ()
