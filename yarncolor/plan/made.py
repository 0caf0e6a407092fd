"""What came out, as a plan file says it: the yarn that was made, measured when it was done."""

import datetime
from dataclasses import dataclass
from functools import partial
from typing import Annotated

from yarncolor.plan.key import DATE, LINE, NUMBER, WHOLE, Key
from yarncolor.plan.limits import LEAST_M, MOST_GRAMS, MOST_M
from yarncolor.plan.lots import text_key
from yarncolor.plan.plied import TURN

_MOST_H = 10_000
_LONGEST_FILE_NAME = 120

_day = partial(
    Key, DATE, right="a date without quotation marks, as 2026-03-01", otherwise="not said"
)
_hours = partial(Key, NUMBER, right="hours, {}", low=0.01, high=_MOST_H, unit="h")


@dataclass(frozen=True)
class Made:
    """The yarn as it came out: its length, mass and looks, and how long it took."""

    turns: Annotated[
        float | None,
        Key(
            NUMBER,
            "Turns of the yarn as plied, each of turn_m.",
            "turns, {}",
            LEAST_M,
            MOST_M,
            unit="turns",
            otherwise="not counted",
            words="turns in all",
        ),
    ] = None
    turn_m: Annotated[float | None, TURN] = None
    length_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "Metres of yarn as plied; or turns with turn_m.",
            "{metres} of yarn, {}",
            LEAST_M,
            MOST_M,
            unit="m",
            otherwise="by turns",
            words="{metres} of yarn as plied",
        ),
    ] = None
    mass_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "What the yarn weighs.",
            "{grams}, {}",
            0.001,
            MOST_GRAMS,
            unit="g",
            otherwise="not weighed",
            words="the yarn weighs, {g}",
        ),
    ] = None
    washed_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "Metres of yarn after the wash.",
            "{metres} of yarn, {}",
            LEAST_M,
            MOST_M,
            unit="m",
            otherwise="not measured",
            words="{metres} of yarn after the wash",
        ),
    ] = None
    wpi: Annotated[
        float | None,
        Key(
            NUMBER,
            "Wraps of the finished yarn.",
            "wraps to the inch, {}",
            1,
            200,
            unit="to the inch",
            otherwise="not wrapped",
            words="wraps to the inch of the finished yarn",
        ),
    ] = None
    skeins: Annotated[
        int | None,
        Key(
            WHOLE,
            "How many skeins there are.",
            "how many skeins, {}",
            1,
            1000,
            otherwise="not counted",
            words="skeins",
        ),
    ] = None
    hours_spinning: Annotated[
        float | None,
        _hours(
            meaning="How long all the spinning took.",
            otherwise="not said",
            words="hours spinning",
        ),
    ] = None
    hours_plying: Annotated[
        float | None,
        _hours(meaning="How long the plying took.", otherwise="not said", words="hours plying"),
    ] = None
    spun_from: Annotated[
        datetime.date | None,
        _day(meaning="The day on which the spinning began.", words="spinning began on"),
    ] = None
    spun_to: Annotated[
        datetime.date | None,
        _day(meaning="The day on which the spinning ended.", words="spinning ended on"),
    ] = None
    plied_on: Annotated[
        datetime.date | None, _day(meaning="The day it was plied.", words="plied on")
    ] = None
    washed_on: Annotated[
        datetime.date | None, _day(meaning="The day it was washed.", words="washed on")
    ] = None
    note: Annotated[str, text_key("For the record.", otherwise="none", words="note")] = ""
    picture: Annotated[
        str,
        Key(
            LINE,
            "A photograph of the yarn, beside the plan file.",
            f"the name of a picture beside the plan file, of at most {_LONGEST_FILE_NAME} "
            "characters",
            most=_LONGEST_FILE_NAME,
            otherwise="none",
            words="picture of the yarn: a file beside the plan",
        ),
    ] = ""

    @property
    def plied_m(self) -> float | None:
        """Metres of yarn as plied: as measured, else by turns; None where neither is said."""
        if self.length_m is not None or self.turns is None or self.turn_m is None:
            return self.length_m
        return self.turns * self.turn_m
