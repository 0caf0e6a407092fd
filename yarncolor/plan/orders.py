"""Which order is looked for, as a plan file says it: aims, and what an order has to obey."""

from dataclasses import dataclass, fields
from functools import partial
from typing import Annotated

from yarncolor.plan.key import (
    LOT,
    LOTS,
    NUMBER,
    PAIRS,
    PLACES_OF_LOTS,
    TABLE,
    YES_NO,
    Key,
)
from yarncolor.plan.limits import MOST_LOTS, MOST_PLACES
from yarncolor.plan.lots import NAME_RIGHT

AS_IT_IS = "as it is"
_MOST_WEIGHT = 1000

_aim = partial(
    Key,
    NUMBER,
    right="how much it counts beside the others, {}",
    low=0,
    high=_MOST_WEIGHT,
    otherwise="not looked for",
)


@dataclass(frozen=True)
class Aims:
    """How much each aim counts beside the others; 0 or nothing: not looked for."""

    smooth: Annotated[
        float | None,
        _aim(
            meaning="Along each ply every colour is near the one before it.",
            words="soft changes along each ply",
        ),
    ] = None
    quiet: Annotated[
        float | None,
        _aim(
            meaning="Colours that lie side by side in the yarn are near each other.",
            words="a quiet yarn: plies alike side by side",
        ),
    ] = None
    lively: Annotated[
        float | None,
        _aim(
            meaning="Colours that lie side by side in the yarn are far from each other.",
            words="a lively yarn: plies unlike side by side",
        ),
    ] = None
    even: Annotated[
        float | None,
        _aim(
            meaning="The plies are as far apart in one metre of the yarn as in the next.",
            words="even: the same mood all along",
        ),
    ] = None
    matched: Annotated[
        float | None,
        _aim(
            meaning="Much of the yarn has the same lot on all plies.",
            words="much of it matched: one lot on all plies",
        ),
    ] = None
    marled: Annotated[
        float | None,
        _aim(
            meaning="Little of the yarn has the same lot on all plies.",
            words="much of it marled: lots side by side",
        ),
    ] = None
    no_twins: Annotated[
        float | None,
        _aim(
            meaning="Lots that are hardly told apart do not lie side by side.",
            words="no near-twins side by side",
        ),
    ] = None


AIM_NAMES = tuple(item.name for item in fields(Aims))
USUAL_AIMS = Aims(smooth=1.0, even=1.0)
"""What is looked for where a plan says nothing."""

_LOT = Key(LOT, "A lot of the sequence.", NAME_RIGHT)
_pairs = partial(
    Key,
    PAIRS,
    right='a list of pairs of lots, as [["Foam", "Gull"]]',
    most=MOST_LOTS,
    otherwise="none",
)


@dataclass(frozen=True)
class Orders:
    """What the best order is to be good at, and what every order has to obey."""

    aims: Annotated[
        Aims | None,
        Key(
            TABLE,
            "What the order is to be good at, and how much each counts.",
            "a table of aims and how much each counts, as smooth = 2",
            holds=Aims,
            example="how much each aim counts",
            otherwise="smooth 1, even 1",
            words="what the order is to be good at",
        ),
    ] = None
    hold: Annotated[
        tuple[tuple[str, int], ...],
        Key(
            PLACES_OF_LOTS,
            "Lots that stay in a place, counted from 1.",
            f"a table of lots and their places, as Kelp = 1, each from 1 to {MOST_PLACES}",
            1,
            MOST_PLACES,
            otherwise="none",
            words="lots that stay in a place",
        ),
    ] = ()
    neighbours: Annotated[
        tuple[tuple[str, str], ...],
        _pairs(
            meaning="Lots that stand side by side, either way round.", words="always neighbours"
        ),
    ] = ()
    apart: Annotated[
        tuple[tuple[str, str], ...],
        _pairs(meaning="Lots that never stand side by side.", words="never neighbours"),
    ] = ()
    may_leave_out: Annotated[
        tuple[str, ...],
        Key(
            LOTS,
            "Lots without which the yarn may be spun, where that is better.",
            "a list of names of lots",
            items=_LOT,
            most=MOST_LOTS,
            otherwise="none",
            words="lots that may be left out",
        ),
    ] = ()
    closed: Annotated[
        str | bool | None,
        Key(
            YES_NO,
            "Whether an order ends on the lot that it begins with.",
            f'true, false or "{AS_IT_IS}"',
            choices=(
                (AS_IT_IS, "as it is now"),
                (True, "it ends on the lot it begins with"),
                (False, "it ends on another lot"),
            ),
            default=AS_IT_IS,
            words="where an order closes",
        ),
    ] = None

    @property
    def weights(self) -> tuple[tuple[str, float], ...]:
        """Each aim that is looked for and how much it counts, in the order of the aims."""
        aims = USUAL_AIMS if self.aims is None else self.aims
        each = ((name, getattr(aims, name)) for name in AIM_NAMES)
        return tuple((name, float(weight)) for name, weight in each if weight)
