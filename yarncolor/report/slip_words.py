"""Slips at the wheel in a spinner's words: what each is called, and what to do about it."""

from typing import NamedTuple

from yarncolor.editing.slips import (
    ANOTHER_LOT,
    CLOSED_LATE,
    IN_REVERSE,
    LEFT_OUT,
    OTHER_TWIST,
    SWAP_LATE,
    SWAPPED,
    TOO_MANY,
)


class SlipWords(NamedTuple):
    """What a slip is called, and what to do."""

    name: str
    to_do: str


SLIP_WORDS: dict[str, SlipWords] = {
    LEFT_OUT: SlipWords(
        "a row was left out",
        "Leave the single whole: its fibre is still in the drawer. Spin it next, or put the next "
        "rows right; the choices say which keeps more of the yarn as planned.",
    ),
    TOO_MANY: SlipWords(
        "a piece too many was spun",
        "If it is the last piece on the bobbin, draw it off and break the single there. Else leave "
        "it, and look at the choices: its lot may now be short for a row that is still to come.",
    ),
    SWAPPED: SlipWords(
        "two rows were swapped",
        "Leave them. Colours lie otherwise between these two rows alone; where both are equally "
        "long, nothing else has moved.",
    ),
    ANOTHER_LOT: SlipWords(
        "another lot went in",
        "Leave it. No meeting of colours has moved, but the lot that went in may be short for its "
        "own rows: weigh what is left of it.",
    ),
    IN_REVERSE: SlipWords(
        "a ply was spun in reverse",
        "Before plying wind that bobbin to another one once more than the others: it then comes "
        "off the other way round, and every colour lies where it was planned. If it is not all "
        "spun, go on in reverse to its end.",
    ),
    CLOSED_LATE: SlipWords(
        "the closing colour ran double, and should not again",
        "From here on lay one of the two pieces aside at every meeting, and spin all of those at "
        "the very end of the ply. What already runs double stays.",
    ),
    SWAP_LATE: SlipWords(
        "the closing colour ran double: swap the last two from here on",
        "From here on spin the last two pieces in each other's place wherever one time through "
        "meets the next. Nothing is laid aside and nothing stays over; what already runs double "
        "stays.",
    ),
    OTHER_TWIST: SlipWords(
        "a single was spun the other way round",
        "It cannot be plied with the others: plying would wind it tighter and tighter while they "
        "open. Stop there and spin the rest of the rows the right way on another bobbin; what was "
        "spun the wrong way is spun anew, or kept for a yarn whose singles all turn that way. If "
        "all singles turn that way, ply the other way round and nothing is lost.",
    ),
}
"""By the slip, in the order in which they are offered."""
