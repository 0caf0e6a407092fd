"""What an eye keeps of a marl's stripes: of a yarn as wide as it is, alone, wrapped, or knitted.

Two dimensions: the filters of S-CIELAB [1]_ blur along the yarn and across it. A yarn is round
strands that touch, seen from the side; around it lies its own mean. Where each wrap or each leg
of a stitch begins in the twist is chance, so that their stripes add as chance does, by squares.
Lengths are in yarn widths and distances in shares of the farthest: the one from which the yarn
itself takes one minute of arc, which is the finest that an eye of 20/20 tells apart.

References
----------
.. [1] X. Zhang and B. A. Wandell, A spatial extension of CIELAB for digital color-image
   reproduction, Journal of the Society for Information Display 5, 1997, 61-63; matrix and
   half-widths as in the authors' published code of 1996 (the printed table differs a little).
"""

from functools import lru_cache

import numpy as np

KERNELS = (
    ((0.05, 1.00327), (0.225, 0.114416), (7.0, -0.117686)),
    ((0.0685, 0.616725), (0.826, 0.383275)),
    ((0.0920, 0.567885), (0.6451, 0.432115)),
)
"""Half-width in degrees and weight of the Gaussians of each opponent plane [1]_."""

LAID = ("alone", "wrapped", "knitted")
SAMPLES_PER_STRIPE = 32
DISTANCES = np.geomspace(1 / 400, 1, 64)
"""Shares of the farthest distance at which stripes are looked at."""

_MINUTE_DEG = 1 / 60
_MEAN_ONLY_DEG = 1.0
"""A Gaussian broader than this keeps nothing but the mean of a yarn's stripes."""
_ACROSS, _WAVES = 33, 4
_LEG = 2.0
"""Yarn widths of a leg of a stitch that are seen: judgement; so legs fill a usual cloth."""
_REACH, _MOST_AWAY = 2.0, 60


@lru_cache(maxsize=32)
def kept_of_stripes(plies: int, turn: float, laid: str) -> np.ndarray:
    """Return what is kept of the mean and of each wave: (distances, waves, 3 opponent planes).

    Parameters
    ----------
    plies : int
        2 or more, of one thickness.
    turn : float
        Length of one turn of the twist, in yarn widths.
    laid : str
        alone, wrapped or knitted.
    """
    cycles = np.arange(1, _WAVES * plies + 1) / turn
    waves, height = _waves_across(plies)
    kept = np.ones((len(DISTANCES), 1 + len(cycles), 3))
    for plane, kernels in enumerate(KERNELS):
        for at, share in enumerate(DISTANCES):
            widths = [
                (half / (2 * np.sqrt(np.log(2))) / _MINUTE_DEG * share, weight)
                for half, weight in kernels
                if half < _MEAN_ONLY_DEG
            ]
            kept[at, 1:, plane] = _kept(widths, cycles, waves[1 : len(cycles) + 1], height, laid)
    return kept


def _kept(
    widths: list[tuple[float, float]],
    cycles: np.ndarray,
    waves: np.ndarray,
    height: np.ndarray,
    laid: str,
) -> np.ndarray:
    """Return what Gaussians keep of waves (n,) where one place of the yarn is looked at.

    Each thread or leg, so far beside and so far ahead, gives Σ w · along · across; squares add.

    Parameters
    ----------
    widths : list of (float, float)
        s of exp(-r²/s²) in yarn widths, and weight.
    cycles : (n,) array
        Waves in a yarn width.
    waves : (n, heights) array
        Each wave at each height of the yarn, over that of its middle.
    height : (heights,) array
        From the middle, in yarn widths.
    laid : str
        alone, wrapped or knitted.
    """
    widest = max(spread for spread, _ in widths)
    beside = np.zeros(1) if laid == "alone" else _places(widest, 1.0)
    across = [waves @ _weights(height, beside, spread).T for spread, _ in widths]
    along = [_along(cycles, spread, widest, laid) for spread, _ in widths]
    squares = sum(
        w
        * v
        * (along[i] * along[j].conj()).sum(axis=1)
        * (across[i] * across[j].conj()).sum(axis=1)
        for i, (_, w) in enumerate(widths)
        for j, (_, v) in enumerate(widths)
    )
    return np.asarray(np.sqrt(np.maximum(np.real(squares), 0)))


def _along(cycles: np.ndarray, spread: float, widest: float, laid: str) -> np.ndarray:
    """Return what is kept along the yarn: (n, legs), or (n, 1) of a thread without end."""
    if laid != "knitted":
        return np.asarray(np.exp(-((np.pi * spread * cycles[:, None]) ** 2)))
    place = ((np.arange(_ACROSS) + 0.5) / _ACROSS - 0.5) * _LEG
    turned = np.exp(2j * np.pi * cycles[:, None] * place)
    return np.asarray(turned @ _weights(place, _places(widest, _LEG), spread).T)


def ply_in_front(plies: int, turn: np.ndarray, height: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return which ply is seen at places of a yarn (...), and whether the yarn is there at all.

    Parameters
    ----------
    plies : int
        Round strands that touch, on helices.
    turn : (...) array
        Place along the yarn in turns of its twist; at 0 the first ply is in front.
    height : (...) array
        Place across it in yarn widths, 0 in its middle.
    """
    strand = 0.5 / (1 + 1 / np.sin(np.pi / plies))
    ring = 0.5 - strand
    phase = 2 * np.pi * (turn[..., None] - np.arange(plies) / plies)
    beside = np.abs(height[..., None] - ring * np.sin(phase))
    # Strands that only touch lie one before another as their middles do.
    front = np.where(beside <= strand, ring * np.cos(phase), -beside - 1)
    return front.argmax(axis=-1), front.max(axis=-1) > -1


def _waves_across(plies: int) -> tuple[np.ndarray, np.ndarray]:
    """Return each wave of a ply's stripes at each height over that of its middle, and heights."""
    height = (np.arange(_ACROSS) + 0.5) / _ACROSS - 0.5
    count = plies * SAMPLES_PER_STRIPE
    turn = (np.arange(count) + 0.5 - SAMPLES_PER_STRIPE / 2) / count
    ply, inside = ply_in_front(plies, turn, height[:, None])
    waves = np.fft.rfft((ply == 0) & inside, axis=1).T
    middle = waves[:, _ACROSS // 2]
    none = np.abs(middle) < 1e-9 * np.abs(middle).max()
    return np.where(none, 0, 1 / np.where(none, 1, middle))[:, None] * waves, height


def _places(spread: float, apart: float) -> np.ndarray:
    """Return where things lie that are so far apart, as far as a kernel reaches."""
    count = int(min(np.ceil(_REACH * spread / apart), _MOST_AWAY))
    return np.arange(-count, count + 1) * apart


def _weights(place: np.ndarray, away: np.ndarray, spread: float) -> np.ndarray:
    """Return the share of a Gaussian over each place (p,) of a thing so far away: (m, p)."""
    from scipy.special import erf

    half = (place[1] - place[0]) / 2
    at = away[:, None] + place
    return np.asarray((erf((at + half) / spread) - erf((at - half) / spread)) / 2)
