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
from typing import NamedTuple

import numpy as np
from PIL import Image

from yarncolor.colour.carding import blended_lab
from yarncolor.colour.csf_filter import seen_from_afar, wraps
from yarncolor.colour.mixtures import Pair, Recipe, mixtures
from yarncolor.colour.science import hex_from_srgb, shown_srgb
from yarncolor.measures import METRIC, Measures
from yarncolor.report.mixture_words import (
    TWO_LOTS,
    Gradient,
    bath_words,
    carded_words,
    from_afar,
    gradients,
    lightness_words,
    merged_from_m,
    plied_words,
    steps_words,
)
from yarncolor.report.show.markup import Html, joined, named_colours, on_colour
from yarncolor.said import Said

_VIEW_PX, _VIEW_MM = (640, 170), 48.0
_STEPS = 5
_ROW = "display:flex;flex-wrap:wrap;gap:4px"
_CARDS = "display:flex;flex-wrap:wrap;gap:1.2em 1.6em;margin:.6em 0"
_CARD = "flex:1 1 16em;max-width:25em;min-width:0"
_HEADING = "margin:0 0 .4em;font-size:1em;line-height:1.3"
_TEXT = "margin:.4em 0;line-height:1.4"


class Mixed(NamedTuple):
    """Mixtures as HTML, what is said in it, and the gradients that it shows."""

    html: str
    told: tuple[Said, ...] = ()
    gradients: tuple[Gradient, ...] = ()


def mixtures_shown(pair: Pair, recipe: Recipe, say: Measures = METRIC) -> Mixed:
    """Return three mixtures of two lots: each with its title and what it is.

    Parameters
    ----------
    pair : Pair
        The two lots.
    recipe : Recipe
        How they are mixed, and how the marl is looked at.
    say : Measures
        What it is said in.
    """
    if pair.is_one_lot:
        return Mixed(_paragraph(TWO_LOTS))
    made = mixtures(pair, recipe)
    bath = Html("") if made.bath is None else _block(made.bath)
    carded, plied = carded_words(pair, recipe, say), plied_words(pair, recipe, say)
    paler, light = bath_words(pair, recipe, made), lightness_words(made)
    cards = [
        _card("Carded together before spinning", _block(made.carded), carded),
        _card("Plied side by side", _marl(pair, recipe, made.afar, say), plied),
        _card("Dyed paler in a second bath", bath, paler),
    ]
    shown = Html('<div style="{}">{}</div>{}').format(_CARDS, joined(cards), _paragraph(light))
    return Mixed(shown, (carded, plied, paler, light))


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


def steps_shown(pair: Pair, steps: int = _STEPS) -> Mixed:
    """Return the plain and the even gradient of carded steps between two lots, with percentages.

    Parameters
    ----------
    pair : Pair
        Two lots.
    steps : int
        Blends between them.
    """
    if pair.is_one_lot:
        return Mixed("")
    one, other = pair.names
    each, words = list(gradients(pair, steps)), steps_words(pair, steps)
    heading = Html('<h3 style="{};padding-top:1em">Carded in steps, from {} to {}</h3>')
    rows = joined(_steps_row(pair, gradient) for gradient in each)
    shown = joined((heading.format(_HEADING, one, other), _paragraph(words), rows))
    told = (said for gradient in each for said in (gradient.words, gradient.shares))
    return Mixed(shown, (words, *told), tuple(each))


def _steps_row(pair: Pair, gradient: Gradient) -> Html:
    whole = gradient.whole
    labs = blended_lab(np.column_stack([1 - whole, whole]), pair.lab)
    boxes = joined(_swatch(f"{part:.0%}", lab) for part, lab in zip(whole, labs, strict=True))
    words = _paragraph(gradient.words)
    return Html('{}<div style="{}">{}</div>').format(words, _ROW, boxes)


def _card(title: str, shown: Html, words: Said) -> Html:
    card = Html('<section style="{}"><h3 style="{}">{}</h3>{}{}</section>')
    return card.format(_CARD, _HEADING, title, shown, _paragraph(words))


def _marl(pair: Pair, recipe: Recipe, afar: np.ndarray, say: Measures) -> Html:
    """Return the stripes with each lot's name to its colour, and what the eye makes of them."""
    data = base64.b64encode(marl_png(pair, recipe)).decode()
    metres = merged_from_m(pair, recipe)
    near = recipe.distance_m < metres
    alt = f"{'Stripes' if near else 'One colour, merged'} of {' and '.join(pair.names)}"
    picture = Html('<img alt="{}" src="data:image/png;base64,{}" style="width:100%">')
    merged = f"merged, from {from_afar(metres, say)} on" if metres else "merged, at any distance"
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


def _paragraph(words: Said | str) -> Html:
    return Html('<p style="{}">{}</p>').format(_TEXT, str(words))
