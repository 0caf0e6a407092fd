"""Every order valued: by halves where that can be, else one by one."""

from collections.abc import Iterator
from itertools import permutations
from math import factorial

import numpy as np
from numpy.typing import NDArray

from yarncolor.search.halves import Halves
from yarncolor.search.question import Question
from yarncolor.search.tally import Tally
from yarncolor.search.way import Way

_EDGES_AT_ONCE = 200_000
_ARRANGED_AT_ONCE = 7
_FEWEST_BY_HALVES = 4
_SETS_A_STEP = 4


def orders_in_all(question: Question) -> int:
    """Return how many orders there are, allowed or not."""
    return sum(factorial(way.places) for way in question.ways)


def every_order(question: Question, tally: Tally) -> Iterator[float]:
    """Value every order that is allowed; yield which share is done, several times a second.

    Parameters
    ----------
    question : Question
        What is looked for.
    tally : Tally
        Takes in what was valued.
    """
    done, whole = 0, orders_in_all(question)
    for number, way in enumerate(question.ways):
        by_halves = way.by_grams(question.closes) and way.places >= _FEWEST_BY_HALVES
        each = _by_halves if by_halves else _one_by_one
        for share in each(question, tally, number):
            yield (done + share * factorial(way.places)) / whole
        done += factorial(way.places)


def _by_halves(question: Question, tally: Tally, number: int) -> Iterator[float]:
    way = question.ways[number]
    halves = Halves(way, question.between, question.measures)
    is_plain = (way.alike == np.arange(way.places)).all() and not question.rules(way).hold
    is_half = bool(is_plain) and way.same_reversed(question.closes) and way.places % 2 == 0
    sets = halves.sets(only_with_first=is_half)
    for turn, (chosen, values) in enumerate(halves.valued(sets), 1):
        orders = halves.orders_of(chosen)
        kept = question.rules(way).obeyed(orders) if is_half else question.kept(way, orders)
        tally.add(number, orders[kept], values[:, kept])
        if turn % _SETS_A_STEP == 0:
            yield turn / len(sets)


def _one_by_one(question: Question, tally: Tally, number: int) -> Iterator[float]:
    way = question.ways[number]
    at_once = max(1, _EDGES_AT_ONCE // way.edges)
    for share, orders in _some_at_once(question, way, at_once):
        tally.add(number, orders, question.values(way, orders))
        yield share


def _some_at_once(
    question: Question, way: Way, at_once: int
) -> Iterator[tuple[float, NDArray[np.int8]]]:
    """Yield orders that are allowed, so many at once, and which share was looked at by then."""
    waiting = np.empty((0, way.places), dtype=np.int8)
    looked_at = 0
    for orders in _every_arrangement(way.places):
        looked_at += len(orders)
        waiting = np.concatenate([waiting, orders[question.kept(way, orders)]])
        while len(waiting) >= at_once:
            yield looked_at / factorial(way.places), waiting[:at_once]
            waiting = waiting[at_once:]
    if len(waiting):
        yield 1.0, waiting


def _every_arrangement(places: int) -> Iterator[NDArray[np.int8]]:
    """Yield all orders of places, those with the same beginning at once: (V, places)."""
    last = min(places, _ARRANGED_AT_ONCE)
    ends = np.array(list(permutations(range(last))), dtype=np.int8)
    for begins in permutations(range(places), places - last):
        rest = np.setdiff1d(np.arange(places, dtype=np.int8), begins)
        beginning = np.tile(np.array(begins, dtype=np.int8), (len(ends), 1))
        yield np.concatenate([beginning, rest[ends]], axis=1)
