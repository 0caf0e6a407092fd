"""Marled yarn drawn pixel by pixel and blurred as a whole picture: from how far it is one colour.

X. Zhang and B. A. Wandell, Journal of the SID 5, 1997, 61-63 (S-CIELAB): matrix and half-widths as
in the authors' published code of 1996, laid over a picture in two dimensions. Nothing of the
program is used. A picture goes on at its far sides where it begins.
"""

from math import log, pi, sin, sqrt, tan

import colour
import numpy as np

_OPPONENT = np.array(
    [
        [0.2787336, 0.7218031, -0.1065520],
        [-0.4487736, 0.2898056, 0.0771569],
        [0.0859513, -0.5899859, 0.5011089],
    ]
)
_GAUSSIANS = [  # half-width in degrees, weight
    [(0.05, 1.00327), (0.225, 0.114416), (7.0, -0.117686)],
    [(0.0685, 0.616725), (0.826, 0.383275)],
    [(0.0920, 0.567885), (0.6451, 0.432115)],
]
_PX = 8
_LEG_WIDTHS = 2
_WHITE = np.array([0.95047, 1.0, 1.08883])


class DrawnMarl:
    """A two-ply marl, drawn alone, in 96 wraps or in legs of stitches.

    Parameters
    ----------
    lab : two CIELAB colours
    turn_mm, width_mm : float
        One turn of the ply twist; the circle round both strands.
    laid : str
        alone, wrapped or knitted.
    """

    def __init__(self, lab, turn_mm: float, width_mm: float, laid: str, seed: int = 5) -> None:
        self.laid, self.px_mm = laid, width_mm / _PX
        rng = np.random.default_rng(seed)
        if laid == "knitted":
            length, rows = _LEG_WIDTHS * _PX, 48
            legs = [[rng.random() for _ in range(20)] for _ in range(rows)]
            which = np.vstack(
                [np.hstack([self._yarn(length, turn_mm, at) for at in row]) for row in legs]
            )
            along = 1.0
        else:
            count = max(round(turn_mm / self.px_mm), 24)
            along = turn_mm / self.px_mm / count
            turn_px = count * self.px_mm
            starts = rng.random(1 if laid == "alone" else 96)
            which = np.vstack([self._yarn(count, turn_px, at) for at in starts])
            if laid == "alone":
                which = np.pad(which, ((400, 400), (0, 0)), constant_values=-1)
        self.along_mm = self.px_mm * along
        xyz = np.array([colour.Lab_to_XYZ(one, _white_xy()) for one in np.asarray(lab, float)])
        self.mean = xyz.mean(axis=0)
        self.xyz = np.where((which >= 0)[..., None], xyz[which], self.mean)

    def _yarn(self, length_px: int, turn_mm: float, begins: float) -> np.ndarray:
        """Return which ply each pixel of a yarn shows, -1 beside it: rays that meet two tubes."""
        turned = 2 * pi * ((np.arange(length_px) + 0.5) * self.px_mm / turn_mm + begins)
        height = (np.arange(_PX) + 0.5) / _PX - 0.5
        found = np.full((_PX, length_px), -1)
        nearest = np.full((_PX, length_px), -np.inf)
        for ply in range(2):
            centre, depth = 0.25 * np.sin(turned + pi * ply), 0.25 * np.cos(turned + pi * ply)
            room = 0.25**2 - (height[:, None] - centre) ** 2
            front = np.where(room > 0, depth + np.sqrt(np.maximum(room, 0)), -np.inf)
            found, nearest = np.where(front > nearest, ply, found), np.maximum(nearest, front)
        return found

    def contrast(self, distance_m: float) -> float:
        """Return CIEDE2000 from crest to trough, of a wave that strays as the yarn's middle does.

        That is 2 √2 times the root mean square of its differences from its mean.
        """
        degree_mm = 1000 * distance_m * tan(pi / 180)
        planes = self.xyz @ _OPPONENT.T
        down = np.fft.fftfreq(planes.shape[0], self.px_mm / degree_mm)[:, None]
        along = np.fft.fftfreq(planes.shape[1], self.along_mm / degree_mm)
        for plane, gaussians in enumerate(_GAUSSIANS):
            passed = sum(
                weight * np.exp(-((pi * half / (2 * sqrt(log(2)))) ** 2) * (down**2 + along**2))
                for half, weight in gaussians
            )
            passed[0, 0] = 1
            planes[..., plane] = np.fft.ifft2(np.fft.fft2(planes[..., plane]) * passed).real
        seen = self._middles(np.clip(planes @ np.linalg.inv(_OPPONENT).T, 0, None))
        lab = colour.XYZ_to_Lab(seen, _white_xy())
        mean = colour.XYZ_to_Lab(self.mean, _white_xy())
        apart = colour.delta_E(lab, np.broadcast_to(mean, lab.shape), method="CIE 2000")
        return float(2 * sqrt(2) * np.sqrt((apart**2).mean()))

    def _middles(self, seen: np.ndarray) -> np.ndarray:
        rows = (seen[_PX // 2 :: _PX] + seen[_PX // 2 - 1 :: _PX]) / 2
        if self.laid == "alone":
            return rows[len(rows) // 2 : len(rows) // 2 + 1]
        if self.laid == "knitted":
            leg = _LEG_WIDTHS * _PX
            return (rows[:, leg // 2 :: leg] + rows[:, leg // 2 - 1 :: leg]) / 2
        return rows

    def one_colour_m(self, below: float, farthest_m: float) -> float:
        """Return from where the contrast stays below so much."""
        near, far = farthest_m / 40, farthest_m
        for _ in range(10):
            middle = sqrt(near * far)
            near, far = (middle, far) if self.contrast(middle) > below else (near, middle)
        return far


def _white_xy() -> np.ndarray:
    return _WHITE[:2] / _WHITE.sum()


def minute_of_arc_m(width_mm: float) -> float:
    """Return from how far a thread fills one minute of arc."""
    return width_mm / 1000 / (sin(pi / 180 / 60) / sqrt(1 - sin(pi / 180 / 60) ** 2))
