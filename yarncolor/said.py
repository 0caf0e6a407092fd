"""What is said, kept as data until it is known who reads it: a sentence with slots.

A slot is something that each audience words for itself: a key of the plan file, a span of shares,
a choice by its word. Its own text is that of the plan file; a form says it by the words beside
its fields and in per cent. Plain texts and numbers in a sentence, the user's own among them, are
said to everyone alike.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace

_PLAIN_DIGITS = 10**9


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
class Span(Slot):
    """From one number to another, in a unit of the file; a form has it in the plan's.

    Parameters
    ----------
    low, high : float
        Both are allowed, but where it ``is_open``.
    unit : str
        Of both; empty for none.
    imperial : str
        Unit that a form in ounces and yards has in its place, where that is not the usual one.
    is_open : bool
        Whether its ends are out of it.
    """

    low: float
    high: float
    unit: str = ""
    imperial: str = ""
    is_open: bool = False

    def __str__(self) -> str:
        return self.between(number_text(self.low), number_text(self.high))

    def between(self, low: str, high: str) -> str:
        """Return it with its ends written out.

        Parameters
        ----------
        low, high : str
            In any unit.
        """
        return f"above {low} and below {high}" if self.is_open else f"{low} to {high}"


@dataclass(frozen=True)
class UnitWord(Slot):
    """A unit in words; a form says it as its plan does."""

    metric: str
    imperial: str

    def __str__(self) -> str:
        return self.metric


@dataclass(frozen=True)
class Amount(Slot):
    """A number with its unit; a form says it in the unit of its plan.

    Parameters
    ----------
    value : float
        In the unit.
    unit : str
        Of the file: g, m.
    form : str
        How a file writes it, as `format` has it.
    bound : str
        ``most`` or ``least`` where beyond it nothing is right, so that it is rounded inwards.
    """

    value: float
    unit: str
    form: str = ".10g"
    bound: str = ""

    def __str__(self) -> str:
        return f"{self.value:{self.form}} {self.unit}"


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


def number_text(bound: float) -> str:
    """Return a bound as a file's remedy writes it: ``0.001``, ``100,000``."""
    if abs(bound) >= _PLAIN_DIGITS:
        return str(bound)
    return f"{bound:,.10f}".rstrip("0").rstrip(".")


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

    def lacks(self, word: Callable[[Slot], str]) -> str:
        """Return what is still needed in an audience's own words; empty where nothing is."""
        return replace(self, template=self.needed).worded(word)

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
