"""The order under the fingers: which entry stands in which place, and which stay where they are."""

from collections.abc import Iterable
from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Order:
    """A permutation of entries, some of them held.

    An *entry* is a lot at one place of the sequence, named by a number that it keeps however
    it is moved; a *place* is a position, counted from 0. Held entries stay where they are while
    others move round them.

    Parameters
    ----------
    entries : tuple of int
        Which entry stands in each place.
    held : frozenset of int
        Entries that stay where they are.
    """

    entries: tuple[int, ...]
    held: frozenset[int] = frozenset()

    @classmethod
    def of_places(cls, count: int) -> "Order":
        """Return so many entries, each in its own place and none held."""
        return cls(tuple(range(count)))

    def __len__(self) -> int:
        return len(self.entries)

    @property
    def unlocked(self) -> list[int]:
        """The places whose entries may move."""
        return [place for place, entry in enumerate(self.entries) if entry not in self.held]

    def place_of(self, entry: int) -> int:
        """Return the place where an entry stands."""
        return self.entries.index(entry)

    def is_held(self, place: int) -> bool:
        """Return whether what stands in a place is held there."""
        return self.entries[place] in self.held

    def holding(self, entry: int, held: bool) -> "Order":
        """Return the order with an entry held in its place, or let go.

        Parameters
        ----------
        entry : int
            Of the order, by its own number.
        held : bool
            Or let go.
        """
        return replace(self, held=self.held | {entry} if held else self.held - {entry})

    def moved(self, i: int, j: int) -> "Order":
        """Return the order with what stands in place i in place j; the unlocked make room.

        Parameters
        ----------
        i, j : int
            Places, from 0.
        """
        moving = self.unlocked
        moving.insert(moving.index(j), moving.pop(moving.index(i)))
        return self._from(moving)

    def reversed(self) -> "Order":
        """Return the order of the unlocked places the other way round."""
        return self._from(self.unlocked[::-1])

    def turned(self, places: int) -> "Order":
        """Return the order beginning some unlocked places on, counted round."""
        loose = self.unlocked
        shift = places % len(loose) if loose else 0
        return self._from(loose[shift:] + loose[:shift])

    def moves(self, entries: Iterable[int]) -> list[tuple[int, int]]:
        """Return every move of one of these entries to another place that there is."""
        loose = [self.entries[place] for place in self.unlocked]
        places = {entry: place for place, entry in enumerate(self.entries)}
        return [
            (entry, place)
            for entry in entries
            for place in self.unlocked
            if entry in loose and place != places[entry]
        ]

    def sources(self, before: "Order") -> tuple[int, ...]:
        """Return the place in an order before from which each place has its entry."""
        return tuple(before.place_of(entry) for entry in self.entries)

    def _from(self, sources: list[int]) -> "Order":
        """Return the order whose unlocked places have their entries from these places."""
        entries = list(self.entries)
        for place, source in zip(self.unlocked, sources, strict=True):
            entries[place] = self.entries[source]
        return replace(self, entries=tuple(entries))
