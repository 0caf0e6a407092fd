"""What is on a bobbin at any place of its single: the one running total of rows and weighings."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from yarncolor.answers.bobbins import Bobbin
from yarncolor.answers.on_the_scale import net_g
from yarncolor.layout.layout import Layout
from yarncolor.layout.portions import along_plies

_TOLERANCE = 1e-9


@dataclass(frozen=True, eq=False)
class OnBobbins:
    """Grams spun onto the bobbins, from what left the scale; `on_bobbins` makes it.

    A piece of a heap counts where it is spun; what is lost in spinning never comes onto a
    bobbin, and strands that lie side by side fill one each.

    Parameters
    ----------
    laid : Layout
        The plan laid out.
    spun_g : (N,) array
        Grams of each ply's first strand from its beginning to the end of each portion.
    bobbins : tuple of Bobbin
        What the first strands fill, in spinning order.
    """

    laid: Layout
    spun_g: np.ndarray
    bobbins: tuple[Bobbin, ...]

    def at_g(self, bobbin: Bobbin, at_m: float) -> float:
        """Return grams on a bobbin when its single is spun up to a place.

        Parameters
        ----------
        bobbin : Bobbin
            The one in use there.
        at_m : float
            Place along the single, from the start of spinning.
        """
        return self._spun_g(bobbin.ply, at_m) - self._spun_g(bobbin.ply, bobbin.start_m)

    @cached_property
    def in_use(self) -> tuple[Bobbin, ...]:
        """The bobbin that is on the wheel when each portion ends: N of them."""
        portions, used = self.laid.portions, list[Bobbin]()
        for k in range(len(portions.single_m)):
            own = [bobbin for bobbin in self.bobbins if bobbin.ply == k]
            ends_m = portions.ends_m[portions.of_ply(k)] * (1 - _TOLERANCE)
            used += [own[at] for at in np.searchsorted([one.end_m for one in own], ends_m)]
        return tuple(used)

    @cached_property
    def after_each_g(self) -> np.ndarray:
        """Grams on the bobbin in use when each portion ends: (N,)."""
        begun_g = {one.number: self._spun_g(one.ply, one.start_m) for one in self.bobbins}
        before_g = np.array([begun_g[bobbin.number] for bobbin in self.in_use])
        after_g: np.ndarray = self.spun_g - before_g
        return after_g

    def _spun_g(self, ply: int, at_m: float) -> float:
        own = self.laid.portions.of_ply(ply)
        ends_m = np.append(0.0, self.laid.portions.ends_m[own])
        return float(np.interp(at_m, ends_m, np.append(0.0, self.spun_g[own])))


def on_bobbins(laid: Layout, put_g: np.ndarray, bobbins: tuple[Bobbin, ...]) -> OnBobbins:
    """Return what is on the bobbins at any place.

    Parameters
    ----------
    laid : Layout
        The plan laid out and weighed.
    put_g : (N,) array
        Grams of each portion as they leave the scale.
    bobbins : tuple of Bobbin
        What the singles fill.
    """
    portions, strands = laid.portions, laid.resolved.yarn.strands
    spun_g = net_g(laid, put_g) / strands[portions.ply]
    firsts = tuple(bobbin for bobbin in bobbins if bobbin.strand == 0)
    return OnBobbins(laid, along_plies(spun_g, portions.starts), firsts)
