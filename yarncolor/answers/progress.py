"""How far the spinning has come: what is spun, what is next, and which row a weight tells."""

from dataclasses import dataclass
from math import sqrt

from yarncolor.answers.answer import Answer
from yarncolor.answers.on_the_scale import net_g
from yarncolor.layout.bobbin_pieces import BobbinPieces

SURE, LIKELY, OPEN = "sure", "likely", "open"
_TWICE = 2.0


@dataclass(frozen=True)
class PlyProgress:
    """How far one ply has come.

    Parameters
    ----------
    ply : int
        From 0.
    pieces : int
        On its bobbin.
    spun_g, spun_m : float
        Grams as weighed out, and metres of single, of those.
    next_at : int or None
        The portion that is next, an index into the plan's portions; None where all is spun.
    next_gross_g : float or None
        What its bobbin should weigh after that one; None where the empty one is not known.
    """

    ply: int
    pieces: int
    spun_g: float
    spun_m: float
    next_at: int | None
    next_gross_g: float | None


@dataclass(frozen=True)
class Progress:
    """How far a plan has come.

    Parameters
    ----------
    share : float
        Grams spun over grams in all.
    left_h : float or None
        Spinning that is left; None where it is not known how long that takes.
    plies : tuple of PlyProgress
        Each ply.
    """

    share: float
    left_h: float | None
    plies: tuple[PlyProgress, ...]


@dataclass(frozen=True)
class RowReached:
    """The row at whose end a bobbin weighs most nearly what the scale shows.

    Parameters
    ----------
    at : int
        Its portion, an index into the plan's portions.
    off_g : float
        What the scale shows less what is expected there.
    next_at : int or None
        The portion that comes next to it by weight; None where that is the empty bobbin.
    next_off_g : float
        The same of that one.
    doubt_g : float
        By how much the scale and the spinner's unevenness let a weight stray there.
    """

    at: int
    off_g: float
    next_at: int | None
    next_off_g: float
    doubt_g: float

    @property
    def how_sure(self) -> str:
        """Sure, where it alone weighs so; likely, where it is nearer by far; else open."""
        off_g, next_off_g = abs(self.off_g), abs(self.next_off_g)
        if off_g <= self.doubt_g and next_off_g > _TWICE * self.doubt_g:
            return SURE
        return LIKELY if _TWICE * max(off_g, self.doubt_g) < next_off_g else OPEN


def progress(answer: Answer) -> Progress | None:
    """Return how far a plan has come; None where nothing is said of spinning."""
    wheel = answer.layout.wheel
    if wheel is None or not answer.plan.spun:
        return None
    mass_g, takes_h = wheel.pieces.mass_g, answer.hours.portion_h
    return Progress(
        share=float(mass_g[wheel.spun].sum() / mass_g.sum()),
        left_h=None if takes_h is None else float(takes_h[~wheel.spun].sum()),
        plies=tuple(_of_ply(answer, wheel, ply) for ply in range(len(wheel.grist))),
    )


def _of_ply(answer: Answer, wheel: BobbinPieces, ply: int) -> PlyProgress:
    spun, next_at = wheel.spun_at(ply), wheel.next_at(ply)
    return PlyProgress(
        ply=ply,
        pieces=len(spun),
        spun_g=float(wheel.pieces.mass_g[spun].sum()),
        spun_m=float(wheel.pieces.length_m[spun].sum()),
        next_at=next_at,
        next_gross_g=None if next_at is None else gross_after_g(answer, next_at),
    )


def gross_after_g(answer: Answer, portion: int) -> float | None:
    """Return what a bobbin should weigh after a portion; None where the empty one is not known.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    portion : int
        Index into the plan's portions.
    """
    empty_g = answer.on_bobbins.in_use[portion].tare_g
    return None if empty_g is None else float(empty_g + answer.on_bobbins.after_each_g[portion])


def row_reached(answer: Answer, ply: int, gross_g: float, order: int = 1) -> RowReached | None:
    """Return the row at whose end a bobbin weighs most nearly what the scale shows.

    None where the empty bobbin is not known, or nothing of the ply ends on that bobbin.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    ply : int
        From 0.
    gross_g : float
        Bobbin and single on the scale.
    order : int
        Which bobbin of that ply, from 1.
    """
    own, used = answer.layout.portions.of_ply(ply), answer.on_bobbins.in_use
    ends = [at for at in range(own.start, own.stop) if used[at].order == order]
    if not ends or used[ends[0]].tare_g is None:
        return None
    places: list[tuple[int | None, float]] = [(None, used[ends[0]].tare_g or 0.0)]
    places += [(at, gross_after_g(answer, at) or 0.0) for at in ends]
    near = sorted(((at, gross_g - there_g) for at, there_g in places), key=lambda one: abs(one[1]))
    nearest, off_g = next((at, off_g) for at, off_g in near if at is not None)
    next_at, next_off_g = next((at, off_g) for at, off_g in near if at != nearest)
    doubt_g = _doubt_g(answer, nearest, ends.index(nearest) + 1)
    return RowReached(nearest, off_g, next_at, next_off_g, doubt_g)


def _doubt_g(answer: Answer, portion: int, weighings: int) -> float:
    """Return how far a weight may stray after so many weighings, and by one row's unevenness."""
    step_g = answer.resolved.step_g / sqrt(12)
    own_g = net_g(answer.layout, answer.put_g)[portion]
    uneven_g = (answer.plan.spinning.variation or 0.0) * float(own_g)
    return _TWICE * sqrt(step_g**2 * (weighings + 1) + uneven_g**2)
