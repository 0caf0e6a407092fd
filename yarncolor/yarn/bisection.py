"""Where something turns from too little to enough: found by halving."""

from collections.abc import Callable

_HALVINGS = 60


def bisect(is_below: Callable[..., bool], low: float, high: float) -> float:
    """Return the last number, between two, that is still below; exact to what a float holds.

    Parameters
    ----------
    is_below : callable
        Whether a number is too little: true from the low end up to the turning point.
    low, high : float
        Between which it lies.
    """
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if is_below(middle) else (low, middle)
    return low
