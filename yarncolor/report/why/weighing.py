"""Why so much is weighed out: rounding to what the scale shows, losses, strips of a braid."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.layout.layout import used_g
from yarncolor.phrases import ply_words
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason

_STRIPS = (
    "each ply goes through the braid as often as the scheme says, so it is split into as many "
    "strips, and into as many parts of each as plies that share it"
)
_STRIP = "its part of what the braid weighs; colours in it are by length"


def weighing_reasons(answer: Answer) -> dict[str, Reason]:
    """Return the reasons for what is said before a weigh-out, by what a figure of it is of."""
    masses, scheme = sources.masses(answer), sources.order(answer)
    card, spin = sources.card_loss(answer), sources.spin_loss(answer)
    weighed = {"mass_g": float(answer.layout.portions.mass_g.sum())}
    of_card, of_spin = answer.resolved.card_loss, answer.resolved.spin_loss
    raw = Working(by.BEFORE_CARDING, {**weighed, "card_loss": of_card})
    onto = Working(by.ONTO_BOBBINS, {**weighed, "spin_loss": of_spin})
    lots = "what all portions weigh together"
    return {
        "rest": Reason("stays over", (masses, scheme, sources.step(answer)), _rest(answer)),
        "raw": Reason("before carding", (masses, scheme, card), (raw,)),
        "card_loss": Reason("lost in carding", (card,)),
        "weighed": Reason("weighed out", (masses, scheme, card), (), lots),
        "spin_loss": Reason("lost at the wheel", (spin,)),
        "spun": Reason("onto the bobbins", (masses, scheme, spin), (onto,)),
        "strips": Reason("strips", (scheme,), (), _STRIPS),
        "strip": Reason("of the braid", (masses, scheme), (), _STRIP),
        "not_spun": Reason("not spun", (masses, scheme), (), "what no strip takes"),
    }


def first_weighed(answer: Answer) -> tuple[Working, ...]:
    """Return the grams of the first row that a scale shows, before and after rounding."""
    rows = [row for single in answer.weigh_out for row in single.rows]
    row = next((one for one in rows if _is_of_steps(answer, one.weigh_g)), None)
    if row is None or row.weigh_g is None:
        return ()
    laid, step_g = answer.layout, answer.resolved.step_g
    ply = ply_words(int(laid.portions.ply[row.at]), len(answer.resolved.tex))
    of = f"{answer.plan.names[row.lot]}, row {row.number} of {ply}"
    whole_g = float(used_g(laid)[row.lot])
    share = {"lot_g": whole_g, "share_of_lot": row.mass_g / whole_g}
    steps = {"steps": round(row.weigh_g / step_g), "step_g": step_g}
    return (
        Working(by.SHARE_OF_LOT, share, of, "before rounding"),
        Working(by.IN_STEPS, steps, of),
    )


def _is_of_steps(answer: Answer, weigh_g: float | None) -> bool:
    """Return whether what is weighed is whole steps of the scale: no strip of a braid."""
    if not weigh_g:
        return False
    steps = weigh_g / answer.resolved.step_g
    return abs(steps - round(steps)) < _WHOLE


_WHOLE = 1e-6


def _rest(answer: Answer) -> tuple[Working, ...]:
    """Return what stays over of the lot that leaves most, as the scale shows whole steps."""
    lot = int(np.argmax(answer.weigh_rest_g))
    if not answer.weigh_rest_g[lot]:
        return ()
    planned, step_g = answer.layout.planned, answer.resolved.step_g
    lot_g = float(planned.mass_g[planned.lot == lot].sum())
    steps = round((lot_g - float(answer.weigh_rest_g[lot])) / step_g)
    values = {"lot_g": lot_g, "steps": steps, "step_g": step_g}
    return (Working(by.REST, values, answer.plan.names[lot]),)
