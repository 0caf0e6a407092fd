"""Why grams of lots, of batts and of what is left over are what they are."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import Batt, batts
from yarncolor.answers.leftovers import left_on_bobbins_m
from yarncolor.colour.blend_doubt import OF_MEASURED_SPECTRA
from yarncolor.colour.palette import farthest_others
from yarncolor.defaults import taken_by_blends_g
from yarncolor.layout.along_single import keeps_grist
from yarncolor.layout.layout import used_g
from yarncolor.phrases import ply_words
from yarncolor.report.why import equations as by
from yarncolor.report.why import equations_of_colour as in_colour
from yarncolor.report.why import sources
from yarncolor.report.why.colours import DOUBT
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Whys, whys_of

_DIVIDED = (
    "what is used of the lot, shared over plies by how thick each is and over its places by the "
    "scheme, in the nearest part that hands find"
)
_NOTED = "your own words, and what a lot lacks for the plan or takes of what was kept back"
_DRAWER = (
    "on each bobbin what finds no partner when the shortest single has run out; in the drawer what "
    "no row takes; and what is less than a step of the scale"
)


def stash_whys(answer: Answer) -> Whys:
    """Return the reasons for the grams of every lot."""
    masses, lost, scheme = (of(answer) for of in (sources.masses, sources.card_loss, sources.order))
    yours = Reason(answer.say.mass.plural, (masses,))
    return whys_of(
        answer,
        heads={
            answer.say.mass.plural: yours,
            "kept back": Reason("kept back", (masses,)),
            "used": Reason("used", (masses, scheme, lost), _used(answer)),
            "note": Reason("note", (masses, scheme), (), _NOTED),
            "divide": Reason("divided", (masses, scheme), (), _DIVIDED),
        },
    )


def _used(answer: Answer) -> tuple[Working, ...]:
    """Return what is used of the first lot that is used."""
    spun_g, blends_g = used_g(answer.layout), taken_by_blends_g(answer.plan)
    lot = int(np.argmax(spun_g + blends_g > 0))
    values = {
        "spun_g": float(spun_g[lot]),
        "card_loss": answer.resolved.card_loss,
        "blends_g": float(blends_g[lot]),
    }
    return (Working(by.USED, values, answer.plan.names[lot]),)


def batts_whys(answer: Answer, drafted: bool) -> Whys:
    """Return the reasons for what goes into each batt, and for how near its colour comes.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    drafted : bool
        Whether it is told of what is drafted side by side; else of what is carded.
    """
    own = [one for one in batts(answer) if one.is_drafted == drafted]
    parts = Reason("fibre in it", (sources.masses(answer),), _parts(answer, own[0]) if own else ())
    colour = Reason("how near its colour", (sources.colours(answer),), _near(answer), DOUBT)
    return whys_of(answer, heads={"of": parts, "its colour": colour})


def _near(answer: Answer) -> tuple[Working, ...]:
    """Return how near each carded colour may be expected, from trials and other reckonings."""
    each = zip(answer.plan.names, farthest_others(answer.plan.lots), strict=True)
    return tuple(
        Working(in_colour.DOUBT, {"of_trials": OF_MEASURED_SPECTRA, "farthest": farthest}, name)
        for name, farthest in each
        if not np.isnan(farthest)
    )


def _parts(answer: Answer, batt: Batt) -> tuple[Working, ...]:
    recipe, mass_g = answer.plan.lots[batt.lot].recipe, answer.plan.lots[batt.lot].mass_g
    whole, into = float(sum(part for _, part in recipe)), answer.plan.names[batt.lot]
    return tuple(
        Working(by.PART, {"mass_g": mass_g, "part": part, "parts": whole}, f"{name} in {into}")
        for name, part in recipe
    )


def left_whys(answer: Answer) -> Whys:
    """Return the reason for what is left over."""
    makes = (sources.masses(answer), sources.grist(answer), sources.order(answer))
    left = Reason("left over", (*makes, sources.step(answer)), _stays(answer), _DRAWER)
    return whys_of(answer, heads={"left over": left})


def _stays(answer: Answer) -> tuple[Working, ...]:
    """Return what stays on the fullest bobbin; nothing where none does, or of another grist."""
    laid, resolved = answer.layout, answer.resolved
    left_m = left_on_bobbins_m(laid)
    ply = int(left_m.argmax())
    if not left_m[ply] or not keeps_grist(laid.portions, ply, resolved.tex[ply]):
        return ()
    values = {
        "own_single_m": float(laid.portions.single_m[ply]),
        "yarn_m": laid.stretches.yarn_m,
        "folds": laid.folds,
        "contraction": float(resolved.yarn.contractions[ply]),
        "linear_density_tex": float(resolved.tex[ply]),
        "spin_loss": resolved.spin_loss,
    }
    return (Working(by.STAYS, values, ply_words(ply, len(resolved.tex))),)
