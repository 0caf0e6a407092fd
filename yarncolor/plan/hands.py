"""What a spinner's own hands do, as a file beside a plan says it, and on how much it rests."""

from collections.abc import Iterator
from dataclasses import dataclass, fields

FIGURES = {
    "variation": "spinning",
    "spin_loss": "spinning",
    "contraction": "plying",
    "finishing_shrinkage": "fabric",
    "minutes_per_g": "spinning",
}
"""Every figure by the key of a plan that it stands in for, and that key's table."""

WORDS = {
    "variation": "unevenness between portions",
    "spin_loss": "lost in spinning",
    "contraction": "length lost in plying",
    "finishing_shrinkage": "shrinks in the wash",
    "minutes_per_g": "minutes for a gram",
}
"""What each is called."""

RESTS_ON = {"variation": "piece", "spin_loss": "bobbin"}
"""What a figure is counted by; the others by yarns."""

FEWEST = {"variation": 5}
"""From how many of these a figure is told; the others from one."""


@dataclass(frozen=True)
class Figure:
    """One thing that hands do.

    Parameters
    ----------
    value : float
        The best guess, in the unit of its key.
    rests_on : int
        How many pieces, bobbins or yarns it was found on.
    low, high : float or None
        The truth lies between them nine times in ten; None where it rests on one alone.
    """

    value: float
    rests_on: int
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class Hands:
    """What hands do, as far as records tell.

    Parameters
    ----------
    yarns : tuple of str
        What the yarns are called that it was found on.
    variation, spin_loss, contraction, finishing_shrinkage, minutes_per_g : Figure or None
        By the key of a plan that each stands in for; None where nothing tells.
    file : str
        The file that says so.
    """

    yarns: tuple[str, ...] = ()
    variation: Figure | None = None
    spin_loss: Figure | None = None
    contraction: Figure | None = None
    finishing_shrinkage: Figure | None = None
    minutes_per_g: Figure | None = None
    file: str = ""

    def figures(self) -> Iterator[tuple[str, Figure]]:
        """Return every figure that is known, by its key."""
        for item in fields(self):
            figure = getattr(self, item.name)
            if isinstance(figure, Figure):
                yield item.name, figure
