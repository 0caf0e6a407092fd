"""Sliders for mixtures: ratio, fibre constant, exhaustion, distance and twist."""

from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as w
import numpy as np

from yarncolor.baths import fitted_exhaustion
from yarncolor.mixing import MODELS, STEARNS_NOECHEL_M
from yarncolor.mixtures import (
    Model,
    Pair,
    marl_png,
    marl_words,
    mixtures,
    mixtures_html,
    steps_html,
)
from yarncolor.palettes import palette
from yarncolor.plan import Lot
from yarncolor.planfile import read_plan

_NONE = "none yet"
_LABEL = {"description_width": "14em"}
_WIDE = w.Layout(width="38em")


def mixing_bench(plan_file: str | Path) -> "MixingBench":
    """Return a bench on which two lots of a plan are carded, plied and dyed again.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is not changed.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return MixingBench(read_plan(plan_file).lots)


class MixingBench(w.VBox):
    """Choosers and sliders round two lots.

    Parameters
    ----------
    lots : tuple of Lot
        All lots of a plan.
    """

    def __init__(self, lots: tuple[Lot, ...]) -> None:
        names = [lot.name for lot in lots]
        self._lab = dict(zip(names, palette(lots).lab, strict=True))
        light = np.array([self._lab[name][0] for name in names])
        self.controls = {
            "one": _chooser("first lot", names, names[int(light.argmax())]),
            "other": _chooser("second lot", names, names[int(light.argmin())]),
            "share": _slider("share of the second lot", 0.5, (0.0, 1.0, 0.05)),
            "model": _chooser("model of the blend", list(MODELS), "stearns-noechel"),
            "m": _slider("fibre constant M", STEARNS_NOECHEL_M, (0.05, 0.4, 0.01)),
            "own_bath": _chooser("my own second bath", [_NONE, *names], _NONE),
            "exhaustion": _slider("dye taken by a bath", 0.7, (0.05, 0.95, 0.05)),
            "distance": _slider("distance in m", 0.5, (0.0, 12.0, 0.1)),
            "period": _slider("one turn of ply twist in mm", 6.0, (1.0, 20.0, 0.5)),
        }
        self.swatches, self.steps, self.words = (w.HTML() for _ in range(3))
        self.marl = w.Image(format="png", layout=w.Layout(width="640px", height="120px"))
        for control in self.controls.values():
            control.observe(self._on_change, "value")
        super().__init__(
            [*self.controls.values(), self.swatches, self.marl, self.words, self.steps]
        )
        self._on_change({"owner": None})

    def __repr__(self) -> str:
        return "A bench to mix two lots by carding, plying and dyeing; it needs a live notebook."

    def _on_change(self, change: dict[str, Any]) -> None:
        value = {name: control.value for name, control in self.controls.items()}
        pair = self._pair(value)
        if change["owner"] is self.controls["own_bath"] and value["own_bath"] != _NONE:
            self._fit(pair, value["own_bath"])
            return
        self.controls["m"].disabled = value["model"] != "stearns-noechel"
        model = Model(value["model"], None if self.controls["m"].disabled else value["m"])
        made = mixtures(pair, value["share"], value["exhaustion"], model)
        self.swatches.value = mixtures_html(pair, made)
        self.marl.value = marl_png(pair, value["period"], value["distance"])
        self._say(marl_words(pair, value["period"]))
        if change["owner"] in (None, self.controls["one"], self.controls["other"]):
            self.steps.value = steps_html(pair)

    def _pair(self, value: dict[str, Any]) -> Pair:
        names = (value["one"], value["other"])
        return Pair(names, np.array([self._lab[name] for name in names]))

    def _fit(self, pair: Pair, second: str) -> None:
        """Set the exhaustion to what a second bath of one's own shows, or say why it shows none."""
        dark, light = pair.lab[pair.by_lightness]
        try:
            exhaustion = fitted_exhaustion(dark, self._lab[second], light)
        except ValueError as error:
            self._say(f"{second} fits no bath of this pair: {error}")
        else:
            self.controls["exhaustion"].value = exhaustion

    def _say(self, words: str) -> None:
        self.words.value = f'<p role="status" aria-live="polite">{escape(words)}</p>'


def _chooser(words: str, names: list[str], value: str) -> w.Dropdown:
    return w.Dropdown(description=words, options=names, value=value, style=_LABEL, layout=_WIDE)


def _slider(words: str, value: float, span: tuple[float, float, float]) -> w.FloatSlider:
    low, high, step = span
    return w.FloatSlider(
        description=words, value=value, min=low, max=high, step=step, style=_LABEL, layout=_WIDE
    )
