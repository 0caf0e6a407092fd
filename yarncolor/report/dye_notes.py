"""What is said of how a lot came to its colour: the dye notes of a plan, and what it is made of."""

from yarncolor.phrases import join_words
from yarncolor.plan import Lot
from yarncolor.plan.reference import KEYS

_NOTED = ("mordant", "bath_number", "dyed_on", "dye")
"""The shortest first: where there is little room, a dye's long tale is what is cut."""

_PLAIN = ("dyed_on", "dye")
"""What says by itself what it is."""


def noted(lot: Lot) -> list[str]:
    """Return what a plan says of a lot's dyeing, each in a few words: mordant, bath, date, dye."""
    told = {key: " ".join(getattr(lot, key).split()) for key in _NOTED}
    return [
        text if key in _PLAIN else KEYS["lots", key].brief.replace("{}", text)
        for key, text in told.items()
        if text
    ]


def made_from(lot: Lot) -> list[str]:
    """Return of which other lots a lot is made, and how; nothing of one with its own colour."""
    told = []
    if lot.bath is not None:
        told.append(f"bath {lot.bath.number} of {lot.bath.of} on {lot.bath.undyed}")
    if lot.blend is not None:
        told.append(f"carded from {join_words([name for name, _ in lot.blend])}")
    if lot.drafted is not None:
        told.append(f"drafted side by side from {join_words([name for name, _ in lot.drafted])}")
    return told
