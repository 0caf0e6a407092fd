"""A plan's answer: everything that follows from it."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from yarncolor.answers import by_hand
from yarncolor.answers.closing_costs import ClosingCost, closing_costs, shifted_m
from yarncolor.answers.leftovers import Leftover, leftovers
from yarncolor.answers.runs import Runs, at_fault, runs
from yarncolor.answers.spread import Spread, spread
from yarncolor.colour.difference import Contrast, contrast, contrast_word
from yarncolor.colour.palette import DisplayColours, Palette, display_colours, palette, palette_as
from yarncolor.defaults import taken_by_blends_g
from yarncolor.layout.layout import Layout, layout, used_g
from yarncolor.layout.resolved import ResolvedPlan, resolve
from yarncolor.layout.stretches import colours_side_by_side, shares_by_colours
from yarncolor.layout.weighing import WeighGroups, weighed
from yarncolor.plan import Plan


@dataclass(frozen=True)
class Preview:
    """A plan laid out, in its colours: all that a picture needs; `laid` makes it."""

    layout: Layout
    palette: DisplayColours

    @property
    def resolved(self) -> ResolvedPlan:
        """The plan with every default settled."""
        return self.layout.resolved

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.layout.resolved.plan


@dataclass(frozen=True)
class Answer(Preview):
    """Everything that follows from a plan; `answer` makes it."""

    palette: Palette
    heaps: WeighGroups
    weigh_rest_g: np.ndarray
    words: tuple[str, ...]
    contrast: Contrast
    runs: Runs
    leftovers: tuple[Leftover, ...]
    remedies: tuple[ClosingCost, ...]

    @property
    def assumptions(self) -> tuple[str, ...]:
        """What was filled in, what a shared closing does, which colours no screen shows."""
        moved = shifted_m(self.layout)
        words = f"shared out, repeats no longer fill exactly their share: up to {moved:.1f} m off"
        beyond = [
            f"no screen shows {self.plan.names[at]}: less of its chroma stands for it"
            for at in np.flatnonzero(~self.palette.in_gamut)
        ]
        return (*self.resolved.assumptions, *([words] if moved else []), *beyond)

    @property
    def on_scale_g(self) -> np.ndarray:
        """What goes on the scale with each portion: its own mass or that of its heap, (N,)."""
        mass, heap = self.layout.portions.mass_g, self.heaps.group
        heaped = heap >= 0
        together = mass.copy()
        together[heaped] = np.bincount(heap[heaped], mass[heaped])[heap[heaped]]
        return together

    @cached_property
    def spread(self) -> Spread | None:
        """The bands of the plan's lengths and shares; None where no variation is given."""
        return spread(self.layout, self.on_scale_g)

    @property
    def shares(self) -> np.ndarray:
        """Share of the yarn's length that shows 1, 2, … colours: (plies,)."""
        along = self.layout.stretches
        return shares_by_colours(along.edges_ppb, along.lot)


def preview(plan: Plan) -> Preview:
    """Return a plan laid out, in its colours: what can be shown before anything is judged."""
    return Preview(layout(resolve(plan)), display_colours(plan.lots))


def answer(plan: Plan) -> Answer:
    """Return everything that follows from a plan.

    Parameters
    ----------
    plan : Plan
        As `read_plan` or `plan_from_data` returns it.
    """
    return answer_of(layout(resolve(plan)))


def answer_of(laid: Layout) -> Answer:
    """Return everything that follows from a plan that is laid out, such as a preview's layout."""
    filled = laid.resolved
    portions, heaps, rest = weighed(laid.portions, len(filled.plan.lots), filled.step_g)
    whole = replace(laid, portions=portions)
    its_runs = runs(whole)
    colours = palette(filled.plan.lots)
    return Answer(
        layout=whole,
        heaps=heaps,
        weigh_rest_g=rest,
        words=tuple(by_hand.hand_division(whole)),
        palette=colours,
        contrast=contrast(whole.stretches.lot, colours.between),
        runs=its_runs,
        leftovers=tuple(leftovers(whole, its_runs)),
        remedies=tuple(closing_costs(filled)) if at_fault(its_runs, whole).any() else (),
    )


def seen_as(answer: Answer, view: str, severity: float = 1.0) -> Answer:
    """Return an answer whose every picture and contrast is that of another eye.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    view : str
        As it is, lightness, protanomaly, deuteranomaly or tritanomaly.
    severity : float
        Of a colour-vision deficiency, 0 to 1.
    """
    colours = palette_as(answer.plan.lots, view, severity)
    far = contrast(answer.layout.stretches.lot, colours.between)
    return replace(answer, palette=colours, contrast=far)


def contrast_words(answer: Answer) -> list[str]:
    """Return what the marl of each stretch is called: alike, close, clear or loud."""
    far = answer.contrast
    return [contrast_word(*pair) for pair in zip(far.ciede2000, far.hyab, strict=True)]


def shares_called(answer: Answer) -> dict[str, float]:
    """Return the share of the yarn's length by what its marl is called; only what there is."""
    ticks = answer.layout.stretches.edges_ppb
    called: dict[str, int] = {}
    for word, long in zip(contrast_words(answer), np.diff(ticks).tolist(), strict=True):
        called[word] = called.get(word, 0) + long
    return {word: long / int(ticks[-1]) for word, long in called.items()}


def used_of_lots_g(answer: Answer) -> np.ndarray:
    """Return grams of each lot's own fibre that are used, in blends as well, before carding."""
    spun_g = used_g(answer.layout) / (1 - answer.resolved.card_loss)
    return spun_g + taken_by_blends_g(answer.plan)


def first_all_different_m(answer: Answer) -> float | None:
    """Return where all plies first differ, in metres of yarn; None if nowhere or with one ply."""
    along = answer.layout.stretches
    plies = along.lot.shape[1]
    all_differ = np.flatnonzero(colours_side_by_side(along.lot) == plies)
    return float(along.edges_m[all_differ[0]]) if plies > 1 and len(all_differ) else None


def check_points(answer: Answer) -> list[dict]:
    """Return every place of the yarn where a ply changes colour, to what, and how surely there."""
    along, names, bands = answer.layout.stretches, answer.plan.names, answer.spread
    stretch, ply = np.nonzero(along.lot[1:] != along.lot[:-1])
    return [
        {
            "yarn_m": float(along.edges_m[at + 1]),
            "ply": int(k) + 1,
            "from": names[along.lot[at, k]],
            "to": names[along.lot[at + 1, k]],
            "spread_m": None if bands is None else float(bands.point_sd_m[at, k]),
        }
        for at, k in zip(stretch, ply, strict=True)
    ]


def batts(answer: Answer) -> list[tuple[str, list[tuple[str, float]]]]:
    """Return the name of each lot to be carded from others, with grams of each of those."""
    carded = []
    for lot in answer.plan.lots:
        parts = lot.blend or ()
        whole = sum(part for _, part in parts)
        if parts:
            carded.append((lot.name, [(name, lot.mass_g * part / whole) for name, part in parts]))
    return carded


def missing(answer: Answer) -> list[dict]:
    """Return grams of each lot, to card, that the stash lacks for the target."""
    short = answer.layout.target_ratio - 1
    if short <= 1e-9:
        return []
    grams = used_g(answer.layout) * short / (1 - answer.resolved.card_loss)
    return [
        {"lot": answer.plan.names[lot], "mass_g": float(grams[lot])}
        for lot in np.flatnonzero(grams > 0)
    ]
