"""Checks of each lot's own values, and that every lot has a name of its own."""

from yarncolor.errors import Path
from yarncolor.plan import WAYS_TO_A_COLOUR
from yarncolor.plan.limits import MOST_GRAMS, ROUNDING
from yarncolor.planfile.given import GivenLot
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import Amount, predicate, said

MASS_KEYS = ("mass_g", "rolags", "rolag_g", "reserve_g")
_OF_ROLAGS = {"rolags", "rolag_g"}


def faults(reading: Reading, lots: tuple[GivenLot, ...]) -> FaultIterator:
    """Return place and remedy of each fault between the values of single lots.

    Parameters
    ----------
    reading : Reading
        The file being read.
    lots : tuple of GivenLot
        As given.
    """
    first: dict[str, int] = {}
    for number, lot in enumerate(lots):
        path = ("lots", number)
        yield from _colour(reading, path, lot)
        if not reading.any_bad(path, MASS_KEYS):
            yield from _mass(path, lot)
        if lot.name in first:
            remedy = f"lot {first[lot.name] + 1} has that name already; give each lot its own"
            yield (*path, "name"), remedy
        elif lot.name:
            first[lot.name] = number


def names_are_good(reading: Reading, lots: tuple[GivenLot, ...]) -> bool:
    """Return whether there are lots, each with a right name of its own.

    Parameters
    ----------
    reading : Reading
        The file being read.
    lots : tuple of GivenLot
        As given.
    """
    if not lots or reading.is_bad("braid"):
        return False
    return not any(reading.is_bad("lots", at, "name") for at in range(len(lots)))


def _colour(reading: Reading, path: Path, lot: GivenLot) -> FaultIterator:
    if not lot.name and not reading.is_bad(*path, "name"):
        yield (*path, "name"), predicate("is missing; give each lot a name of its own")
    if not reading.any_bad(path, WAYS_TO_A_COLOUR):
        ways = [way for way in WAYS_TO_A_COLOUR if way in lot.values]
        if not ways:
            remedy = 'is missing; give colour, as "brick red", or lab = [L, a, b]'
            yield (*path, "colour"), predicate(remedy)
        elif len(ways) > 1:
            what = "drafted" if ways[0] == "drafted" else f"a {ways[0]}"
            yield (*path, ways[1]), f"{what} is given too; give one of the two"
        elif ways == ["drafted"] and len(lot.recipe) == 1:
            yield (*path, "drafted"), "hold two lots or more side by side"
    if "bath" in lot.values and not reading.is_bad(*path, "bath"):
        for key in ("of", "number", "exhaustion", "undyed"):
            if key not in lot.values["bath"]:
                yield (*path, "bath", key), predicate("is missing")


def _mass(path: Path, lot: GivenLot) -> FaultIterator:
    rolags = _OF_ROLAGS & set(lot.values)
    if "mass_g" in lot.values and "rolags" in rolags:
        yield (*path, "mass_g"), "rolags are given too; give one of the two"
    elif "mass_g" not in lot.values and not rolags:
        yield (*path, "mass_g"), predicate("is missing; give mass_g, or rolags with rolag_g")
    elif "mass_g" not in lot.values and len(rolags) == 1:
        (there,), (missing,) = rolags, _OF_ROLAGS - rolags
        yield (*path, missing), predicate(f"is missing; {there} needs it to give a mass")
    elif lot.mass_g > MOST_GRAMS:
        most = Amount(MOST_GRAMS, "g", form=",.10g", bound="most")
        come = Amount(lot.mass_g, "g", form=",.10g")
        remedy = said("these come to {come}; a lot has at most {most}", come=come, most=most)
        yield (*path, "rolags"), remedy
    elif lot.reserve_g > lot.mass_g * (1 + ROUNDING):
        most = Amount(lot.mass_g, "g", bound="most")
        yield (*path, "reserve_g"), said("give at most {most}, the lot's mass", most=most)
