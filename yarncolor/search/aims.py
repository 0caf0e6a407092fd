"""What an order can be good at, as numbers: measures of a yarn, and which way round is better."""

from typing import NamedTuple

SMOOTH, CONTRAST, EVEN, MATCHED, TWINS = "smooth", "contrast", "even", "matched", "twins"
MEASURES = (SMOOTH, CONTRAST, EVEN, MATCHED, TWINS)
"""Mean difference along the plies; mean and spread of that between them; shares of the length."""

TWINS_BELOW = 5.0
"""CIEDE2000 below which two lots side by side are near-twins."""


class Aim(NamedTuple):
    """What an aim looks at, and whether more of it is better."""

    measure: str
    more_is_better: bool

    @property
    def sign(self) -> float:
        """By what a value is multiplied so that less is better."""
        return -1.0 if self.more_is_better else 1.0


AIMS = {
    "smooth": Aim(SMOOTH, False),
    "quiet": Aim(CONTRAST, False),
    "lively": Aim(CONTRAST, True),
    "even": Aim(EVEN, False),
    "matched": Aim(MATCHED, True),
    "marled": Aim(MATCHED, False),
    "no_twins": Aim(TWINS, False),
}
"""Every aim of a plan file."""


def measures_of(aims: tuple[str, ...]) -> tuple[str, ...]:
    """Return the measures that these aims look at, each once."""
    wanted = {AIMS[name].measure for name in aims}
    return tuple(measure for measure in MEASURES if measure in wanted)
