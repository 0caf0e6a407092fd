"""A hank that was wound on a niddy-noddy, twisted: how thick and how long it is drawn."""

from dataclasses import dataclass

import numpy as np

from yarncolor.pictures.yarn_scenes import PictureScale

_MOST_STRANDS = 96
"""Of a half that are drawn; where there are more turns, evenly spread ones are."""

_STRAND_SHARE, _HALF_SHARE = 0.0095, 0.2
"""Half a strand's and half a half's thickness over the height of the picture."""

_RING, _CLOSE = 0.28, 2.0
"""How much thicker, in strands, each makes a half whose strands lie in a ring; how thick it is over
the root of their number where they are many."""

_FROM, SKEIN_TO = 0.015, 0.80
"""Where the skein lies, over the width of the picture; beyond it hangs the tag."""

_PITCH, _MOST_TURNS = 7.6, 8.0
"""Length of a turn of the halves over half their thickness; turns at the most."""


@dataclass(frozen=True)
class Hank:
    """How thick a skein is drawn, in pixels: half of a strand, half of one of its two halves."""

    strands: int
    strand_px: float
    half_px: float
    first: int
    length: int
    high: int

    @property
    def pitch_px(self) -> float:
        """Length of a turn of the halves round each other, side by side at both ends."""
        usual = max(_PITCH * self.half_px, self.length / _MOST_TURNS)
        return 2 * self.length / max(1, round(2 * self.length / usual))


def hank(turns: float, size: PictureScale) -> Hank:
    """Return how thick a skein of so many turns is drawn: a short one is thin.

    Parameters
    ----------
    turns : float
        Of the niddy-noddy.
    size : PictureScale
        Of the picture.
    """
    strand, most = max(_STRAND_SHARE * size.height_px, 0.9), _HALF_SHARE * size.height_px
    strands = int(min(max(turns, 1), _MOST_STRANDS))
    half = min(strand * min(1 + _RING * strands, _CLOSE * np.sqrt(strands)), most)
    first = round(_FROM * size.width_px)
    length = max(round(SKEIN_TO * size.width_px) - first, 2)
    return Hank(strands, strand, float(half), first, length, size.height_px)
