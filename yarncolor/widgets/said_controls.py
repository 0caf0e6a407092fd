"""Sliders and fields of a bench in the units of its plan; what they say is kept in metric."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, floor, isclose, log10
from typing import Any

from yarncolor.measures import METRIC, Measure, Measures

_NEAR = 1e-6
_DECIMALS = 2
"""Of a number that stands in a field, where another unit makes many of them."""


@dataclass(frozen=True)
class _Span:
    low: float
    high: float
    step: float
    readout: str


class SaidControls:
    """Controls of which some say a mass or a length.

    Parameters
    ----------
    controls : mapping of str to widget
        Of a bench, by key, in metric units.
    measures : mapping of str to str
        Which of `Measures` each is said in that says one.
    words : mapping of str to str
        What stands before each of those, with ``{unit}`` in the place of its unit.
    """

    def __init__(
        self, controls: Mapping[str, Any], measures: Mapping[str, str], words: Mapping[str, str]
    ) -> None:
        self._controls, self._measures, self._words = controls, measures, words
        self._say = METRIC
        self._spans = {key: _span(controls[key]) for key in measures}

    def follow(self, say: Measures) -> None:
        """Say everything in the units of a plan; what is chosen stays what it is.

        Parameters
        ----------
        say : Measures
            What the plan is said in.
        """
        if say is self._say:
            return
        chosen = {key: self.value(key) for key in self._measures}
        self._say = say
        for key, value in chosen.items():
            self._span(key, value)
            self._name(key)

    def value(self, key: str) -> Any:
        """Return what a control is set to, in metric units."""
        value = self._controls[key].value
        return value if self._is_metric(key) else value * self._measure(key).size

    def values(self) -> dict[str, Any]:
        """Return what every control is set to, by key, in metric units."""
        return {key: self.value(key) for key in self._controls}

    def shown(self, key: str, value: Any) -> Any:
        """Return a value as its control has it.

        Parameters
        ----------
        key : str
            Of a control.
        value : any
            In metric units.
        """
        return value if self._is_metric(key) else self._measure(key).of(value)

    def is_at(self, key: str, value: Any) -> bool:
        """Return whether a control is set to a value.

        Parameters
        ----------
        key : str
            Of a control.
        value : any
            In metric units.
        """
        if self._is_metric(key):
            return bool(self.value(key) == value)
        return isclose(self.value(key), value, rel_tol=_NEAR, abs_tol=_NEAR)

    def reach(self, key: str, low: float, high: float) -> None:
        """Let a slider reach at least from one value to another.

        Parameters
        ----------
        key : str
            Of a slider.
        low, high : float
            In metric units.
        """
        control = self._controls[key]
        control.max = max(control.max, self.shown(key, high))
        control.min = min(control.min, self.shown(key, low))

    def _measure(self, key: str) -> Measure:
        measure: Measure = getattr(self._say, self._measures[key])
        return measure

    def _is_metric(self, key: str) -> bool:
        return key not in self._measures or self._say is METRIC

    def _span(self, key: str, value: float) -> None:
        control, own = self._controls[key], self._spans[key]
        low, high = self.shown(key, own.low), self.shown(key, own.high)
        step = own.step
        if not self._is_metric(key):
            step = _round_step(self.shown(key, own.step))
            low, high = floor(low / step) * step, ceil(high / step) * step
        at = self.shown(key, value) if own.readout else round(self.shown(key, value), _DECIMALS)
        with control.hold_trait_notifications():
            control.min, control.max = min(low, at), max(high, at)
            control.value, control.step = at, step
        if own.readout:
            control.readout_format = own.readout if self._is_metric(key) else _readout(step)

    def _name(self, key: str) -> None:
        control = self._controls[key]
        control.words = self._words[key].replace("{unit}", self._measure(key).unit)
        control.description = control.words


def _span(control: Any) -> _Span:
    readout = getattr(control, "readout_format", "")
    return _Span(control.min, control.max, control.step, readout)


def _round_step(step: float) -> float:
    """Return the longest step as a ruler has it, 1, 2 or 5 of a power of ten, that is no longer."""
    power = 10.0 ** floor(log10(step))
    return max(one for one in (1, 2, 5) if one * power <= step) * power


def _readout(step: float) -> str:
    return f".{max(0, -floor(log10(step) + _NEAR))}f"
