"""Invented plans of any size, and what comes off their bobbins."""

from collections.abc import Sequence

import numpy as np

from yarncolor import answer, plan_from_data
from yarncolor.answers.answer import Answer
from yarncolor.layout.winding import Strands

EIGHT_LOTS = ("Kelp", "Foam", "Samphire", "Mussel", "Sea Thrift", "Wet Sand", "Gorse", "Slate")
COLOURS = (
    *("#56612d", "#e9e2d5", "#7fa65a", "#2b2f4c"),
    *("#d9829b", "#b89f7b", "#e0b020", "#4a5866"),
)
ONE_TWO_FOUR = (1, 2, 4)


def fractal_of(names: Sequence[str] = EIGHT_LOTS, divisions: Sequence[int] = ONE_TWO_FOUR) -> dict:
    """Return a plan's data: lots of unequal masses, some turns of the sequence on each ply."""
    mass = np.random.default_rng(len(names)).uniform(20, 30, len(names)).round(1).tolist()
    lots = [
        {"name": name, "colour": COLOURS[at % len(COLOURS)], "mass_g": mass[at]}
        for at, name in enumerate(names)
    ]
    return {"lots": lots, "scheme": {"name": "fractal", "divisions": list(divisions)}}


def answered(data: dict) -> Answer:
    return answer(plan_from_data(data))


def strands_of(lots: int, repeats: Sequence[int], variants: tuple[int, ...] = ()) -> Strands:
    """Return strands of so many lots, each ply with its repeats; unequal, in random orders.

    Every ply has the same order, and all plies are equally long but for a few parts in a
    thousand. With variants, each has its own order and its own lengths.
    """
    rng = np.random.default_rng(lots * 1000 + sum(repeats))
    starts = np.cumsum([0] + [lots * n for n in repeats])
    order = np.argsort(rng.random((*variants, lots)), axis=-1)
    lot = np.concatenate([np.tile(order, n) for n in repeats], axis=-1)
    length = np.concatenate([np.full(lots * n, 600 / (lots * n)) for n in repeats]) * rng.uniform(
        0.7, 1.3, (*variants, starts[-1])
    )
    return Strands(starts, length, lot)
