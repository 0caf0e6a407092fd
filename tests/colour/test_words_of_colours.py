"""Colours by their names, told by a second table of CSS names and by what the words promise."""

import pytest
from coloraide import Color
from coloraide.css.color_names import name2val_map
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageColor

from yarncolor.colour import words as words_module
from yarncolor.colour.dyes import DYESTUFFS, dyestuff_of, guess_words, is_a_guess
from yarncolor.colour.words import colour_of_words, likely_words, words_of_colour

OUR_OWN = {"transparent", "plum", "indigo", "brown", "chocolate", "darkgrey", "darkgray"}
"""Their brown is a red, their dark grey paler than their grey."""

OTHERWISE = {"mediumpurple": "#9370db", "palevioletred": "#db7093"}
"""Two that the second table has as drafts of CSS had them."""

NAMES = sorted(set(name2val_map) - OUR_OWN)


def lightness(colour):
    return Color(colour).convert("oklab")["l"]


@pytest.mark.parametrize("name", NAMES)
def test_names_of_css_are_what_css_says(name):
    assert colour_of_words(name) == OTHERWISE.get(name, Color(name).to_string(hex=True))


@pytest.mark.parametrize("name", ["brick red", "old rose", "steel blue", "indigo", "fawn"])
def test_words_change_a_colour_as_they_say(name):
    plain = colour_of_words(name)
    assert lightness(colour_of_words(f"very dark {name}")) < lightness(
        f"{colour_of_words(f'dark {name}')}"
    )
    assert lightness(colour_of_words(f"dark {name}")) < lightness(plain)
    assert lightness(plain) < lightness(colour_of_words(f"pale {name}"))
    chroma = [Color(c).convert("oklch")["c"] for c in (colour_of_words(f"dull {name}"), plain)]
    assert chroma[0] < chroma[1]


@pytest.mark.parametrize(
    ("words", "plain", "coordinate", "sign"),
    [
        ("dark reddish brown", "reddish brown", "lightness", -1),
        ("very dark brick red", "dark brick red", "lightness", -1),
        ("very very dark brick red", "very dark brick red", "lightness", -1),
        ("pale greyish blue", "greyish blue", "lightness", 1),
        ("deep dull bluish purple", "dull bluish purple", "lightness", -1),
        ("bright bluish green", "bluish green", "chroma", 1),
        ("greyish olive green", "olive green", "chroma", -1),
        ("reddish brown", "brown", "a", 1),
        ("greenish blue-grey", "blue-grey", "a", -1),
        ("yellowish pale green", "pale green", "b", 1),
        ("bluish dark slate grey", "dark slate grey", "b", -1),
        ("red brown", "brown", "a", 1),
        ("brick red brown", "brown", "a", 1),
        ("moss green", "green", "chroma", -1),
    ],
)
def test_any_number_of_words_change_a_colour_each_as_it_says(words, plain, coordinate, sign):
    """By CIELAB as coloraide has it: a goes to red, b to yellow."""
    after, before = (Color(colour_of_words(each)) for each in (words, plain))
    told = {
        "lightness": lambda colour: colour.convert("lab")["l"],
        "chroma": lambda colour: colour.convert("lch")["c"],
        "a": lambda colour: colour.convert("lab")["a"],
        "b": lambda colour: colour.convert("lab")["b"],
    }[coordinate]
    assert (told(after) - told(before)) * sign > 1


@pytest.mark.parametrize("hue", ["red", "yellow", "green", "blue", "brick red", "teal", "violet"])
def test_greyish_colours_are_as_light_and_of_their_hue(hue):
    """By CIELAB as coloraide has it; a grey of blue once was nearly black."""
    strong, dull = (
        Color(colour_of_words(f"{how} {hue}")).convert("lch") for how in ("mid", "greyish")
    )
    assert dull["c"] < strong["c"] * 0.7
    assert dull["l"] == pytest.approx(strong["l"], abs=4)


def test_a_word_counts_by_how_strongly_it_is_said():
    said = [colour_of_words(f"{how} pale plum".strip()) for how in ("slightly", "", "very")]
    assert sorted(map(lightness, said)) == list(map(lightness, said))
    assert colour_of_words("very blue") == colour_of_words("blue")


@pytest.mark.parametrize(
    ("wrong", "meant"),
    [
        ("drak red", "dark red"),
        ("redish brown", "reddish brown"),
        ("verry dark brik red", "very dark brick red"),
        ("a kind of blue", "blue"),
        ("steelblu", "steel blue"),
        ("rosey pink", "rosy pink"),
        ("turqoise", "turquoise"),
    ],
)
def test_the_nearest_words_are_known_of_wrong_ones(wrong, meant):
    assert colour_of_words(wrong) is None
    assert likely_words(wrong) == meant


@given(st.text(max_size=80))
def test_any_text_means_a_colour_or_none(text):
    colour = colour_of_words(text)
    assert colour is None or Color(colour).to_string(hex=True) == colour
    likely = likely_words(text)
    assert likely is None or colour_of_words(likely) is not None


@given(st.sampled_from(NAMES), st.sampled_from(["", "pale ", "dark ", "reddish ", "dull "]))
def test_what_a_colour_is_called_means_that_colour(name, change):
    colour = colour_of_words(change + name)
    assert colour_of_words(words_of_colour(colour)) == colour


@pytest.mark.parametrize("dye", DYESTUFFS, ids=lambda dye: dye.name)
def test_dyed_colours_are_said_in_three_ways_and_grow_darker(dye):
    for shade, colour in dye.shades.items():
        for words in (f"{dye.name}, {shade}", f"{shade} {dye.name}"):
            assert colour_of_words(words) == colour
            assert dyestuff_of(words) == dye
    assert colour_of_words(dye.name) in dye.shades.values()
    pale_first = [lightness(colour) for colour in dye.shades.values()]
    if "pale" in dye.shades:
        assert pale_first == sorted(pale_first, reverse=True)


def test_a_dyed_colour_is_a_guess_however_it_is_typed():
    for words in ("indigo, pale", "Indigo  pale", "pale, indigo", "INDIGO ,PALE"):
        told = guess_words(words)
        assert told == "a guess, photograph it: indigo in the vat, from memory"
        assert is_a_guess(told)
    assert guess_words("pale") == guess_words("") == guess_words("#4c739e") == ""
    assert not is_a_guess("from a photograph")


def test_a_name_is_known_after_a_picture_was_drawn_in_it():
    """Pillow keeps a name that was drawn with as numbers, in the very table it is read from."""
    ImageColor.getrgb("tomato")
    words_module._names.cache_clear()
    words_module._words.cache_clear()
    assert words_of_colour(colour_of_words("tomato")) == "tomato"


def test_shades_of_a_dye_are_pale_middle_and_dark():
    assert {shade for dye in DYESTUFFS for shade in dye.shades} >= {"pale", "middle", "dark"}
