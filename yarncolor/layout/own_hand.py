"""A plan filled with what its spinner's own hands do, where it does not say it itself."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from yarncolor.defaults import plies_of
from yarncolor.plan import Plan
from yarncolor.plan.hands import FIGURES


def with_hands(plan: Plan) -> Plan:
    """Return a plan that says what its hands do; what it says itself stays."""
    if plan.hands is None:
        return plan
    for key, figure in plan.hands.figures():
        table = getattr(plan, FIGURES[key])
        if getattr(table, key) is None and not _SAID_OTHERWISE.get(key, _never)(plan):
            changed: Any = replace(table, **{key: figure.value})
            plan = replace(plan, filled=(*plan.filled, key), **{FIGURES[key]: changed})
    return plan


def _never(_: Plan) -> bool:
    return False


def _plying_is_said(plan: Plan) -> bool:
    return plan.plying.contraction_model is not None or plies_of(plan.scheme) == 1


def _pace_is_said(plan: Plan) -> bool:
    return None not in (plan.spinning.treadles_per_min, plan.spinning.drive_ratio)


_SAID_OTHERWISE: dict[str, Callable[[Plan], bool]] = {
    "contraction": _plying_is_said,
    "minutes_per_g": _pace_is_said,
}
"""Where a plan says in another way what a figure would stand in for."""
