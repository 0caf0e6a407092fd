"""From a box on a photograph to the colour of fibre: a robust middle in linear light.

References
----------
.. [1] Engineering advice, no published figure: pixels with any channel above 0.98 of linear
   light, or hardly any light at all (Y below 0.01), are left out, then the darkest tenth and
   the brightest twentieth; the mean of the rest in linear light is what a spectrophotometer's
   opening integrates.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from yarncolor.colour.photo.image import Photo
from yarncolor.colour.science import ciede2000, lab_from_linear
from yarncolor.colour.srgb import linear_of_bytes
from yarncolor.errors import Fault, PlanError

CLIPPED, SHADOW = 0.98, 0.01
DARKEST, BRIGHTEST = 0.10, 0.05
"""Light beyond which a pixel says nothing; shares of the others that are left out."""

_MOST_PIXELS, _SAMPLED = 200_000, 2000
_FEWEST_PIXELS, _MOST_CLIPPED, _TOO_DARK, _TOO_MIXED = 400, 0.10, 0.02, 12.0
_PRIMES = (1, 7, 13, 31, 61, 97, 127, 199, 251, 397, 499, 797, 997, 1999, 4999, 9973)
LUMINANCE = np.array([0.2126, 0.7152, 0.0722])


@dataclass(frozen=True)
class Box:
    """A box on a picture, in shares of its width and height from the top left.

    Parameters
    ----------
    left, top, width, height : float
        0 to 1.
    """

    left: float
    top: float
    width: float
    height: float

    @property
    def middle(self) -> tuple[float, float]:
        """Its middle, in the same shares."""
        return self.left + self.width / 2, self.top + self.height / 2


@dataclass(frozen=True)
class PatchReading:
    """The colour of what a box shows.

    Parameters
    ----------
    linear : (3,) array
        Linear sRGB, as the picture has it.
    lab : (3,) array
        CIELAB D65 after correction.
    spread : float
        Mean CIEDE2000 of its pixels from that colour.
    pixels : int
        Pixels that count.
    warnings : tuple of str
        What makes it doubtful.
    unsure : float
        CIEDE2000 by which that may put it out; 0 where nothing is doubtful.
    in_box : int
        Pixels of the box.
    looked_at : int
        Pixels of which ``spread`` is the mean.
    apart : float
        CIEDE2000 of those from the colour, added.
    light : float
        At its place over that in the picture's middle; 1 where nothing is made even.
    """

    linear: np.ndarray
    lab: np.ndarray
    spread: float
    pixels: int
    warnings: tuple[str, ...]
    unsure: float = 0.0
    in_box: int = 0
    looked_at: int = 0
    apart: float = 0.0
    light: float = 1.0


def fibre_colour(
    photo: Photo, box: Box, put_right: Callable[[np.ndarray], np.ndarray] | None = None
) -> PatchReading:
    """Return the colour of fibre in a box.

    A doubtful one may be out by as much as its pixels differ from it in the mean (judgement).

    Parameters
    ----------
    photo : Photo
        The photograph.
    box : Box
        On the fibre, nothing else in it.
    put_right : callable, optional
        Linear light (n, 3) as seen to linear light as it is.

    Raises
    ------
    PlanError
        For a box outside the picture, or one without a pixel that can be used.
    """
    linear, share_clipped, count = trimmed_linear(photo, box)
    seen = linear.mean(axis=0)
    right = put_right or (lambda light: light)
    lab = lab_as_seen(right(seen[None, :]))[0]
    sampled = linear[:: _stride(len(linear), _SAMPLED, 1)]
    each = lab_as_seen(right(sampled))
    apart = ciede2000(each, np.broadcast_to(lab, each.shape))
    spread = float(apart.mean())
    doubts = tuple(_doubts(seen, share_clipped, count, spread))
    return PatchReading(
        *(seen, lab, spread, count, doubts, spread if doubts else 0.0),
        in_box=pixels_in(photo, box),
        looked_at=len(apart),
        apart=float(apart.sum()),
    )


def lab_as_seen(linear: np.ndarray) -> np.ndarray:
    """Return CIELAB (n, 3) of light (n, 3) from a photograph, however wild, as far as it reaches.

    Light from -0.2 to 2 of white, and a* and b* to ±199, beyond which no difference is defined.

    Parameters
    ----------
    linear : (n, 3) array
        Linear sRGB; beyond 0 to 1 where a correction takes it there.
    """
    lab: np.ndarray = np.clip(lab_from_linear(np.clip(linear, -0.2, 2)), -199, 199)
    return lab


def trimmed_linear(photo: Photo, box: Box) -> tuple[np.ndarray, float, int]:
    """Return linear light of the pixels that count, the share clipped, and how many count.

    Very large boxes are thinned evenly; the count is of the whole box.

    Parameters
    ----------
    photo : Photo
        The photograph.
    box : Box
        Inside it.
    """
    cut = _cut(photo, box)
    pixels = cut.reshape(-1, 3)
    thin = _stride(len(pixels), _MOST_PIXELS, cut.shape[1])
    linear = linear_of_bytes()[pixels[::thin]]
    good = (linear <= CLIPPED).all(axis=1) & (linear @ LUMINANCE >= SHADOW)
    share_clipped = 1 - float(good.mean())
    if not good.any():
        remedy = "every pixel in it is clipped or black; choose another box or expose otherwise"
        raise PlanError([Fault("", "box", "", remedy)])
    kept = linear[good]
    bright = kept @ LUMINANCE
    low, high = np.quantile(bright, (DARKEST, 1 - BRIGHTEST))
    middle = kept[(bright >= low) & (bright <= high)]
    kept = middle if len(middle) else kept  # of two pixels neither is in the middle
    return kept, share_clipped, len(kept) * thin


def pixels_in(photo: Photo, box: Box) -> int:
    """Return how many pixels a box has.

    Parameters
    ----------
    photo : Photo
        The photograph.
    box : Box
        Inside it.
    """
    return _cut(photo, box).size // 3


def _stride(count: int, most: int, width: int) -> int:
    """Return a step that thins so many pixels evenly: a prime that does not divide the width."""
    least = max(1, count // most)
    if least == 1:
        return 1
    fitting = (prime for prime in _PRIMES if prime >= least and width % prime)
    return next(fitting, least)


def _cut(photo: Photo, box: Box) -> np.ndarray:
    shares = (box.left, box.top, box.width, box.height)
    inside = (
        np.isfinite(shares).all()
        and min(shares) >= 0
        and min(box.width, box.height) > 0
        and max(box.left + box.width, box.top + box.height) <= 1 + 1e-9
    )
    if not inside:
        shown = ", ".join(f"{share:.3g}" for share in shares)
        remedy = "give left, top, width and height in shares of the picture, 0 to 1, all inside it"
        raise PlanError([Fault("", "box", shown, remedy)])
    wide, high = photo.size_px
    left, top = int(box.left * wide), int(box.top * high)
    right = max(left + 1, round((box.left + box.width) * wide))
    bottom = max(top + 1, round((box.top + box.height) * high))
    return photo.srgb[top:bottom, left:right]


def _doubts(seen: np.ndarray, clipped: float, count: int, spread: float) -> list[str]:
    told = []
    if clipped > _MOST_CLIPPED:
        told.append(f"{clipped:.0%} of the box is clipped or black")
    if seen @ LUMINANCE < _TOO_DARK:
        told.append("it is too dark to be sure of")
    if spread > _TOO_MIXED:
        told.append("it is too mixed: more than one colour may be in the box")
    if count < _FEWEST_PIXELS:
        told.append(f"only {count} pixels count; draw a larger box")
    return told
