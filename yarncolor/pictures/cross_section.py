"""The yarn drawn large: a cut through it, a length of it from the side, and one of its singles."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from yarncolor.answers.answer import Answer
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import label_ink
from yarncolor.layout.stretches import longest_of_most_colours
from yarncolor.measures import Measure
from yarncolor.phrases import title_of, turns
from yarncolor.pictures import fonts
from yarncolor.pictures.png import INK, PAPER, png_bytes
from yarncolor.pictures.yarn_geometry import (
    GROUND,
    Projection,
    cross_section,
    ring_angles,
    side_view,
    single_of,
    yarn_geometry_of,
)
from yarncolor.said import Figure, Said, said
from yarncolor.yarn.structure import YarnStructure

WIDTH_PX, HEIGHT_PX = 960, 300
_END_PX, _YARN_PX, _SINGLE_PX, _GAP_PX, _HEAD_PX = 168, 168, 76, 20, 26
_TEXT_PX = 13
_FILLED, _MOST_PX_PER_MM = 0.86, 200.0
_SMOOTH = 2
_LEVELS = 256
_BARS = (0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50)


def yarn_png(answer: Answer) -> bytes:
    """Return a PNG of the yarn drawn large, all at one scale, with a bar of so many mm.

    Its colours are those of the longest section in which most plies differ.
    """
    return png_bytes(_drawing(answer), title_of(answer.plan), yarn_alt(answer))


def yarn_alt(answer: Answer) -> str:
    """Return the text alternative of the drawing, from the yarn's numbers."""
    return str(yarn_drawn(answer))


def yarn_drawn(answer: Answer) -> Said:
    """Return the same, its numbers as figures."""
    parts = {f"part_{at}": one for at, one in enumerate(_parts_drawn(answer))}
    return Said("; ".join(f"{{{name}}}" for name in parts) + ".", parts)


def _parts_drawn(answer: Answer) -> Iterator[Said]:
    yarn, thickness = answer.resolved.yarn, answer.say.thickness
    sizes = (thickness.number(float(each(yarn.diameters_mm)), 2) for each in (np.min, np.max))
    thin, thick = (Figure(size, "single_size") for size in sizes)
    yield said(
        "{plies} ({names}), {sizes} {unit} thick in the twist",
        plies=Figure(f"{yarn.plies} plies" if yarn.plies > 1 else "One single", "plied"),
        names=", ".join(answer.plan.names[lot] for lot in _lots_shown(answer)),
        sizes=said("each {thin}" if thin == thick else "{thin} to {thick}", thin=thin, thick=thick),
        unit=thickness.unit,
    )
    if yarn.helix_angle_deg is not None:
        yield said(
            "they lie at {angle} to the yarn and go once round in {turn}",
            angle=Figure(f"{yarn.helix_angle_deg:.0f}°", "angle"),
            turn=Figure(thickness(yarn.pitch_mm or 0.0), "turn"),
        )
    elif yarn.plies > 1:
        yield said("the ply twist is not given, a usual one is drawn")
    if yarn.surface_angles_deg is not None:
        fibres = Figure(f"{yarn.surface_angles_deg[0]:.0f}°", "fibre_angle")
        yield said("the fibres of a single stand at {angle}", angle=fibres)


def _drawing(answer: Answer) -> Image.Image:
    yarn, colours = answer.resolved.yarn, _colours(answer)
    rope = yarn_geometry_of(yarn, usual_twist=True)
    fits_single = _SINGLE_PX / float(yarn.diameters_mm[0])
    scale = min(
        _FILLED * _YARN_PX / rope.envelope_mm,
        _FILLED * fits_single,
        _MOST_PX_PER_MM,
    )
    page = _Page(Image.new("RGB", (WIDTH_PX, HEIGHT_PX), PAPER))
    side_px, left = WIDTH_PX - _END_PX - 2 * _GAP_PX, _END_PX + _GAP_PX
    fine = scale * _SMOOTH
    end = cross_section(yarn, _END_PX * _SMOOTH, fine)
    side = side_view(rope, side_px * _SMOOTH, _YARN_PX * _SMOOTH, fine)
    single = side_view(single_of(yarn), side_px * _SMOOTH, _SINGLE_PX * _SMOOTH, fine)
    page.paste(end, colours, (0, _HEAD_PX))
    page.paste(side, colours, (left, _HEAD_PX))
    page.paste(single, colours, (left, _HEAD_PX + _YARN_PX + _GAP_PX))
    page.numbers(yarn, scale, answer)
    page.write((8, 4), "a cut through the yarn")
    page.write((left, 4), f"the yarn: {_twist(yarn.ply_twist_tpm, 'a usual one is drawn')}")
    own = None if yarn.twist_tpm is None else float(yarn.twist_tpm[0])
    page.write(
        (left, _HEAD_PX + _YARN_PX), f"the single of ply 1: {_twist(own, 'drawn without any')}"
    )
    page.bar(scale, answer.say.thickness)
    return page.image


