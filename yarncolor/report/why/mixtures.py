"""Why mixtures of two lots come out as they do: carded, plied side by side, dyed paler."""

from collections.abc import Iterable
from dataclasses import replace
from math import isnan

from yarncolor.answers.answer import Answer
from yarncolor.colour.blend_doubt import OF_MEASURED_SPECTRA
from yarncolor.colour.mixtures import Pair, Recipe
from yarncolor.report.mixture_words import Gradient, batt_g, farthest_reckoning
from yarncolor.report.why import equations as by
from yarncolor.report.why import equations_of_colour as in_colour
from yarncolor.report.why import sources
from yarncolor.report.why.colours import afar_reason, doubt_reasons
from yarncolor.report.why.equation import Working
from yarncolor.report.why.one_band import BATH, bath_lines, batt_words, carded_lines, fibres
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.seen import Seen, seen_in
from yarncolor.report.why.yarn import thickness_reason
from yarncolor.said import Said

_CHOSEN = Source("the mixture", "decided", "beside the picture")
_MERGED = "the mean of the light of both plies, half and half; no shade between them is counted"
_CLOTHS = "cloths woven of two colours, 100 of them"
_RATIO = "of how far each batt is from the one before, CIEDE2000"
_PLAIN = "so many of as many equal parts as there are steps"
_EVEN = "found by trying, until all steps are as far as each other, CIEDE2000"
_OWN_BATH = "dye a second bath, make it a lot by its photograph, and choose it as your own here"


def mixtures_seen(
    answer: Answer, pair: Pair, recipe: Recipe, told: Iterable[Said]
) -> tuple[Seen, ...]:
    """Return the figures of sentences about mixtures with their reasons.

    Parameters
    ----------
    answer : Answer
        To the plan whose lots they are.
    pair : Pair
        The two lots.
    recipe : Recipe
        How they are mixed.
    told : iterable of Said
        What is said of them.
    """
    return seen_in(told, mixture_reasons(answer, pair, recipe))


def mixture_reasons(answer: Answer, pair: Pair, recipe: Recipe) -> dict[str, Reason]:
    """Return the reasons for what is said of mixtures, by what a figure of it is of.

    Parameters
    ----------
    answer : Answer
        To the plan whose lots they are.
    pair : Pair
        The two lots.
    recipe : Recipe
        How they are mixed.
    """
    wide = thickness_reason(answer, "thickness on a ruler")
    return {
        **_decided(),
        **_in_parts(answer, pair, recipe),
        **_near(answer, pair, recipe),
        "carded": _carded(answer, pair, recipe),
        "left": _bath(answer, pair, recipe),
        "merged": replace(afar_reason(answer, recipe.width_mm), figure="where it reads as one"),
        "width": wide,
        "apart": Reason("off the merged colour", (Source(_CLOTHS, "measured"),)),
        "merged_lightness": Reason("plied and merged", (sources.colours(answer),), (), _MERGED),
        "scale": Reason("lightness", (Source("L* of CIELAB", "given", "by its definition"),)),
        "turn": Reason("one turn of the ply twist", (sources.ply_twist(answer),)),
    }


def grams_reasons(pair: Pair, recipe: Recipe, mass_g: float) -> dict[str, Reason]:
    """Return the reasons for what a new lot takes of each of the two.

    Parameters
    ----------
    pair : Pair
        The two lots.
    recipe : Recipe
        How they are mixed.
    mass_g : float
        Of the new lot.
    """
    lines = tuple(_of_mass(pair, recipe, mass_g))
    takes = Reason("fibre in the new lot", (_CHOSEN,), lines)
    return {"new": Reason("the new lot", (_CHOSEN,)), "takes": takes}


def steps_seen(
    answer: Answer, told: Iterable[Said], gradients: Iterable[Gradient]
) -> tuple[Seen, ...]:
    """Return the figures of what is said of carded steps, with their reasons.

    Parameters
    ----------
    answer : Answer
        To the plan whose lots they are.
    told : iterable of Said
        What is said of them.
    gradients : iterable of Gradient
        The steps.
    """
    ratios = tuple(
        Working(in_colour.RATIO, {"largest": most, "smallest": least}, one.name)
        for one in gradients
        for least, most in [(float(one.sizes.min()), float(one.sizes.max()))]
        if least > 0
    )
    colours = (sources.colours(answer), fibres(answer))
    steps = Source("how many steps there are", "decided", "for the picture")
    reasons = {
        **doubt_reasons(answer),
        "ratio": Reason("the largest step over the smallest", colours, ratios, _RATIO),
        "plain_share": Reason("of the second lot", (steps,), (), _PLAIN),
        "even_share": Reason("of the second lot", (steps, *colours), (), _EVEN),
    }
    return seen_in(told, reasons)


def _decided() -> dict[str, Reason]:
    words = {"parts": "parts", "batt": "a batt", "distance": "from how far it is seen"}
    return {of: Reason(figure, (_CHOSEN,)) for of, figure in words.items()}


def _in_parts(answer: Answer, pair: Pair, recipe: Recipe) -> dict[str, Reason]:
    parts = float(sum(recipe.parts))
    shares = tuple(
        Working(in_colour.IN_PARTS, {"part": part, "parts": parts}, name)
        for name, part in zip(pair.names, recipe.parts, strict=True)
    )
    grams = tuple(_of_mass(pair, recipe, batt_g(answer.say)))
    return {
        "share": Reason("share", (_CHOSEN,), shares),
        "of_batt": Reason("fibre in the batt", (_CHOSEN,), grams),
    }


def _of_mass(pair: Pair, recipe: Recipe, mass_g: float) -> Iterable[Working]:
    """Yield what so many grams of the batt take of each lot."""
    parts = float(sum(recipe.parts))
    for name, part in zip(pair.names, recipe.parts, strict=True):
        yield Working(by.PART, {"mass_g": mass_g, "part": part, "parts": parts}, name)


def _near(answer: Answer, pair: Pair, recipe: Recipe) -> dict[str, Reason]:
    farthest, known = farthest_reckoning(pair, recipe), doubt_reasons(answer)
    line = Working(in_colour.DOUBT, {"of_trials": OF_MEASURED_SPECTRA, "farthest": farthest})
    within = replace(known["within"], rests_on=(sources.colours(answer), fibres(answer)))
    return {**known, "within": replace(within, workings=() if isnan(farthest) else (line,))}


def _carded(answer: Answer, pair: Pair, recipe: Recipe) -> Reason:
    """Return why a batt is so light, with one band of its reflectance."""
    lines = tuple(carded_lines(pair.names, pair.lab, recipe.parts, recipe.model))
    known = (sources.colours(answer), fibres(answer), _CHOSEN)
    return Reason("carded", known, lines, batt_words(recipe.model))


def _bath(answer: Answer, pair: Pair, recipe: Recipe) -> Reason:
    """Return why a second bath is so much paler, with one band of its reflectance."""
    takes = Source(
        "what a bath takes up", "decided", "beside the picture", _OWN_BATH, sources.MIXTURES
    )
    dye = Working(in_colour.LEFT, {"exhaustion": recipe.exhaustion})
    rests_on, both = (sources.colours(answer), takes), pair.by_lightness
    lines = bath_lines([pair.names[at] for at in both], pair.lab[both], dye.result)
    return Reason("dye left", rests_on, (dye, *lines), BATH)
