"""Colours in words: a name of CSS, a plain one or a dyed one, and any words that change it.

"Dark reddish brown" is read from its end: a name, then the words before it, the nearest first. A
name before a name leans it that way: moss green, red brown. "Very" counts a word twice. A hue
that is changed is wool's own: "dull blue" begins with a blue that a pot gives, not a screen's.
"""

import re
from collections.abc import Iterator
from difflib import get_close_matches
from functools import cache, lru_cache

import numpy as np

from yarncolor.colour.dyes import dyed_colours
from yarncolor.colour.science import hex_from_srgb, srgb_from_hex
from yarncolor.colour.srgb import coded, linear
from yarncolor.colour.word_table import BESIDE, CHANGES, MOST_TIMES, PLAIN, STRENGTHS

_LONGEST = 60
_LIKE = 0.7
"""How alike a word and the one that was meant are at least."""

_PARTS = re.compile(
    "(light|dark|medium|pale|deep|dim|hot)?(.*?)"
    "(blue|green|red|white|pink|grey|gray|yellow|brown|violet|turquoise|cyan|salmon)?"
)
"""How the words of a name of CSS part, which are written as one."""


def css_hex(given: str) -> str:
    """Return the CSS hex colour, of six digits, of a colour given as hex or in words."""
    if given.startswith("#"):
        return given if len(given) == 7 else "#" + "".join(2 * digit for digit in given[1:])
    colour = colour_of_words(given)
    if colour is None:
        raise ValueError(f"{given!r} is no colour")
    return colour


@lru_cache(maxsize=512)
def colour_of_words(text: str) -> str | None:
    """Return the CSS hex colour that words mean: ``dark brick red``; None where they mean none."""
    if len(text) > _LONGEST or "#" in text or re.search(r"\d", text):
        return None
    words = _words_in(text)
    for at in range(len(words)):
        named = _names().get("".join(words[at:]))
        is_strong = words[at - 1 : at] and words[at - 1] in STRENGTHS and words[at] in CHANGES
        if named is not None and not (is_strong and words[at + 1 :]):
            return _changed(named, _wool("".join(words[at:]), named), words[:at])
    return None


def words_of_colour(colour: str) -> str | None:
    """Return the words that mean exactly a CSS hex colour, at most one before a name."""
    return _words().get(colour)


def likely_words(text: str) -> str | None:
    """Return the colour that was likely meant by words that mean none."""
    words = _words_in(text[:_LONGEST])
    at = next((at for at, word in enumerate(words) if word not in _before_a_name()), len(words))
    close = get_close_matches("".join(words[at:]), _names(), 1, _LIKE)
    mended = [_nearest_word(word) for word in words]
    kept = [word for word in mended if word]
    tries = [
        *([[*words[:at], _spelt(close[0])]] if close else []),
        *(kept[at:] for at in range(len(kept))),
    ]
    if None not in mended:
        tries.insert(0, kept)
    said = (" ".join(each) for each in tries)
    return next((each for each in said if colour_of_words(each) is not None), None)


def _words_in(text: str) -> list[str]:
    return re.findall(r"[^\W\d_]+", text.lower())


def _wool(letters: str, colour: str) -> str:
    """Return what words change of a hue: wool's own, where that of a screen is far too loud."""
    return CHANGES.get(letters, ("", 0))[0] or colour


def _changed(colour: str, wool: str, words: list[str]) -> str | None:
    """Return a colour changed by the words before it, the nearest first; None for another word."""
    _, words = _strength(words)
    if not words:
        return colour
    for other, share, before in _last_changes(words):
        times, left = _strength(before)
        mixed = srgb_from_hex([wool])
        for part in (*[1.0] * int(times), times % 1):
            mixed = np.clip(_mixed(mixed, other, part * share), 0, 1)
        (made,) = hex_from_srgb(mixed)
        changed = _changed(made, made, left)
        if changed is not None:
            return changed
    return None


def _strength(words: list[str]) -> tuple[float, list[str]]:
    """Return how many times a word counts by those right before it, and the words before those."""
    times, left = 1.0, list(words)
    while left and left[-1] in STRENGTHS:
        times = min(times * STRENGTHS[left.pop()], MOST_TIMES)
    return times, left


def _last_changes(words: list[str]) -> Iterator[tuple[str, float, list[str]]]:
    """Yield what the last of some words may mix in, by how much, and the words before those."""
    if words[-1] in CHANGES:
        yield (*CHANGES[words[-1]], words[:-1])
    for at in range(len(words)):
        named = _names().get("".join(words[at:]))
        if named is not None:
            yield named, BESIDE, words[:at]


def _mixed(srgb: np.ndarray, other: str, share: float) -> np.ndarray:
    """Return colours (n, 3) mixed with another one, or with the grey that is as light as each."""
    greys = coded(linear(srgb) @ [0.2126, 0.7152, 0.0722])[:, None]
    return (1 - share) * srgb + share * (srgb_from_hex([other]) if other else greys)


@cache
def _before_a_name() -> frozenset[str]:
    return frozenset((*CHANGES, *STRENGTHS))


@cache
def _single_words() -> list[str]:
    """Return every word of which a colour may be said, those that change one first."""
    spelt = (word for letters in _names() for word in _words_in(_spelt(letters)))
    return [*dict.fromkeys((*CHANGES, *STRENGTHS, *spelt))]


def _nearest_word(word: str) -> str | None:
    close = get_close_matches(word, _single_words(), 1, _LIKE)
    return close[0] if close else None


@cache
def _names() -> dict[str, str]:
    """Return the colours of all names, by their letters alone; plain names win over CSS."""
    from PIL import ImageColor

    css = {name: _hex(ImageColor.getrgb(name)) for name in ImageColor.colormap}
    own = {_letters(name): colour for name, colour in (*PLAIN.items(), *dyed_colours())}
    return css | own


def _hex(rgb: tuple[int, ...]) -> str:
    return f"#{bytes(rgb).hex()}"


@cache
def _own_spelling() -> dict[str, str]:
    return {_letters(name): name for name in (*PLAIN, *(name for name, _ in dyed_colours()))}


def _spelt(letters: str) -> str:
    """Return a name with its words apart: ``light sky blue``."""
    parted = _PARTS.fullmatch(letters)
    words = " ".join(filter(None, parted.groups())) if parted else letters
    return _own_spelling().get(letters, words)


@cache
def _words() -> dict[str, str]:
    """Return how colours are said, by CSS hex; the plainest words for each."""
    names = {letters: _spelt(letters) for letters in _names()}
    plain = [letters for letters in reversed(names) if "," not in names[letters]]
    wool = srgb_from_hex([_wool(letters, _names()[letters]) for letters in plain])
    said = {
        colour: f"{word} {names[letters]}"
        for word, change in CHANGES.items()
        for letters, colour in zip(plain, hex_from_srgb(_mixed(wool, *change)), strict=True)
        if f"{word}{letters}" not in names
    }
    return said | {colour: names[letters] for letters, colour in _names().items()}


def _letters(name: str) -> str:
    return re.sub(r"[\W_]+", "", name.lower())
