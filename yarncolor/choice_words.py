"""What can be chosen, in the words of choosers: closing, winding, times through, models."""

import re

from yarncolor.defaults import WOUND_OFF
from yarncolor.plan import Plan

CLOSING_WORDS = {
    "keep": "keep both pieces",
    "tail": "close once, at the end",
    "share": "share the lot out",
    "halve": "half pieces at both ends",
    "drop": "leave the last place out",
}
WINDING_WORDS = {
    "straight from the bobbin": 0,
    "wound off once": 1,
    "wound off twice": 2,
}
MODEL_WORDS = {
    "untwisting": "helices, singles untwisting",
    "helix": "helices alone",
    "none": "nothing is lost",
}
"""Ways to reckon the length lost in plying."""

KIND_WORDS = {
    "flat": "flat, to and fro",
    "round": "in the round",
    "triangle": "a triangle from the top down",
}
"""What is knitted."""

MIXED = "not all alike, as in the file"
"""A winding that no word stands for."""


def winding_words(plan: Plan) -> str:
    """Return how a plan's bobbins are wound, in words."""
    wound = plan.plying.wound_off
    wound = WOUND_OFF if wound is None else wound
    words = {number: text for text, number in WINDING_WORDS.items()}
    alike = set(wound) if isinstance(wound, tuple) else {wound}
    return words.get(alike.pop(), MIXED) if len(alike) == 1 else MIXED


def divisions_text(divisions: tuple | list) -> str:
    """Return divisions as they are typed: ``1, 2, 4 + 2 + 1``."""
    return ", ".join(
        " + ".join(f"{size:g}" for size in each) if isinstance(each, tuple | list) else str(each)
        for each in divisions
    )


def divisions_in(text: str) -> list:
    """Return divisions typed as ``1, 2, 4``; ``4 + 2 + 1 + 1`` are repeats of unequal size."""
    divisions: list = []
    joined = re.sub(r"\s*\+\s*", "+", text.strip())
    for each in re.split(r"\s*[,;]\s*|\s+", joined):
        sizes = [part.strip() for part in each.split("+")]
        try:
            numbers = [int(size) if size.isdigit() else float(size) for size in sizes]
        except ValueError:
            return [text]
        divisions.append(numbers if len(numbers) > 1 else numbers[0])
    return divisions
