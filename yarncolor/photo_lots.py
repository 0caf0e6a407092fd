"""Several lots from one photograph: by boxes, or proposed by colour; and as lots of a plan."""

import warnings
from dataclasses import dataclass, replace

import numpy as np

from yarncolor.colours import ciede2000, lab_from_linear
from yarncolor.corrections import Correction
from yarncolor.errors import Fault, PlanError
from yarncolor.fibre_colours import Box, Reading, fibre_colour
from yarncolor.photographs import Photo
from yarncolor.plan import Lot, Plan
from yarncolor.srgb_curve import linear_of_bytes
from yarncolor.uneven_light import Light, made_even

MOST_PROPOSED = 24
FLUFF_WORDS = "loose fibre looks paler than spun yarn, wet fibre darker"
_SMALL_PX, _ROUNDS, _SEED, _INNER = 240, 20, 1, 0.8
_LEAST_SHARE, _BACKGROUND, _TWINS_BELOW, _ONE_COLOUR = 0.004, 0.35, 5.0, 2.0


@dataclass(frozen=True)
class Proposal:
    """A lot that a photograph may show; never taken unasked.

    Parameters
    ----------
    box : Box
        The largest square of that colour.
    share : float
        Of the picture that has it.
    lab : (3,) array
        As seen, not corrected.
    twin_of : int or None
        An earlier proposal that is hardly another colour.
    """

    box: Box
    share: float
    lab: np.ndarray
    twin_of: int | None


def read_boxes(
    photo: Photo, boxes: dict[str, Box], correction: Correction, light: Light | None = None
) -> dict[str, Reading]:
    """Return the colour of each box, put right and, where the light is known, made even.

    Parameters
    ----------
    photo : Photo
        The photograph.
    boxes : dict of str to Box
        By the lot's name.
    correction : Correction
        How the photograph is put right.
    light : Light, optional
        How light falls over it.

    Raises
    ------
    PlanError
        For a box outside the picture, or without a pixel that can be used.
    """
    readings = {}
    for name, box in boxes.items():

        def put_right(linear: np.ndarray, box: Box = box) -> np.ndarray:
            even = linear if light is None else made_even(linear, light, box.middle)
            return correction.apply(even)

        readings[name] = fibre_colour(photo, box, put_right)
    return readings


def proposals(photo: Photo, count: int) -> list[Proposal]:
    """Return lots that a picture of a row or heap may show, split by colour, largest first.

    Colours are clustered (k-means in CIELAB, a fixed seed) on a small copy; what touches the
    border most is taken for the ground.

    Parameters
    ----------
    photo : Photo
        The photograph.
    count : int
        How many lots are in it, 1 to 24.
    """
    from scipy import ndimage
    from scipy.cluster.vq import kmeans2

    if not 1 <= count <= MOST_PROPOSED:
        remedy = f"give 1 to {MOST_PROPOSED} lots"
        raise PlanError([Fault("", "count", str(count), remedy)])
    small = _small(photo)
    lab = lab_from_linear(linear_of_bytes()[small].reshape(-1, 3)).reshape(small.shape)
    blurred = ndimage.uniform_filter(lab, size=(3, 3, 1))
    flat = blurred.reshape(-1, 3)
    if np.ptp(flat, axis=0).max() < _ONE_COLOUR:
        return []
    with warnings.catch_warnings(), np.errstate(all="ignore"):
        warnings.simplefilter("ignore")
        centres, label = kmeans2(flat, count + 2, iter=_ROUNDS, minit="++", seed=_SEED)
    label = label.reshape(small.shape[:2])
    border = np.concatenate([label[0], label[-1], label[:, 0], label[:, -1]])
    at_border = np.bincount(border, minlength=count + 2) / len(border)
    found = []
    for cluster in range(count + 2):
        mask = label == cluster
        if mask.mean() < _LEAST_SHARE or at_border[cluster] > _BACKGROUND:
            continue
        depth = ndimage.distance_transform_cdt(np.pad(mask, 1), "chessboard")[1:-1, 1:-1]
        y, x = np.unravel_index(int(depth.argmax()), depth.shape)
        reach = max(0.5, depth[y, x] * _INNER)
        found.append((float(mask.mean()), _box(x, y, reach, small.shape), centres[cluster]))
    found.sort(key=lambda one: -one[0])
    return _with_twins(found[:count])


def lot_from(name: str, mass_g: float, reading: Reading, correction: Correction) -> Lot:
    """Return a lot with the colour of a reading, and where that comes from.

    Parameters
    ----------
    name : str
        Of the lot.
    mass_g : float
        Grams.
    reading : Reading
        Its colour.
    correction : Correction
        How the photograph was put right.
    """
    doubts = f"; {'; '.join(reading.warnings)}" if reading.warnings else ""
    lab = np.clip(reading.lab, (0, -128, -128), (100, 128, 128))
    return Lot(
        name=name,
        mass_g=mass_g,
        lab=tuple(round(float(value), 2) for value in lab),
        source=f"a photograph, {correction.words}; {FLUFF_WORDS}{doubts}",
        colour_unsure=round(correction.unsure, 1),
    )


def with_lot(plan: Plan, lot: Lot) -> Plan:
    """Return a plan with one more lot, or with that lot's colour where it has one of its name."""
    if lot.name in plan.names:
        old = plan.lots[plan.names.index(lot.name)]
        new = replace(
            old,
            colour=None,
            blend=None,
            bath=None,
            lab=lot.lab,
            source=lot.source,
            colour_unsure=lot.colour_unsure,
        )
        return replace(plan, lots=tuple(new if one is old else one for one in plan.lots))
    return replace(plan, lots=(*plan.lots, lot))


def _small(photo: Photo) -> np.ndarray:
    """Return a small copy, each pixel the mean of a block."""
    wide, high = photo.size_px
    block = max(1, min(max(wide, high) // _SMALL_PX, min(wide, high) // 4))
    cut = photo.srgb[: high // block * block, : wide // block * block]
    blocks = cut.reshape(cut.shape[0] // block, block, cut.shape[1] // block, block, 3)
    return np.rint(blocks.mean(axis=(1, 3))).astype(np.uint8)


def _box(x: int, y: int, reach: float, shape: tuple[int, ...]) -> Box:
    high, wide = shape[:2]
    left, top = max(0.0, (x + 0.5 - reach) / wide), max(0.0, (y + 0.5 - reach) / high)
    width, height = min(2 * reach / wide, 1 - left), min(2 * reach / high, 1 - top)
    return Box(float(left), float(top), float(width), float(height))


def _with_twins(found: list[tuple[float, Box, np.ndarray]]) -> list[Proposal]:
    told: list[Proposal] = []
    for share, box, lab in found:
        far = [float(ciede2000(lab, other.lab)) for other in told]
        near = [at for at, value in enumerate(far) if value < _TWINS_BELOW]
        told.append(Proposal(box, share, lab, near[0] if near else None))
    return told
