"""Why mixtures of two lots come out as they do: carded, plied side by side, dyed paler."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.blend_doubt import OF_MEASURED_SPECTRA
from yarncolor.colour.carding import MODELS, STEARNS_NOECHEL_M
from yarncolor.colour.dye_depth import k_over_s
from yarncolor.colour.mixtures import Pair, Recipe
from yarncolor.colour.reflectance import reflectance_from_lab
from yarncolor.report.mixture_words import BATT_G, batt_doubt
from yarncolor.report.why import equations as by
from yarncolor.report.why import equations_of_colour as in_colour
from yarncolor.report.why import sources
from yarncolor.report.why.colours import afar_reason, doubt_reasons
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.seen import Seen, seen_in
from yarncolor.report.why.yarn import thickness_reason
from yarncolor.said import Said

_BAND, _AT = (550 - 380) // 5, "at 550 nm"
"""One band of 81, told for all: green, to which the eye is keenest."""

_CHOSEN = Source("the mixture", "decided", "beside the picture")
_BATT = (
    "each colour becomes the reflectance of a wool; band by band f(R) of the batt is the mean of "
    "those of its lots, by parts; back to R, and to the colour of its light (CIE 15)"
)
_FUNCTIONS = {
    "stearns-noechel": "f(R) = (1 − R) ÷ (M × (R − 0.01) + 0.01), Stearns and Noechel 1944",
    "friele": "f(R) = exp(−s × (1 − R)² ÷ (2 × R)), Friele 1952",
    "linear": "f(R) = R, as if fibres shaded nothing",
}
_MERGED = "the mean of the light of both plies, half and half; no shade between them is counted"
_CLOTHS = "cloths woven of two colours, 100 of them"
_BATH = (
    "the dye’s own K/S (Kubelka and Munk) is that of the first bath less the fibre’s, band by "
    "band; a later bath has so much of it as there is dye left"
)
_RATIO = "of how far each batt is from the one before, CIEDE2000"
_PLAIN = "so many of as many equal parts as there are steps"
_EVEN = "found by trying, until all steps are as far as each other, CIEDE2000"
_SAMPLE = "card {small_batt} of it and photograph it dry beside both lots"
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
        **_in_parts(pair, recipe),
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


def steps_seen(answer: Answer, told: Iterable[Said]) -> tuple[Seen, ...]:
    """Return the figures of what is said of carded steps, with their reasons.

    Parameters
    ----------
    answer : Answer
        To the plan whose lots they are.
    told : iterable of Said
        What is said of them.
    """
    colours = (sources.colours(answer), _fibres(answer))
    steps = Source("how many steps there are", "decided", "for the picture")
    reasons = {
        **doubt_reasons(answer),
        "ratio": Reason("the largest step over the smallest", colours, (), _RATIO),
        "plain_share": Reason("of the second lot", (steps,), (), _PLAIN),
        "even_share": Reason("of the second lot", (steps, *colours), (), _EVEN),
    }
    return seen_in(told, reasons)


def _decided() -> dict[str, Reason]:
    words = {"parts": "parts", "batt": "a batt", "distance": "from how far it is seen"}
    return {of: Reason(figure, (_CHOSEN,)) for of, figure in words.items()}


def _in_parts(pair: Pair, recipe: Recipe) -> dict[str, Reason]:
    parts = float(sum(recipe.parts))
    shares = tuple(
        Working(in_colour.IN_PARTS, {"part": part, "parts": parts}, name)
        for name, part in zip(pair.names, recipe.parts, strict=True)
    )
    grams = tuple(_of_mass(pair, recipe, BATT_G))
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
    doubt, known = batt_doubt(pair, recipe), doubt_reasons(answer)
    others = float(np.sqrt(max(doubt**2 - OF_MEASURED_SPECTRA**2, 0.0)))
    line = Working(in_colour.DOUBT, {"of_trials": OF_MEASURED_SPECTRA, "farthest": others})
    within = replace(known["within"], rests_on=(sources.colours(answer), _fibres(answer)))
    return {**known, "within": replace(within, workings=(line,) if doubt else ())}


def _fibres(answer: Answer) -> Source:
    by_whom = "as measured for wool"
    surer = sources.in_units(answer, _SAMPLE)
    return Source("how fibres shade one another", "assumed", by_whom, surer, sources.PHOTOGRAPHS)


def _carded(answer: Answer, pair: Pair, recipe: Recipe) -> Reason:
    """Return why a batt is so light, with one band of its reflectance."""
    model = recipe.model
    method = f"{_BATT}: {_FUNCTIONS[model.name]}"
    lines = tuple(_one_band(pair, recipe))
    return Reason("carded", (sources.colours(answer), _fibres(answer), _CHOSEN), lines, method)


def _one_band(pair: Pair, recipe: Recipe) -> Iterable[Working]:
    model = recipe.model
    constants = () if model.constant is None else (model.constant,)
    bands = reflectance_from_lab(pair.lab)[:, _BAND]
    one, other = MODELS[model.name][0](bands, *constants).tolist()
    share, other_share = recipe.shares
    values = {"share_of_one": share, "f_of_one": one}
    values |= {"share_of_other": other_share, "f_of_other": other}
    added = Working(in_colour.ADDED, values, _AT, "f of the batt")
    yield added
    if model.name == "stearns-noechel":
        m = STEARNS_NOECHEL_M if model.constant is None else model.constant
        back = {"f_of_batt": added.result, "m": m}
        yield Working(in_colour.REFLECTS, back, _AT, "the batt’s reflectance")


def _bath(answer: Answer, pair: Pair, recipe: Recipe) -> Reason:
    """Return why a second bath is so much paler, with one band of its reflectance."""
    takes = Source(
        "what a bath takes up", "decided", "beside the picture", _OWN_BATH, sources.MIXTURES
    )
    dye = Working(in_colour.LEFT, {"exhaustion": recipe.exhaustion})
    rests_on = (sources.colours(answer), takes)
    return Reason("dye left", rests_on, (dye, *_depth(pair, dye.result)), _BATH)


def _depth(pair: Pair, left: float) -> Iterable[Working]:
    """Yield the depth of both lots, of the later bath, and what it reflects, in one band."""
    bands = reflectance_from_lab(pair.lab[pair.by_lightness])[:, _BAND]
    dyed, fibre = k_over_s(bands).tolist()
    if dyed <= fibre:
        return
    names = [pair.names[at] for at in pair.by_lightness]
    for name, reflectance in zip(names, bands.tolist(), strict=True):
        yield Working(in_colour.DEPTH, {"reflectance": reflectance}, f"{name} {_AT}", "K/S")
    values = {"k_of_fibre": fibre, "k_of_dyed": dyed, "left": left}
    bath = Working(in_colour.OF_BATH, values, _AT, "K/S of the paler bath")
    yield bath
    yield Working(in_colour.OF_DEPTH, {"k_of_bath": bath.result}, _AT, "what it reflects")
