"""Where a strand of the plied yarn changes its colour, from the start of plying."""

import numpy as np

from yarncolor.answers.answer import Answer


def colour_changes(answer: Answer) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return metres along the yarn, (n,), and the lots before and after there, (n, strands).

    In a chain it is the joins of its one single, at a third of their way: the loop that holds
    a join smears it, by at most a third of the loop to either side.
    """
    if answer.resolved.is_chain:
        return _joins(answer)
    along = answer.layout.stretches
    return _where_any(along.edges_m[1:-1], along.lot[:-1], along.lot[1:])


def _where_any(
    at_m: np.ndarray, before: np.ndarray, after: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the places where a lot changes: where a copy ends none need."""
    changes = (before != after).any(axis=1)
    return at_m[changes], before[changes], after[changes]


def _joins(answer: Answer) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    single_m, lot = answer.layout.portions.single_m[0], answer.runs.lot
    share = answer.runs.end_m[:-1] / single_m
    if answer.resolved.wound_off[0] % 2 == 0:
        share, lot = 1 - share[::-1], lot[::-1]
    at_m = share * answer.layout.stretches.yarn_m
    return _where_any(at_m, lot[:-1, None], lot[1:, None])
