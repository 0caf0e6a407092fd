"""What was decided at the wheel for the rows still to spin: other grams, pieces, ends drawn off."""

from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import LOT, NUMBER, PLY, WHOLE, Key
from yarncolor.plan.limits import LEAST_M, MOST_GRAMS, MOST_M, MOST_PLIES, MOST_PORTIONS
from yarncolor.plan.lots import NAME_RIGHT

_PLY = Key(
    PLY, "The ply that it is spun on.", "the number of a ply, {}", 1, MOST_PLIES, words="ply"
)


@dataclass(frozen=True)
class ToSpin:
    """What a row still to spin takes in place of its grams as planned; or a piece to spin next."""

    ply: Annotated[int, _PLY]
    row: Annotated[
        int | None,
        Key(
            WHOLE,
            "Which row of that ply's page, from 1 in spinning order.",
            "a row of that ply's page, {}",
            1,
            MOST_PORTIONS,
            otherwise="none: a piece that no row asks for",
            words="row of the page",
        ),
    ] = None
    after_pieces: Annotated[
        int | None,
        Key(
            WHOLE,
            "How many pieces lie on that bobbin before a piece that no row asks for.",
            "how many pieces lie there before it, {}",
            0,
            MOST_PORTIONS,
            otherwise="0; a row has its own place",
            words="after so many pieces",
        ),
    ] = None
    lot: Annotated[
        str | None,
        Key(
            LOT,
            "The lot of a piece that no row asks for.",
            NAME_RIGHT,
            otherwise="that row's lot",
            words="lot",
        ),
    ] = None
    mass_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "Grams to weigh out; a row of 0 g is not spun.",
            "{grams}, {}",
            0,
            MOST_GRAMS,
            unit="g",
            otherwise="that row's {grams}",
            words="{grams} to weigh out",
        ),
    ] = None
    length_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "Metres of single that these grams are spun to, finer or thicker than the rest.",
            "{metres} of single, {}",
            LEAST_M,
            MOST_M,
            unit="m",
            otherwise="by {grams} and grist",
            words="spun to so many {metres}",
        ),
    ] = None


@dataclass(frozen=True)
class PullOff:
    """So much single is drawn off the outer end of a bobbin before plying."""

    ply: Annotated[int, _PLY]
    length_m: Annotated[
        float,
        Key(
            NUMBER,
            "Metres of single drawn off the outer end before plying.",
            "{metres} of single, {}",
            LEAST_M,
            MOST_M,
            unit="m",
            words="{metres} drawn off",
        ),
    ]
