"""The craft's classes of yarn by their plain names, as far as charts agree.

Charts overlap, leave gaps, and differ by up to half in metres: gauge tells best, wraps second.

References
----------
.. [1] Craft Yarn Council, Standard Yarn Weight System: stitches in 4 inches of stocking stitch
   and wraps to the inch, as reproduced.
.. [2] A spinning magazine's chart of yd/lb and wraps, and another chart of m in 100 g, as
   reproduced. Common practice.
"""

from dataclasses import dataclass

NAMES = ("lace", "super fine", "fine", "light", "medium", "bulky", "super bulky", "jumbo")
_ENDLESS = float("inf")

GAUGE = ((33, 40), (27, 32), (23, 26), (21, 24), (16, 20), (12, 15), (7, 11), (0, 6))
"""Stitches in 4 inches (10 cm) of each class [1]_."""

WRAPS = ((30, _ENDLESS), (14, 30), (12, 18), (11, 15), (9, 12), (6, 9), (5, 6), (1, 4))
"""Wraps to the inch [1]_."""

METRES = (
    (484, _ENDLESS),
    (383, 484),
    (242, 383),
    (182, 242),
    (121, 182),
    (81, 121),
    (0, 81),
)
"""Metres in 100 g [2]_; no jumbo there."""

OTHER_METRES = (
    (600, 800),
    (400, 480),
    (300, 400),
    (240, 300),
    (120, 240),
    (100, 130),
    (0, 100),
)
"""Metres in 100 g by another chart [2]_."""


@dataclass(frozen=True)
class WeightClass:
    """What charts call a yarn.

    Parameters
    ----------
    name : str
        One class, or two with "between" where charts disagree: the narrowest span in which
        each of them finds one of its own.
    by : dict of str to tuple of str
        The classes that each measure allows.
    agreed : bool
        Whether one class is allowed by all of them.
    """

    name: str
    by: dict[str, tuple[str, ...]]
    agreed: bool


def classes_at(value: float, chart: tuple[tuple[float, float], ...]) -> tuple[str, ...]:
    """Return every class of a chart that holds a value; the nearest one where none does.

    Parameters
    ----------
    value : float
        In the measure of the chart.
    chart : tuple of (float, float)
        Least and most of each class, in the order of `NAMES`.
    """
    held = [NAMES[at] for at, (low, high) in enumerate(chart) if low <= value <= high]
    if held:
        return tuple(held)
    away = [max(low - value, value - high) for low, high in chart]
    return (NAMES[away.index(min(away))],)


def weight_class(wpi: float, m_per_100g: float, gauge: float | None = None) -> WeightClass:
    """Return what charts call a yarn, and whether they agree.

    Parameters
    ----------
    wpi : float
        Wraps to the inch, loosely wrapped as knitters do.
    m_per_100g : float
        Metres in 100 g.
    gauge : float, optional
        Stitches in 10 cm of stocking stitch, which tells best.
    """
    by = {
        "wraps": classes_at(wpi, WRAPS),
        "metres": classes_at(m_per_100g, METRES),
        "other metres": classes_at(m_per_100g, OTHER_METRES),
    }
    if gauge is not None:
        by = {"gauge": classes_at(gauge, GAUGE), **by}
    first, last = min(_spans(by), key=lambda span: span[1] - span[0])
    if first == last:
        return WeightClass(NAMES[first], by, True)
    return WeightClass(f"between {NAMES[first]} and {NAMES[last]}", by, False)


def _spans(by: dict[str, tuple[str, ...]]) -> list[tuple[int, int]]:
    """Return every span of classes in which each measure finds one of its own."""
    count = len(NAMES)
    return [
        (first, last)
        for first in range(count)
        for last in range(first, count)
        if all(any(first <= NAMES.index(name) <= last for name in names) for names in by.values())
    ]
