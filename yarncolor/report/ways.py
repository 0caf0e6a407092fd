"""A way to mend something, as data: what it is called, what it costs, what it changes."""

from dataclasses import dataclass
from typing import Any

Change = tuple[tuple[str, str, Any], ...]
"""Keys of a plan file by table, with their new values; None takes a key away."""


@dataclass(frozen=True)
class Way:
    """One way to mend something.

    Parameters
    ----------
    choice : str
        What to choose.
    key : str
        Its word in the plan file, where it has one.
    cost : str
        What it costs.
    change : Change
        What it changes in the plan.
    """

    choice: str
    key: str = ""
    cost: str = ""
    change: Change = ()


def wound_off(choice: str, times: int) -> Way:
    """Return winding every bobbin off so often.

    Parameters
    ----------
    choice : str
        What it is called.
    times : int
        0 or more.
    """
    return Way(choice, change=(("plying", "wound_off", times or None),))
