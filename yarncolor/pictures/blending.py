"""Two colours that share a pixel: mixed in linear light, as an eye mixes what it cannot part.

Three channels of twelve bits lie in lanes of one number, so that a mixture is two products. Twelve
bits of linear light hold every byte of sRGB: coded again, each is what it was.
"""

from functools import cache

import numpy as np

from yarncolor.colour.srgb import coded, linear
from yarncolor.pictures.scene import WHOLE_SHARE

_MOST = 4095
_LANES = np.array([0, 20, 40], np.uint64)
_SHARE_BITS = np.uint64(WHOLE_SHARE.bit_length() - 1)
_HALF = (np.uint64(WHOLE_SHARE // 2) << _LANES).sum(dtype=np.uint64)
_OPAQUE = np.uint32(0xFF000000)


def packed_of(srgb: np.ndarray) -> np.ndarray:
    """Return colours packed: uint32, opaque.

    Parameters
    ----------
    srgb : (..., 3) array
        0 to 255.
    """
    level = np.rint(srgb).astype(np.uint32)
    packed: np.ndarray = level[..., 0] | level[..., 1] << 8 | level[..., 2] << 16 | _OPAQUE
    return packed


def lanes_of(packed: np.ndarray) -> np.ndarray:
    """Return packed colours as linear light in lanes: uint64 of the same shape.

    Parameters
    ----------
    packed : uint32 array
        RGBA by bytes.
    """
    light, byte = _light_of_bytes(), np.uint32(0xFF)
    red, green, blue = (light[packed >> np.uint32(shift) & byte] for shift in (0, 8, 16))
    lanes: np.ndarray = red << _LANES[0] | green << _LANES[1] | blue << _LANES[2]
    return lanes


def shared(one: np.ndarray, other: np.ndarray, share: np.ndarray) -> np.ndarray:
    """Return the packed colours of pixels that two colours share: uint32, opaque.

    Parameters
    ----------
    one, other : (E,) uint64 array
        Linear light in lanes; spent.
    share : (E,) uint8 array
        Of the other, in `WHOLE_SHARE` parts.
    """
    parts = share.astype(np.uint64)
    other *= parts
    one *= np.subtract(np.uint64(WHOLE_SHARE), parts, out=parts)
    one += other
    one += _HALF
    packed = np.zeros(one.shape, np.uint32)
    for lane, codes in zip(_LANES, _codes(), strict=True):
        light = np.right_shift(one, lane + _SHARE_BITS, out=other)
        light &= np.uint64(_MOST)
        packed |= codes[light.view(np.int64)]
    return packed


@cache
def _light_of_bytes() -> np.ndarray:
    """Return the linear light of each byte of sRGB: (256,) uint64, 0 to 4095."""
    light: np.ndarray = np.rint(linear(np.arange(256) / 255) * _MOST).astype(np.uint64)
    return light


@cache
def _codes() -> np.ndarray:
    """Return what each step of linear light adds to a packed colour: (channels, 4096) uint32."""
    codes = np.rint(coded(np.arange(_MOST + 1) / _MOST) * 255).astype(np.uint32)
    return np.stack([codes | _OPAQUE, codes << np.uint32(8), codes << np.uint32(16)])
