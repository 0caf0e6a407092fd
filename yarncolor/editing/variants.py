"""The same stash spun otherwise: scheme, plies, closing, winding, order, a miniature, a piece."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from yarncolor.answers.knitted_piece import piece
from yarncolor.colour.palette import palette
from yarncolor.defaults import scheme_name, sequence_of, singles_of, to_divide_g
from yarncolor.editing.fitted_orders import fitted
from yarncolor.editing.fitting import changed_data, each_of
from yarncolor.editing.spun_stays import with_spun_kept
from yarncolor.errors import Fault, PlanError, quoted, suggestion
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plan, Scheme, Target, to_data
from yarncolor.planfile.read import plan_changed

AS_PLANNED = "as in the plan"


def variant(
    plan: Plan,
    scheme: str | None = None,
    *,
    wound_off: int | Sequence[int] | None = None,
    order: str = AS_PLANNED,
    **options: Any,
) -> Plan:
    """Return the plan of the same stash spun another way; what is not named stays.

    What the change cannot keep is fitted, as when it is chosen on a bench. A plan without an
    order for every lot, as a solid or free one, takes all lots in the order of the file.

    Parameters
    ----------
    plan : Plan
        As it is.
    scheme : str, optional
        The scheme.
    wound_off : int or sequence of int, optional
        How often bobbins are wound off before plying. Of several numbers the first is for the
        first single; the last holds for all that are left.
    order : str
        One of `ORDERS`: as in the plan, reversed, by lightness, begin one place on.
    options : dict
        Keys of the scheme's table: plies, closing, divisions, sequence and so on.

    Raises
    ------
    PlanError
        Where the stash cannot be spun so.
    """
    keys = options if scheme is None else {"name": scheme, **options}
    if keys:
        ordered = None if "sequence" in keys else Scheme()
        data = changed_data(plan, "scheme", keys, ordered)
        plan = with_spun_kept(plan, plan_changed(plan, fitted(data), "this way of spinning"))
    if wound_off is not None:
        data = changed_data(plan, "plying", {"wound_off": _for_each_single(plan, wound_off)})
        plan = plan_changed(plan, data, "this winding")
    return in_order(plan, order)


def in_order(plan: Plan, order: str) -> Plan:
    """Return the plan with its lots in another order; a plan without one stays.

    Parameters
    ----------
    plan : Plan
        With two lots or more.
    order : str
        One of `ORDERS`.
    """
    if order not in ORDERS:
        remedy = f"give one of {', '.join(ORDERS)}{suggestion(order, tuple(ORDERS))}"
        raise PlanError([Fault("", "order", quoted(order), remedy)])
    if plan.braid is not None and order != AS_PLANNED:
        remedy = "a braid was dyed in its order; leave it as planned"
        raise PlanError([Fault("", "order", quoted(order), remedy)])
    scheme = plan.scheme
    names = sequence_of(scheme, plan.names, to_divide_g(plan))
    places = ORDERS[order](plan, names)
    if places == sorted(places):
        return plan
    turned = replace(plan, scheme=scheme.in_order(names, places))
    kept = with_spun_kept(plan, turned)
    return plan_changed(plan, to_data(kept), "this order") if kept.spun else kept


def _kept(plan: Plan, names: tuple[str, ...]) -> list[int]:  # noqa: ARG001
    return list(range(len(names)))


def _reversed(plan: Plan, names: tuple[str, ...]) -> list[int]:
    return _kept(plan, names)[::-1]


def _one_on(plan: Plan, names: tuple[str, ...]) -> list[int]:
    places = _kept(plan, names)
    return [*places[1:], *places[:1]]


def _by_lightness(plan: Plan, names: tuple[str, ...]) -> list[int]:
    """Return the places from the lightest lot to the darkest; equal ones keep their order."""
    lightness = dict(zip(plan.names, palette(plan.lots).lab[:, 0].tolist(), strict=True))
    return sorted(range(len(names)), key=lambda place: -lightness[names[place]])


ORDERS: dict[str, Callable[[Plan, tuple[str, ...]], list[int]]] = {
    AS_PLANNED: _kept,
    "reversed": _reversed,
    "by lightness": _by_lightness,
    "begin one place on": _one_on,
}
"""Every order that can be asked for, by its words: where each place's lot comes from."""


def _for_each_single(plan: Plan, wound_off: int | Sequence[int]) -> int | list[int]:
    if isinstance(wound_off, int):
        return wound_off
    return each_of(wound_off, singles_of(plan.scheme)) if wound_off else []


MINIATURE_G = 10.0


def miniature(plan: Plan, yarn_g: float = MINIATURE_G) -> Plan:
    """Return the plan of the same yarn from a pinch of each lot, to spin before carding all.

    Parameters
    ----------
    plan : Plan
        Of the whole yarn.
    yarn_g : float
        Grams of yarn to make.
    """
    if scheme_name(plan.scheme) == "stripes":
        remedy = "stripes are spun for their rows; cast on fewer stitches for a small piece"
        raise PlanError([Fault("", "scheme", "stripes", remedy)])
    return replace(plan.before_the_wheel, target=Target(yarn_g=yarn_g), lost=())


def for_the_piece(plan: Plan) -> Plan:
    """Return the plan with as much yarn as its knitted piece takes, or several alike.

    Stripes take as much by themselves.

    Raises
    ------
    PlanError
        Where the plan does not say what is to be knitted: stitches, rows and gauge.
    """
    if scheme_name(plan.scheme) == "stripes":
        return replace(plan, target=None)
    found = piece(layout(resolve(replace(plan, target=None))))
    if found is None or found.all_plied_m is None:
        remedy = "say what is to be knitted: how wide or how many stitches, and how many rows"
        raise PlanError([Fault("", "fabric", "", remedy)])
    return replace(plan, target=Target(yarn_m=found.all_plied_m))
