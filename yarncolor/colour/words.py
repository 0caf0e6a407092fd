"""Colours by their names: those of CSS, plain ones of our own, and words that change them.

The plain names and what the words do are our own, by eye: no source. "Very" counts a word twice.
"""

import re
from difflib import get_close_matches
from functools import cache

from yarncolor.colour.dyes import dyed_colours
from yarncolor.colour.science import hex_from_srgb, srgb_from_hex

_PLAIN = {
    "brick red": "#9f4236", "blood red": "#7a1620", "wine": "#6b2035", "burgundy": "#6d1f33",
    "rust": "#a4512a", "russet": "#85492f", "terracotta": "#b9674a", "copper": "#a9653b",
    "apricot": "#eab181", "peach": "#f0bd9c", "rose": "#c8677f", "old rose": "#b5838a",
    "raspberry": "#a5304f", "plum": "#6a3552", "aubergine": "#40283c", "mauve": "#9a7b9d",
    "lilac": "#b8a2c8", "heather": "#93809b", "ochre": "#c3913c", "mustard": "#c2992b",
    "straw": "#dcc88a", "honey": "#cf9a43", "gold brown": "#94682a", "camel": "#b98f60",
    "sand": "#cdb893", "fawn": "#b59a7a", "oatmeal": "#d8cbb3", "cream": "#f3ead3",
    "off white": "#f2ede1", "natural white": "#efe8d8", "moorit": "#6d4b38", "peat": "#3d2e27",
    "charcoal": "#3c3d40", "silver grey": "#b9b9b6", "slate": "#5d6872", "denim": "#45618a",
    "petrol": "#215562", "duck egg": "#b6d0c6", "sea green blue": "#5b9a98", "ink": "#20283d",
    "moss": "#66702f", "sage": "#9aa583", "bottle green": "#214a37", "leaf green": "#5a8a3c",
    "lichen": "#a8ab8a", "pea green": "#8fa04a", "grass green": "#4f8239",
}  # fmt: skip

_GREY = ""
"""A colour's own grey."""

_CHANGES = {
    "pale": ("#ffffff", 0.55), "light": ("#ffffff", 0.3), "whitish": ("#ffffff", 0.4),
    "dark": ("#000000", 0.4), "deep": ("#000000", 0.25), "blackish": ("#000000", 0.55),
    "dull": (_GREY, 0.4), "muted": (_GREY, 0.5), "soft": (_GREY, 0.25), "greyish": (_GREY, 0.55),
    "grayish": (_GREY, 0.55), "bright": (_GREY, -0.4), "strong": (_GREY, -0.25),
    "reddish": ("#b3312c", 0.25), "orangey": ("#d9772a", 0.25), "yellowish": ("#dcc13a", 0.25),
    "golden": ("#c99a2e", 0.25), "greenish": ("#4f8239", 0.25), "bluish": ("#3f6aa8", 0.25),
    "purplish": ("#6b3f80", 0.25), "pinkish": ("#d98a9c", 0.25), "brownish": ("#6f4a2f", 0.25),
    "warm": ("#d9772a", 0.12), "cool": ("#3f6aa8", 0.12),
}  # fmt: skip
"""Words before a name: what it is mixed with, and by how much; less than 0 is away from it."""

_VERY = "very"
_LONGEST = 60
_PARTS = re.compile(
    "(light|dark|medium|pale|deep|dim|hot)?(.*?)"
    "(blue|green|red|white|pink|grey|gray|yellow|brown|violet|turquoise|cyan|salmon)?"
)
"""How the words of a name of CSS part, which are written as one."""


def colour_of_words(text: str) -> str | None:
    """Return the CSS hex colour that words mean: ``dark brick red``; None where they mean none."""
    words = re.findall(r"[^\W\d_]+", text.lower())
    if len(text) > _LONGEST or "#" in text or re.search(r"\d", text):
        return None
    for at in range(len(words)):
        named = _names().get("".join(words[at:]))
        doubled = words[at - 1 : at] == [_VERY] and words[at] in _CHANGES
        if named is not None and not doubled:
            return _changed(named, words[:at])
    return None


def words_of_colour(colour: str) -> str | None:
    """Return the words that mean exactly a CSS hex colour, at most one before a name."""
    return _words().get(colour)


def likely_words(text: str) -> str | None:
    """Return the colour that was likely meant by words that mean none."""
    words = re.findall(r"[^\W\d_]+", text.lower()[:_LONGEST])
    at = next((at for at, word in enumerate(words) if word not in (*_CHANGES, _VERY)), len(words))
    close = get_close_matches("".join(words[at:]), _names(), 1, 0.7)
    return " ".join([*words[:at], _spelt(close[0])]) if close else None


def _changed(colour: str, words: list[str]) -> str | None:
    """Return a colour changed by the words before it, the nearest first; None for another word."""
    if not {*words} <= {*_CHANGES, _VERY}:
        return None
    for at in reversed(range(len(words))):
        if words[at] != _VERY:
            for _ in range(1 + (at > 0 and words[at - 1] == _VERY)):
                colour = _mixed(colour, *_CHANGES[words[at]])
    return colour


def _mixed(colour: str, other: str, share: float) -> str:
    (own,) = srgb_from_hex([colour])
    into = srgb_from_hex([other])[0] if other else own @ [0.2126, 0.7152, 0.0722]
    return hex_from_srgb(((1 - share) * own + share * into)[None])[0]


@cache
def _names() -> dict[str, str]:
    """Return the colours of all names, by their letters alone; plain names win over CSS."""
    from PIL import ImageColor

    css = {name: _hex(ImageColor.getrgb(name)) for name in ImageColor.colormap}
    own = {_letters(name): colour for name, colour in (*_PLAIN.items(), *dyed_colours())}
    return css | own


def _hex(rgb: tuple[int, ...]) -> str:
    return f"#{bytes(rgb).hex()}"


@cache
def _own_spelling() -> dict[str, str]:
    return {_letters(name): name for name in (*_PLAIN, *(name for name, _ in dyed_colours()))}


def _spelt(letters: str) -> str:
    """Return a name with its words apart: ``light sky blue``."""
    parted = _PARTS.fullmatch(letters)
    words = " ".join(filter(None, parted.groups())) if parted else letters
    return _own_spelling().get(letters, words)


@cache
def _words() -> dict[str, str]:
    """Return how colours are said, by CSS hex; the plainest words for each."""
    names = {letters: _spelt(letters) for letters in _names()}
    said = {
        _mixed(colour, *change): f"{word} {names[letters]}"
        for letters, colour in reversed(_names().items())
        for word, change in _CHANGES.items()
        if "," not in names[letters]
    }
    return said | {colour: names[letters] for letters, colour in _names().items()}


def _letters(name: str) -> str:
    return re.sub(r"[\W_]+", "", name.lower())
