"""One stitch as a tile that stands on every stitch of a piece: its strands, their edges, its light.

A stitch of plain knitting shows two legs that lean apart from where they come out of the stitch
under it, each over the feet of the one above. Legs are as wide as fabric leaves them room, so that
nothing but yarn is seen; where they meet, they lie in each other's shadow. Proportions by eye.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.pictures.coverage import covered
from yarncolor.pictures.scene import levels_of

FINER = 5
"""Samples down and across a pixel."""

_LEG, _FOOT, _LEAN, _TALL, _UNDER = 0.54, 0.10, 0.27, 1.75, 0.30
"""Width of a leg, how far its foot is from the middle and how far it leans, in stitches' widths;
its length, and how far its foot reaches down into the row under it, in rows."""

_SHADOW, _DIVE, _CLEFT = 0.30, 0.34, 0.22
"""Light at a leg's rim; what it loses where it dives; light where nothing lies on top."""

_DEPTH, _SLANT, _TURNED = 0.75, 0.55, 0.35
"""How much deeper a leg's end lies; how plies slant across it; share of a stitch's twist in it."""


@dataclass(frozen=True)
class TilePart:
    """Maps (height, width) of ply, level, and which row from here each pixel is of."""

    ply: np.ndarray
    level: np.ndarray
    row: np.ndarray


@dataclass(frozen=True)
class Tile:
    """One stitch.

    Parameters
    ----------
    main, other : TilePart
        What each pixel mostly shows, and what shares it.
    share : (height, width) uint8 array
        How much of a pixel the other has, in `WHOLE_SHARE` parts; 0 where nothing shares it.
    """

    main: TilePart
    other: TilePart
    share: np.ndarray


def stitch_tile(kind: str, plies: int, px: tuple[int, int], turns_per_stitch: float) -> Tile:
    """Return a stitch of a fabric.

    Parameters
    ----------
    kind : str
        flat, round, triangle or garter.
    plies : int
        Strands of the yarn.
    px : (int, int)
        Width and height of a stitch.
    turns_per_stitch : float
        Turns of ply twist in a stitch.
    """
    if kind == "garter":
        return _garter_tile(plies, px, turns_per_stitch)
    return _plain_tile(plies, px, turns_per_stitch, -1 if kind == "triangle" else 1)


def _plain_tile(plies: int, px: tuple[int, int], turns_per_stitch: float, upright: int) -> Tile:
    """Return a stitch of plain knitting; upright is -1 where the next row stands below."""
    u, v = _samples(px)
    best = np.full((len(v), u.shape[1]), -np.inf)
    ply, row, shade = (np.zeros(best.shape, kind) for kind in (np.intp, np.intp, float))
    for below in (-1, 0, 1):
        for leg in (-1, 1):
            height, (across, aside), along = _leg(u, v + below, leg)
            seen = height > best
            strand = _strand(aside, along, leg, (turns_per_stitch, plies))
            best, ply = np.where(seen, height, best), np.where(seen, strand, ply)
            shade = np.where(seen, _light(across, along), shade)
            row = np.where(seen, -below * upright, row)
    return _tile(ply, row, shade, plies)


def _leg(
    u: np.ndarray, v: np.ndarray, leg: int
) -> tuple[np.ndarray, tuple[np.ndarray, np.ndarray], np.ndarray]:
    """Return how high a leg stands, and where on it each sample lies.

    Across, from rim to rim -1 to 1 where it is and where it is widest; along, 0 to 1.
    """
    along = (v + _UNDER) / _TALL
    there = np.clip(along, 0, 1)
    centre = 0.5 + leg * (_FOOT + _LEAN * np.sin(np.pi / 2 * there))
    wide = _LEG / 2 * np.sin(np.pi * np.clip(along, 0.002, 0.998)) ** 0.4
    across, aside = (u - centre) / wide, (u - centre) / (_LEG / 2)
    round_ = np.sqrt(np.maximum(1 - across**2, 0))
    is_leg = (np.abs(across) < 1) & (along > 0) & (along < 1)
    beyond = -1 - np.abs(across) - 9.0 * ((along <= 0) | (along >= 1))
    height = np.where(is_leg, round_ - _DEPTH * there, beyond)
    return height, (across, aside), np.broadcast_to(there, height.shape)


def _strand(aside: np.ndarray, along: np.ndarray, leg: int, twist: tuple[float, int]) -> np.ndarray:
    """Return the ply that shows on a leg.

    Yarn goes up the left one and half a stitch later down the right one; its twist leans the same
    way on both.
    """
    turns, plies = twist
    turned = turns * (_TURNED * along if leg < 0 else 0.5 + _TURNED * (1 - along))
    lean = -leg * (1 if turns >= 0 else -1) * aside * _SLANT / 2
    strand: np.ndarray = np.floor((turned + lean) * plies).astype(np.intp) % plies
    return strand


def _light(across: np.ndarray, along: np.ndarray) -> np.ndarray:
    """Return how light a leg is: round, darker where it dives under the next."""
    out = np.sqrt(np.maximum(1 - across**2, 0))
    light = _SHADOW + (1 - _SHADOW) * out - _DIVE * along**2
    lit: np.ndarray = np.where(np.abs(across) < 1, np.maximum(light, _CLEFT), _CLEFT)
    return lit


def _garter_tile(plies: int, px: tuple[int, int], turns_per_stitch: float) -> Tile:
    """Return a stitch of garter: a bump of its row."""
    across, down = _samples(px)
    u, v = 2 * across - 1, 1 - 2 * down
    bow = v - 0.35 * np.cos(np.pi * u)
    out = np.sqrt(np.maximum(1 - (bow / 1.05) ** 2, 0.02))
    turned = turns_per_stitch * (u + 1) / 2 * 0.6 + bow * 0.15
    ply = np.floor(turned * plies).astype(np.intp) % plies
    return _tile(ply, np.zeros(ply.shape, np.intp), 0.2 + 0.8 * out, plies)


def _samples(px: tuple[int, int]) -> tuple[np.ndarray, np.ndarray]:
    """Return where samples lie: across (1, n) from the left, up (m, 1) from the foot, 0 to 1."""
    wide, high = px[0] * FINER, px[1] * FINER
    up = 1 - (np.arange(high)[:, None] + 0.5) / high
    return (np.arange(wide)[None, :] + 0.5) / wide, up


def _tile(ply: np.ndarray, row: np.ndarray, shade: np.ndarray, plies: int) -> Tile:
    """Return a tile of what samples show."""
    (main, light), (at, other, lit, share) = covered((row + 1) * plies + ply, shade, (FINER, FINER))
    second, second_light, shares = main.copy(), light.copy(), np.zeros(main.shape, np.uint8)
    second.flat[at], second_light.flat[at], shares.flat[at] = other, lit, share
    return Tile(_part(main, light, plies), _part(second, second_light, plies), shares)


def _part(place: np.ndarray, light: np.ndarray, plies: int) -> TilePart:
    return TilePart(place % plies, levels_of(light), place // plies - 1)
