"""The plying of a plan file: windings, strands, twist, length lost, pace."""

from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import NUMBER, SHARE, WHOLE, WORD, Key
from yarncolor.plan.limits import MOST_WINDINGS
from yarncolor.plan.spinning import SENSES

BALANCES = (
    ("two_thirds", "two thirds of the singles' twist"),
    ("equal_factor", "as much twist for its thickness as the singles"),
    ("parallel_fibres", "the outer fibres lie along the yarn"),
    ("equal_angles", "equal angles in single and ply"),
    ("equal_length", "no length lost in plying"),
    ("self_plied", "as a single plies itself"),
)
MODELS = (
    ("untwisting", "the plies' coils, the singles untwisting"),
    ("helix", "the plies' coils alone"),
    ("none", "nothing is lost"),
)
"""Ways to reckon the length lost in plying."""

WINDINGS = ((0, "straight from the bobbin"), (1, "wound off once"), (2, "wound off twice"))

_PLY_TWIST = "How much ply twist? Fill in one"
_LOST = "How much length is lost in plying? What you measured counts before a way to reckon it"
_PLY_PACE = "How fast do you ply? Treadles and turns together"


@dataclass(frozen=True)
class Plying:
    """How the singles come together: windings before plying, strands, twist, length lost."""

    wound_off: Annotated[
        int | tuple[int, ...] | None,
        Key(
            WHOLE,
            "How often the single is wound to another bobbin before plying. 0: straight from the "
            "bobbin, so that what was spun last comes off first.",
            "how often the single was wound off: a whole number from {}",
            0,
            MOST_WINDINGS,
            unit="times",
            default=0,
            each="ply",
            choices=WINDINGS,
            words="winding before plying",
            words_each="times wound off, for each ply: 0, 1, 2",
        ),
    ] = None
    strands: Annotated[
        int | tuple[int, ...] | None,
        Key(
            WHOLE,
            "Strands of single that lie side by side in a ply.",
            "how many strands of single lie side by side in a ply: a whole number from {}",
            1,
            12,
            default=1,
            each="ply",
            words="strands in each ply",
        ),
    ] = None
    twist_tpm: Annotated[
        float | None,
        Key(
            NUMBER,
            "Ply twist: turns in a metre of yarn.",
            "turns in {a_metre} of yarn, {}",
            1,
            5000,
            unit="turns in a metre",
            words="turns in {a_metre}",
            heading=_PLY_TWIST,
        ),
    ] = None
    twist_tpi: Annotated[
        float | None,
        Key(
            NUMBER,
            "Ply twist: turns in an inch of yarn.",
            "turns in an inch of yarn, {}",
            0.03,
            127,
            unit="turns in an inch",
            words="turns in an inch",
            heading=_PLY_TWIST,
        ),
    ] = None
    balance: Annotated[
        str | None,
        Key(
            WORD,
            "Ply twist: what a balanced yarn is to have, by one of these criteria.",
            "one of {}",
            choices=BALANCES,
            otherwise="none",
            words="for a balanced yarn",
            heading=_PLY_TWIST,
        ),
    ] = None
    direction: Annotated[
        str | None,
        Key(
            WORD,
            "Which way the yarn is plied.",
            '"S" (anticlockwise) or "Z" (clockwise)',
            choices=SENSES,
            otherwise="against the singles",
            words="plied",
        ),
    ] = None
    contraction_model: Annotated[
        str | None,
        Key(
            WORD,
            "By what the length lost in plying is reckoned.",
            choices=MODELS,
            otherwise="untwisting where both twists are known, helix where only the ply's is, "
            "else none",
            words="reckoned by",
            heading=_LOST,
        ),
    ] = None
    contraction: Annotated[
        float | None,
        Key(
            SHARE,
            "Share of length lost in plying, measured; wins over any model.",
            low=-0.2,
            high=0.6,
            otherwise="by the model",
            words="measured, %",
            heading=_LOST,
        ),
    ] = None
    resting_shrinkage: Annotated[
        float | None,
        Key(
            SHARE,
            "Share of length that the yarn loses when it rests.",
            low=-0.1,
            high=0.5,
            words="shortens when it rests, %",
        ),
    ] = None
    treadles_per_min: Annotated[
        float | None,
        Key(
            NUMBER,
            "How fast you treadle while plying; with drive_ratio.",
            "treadles a minute, {}",
            1,
            1000,
            unit="a minute",
            otherwise="as in spinning",
            words="treadles a minute",
            heading=_PLY_PACE,
        ),
    ] = None
    drive_ratio: Annotated[
        float | None,
        Key(
            NUMBER,
            "How often the flyer turns for one treadle while plying.",
            "turns of the flyer for one treadle, {}",
            0.1,
            100,
            unit="turns",
            otherwise="as in spinning",
            words="turns of the flyer for a treadle",
            heading=_PLY_PACE,
        ),
    ] = None
