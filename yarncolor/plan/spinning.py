"""The singles of a plan file: how thick, how twisted, what is lost and how fast."""

from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import NUMBER, SHARE, TABLE, WORD, Key
from yarncolor.plan.limits import FINEST_TEX, THICKEST_TEX

PerPly = float | tuple[float, ...]

AGREE = 0.10
"""Two ways to one quantity may differ by so much of the smaller."""

SENSES = (("Z", "clockwise (Z)"), ("S", "anticlockwise (S)"))
"""Directions of twist, and which way the wheel turns for each."""

_THICK = f"How thick is the single? Fill in one; two must agree within {AGREE * 100:.0f} %"
_LOOSE = "How loosely does yarn lie on your ruler? Fill in one"
_TWIST = "How much twist have the singles? Fill in one"
_PACE = "How fast do you spin? Minutes, or treadles and turns together"


@dataclass(frozen=True)
class Sample:
    """A length of single that was measured and weighed."""

    length_m: Annotated[float, Key(NUMBER, "Its length.", "{metres}, {}", 0.01, 100_000, unit="m")]
    mass_g: Annotated[float, Key(NUMBER, "Its mass.", "{grams}, {}", 0.001, 100_000, unit="g")]


@dataclass(frozen=True)
class WrappedSkein:
    """A yarn that was wrapped on a ruler: how a spinner's own wraps go with metres in 100 g."""

    wpi: Annotated[
        float, Key(NUMBER, "Its wraps.", "wraps to the inch, {}", 1, 200, unit="to the inch")
    ]
    m_per_100g: Annotated[
        float,
        Key(NUMBER, "Its grist.", "{metres} in {hundred_g}, {}", 2, 100_000, unit="m in 100 g"),
    ]


