"""Asking a strip what it shows: its pixels, its shapes, and the table they should show."""

import io
from itertools import groupby
from pathlib import Path
from xml.etree import ElementTree

import matplotlib as mpl
import numpy as np
import pytest
from PIL import Image, ImageFont

from yarncolor import answer, plan_from_data, to_dict
from yarncolor.pictures.strip_layout import LEFT_PX, strip_layout

PAPER = (255, 255, 255)
NAMES = ("Kelp", "Foam", "Samphire", "Mussel", "Sea Thrift", "Wet Sand", "Gorse", "Slate")
COLOURS = (
    *("#56612d", "#e9e2d5", "#7fa65a", "#2b2f4c"),
    *("#d9829b", "#b89f7b", "#e0b020", "#4a5866"),
)
SVG = "{http://www.w3.org/2000/svg}"

PLANS = {
    "one single": {"scheme": {"plies": 1}},
    "fractal": {"scheme": {"name": "fractal", "divisions": [1, 2, 4]}},
    "fine fractal": {"scheme": {"name": "fractal", "divisions": [1, 5, 13, 30]}},
    "staggered": {"scheme": {"name": "staggered", "plies": 4, "stagger_places": 1.5}},
    "flipped": {"scheme": {"name": "flipped", "plies": 2}},
    "solid": {"scheme": {"name": "solid", "plies": 3, "solid_lot": "Slate"}},
    "chain": {"scheme": {"name": "chain", "loop_m": 4.0}},
    "shuffled": {"scheme": {"name": "shuffled", "plies": 3}, "plying": {"wound_off": [0, 1, 2]}},
}
every_plan = pytest.mark.parametrize("tables", PLANS.values(), ids=PLANS)


def stash(names=NAMES, colours=COLOURS) -> list[dict]:
    """Return lots of unequal masses; colours are taken again where there are too few."""
    return [
        {"name": name, "colour": colours[at % len(colours)], "mass_g": 20.0 + 3.7 * (at % 5)}
        for at, name in enumerate(names)
    ]


def answered(lots=None, **tables):
    return answer(plan_from_data({"lots": lots or stash(), **tables}))


def pixels(png: bytes) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB")).astype(int)


def rgb(colour: str) -> tuple[int, int, int]:
    return tuple(bytes.fromhex(colour[1:]))


def bands_of(picture: np.ndarray) -> list[slice]:
    """Return the rows of each band, from the first column of the yarn, where no label stands."""
    coloured = (picture[:, LEFT_PX + 1] != PAPER).any(axis=1)
    coloured[:40] = False
    coloured[-50:] = False
    starts = np.flatnonzero(coloured[1:] & ~coloured[:-1]) + 1
    ends = np.flatnonzero(~coloured[1:] & coloured[:-1]) + 1
    return [slice(start, end) for start, end in zip(starts, ends, strict=True)]


def table_of(found) -> tuple[np.ndarray, np.ndarray]:
    """Return the stretch table: edges as shares of the yarn, and each ply's colour (S, P, 3)."""
    data = to_dict(found)
    colour = {lot["name"]: rgb(lot["srgb"]) for lot in data["lots"]}
    rows = data["stretches"]
    edges = np.array([0.0] + [row["end_m"] for row in rows]) / data["yarn"]["length_m"]
    return edges, np.array([[colour[lot] for lot in row["lots"]] for row in rows])


def by_column(found, width_px: int) -> tuple[np.ndarray, np.ndarray]:
    """Return the colours (columns, P, 3) at the middle of each column, taken from either side.

    They differ only where an edge of the table lies on the middle of a column.
    """
    edges, colour = table_of(found)
    middle = (np.arange(width_px) + 0.5) / width_px
    return tuple(
        colour[(np.searchsorted(edges, middle + side, side="right") - 1).clip(0, len(colour) - 1)]
        for side in (-1e-8, 1e-8)
    )


def cut_columns(found, width_px: int) -> np.ndarray:
    """Return which columns an edge of the table parts in two: (columns,)."""
    px = table_of(found)[0] * width_px
    parted = px[np.abs(px - np.rint(px)) > 1e-6].astype(int)
    return np.isin(np.arange(width_px), parted)


def runs_of(found, ply: int) -> list[tuple[tuple, float, float]]:
    """Return colour, start and end (as shares of the yarn) of each run of a ply in the yarn."""
    edges, colour = table_of(found)
    rows = zip(map(tuple, colour[:, ply].tolist()), edges[:-1], edges[1:], strict=True)
    together = [list(rows) for _, rows in groupby(rows, key=lambda row: row[0])]
    return [(rows[0][0], rows[0][1], rows[-1][2]) for rows in together]


def as_hex(colour) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour)


def any_colours(count: int, seed: int) -> list[str]:
    """Return random colours, none of them the paper's."""
    return [as_hex(row) for row in np.random.default_rng(seed).integers(0, 246, (count, 3))]


def parsed(svg: bytes) -> ElementTree.Element:
    return ElementTree.fromstring(svg)  # noqa: S314


def words_of(svg: bytes) -> list[str]:
    return [text.text for text in parsed(svg).iter(f"{SVG}text")]


def contrast(one: tuple, other: tuple) -> float:
    """Return the contrast ratio of WCAG 2.2 (relative luminance, IEC 61966-2-1)."""
    light = sorted(
        sum(
            weight * (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4)
            for weight, c in zip((0.2126, 0.7152, 0.0722), np.array(colour) / 255, strict=True)
        )
        for colour in (one, other)
    )
    return (light[1] + 0.05) / (light[0] + 0.05)


def box(text) -> tuple[float, float, float, float]:
    """Return left, top, right and bottom of a text, measured by Pillow alone."""
    name = "DejaVuSans-Bold.ttf" if text.bold else "DejaVuSans.ttf"
    font = ImageFont.truetype(
        str(Path(mpl.get_data_path()) / "fonts" / "ttf" / name),
        text.size_px,
        layout_engine=ImageFont.Layout.BASIC,
    )
    wide = font.getlength(text.text)
    _, top, _, bottom = font.getbbox(text.text, anchor="ls")
    left = text.x - {"start": 0, "middle": wide / 2, "end": wide}[text.anchor]
    middle = text.y
    return left, middle - (bottom - top) / 2, left + wide, middle + (bottom - top) / 2


def laid_out(found, width_px: int = 1200, height_px: int = 360):
    return strip_layout(found.layout, found.palette, width_px, height_px)
