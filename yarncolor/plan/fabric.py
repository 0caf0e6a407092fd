"""What a plan file is for: a knitted piece, or so much yarn."""

from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import NUMBER, SHARE, TABLE, WHOLE, WORD, Key
from yarncolor.plan.limits import LEAST_GRAMS, MOST_GRAMS, MOST_ROWS

KINDS_OF_FABRIC = (
    ("flat", "flat, to and fro"),
    ("round", "in the round"),
    ("triangle", "a triangle from the top down"),
)
_HOW_MUCH = "How much yarn? One of the two"


@dataclass(frozen=True)
class Swatch:
    """A swatch that was weighed: stitches wide, rows high, without its ends."""

    stitches: Annotated[
        int, Key(WHOLE, "Its width.", "stitches across, a whole number from {}", 1, 1000)
    ]
    rows: Annotated[int, Key(WHOLE, "Its height.", "rows up, a whole number from {}", 1, 1000)]
    mass_g: Annotated[float, Key(NUMBER, "Its mass.", "{grams}, {}", 0.001, 10_000, unit="g")]


@dataclass(frozen=True)
class Fabric:
    """What is to be knitted, in plain stitch, and what washing does to the yarn's length."""

    kind: Annotated[
        str | None,
        Key(
            WORD,
            "What is knitted.",
            choices=KINDS_OF_FABRIC,
            default="flat",
            words="knitted",
        ),
    ] = None
    stitches: Annotated[
        int | None,
        Key(
            WHOLE,
            "Stitches cast on.",
            "stitches cast on, a whole number from {}",
            1,
            10_000,
            otherwise="by the width; 3 for a triangle",
            words="stitches cast on",
        ),
    ] = None
    width_cm: Annotated[
        float | None,
        Key(
            NUMBER,
            "How wide it is to be, in place of stitches cast on: in the round all round, of a "
            "triangle its wingspan.",
            "{centimetres}, {}",
            1,
            500,
            unit="cm",
            otherwise="by stitches and gauge",
            words="how wide, {cm}; of a triangle its wingspan",
        ),
    ] = None
    rows: Annotated[
        int | None,
        Key(
            WHOLE,
            "Rows or rounds to knit.",
            "rows or rounds, a whole number from {}",
            1,
            MOST_ROWS,
            otherwise="as many as the yarn suffices for; of a triangle by its wingspan",
            words="rows or rounds",
        ),
    ] = None
    increases_per_row: Annotated[
        float | None,
        Key(
            NUMBER,
            "Stitches that a triangle wins in a row, in the mean.",
            "stitches won in a row, {}",
            0.01,
            20,
            unit="stitches",
            default=2.0,
            words="increases in a row, of a triangle",
        ),
    ] = None
    gauge_stitches: Annotated[
        float | None,
        Key(
            NUMBER,
            "Stitches in 10 cm.",
            "stitches in {ten_cm}, {}",
            1,
            100,
            unit="in 10 cm",
            otherwise="by stitches and width, else by the rows, else by the swatch, else a guess "
            "by the yarn's thickness",
            words="stitches in {ten_cm}",
        ),
    ] = None
    gauge_rows: Annotated[
        float | None,
        Key(
            NUMBER,
            "Rows in 10 cm.",
            "rows in {ten_cm}, {}",
            1,
            150,
            unit="in 10 cm",
            otherwise="by the stitches",
            words="rows in {ten_cm}",
        ),
    ] = None
    swatch: Annotated[
        Swatch | None,
        Key(
            TABLE,
            "A swatch that you knitted, washed and weighed: how much yarn a stitch takes.",
            "a table with stitches, rows and mass_g of a weighed swatch",
            holds=Swatch,
            example="stitches across, rows up and {grams}, as in “{a_swatch}”",
            otherwise="none weighed",
            words="a weighed swatch: stitches, rows, {g}",
        ),
    ] = None
    finishing_shrinkage: Annotated[
        float | None,
        Key(
            SHARE,
            "Share of length that the yarn loses in the wash.",
            low=-0.1,
            high=0.6,
            words="shrinks in the wash, %",
        ),
    ] = None


@dataclass(frozen=True)
class Target:
    """So much yarn, as plied, instead of using everything; metres or grams."""

    yarn_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "So many metres, as plied, instead of using everything.",
            "{metres}, {}",
            0.001,
            1_000_000,
            unit="m",
            otherwise="everything is used",
            words="{metres} of yarn",
            heading=_HOW_MUCH,
        ),
    ] = None
    yarn_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "So many grams of yarn instead of using everything.",
            "{grams}, {}",
            LEAST_GRAMS,
            MOST_GRAMS,
            unit="g",
            otherwise="everything is used",
            words="{grams} of yarn",
            heading=_HOW_MUCH,
        ),
    ] = None
