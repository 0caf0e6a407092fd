"""What stands on the table of a plan file's spinner: the scale, and the bobbins."""

from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import NUMBER, SHARE, WHOLE, Key
from yarncolor.plan.spinning import PerPly


@dataclass(frozen=True)
class Scale:
    """What the scale can show, and how damp the fibre is when it is weighed out."""

    step_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "The smallest step that the scale can show; in ounces 0.01 oz where nothing is said.",
            "{grams}, {}",
            0.001,
            100,
            unit="g",
            default=0.1,
            words="the scale shows steps of, {g}",
        ),
    ] = None
    regain: Annotated[
        float | None,
        Key(
            SHARE,
            "Water over dry fibre on the day of weighing out; a lot has its own.",
            low=0,
            high=0.6,
            of="water beside bone-dry fibre",
            words="damp on the day of weighing: water, % of the bone-dry fibre",
        ),
    ] = None


@dataclass(frozen=True)
class Bobbins:
    """Bobbins that fit the wheel, and those on the wheel used for plying."""

    count: Annotated[
        int | None,
        Key(
            WHOLE,
            "How many bobbins fit the wheel.",
            "how many bobbins fit the wheel, {}",
            1,
            100,
            words="bobbins that fit the wheel",
        ),
    ] = None
    capacity_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "What a bobbin holds.",
            "{grams}, {}",
            1,
            10_000,
            unit="g",
            otherwise="no limit",
            words="a bobbin holds, {g}",
        ),
    ] = None
    tare_g: Annotated[
        PerPly | None,
        Key(
            NUMBER,
            "What the empty bobbin weighs.",
            "{grams} of the empty bobbin, {}",
            0,
            10_000,
            unit="g",
            each="bobbin",
            words="an empty bobbin weighs, {g}, one or each",
        ),
    ] = None
    plying_count: Annotated[
        int | None,
        Key(
            WHOLE,
            "How many bobbins fit the wheel that is used for plying.",
            "how many fit the wheel used for plying, {}",
            1,
            100,
            otherwise="one of those for spinning",
            words="plying bobbins that fit",
        ),
    ] = None
    plying_capacity_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "What a bobbin for plying holds.",
            "{grams}, {}",
            1,
            10_000,
            unit="g",
            otherwise="no limit",
            words="a plying bobbin holds, {g}",
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
            words="an empty plying bobbin weighs, {g}",
        ),
    ] = None
