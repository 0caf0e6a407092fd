"""Where several yarns of one stash differ most: the place at which they are worth a look."""

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from yarncolor.answers.answer import Preview

_ALIKE = 1e-9


def most_unlike_m(plans: Sequence[Preview]) -> float | None:
    """Return the metre, one for all yarns, at which they show the most fibre of other colours.

    At each metre a lot has a share of the plies; two yarns differ there by half the sum of how
    far all shares lie apart: 0 where they show the same lots, 1 where they have none in common.
    Of places at which all pairs together differ as much, the middle of the longest.

    Parameters
    ----------
    plans : sequence of Preview
        Plans laid out; their lots are told apart by name.

    Returns
    -------
    metre : float or None
        Within the shortest yarn; None where there is nothing to compare, or all are alike.
    """
    if len(plans) < 2:
        return None
    lines = [found.layout.stretches for found in plans]
    end_m = min(along.yarn_m for along in lines)
    edges_m = np.unique(np.concatenate([[0.0, end_m], *(along.edges_m for along in lines)]))
    edges_m = edges_m[edges_m <= end_m]
    middle_m = (edges_m[:-1] + edges_m[1:]) / 2
    names = list(dict.fromkeys(name for found in plans for name in found.plan.names))
    shares = [_shares(found, middle_m, names) for found in plans]
    apart = sum(np.abs(one - other).sum(axis=1) / 2 for one, other in combinations(shares, 2))
    if np.max(apart) < _ALIKE:
        return None
    most = np.asarray(apart) > np.max(apart) - _ALIKE
    return float(middle_m[np.where(most, np.diff(edges_m), -1.0).argmax()])


def _shares(found: Preview, metre: np.ndarray, names: Sequence[str]) -> np.ndarray:
    """Return the share of each name in the plies at each metre: (metres, names)."""
    along = found.layout.stretches
    at = np.clip(np.searchsorted(along.edges_m, metre, side="right") - 1, 0, len(along.lot) - 1)
    numbers = np.array([names.index(name) for name in found.plan.names])[along.lot[at]]
    one_hot: np.ndarray = (numbers[:, :, None] == np.arange(len(names))).mean(axis=1)
    return one_hot
