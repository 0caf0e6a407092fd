"""Numbers, lists and choices as a spinner reads them."""

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import floor
from typing import Any
from unicodedata import bidirectional, category, east_asian_width

from yarncolor.defaults import WOUND_OFF
from yarncolor.plan import Plan
from yarncolor.plan.limits import LONGEST_TITLE
from yarncolor.plan.reference import KEYS
from yarncolor.units import tpi

CLOSING_WORDS: dict[str, str] = dict(KEYS["scheme", "closing"].choices)
WINDING_WORDS: dict[str, int] = {
    words: times for times, words in KEYS["plying", "wound_off"].choices
}
MODEL_WORDS: dict[str, str] = dict(KEYS["plying", "contraction_model"].choices)
"""Ways to reckon the length lost in plying."""

KIND_WORDS: dict[str, str] = dict(KEYS["fabric", "kind"].choices)
"""What is knitted."""

_SENSES: dict[str, str] = dict(KEYS["plying", "direction"].choices)

FRACTIONS: dict[Fraction, str] = {
    Fraction(1, 2): "½",
    Fraction(1, 3): "⅓",
    Fraction(2, 3): "⅔",
    Fraction(1, 4): "¼",
    Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝",
    Fraction(7, 8): "⅞",
}
"""Parts that hands find."""

_HARDLY = 0.005
"""A part of a rolag that no hand can tell."""

_NO_WIDTH, _READ = ("Mn", "Me", "Cf"), ("L", "R", "AL")
"""Letters that take no column; ways in which letters are read."""

_ISOLATE = "\N{FIRST STRONG ISOLATE}"
_RIGHT = "[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\U00010800-\U00010fff\U0001e800-\U0001efff]+"
_FROM_RIGHT = re.compile(f"{_RIGHT}(?:[ '-]+{_RIGHT})*")
"""Words in scripts that are read from the right, one behind another."""

MIXED = "not all alike, as in the file"
"""A winding that no word stands for."""

EYES: dict[str, str] = {
    "protanomaly": "an eye weak in red",
    "deuteranomaly": "an eye weak in green",
    "tritanomaly": "an eye weak in blue",
}
"""What is said of other eyes, by the name that science has for them."""

UNTITLED = "Untitled plan"

TURNS = "{turns} turns to the inch"
"""How twist is said."""


def title_of(plan: Plan) -> str:
    """Return what a plan is called wherever it is shown: its title, else its file's name."""
    return plan.title or _readable(plan.kept_as) or UNTITLED


def _readable(file_name: str) -> str:
    """Return a file's name as a title: ``north_shore`` is North shore; empty for none."""
    letters = (letter if letter.isprintable() else " " for letter in file_name)
    words = " ".join(re.sub(r"[_-]", " ", "".join(letters)).split())[:LONGEST_TITLE]
    return capital(words)


def capital(text: str) -> str:
    """Return a text as a sentence begins: its first letter large."""
    return text[:1].upper() + text[1:]


def winding_words(plan: Plan) -> str:
    """Return how a plan's bobbins are wound, in words."""
    wound = plan.plying.wound_off
    wound = WOUND_OFF if wound is None else wound
    words = {number: text for text, number in WINDING_WORDS.items()}
    alike = set(wound) if isinstance(wound, tuple) else {wound}
    return words.get(alike.pop(), MIXED) if len(alike) == 1 else MIXED


def divisions_text(divisions: Sequence[Any]) -> str:
    """Return divisions as they are typed: ``1, 2, 4 + 2 + 1``."""
    return ", ".join(
        " + ".join(f"{size:g}" for size in each) if isinstance(each, tuple | list) else str(each)
        for each in divisions
    )


def divisions_in(text: str) -> list[Any]:
    """Return divisions typed as ``1, 2, 4``; ``4 + 2 + 1 + 1`` are repeats of unequal size.

    What cannot be read stays as it is typed, for the checks of a plan to refuse.
    """
    divisions: list[Any] = []
    joined = re.sub(r"\s*\+\s*", "+", text.strip())
    for each in re.split(r"\s*[,;]\s*|\s+", joined):
        sizes = [part.strip() for part in each.split("+")]
        try:
            numbers = [int(size) if size.isdigit() else float(size) for size in sizes]
        except ValueError:
            return [text]
        divisions.append(numbers if len(numbers) > 1 else numbers[0])
    return divisions


