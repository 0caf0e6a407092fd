"""What is said, kept as data until it is known who reads it: a sentence with slots.

A slot is something that each audience words for itself: a key of the plan file, a span of shares,
a choice by its word. Its own text is that of the plan file; a form says it by the words beside
its fields and in per cent. Plain texts and numbers in a sentence, the user's own among them, are
said to everyone alike.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field


class Slot:
    """What each audience words for itself; its text is that of the plan file."""


@dataclass(frozen=True)
class KeyName(Slot):
    """A key of the plan file.

    Parameters
    ----------
    table : str
        Table that the key stands in; empty for the head of the file.
    key : str
        The key.
    with_table : bool
        Whether the table is named too, where another has a key of that name.
    example : str
        What follows it in the file, such as ``= { … }``; said of a file alone.
    """

    table: str
    key: str
    with_table: bool = False
    example: str = ""

    def __str__(self) -> str:
        named = f"{self.table} {self.key}" if self.with_table else self.key
        return f"{named} {self.example}" if self.example else named


@dataclass(frozen=True)
class Choice(Slot):
    """A word that can be chosen for a key of the plan file."""

    table: str
    key: str
    word: str

    def __str__(self) -> str:
        return self.word


@dataclass(frozen=True)
class Choices(Slot):
    """Every word that can be chosen for a key of the plan file."""

    table: str
    key: str
    words: tuple[str, ...]

    def __str__(self) -> str:
        return ", ".join(self.words)


@dataclass(frozen=True)
class ShareSpan(Slot):
    """From one share to another; a form has them in per cent.

    Parameters
    ----------
    low, high : float
        Both are allowed.
    of : str
        Of what, where that does not go without saying.
    """

    low: float
    high: float
    of: str = ""

    def __str__(self) -> str:
        span = f"a share from {self.low:g} to {self.high:g}"
        return f"{self.of}, {span}" if self.of else span


@dataclass(frozen=True)
class InFile(Slot):
    """Words that are right for a file, such as "a list of plies", and those for a form."""

    words: str
    in_form: str

    def __str__(self) -> str:
        return self.words


@dataclass(frozen=True)
class Figure(Slot):
    """A number that a sentence tells, said to everyone alike, and what it is of.

    Parameters
    ----------
    seen : str
        The number with its unit, as it stands in the sentence.
    of : str
        What it is of, by which its reason is found.
    """

    seen: str
    of: str

    def __str__(self) -> str:
        return self.seen


PORTIONS = InFile("[[scheme.portions]]", "portions")
EACH_PLY = InFile("one [[scheme.ply]] table for each ply", "one line for each ply")
STRIPES = InFile("[[scheme.stripes]]", "stripes")
SEGMENTS = InFile("[[braid.segments]]", "colours of the braid")
LIST_OF_PLIES = InFile("a list of plies", "plies")


def one_for_each(thing: str) -> InFile:
    """Return what is given where each of several things has a value of its own."""
    return InFile(f"a list with one for each {thing}", f"one for each {thing}")


@dataclass(frozen=True)
class Said:
    """A sentence with slots.

    Parameters
    ----------
    template : str
        The sentence, slots in braces as `str.format` has them.
    slots : mapping of str to slot, sentence, text or number
        What stands in them.
    is_predicate : bool
        Whether it reads on after what it is said of: "is missing", "says 5 …".
    needed : str
        What is still needed, in few words, where nothing is wrong but something is missing.
    """

    template: str
    slots: "Mapping[str, Filling]" = field(default_factory=dict, hash=False)
    is_predicate: bool = False
    needed: str = ""

    def __str__(self) -> str:
        return self.worded(str)

    def worded(self, word: Callable[[Slot], str]) -> str:
        """Return the sentence with every slot in an audience's own words."""
        return self.template.format(**{key: _put(value, word) for key, value in self.slots.items()})


Filling = Slot | Said | str | float
"""What can stand in a slot; a text or a number is said to everyone alike."""

Remedy = Said | str
"""What would be right; a plain text is said to everyone alike."""


def figures_in(sentence: Said) -> Iterator[Figure]:
    """Return every number of a sentence that can be asked for, in the order of its slots."""
    for filling in sentence.slots.values():
        if isinstance(filling, Said):
            yield from figures_in(filling)
        elif isinstance(filling, Figure):
            yield filling


def said(template: str, **slots: Filling) -> Said:
    """Return a sentence with its slots: ``said("give {span}", span=ShareSpan(0, 0.9))``.

    Parameters
    ----------
    template : str
        With slots in braces.
    slots : dict of str to slot
        What goes into them.
    """
    return Said(template, slots)


def predicate(template: str, **slots: Filling) -> Said:
    """Return a sentence that reads on after what it is said of: ``predicate("is missing")``.

    Parameters
    ----------
    template : str
        With slots in braces.
    slots : dict of str to slot
        What goes into them.
    """
    return Said(template, slots, is_predicate=True)


def lacking(needed: str, template: str, **slots: Filling) -> Said:
    """Return a predicate of what is right so far and wants something more beside it.

    Parameters
    ----------
    needed : str
        What is still needed, as a form says it: "stitches cast on".
    template : str
        With slots in braces.
    slots : dict of str to slot
        What goes into them.
    """
    return Said(template, slots, is_predicate=True, needed=needed)


def _put(value: Filling, word: Callable[[Slot], str]) -> str | float:
    if isinstance(value, Said):
        return value.worded(word)
    return word(value) if isinstance(value, Slot) else value
