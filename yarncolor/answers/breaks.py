"""Where to break a length that is too much for a bobbin: seldom, and at the best places."""

from dataclasses import dataclass
from math import ceil

import numpy as np

_MOST_CANDIDATES, _MOST_PASSED_OVER = 48, 16
_FOR_EVENNESS = 1e-3
_TOLERANCE = 1e-9


def best_breaks_m(
    places_m: np.ndarray, worth: np.ndarray, length_m: float, room_m: float
) -> np.ndarray:
    """Return where a length is broken, its ends included: as few parts as the room allows.

    Of all ways to break it into so many, the one whose breaks fall on the places of most worth
    in all; of those the most even one. Breaks that find no place lie evenly between others.

    Parameters
    ----------
    places_m : (N,) array
        Rising places where a break is worth something.
    worth : (N,) array
        How much.
    length_m, room_m : float
        The whole, and the most of one part.
    """
    count = max(1, ceil(length_m / room_m * (1 - _TOLERANCE))) if np.isfinite(room_m) else 1
    if count == 1:
        return np.array([0.0, length_m])
    return _windows(places_m, worth, (length_m, room_m, count)).best()


@dataclass(frozen=True)
class _Windows:
    """Where each break may fall on a place of worth, and how to go from break to break.

    Parameters
    ----------
    length_m, room_m : float
        Of the whole, and of the most that one part holds.
    count : int
        Parts.
    places : list of (C,) arrays
        Candidates of breaks 0 (the start) to count (the end), in metres.
    worth : list of (C,) arrays
        Of a break there, less a little for unevenness.
    """

    length_m: float
    room_m: float
    count: int
    places: list[np.ndarray]
    worth: list[np.ndarray]

    def best(self) -> np.ndarray:
        """Return the breaks of most worth in all, none further than the room from the next.

        Breaks that are passed over lie evenly between their neighbours, where nothing is won.
        """
        score, came = [np.zeros(1)], [[(0, 0)]]
        for b in range(1, self.count + 1):
            reached = np.full(len(self.places[b]), -np.inf)
            origin = [(0, 0)] * len(reached)
            for before in range(max(0, b - _MOST_PASSED_OVER), b):
                apart = self.places[b][:, None] - self.places[before]
                room = (b - before) * self.room_m * (1 + _TOLERANCE)
                total = np.where((apart >= 0) & (apart <= room), score[before], -np.inf)
                at = total.argmax(axis=1)
                better = total[np.arange(len(at)), at] > reached
                reached = np.maximum(reached, total.max(axis=1))
                origin = [(before, int(at[i])) if better[i] else origin[i] for i in range(len(at))]
            score.append(reached + self.worth[b])
            came.append(origin)
        return self._walked_back(came)

    def _walked_back(self, came: list[list[tuple[int, int]]]) -> np.ndarray:
        known, b, at = {self.count: self.length_m}, self.count, 0
        while b:
            b, at = came[b][at]
            known[b] = float(self.places[b][at])
        numbers = np.arange(self.count + 1)
        return np.interp(numbers, sorted(known), [known[number] for number in sorted(known)])


def _windows(edges_m: np.ndarray, worth: np.ndarray, asked: tuple[float, float, int]) -> _Windows:
    """Return the candidates of each break: it lies where the skeins after it can hold the rest."""
    length_m, room_m, count = asked
    places, values = [np.zeros(1)], [np.zeros(1)]
    for b in range(1, count):
        low, high, even = length_m - (count - b) * room_m, b * room_m, b * length_m / count
        slack = _TOLERANCE * length_m
        inside = np.flatnonzero((edges_m >= low - slack) & (edges_m <= high + slack))
        value = worth[inside] - _FOR_EVENNESS * np.abs(edges_m[inside] - even) / length_m
        kept = np.sort(np.argsort(-value, kind="stable")[:_MOST_CANDIDATES])
        places.append(np.append(edges_m[inside][kept], even))
        values.append(np.append(value[kept], 0.0))
    return _Windows(
        length_m, room_m, count, [*places, np.array([length_m])], [*values, np.zeros(1)]
    )
