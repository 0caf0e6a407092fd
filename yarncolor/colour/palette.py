"""Colours of all lots, given or made, and how the same lots look otherwise."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from yarncolor.colour.blend_doubt import doubt_of, farthest_other
from yarncolor.colour.carding import blended_lab
from yarncolor.colour.colour_vision import DEFICIENCIES, lightness_srgb, seen_srgb
from yarncolor.colour.difference import Differences, differences
from yarncolor.colour.dye_depth import later_baths_lab
from yarncolor.colour.optical_mixing import far_lab
from yarncolor.colour.science import hex_from_srgb, lab_from_srgb, shown_srgb, srgb_from_hex
from yarncolor.colour.words import css_hex
from yarncolor.plan import Lot

VIEWS = ("as it is", "lightness", *DEFICIENCIES)


@dataclass(frozen=True)
class DisplayColours:
    """Colours to show all lots by: all that a picture needs.

    Parameters
    ----------
    srgb : tuple of str
        CSS hex colours.
    """

    srgb: tuple[str, ...]


@dataclass(frozen=True)
class Palette(DisplayColours):
    """Colours of all lots: the sRGB to show them by, CIELAB, and what differs from what.

    Parameters
    ----------
    srgb : tuple of str
        CSS hex colours.
    lab : (lots, 3) array
        D65, 2° observer.
    in_gamut : (lots,) bool array
        False where a screen cannot show the colour and its nearest is shown.
    between : Differences
        Of any two lots.
    """

    srgb: tuple[str, ...]
    lab: np.ndarray
    in_gamut: np.ndarray
    between: Differences


def display_colours(lots: tuple[Lot, ...]) -> DisplayColours:
    """Return the colours to show all lots by; where all are given as sRGB, as they are.

    Those need no colour-science, which takes a second to load: a first picture can do without.
    """
    given = tuple(css_hex(lot.colour) for lot in lots if lot.colour)
    return DisplayColours(given) if len(given) == len(lots) else palette(lots)


@lru_cache(maxsize=8)
def palette(lots: tuple[Lot, ...]) -> Palette:
    """Return the colours of all lots; kept, since dragging an order changes none."""
    lab = lots_lab(lots)
    srgb, inside = shown_srgb(lab)
    made = hex_from_srgb(srgb)
    given = [lot.colour and css_hex(lot.colour) for lot in lots]
    names = tuple(own or other for own, other in zip(given, made, strict=True))
    inside = inside | np.array([own is not None for own in given])
    return Palette(names, lab, inside, differences(lab))


@lru_cache(maxsize=32)
def palette_as(lots: tuple[Lot, ...], view: str, severity: float = 1.0) -> Palette:
    """Return the colours of all lots as another eye sees them, or by their lightness alone.

    Parameters
    ----------
    lots : tuple of Lot
        All lots of a plan.
    view : str
        One of `VIEWS`.
    severity : float
        Of a colour-vision deficiency, 0 to 1.

    Raises
    ------
    ValueError
        For another view or a severity outside its range.
    """
    plain = palette(lots)
    if view == "as it is":
        return plain
    if view == "lightness":
        srgb, lab = lightness_srgb(plain.lab), plain.lab * [1, 0, 0]
    else:
        srgb = seen_srgb(srgb_from_hex(plain.srgb), view, severity)
        lab = lab_from_srgb(srgb)
    return Palette(tuple(hex_from_srgb(srgb)), lab, plain.in_gamut, differences(lab))


def lots_lab(lots: tuple[Lot, ...]) -> np.ndarray:
    """Return CIELAB (lots, 3): as given, carded or drafted from others, or of a later bath."""
    lab: dict[str, np.ndarray] = {}
    given = {lot.name: css_hex(lot.colour) for lot in lots if lot.colour is not None}
    if given:
        lab |= dict(zip(given, lab_from_srgb(srgb_from_hex(list(given.values()))), strict=True))
    lab |= {lot.name: np.array(lot.lab) for lot in lots if lot.lab is not None}
    waiting = [lot for lot in lots if lot.name not in lab]
    while waiting:
        ready = [lot for lot in waiting if all(name in lab for name in lot.made_from)]
        if not ready:
            raise ValueError("lots are made from each other in a circle")
        lab |= {lot.name: _made_lab(lot, lab) for lot in ready}
        waiting = [lot for lot in waiting if lot.name not in lab]
    return np.array([lab[lot.name] for lot in lots])


@lru_cache(maxsize=8)
def blends_srgb(lots: tuple[Lot, ...], blends: tuple[Lot, ...]) -> tuple[str, ...]:
    """Return the colours to show blends of lots by: many at once, and none of the lots' own.

    Parameters
    ----------
    lots : tuple of Lot
        All lots of a plan.
    blends : tuple of Lot
        Carded from those.
    """
    if not blends:
        return ()
    names = [lot.name for lot in lots]
    parts = np.zeros((len(blends), len(lots)))
    for row, blend in zip(parts, blends, strict=True):
        for name, part in blend.blend or ():
            row[names.index(name)] = part
    srgb, _ = shown_srgb(blended_lab(parts, lots_lab(lots)))
    return tuple(hex_from_srgb(srgb))


@lru_cache(maxsize=8)
def blend_doubts(lots: tuple[Lot, ...]) -> tuple[float, ...]:
    """Return the CIEDE2000 within which each lot that is carded from others is to be expected.

    0 for every other lot; see `yarncolor.colour.blend_doubt`.
    """
    return tuple(doubt_of(farthest_others(lots)).tolist())


@lru_cache(maxsize=8)
def farthest_others(lots: tuple[Lot, ...]) -> tuple[float, ...]:
    """Return how far other reckonings of each carded lot come out, CIEDE2000; NaN for others."""
    names, parts = [lot.name for lot in lots], np.zeros((len(lots), len(lots)))
    carded = [at for at, lot in enumerate(lots) if lot.blend]
    if not carded:
        return (np.nan,) * len(lots)
    for at in carded:
        for name, part in lots[at].blend or ():
            parts[at, names.index(name)] = part
    farthest = np.full(len(lots), np.nan)
    farthest[carded] = farthest_other(parts[carded], lots_lab(lots))
    return tuple(farthest.tolist())


def _made_lab(lot: Lot, lab: dict[str, np.ndarray]) -> np.ndarray:
    if lot.bath is not None:
        bath = lot.bath
        dyed, undyed = lab[bath.of], lab[bath.undyed]
        (made,) = later_baths_lab(dyed, undyed, bath.exhaustion, [bath.number])
        return np.asarray(made)
    sources, parts = zip(*lot.recipe, strict=True)
    mean_lab = far_lab if lot.drafted is not None else blended_lab
    (made,) = mean_lab([parts], np.array([lab[name] for name in sources]))
    return np.asarray(made)
