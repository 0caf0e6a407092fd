"""What stands where a plan says nothing, and what it says in vain: as data, for others to word."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum
from typing import Any

from yarncolor.defaults import scale_step_g
from yarncolor.layout.scheme_input import SchemeInput
from yarncolor.plan import Fabric, Plan, Plying, Scheme, Spinning
from yarncolor.plan.hands import FIGURES
from yarncolor.plan.key import attribute_of
from yarncolor.plan.reference import KEYS, default_of
from yarncolor.plan.scheme import OWN_SEQUENCE, WITHOUT_PLIES
from yarncolor.yarn.given import GRIST_WAYS, TWIST_WAYS, densities, ply_twists
from yarncolor.yarn.knitted_size import knitted_size
from yarncolor.yarn.structure import YarnStructure

_SCHEME_KEYS = tuple(key for table, key in KEYS if table == "scheme")
_NOTHING_IS_USUAL = (
    *("reversed_plies", "parts", "portions", "copies"),
    *("ply", "from", "to", "stripes"),
)
_ALWAYS_USUAL = (
    *(("spinning", "card_loss"), ("spinning", "spin_loss"), ("scale", "step_g")),
    *(("plying", "wound_off"), ("plying", "strands")),
)


class Why(Enum):
    """Why a key has the value that it has."""

    USUAL = "nothing is said of it: what is usual stands in"
    DERIVED = "it follows from what else is said"
    IDLE = "it is given, but says nothing here"
    EMPTY = "it is given, but has no grams"
    HAND = "your hand says so"
    NO_HAND = "it is given, but no such file is there"


@dataclass(frozen=True)
class Assumption:
    """What is used for a key of the plan file, and why.

    Parameters
    ----------
    table, key : str
        Where it stands in the plan file.
    value : any
        What is used; of an idle key, what was given in vain.
    why : Why
        How the value came about.
    by : tuple of str
        What it follows from: keys, of which the first counts and the others agree, or the
        criterion or model that was asked.
    worth_saying : bool
        Whether the reader of a plan is told: not where another value would change nothing.
    """

    table: str
    key: str
    value: Any
    why: Why
    by: tuple[str, ...] = ()
    worth_saying: bool = True


def assumptions_of(
    plan: Plan, scheme_input: SchemeInput, yarn: YarnStructure
) -> Iterator[Assumption]:
    """Return all that is assumed of a plan, in no order that counts.

    Parameters
    ----------
    plan : Plan
        As given.
    scheme_input : SchemeInput
        What its scheme works on.
    yarn : YarnStructure
        How its yarn is built.
    """
    yield from _of_hands(plan)
    yield from _of_scheme(plan.scheme, scheme_input)
    yield from _idle_in_scheme(plan.scheme, scheme_input)
    if scheme_input.striped is not None and plan.target is not None:
        yield Assumption(
            "target", "yarn_m", plan.target.yarn_m, Why.IDLE, (scheme_input.scheme.name,)
        )
    yield from _usual(plan)
    yield from _of_grist(plan.spinning, yarn)
    yield from _of_density(plan.spinning, yarn)
    yield from _of_twist(plan, yarn)
    yield from _of_direction(plan, yarn)
    yield from _of_length_lost(plan.plying, yarn)
    yield from _of_fabric(plan.fabric, yarn)
    if plan.fabric.increases_per_row is not None and plan.fabric.kind != "triangle":
        yield Assumption("fabric", "increases_per_row", plan.fabric.increases_per_row, Why.IDLE)


def _of_hands(plan: Plan) -> Iterator[Assumption]:
    for key in plan.by_hands:
        figure = getattr(plan.hands, key)
        yield Assumption(FIGURES[key], key, figure, Why.HAND, ("hand",))
    if plan.hand and plan.hands is None:
        yield Assumption("", "hand", plan.hand, Why.NO_HAND)


def _of_fabric(fabric: Fabric, yarn: YarnStructure) -> Iterator[Assumption]:
    size = knitted_size(fabric, yarn.finished_tex)
    if size is None:
        return
    if fabric.gauge_stitches is None:
        why, by = _by([size.gauge.by] if size.gauge.by else [])
        yield Assumption("fabric", "gauge_stitches", size.gauge.stitches_per_10cm, why, by)
    if fabric.stitches is None:
        follows = fabric.kind != "triangle" or fabric.rows is not None
        why, by = _by(["width_cm"] if follows else [])
        yield Assumption("fabric", "stitches", size.stitches, why, by)
    if fabric.rows is None and size.rows is not None:
        yield Assumption("fabric", "rows", size.rows, Why.DERIVED, ("width_cm",))


def _of_scheme(given: Scheme, scheme_input: SchemeInput) -> Iterator[Assumption]:
    scheme = scheme_input.scheme
    for key in _SCHEME_KEYS:
        if getattr(given, attribute_of(key)) in (None, ()):
            by = _scheme_key_by(key, given)
            why, said = Why.DERIVED if by else Why.USUAL, _worth_saying(key, scheme_input)
            yield Assumption("scheme", key, getattr(scheme, attribute_of(key), None), why, by, said)
    left_out = set(range(1, len(scheme.sequence) + 1)) - set(scheme_input.place.tolist())
    if left_out:
        yield Assumption("scheme", "sequence", tuple(sorted(left_out)), Why.EMPTY)


def _scheme_key_by(key: str, given: Scheme) -> tuple[str, ...]:
    if key == "plies" and given.divisions:
        return ("divisions",)
    if key == "plies" and any(one.lots for one in given.stripes):
        return ("stripes",)
    return ("mass_g",) if key == "solid_lot" else ()


def _worth_saying(key: str, scheme_input: SchemeInput) -> bool:
    scheme, schemes = scheme_input.scheme, KEYS["scheme", key].schemes
    if key in ("plies", "sequence"):
        alone = key == "sequence" and len(scheme.sequence) == 1
        unsaid = WITHOUT_PLIES if key == "plies" else OWN_SEQUENCE
        return scheme.name not in unsaid and not alone
    if key == "closing":
        return scheme_input.closes
    return key not in _NOTHING_IS_USUAL and (not schemes or scheme.name in schemes)


def _idle_in_scheme(given: Scheme, scheme_input: SchemeInput) -> Iterator[Assumption]:
    name = scheme_input.scheme.name
    idle = ("sequence", "parts") if name in OWN_SEQUENCE else ()
    others = (key for key in _SCHEME_KEYS if KEYS["scheme", key].schemes)
    for key in (*idle, *(key for key in others if name not in KEYS["scheme", key].schemes)):
        if key != "closing" and getattr(given, attribute_of(key)) not in (None, ()):
            yield Assumption("scheme", key, getattr(given, attribute_of(key)), Why.IDLE, (name,))
    if given.closing is not None and (
        not scheme_input.closes or scheme_input.closing != given.closing
    ):
        by = ("sequence",) if scheme_input.closes else ()
        yield Assumption("scheme", "closing", given.closing, Why.IDLE, by)


def _usual(plan: Plan) -> Iterator[Assumption]:
    for table, key in _ALWAYS_USUAL:
        if getattr(getattr(plan, table), key) is None:
            usual = scale_step_g(plan) if key == "step_g" else default_of(table, key)
            yield Assumption(table, key, usual, Why.USUAL, worth_saying=key != "strands")


def _by(ways: Iterable[str]) -> tuple[Why, tuple[str, ...]]:
    by = tuple(ways)
    return Why.DERIVED if by else Why.USUAL, by


def _of_grist(spinning: Spinning, yarn: YarnStructure) -> Iterator[Assumption]:
    why, by = _by(key for key in GRIST_WAYS if getattr(spinning, key) is not None)
    yield Assumption("spinning", "single_tex", yarn.strand_tex, why, by, len(by) != 1)


def _of_twist(plan: Plan, yarn: YarnStructure) -> Iterator[Assumption]:
    _, by = _by(key for key in TWIST_WAYS if getattr(plan.spinning, key) is not None)
    if yarn.twist_tpm is not None:
        yield Assumption("spinning", "twist_tpm", yarn.twist_tpm, Why.DERIVED, by, len(by) > 1)
    given, balance = tuple(ply_twists(plan.plying)), plan.plying.balance
    if yarn.ply_twist_tpm is not None:
        by = given or (str(balance),)
        yield Assumption("plying", "twist_tpm", yarn.ply_twist_tpm, Why.DERIVED, by, not given)
    if balance is not None and (given or yarn.plies == 1):
        by = ("plies",) if yarn.plies == 1 else ("twist_tpm",)
        yield Assumption("plying", "balance", balance, Why.IDLE, by)


def _of_direction(plan: Plan, yarn: YarnStructure) -> Iterator[Assumption]:
    plied = plan.plying.direction
    if plan.spinning.direction is None:
        why, by = _by(["direction"] if plied else [])
        twisted = yarn.twist_tpm is not None or yarn.ply_twist_tpm is not None
        yield Assumption(
            "spinning", "direction", yarn.directions, why, by, twisted and plied is None
        )
    if plied is None:
        by = ("spinning.direction",)
        yield Assumption("plying", "direction", yarn.ply_direction, Why.DERIVED, by, False)


def _of_length_lost(plying: Plying, yarn: YarnStructure) -> Iterator[Assumption]:
    asked, model = plying.contraction_model, yarn.model
    if model == "measured":
        why = Why.DERIVED if asked is None else Why.IDLE
        said = asked is not None
        yield Assumption("plying", "contraction_model", asked, why, ("contraction",), said)
        return
    if model == "none":
        by = (asked,) if asked else ()
        yield Assumption("plying", "contraction", yarn.contraction, Why.USUAL, by, yarn.plies > 1)
    else:
        yield Assumption("plying", "contraction", yarn.contraction, Why.DERIVED, (model,), False)
    if asked is None:
        yield Assumption(
            "plying", "contraction_model", model, Why.USUAL, worth_saying=model != "none"
        )


def _of_density(spinning: Spinning, yarn: YarnStructure) -> Iterator[Assumption]:
    packed, relaxed = yarn.packed_density_g_per_cm3, yarn.relaxed_density_g_per_cm3
    if spinning.packed_density_g_per_cm3 is None:
        yield Assumption("spinning", "packed_density_g_per_cm3", packed, Why.USUAL)
    why, by = _by(densities(spinning))
    yield Assumption("spinning", "relaxed_density_g_per_cm3", relaxed, why, by, len(by) != 1)
