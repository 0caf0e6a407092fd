"""Lots that a photograph of a row or heap may show: connected patches of one colour.

Colours are clustered (k-means in CIELAB, a fixed seed) on a small copy, clusters of nearly one
colour are joined, and each connected patch that is deep enough is a lot of its own colour: so
the blend along a heap's edge is none, and two heaps of nearly one colour stay two.
"""

import warnings
from dataclasses import dataclass
from typing import Any

import numpy as np

from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.sampling import Box
from yarncolor.colour.science import ciede2000, lab_from_linear
from yarncolor.colour.srgb import linear_of_bytes
from yarncolor.errors import Fault, PlanError

MOST_PROPOSED = 24
_SMALL_PX, _ROUNDS, _SEED, _INNER, _SPARE, _CALM = 240, 20, 1, 0.8, 16, 0.6
_LEAST_DEPTH, _ONE_COLOUR, _JOINED_BELOW, _TWINS_BELOW = 0.02, 2.0, 4.0, 5.0
_MOST_BORDER, _BORDER_ALL_ROUND = 0.6, 0.25


@dataclass(frozen=True)
class Proposal:
    """A lot that a photograph may show; never taken unasked.

    Parameters
    ----------
    box : Box
        The largest square on that patch.
    share : float
        Of the picture that the patch fills.
    lab : (3,) array
        As seen, not corrected.
    twin_of : int or None
        An earlier proposal that is hardly another colour.
    """

    box: Box
    share: float
    lab: np.ndarray
    twin_of: int | None


def proposals(photo: Photo, count: int) -> list[Proposal]:
    """Return lots that a picture of a row or heap may show, largest first.

    What fills the border is taken for the ground; lots of the ground's own colour that touch it
    are not seen.

    Parameters
    ----------
    photo : Photo
        The photograph.
    count : int
        How many lots are in it, 1 to 24; of more patches the largest are kept.

    Raises
    ------
    PlanError
        For a count outside that.
    """
    if not 1 <= count <= MOST_PROPOSED:
        remedy = f"give 1 to {MOST_PROPOSED} lots"
        raise PlanError([Fault("", "count", str(count), remedy)])
    lab = _small_lab(photo)
    if np.ptp(lab, axis=(0, 1)).max() < _ONE_COLOUR:
        return []
    patches = [(mask.mean(), _largest_square(mask), mask) for mask in _patches(lab, count)]
    patches.sort(key=lambda patch: -patch[0])
    told: list[Proposal] = []
    for share, box, mask in patches[:count]:
        seen = lab[mask].mean(axis=0)
        near = [at for at, one in enumerate(told) if ciede2000(seen, one.lab) < _TWINS_BELOW]
        told.append(Proposal(box, float(share), seen, near[0] if near else None))
    return told


def _small_lab(photo: Photo) -> np.ndarray:
    """Return CIELAB of a small copy, each pixel the mean of a block, a little blurred."""
    from scipy import ndimage

    wide, high = photo.size_px
    block = max(1, min(max(wide, high) // _SMALL_PX, min(wide, high) // 4))
    cut = photo.srgb[: high // block * block, : wide // block * block]
    blocks = cut.reshape(cut.shape[0] // block, block, cut.shape[1] // block, block, 3)
    small = np.rint(blocks.mean(axis=(1, 3))).astype(np.uint8)
    lab = lab_from_linear(linear_of_bytes()[small].reshape(-1, 3)).reshape(small.shape)
    blurred: np.ndarray = ndimage.uniform_filter(lab, size=(3, 3, 1))
    return blurred


def _patches(lab: np.ndarray, count: int) -> list[np.ndarray]:
    """Return masks of connected patches of one colour that are deep enough and not the ground."""
    from scipy import ndimage

    label = _clusters(lab, count + _SPARE)
    least = max(1.0, _LEAST_DEPTH * max(label.shape))
    patches = []
    for cluster in np.unique(label):
        pieces, _ = ndimage.label(label == cluster)
        depth = _depth(pieces > 0)
        deepest = ndimage.maximum(depth, pieces, np.arange(1, pieces.max() + 1))
        masks = (pieces == at for at in np.flatnonzero(deepest >= least) + 1)
        patches += [mask for mask in masks if not _is_ground(mask)]
    return patches


def _clusters(lab: np.ndarray, count: int) -> np.ndarray:
    """Return which cluster each pixel is in, where clusters of nearly one colour are one.

    Centres come from pixels away from edges: the blends along those would chain two colours.
    """
    from scipy.cluster.hierarchy import fcluster, linkage
    from scipy.cluster.vq import kmeans2, vq

    slope = np.hypot(*np.gradient(lab, axis=(0, 1))).sum(axis=2)
    calm = lab[slope <= np.quantile(slope, _CALM)]
    with warnings.catch_warnings(), np.errstate(all="ignore"):
        warnings.simplefilter("ignore")
        centres, nearest = kmeans2(calm, count, iter=_ROUNDS, minit="++", seed=_SEED)
    centres = centres[np.unique(nearest)]
    label, _ = vq(lab.reshape(-1, 3), centres)
    one, other = np.triu_indices(len(centres), 1)
    if len(one):
        far = ciede2000(centres[one], centres[other])
        label = fcluster(linkage(far, "single"), _JOINED_BELOW, "distance")[label]
    clusters: np.ndarray = label.reshape(lab.shape[:2])
    return clusters


def _depth(mask: np.ndarray) -> np.ndarray:
    """Return how far each pixel lies within a mask; the picture's border is an edge too."""
    from scipy import ndimage

    depth: np.ndarray = ndimage.distance_transform_cdt(np.pad(mask, 1), "chessboard")[1:-1, 1:-1]
    return depth


def _is_ground(mask: np.ndarray) -> bool:
    """Return whether a patch fills most of the border, or touches it on all four sides."""
    sides = (mask[0], mask[-1], mask[:, 0], mask[:, -1])
    share = np.concatenate(sides).mean()
    all_round = all(side.any() for side in sides)
    return bool(share > _MOST_BORDER or (all_round and share > _BORDER_ALL_ROUND))


def _largest_square(mask: np.ndarray) -> Box:
    depth = _depth(mask)
    high, wide = mask.shape
    y, x = np.unravel_index(int(depth.argmax()), depth.shape)
    reach = max(0.5, depth[y, x] * _INNER)
    left, top = max(0.0, (x + 0.5 - reach) / wide), max(0.0, (y + 0.5 - reach) / high)
    width, height = min(2 * reach / wide, 1 - left), min(2 * reach / high, 1 - top)
    return Box(float(left), float(top), float(width), float(height))


def proposals_said(proposed: list[Proposal]) -> list[dict[str, Any]]:
    """Return proposals as a browser shows them: number, box in shares, words.

    Parameters
    ----------
    proposed : list of Proposal
        From `proposals`.
    """
    return [
        {
            "number": number,
            "box": [one.box.left, one.box.top, one.box.width, one.box.height],
            "words": proposal_words(one),
        }
        for number, one in enumerate(proposed, start=1)
    ]


def proposal_words(one: Proposal) -> str:
    """Return how large a proposal is, and whether another one is hardly another colour."""
    size = f"{one.share:.0%} of the picture"
    if one.twin_of is None:
        return size
    return f"{size}; hardly another colour than proposal {one.twin_of + 1}"
