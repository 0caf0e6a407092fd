"""What the section at the plying wheel says of twist that is seen in the yarn."""

from dataclasses import replace

from yarncolor.answers.answer import Answer
from yarncolor.answers.care import twist_seen
from yarncolor.cautions import FLYER
from yarncolor.editing.field_units import typed_unit
from yarncolor.editing.option_text import parse_number, parse_value
from yarncolor.plan.key import NUMBER, Key
from yarncolor.report.care_words import LOOP_WORDS, hook_lines, loop_lines, twist_lines
from yarncolor.widgets.protocol.plying import CareTold, LookAtTwist

LOOPS = [("", "not looked at"), *LOOP_WORDS.items()]
OVER = {"cm": "10", "in": "4"}
"""Over how much bumps are counted, by the unit of a width."""
_LEAST, _MOST = 0.1, 10_000
_COUNTED = Key(NUMBER, "Over how much bumps are counted.", low=_LEAST, high=_MOST, unit="cm")


def care_told(answer: Answer, message: LookAtTwist) -> CareTold:
    """Return what to do, or what is still to be counted.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    message : LookAtTwist
        What was seen.
    """
    lines = [*_counted(answer, message["bumps"], message["over_cm"])]
    lines += [*loop_lines(message["loop"]), *hook_lines(catches=message["catches"])]
    return {"kind": "care", "lines": [*lines, FLYER] if lines else []}


def _counted(answer: Answer, bumps: str, over_cm: str) -> list[str]:
    if not bumps.strip():
        return []
    own = replace(_COUNTED, typed=typed_unit(_COUNTED.unit, answer.say))
    numbers = [parse_number(bumps), parse_value(own, over_cm)]
    if not all(isinstance(one, int | float) and _LEAST <= one <= _MOST for one in numbers):
        many = answer.say.width.plural
        return [f"Give the bumps you counted and over how many {many}, as 24 and 5."]
    seen = twist_seen(answer, *(float(one) for one in numbers))
    return ["A single has no ply twist."] if seen is None else [*twist_lines(answer, seen)]
