"""How far the plying has come, and where a single came to its end, as a plan file says it."""

from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import NUMBER, PLY, Key
from yarncolor.plan.limits import LEAST_M, LEAST_PORTION_G, MOST_GROSS_G, MOST_M, MOST_PLIES

TURN = Key(
    NUMBER,
    "The length of one turn.",
    "{metres} of a turn, {}",
    0.01,
    1000,
    unit="m",
    otherwise="not counted",
    words="{metres} in a turn",
)
"""What one turn of a yarn that is counted by turns is long."""


@dataclass(frozen=True)
class Plied:
    """How much yarn lies on the plying bobbin, and which single ended where."""

    so_far_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "Yarn on the plying bobbin so far; or turns with turn_m, or gross_g.",
            "{metres} of yarn, {}",
            0,
            MOST_M,
            unit="m",
            otherwise="by turns, else by weight",
            words="{metres} of yarn plied so far",
        ),
    ] = None
    turns: Annotated[
        float | None,
        Key(
            NUMBER,
            "Turns of yarn so far, each of turn_m.",
            "turns, {}",
            0,
            MOST_M,
            unit="turns",
            otherwise="not counted",
            words="turns plied so far",
        ),
    ] = None
    turn_m: Annotated[float | None, TURN] = None
    gross_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "What the plying bobbin with its yarn weighs so far; by the yarn's grist that says how "
            "much yarn it is.",
            "{grams} of bobbin and yarn, {}",
            0,
            MOST_GROSS_G,
            unit="g",
            otherwise="not weighed",
            words="plying bobbin and yarn weigh, {g}",
        ),
    ] = None
    plying_tare_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "What the empty plying bobbin weighs.",
            "{grams} of the empty plying bobbin, {}",
            0,
            10_000,
            unit="g",
            otherwise="as the bobbins' own plying_tare_g says",
            words="the empty plying bobbin weighs, {g}",
        ),
    ] = None
    ended_ply: Annotated[
        int | None,
        Key(
            PLY,
            "The single that came to its end; all lengths are brought into line with that.",
            "the number of a ply, {}",
            1,
            MOST_PLIES,
            otherwise="none has ended",
            words="the single that ran out, of ply",
        ),
    ] = None
    at_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "After how much yarn it ended; or at_gross_g.",
            "{metres} of yarn, {}",
            LEAST_M,
            MOST_M,
            unit="m",
            otherwise="by weight",
            words="after so many {metres} of yarn",
        ),
    ] = None
    at_gross_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "What the plying bobbin with its yarn weighed when it ended; by the yarn's grist that "
            "says after how much yarn.",
            "{grams} of bobbin and yarn, {}",
            LEAST_PORTION_G,
            MOST_GROSS_G,
            unit="g",
            otherwise="by {metres}",
            words="plying bobbin and yarn weighed then, {g}",
        ),
    ] = None
