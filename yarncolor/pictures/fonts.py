"""Text for rasters: one font for all, measured and drawn as small masks that are kept."""

import re
from functools import cache, lru_cache
from importlib.util import find_spec
from pathlib import Path
from unicodedata import bidirectional

import numpy as np
from PIL import ImageFont

LEVELS = 4
"""Steps from the ground to the ink; few, so that a palette holds them."""
_NO_GLYPH = "\uffff"
_HEBREW = re.compile("[\u0590-\u05ff](?:[\u0590-\u05ff\\s]*[\u0590-\u05ff])?")


@cache
def font(size_px: int, bold: bool = False, serif: bool = False) -> ImageFont.FreeTypeFont:
    """Return DejaVu Sans, which matplotlib brings along, without importing matplotlib.

    Parameters
    ----------
    size_px : int
        Of the letters.
    bold, serif : bool
        Whether they are bold; whether they are those of DejaVu Serif.
    """
    home_of = find_spec("matplotlib")
    if home_of is None or not home_of.submodule_search_locations:
        raise ModuleNotFoundError("matplotlib, whose font is used, is not there")
    home = Path(home_of.submodule_search_locations[0])
    name = f"DejaVu{'Serif' if serif else 'Sans'}{'-Bold' * bold}.ttf"
    path = home / "mpl-data" / "fonts" / "ttf" / name
    return ImageFont.truetype(str(path), size_px, layout_engine=ImageFont.Layout.BASIC)


@lru_cache(maxsize=4096)
def width_px(text: str, size_px: int, bold: bool = False, serif: bool = False) -> int:
    """Return how wide a text is drawn.

    Parameters
    ----------
    text : str
        One line.
    size_px : int
        Of the letters.
    bold, serif : bool
        Whether they are bold; whether they are those of DejaVu Serif.
    """
    return int(np.ceil(font(size_px, bold, serif).getlength(text)))


def fitted(text: str, room_px: float, size_px: int, bold: bool = False, serif: bool = False) -> str:
    """Return a text cut to fit, with an ellipsis where something is left out.

    Parameters
    ----------
    text : str
        One line.
    room_px : float
        Room for it.
    size_px : int
        Of the letters.
    bold, serif : bool
        Whether they are bold; whether they are those of DejaVu Serif.
    """
    while text and width_px(text, size_px, bold, serif) > room_px:
        text = text.rstrip("…")[:-1] + "…" if len(text) > 2 else ""
    return text


@lru_cache(maxsize=4096)
def mask(text: str, size_px: int, bold: bool = False) -> np.ndarray:
    """Return a text as levels 0 (ground) to 4 (ink): (height, width) uint8.

    It is one line high, and more, as much above as below, where an accent stands out.

    Parameters
    ----------
    text : str
        One line.
    size_px : int
        Of the letters.
    bold : bool
        Whether they are bold.
    """
    face = font(size_px, bold)
    ascent, descent = face.getmetrics()
    image, (left, top) = face.getmask2(text, mode="L", anchor="ls")
    wide, high = image.size
    glyphs = np.asarray(image, dtype=np.uint8).reshape(high, wide)
    over = max(0, -(ascent + top), top + high - descent)
    size = (ascent + descent + 2 * over, max(1, width_px(text, size_px, bold)))
    drawn = np.zeros(size, np.uint8)
    y, x = ascent + top + over, max(left, 0)
    kept = glyphs[: drawn.shape[0] - y, : drawn.shape[1] - x]
    drawn[y : y + kept.shape[0], x : x + kept.shape[1]] = kept
    return np.rint(drawn * (LEVELS / 255)).astype(np.uint8)


@lru_cache(maxsize=4096)
def has_glyphs(text: str) -> bool:
    """Return whether the font can write a text at all."""
    face = font(16, False)
    missing = bytes(face.getmask(_NO_GLYPH))
    return all(char.isspace() or bytes(face.getmask(char)) != missing for char in set(text))


def drawable(text: str) -> str:
    """Return a text in which a raster's font can write every letter; a box stands for the rest."""
    if has_glyphs(text):
        return text
    return "".join(letter if has_glyphs(letter) else "□" for letter in text)


def turned(text: str) -> str:
    """Return a text whose Hebrew is turned round, as a raster sets it: letter after letter.

    Names in a sentence; joined scripts are not attempted.
    """
    return _HEBREW.sub(lambda word: word[0][::-1], text)


def in_drawing_order(text: str) -> str | None:
    """Return a text as letters from left to right; None where that is beyond this font's layout.

    Letters are set one after the other: a word in Hebrew is turned round, joined scripts and
    mixed directions are not attempted. Shapes (SVG, HTML) leave both to the viewer.
    """
    kinds = {bidirectional(letter) for letter in text}
    if not kinds & {"R", "AL", "AN"}:
        return text
    if len(text) == 1 or kinds <= {"R", "WS"}:
        return text[::-1]
    return None


def in_sentence(text: str, names: tuple[str, ...]) -> str:
    """Return a sentence as a raster writes it: names that it cannot set are called by number.

    Parameters
    ----------
    text : str
        With names of lots in it.
    names : tuple of str
        Of all lots.
    """
    for lot in sorted(range(len(names)), key=lambda at: -len(names[at])):
        if _drawn(names[lot]) is None:
            text = text.replace(names[lot], _numbered(lot))
    return turned(drawable(text))


def pixel_name(lot: int, names: tuple[str, ...]) -> str:
    """Return the name that a raster writes: the lot's, or its number where the font cannot.

    Parameters
    ----------
    lot : int
        Which, from 0.
    names : tuple of str
        Of all lots.
    """
    drawn = _drawn(names[lot])
    return _numbered(lot) if drawn is None else drawn


def _drawn(name: str) -> str | None:
    return in_drawing_order(name) if has_glyphs(name) else None


def _numbered(lot: int) -> str:
    return f"lot {lot + 1}"


def key_name(lot: int, names: tuple[str, ...]) -> str:
    """Return a lot's name for a key beside a raster: with its number, where only that stands there.

    Parameters
    ----------
    lot : int
        Which, from 0.
    names : tuple of str
        Of all lots.
    """
    return f"{names[lot]} ({_numbered(lot)})" if _drawn(names[lot]) is None else names[lot]
