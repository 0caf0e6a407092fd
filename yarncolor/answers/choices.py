"""Ways to go on from what lies on the bobbins, each with its worth, its rows and what it takes."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.matters import Matters, matters
from yarncolor.defaults import taken_by_blends_g
from yarncolor.errors import fail
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.going_on import WAYS, AtWheel, make_up, pulled_off_m
from yarncolor.layout.layout import Layout, off_the_bobbins, used_g
from yarncolor.layout.off_plan import kept_share, largest_shift_m, ply_states
from yarncolor.layout.portions import Portions
from yarncolor.layout.stretches import shares_by_colours, stretches
from yarncolor.layout.weighing import WeighGroups, weighed

GRAMS, GRIST = "grams", "grist"
CARRY_ON = "carry_on"
WORTH_IT = 0.005
"""A way keeps so much more of the planned yarn, as a share, before it is recommended."""

FINEST, THICKEST = 1.18, 0.85
"""How much finer or thicker a hand can spin the same grams, as metres over metres."""

_NOTHING, _TOGETHER = 1e-9, 1e-4


@dataclass(frozen=True, eq=False)
class RowsToSpin:
    """What is still to spin, weighed anew: running totals begin with the first of these rows.

    Parameters
    ----------
    row : (M,) int array
        Row of its ply's page, from 1; 0 for a piece that no row asks for.
    portions : Portions
        Of each, with what goes on the scale.
    heaps : WeighGroups
        What is weighed together.
    """

    row: np.ndarray
    portions: Portions
    heaps: WeighGroups

    def of_ply(self, k: int) -> dict[int, int]:
        """Return the rows of a ply, from 1, and where each stands among all."""
        own = np.flatnonzero((self.portions.ply == k) & (self.row > 0))
        return dict(zip(self.row[own].tolist(), own.tolist(), strict=True))


@dataclass(frozen=True, eq=False)
class Choice:
    """One way to go on.

    Parameters
    ----------
    name : str
        As `WAYS` has it.
    laid : Layout
        The yarn that it makes.
    possible : str or None
        By grams, or by grist: the same grams spun finer or thicker; None where it is neither.
    factors : (singles,) array
        Metres to spin over those to spin now; NaN for a ply with nothing to spin.
    grist_instead_tex : (singles,) array
        How thick the same grams come to the same metres; NaN where that is no way.
    pull_off_m : (singles,) array
        Metres drawn off the outer end before plying.
    more_g : (lots,) array
        What the rows to spin take of each lot more than now; below 0 less.
    missing_g : (lots,) array
        How much of that there is not.
    shift_m : float
        How far the colour change that strayed farthest lies from its place.
    as_planned : float
        Share of the planned yarn that it keeps.
    """

    name: str
    laid: Layout
    possible: str | None
    factors: np.ndarray
    grist_instead_tex: np.ndarray
    pull_off_m: np.ndarray
    more_g: np.ndarray
    missing_g: np.ndarray
    shift_m: float
    as_planned: float

    @property
    def wheel(self) -> BobbinPieces:
        """What lies on the bobbins, and is to be spun, under this choice."""
        return wheel_of(self.laid)

    @property
    def yarn_m(self) -> float:
        """Length of the yarn."""
        return self.laid.stretches.yarn_m

    @property
    def matched(self) -> float:
        """Share of the yarn over which all plies look alike."""
        along = self.laid.stretches
        return float(shares_by_colours(along.edges_ppb, along.lot)[0])

    @property
    def ends_first(self) -> int:
        """Which ply runs out first, counted from 0; the first of equals."""
        single_m = self.laid.portions.single_m
        return int(np.argmax(single_m <= single_m.min() * (1 + _NOTHING)))

    @property
    def ends_together(self) -> bool:
        """Whether all plies run out together."""
        single_m = self.laid.portions.single_m
        return bool(single_m.max() <= single_m.min() * (1 + _TOGETHER))

    @cached_property
    def rows(self) -> RowsToSpin:
        """What is still to spin, weighed anew."""
        to_spin = np.flatnonzero(~self.wheel.spun)
        resolved = self.laid.resolved
        portions, heaps, _ = weighed(
            self.wheel.pieces.take(to_spin), len(resolved.plan.lots), resolved.step_g
        )
        return RowsToSpin(self.wheel.row[to_spin], portions, heaps)


@dataclass(frozen=True, eq=False)
class Replan:
    """Where the yarn stands, and every way to go on from there.

    Parameters
    ----------
    answer : Answer
        As it stands.
    planned : Layout
        The yarn as planned.
    matters : Matters
        Whether what has strayed matters.
    choices : tuple of Choice
        To carry on first; the others only where they change something.
    recommended : Choice
        The possible one that keeps most of the planned yarn, where that is worth it.
    """

    answer: Answer
    planned: Layout
    matters: Matters
    choices: tuple[Choice, ...]
    recommended: Choice

    def named(self, name: str) -> Choice | None:
        """Return a choice by its name; None where it is not among them."""
        return next((choice for choice in self.choices if choice.name == name), None)


def replan(answer: Answer) -> Replan:
    """Return every way to go on, what each is worth, and the one to take.

    Parameters
    ----------
    answer : Answer
        To a plan of which something is spun.
    """
    laid = answer.layout
    wheel = wheel_of(laid)
    resolved = laid.resolved
    start = AtWheel(wheel, resolved.wound_off, resolved.spin_loss)
    planned = _laid(laid, wheel.planned)
    spare_g = spare_to_spin_g(laid)
    ways = {name: way(start) for name, way in _open(laid).items()}
    choices = tuple(
        _choice(start, name, replace(_laid(laid, going.pieces), wheel=going), planned, spare_g)
        for name, going in ways.items()
        if name == CARRY_ON or going is not wheel
    )
    now = matters(
        start.plies,
        choices[0].as_planned,
        choices[0].yarn_m,
        planned.stretches.yarn_m,
        is_decided=wheel.asked is not None,
    )
    return Replan(answer, planned, now, choices, _recommended(choices))


def _open(laid: Layout) -> dict[str, Callable[[AtWheel], BobbinPieces]]:
    """Return the ways that are open; once plying has begun, none but to carry on."""
    return WAYS if laid.resolved.plan.plied is None else {CARRY_ON: WAYS[CARRY_ON]}


def wheel_of(laid: Layout) -> BobbinPieces:
    """Return what lies on the bobbins of a plan of which something is spun."""
    if laid.wheel is None:
        fail("spun", "is missing; say in [[spun]] tables what lies on the bobbins")
    return laid.wheel


def spare_to_spin_g(laid: Layout) -> np.ndarray:
    """Return what each lot has beyond what is spun and to be spun, its reserve too: (lots,)."""
    resolved = laid.resolved
    lots = resolved.plan.lots
    has_g = np.array([lot.mass_g for lot in lots]) - taken_by_blends_g(resolved.plan)
    for lost in resolved.plan.lost:
        has_g[resolved.plan.names.index(lost.lot)] -= lost.mass_g
    return np.asarray(has_g * (1 - resolved.card_loss) - used_g(laid))


def _laid(laid: Layout, portions: Portions) -> Layout:
    off = off_the_bobbins(laid.resolved, portions)
    return replace(laid, portions=portions, stretches=stretches(off, laid.resolved.contraction))


def _choice(
    start: AtWheel, name: str, laid: Layout, planned: Layout, spare_g: np.ndarray
) -> Choice:
    going, resolved = wheel_of(laid), laid.resolved
    now_m, then_m = _to_spin_m(start.wheel), _to_spin_m(going)
    factors = np.divide(then_m, now_m, out=np.full(len(now_m), np.nan), where=now_m > 0)
    more_g = _more_g(start.wheel, going, len(spare_g))
    missing_g = np.maximum(more_g - np.maximum(spare_g, 0.0), 0.0)
    missing_g[missing_g <= _NOTHING * laid.portions.mass_g.sum()] = 0.0
    by_grist = WAYS[name] is not make_up and _by_hand(factors)
    otherwise = GRIST if by_grist else None
    return Choice(
        name=name,
        laid=laid,
        possible=otherwise if missing_g.any() else GRAMS,
        factors=factors,
        grist_instead_tex=_grist_instead_tex(start, factors, by_grist=by_grist),
        pull_off_m=pulled_off_m(start) if name == "pull_off" else np.zeros(len(factors)),
        more_g=more_g,
        missing_g=missing_g,
        shift_m=largest_shift_m(ply_states(going, resolved.wound_off)),
        as_planned=kept_share(
            off_the_bobbins(resolved, planned.portions), off_the_bobbins(resolved, laid.portions)
        ),
    )


def _by_hand(factors: np.ndarray) -> bool:
    own = factors[~np.isnan(factors)]
    return bool(((own >= THICKEST) & (own <= FINEST)).all())


def _to_spin_m(wheel: BobbinPieces) -> np.ndarray:
    plies = len(wheel.grist)
    length_m = np.where(wheel.spun, 0.0, wheel.pieces.length_m)
    return np.bincount(wheel.pieces.ply, length_m, plies).astype(np.float64)


def _more_g(now: BobbinPieces, then: BobbinPieces, lots: int) -> np.ndarray:
    takes_g, took_g = (
        wheel.pieces.take(np.flatnonzero(~wheel.spun)).by_lot_g(lots) for wheel in (then, now)
    )
    more_g = takes_g - took_g
    return np.where(np.abs(more_g) > _NOTHING * (takes_g + took_g), more_g, 0.0)


def _grist_instead_tex(start: AtWheel, factors: np.ndarray, *, by_grist: bool) -> np.ndarray:
    """Return how thick each ply is spun to come to the metres wanted with the grams it has."""
    wheel = start.wheel
    own_g = np.where(wheel.spun, 0.0, wheel.pieces.mass_g)
    to_spin_g = np.bincount(wheel.pieces.ply, own_g, len(factors))
    tex = np.full(len(factors), np.nan)
    where = (np.abs(factors - 1) > _NOTHING) & by_grist
    wanted_m = _to_spin_m(wheel) * factors
    np.divide(to_spin_g * (1 - start.spin_loss) * 1000, wanted_m, out=tex, where=where)
    return tex


def _recommended(choices: tuple[Choice, ...]) -> Choice:
    best = max(_possible(choices), key=_worth)
    return best if best.as_planned > choices[0].as_planned + WORTH_IT else choices[0]


def _possible(choices: tuple[Choice, ...]) -> Iterator[Choice]:
    return (choice for choice in choices if choice.possible)


def _worth(choice: Choice) -> tuple[float, float]:
    return round(choice.as_planned, 9), choice.yarn_m
