"""A yarn as planned, as spun and as it came out: each measure of it side by side."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from yarncolor import units
from yarncolor.answers.answer import Answer
from yarncolor.layout.layout import Layout
from yarncolor.plan import Made


@dataclass(frozen=True)
class Measure:
    """One measure of a yarn, known in up to three ways; None where it is not known.

    Parameters
    ----------
    name : str
        What is measured, with its unit: ``length_m``.
    planned : float or None
        As the plan has it.
    spun : float or None
        As it follows from what lies on the bobbins.
    made : float or None
        As the yarn came out.
    """

    name: str
    planned: float | None = None
    spun: float | None = None
    made: float | None = None

    @property
    def spun_less_planned(self) -> float | None:
        """What was spun, less the plan."""
        return _less(self.spun, self.planned)

    @property
    def made_less_planned(self) -> float | None:
        """What came out, less the plan."""
        return _less(self.made, self.planned)

    @property
    def made_less_spun(self) -> float | None:
        """What came out, less what was to be expected of what was spun."""
        return _less(self.made, self.spun)


def _less(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one - other


def measures(answer: Answer) -> tuple[Measure, ...]:
    """Return every measure of a yarn that is known in any way, in the order of a record."""
    every = (measure(name, answer) for name in MEASURES)
    return tuple(one for one in every if (one.planned, one.spun, one.made) != (None, None, None))


def measure(name: str, answer: Answer) -> Measure:
    """Return one measure of a yarn.

    Parameters
    ----------
    name : str
        One of `MEASURES`.
    answer : Answer
        What follows from a plan and from what was spun of it.
    """
    (reckoned, came_out), made = MEASURES[name], answer.plan.made
    spun = None if answer.layout.wheel is None else reckoned(answer)
    found = None if made is None else came_out(answer, made)
    return Measure(name, reckoned(answer.as_planned), spun, found)


def all_spun(answer: Answer) -> bool:
    """Return whether it is said of every row that it lies on its bobbin."""
    wheel = answer.layout.wheel
    return wheel is not None and bool(wheel.spun.all())


def shortest_single_m(laid: Layout) -> float:
    """Return the length of the shortest single, of a chain a third of its one."""
    return float(laid.portions.single_m.min()) / laid.folds


def found_contraction(laid: Layout) -> float | None:
    """Return the share of length lost in plying, as found: 1 - as plied/(shortest single)."""
    made = laid.resolved.plan.made
    if made is None or made.plied_m is None:
        return None
    return 1 - made.plied_m / shortest_single_m(laid)


def found_shrinkage(laid: Layout) -> float | None:
    """Return the share of length lost from plying to after the wash, as found."""
    made = laid.resolved.plan.made
    if made is None or made.plied_m is None or made.washed_m is None:
        return None
    return 1 - made.washed_m / made.plied_m


def _m_per_100g(made: Made) -> float | None:
    if made.plied_m is None or made.mass_g is None:
        return None
    return made.plied_m / made.mass_g * 100


def _finished_wpi(answer: Answer) -> float:
    yarn = answer.resolved.yarn
    return yarn.wpi(answer.layout.yarn_tex / yarn.finishing_ratio)


def _shrinks(answer: Answer) -> float | None:
    if answer.plan.fabric.finishing_shrinkage is None:
        return None
    return 1 - answer.resolved.yarn.finishing_ratio


_Reckoned = Callable[[Answer], float | None]
_Found = Callable[[Answer, Made], float | None]
MEASURES: dict[str, tuple[_Reckoned, _Found]] = {
    "length_m": (lambda found: found.lengths.plied_m, lambda _, made: made.plied_m),
    "finished_length_m": (lambda found: found.lengths.finished_m, lambda _, made: made.washed_m),
    "mass_g": (lambda found: float(found.layout.yarn_g), lambda _, made: made.mass_g),
    "m_per_100g": (
        lambda found: float(units.m_per_100g(found.layout.yarn_tex)),
        lambda _, made: _m_per_100g(made),
    ),
    "wpi": (_finished_wpi, lambda _, made: made.wpi),
    "skeins": (lambda found: float(len(found.skeins)), lambda _, made: made.skeins),
    "hours_spinning": (lambda found: found.hours.spinning_h, lambda _, made: made.hours_spinning),
    "hours_plying": (lambda found: found.hours.plying_h, lambda _, made: made.hours_plying),
    "lost_in_plying": (
        lambda found: found.resolved.contraction,
        lambda found, _: found_contraction(found.layout),
    ),
    "lost_in_wash": (_shrinks, lambda found, _: found_shrinkage(found.layout)),
    "matched": (lambda found: float(found.shares[0]), lambda *_: None),
}
"""How each measure is reckoned from a plan, and found of the yarn that was made."""


def left_over_g(answer: Answer) -> Iterator[tuple[int, int | None, float]]:
    """Yield what was left over: lot, ply that it lies on (None: in the drawer), grams."""
    totals: dict[tuple[int, int | None], float] = {}
    for left in answer.leftovers:
        at = (left.lot, None if left.on_bobbin is None else left.on_bobbin.ply)
        totals[at] = totals.get(at, 0.0) + left.mass_g
    yield from ((lot, ply, mass_g) for (lot, ply), mass_g in totals.items())
