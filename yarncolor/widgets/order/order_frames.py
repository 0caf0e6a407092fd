"""What a browser needs to paint while a finger drags: scenes once, then tables of stretches.

Index maps and places go over once; each order is a table of stretches of some hundred bytes. The
tables of every single move from where the plan stands are sent ahead, so that the picture follows
the finger and the numbers follow the picture.
"""

from dataclasses import dataclass

import numpy as np

from yarncolor.answers.answer import Preview
from yarncolor.colour.science import srgb_from_hex
from yarncolor.colour.srgb import linear
from yarncolor.editing.editor import Editor
from yarncolor.editing.spun_stays import stated
from yarncolor.layout.carded_steps import Mix
from yarncolor.layout.many_orders import mixes_of_orders, stretches_of_orders
from yarncolor.layout.stretches import Stretches
from yarncolor.measures import Measure
from yarncolor.pictures.appearance import JOIN_STEPS, MOTTLES, STAPLE_M
from yarncolor.pictures.as_knitted import piece_shown
from yarncolor.pictures.bands import FINER, SLANT, STRIPE_PX
from yarncolor.pictures.drafted import BETWEEN_PLIES, SPIRAL_M, STREAKS_PX, drafted_lots
from yarncolor.pictures.fabric_pictures import least_room_px, piece_scene
from yarncolor.pictures.knit_scenes import KnitFabric
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.relief import (
    BRIGHT,
    DARK,
    LEAST_RELIEF,
    MIDDLE,
    heights,
    let_through,
)
from yarncolor.pictures.scene import FIXED_SRGB, Scene
from yarncolor.pictures.strip import SEPARATED_PX
from yarncolor.pictures.strip_layout import LABEL_PX, LEFT_PX, YARN_PX, Strip, strip_layout
from yarncolor.pictures.yarn_pictures import yarn_scene
from yarncolor.widgets.order.order_lots import Numbering
from yarncolor.widgets.protocol.order import (
    LabelRule,
    SaidIn,
    ShadesState,
    StripReading,
    StripShape,
    StripState,
    StripWords,
)

STRIP_PX, YARN_SCENE_PX, FABRIC_PX = (1200, 360), (1100, 110), (660, 500)
_MOST_FABRIC_PX = 1400
YARN_MM = 30.0
LABEL: LabelRule = {"size_px": LABEL_PX, "room_px": 12, "least_px": 14}
"""A browser writes names on bands in a font of its own, which wants other room than a picture's."""
MOST_AHEAD = 12
"""Places up to which the tables of all moves are sent ahead; beyond, those of one lot."""

PAINT = Paint()
"""How all that a browser paints is coloured."""


@dataclass(frozen=True)
class Scenes:
    """The pictures of a plan before they have colours: yarn at true scale, and fabric."""

    yarn: Scene
    fabric: Scene

    def unlike(self, other: "Scenes | None") -> dict[str, Scene]:
        """Return those that differ from what was sent before, by name."""
        return {
            name: scene
            for name, scene in vars(self).items()
            if other is None or not _same(scene, getattr(other, name))
        }


def scenes_of(found: Preview, from_m: float, mark_m: float | None = None) -> Scenes:
    """Return a plan's scenes, the yarn seen from a metre on.

    Parameters
    ----------
    found : Preview
        The plan laid out.
    from_m : float
        Metre at the left edge of the yarn's picture.
    mark_m : float, optional
        Metre that the fabric begins with, where only a part of the yarn is knitted.
    """
    knit, aspect, start_m, times = piece_shown(found, mark_m)
    _, _, fabric = piece_scene(found, knit, aspect, start_m, _room_px(knit), times)
    return Scenes(yarn_scene(found, from_m, YARN_MM, YARN_SCENE_PX), fabric)


def _room_px(knit: KnitFabric) -> tuple[int, int]:
    """Return the room for a fabric: more where a large piece would be cut off, up to a limit."""
    (wide, high), (usual, tall) = least_room_px(knit), FABRIC_PX
    return min(max(usual, wide), _MOST_FABRIC_PX), min(max(tall, high), _MOST_FABRIC_PX)


def shades_of(found: Preview) -> ShadesState:
    """Return what colours are made from: lots in linear light, levels of light, unevenness."""
    return {
        "lots": linear(srgb_from_hex(list(found.palette.srgb))).tolist(),
        "drafted": [
            (lot, list(zip(lots.tolist(), up_to.tolist(), strict=True)))
            for lot, (lots, up_to) in drafted_lots(found.plan.lots).items()
        ],
        "spiral_m": SPIRAL_M,
        "between_plies": BETWEEN_PLIES,
        "streaks_px": STREAKS_PX,
        "fixed": FIXED_SRGB.tolist(),
        "heights": heights().tolist(),
        "through": let_through().tolist(),
        "relief": {"dark": DARK, "bright": BRIGHT, "middle": MIDDLE, "least": LEAST_RELIEF},
        "mottles": MOTTLES,
        "mottle": PAINT.mottle,
        "join_steps": JOIN_STEPS,
        "join_m": STAPLE_M,
    }


def strip_of(found: Preview) -> StripState:
    """Return where the bands of the strip lie, in pixels of its picture, and its words."""
    drawn = strip_layout(found.layout, found.palette, *STRIP_PX)
    top = round(drawn.bands[0].top_px)
    bands = [
        (round(band.top_px) - top, round(band.top_px + band.height_px) - top)
        for band in drawn.bands
    ]
    yarn = round(drawn.yarn_top_px) - top
    shape = strip_shape(drawn.inner_px, bands, (yarn, yarn + YARN_PX))
    return {**shape, "label": LABEL, **_words_of(drawn)}


