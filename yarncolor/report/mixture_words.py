"""Mixtures of two lots in sentences, each number a figure, so that its reason is found."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import isfinite

import numpy as np

from yarncolor.colour.blend_doubt import blend_doubt, doubt_of, farthest_other
from yarncolor.colour.difference import contrast_word, hyab
from yarncolor.colour.even_steps import even_fractions, plain_fractions, step_sizes
from yarncolor.colour.mixtures import Mixtures, Model, Pair, Recipe
from yarncolor.colour.optical_mixing import MERGED_APART, reads_as_one_m
from yarncolor.colour.plied_stripes import LAID
from yarncolor.colour.science import ciede2000
from yarncolor.measures import METRIC, Measures
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.report.weigh_out_words import reckoned_words
from yarncolor.said import Figure, Filling, Said, said
from yarncolor.yarn.structure import YarnStructure

TWO_LOTS = "A mixture takes two lots: choose another for one of them, or add a lot to the plan."
_BATT_G, _OF_AN_OUNCE = 10.0, 0.5

_UNLIKE = 1.05
"""Steps whose ratio would be shown as 1.0 are called alike."""


def batt_g(say: Measures) -> float:
    """Return the grams of a batt that its parts are told for: ten, or those of half an ounce.

    Parameters
    ----------
    say : Measures
        What it is said in.
    """
    return _BATT_G if say.mass.size == 1 else _OF_AN_OUNCE * say.mass.size


@dataclass(frozen=True)
class Turn:
    """One turn of a yarn's ply twist: its length, and in words where that comes from."""

    mm: float
    words: Said


def turn_of(yarn: YarnStructure, say: Measures = METRIC) -> Turn:
    """Return one turn of a yarn's ply twist; where none is given, that of a usual yarn.

    Parameters
    ----------
    yarn : YarnStructure
        How the yarn is built.
    say : Measures
        What it is said in.
    """
    if yarn.pitch_mm is not None:
        own = Figure(say.thickness(yarn.pitch_mm), "turn")
        return Turn(yarn.pitch_mm, said("One turn in {mm} is the plan's own ply twist.", mm=own))
    mm = yarn_geometry_of(yarn, usual_twist=True).pitch_mm
    text = "The plan gives no ply twist; one turn in {mm} is usual for its yarn."
    if not isfinite(mm):
        mm, text = Recipe().turn_mm, "The plan's yarn is not plied; one turn in {mm} is a guess."
    return Turn(mm, said(text, mm=Figure(say.thickness(mm), "turn")))


def carded_words(pair: Pair, recipe: Recipe, say: Measures = METRIC) -> Said:
    """Return in a sentence or two what goes into a batt, in parts, per cent and grams.

    Parameters
    ----------
    pair : Pair
        The lots.
    recipe : Recipe
        How they are mixed.
    say : Measures
        What it is said in.
    """
    (one, other), shares = pair.names, recipe.shares
    part, other_part = (Figure(_parts(count), "parts") for count in recipe.parts)
    share, other_share = (Figure(f"{share:.0%}", "share") for share in shares)
    grams, other_grams = (Figure(say.mass(batt_g(say) * share), "of_batt") for share in shares)
    return said(
        "{part} {one} to {other_part} {other}: {share} and {other_share}, or {grams} and "
        "{other_grams} for a batt of {batt}. Mixed fibres shade one another, so a batt is darker "
        "than the two look side by side.{near}",
        part=part,
        one=one,
        other_part=other_part,
        other=other,
        share=share,
        other_share=other_share,
        grams=grams,
        other_grams=other_grams,
        batt=Figure(say.mass.given(batt_g(say)), "batt"),
        near=_near(pair, recipe),
    )


def _parts(parts: float) -> str:
    return f"{parts:g} part" if parts == 1 else f"{parts:g} parts"


def batt_doubt(pair: Pair, recipe: Recipe) -> float:
    """Return how near a batt's colour may be expected, CIEDE2000; 0 where it is one lot alone.

    Parameters
    ----------
    pair : Pair
        The lots.
    recipe : Recipe
        How they are mixed.
    """
    return float(doubt_of(farthest_reckoning(pair, recipe)))


def farthest_reckoning(pair: Pair, recipe: Recipe) -> float:
    """Return how far other reckonings of a batt come out, CIEDE2000; NaN where it is one lot alone.

    Parameters
    ----------
    pair : Pair
        The lots.
    recipe : Recipe
        How they are mixed.
    """
    one, other = map(tuple, pair.lab.tolist())
    return _farthest(recipe.parts, (one, other), recipe.model)


@lru_cache(maxsize=8)
def _farthest(
    parts: tuple[float, float], lab: tuple[tuple[float, ...], ...], model: Model
) -> float:
    """Return the same of hashable things, kept for who asks why."""
    (farthest,) = farthest_other([parts], lab, model.name, model.constant)
    return float(farthest)


def _near(pair: Pair, recipe: Recipe) -> Filling:
    """Return how near a batt's colour may be expected; nothing where it is one lot alone."""
    doubt = batt_doubt(pair, recipe)
    return said(" {reckoned}", reckoned=reckoned_words("the batt", doubt)) if doubt else ""


