"""Checks of what every order is to obey: lots and places that are there, and what clashes."""

from collections.abc import Iterator

import numpy as np

from yarncolor.defaults import place_masses_g, scheme_name, sequence_of, to_divide_g
from yarncolor.errors import Path, suggestion
from yarncolor.plan import AIM_NAMES, Orders, Plan
from yarncolor.plan.scheme import OWN_SEQUENCE
from yarncolor.planfile.given import GivenPlan
from yarncolor.planfile.lot_checks import names_are_good
from yarncolor.planfile.reading import FaultIterator, Reading

_SIDES = 2


def faults(reading: Reading, given: GivenPlan) -> FaultIterator:
    """Return place and remedy of each fault of what is looked for.

    What rests on the sequence is looked at where nothing else of the file is at fault.

    Parameters
    ----------
    reading : Reading
        The file being read.
    given : GivenPlan
        Its tables.
    """
    if "orders" not in reading.data:
        return
    asked = given.tables.orders
    found = [
        *_aims(reading, asked),
        *_no_order(reading, given),
        *_lots(reading, given, asked),
        *_one_place(asked),
        *_both(asked),
    ]
    yield from found
    if not reading.faults and not found:
        yield from _beside_the_sequence(given.plan)


def _aims(reading: Reading, asked: Orders) -> FaultIterator:
    if asked.aims is None or reading.is_bad("orders", "aims"):
        return
    if not any(getattr(asked.aims, name) for name in AIM_NAMES):
        yield ("orders", "aims"), "none of them counts; give one a number above 0"


def _no_order(reading: Reading, given: GivenPlan) -> FaultIterator:
    name = scheme_name(given.tables.scheme)
    if name in OWN_SEQUENCE and not reading.is_bad("scheme", "name"):
        yield ("orders",), f"a {name} scheme has no one order of lots; leave this table out"
    if "braid" in reading.data:
        yield ("orders",), "a braid was dyed in its order; leave one of the two tables out"


def _lots(reading: Reading, given: GivenPlan, asked: Orders) -> FaultIterator:
    if not names_are_good(reading, given.lots):
        return
    names = [lot.name for lot in given.lots]
    for path, name in _named(asked):
        if name not in names:
            close = suggestion(name, names) or "; name a lot of the stash"
            yield ("orders", *path), f"no lot has that name{close}"


def _named(asked: Orders) -> Iterator[tuple[Path, str]]:
    for name, _ in asked.hold:
        yield ("hold", name), name
    for key in ("neighbours", "apart"):
        for number, pair in enumerate(getattr(asked, key)):
            for side, name in enumerate(pair):
                yield (key, number, side), name
    for number, name in enumerate(asked.may_leave_out):
        yield ("may_leave_out", number), name


def _one_place(asked: Orders) -> FaultIterator:
    """Yield a second lot that is held in one place."""
    first: dict[int, str] = {}
    for name, place in asked.hold:
        before = first.setdefault(place, name)
        if before != name:
            yield ("orders", "hold", name), f"{before} is held in place {place} too; hold one there"


def _both(asked: Orders) -> FaultIterator:
    """Yield pairs that are to be neighbours, and never to be."""
    always = {frozenset(pair) for pair in asked.neighbours}
    for number, pair in enumerate(asked.apart):
        if frozenset(pair) in always:
            remedy = f"{_and(pair)} are to be neighbours too; leave one of the two out"
            yield ("orders", "apart", number), remedy


def _beside_the_sequence(plan: Plan) -> FaultIterator:
    sequence = _places(plan)
    asked = plan.orders
    yield from _in_it(asked, sequence)
    once = {name for name in sequence if sequence.count(name) == 1}
    sure = {name: place for name, place in asked.hold if name in once}
    yield from _held_pairs(asked, sure)
    yield from _crowded(asked, once)
    yield from _closing(asked, sequence)


def _places(plan: Plan) -> list[str]:
    """Return the lot of each place that has grams."""
    to_divide = to_divide_g(plan)
    names = sequence_of(plan.scheme, plan.names, to_divide)
    lot = np.array([plan.names.index(name) for name in names], dtype=np.int64)
    mass_g = place_masses_g(plan.scheme, lot, to_divide)
    return [name for name, grams in zip(names, mass_g.tolist(), strict=True) if grams > 0]


def _in_it(asked: Orders, sequence: list[str]) -> FaultIterator:
    for path, name in _named(asked):
        if name not in sequence:
            yield ("orders", *path), "it has no place in the order; leave it out here"
    for name, place in asked.hold:
        if place > len(sequence):
            has = f"the order has places 1 to {len(sequence)}; give one of them"
            yield ("orders", "hold", name), has


def _held_pairs(asked: Orders, sure: dict[str, int]) -> FaultIterator:
    """Yield pairs that their held places part, or bring together, against what is asked."""
    for key, is_wrong in (("neighbours", False), ("apart", True)):
        for number, pair in enumerate(getattr(asked, key)):
            if not set(pair) <= set(sure) or pair[0] == pair[1]:
                continue
            one, other = (sure[name] for name in pair)
            if (abs(one - other) == 1) == is_wrong:
                where = f"{pair[0]} is held in place {one} and {pair[1]} in place {other}"
                yield ("orders", key, number), f"{where}; let one of them go"


def _crowded(asked: Orders, once: set[str]) -> FaultIterator:
    """Yield a lot's third neighbour, and one that is to be its own neighbour."""
    beside: dict[str, list[str]] = {}
    for number, (one, other) in enumerate(asked.neighbours):
        if one == other:
            if one in once:
                remedy = f"{one} stands once; name two lots, or one that stands twice"
                yield ("orders", "neighbours", number), remedy
            continue
        for name, to in ((one, other), (other, one)):
            others = beside.setdefault(name, [])
            if name not in once or to in others:
                continue
            if len(others) == _SIDES:
                has = f"{name} has {_and(others)} at its sides already; it has two sides"
                yield ("orders", "neighbours", number), has
            others.append(to)


def _closing(asked: Orders, sequence: list[str]) -> FaultIterator:
    if asked.closed is True and len(set(sequence)) == len(sequence):
        yield (
            ("orders", "closed"),
            "no lot stands twice; give one a second place",
        )
        return
    if not isinstance(asked.closed, bool) or len(sequence) < _SIDES:
        return
    at = {place: name for name, place in asked.hold}
    first, last = at.get(1), at.get(len(sequence))
    if first is not None and last is not None and asked.closed and first != last:
        yield ("orders", "closed"), f"{first} is held first and {last} last; let one of them go"


def _and(pair: tuple[str, ...] | list[str]) -> str:
    return " and ".join(pair)