def strip_shape(width_px: int, bands: list[tuple[int, int]], yarn: tuple[int, int]) -> StripShape:
    """Return where the bands of a strip lie, and how fine any strip is drawn.

    Parameters
    ----------
    width_px : int
        Of the strip.
    bands : list of (int, int)
        First row and end of each ply's band, in pixels from the top.
    yarn : (int, int)
        The same of the plied yarn, which is the lowest.
    """
    return {
        "width": width_px,
        "height": yarn[1],
        "bands": bands,
        "yarn": yarn,
        "stripe": STRIPE_PX,
        "slant": SLANT,
        "parted": SEPARATED_PX,
        "finer": FINER,
    }


def reading_of(found: Preview) -> StripReading:
    """Return what pointing at the strip tells of each ply: fibre as it is weighed out."""
    resolved, plies = found.resolved, found.layout.stretches.lot.shape[1]
    word = "strand" if resolved.is_chain else "ply"
    kept = (1 - resolved.yarn.contractions) * (1 - resolved.spin_loss)
    g_per_m = np.broadcast_to(resolved.tex / 1000 / kept, plies)
    return {
        "plies": [f"{word} {k + 1}" for k in range(plies)],
        "g_per_m": g_per_m.tolist(),
        "mass": _said_in(found.say.mass),
        "length": _said_in(found.say.length),
    }


def _said_in(own: Measure) -> SaidIn:
    return {"unit": own.unit, "names": own.plural, "size": own.size, "finer": own.finer}


def _words_of(drawn: Strip) -> StripWords:
    """Return the heading, the names of the rows, the axis and the ends."""
    top = round(drawn.bands[0].top_px)
    return {
        "heading": [text.text for text in drawn.texts_of("heading")],
        "rows": [(text.text, float(text.y - top)) for text in drawn.texts_of("row name")],
        "ticks": [
            (float(text.x - LEFT_PX) / drawn.inner_px, text.text) for text in drawn.texts_of("tick")
        ],
        "ends": [text.text for text in drawn.texts_of("end")],
    }


@dataclass(frozen=True)
class StretchTables:
    """Tables of stretches, one after the other.

    Parameters
    ----------
    ticks : (E,) uint32 array
        Edges in billionths of each yarn, from 0 to 10**9 in each table.
    lot : (F,) uint16 array
        Lot of each ply over each stretch, stretch by stretch.
    counts : list of int
        Stretches of each table.
    yarn_m : list of float
        Length of each yarn.
    """

    ticks: np.ndarray
    lot: np.ndarray
    counts: list[int]
    yarn_m: list[float]


def table_of(along: Stretches) -> StretchTables:
    """Return the table of one yarn."""
    return _tables([along])


def numbers_of(editor: Editor) -> Numbering:
    """Return the numbers of lots in the tables of an order, and of what is moved from there."""
    return Numbering(editor.plan, _carded_now(editor))


def table_now(editor: Editor, numbers: Numbering) -> StretchTables:
    """Return the table of the order as it stands.

    Parameters
    ----------
    editor : Editor
        The plan as it stands.
    numbers : Numbering
        Of the lots in the tables that were sent.
    """
    along = editor.preview.layout.stretches
    return table_of(numbers.numbered(along, _carded_now(editor)))


def _carded_now(editor: Editor) -> tuple[Mix, ...]:
    as_it_is = np.arange(len(editor.order))[None]
    (carded,) = mixes_of_orders(editor.plan, editor.resolved, as_it_is)
    return carded


def look_ahead(
    editor: Editor, numbers: Numbering, entry: int | None = None
) -> tuple[list[tuple[int, int]], StretchTables]:
    """Return single moves, entry and place, and the tables that would follow from them.

    Parameters
    ----------
    editor : Editor
        The plan as it stands.
    numbers : Numbering
        Of the lots in the tables that were sent.
    entry : int, optional
        Only moves of that one; by default of all, where there are not more than twelve places.
    """
    order = editor.order
    if entry is None and len(order) > MOST_AHEAD:
        return [], _tables([])
    moves = order.moves(range(len(order)) if entry is None else [entry])
    if not moves:
        return [], _tables([])
    moved = [order.moved(order.place_of(one), place) for one, place in moves]
    sources = np.array([each.sources(order) for each in moved])
    along = stretches_of_orders(stated(editor.plan), editor.resolved, sources)
    carded = mixes_of_orders(editor.plan, editor.resolved, sources)
    return moves, _tables(list(map(numbers.numbered, along, carded)))


def _tables(found: list[Stretches]) -> StretchTables:
    return StretchTables(
        np.concatenate([np.zeros(0), *(one.edges_ppb for one in found)]).astype(np.uint32),
        np.concatenate([np.zeros(0), *(one.lot.ravel() for one in found)]).astype(np.uint16),
        [len(one.lot) for one in found],
        [float(one.yarn_m) for one in found],
    )


def _same(one: Scene, other: Scene) -> bool:
    pointers = [each.index.__array_interface__["data"] for each in (one, other)]
    return (
        one.shape == other.shape
        and pointers[0] == pointers[1]
        and np.array_equal(one.ply, other.ply)
        and np.array_equal(one.metre, other.metre, equal_nan=True)
    )
