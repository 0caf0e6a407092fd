"""Slips as the section at the wheel offers them, and what it says to do about each."""

from yarncolor.editing.at_the_wheel_slips import NOT_SPUN, WOUND_ONCE_MORE
from yarncolor.editing.slips import CLOSED_LATE, IN_REVERSE, OTHER_TWIST, SWAP_LATE
from yarncolor.report.slip_words import SLIP_WORDS

OF_A_PLY: list[tuple[str, str]] = [
    *((name, SLIP_WORDS[name].name) for name in (IN_REVERSE, OTHER_TWIST, CLOSED_LATE, SWAP_LATE)),
    (WOUND_ONCE_MORE, "wind its bobbin off once more before plying"),
    (NOT_SPUN, "nothing is spun on this ply after all"),
]
"""What is said of a whole ply, and what puts one right that was spun in reverse."""


def to_do(slip: str) -> str:
    """Return what to do about a slip; that undo brings back what was, where there is nothing."""
    if slip not in SLIP_WORDS:
        return "Written down. Undo takes it back."
    words = SLIP_WORDS[slip]
    return f"Written down: {words.name}. {words.to_do}"
