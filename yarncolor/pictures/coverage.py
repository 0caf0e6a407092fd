"""Edges by coverage: a scene looked at more finely than its pixels, and brought down to them.

Each pixel is a block of samples. It keeps the place that most of them show and, where the samples
differ, the place that comes second with its share of the two; a third is left out. How light a
place is in a pixel is the mean over its own samples.
"""

import numpy as np

from yarncolor.pictures.scene import WHOLE_SHARE, Edges, levels_of, yarn_index

_AT_ONCE = 1 << 16
"""Pixels that are brought down at once, which bounds the memory that it takes."""


def covered(
    place: np.ndarray, shade: np.ndarray, finer: tuple[int, int]
) -> tuple[tuple[np.ndarray, np.ndarray], tuple[np.ndarray, ...]]:
    """Return what each pixel mostly shows, and the pixels that a second place shares.

    Parameters
    ----------
    place : (height * down, width * across) int array
        Which place each sample shows.
    shade : (height * down, width * across) array
        How light it is there.
    finer : (int, int)
        Samples down and across a pixel.

    Returns
    -------
    (place, shade) : (height, width) arrays
        The place that has most samples of each pixel, of two as many the lower, and its shade.
    (at, place, shade, share) : (E,) arrays
        Which pixels are shared, counted along the rows; the second place, its shade, and how much
        it has of both, in `WHOLE_SHARE` parts as uint8.
    """
    high, wide = (size // by for size, by in zip(place.shape, finer, strict=True))
    rows = max(1, _AT_ONCE // wide)
    bands = [slice(top, min(top + rows, high)) for top in range(0, high, rows)]
    parts = [_of_band(place, shade, finer, band) for band in bands]
    whole, shared = (
        tuple(map(np.concatenate, zip(*each, strict=True))) for each in zip(*parts, strict=True)
    )
    return (whole[0].reshape(high, wide), whole[1].reshape(high, wide)), shared


def index_and_edges(
    place: np.ndarray, shade: np.ndarray, finer: tuple[int, int]
) -> tuple[np.ndarray, Edges]:
    """Return the index of a scene of the yarn's places, and its edges.

    Parameters
    ----------
    place : (height * down, width * across) int array
        Which place of the yarn each sample shows.
    shade : (height * down, width * across) array
        How light it is there.
    finer : (int, int)
        Samples down and across a pixel.
    """
    (main, light), (at, other, lit, share) = covered(place, shade, finer)
    index, second = (
        yarn_index(each, levels_of(level)) for each, level in ((main, light), (other, lit))
    )
    return index, Edges(at, second, share)


def _of_band(
    place: np.ndarray, shade: np.ndarray, finer: tuple[int, int], band: slice
) -> tuple[tuple[np.ndarray, ...], tuple[np.ndarray, ...]]:
    """Return the same of some rows of pixels, pixels in a row: main places, then shared ones."""
    rows = slice(band.start * finer[0], band.stop * finer[0])
    places, shades = (_blocks(each[rows], finer) for each in (place, shade))
    first, light = places[:, 0].copy(), shades.mean(axis=1)
    at = np.flatnonzero((places != places[:, :1]).any(axis=1))
    main, second, share = _two_commonest(places[at])
    own, other = (_mean_where(places[at] == each[:, None], shades[at]) for each in (main, second))
    first[at], light[at] = main, own
    before = band.start * (place.shape[1] // finer[1])
    return (first, light), (at + before, second, other, share)


def _blocks(samples: np.ndarray, finer: tuple[int, int]) -> np.ndarray:
    """Return the samples of each pixel: (pixels, samples)."""
    (high, wide), (down, across) = samples.shape, finer
    parted = samples.reshape(high // down, down, wide // across, across)
    blocks: np.ndarray = parted.swapaxes(1, 2).reshape(-1, down * across)
    return blocks


def _two_commonest(places: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return of each row the commonest number, the next, and its share of the two: (rows,) each."""
    rising, each = np.sort(places, axis=1), np.arange(len(places))
    times = np.zeros(places.shape, np.intp)
    for sample in range(places.shape[1]):
        times += rising == rising[:, sample, None]
    first = rising[each, times.argmax(axis=1)]
    most = times.max(axis=1)
    times[rising == first[:, None]] = 0
    second, fewer = rising[each, times.argmax(axis=1)], times.max(axis=1)
    share = np.rint(WHOLE_SHARE * fewer / (most + fewer)).astype(np.uint8)
    return first, second, share


def _mean_where(chosen: np.ndarray, values: np.ndarray) -> np.ndarray:
    """Return the mean of each row over what is chosen of it, one at least: (rows,)."""
    mean: np.ndarray = (values * chosen).sum(axis=1) / np.maximum(chosen.sum(axis=1), 1)
    return mean
