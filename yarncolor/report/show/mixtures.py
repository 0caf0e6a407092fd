"""Three mixtures of two lots as cards on a page: carded, plied side by side, dyed paler.

Parameters
----------
pair : Pair
    The two lots that each function here takes.
recipe : Recipe
    How they are mixed, and how the marl is looked at.
"""

import base64
import io
from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite

import numpy as np
from PIL import Image

from yarncolor.colour.blend_doubt import blend_doubt
from yarncolor.colour.carding import blended_lab
from yarncolor.colour.csf_filter import seen_from_afar, wraps
from yarncolor.colour.difference import contrast_word, hyab
from yarncolor.colour.even_steps import even_fractions, plain_fractions, step_sizes
from yarncolor.colour.mixtures import Pair, Recipe, mixtures
from yarncolor.colour.optical_mixing import MERGED_APART, reads_as_one_m
from yarncolor.colour.plied_stripes import LAID
from yarncolor.colour.science import ciede2000, hex_from_srgb, shown_srgb
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.report.show.markup import Html, joined, named_colours, on_colour
from yarncolor.report.weigh_out_words import reckoned_words
from yarncolor.yarn.structure import YarnStructure

TWO_LOTS = "A mixture takes two lots: choose another for one of them, or add a lot to the plan."
_VIEW_PX, _VIEW_MM = (640, 170), 48.0
_STEPS = 5
_ROW = "display:flex;flex-wrap:wrap;gap:4px"
_CARDS = "display:flex;flex-wrap:wrap;gap:1.2em 1.6em;margin:.6em 0"
_CARD = "flex:1 1 16em;max-width:25em;min-width:0"
_HEADING = "margin:0 0 .4em;font-size:1em;line-height:1.3"
_TEXT = "margin:.4em 0;line-height:1.4"


@dataclass(frozen=True)
class Turn:
    """One turn of a yarn's ply twist: its length, and in words where that comes from."""

    mm: float
    words: str


def turn_of(yarn: YarnStructure) -> Turn:
    """Return one turn of a yarn's ply twist; where none is given, that of a usual yarn."""
    if yarn.pitch_mm is not None:
        words = f"One turn in {yarn.pitch_mm:.1f} mm is the plan's own ply twist."
        return Turn(yarn.pitch_mm, words)
    mm = yarn_geometry_of(yarn, usual_twist=True).pitch_mm
    if isfinite(mm):
        words = f"The plan gives no ply twist; one turn in {mm:.1f} mm is usual for its yarn."
        return Turn(mm, words)
    mm = Recipe().turn_mm
    return Turn(mm, f"The plan's yarn is not plied; one turn in {mm:.1f} mm is a guess.")


def mixtures_html(pair: Pair, recipe: Recipe) -> str:
    """Return three mixtures of two lots as HTML: each with its title and what it is."""
    if pair.is_one_lot:
        return _paragraph(TWO_LOTS)
    made = mixtures(pair, recipe)
    dark, light = (pair.names[at] for at in pair.by_lightness)
    cards = [
        _card("Carded together before spinning", _block(made.carded), carded_words(pair, recipe)),
        _card("Plied side by side", _marl(pair, recipe, made.afar), plied_words(pair, recipe)),
    ]
    title, left = "Dyed paler in a second bath", f"{1 - recipe.exhaustion:.0%}"
    if made.bath is None:
        words = "Neither lot is paler than the other, so neither can be the fibre for a paler bath."
        cards.append(_card(title, Html(""), words))
    else:
        words = f"The bath that dyed {dark} still holds {left} of its dye; {light} is dyed in that."
        cards.append(_card(title, _block(made.bath), words))
    lightness = (
        f"Lightness, from 0 for black to 100 for white: carded {made.carded[0]:.0f}, plied and "
        f"merged by the eye {made.afar[0]:.0f}."
    )
    shown = Html('<div style="{}">{}</div>{}')
    return shown.format(_CARDS, joined(cards), _paragraph(lightness))


def carded_words(pair: Pair, recipe: Recipe) -> str:
    """Return in a sentence or two what goes into a batt, in parts, per cent and grams."""
    (one, other), (part, other_part) = pair.names, recipe.parts
    share, other_share = recipe.shares
    return (
        f"{_parts(part)} {one} to {_parts(other_part)} {other}: {share:.0%} and {other_share:.0%}, "
        f"or {10 * share:.1f} g and {10 * other_share:.1f} g for a batt of 10 g. Mixed fibres "
        "shade one another, so a batt is darker than the two look side by side."
        f"{_near(pair, recipe)}"
    )


def _near(pair: Pair, recipe: Recipe) -> str:
    """Return how near a batt's colour may be expected; nothing where it is one lot alone."""
    model = recipe.model
    (doubt,) = blend_doubt([recipe.parts], pair.lab, model.name, model.constant)
    return f" {reckoned_words('the batt', float(doubt))}" if doubt else ""


def plied_words(pair: Pair, recipe: Recipe) -> str:
    """Return in a sentence or two how loud a two-ply is, and from where the eye merges it."""
    one, other = pair.lab
    word = contrast_word(float(ciede2000(one, other)), float(hyab(one, other)))
    metres = merged_from_m(pair, recipe)
    seen = f"seen from {recipe.distance_m:.1f} m" if recipe.distance_m else "held to the eye"
    return (
        f"One ply of each, half and half, wrapped side by side and {seen}. The marl is {word}. "
        f"{_where_merged(pair, recipe) if metres else 'It is one colour at any distance.'}"
    )


