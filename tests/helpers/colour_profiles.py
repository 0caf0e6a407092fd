"""Colour profiles built byte by byte from a standard's primaries, for photographs to carry."""

import struct
from functools import cache

import colour
import numpy as np


def profile(space: bytes, kind: bytes, pcs: bytes, tags: dict[bytes, bytes]) -> bytes:
    """Return an ICC profile, version 2.1, of these tags."""
    table, body, at = b"", b"", 128 + 4 + 12 * len(tags)
    for name, data in tags.items():
        padded = data + bytes(-len(data) % 4)
        table += name + struct.pack(">II", at + len(body), len(data))
        body += padded
    head = struct.pack(">I", at + len(body)) + bytes(4) + struct.pack(">I", 0x02100000)
    head += kind + space + pcs + bytes(12) + b"acsp" + bytes(28) + _fixed((0.9642, 1, 0.8249))
    return head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + table + body


def _fixed(values) -> bytes:
    return b"".join(struct.pack(">i", round(value * 65536)) for value in values)


def _said(words: str) -> dict[bytes, bytes]:
    text = words.encode() + b"\0"
    described = b"desc" + bytes(4) + struct.pack(">I", len(text)) + text + bytes(78)
    return {b"desc": described, b"cprt": b"text" + bytes(4) + b"none\0"}


@cache
def linear_wide_gamut() -> bytes:
    """Return a profile of linear light with the primaries of ITU-R BT.2020, a wide gamut."""
    space = colour.RGB_COLOURSPACES["ITU-R BT.2020"]
    white = colour.xy_to_XYZ(space.whitepoint)
    d50 = np.array([0.9642, 1, 0.8249])
    adapt = colour.adaptation.matrix_chromatic_adaptation_VonKries(white, d50, "Bradford")
    columns = (adapt @ space.matrix_RGB_to_XYZ).T
    tags = _said("wide and linear") | {b"wtpt": b"XYZ " + bytes(4) + _fixed(d50)}
    for channel, column in zip(b"rgb", columns, strict=True):
        tags[bytes([channel]) + b"XYZ"] = b"XYZ " + bytes(4) + _fixed(column)
        tags[bytes([channel]) + b"TRC"] = b"curv" + bytes(8)
    return profile(b"RGB ", b"mntr", b"XYZ ", tags)


@cache
def press_profile() -> bytes:
    """Return a profile of four inks: paper, two mixtures as one chooses them, else black."""
    labs = np.zeros((16, 3))
    labs[0b0000], labs[0b0110], labs[0b1100] = (100, 0, 0), (50, 60, 40), (30, 10, -30)
    grid = np.rint(labs * (2.55, 1, 1) + (0, 128, 128)).astype(np.uint8).tobytes()
    ramp = bytes(range(256))
    lut = b"mft1" + bytes(4) + bytes([4, 3, 2, 0]) + _fixed(np.eye(3).ravel())
    return profile(
        b"CMYK", b"prtr", b"Lab ", _said("inks") | {b"A2B0": lut + ramp * 4 + grid + ramp * 3}
    )