def wide(text: str) -> int:
    """Return how many columns a text takes in a terminal: some letters take two, some none."""
    return sum(
        0 if category(letter) in _NO_WIDTH else 2 if east_asian_width(letter) in "WF" else 1
        for letter in text
    )


def padded(text: str, columns: int) -> str:
    """Return a text with blanks behind it, up to so many columns of a terminal.

    Parameters
    ----------
    text : str
        In any script.
    columns : int
        Of a terminal.
    """
    return ended(text) + " " * (columns - wide(text))


def ended(text: str) -> str:
    """Return a name so that numbers behind it stay behind it, if it is read from the right."""
    reads = [way for way in map(bidirectional, text) if way in _READ]
    return f"{text}\N{LEFT-TO-RIGHT MARK}" if reads and reads[-1] != "L" else text


def isolated(text: str) -> str:
    """Return a text in which words that are read from the right stand by themselves.

    Whatever stands beside them, a number or a stop, keeps its side (UAX 9: first strong isolate,
    pop directional isolate).

    Parameters
    ----------
    text : str
        For a page; a terminal may not know these marks.
    """
    if text.isascii() or _ISOLATE in text:
        return text
    return _FROM_RIGHT.sub(f"{_ISOLATE}\\g<0>\N{POP DIRECTIONAL ISOLATE}", text)


def is_seen(mass_g: float, step_g: float) -> bool:
    """Return whether the scale shows a mass.

    Parameters
    ----------
    mass_g : float
        To be shown.
    step_g : float
        What the scale tells apart.
    """
    return mass_g > step_g / 2


def turns(twist_tpm: float) -> str:
    """Return turns to the inch, in words."""
    return TURNS.format(turns=f"{tpi(twist_tpm):.1f}")


def hours_text(time_h: float) -> str:
    """Return a time: minutes below an hour, tenths of hours below ten, whole hours above."""
    if time_h < 1:
        return f"{max(1, round(time_h * 60))} min"
    return f"{time_h:.1f} h" if time_h < 10 else f"{time_h:.0f} h"


def direction(twist: str) -> str:
    """Return which way the wheel turns for a direction of twist."""
    return _SENSES[twist]


def ply_words(k: int, singles: int) -> str:
    """Return what a ply is called.

    Parameters
    ----------
    k : int
        From 0.
    singles : int
        How many there are; of one alone it is the single.
    """
    return f"ply {k + 1}" if singles > 1 else "the single"


def plies_words(plies: Iterable[int]) -> str:
    """Return plies, each from 0, in a row: ply 1 and ply 3."""
    return join_words([f"ply {k + 1}" for k in plies])


def join_words(words: list[str]) -> str:
    """Return words in a row: a, b and c."""
    return " and ".join(filter(None, [", ".join(map(ended, words[:-1])), words[-1]]))


def plied_words(names: Iterable[str]) -> str:
    """Return what lies side by side in a yarn, ply by ply: Kelp + Foam; once where all are alike.

    Parameters
    ----------
    names : iterable of str
        Lot of each ply.
    """
    each = list(names)
    return each[0] if len(set(each)) == 1 else " + ".join([*map(ended, each[:-1]), each[-1]])


def join_first(words: Sequence[str], most: int) -> str:
    """Return words as a list in a sentence, those beyond the first few counted.

    Parameters
    ----------
    words : sequence of str
        What is listed.
    most : int
        How many are named.
    """
    more = [f"{len(words) - most} more"] if len(words) > most else []
    return join_words([*words[:most], *more])


def in_fractions(count: float) -> str:
    """Return a count as hands do: ``15⅓``, or ``about 10½`` where no such part is it."""
    rest = count % 1
    part = min((Fraction(0), *FRACTIONS, Fraction(1)), key=lambda each: abs(each - rest))
    whole, words = floor(count) + (part == 1), FRACTIONS.get(part, "")
    told = f"{whole:,}{words}" if whole or not words else words
    return told if abs(part - rest) < _HARDLY else f"about {told}"


def counted(count: float, thing: str) -> str:
    """Return how many of a thing there are, in words.

    Parameters
    ----------
    count : float
        0 or more.
    thing : str
        One of them.
    """
    many = f"{thing}es" if thing.endswith("ch") else f"{thing}s"
    return f"{count:,.0f} {thing if round(count) == 1 else many}"


def percent(share: float) -> str:
    """Return a share in whole percent; what is hardly there, or hardly missing, is said so."""
    if 0 < share < 0.005 or 0.995 < share < 1:
        return "less than 1%" if share < 0.5 else "more than 99%"
    return f"{share:.0%}"
