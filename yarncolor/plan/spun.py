"""What happened at the wheel, as a plan file says it: pieces spun, fibre lost."""

import datetime
from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import DATE, LOT, NUMBER, PLY, TABLE, WHOLE, Key
from yarncolor.plan.limits import (
    LEAST_M,
    LEAST_PORTION_G,
    MOST_GRAMS,
    MOST_GROSS_G,
    MOST_M,
    MOST_PLIES,
    MOST_PORTIONS,
)
from yarncolor.plan.lots import NAME_RIGHT, text_key
from yarncolor.plan.spinning import Sample


@dataclass(frozen=True)
class Spun:
    """What was put onto the bobbins of one ply: a row of its page, rows as planned, or a piece."""

    ply: Annotated[
        int,
        Key(
            PLY,
            "The ply whose bobbin it lies on; entries stand in the order spun.",
            "the number of a ply, {}",
            1,
            MOST_PLIES,
            words="ply",
        ),
    ]
    row: Annotated[
        int | None,
        Key(
            WHOLE,
            "Which row of that ply's page, from 1 in spinning order.",
            "a row of that ply's page, {}",
            1,
            MOST_PORTIONS,
            otherwise="none: a piece too many",
            words="row of the page",
        ),
    ] = None
    through: Annotated[
        int | None,
        Key(
            WHOLE,
            "Every row of that ply's page up to this one that no entry named before, each spun as "
            "planned. One that was passed over is among them: after a row that was left out, name "
            "the others by their own.",
            "a row of that ply's page, {}",
            1,
            MOST_PORTIONS,
            otherwise="one piece alone",
            words="all rows as planned up to row",
        ),
    ] = None
    lot: Annotated[
        str | None,
        Key(
            LOT,
            "What went in.",
            NAME_RIGHT,
            otherwise="that row's lot",
            words="lot that went in",
        ),
    ] = None
    mass_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "Fibre as weighed out.",
            "{grams}, {}",
            LEAST_PORTION_G,
            MOST_GRAMS,
            unit="g",
            otherwise="by a length or a later reading, else that row's {grams}",
            words="{grams} weighed out",
        ),
    ] = None
    length_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "Its length of single, where it was measured.",
            "{metres} of single, {}",
            LEAST_M,
            MOST_M,
            unit="m",
            otherwise="by {grams} and grist",
            words="{metres} of single, measured",
        ),
    ] = None
    sample: Annotated[
        Sample | None,
        Key(
            TABLE,
            "A piece of it that was broken off, measured and weighed.",
            "a table with length_m and mass_g of a piece broken off",
            holds=Sample,
            example="a length and what it weighs, as in “{a_short_sample}”",
            otherwise="none",
            words="a sample broken off: {m}, {g}",
        ),
    ] = None
    gross_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "What the bobbin with its single weighs after this piece.",
            "{grams} of bobbin and single, {}",
            LEAST_PORTION_G,
            MOST_GROSS_G,
            unit="g",
            otherwise="not weighed",
            words="bobbin and single weigh, {g}",
        ),
    ] = None
    bobbin: Annotated[
        int | None,
        Key(
            WHOLE,
            "Which bobbin of that ply, from 1, where it fills several.",
            "which bobbin of that ply, {}",
            1,
            MOST_PORTIONS,
            otherwise="the last that was named, else 1",
            words="which of its bobbins",
        ),
    ] = None
    on: Annotated[
        datetime.date | None,
        Key(
            DATE,
            "The day it was spun.",
            "a date without quotation marks, as 2026-03-01",
            otherwise="not said",
            words="spun on",
        ),
    ] = None
    note: Annotated[str, text_key("For the record.", otherwise="none", words="note")] = ""


@dataclass(frozen=True)
class Lost:
    """Spoilt or lost fibre: its lot has so much less."""

    lot: Annotated[str, Key(LOT, "The lot that has so much less.", NAME_RIGHT, words="lot")]
    mass_g: Annotated[
        float,
        Key(
            NUMBER,
            "Fibre that was spoilt or lost.",
            "{grams}, {}",
            LEAST_PORTION_G,
            MOST_GRAMS,
            unit="g",
            words="{grams} lost",
        ),
    ]
