"""A braid as a file gives it: read and checked, and what it lays down beside the file's lots."""

from dataclasses import replace
from typing import Any

from yarncolor.errors import quoted
from yarncolor.plan import Braid, Plan, Segment
from yarncolor.plan.limits import MOST_LOTS, MOST_PLACES
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import lacking, predicate

_NEEDED = {"mass_g": "what the whole braid weighs", "segments": "its colours and their lengths"}
_BESIDE = ("sequence", "parts")


def read_braid(reading: Reading, names: list[str]) -> Braid | None:
    """Return the braid of a file; None where there is none, or where it is at fault.

    Parameters
    ----------
    reading : Reading
        The file being read; it remembers what is wrong.
    names : list of str
        Of the file's own lots.
    """
    values = reading.table("braid")
    if "braid" not in reading.data:
        return None
    for path, remedy in _faults(reading, values, names):
        reading.tell(path, remedy)
    if reading.is_bad("braid"):
        return None
    segments = tuple(Segment(**one) for one in values["segments"])
    return Braid(**values | {"segments": segments})


def with_braid(tables: Plan, braid: Braid | None) -> Plan:
    """Return tables whose scheme runs through the colours of a braid in their order.

    Parameters
    ----------
    tables : Plan
        As given.
    braid : Braid or None
        None changes nothing.
    """
    if braid is None:
        return tables
    scheme = replace(tables.scheme, sequence=braid.sequence, parts=braid.parts)
    return replace(tables, braid=braid, scheme=scheme)


def _faults(reading: Reading, values: dict[str, Any], names: list[str]) -> FaultIterator:
    for key, what in _NEEDED.items():
        if key not in values and not reading.is_bad("braid", key):
            yield ("braid", key), lacking(what, f"is missing; give {what}")
    for key in _BESIDE:
        if key in reading.data.get("scheme", {}):
            yield ("scheme", key), "a braid was dyed in its order; leave one of the two out"
    if reading.is_bad("braid", "segments") or "segments" not in values:
        return
    yield from _segments(values["segments"], names)
    places = len(values["segments"]) * values.get("repeats", 1)
    if places > MOST_PLACES and not reading.is_bad("braid", "repeats"):
        remedy = f"makes {places:,} lengths of one colour; at most {MOST_PLACES} can be planned"
        yield ("braid", "repeats"), remedy
    if len(names) + len({one["name"] for one in values["segments"]}) > MOST_LOTS:
        yield ("braid", "segments"), f"with the lots beside it gives more than {MOST_LOTS} colours"


def _segments(segments: tuple[dict[str, Any], ...], names: list[str]) -> FaultIterator:
    colours: dict[str, tuple[int, Any]] = {}
    for at, one in enumerate(segments):
        path = ("braid", "segments", at)
        if "colour" in one and "lab" in one:
            yield (*path, "lab"), "a colour is given too; give one of the two"
        if one["name"] in names:
            remedy = "a lot has that name; give the braid's colours names of their own"
            yield (*path, "name"), remedy
        own = one.get("colour", one.get("lab"))
        first, known = colours.setdefault(one["name"], (at, own))
        if first == at and own is None:
            yield (*path, "colour"), predicate('is missing; give colour, as "brick red", or lab')
        elif own not in (None, known):
            remedy = f"{quoted(one['name'])} has another colour in segment {first + 1}; give one"
            yield (*path, "colour" if "colour" in one else "lab"), remedy