def _where_merged(pair: Pair, recipe: Recipe) -> str:
    """Return from where the eye merges the stripes of a marl, for each way that it lies."""
    alone, wrapped, knitted = (f"{merged_from_m(pair, recipe, laid):.1f} m" for laid in LAID)
    return (
        f"The eye merges its stripes from about {alone} on in a single thread of "
        f"{recipe.width_mm:.1f} mm, from {wrapped} wrapped, from {knitted} knitted. The merged "
        f"colour is reckoned: in measured cloths of two colours it lies {MERGED_APART:.0f} away in "
        "the mean (CIEDE2000), and darker."
    )


def merged_from_m(pair: Pair, recipe: Recipe, laid: str = "wrapped") -> float:
    """Return the metres from which on the eye merges a two-ply of two lots; 0 for everywhere.

    Parameters
    ----------
    pair : Pair
        The lots.
    recipe : Recipe
        How they are mixed.
    laid : str
        alone, wrapped or knitted.
    """
    return float(reads_as_one_m(pair.lab, recipe.turn_mm, recipe.width_mm, laid))


def marl_png(pair: Pair, recipe: Recipe) -> bytes:
    """Return 48 mm of a two-ply of two lots as it looks from a distance, as PNG."""
    wide, high = _VIEW_PX
    px_mm = _VIEW_MM / wide
    index = wraps(wide, high, 2, recipe.turn_mm / px_mm, recipe.width_mm / px_mm)
    metres = recipe.distance_m
    degrees = np.degrees(np.arctan(px_mm / 1000 / metres)) if metres > 0 else 0.0
    stream = io.BytesIO()
    Image.fromarray(seen_from_afar(index, pair.lab, float(degrees))).save(stream, "PNG")
    return stream.getvalue()


def steps_html(pair: Pair, steps: int = _STEPS) -> str:
    """Return the plain and the even gradient of carded steps between two lots, with percentages.

    Parameters
    ----------
    pair : Pair
        Two lots.
    steps : int
        Blends between them.
    """
    if pair.is_one_lot:
        return ""
    one, other = pair.names
    rows = joined(_steps_row(pair, *row) for row in _gradients(pair, steps))
    heading = Html('<h3 style="{};padding-top:1em">Carded in steps, from {} to {}</h3>')
    shares = plain_fractions(steps)
    most = float(blend_doubt(np.column_stack([1 - shares, shares]), pair.lab).max())
    figures = _paragraph(
        f"The figures are how much of each batt is {other}. {reckoned_words('each batt', most)}"
    )
    return joined((heading.format(_HEADING, one, other), figures, rows))


def _gradients(pair: Pair, steps: int) -> Iterator[tuple[str, np.ndarray]]:
    yield "Weighed in even steps", plain_fractions(steps)
    yield "Weighed so that every step looks alike", even_fractions(pair.lab, steps)


_UNLIKE = 1.05
"""Steps whose ratio would be shown as 1.0 are called alike."""


def _steps_row(pair: Pair, name: str, fractions: np.ndarray) -> Html:
    whole = np.concatenate([[0.0], fractions, [1.0]])
    labs = blended_lab(np.column_stack([1 - whole, whole]), pair.lab)
    boxes = joined(_swatch(f"{part:.0%}", lab) for part, lab in zip(whole, labs, strict=True))
    sizes = step_sizes(fractions, pair.lab)
    ratio = sizes.max() / sizes.min() if sizes.min() > 0 else 1.0
    unlike = f"the largest step is {ratio:.1f} times the smallest"
    words = f"{name}: to the eye, {unlike if ratio >= _UNLIKE else 'all steps are alike'}."
    return Html('{}<div style="{}">{}</div>').format(_paragraph(words), _ROW, boxes)


def _card(title: str, shown: Html, words: str) -> Html:
    card = Html('<section style="{}"><h3 style="{}">{}</h3>{}{}</section>')
    return card.format(_CARD, _HEADING, title, shown, _paragraph(words))


def _marl(pair: Pair, recipe: Recipe, afar: np.ndarray) -> Html:
    """Return the stripes with each lot's name to its colour, and what the eye makes of them."""
    data = base64.b64encode(marl_png(pair, recipe)).decode()
    metres = merged_from_m(pair, recipe)
    near = recipe.distance_m < metres
    alt = f"{'Stripes' if near else 'One colour, merged'} of {' and '.join(pair.names)}"
    picture = Html('<img alt="{}" src="data:image/png;base64,{}" style="width:100%">')
    merged = f"merged, from {metres:.1f} m on" if metres else "merged, at any distance"
    chips = (*zip(pair.lab, pair.names, strict=True), (afar, merged))
    legend = named_colours(((_shown(lab)[0], name) for lab, name in chips), "colours of the marl")
    return joined((picture.format(alt, data), legend))


def _block(lab: np.ndarray) -> Html:
    colour, note = _shown(lab)
    look = f"{on_colour(colour)};height:7em;padding:.3em .6em;box-sizing:border-box"
    return Html('<div style="{}">{}</div>').format(look, note)


def _swatch(name: str, lab: np.ndarray) -> Html:
    colour, note = _shown(lab)
    look = f"{on_colour(colour)};padding:1.4em .6em;min-width:4em"
    return Html('<div style="{}">{} {}</div>').format(look, name, note)


def _shown(lab: np.ndarray) -> tuple[str, str]:
    """Return a colour as CSS, and a note where a screen cannot show it."""
    srgb, inside = shown_srgb(np.array([lab]))
    (colour,) = hex_from_srgb(srgb)
    return colour, "" if inside[0] else "(beyond the screen)"


def _parts(parts: float) -> str:
    return f"{parts:g} part" if parts == 1 else f"{parts:g} parts"


def _paragraph(words: str) -> Html:
    return Html('<p style="{}">{}</p>').format(_TEXT, words)
