"""When a single runs out: the yarns that can still be made, as yarns, with what each takes."""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.layout.layout import Layout, left_g
from yarncolor.layout.pieces_changed import tex_to_spin
from yarncolor.layout.rescues import Rescue, RunOut, rescues
from yarncolor.layout.rest import off_each
from yarncolor.layout.stretches import Stretches, stretches
from yarncolor.yarn.structure import YarnStructure

WORTH_A_RESCUE = 0.005
"""More than this part of the yarn is left on a bobbin before anything is offered for it."""

_NOTHING_G = 1e-9


@dataclass(frozen=True)
class OnPly:
    """Grams of a lot for a ply, or on its bobbin, as weighed out; ply and lot from 0."""

    ply: int
    lot: int
    mass_g: float


@dataclass(frozen=True, eq=False)
class RescuedYarn:
    """A yarn that can still be made where a single ran out.

    Parameters
    ----------
    out : RunOut
        What every single has left there.
    rescue : Rescue
        What the hands plied.
    along : Stretches or None
        Of that yarn, from where it begins; None where nothing is plied.
    yarn : YarnStructure
        How it is built: as the yarn that it continues, but for its plies.
    over : tuple of OnPly
        What is still left on the bobbins.
    needs : tuple of OnPly
        Fibre to spin for it.
    counts_as : (plies,) array
        How long a metre of each single counts in the yarn, where not all lose the same in plying.
    """

    out: RunOut
    rescue: Rescue
    along: Stretches | None
    yarn: YarnStructure
    over: tuple[OnPly, ...]
    needs: tuple[OnPly, ...]
    counts_as: np.ndarray

    @property
    def left_m(self) -> np.ndarray:
        """Metres that each single has left on its bobbin: (plies,)."""
        return np.asarray(self.out.left_m / self.counts_as)

    @property
    def kind(self) -> str:
        """What it is called among `layout.rescues.KINDS`."""
        return self.rescue.kind

    @property
    def extra_m(self) -> float:
        """Metres of yarn."""
        return 0.0 if self.along is None else self.along.yarn_m

    @property
    def plies(self) -> int:
        """How many plies it has; 0 where nothing is plied."""
        return len(self.rescue.plies)

    @property
    def is_as_many(self) -> bool:
        """Whether it has as many plies as the yarn that it continues."""
        return self.plies == len(self.out.singles)


def rescued_yarns(answer: Answer) -> tuple[RescuedYarn, ...]:
    """Return every yarn that can still be made at the yarn's end; none where nothing is left.

    Parameters
    ----------
    answer : Answer
        To a plan, whatever is spun or plied of it.
    """
    out = run_out(answer.layout)
    least_m = WORTH_A_RESCUE * out.used_m
    if len(out.singles) == 1 or not (out.left_m > least_m).any():
        return ()
    return tuple(_rescued(answer.layout, out, one) for one in rescues(out))


def run_out(laid: Layout) -> RunOut:
    """Return what every single of a plan has left where the first of them runs out."""
    resolved = laid.resolved
    tex = resolved.tex if laid.wheel is None else tex_to_spin(laid.wheel)
    spare_g = left_g(laid) * (1 - resolved.spin_loss)
    share = _as_in_the_yarn(laid)
    singles = off_each(laid.portions, resolved.wound_off)
    scaled = tuple(one.scaled(by) for one, by in zip(singles, share.tolist(), strict=True))
    return RunOut(scaled, spare_g, tex / share, resolved.scheme.loop_m)


def _as_in_the_yarn(laid: Layout) -> np.ndarray:
    """Return how long a metre of each single counts, where each loses its own length in plying."""
    share = laid.resolved.as_in_the_yarn
    return np.ones(len(laid.resolved.tex)) if share is None else share


def _rescued(laid: Layout, out: RunOut, one: Rescue) -> RescuedYarn:
    contraction, kept = laid.resolved.contraction, 1 - laid.resolved.spin_loss
    needs = [
        OnPly(ply, lot, spun_m * float(out.tex[ply]) / 1000 / kept)
        for (ply, lot), spun_m in one.spins_m.items()
    ]
    return RescuedYarn(
        out=out,
        rescue=one,
        along=None if one.strands is None else stretches(one.strands, contraction),
        yarn=_yarn_of(laid.resolved.yarn, out, _as_in_the_yarn(laid), one.plies),
        over=tuple(_over(out, one, kept)),
        needs=tuple(needs),
        counts_as=_as_in_the_yarn(laid),
    )


def _over(out: RunOut, one: Rescue, kept: float) -> list[OnPly]:
    """Return what is left, lot by lot on each ply, in grams as they were weighed out."""
    lots = len(out.spare_g)
    by_ply_g = {
        ply: np.sum([rest.by_lot_g(lots) for rest in rests], axis=0) / kept
        for ply, rests in one.over.items()
    }
    return [
        OnPly(ply, int(lot), float(mass_g[lot]))
        for ply, mass_g in sorted(by_ply_g.items())
        for lot in np.flatnonzero(mass_g > _NOTHING_G)
    ]


def _yarn_of(
    yarn: YarnStructure, out: RunOut, counts_as: np.ndarray, plies: tuple[int, ...]
) -> YarnStructure:
    """Return the yarn of some plies, at the same angle as the yarn that they come from."""
    own = list(dict.fromkeys(plies))
    if not own or own == list(range(len(out.singles))):
        return yarn
    made = replace(
        yarn,
        plies=len(plies),
        tex=np.array([_mean_tex(out, counts_as, ply) for ply in own]),
        strands=yarn.strands[own],
        twist_tpm=None if yarn.twist_tpm is None else yarn.twist_tpm[own],
        directions=tuple(yarn.directions[ply] for ply in own),
    )
    if yarn.ply_twist_tpm is None:
        return made
    as_thick = yarn.ply_helix_radius_mm / made.ply_helix_radius_mm
    return replace(made, ply_twist_tpm=yarn.ply_twist_tpm * as_thick)


def _mean_tex(out: RunOut, counts_as: np.ndarray, ply: int) -> float:
    left = out.left[ply]
    return float((left.length_m * left.tex).sum() / left.single_m * counts_as[ply])


def as_answer(answer: Answer, one: RescuedYarn) -> Answer:
    """Return a rescued yarn as what pictures ask of: its stretches, built as it is.

    Parameters
    ----------
    answer : Answer
        To the plan that it is of.
    one : RescuedYarn
        Of which something is plied.
    """
    if one.along is None:
        return answer
    resolved = replace(answer.layout.resolved, yarn=one.yarn)
    return replace(answer, layout=replace(answer.layout, resolved=resolved, stretches=one.along))
