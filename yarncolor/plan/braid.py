"""A braid of a plan file: top that was dyed along its length, so that its colours have an order."""

from dataclasses import dataclass
from functools import cached_property
from typing import Annotated

from yarncolor.plan.key import COLOUR, LAB, LINE, NUMBER, TABLES, WHOLE, Key
from yarncolor.plan.limits import (
    LEAST_GRAMS,
    LONGEST_NAME,
    MOST_GRAMS,
    MOST_LOTS,
    MOST_REPEATS,
)
from yarncolor.plan.lots import NAME_RIGHT, Lot
from yarncolor.said import SEGMENTS


@dataclass(frozen=True)
class Segment:
    """A length of a braid in one colour."""

    name: Annotated[
        str, Key(LINE, "What its colour is called.", NAME_RIGHT, least=1, most=LONGEST_NAME)
    ]
    length_cm: Annotated[
        float,
        Key(NUMBER, "How long it is.", "{centimetres} of the braid, {}", 0.1, 100_000, unit="cm"),
    ]
    colour: Annotated[
        str | None,
        Key(
            COLOUR,
            "Its colour in words or as CSS hex; or lab in its place.",
            'a colour in words, as "dark brick red", or its code, # and 3 or 6 digits from 0 to 9 '
            "and a to f; or lab in its place",
        ),
    ] = None
    lab: Annotated[
        tuple[float, float, float] | None,
        Key(
            LAB,
            "Its colour as [L, a, b] of CIELAB, D65, 2° observer.",
            "[L, a, b] of CIELAB D65: L 0 to 100, a and b -128 to 128",
        ),
    ] = None


@dataclass(frozen=True)
class Braid:
    """A braid of top: its colours are lots of the plan, in the order in which they lie on it."""

    mass_g: Annotated[
        float,
        Key(
            NUMBER,
            "What the whole braid weighs.",
            "{grams}, {}",
            LEAST_GRAMS,
            MOST_GRAMS,
            unit="g",
            otherwise="no braid",
            words="the whole braid weighs, {g}",
        ),
    ]
    segments: Annotated[
        tuple[Segment, ...],
        Key(
            TABLES,
            "Its colours from one end to the other, as they follow each other once.",
            f"1 to {MOST_LOTS} lengths of one colour, each as a {{them}} table",
            slots={"them": SEGMENTS},
            least=1,
            most=MOST_LOTS,
            otherwise="none",
            words="colours from one end to the other: name, colour, {cm}, one a line",
            holds=Segment,
        ),
    ]
    repeats: Annotated[
        int | None,
        Key(
            WHOLE,
            "How often its colours run through from one end to the other.",
            "a whole number of repeats from {}",
            1,
            MOST_REPEATS,
            default=1,
            words="its colours run through so often",
        ),
    ] = None

    @property
    def names(self) -> tuple[str, ...]:
        """Names of its colours, each once, in the order in which they begin."""
        return tuple(dict.fromkeys(one.name for one in self.segments))

    @property
    def turns(self) -> int:
        """How often its colours run through: once where nothing is said."""
        return self.repeats or 1

    @property
    def sequence(self) -> tuple[str, ...]:
        """The colour of each length from end to end, repeats and all."""
        return tuple(one.name for one in self.segments) * self.turns

    @property
    def parts(self) -> tuple[float, ...]:
        """How long each length is, beside the others: centimetres."""
        return tuple(one.length_cm for one in self.segments) * self.turns

    @property
    def length_cm(self) -> float:
        """How long it is from end to end."""
        return sum(one.length_cm for one in self.segments) * self.turns

    @cached_property
    def lots(self) -> tuple[Lot, ...]:
        """Its colours as lots of top, with what they weigh by their share of its length."""
        whole_cm = sum(one.length_cm for one in self.segments)
        return tuple(
            Lot(
                first.name,
                self.mass_g * sum(one.length_cm for one in own) / whole_cm,
                colour=first.colour,
                lab=first.lab,
                preparation="top",
                on_braid=True,
            )
            for own in ([one for one in self.segments if one.name == name] for name in self.names)
            for first in own[:1]
        )
