"""A reference target: found from its corners, laid the right way, fitted, doubted.

References
----------
.. [1] Cheung, Westland, Connah & Ripamonti 2004: 3 × 3 in linear light is their three-term case.
.. [2] Finlayson, Mackiewicz & Hurlbert 2015: root-polynomial correction, which does not change
   with exposure. Higher orders fit 24 patches better and other colours worse: refused.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from yarncolor.colour.photo.correction import TOO_DARK, Correction, PatchesSeen
from yarncolor.colour.photo.illumination import Illumination
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.sampling import CLIPPED, LUMINANCE, Box, lab_as_seen
from yarncolor.colour.photo.target_values import TargetValues, preset_values
from yarncolor.colour.science import (
    ciede2000,
    colour_correction,
    corrected,
    lab_from_linear,
)
from yarncolor.colour.srgb import linear_of_bytes
from yarncolor.errors import Fault, PlanError

_PRESET_NEUTRAL = np.arange(18, 24)
WAYS_TO_FIT: dict[int, str] = {1: "3 × 3", 2: "root polynomial"}
"""Degrees of the correction [1]_ [2]_, and what they are called."""

LEAST_UNSURE = 3.0
"""CIEDE2000 by which a colour may be out, however well the patches are met. Judgement."""

_INNER, _LEAST_PATCH_PX = 0.5, 6.0
_WORST_TARGET = 22.0
"""CIEDE2000 in the mean of the patches, beyond which no target is seen."""

Corners = Sequence[tuple[float, float]]
"""Four places in shares of the picture, going round."""


@dataclass(frozen=True)
class TargetFit:
    """A correction by a 24-patch target, and how well it does on patches it has not seen.

    Parameters
    ----------
    correction : Correction
        To be used.
    patches : PatchesSeen
        The patches, and how near each comes.
    """

    correction: Correction
    patches: PatchesSeen

    @property
    def left_out_mean(self) -> float:
        """CIEDE2000 of the patches in the mean, each put right by all others."""
        return float(self.patches.left_out.mean())

    @property
    def left_out_max(self) -> float:
        """The same of the worst."""
        return float(self.patches.left_out.max())

    @property
    def by_grey_mean(self) -> float:
        """The same in the mean with the neutral patches alone."""
        return float(self.patches.by_grey.mean())

    @property
    def fit_mean(self) -> float:
        """The same of the fit itself, always too good."""
        return float(self.patches.fit.mean())


def by_target(
    photo: Photo,
    corners: Corners,
    edition: str | TargetValues,
    degree: int = 1,
    light: Illumination | None = None,
) -> TargetFit:
    """Return the correction by a reference target of which the corners are given.

    Parameters
    ----------
    photo : Photo
        The photograph.
    corners : sequence of four (x, y)
        Of the field of patches, in shares of the picture, going round; which one comes first
        and which way round is found out.
    edition : str or TargetValues
        newer values or older values of 24 patches, 4 rows of 6: the target's own sheet says which
        it has; or a target's own values, from `read_target`.
    degree : int
        1: 3 × 3 in linear light; 2: root polynomial.
    light : Illumination, optional
        How light falls over the picture; each patch is made even.

    Raises
    ------
    PlanError
        For corners outside the picture or folded, patches too small or too dark, or a higher
        degree.
    """
    _known(degree)
    target = preset_values(edition) if isinstance(edition, str) else edition
    points = _checked_corners(corners)
    orientations = [
        _patches_linear(photo, way, (target.rows, target.columns), light)
        for way in (points, np.roll(points, -1, 0))
    ]
    _not_too_dark(orientations[0])
    seen = oriented(orientations, target)
    fit = fit_target(seen, target.linear, degree, target.neutral)
    field = (target.rows, target.columns)
    pixels = int(np.prod(_whole_px(_box_size(points, photo.size_px, field), photo.size_px)))
    patches = replace(fit.patches, columns=target.columns, pixels=pixels)
    clipped = int((seen > CLIPPED).any(axis=1).sum())
    told = (f"{clipped} of its patches are clipped: expose less",) if clipped else ()
    return TargetFit(replace(fit.correction, warnings=told, patches=patches), patches)


def _known(degree: int) -> None:
    """Refuse a degree that 24 patches do not carry."""
    if degree not in WAYS_TO_FIT:
        remedy = "give 1 or 2; 24 patches do not carry a higher degree"
        raise PlanError([Fault("", "degree", str(degree), remedy)])


def fit_target(
    seen: np.ndarray, wanted: np.ndarray, degree: int = 1, neutral: np.ndarray = _PRESET_NEUTRAL
) -> TargetFit:
    """Return the correction by patches of which some are neutral.

    Parameters
    ----------
    seen, wanted : (n, 3) arrays
        Linear light as the picture has it, and as it is.
    degree : int
        1: 3 × 3; 2: root polynomial.
    neutral : int array
        Which of them are grey; by default the last six of 24.
    """
    matrix, gain = colour_correction(seen, wanted, degree), _neutral_gain(seen, wanted, neutral)
    became = _left_out(seen, wanted, degree)
    left_out, by_grey = _errors(became, wanted), _errors(seen * gain, wanted)
    patches = PatchesSeen(
        *(seen, became, wanted, left_out, by_grey),
        fit=_errors(corrected(seen, matrix), wanted),
    )
    unsure = max(LEAST_UNSURE, float(min(left_out.mean(), by_grey.mean())))
    if by_grey.mean() < left_out.mean():
        words = f"corrected by the grey patches of a {len(wanted)}-patch target"
        correction = Correction("target", gain, 0, unsure, words, patches=patches)
    else:
        words = f"corrected by a {len(wanted)}-patch target, {WAYS_TO_FIT[degree]}"
        correction = Correction("target", matrix, degree, unsure, words, patches=patches)
    return TargetFit(correction, patches)


def _left_out(seen: np.ndarray, wanted: np.ndarray, degree: int) -> np.ndarray:
    """Return each patch put right by all the others: (n, 3)."""
    every = np.arange(len(wanted))
    others = [every != k for k in every]
    matrices = [colour_correction(seen[one], wanted[one], degree) for one in others]
    return np.array([corrected(seen[k][None, :], matrices[k])[0] for k in every])


def _errors(linear: np.ndarray, wanted: np.ndarray) -> np.ndarray:
    """Return CIEDE2000 (n,) of patches put right from what they should be, linear (n, 3) both."""
    return ciede2000(lab_as_seen(linear), lab_from_linear(wanted))


def _patches_linear(
    photo: Photo, points: np.ndarray, field: tuple[int, int], light: Illumination | None
) -> np.ndarray:
    """Return linear light (n, 3) of a target's patches, row by row from the first corner.

    Parameters
    ----------
    photo : Photo
        The photograph.
    points : (4, 2) array
        Corners, going round.
    field : (int, int)
        Rows and columns.
    light : Illumination or None
        How light falls over the picture.
    """
    rows, columns = field
    box_size = _box_size(points, photo.size_px, field)
    project = _homography(points)
    patches = []
    for row in range(rows):
        for column in range(columns):
            middle = project(np.array([[(column + 0.5) / columns, (row + 0.5) / rows]]))[0]
            left, top = np.clip(middle - box_size / 2, 0, 1 - box_size)
            even = 1.0 if light is None else light.at((middle[0], middle[1]))
            patches.append(_patch(photo, Box(left, top, *box_size)) / even)
    return np.array(patches)


def _box_size(points: np.ndarray, size_px: tuple[int, int], field: tuple[int, int]) -> np.ndarray:
    """Return width and height of what is read of a patch, in shares of the picture: (2,)."""
    (wide, high), (rows, columns) = size_px, field
    size_of_patch_px = float(np.sqrt(_area(points) * wide * high / (rows * columns)))
    if size_of_patch_px < _LEAST_PATCH_PX:
        remedy = f"its patches are {size_of_patch_px:.0f} pixels wide; come nearer"
        raise PlanError([Fault("", "corners", "", remedy)])
    across = np.hypot(*((points[1] - points[0]) * (wide, high))) / columns
    down = np.hypot(*((points[3] - points[0]) * (wide, high))) / rows
    return np.array([across / wide, down / high]) * _INNER


def oriented(orientations: list[np.ndarray], target: TargetValues) -> np.ndarray:
    """Return patches in the target's own order, whichever corner came first and way round.

    Of all ways to lay the target into what was read, the one whose colours fit best; where even
    that is bad, no target is seen.

    Parameters
    ----------
    orientations : list of (n, 3) arrays
        Patches read from the corners as given, and from the next corner on.
    target : TargetValues
        What they are.
    """
    wanted = target.linear
    ways = [
        way.reshape(-1, 3)
        for seen in orientations
        for grid in (seen.reshape(target.rows, target.columns, 3),)
        for way in (grid, grid[::-1], grid[:, ::-1], grid[::-1, ::-1])
    ]
    balanced = [way * _neutral_gain(way, wanted, target.neutral) for way in ways]
    errors = [float(_errors(way, wanted).mean()) for way in balanced]
    best = int(np.argmin(errors))
    if errors[best] > _WORST_TARGET:
        kind = f"no {len(wanted)}-patch target is seen there"
        remedy = f"{kind}, or it is badly lit; mark the patches' corners"
        raise PlanError([Fault("", "corners", "", remedy)])
    return ways[best]


def _not_too_dark(patches: np.ndarray) -> None:
    if (patches @ LUMINANCE).max() < TOO_DARK:
        remedy = "the target is too dark to be used; give it more light"
        raise PlanError([Fault("", "corners", "", remedy)])


def _neutral_gain(seen: np.ndarray, wanted: np.ndarray, neutral: np.ndarray) -> np.ndarray:
    """Return the scale of each channel by the grey patches: the middle of their ratios."""
    gain: np.ndarray = np.median(wanted[neutral] / np.maximum(seen[neutral], 1e-6), axis=0)
    return gain


def _patch(photo: Photo, box: Box) -> np.ndarray:
    wide, high = photo.size_px
    left, top = int(box.left * wide), int(box.top * high)
    across, down = _whole_px((box.width, box.height), photo.size_px)
    linear = linear_of_bytes()[photo.srgb[top : top + down, left : left + across]].reshape(-1, 3)
    middle: np.ndarray = np.median(linear, axis=0) * 0.5 + linear.mean(axis=0) * 0.5
    return middle


def _whole_px(shares: Sequence[float] | np.ndarray, size_px: tuple[int, int]) -> tuple[int, int]:
    """Return width and height in whole pixels, at least one, of shares of a picture."""
    across, down = (max(1, int(share * px)) for share, px in zip(shares, size_px, strict=True))
    return across, down


def _checked_corners(corners: Corners) -> np.ndarray:
    points = np.array(corners, dtype=float)
    if points.shape != (4, 2) or not np.isfinite(points).all():
        raise PlanError([Fault("", "corners", "", "give four corners as (x, y), 0 to 1")])
    if points.min() < 0 or points.max() > 1:
        remedy = "a corner lies outside the picture; the whole target has to be seen"
        raise PlanError([Fault("", "corners", "", remedy)])
    sides = np.roll(points, -1, axis=0) - points
    turns = sides[:, 0] * np.roll(sides[:, 1], -1) - sides[:, 1] * np.roll(sides[:, 0], -1)
    if not ((turns > 1e-6).all() or (turns < -1e-6).all()):
        remedy = "the corners make no plain four-sided field; give them going round"
        raise PlanError([Fault("", "corners", "", remedy)])
    return points


def _area(points: np.ndarray) -> float:
    """Return the area of a four-sided field, in shares of the picture."""
    x, y = points.T
    return abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1))) / 2


def _homography(points: np.ndarray) -> Callable[[np.ndarray], np.ndarray]:
    """Return the map of the unit square to four corners, going round from the first."""
    square = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], dtype=float)
    rows, right = [], []
    for (u, v), (x, y) in zip(square, points, strict=True):
        rows += [[u, v, 1, 0, 0, 0, -u * x, -v * x], [0, 0, 0, u, v, 1, -u * y, -v * y]]
        right += [x, y]
    h = np.append(np.linalg.solve(np.array(rows), np.array(right)), 1).reshape(3, 3)

    def project(at: np.ndarray) -> np.ndarray:
        mapped: np.ndarray = np.column_stack([at, np.ones(len(at))]) @ h.T
        plane: np.ndarray = mapped[:, :2] / mapped[:, 2:]
        return plane

    return project
