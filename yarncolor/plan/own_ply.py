"""What one ply holds where that is laid out for it: portions, or a sequence of its own."""

from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import DIVISION, FLAG, LOT, LOTS, NUMBER, PART, PARTS, PLY, Key
from yarncolor.plan.limits import (
    LEAST_PART,
    LEAST_PORTION_G,
    MOST_GRAMS,
    MOST_PARTS,
    MOST_PLACES,
    MOST_PLIES,
    MOST_REPEATS,
)
from yarncolor.plan.lots import NAME_RIGHT

ON_PLY = Key(PLY, "The ply that it is spun on.", "the number of a ply, {}", 1, MOST_PLIES)
OF_LOT = Key(LOT, "The lot that it is of.", NAME_RIGHT)
_PART = Key(
    PART,
    "How much of the ply a place is.",
    f"a number of parts, 0 or from {LEAST_PART} to {MOST_PARTS:,}",
)


@dataclass(frozen=True)
class FreePortion:
    """A portion that the user laid out: so many grams of a lot on a ply."""

    ply: Annotated[int, ON_PLY]
    lot: Annotated[str, OF_LOT]
    mass_g: Annotated[
        float,
        Key(NUMBER, "What it weighs.", "{grams}, {}", LEAST_PORTION_G, MOST_GRAMS, unit="g"),
    ]


@dataclass(frozen=True)
class OwnPly:
    """One ply of a mixed scheme, in spinning order."""

    sequence: Annotated[
        tuple[str, ...],
        Key(
            LOTS,
            "The ply's own lots in spinning order; a lot may stand more than once.",
            f"a list of 1 to {MOST_PLACES} names of lots",
            items=OF_LOT,
            least=1,
            most=MOST_PLACES,
        ),
    ]
    parts: Annotated[
        tuple[float, ...] | None,
        Key(
            PARTS,
            "How much of the ply each place is, beside its others.",
            "a list of numbers, one for each place of the ply",
            items=_PART,
            least=1,
            most=MOST_PLACES,
            otherwise="a lot's grams over its places on that ply",
        ),
    ] = None
    times: Annotated[
        int | tuple[float, ...] | None,
        Key(
            DIVISION,
            "How often the ply runs through its sequence; a list gives the repeats' sizes.",
            f"a whole number of repeats from 1 to {MOST_REPEATS}, or a list of at most as many "
            f"sizes, each from {LEAST_PART} to {MOST_PARTS:,}",
            default=1,
        ),
    ] = None
    reversed: Annotated[
        bool,
        Key(FLAG, "Whether the ply is spun in reverse order.", "true or false", default=False),
    ] = False
    start_at: Annotated[
        float | None,
        Key(
            NUMBER,
            "How many places on the ply starts, counted round.",
            "places as a multiple of 0.5, from {}",
            0,
            MOST_PLACES,
            unit="places",
            step=0.5,
            default=0.0,
        ),
    ] = None