def _twist(twist_tpm: float | None, otherwise: str) -> str:
    return f"twist not given, {otherwise}" if twist_tpm is None else turns(twist_tpm)


@dataclass(frozen=True)
class _Page:
    """The picture being put together."""

    image: Image.Image

    def paste(self, view: Projection, colours: np.ndarray, at: tuple[int, int]) -> None:
        """Put a view into the picture, in the plies' colours, smoothed."""
        lit = _lit(view, colours)
        wide, high = view.ply.shape[1] // _SMOOTH, view.ply.shape[0] // _SMOOTH
        self.image.paste(Image.fromarray(lit).reduce(_SMOOTH).crop((0, 0, wide, high)), at)

    def numbers(self, yarn: YarnStructure, scale: float, answer: Answer) -> None:
        """Write each ply's number on its cut."""
        shown = _lots_shown(answer)
        for k, angle in enumerate(ring_angles(yarn)):
            x = _END_PX / 2 + yarn.ply_helix_radius_mm * np.cos(angle) * scale
            y = _HEAD_PX + _END_PX / 2 - yarn.ply_helix_radius_mm * np.sin(angle) * scale
            ink = label_ink(answer.palette.srgb[shown[k]])
            ImageDraw.Draw(self.image).text(
                (x, y), str(k + 1), fill=ink, font=fonts.font(_TEXT_PX), anchor="mm"
            )

    def write(self, at: tuple[int, int], text: str) -> None:
        """Write a line of text."""
        ImageDraw.Draw(self.image).text(at, text, fill=INK, font=fonts.font(_TEXT_PX))

    def bar(self, scale: float, thickness: Measure) -> None:
        """Draw a bar of a round length under the cut.

        Parameters
        ----------
        scale : float
            Pixels to a millimetre.
        thickness : Measure
            What it is said in.
        """
        longest = [each for each in _BARS if each * thickness.size * scale <= _END_PX - 60]
        long = max(longest, default=_BARS[0])
        mm = long * thickness.size
        pen, y = ImageDraw.Draw(self.image), _HEAD_PX + _YARN_PX + 40
        pen.rectangle((12, y, 12 + mm * scale, y + 5), fill=INK)
        pen.text(
            (18 + mm * scale, y + 2),
            f"{long:g} {thickness.unit}",
            fill=INK,
            font=fonts.font(_TEXT_PX),
            anchor="lm",
        )


def _lit(view: Projection, colours: np.ndarray) -> np.ndarray:
    """Return a view in colours: (height, width, 3) uint8, each ply's colour times the shade."""
    table = np.full((len(colours) + 1, _LEVELS, 3), 255, np.uint8)
    table[:-1] = colours[:, None] * np.arange(_LEVELS)[:, None] // 255
    ply = np.where(view.ply == GROUND, len(colours), view.ply).astype(np.intp)
    level = (view.shade * (_LEVELS - 1)).astype(np.intp)
    return np.take(table.reshape(-1, 3), ply * _LEVELS + level, axis=0)


def _lots_shown(answer: Answer) -> list[int]:
    """Return the lot of each ply in the longest of the sections with most colours: (plies,)."""
    along = answer.layout.stretches
    at = longest_of_most_colours(along.edges_ppb, along.lot)
    return [int(lot) for lot in along.lot[at]]


def _colours(answer: Answer) -> np.ndarray:
    palette = [answer.palette.srgb[lot] for lot in _lots_shown(answer)]
    colours: np.ndarray = np.rint(srgb_from_hex(palette) * 255).astype(np.uint16)
    return colours
