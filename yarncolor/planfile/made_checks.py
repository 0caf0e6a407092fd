"""Checks of what came out: each value beside the others that were measured of the yarn."""

import re
from datetime import date
from itertools import combinations
from pathlib import PurePosixPath

from yarncolor.plan import Made, Plan
from yarncolor.plan.key import unit_slot
from yarncolor.plan.reference import KEYS
from yarncolor.plan.spinning import AGREE
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import Amount, KeyName, Span, lacking, predicate, said

_NEEDED = {"turns": "turns in all", "turn_m": "{metres} in a turn"}
_DAYS = ("spun_from", "spun_to", "plied_on", "washed_on")
"""In the order in which a yarn goes through them."""

_SHRINKS = KEYS["fabric", "finishing_shrinkage"]
_DRIVE = re.compile(r"[A-Za-z]:")


def faults(reading: Reading, tables: Plan) -> FaultIterator:
    """Return place and remedy of each fault of what came out.

    Parameters
    ----------
    reading : Reading
        The file being read.
    tables : Plan
        Of which its table of the made yarn counts, and when it was spun.
    """
    made = tables.made
    if made is None:
        return
    for key, remedy in (*_lengths(made), *_days(made), *_picture(made)):
        if not reading.is_bad("made", *key):
            yield ("made", *key), remedy


def _lengths(made: Made) -> FaultIterator:
    for one, other in (("turns", "turn_m"), ("turn_m", "turns")):
        if getattr(made, one) is not None and getattr(made, other) is None:
            nothing = "is missing; {there} says nothing alone"
            needed = lacking(_NEEDED[other], nothing, there=_key(one), metres=unit_slot("metres"))
            yield (other,), needed
    if made.length_m and made.turns and made.turn_m:
        by_turns_m = made.turns * made.turn_m
        if max(by_turns_m, made.length_m) > (1 + AGREE) * min(by_turns_m, made.length_m):
            yield (
                ("length_m",),
                predicate(
                    "says {length}, but {turns} of {turn} come to {by_turns}; give "
                    "one, or two within {near:.0%}",
                    length=Amount(made.length_m, "m", form=".4g"),
                    turns=f"{made.turns:g} turns",
                    turn=Amount(made.turn_m, "m"),
                    by_turns=Amount(by_turns_m, "m", form=".4g"),
                    near=AGREE,
                ),
            )
            return
    yield from _washed(made)


def _washed(made: Made) -> FaultIterator:
    if made.plied_m is None or made.washed_m is None:
        return
    lost, low, high = 1 - made.washed_m / made.plied_m, _SHRINKS.low or 0.0, _SHRINKS.high or 1.0
    if not low <= lost <= high:
        least_m, most_m = (made.plied_m * (1 - share) for share in (high, low))
        remedy = predicate(
            "is {washed} of what was {plied} before the wash; {span} {m} can come of it",
            washed=Amount(made.washed_m, "m", form=".4g"),
            plied=Amount(made.plied_m, "m", form=".4g"),
            span=Span(float(f"{least_m:.4g}"), float(f"{most_m:.4g}"), "m"),
            m=unit_slot("m"),
        )
        yield ("washed_m",), remedy


def _days(made: Made) -> FaultIterator:
    """Yield each day that lies before one which must have come earlier, once."""
    given: list[tuple[str, date]] = [
        (key, getattr(made, key)) for key in _DAYS if getattr(made, key) is not None
    ]
    told = set()
    for (before, first), (after, then) in combinations(given, 2):
        if then < first and after not in told:
            told.add(after)
            remedy = "it lies before {first}, {day}; give a day from then on"
            yield (after,), said(remedy, first=_key(before), day=first.isoformat())


def _picture(made: Made) -> FaultIterator:
    path = PurePosixPath(made.picture.replace("\\", "/"))
    outside = path.is_absolute() or ".." in path.parts or _DRIVE.match(made.picture)
    if made.picture and outside:
        remedy = "it lies outside the folder of the plan; put it beside the plan, and give its name"
        yield ("picture",), remedy


def _key(name: str) -> KeyName:
    return KeyName("made", name)
