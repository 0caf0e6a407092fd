"""A stripe of a knitted piece: so many rows of a lot, or of a lot for each ply."""

from dataclasses import dataclass
from typing import Annotated

from yarncolor.plan.key import LOT, LOTS, WHOLE, Key
from yarncolor.plan.limits import MOST_PLIES, MOST_ROWS
from yarncolor.plan.lots import NAME_RIGHT

_LOT = Key(LOT, "The lot that it is of.", NAME_RIGHT)


@dataclass(frozen=True)
class Stripe:
    """So many rows or rounds of one lot, or of one for each ply."""

    rows: Annotated[
        int,
        Key(WHOLE, "How high it is.", "rows or rounds, a whole number from {}", 1, MOST_ROWS),
    ]
    lot: Annotated[str | None, Key(LOT, "The lot of all plies.", NAME_RIGHT)] = None
    lots: Annotated[
        tuple[str, ...] | None,
        Key(
            LOTS,
            "A lot for each ply, in place of one for all.",
            f"a list of 1 to {MOST_PLIES} names of lots, one for each ply",
            items=_LOT,
            least=1,
            most=MOST_PLIES,
        ),
    ] = None

    def of_plies(self, plies: int) -> tuple[str, ...]:
        """Return the lot of each ply: (plies,)."""
        return self.lots or (self.lot or "",) * plies