@dataclass(frozen=True)
class Spinning:
    """How the singles are spun: how thick, in one way or in more that agree; twist, losses, pace.

    ``yarn_wpi`` and ``yarn_m_per_100g`` are those of the finished yarn.
    """

    single_tex: Annotated[
        PerPly | None,
        Key(
            NUMBER,
            "How thick the single is: grams in 1,000 m.",
            "{tex_is}: a number from {}",
            FINEST_TEX,
            THICKEST_TEX,
            unit="tex",
            default=100.0,
            otherwise="by another way that is given, else 100",
            each="ply",
            words="single, {tex}",
            heading=_THICK,
        ),
    ] = None
    single_m_per_g: Annotated[
        PerPly | None,
        Key(
            NUMBER,
            "How thick the single is: metres in a gram.",
            "{metres} of single in {gram_of_yarn}: a number from {}",
            0.02,
            1000,
            unit="m in a gram",
            each="ply",
            words="single, {m_in_a_gram}",
            heading=_THICK,
        ),
    ] = None
    sample: Annotated[
        Sample | None,
        Key(
            TABLE,
            "How thick the single is: a length that you measured and weighed.",
            "a table with length_m and mass_g of a length of single",
            holds=Sample,
            example="a length and what it weighs, as in “{a_sample}”",
            words="a weighed length of single: {m}, {g}",
            heading=_THICK,
        ),
    ] = None
    yarn_m_per_100g: Annotated[
        float | None,
        Key(
            NUMBER,
            "How thick the single is: by the metres that the finished yarn is to have in 100 g.",
            "{metres} in {hundred_g} of the finished yarn, {}",
            1,
            100_000,
            unit="m in 100 g",
            words="finished yarn, {m_in_100_g}",
            heading=_THICK,
        ),
    ] = None
    single_wpi: Annotated[
        PerPly | None,
        Key(
            NUMBER,
            "How thick the single is: by its wraps round a ruler.",
            "wraps of the single to the inch: a number from {}",
            1,
            400,
            unit="to the inch",
            each="ply",
            words="single, wraps to the inch",
            heading=_THICK,
        ),
    ] = None
    yarn_wpi: Annotated[
        float | None,
        Key(
            NUMBER,
            "How thick the single is: by the wraps that the finished yarn is to have.",
            "wraps of the finished yarn to the inch, {}",
            1,
            200,
            unit="to the inch",
            words="finished yarn, wraps to the inch",
            heading=_THICK,
        ),
    ] = None
    wrapped_skein: Annotated[
        WrappedSkein | None,
        Key(
            TABLE,
            "A yarn that you wrapped yourself: how loosely you wrap.",
            "a table with wpi and m_per_100g of a yarn you wrapped",
            holds=WrappedSkein,
            example="its wraps to the inch and its {metres} in {hundred_g}, as in “{a_skein}”",
            words="a wrapped skein: wraps to the inch, {m_in_100_g}",
            heading=_LOOSE,
        ),
    ] = None
    packed_density_g_per_cm3: Annotated[
        float | None,
        Key(
            NUMBER,
            "Density in the twisted yarn, for angles and helices.",
            "g/cm³ in the twisted yarn, {}",
            0.05,
            1.3,
            unit="g/cm³",
            default=0.5,
            words="density in the twisted yarn, g/cm³",
        ),
    ] = None
    relaxed_density_g_per_cm3: Annotated[
        float | None,
        Key(
            NUMBER,
            "Density as wrapped on a ruler, for wraps and thickness.",
            "g/cm³ as wrapped on a ruler, {}",
            0.02,
            1.3,
            unit="g/cm³",
            default=0.16,
            otherwise="by the wrapped skein, else 0.16",
            words="density as wrapped on a ruler, g/cm³",
            heading=_LOOSE,
        ),
    ] = None
    twist_tpm: Annotated[
        PerPly | None,
        Key(
            NUMBER,
            "Twist of the single: turns in a metre.",
            "turns in {a_metre} of single: a number from {}",
            1,
            5000,
            unit="turns in a metre",
            each="ply",
            words="turns in {a_metre}",
            heading=_TWIST,
        ),
    ] = None
    twist_tpi: Annotated[
        PerPly | None,
        Key(
            NUMBER,
            "Twist of the single: turns in an inch.",
            "turns in an inch of single: a number from {}",
            0.03,
            127,
            unit="turns in an inch",
            each="ply",
            words="turns in an inch",
            heading=_TWIST,
        ),
    ] = None
    twist_angle_deg: Annotated[
        PerPly | None,
        Key(
            NUMBER,
            "Twist of the single: the angle between its outer fibres and its axis.",
            "degrees of the surface fibres from the axis: a number from {}",
            0.1,
            60,
            unit="°",
            each="ply",
            words="angle of the outer fibres, degrees",
            heading=_TWIST,
        ),
    ] = None
    twist_factor: Annotated[
        PerPly | None,
        Key(
            NUMBER,
            "Twist of the single: turns in a metre times the root of the tex.",
            "{tex_factor}: a number from {}",
            10,
            20_000,
            unit="turns in a metre × √tex",
            each="ply",
            words="twist by a mill's count, the tex twist factor",
            heading=_TWIST,
        ),
    ] = None
    direction: Annotated[
        str | tuple[str, ...] | None,
        Key(
            WORD,
            "Which way the singles are spun.",
            '"S" or "Z"',
            choices=SENSES,
            otherwise="against the plying, else Z",
            each="ply",
            words="singles are spun",
            words_each="singles are spun, S or Z for each ply",
        ),
    ] = None
    card_loss: Annotated[
        float | None,
        Key(
            SHARE,
            "Share of a lot's mass that is lost before there is a portion to weigh.",
            low=0,
            high=0.9,
            default=0.0,
            words="lost in carding, %",
        ),
    ] = None
    spin_loss: Annotated[
        float | None,
        Key(
            SHARE,
            "Share of a portion's mass that is lost while spinning.",
            low=0,
            high=0.9,
            default=0.0,
            words="lost in spinning, %",
        ),
    ] = None
    variation: Annotated[
        float | None,
        Key(
            SHARE,
            "Your own spread of grist between portions: standard deviation over mean.",
            low=0,
            high=1,
            words="unevenness between portions, %",
        ),
    ] = None
    variation_drift: Annotated[
        float | None,
        Key(
            SHARE,
            "How alike in grist neighbouring portions of a ply are: correlation.",
            low=0,
            high=1,
            default=0.0,
            words="neighbouring portions alike, %",
        ),
    ] = None
    variation_within: Annotated[
        float | None,
        Key(
            SHARE,
            "Your own spread of grist along a portion: standard deviation over mean.",
            low=0,
            high=1,
            words="unevenness along a portion, %",
        ),
    ] = None
    variation_reach_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "How far a thick or thin place along a portion reaches.",
            "{metres}, {}",
            0.01,
            1000,
            unit="m",
            default=2.0,
            words="a thick or thin place reaches, {m}",
        ),
    ] = None
    variation_bobbins: Annotated[
        float | None,
        Key(
            SHARE,
            "Your own spread of grist between whole bobbins: standard deviation over mean.",
            low=0,
            high=1,
            words="unevenness between bobbins, %",
        ),
    ] = None
    divided: Annotated[
        str | None,
        Key(
            WORD,
            "How fibre is divided into portions.",
            choices=(("scale", "weighed on a scale"), ("eye", "by eye")),
            default="scale",
            words="fibre is divided",
        ),
    ] = None
    minutes_per_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "How long you spin for a gram.",
            "{minutes}, {}",
            0.001,
            1000,
            unit="minutes",
            otherwise="by treadles and twist, where they are known",
            words="minutes for {a_gram}",
            heading=_PACE,
        ),
    ] = None
    treadles_per_min: Annotated[
        float | None,
        Key(
            NUMBER,
            "How fast you treadle while spinning; with drive_ratio.",
            "treadles a minute, {}",
            1,
            1000,
            unit="a minute",
            words="treadles a minute",
            heading=_PACE,
        ),
    ] = None
    drive_ratio: Annotated[
        float | None,
        Key(
            NUMBER,
            "How often the flyer turns for one treadle while spinning.",
            "turns of the flyer for one treadle, {}",
            0.1,
            100,
            unit="turns",
            words="turns of the flyer for a treadle",
            heading=_PACE,
        ),
    ] = None