def plied_words(pair: Pair, recipe: Recipe, say: Measures = METRIC) -> Said:
    """Return in a sentence or two how loud a two-ply is, and from where the eye merges it.

    Parameters
    ----------
    pair : Pair
        The lots.
    recipe : Recipe
        How they are mixed.
    say : Measures
        What it is said in.
    """
    one, other = pair.lab
    seen: Filling = "held to the eye"
    if recipe.distance_m:
        far = Figure(from_afar(recipe.distance_m, say), "distance")
        seen = said("seen from {far}", far=far)
    merges = merged_from_m(pair, recipe) > 0
    return said(
        "One ply of each, half and half, wrapped side by side and {seen}. The marl is {word}. "
        "{merged}",
        seen=seen,
        word=contrast_word(float(ciede2000(one, other)), float(hyab(one, other))),
        merged=_where_merged(pair, recipe, say) if merges else "It is one colour at any distance.",
    )


def _where_merged(pair: Pair, recipe: Recipe, say: Measures) -> Said:
    """Return from where the eye merges the stripes of a marl, for each way that it lies."""
    alone, wrapped, knitted = (
        Figure(from_afar(merged_from_m(pair, recipe, laid), say), "merged") for laid in LAID
    )
    return said(
        "The eye merges its stripes from about {alone} on in a single thread of {width}, from "
        "{wrapped} wrapped, from {knitted} knitted. The merged colour is reckoned: in measured "
        "cloths of two colours it lies {apart} away in the mean (CIEDE2000), and darker.",
        alone=alone,
        width=Figure(say.thickness(recipe.width_mm), "width"),
        wrapped=wrapped,
        knitted=knitted,
        apart=Figure(f"{MERGED_APART:.0f}", "apart"),
    )


def from_afar(distance_m: float, say: Measures) -> str:
    """Return a distance to the eye with its unit, to a tenth.

    Parameters
    ----------
    distance_m : float
        In metres.
    say : Measures
        What it is said in.
    """
    return f"{say.far.of(distance_m):.1f} {say.far.unit}"


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


def bath_words(pair: Pair, recipe: Recipe, made: Mixtures) -> Said:
    """Return in a sentence what a second bath is dyed with, and what is dyed in it.

    Parameters
    ----------
    pair : Pair
        The lots.
    recipe : Recipe
        How they are mixed.
    made : Mixtures
        What becomes of them.
    """
    if made.bath is None:
        return said(
            "Neither lot is paler than the other, so neither can be the fibre for a paler bath."
        )
    dark, light = (pair.names[at] for at in pair.by_lightness)
    return said(
        "The bath that dyed {dark} still holds {left} of its dye; {light} is dyed in that.",
        dark=dark,
        left=Figure(f"{1 - recipe.exhaustion:.0%}", "left"),
        light=light,
    )


def lightness_words(made: Mixtures) -> Said:
    """Return in a sentence how light two lots are when they are carded, and when plied."""
    return said(
        "Lightness, from {scale}: carded {carded}, plied and merged by the eye {merged}.",
        scale=Figure("0 for black to 100 for white", "scale"),
        carded=Figure(f"{made.carded[0]:.0f}", "carded"),
        merged=Figure(f"{made.afar[0]:.0f}", "merged_lightness"),
    )


@dataclass(frozen=True)
class Gradient:
    """Carded steps from one lot to another.

    Parameters
    ----------
    fractions : array
        Of the second lot in each: (steps,).
    sizes : array
        CIEDE2000 from lot to batt to batt to lot: (steps + 1,).
    name : str
        How they are weighed.
    of : str
        What its shares are of, by which their reason is found.
    """

    fractions: np.ndarray
    sizes: np.ndarray
    name: str
    of: str

    @property
    def shares(self) -> Said:
        """How much of the second lot is in each, as it stands on its colour."""
        each = {f"at_{at}": Figure(f"{part:.0%}", self.of) for at, part in enumerate(self.whole)}
        return Said(", ".join(f"{{{name}}}" for name in each), each)

    @property
    def whole(self) -> np.ndarray:
        """Of the second lot from the first lot to it: (steps + 2,)."""
        return np.concatenate([[0.0], self.fractions, [1.0]])

    @property
    def words(self) -> Said:
        """How its steps look."""
        ratio = self.sizes.max() / self.sizes.min() if self.sizes.min() > 0 else 1.0
        looks: Filling = "all steps are alike"
        if ratio >= _UNLIKE:
            times = Figure(f"{ratio:.1f} times", "ratio")
            looks = said("the largest step is {times} the smallest", times=times)
        return said("{name}: to the eye, {looks}.", name=self.name, looks=looks)


def gradients(pair: Pair, steps: int) -> Iterator[Gradient]:
    """Yield the plain and the even gradient of so many steps between two lots.

    Parameters
    ----------
    pair : Pair
        The lots.
    steps : int
        Batts between them.
    """
    plain, even = plain_fractions(steps), even_fractions(pair.lab, steps)
    each = (
        (plain, "Weighed in even steps", "plain_share"),
        (even, "Weighed so that every step looks alike", "even_share"),
    )
    for fractions, name, of in each:
        yield Gradient(fractions, step_sizes(fractions, pair.lab), name, of)


def steps_words(pair: Pair, steps: int) -> Said:
    """Return in a sentence or two what the figures of steps are, and how near their colours.

    Parameters
    ----------
    pair : Pair
        The lots.
    steps : int
        Batts between them.
    """
    shares = plain_fractions(steps)
    most = float(blend_doubt(np.column_stack([1 - shares, shares]), pair.lab).max())
    return said(
        "The figures are how much of each batt is {other}. {near}",
        other=pair.names[1],
        near=reckoned_words("each batt", most),
    )
