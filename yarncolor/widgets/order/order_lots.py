"""Lots by one numbering from frame to frame: those of the plan, and what orders of it would card.

A gradient cards other steps in another order, and numbers them anew. A browser paints tables of
many orders in one set of colours, so each mix keeps the number under which it was first sent.
"""

from dataclasses import replace

import numpy as np

from yarncolor.colour.palette import blends_srgb
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import label_ink, linear
from yarncolor.layout.carded_steps import Mix, made_lot
from yarncolor.layout.stretches import Stretches
from yarncolor.plan import Plan
from yarncolor.widgets.protocol.order import MoreLots


class Numbering:
    """Numbers of the lots that tables name, the same until the next frame.

    Parameters
    ----------
    plan : Plan
        As given, whose lots come first.
    carded : tuple of Mix
        What its order cards, in the order of its numbers.
    """

    def __init__(self, plan: Plan, carded: tuple[Mix, ...]) -> None:
        self._lots = plan.lots
        self._in_frame = len(carded)
        self._number = {mix: len(plan.lots) + at for at, mix in enumerate(carded)}

    def numbered(self, along: Stretches, carded: tuple[Mix, ...]) -> Stretches:
        """Return stretches by these numbers; mixes that are new take the next ones.

        Parameters
        ----------
        along : Stretches
            Of one order.
        carded : tuple of Mix
            What that order cards, in the order of its numbers.
        """
        if not carded:
            return along
        made = [self._number.setdefault(mix, len(self._lots) + self._count) for mix in carded]
        return replace(along, lot=np.append(np.arange(len(self._lots)), made)[along.lot])

    @property
    def cards(self) -> bool:
        """Whether there are lots whose numbers hold for one frame alone."""
        return self._count > 0

    @property
    def _count(self) -> int:
        return len(self._number)

    def more(self) -> MoreLots:
        """Return the lots that the frame did not have, for the browser."""
        names = tuple(lot.name for lot in self._lots)
        made = tuple(made_lot(mix, 0.0, names) for mix in self._number)
        srgb = list(blends_srgb(self._lots, made)[self._in_frame :])
        return {
            "lot_names": [lot.name for lot in made[self._in_frame :]],
            "colours": srgb,
            "inks": [label_ink(colour) for colour in srgb],
            "lots": linear(srgb_from_hex(srgb)).tolist() if srgb else [],
        }
