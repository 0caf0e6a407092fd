"""Ways to go on from what lies on the bobbins, each with its worth, its rows and what it takes."""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.choice import CARRY_ON, FINEST, GRAMS, GRIST, THICKEST, Choice, wheel_of
from yarncolor.answers.hands import what_hands_do
from yarncolor.answers.matters import Matters, matters
from yarncolor.layout.bobbin_pieces import BobbinPieces
from yarncolor.layout.going_on import WAYS, AtWheel, make_up, pulled_off_m
from yarncolor.layout.layout import Layout, left_g, off_the_bobbins
from yarncolor.layout.off_plan import kept_share, largest_shift_m, ply_states
from yarncolor.layout.pieces_changed import spun_otherwise
from yarncolor.layout.portions import Portions
from yarncolor.layout.stretches import stretches
from yarncolor.layout.turned_round import put_right_by_winding

WORTH_IT = 0.005
"""A way keeps so much more of the planned yarn, as a share, before it is recommended."""

_NOTHING = 1e-9


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
        To carry on first; the others only where they change something that hands can do.
    recommended : Choice
        The possible one that keeps most of the planned yarn, where that is worth it.
    unseen : tuple of Choice
        Ways that change less than the scale can show.
    """

    answer: Answer
    planned: Layout
    matters: Matters
    choices: tuple[Choice, ...]
    recommended: Choice
    unseen: tuple[Choice, ...] = ()

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
    begin = _begin(answer.layout)
    carry_on, *others = begin.choices()
    shown = [bool(what_hands_do(carry_on, one)) for one in others]
    choices = (carry_on, *(one for one, is_shown in zip(others, shown, strict=True) if is_shown))
    now = matters(
        begin.at.plies,
        carry_on.as_planned,
        carry_on.yarn_m,
        begin.planned.stretches.yarn_m,
        is_decided=begin.at.wheel.asked is not None,
    )
    unseen = tuple(one for one, is_shown in zip(others, shown, strict=True) if not is_shown)
    return Replan(answer, begin.planned, now, choices, _recommended(choices), unseen)


def _recommended(choices: tuple[Choice, ...]) -> Choice:
    best = max((choice for choice in choices if choice.possible), key=_worth)
    return best if best.as_planned > choices[0].as_planned + WORTH_IT else choices[0]


def _worth(choice: Choice) -> tuple[float, float]:
    return round(choice.as_planned, 9), choice.yarn_m


def _begin(laid: Layout) -> "_Begin":
    wheel, resolved = wheel_of(laid), laid.resolved
    start = AtWheel(wheel, resolved.wound_off, resolved.spin_loss)
    return _Begin(start, laid, _as_planned(laid, wheel), left_g(laid))


def _as_planned(laid: Layout, wheel: BobbinPieces) -> Layout:
    """Return the yarn as planned: a ply put right by winding was to be wound as the others."""
    wound_off = laid.resolved.wound_off.copy()
    wound_off[put_right_by_winding(wheel, wound_off)] += 1
    planned = replace(laid, resolved=replace(laid.resolved, wound_off=wound_off))
    return _laid(planned, wheel.planned)


def _laid(laid: Layout, portions: Portions) -> Layout:
    off = off_the_bobbins(laid.resolved, portions)
    return replace(laid, portions=portions, stretches=stretches(off, laid.resolved.contraction))


@dataclass(frozen=True, eq=False)
class _Begin:
    """What every choice is made from: bobbins as they stand, the yarn as planned, spare fibre."""

    at: AtWheel
    laid: Layout
    planned: Layout
    spare_g: np.ndarray

    def choices(self) -> list[Choice]:
        """Return every way to go on; once plying has begun, none but to carry on."""
        names = list(WAYS) if self.laid.resolved.plan.plied is None else [CARRY_ON]
        ways = {name: WAYS[name](self.at) for name in names}
        now = self.at.wheel
        return [
            self._choice(name, going)
            for name, going in ways.items()
            if name == CARRY_ON or going is not now
        ]

    def _choice(self, name: str, going: BobbinPieces) -> Choice:
        factors = self._factors(going)
        by_grist = WAYS[name] is not make_up and _by_hand(factors)
        more_g = _more_g(self.at.wheel, going, len(self.spare_g))
        missing_g = self._missing_g(more_g)
        otherwise = self._under(spun_otherwise(self.at.wheel, factors)) if by_grist else None
        laid, possible = self._under(going), GRAMS
        if missing_g.any():
            laid, possible = otherwise or laid, GRIST if by_grist else ""
        return Choice(
            name=name,
            laid=laid,
            by_grams=going,
            possible=possible or None,
            factors=factors,
            grist_instead_tex=self._grist_instead_tex(factors, by_grist=by_grist),
            as_planned_by_grist=self._kept(otherwise) if otherwise else np.nan,
            pull_off_m=pulled_off_m(self.at) if name == "pull_off" else np.zeros(len(factors)),
            more_g=more_g,
            missing_g=missing_g,
            shift_m=largest_shift_m(ply_states(wheel_of(laid), self.at.wound_off)),
            as_planned=self._kept(laid),
        )

    def _under(self, wheel: BobbinPieces) -> Layout:
        return replace(_laid(self.laid, wheel.pieces), wheel=wheel)

    def _kept(self, laid: Layout) -> float:
        """Return the share of the planned yarn that one keeps."""
        both = (off_the_bobbins(one.resolved, one.portions) for one in (self.planned, laid))
        return kept_share(*both)

    def _factors(self, going: BobbinPieces) -> np.ndarray:
        now_m, then_m = (_to_spin(one, one.pieces.length_m) for one in (self.at.wheel, going))
        unknown = np.full(len(now_m), np.nan)
        return np.asarray(np.divide(then_m, now_m, out=unknown, where=now_m > 0))

    def _missing_g(self, more_g: np.ndarray) -> np.ndarray:
        missing_g = np.maximum(more_g - np.maximum(self.spare_g, 0.0), 0.0)
        missing_g[missing_g <= _NOTHING * self.at.wheel.pieces.mass_g.sum()] = 0.0
        return np.asarray(missing_g)

    def _grist_instead_tex(self, factors: np.ndarray, *, by_grist: bool) -> np.ndarray:
        """Return how thick each ply is spun to come to the metres wanted with its grams."""
        wheel = self.at.wheel
        to_spin_g = _to_spin(wheel, wheel.pieces.mass_g)
        tex = np.full(len(factors), np.nan)
        where = (np.abs(factors - 1) > _NOTHING) & by_grist
        wanted_m = _to_spin(wheel, wheel.pieces.length_m) * factors
        np.divide(to_spin_g * (1 - self.at.spin_loss) * 1000, wanted_m, out=tex, where=where)
        return tex


def _by_hand(factors: np.ndarray) -> bool:
    """Return whether a hand comes to these metres with the same grams, and does other than now."""
    own = factors[~np.isnan(factors)]
    in_reach = ((own >= THICKEST) & (own <= FINEST)).all()
    return bool(in_reach and (np.abs(own - 1) > _NOTHING).any())


def _to_spin(wheel: BobbinPieces, of_each: np.ndarray) -> np.ndarray:
    """Return what the pieces to spin of each ply come to, in grams or metres: (plies,)."""
    return np.bincount(wheel.pieces.ply, np.where(wheel.spun, 0.0, of_each), len(wheel.grist))


def _more_g(now: BobbinPieces, then: BobbinPieces, lots: int) -> np.ndarray:
    takes_g, took_g = (
        wheel.pieces.take(np.flatnonzero(~wheel.spun)).by_lot_g(lots) for wheel in (then, now)
    )
    more_g = takes_g - took_g
    return np.where(np.abs(more_g) > _NOTHING * (takes_g + took_g), more_g, 0.0)
