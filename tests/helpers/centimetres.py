"""Single as a list of coloured centimetres, moved by what hands do: wound off, broken, spliced.

Nothing here knows a formula: a bobbin is a list whose last entry is its outer end.
"""

from collections.abc import Sequence

Centimetre = tuple[int, int]
"""The bobbin that a centimetre was spun on, and its colour."""


class Bobbin:
    """Single on a bobbin; what was put on last comes off first."""

    def __init__(self, single: Sequence[Centimetre]) -> None:
        """Spin or wind these centimetres on, in this order."""
        self._lies = list(single)

    def __len__(self) -> int:
        """Return how many centimetres lie there."""
        return len(self._lies)

    def draw(self) -> Centimetre:
        """Draw one centimetre off the outer end."""
        return self._lies.pop()

    def all_off(self) -> list[Centimetre]:
        """Draw off all there is; the outer end comes first."""
        return [self.draw() for _ in range(len(self))]


class Ball:
    """Single in a ball that can be drawn from its middle and from outside."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self._wound: list[Centimetre] = []

    def __len__(self) -> int:
        """Return how many centimetres are wound."""
        return len(self._wound)

    def wind_on(self, centimetre: Centimetre) -> None:
        """Wind one centimetre on, on the outside; the first is the end in its middle."""
        self._wound.append(centimetre)

    def from_middle(self) -> Centimetre:
        """Draw one centimetre out of the middle."""
        return self._wound.pop(0)

    def from_outside(self) -> Centimetre:
        """Draw one centimetre off the outside."""
        return self._wound.pop()


class Wheel:
    """A yarn being plied: ends that run into it, and centimetres of all of them so far."""

    def __init__(self, bobbins: Sequence[Bobbin]) -> None:
        """Tie on the outer end of every bobbin."""
        self.bobbins = list(bobbins)
        self.yarn: list[tuple[Centimetre, ...]] = []
        self.last: dict[int, Centimetre] = {}

    def ply(self) -> int | None:
        """Ply till a bobbin is empty, and return which; None where several are."""
        while all(len(one) for one in self.bobbins):
            together = tuple(one.draw() for one in self.bobbins)
            self.last = dict(enumerate(together))
            self.yarn.append(together)
        empty = [k for k, one in enumerate(self.bobbins) if not len(one)]
        return empty[0] if len(empty) == 1 else None

    def fullest(self) -> int:
        """Return which bobbin has most left, the first of equals."""
        sizes = [len(one) for one in self.bobbins]
        return sizes.index(max(sizes))
