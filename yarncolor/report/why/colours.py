"""Why marls are loud or quiet, and from where they read as one."""

from yarncolor.answers.answer import Answer
from yarncolor.colour.difference import ALIKE_BELOW, CLOSE_BELOW, LOUD_FROM
from yarncolor.colour.plied_stripes import LAID
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source, Whys, whys_of

CALLED = (
    f"alike under CIEDE2000 {ALIKE_BELOW:g}, close under {CLOSE_BELOW:g}, loud from HyAB "
    f"{LOUD_FROM:g}, else clear; both are distances of the two colours in CIELAB"
)
_AFAR = (
    "a share of the distance from which the yarn itself takes one minute of arc, the finest that "
    "is told apart: from where its stripes, blurred by the eye, differ by no more than CIEDE2000 "
    f"{ALIKE_BELOW:g}"
)
DOUBT = (
    "the farthest from the colour shown that other ways to reckon a blend come to, and what trials "
    "were out in the mean (CIEDE2000)"
)
ALIKE_BY = "where half of those asked no longer let two colours of ceramics pass as one"
_EYES = f"pairs under CIEDE2000 {ALIKE_BELOW:g}, to every eye or to one that is weak in a colour"
_NUMBERS = {
    "small differences, CIEDE2000": "CIE 142: small differences of lightness, chroma and hue, each "
    "weighted as eyes tell them apart",
    "large ones, HyAB": "difference in lightness, and the distance in a* and b*, added",
    "lightness": "difference in L* of CIELAB",
    "grey scale": "the grade at which a scale of greys differs as much (ISO 105-A05)",
}


def pairs_whys(answer: Answer) -> Whys:
    """Return the reasons for how pairs of lots marl."""
    colours = sources.colours(answer)
    afar = afar_reason(answer, answer.resolved.yarn.relaxed_diameter_mm)
    numbers = {head: Reason(head, (colours,), (), method) for head, method in _NUMBERS.items()}
    heads = {f"{laid}, reads as one from": afar for laid in LAID}
    called = Reason("what the marl is", (colours,), (), CALLED)
    return whys_of(answer, heads={"the marl is": called, **heads, **numbers})


def afar_reason(answer: Answer, width_mm: float) -> Reason:
    """Return why a marl reads as one from so far.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    width_mm : float
        How thick the yarn lies.
    """
    yarn_made = (sources.ply_twist(answer), sources.grist(answer), sources.ruler_density(answer))
    wide = Working(by.A_MINUTE, {"width_mm": width_mm})
    return Reason("at the farthest", (sources.colours(answer), *yarn_made), (wide,), _AFAR)


def doubt_reasons(answer: Answer) -> dict[str, Reason]:
    """Return the reasons for how near a reckoned blend comes, by what a figure of it is of."""
    alike = Source("what passes for alike", "decided", ALIKE_BY)
    return {
        "within": Reason("how near its colour", (sources.colours(answer),), (), DOUBT),
        "alike": Reason("alike", (alike,)),
    }


def twins_whys(answer: Answer) -> Whys:
    """Return the reason for which lots are hardly told apart."""
    why = Reason("how far apart", (sources.colours(answer),), (), _EYES)
    return whys_of(answer, heads={"in numbers (CIEDE2000)": why})
