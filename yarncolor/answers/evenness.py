"""How even hands are, for a spinner who has never measured it: three to choose from.

Their figures are common practice, no source: a spread of grist between portions and along them.
"""

from dataclasses import replace
from typing import NamedTuple

from yarncolor.answers.answer import Answer, answer
from yarncolor.plan import Plan


class Evenness(NamedTuple):
    """Hands as even as these: coefficients of variation between portions, and along one."""

    name: str
    variation: float
    variation_within: float


EVENNESS = (
    Evenness("very even", 0.03, 0.1),
    Evenness("fairly even", 0.08, 0.25),
    Evenness("thick and thin", 0.15, 0.5),
)
"""From the most even to the least."""

ASSUMED = EVENNESS[1]
"""Stands in where a plan says nothing of its hands."""


def evenness_of(plan: Plan) -> Evenness | None:
    """Return which of the three a plan's hands are; None where they are another, or not known."""
    said = (plan.spinning.variation, plan.spinning.variation_within)
    return next((one for one in EVENNESS if said == (one.variation, one.variation_within)), None)


def in_some_hands(found: Answer) -> tuple[Answer, bool]:
    """Return an answer whose hands stray, and whether how far was assumed.

    Parameters
    ----------
    found : Answer
        What follows from a plan; it is returned where the plan says how its hands stray.
    """
    if found.drift_at_hand is not None:
        return found, False
    plan = found.plan.without_steps
    hands = replace(
        plan.spinning,
        variation=ASSUMED.variation,
        variation_within=ASSUMED.variation_within,
    )
    return answer(replace(plan, spinning=hands)), True
