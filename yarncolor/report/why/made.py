"""Why measures of a yarn are what they are: as planned, as spun, and as it came out."""

from collections.abc import Callable

from yarncolor.answers.answer import Answer
from yarncolor.answers.measured_yarn import measures, shortest_single_m
from yarncolor.report.record.words import measure_name
from yarncolor.report.record.yarns import Yarn
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.hands import matched_reason
from yarncolor.report.why.reason import Reason, Source, Whys, whys_of
from yarncolor.report.why.seen import Seen
from yarncolor.report.why.twist import length_lost
from yarncolor.report.why.wheel import plying_hours, skeins_whys, spinning_hours
from yarncolor.report.why.yarn import length_reason, thickness_reason, washed_reason

_THREE = (
    "planned is reckoned from the plan before anything was spun, as spun from what lies on the "
    "bobbins, by the same line; made is what you measured of the yarn"
)
_ALL_PLIES = "what is weighed out, less what is lost and what stays on the bobbins"


def made_whys(answer: Answer) -> Whys:
    """Return the reasons for the measures of a yarn, by what each is called.

    Parameters
    ----------
    answer : Answer
        To the plan, with what was spun and what came out of it.
    """
    planned, made = answer.as_planned, answer.plan.made
    came_out = Source("what came out", "not said" if made is None else "measured", "", _SURER)
    typed = Source(came_out.words, came_out.how, "", _SURER, sources.MADE)
    rows = {}
    for one in measures(answer):
        reason = _OF[one.name](planned)
        found = _found(answer, one.name) if one.made is not None else ()
        rows[measure_name(one.name, answer.say)] = Reason(
            f"{reason.figure}, planned",
            (*reason.rests_on, typed),
            (*reason.workings, *found),
            "; ".join(filter(None, (reason.method, _THREE))),
        )
    return whys_of(answer, rows=rows, column=0)


def made_seen(yarn: Yarn) -> tuple[Seen, ...]:
    """Return on what planned lengths hang, with the reason; nothing where on nothing."""
    guessed = yarn.record.guessed
    if not guessed:
        return ()
    return (Seen(guessed, Reason("single", (sources.grist(yarn.answer.as_planned),))),)


_SURER = "measure the yarn when it is plied, and again when it is washed and dry"


def _found(answer: Answer, name: str) -> tuple[Working, ...]:
    """Return how shares that came out follow from what was measured."""
    made = answer.plan.made
    if made is None or made.plied_m is None:
        return ()
    if name == "lost_in_plying":
        values = {"plied_m": made.plied_m, "single_m": shortest_single_m(answer.layout)}
        return (Working(by.LOST_IN_PLYING, values, figure="as it came out"),)
    if name == "lost_in_wash" and made.washed_m is not None:
        values = {"washed_m": made.washed_m, "plied_m": made.plied_m}
        return (Working(by.LOST_IN_WASH, values, figure="as it came out"),)
    if name == "m_per_100g" and made.mass_g is not None:
        values = {"plied_m": made.plied_m, "mass_g": made.mass_g}
        return (Working(by.OF_MADE, values, figure="as it came out"),)
    return ()


def _mass(answer: Answer) -> Reason:
    known = (sources.masses(answer), sources.spin_loss(answer), sources.length_lost(answer))
    weighs = {"length_m": answer.lengths.plied_m, "linear_density_tex": answer.layout.yarn_tex}
    return Reason("weight", known, (Working(by.WEIGHS, weighs),), _ALL_PLIES)


def _finished_wraps(answer: Answer) -> Reason:
    yarn = answer.resolved.yarn
    known = (sources.grist(answer), sources.ruler_density(answer), sources.wash(answer))
    wide = {"diameter_mm": 25.4 / yarn.wpi(answer.layout.yarn_tex / yarn.finishing_ratio)}
    return Reason("wraps to the inch", known, (Working(by.WRAPS, wide),))


def _wash(answer: Answer) -> Reason:
    plan = answer.plan
    left = {
        "resting_shrinkage": plan.plying.resting_shrinkage or 0.0,
        "finishing_shrinkage": plan.fabric.finishing_shrinkage or 0.0,
    }
    known = (sources.rest(answer), sources.wash(answer))
    return Reason("length that is left", known, (Working(by.LEFT, left),))


_OF: dict[str, Callable[[Answer], Reason]] = {
    "length_m": length_reason,
    "finished_length_m": washed_reason,
    "mass_g": _mass,
    "m_per_100g": lambda answer: thickness_reason(answer, "grist of the yarn"),
    "wpi": _finished_wraps,
    "skeins": lambda answer: skeins_whys(answer).heads["skein"],
    "hours_spinning": spinning_hours,
    "hours_plying": plying_hours,
    "lost_in_plying": lambda answer: length_lost(answer)[0],
    "lost_in_wash": _wash,
    "matched": matched_reason,
}
