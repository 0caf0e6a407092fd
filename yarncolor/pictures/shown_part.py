"""Which part of a yarn a picture shows, and which lots are seen in it."""

import numpy as np

from yarncolor.answers.answer import Answer, Preview
from yarncolor.layout.stretches import Stretches, colours_side_by_side
from yarncolor.measures import Measure
from yarncolor.pictures.appearance import colour_at
from yarncolor.pictures.scene import Scene

_NEAR_M = 0.05
"""What is not told apart where metres are said with one decimal."""


def opening_m(along: Stretches, length_mm: float) -> float:
    """Return the metre at which a length of yarn is first shown: where most colours meet.

    It is the middle of the first stretch that shows the most colours, or as near to it as leaves
    room for the length before the yarn ends.

    Parameters
    ----------
    along : Stretches
        Of one yarn.
    length_mm : float
        Length of yarn that is shown, 0 or more.
    """
    at = int(colours_side_by_side(along.lot).argmax())
    return min(float(along.edges_m[at : at + 2].mean()), last_m(along, length_mm))


def last_m(along: Stretches, length_mm: float) -> float:
    """Return the last metre from which so much of a yarn can be shown; 0 for a shorter yarn.

    Parameters
    ----------
    along : Stretches
        Of one yarn.
    length_mm : float
        Length of yarn that is shown, 0 or more.
    """
    return max(along.yarn_m - length_mm / 1000, 0.0)


def part_words(reach_m: tuple[float, float], yarn_m: float, length: Measure) -> str:
    """Return a part of a yarn in words: ``the whole yarn``, ``from 120 m to 135 m of the yarn``.

    Parameters
    ----------
    reach_m : (float, float)
        Where it begins and ends, from the start of plying.
    yarn_m : float
        Length of the yarn.
    length : Measure
        What lengths are said in.
    """
    begin, end = (f"{round(length.of(metre), 1):g} {length.unit}" for metre in reach_m)
    begins, ends = reach_m[0] < _NEAR_M, reach_m[1] > yarn_m - _NEAR_M
    if begins and ends:
        return "the whole yarn"
    if begins:
        return f"the first {end} of the yarn"
    return (
        f"the yarn from {begin} to its end, {end}" if ends else f"from {begin} to {end} of the yarn"
    )


def lots_between(preview: Preview, from_m: float, to_m: float) -> tuple[int, ...]:
    """Return the lots between two metres of yarn, in the order in which they appear.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    from_m, to_m : float
        From the start of plying.
    """
    along = preview.layout.stretches
    seen = (along.edges_m[:-1] < to_m + 1e-9) & (along.edges_m[1:] > from_m - 1e-9)
    return tuple(dict.fromkeys(along.lot[seen].ravel().tolist()))


def lots_seen(answer: Answer, scene: Scene) -> tuple[int, ...]:
    """Return the lots of a scene's places, in the order in which they appear along the yarn.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    scene : Scene
        What is drawn.
    """
    order = np.argsort(scene.metre, kind="stable")
    there = order[~np.isnan(scene.metre[order])]
    shown = colour_at(
        answer.layout.stretches, scene.ply[there], scene.metre[there], staple_m=0.0, seed=0
    )
    return tuple(dict.fromkeys(shown.one.tolist()))
