"""Two lots and how much of each, under the fingers: carded, plied side by side, dyed paler."""

from fractions import Fraction
from pathlib import Path
from typing import Any

import ipywidgets as w
import numpy as np

from yarncolor.colour.carding import STEARNS_NOECHEL_M
from yarncolor.colour.dye_depth import fitted_exhaustion
from yarncolor.colour.mixtures import Model, Pair, Recipe
from yarncolor.colour.palette import palette
from yarncolor.editing.editor import Editor
from yarncolor.report.show.mixtures import mixtures_html, steps_html, turn_of
from yarncolor.widgets.choosing import Quiet
from yarncolor.widgets.parts import EditorView, Folded, in_rows, label, status

_NONE = "none yet"
_MOST_PARTS = 100
_MODELS = (
    ("as wool was measured (Stearns and Noechel)", "stearns-noechel"),
    ("another way for wool (Friele)", "friele"),
    ("plain mean, fibres that shade nothing", "linear"),
)
_AMOUNTS = ("one", "parts_one", "other", "parts_other", "share_percent")
_MARL = ("distance_m", "turn_mm")
_FINER = ("exhaustion_percent", "own_bath", "model", "m")
_CLOSE = "line-height:1.4;margin:.3em 0;max-width:60em"
_EXPLAINED = (
    "A bath gives most of its dye to the first fibre; what it keeps dyes the second, paler. If you "
    "have dyed a second bath of this pair yourself, choose it, and the per cent are found from it. "
    "How carding is reckoned matters to the batt alone; M is 0.15 for worsted wool, more where "
    "fibres shade one another more."
)


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
    return MixingBench(Editor.opened(plan_file))


class MixingBench(EditorView):
    """Choosers and sliders round two lots.

    Parameters
    ----------
    editor : Editor
        The plan whose lots are mixed; it is not changed.
    """

    def __init__(self, editor: Editor) -> None:
        self._quiet, self.controls = Quiet(), _controls()
        self.pictures, self.steps, self.words, self.turn_words = (
            w.HTML(layout=w.Layout(width="100%")) for _ in range(4)
        )
        explained = w.HTML(f'<p style="{_CLOSE}">{_EXPLAINED}</p>', layout=w.Layout(width="100%"))
        self.finer = Folded("finer settings", [in_rows(self._named(_FINER)), explained])
        for key, control in self.controls.items():
            control.observe(lambda _, key=key: self._on_change(key), "value")
        super().__init__(
            editor,
            [
                in_rows(self._named(_AMOUNTS)),
                self.words,
                self.pictures,
                in_rows(self._named(_MARL)),
                self.turn_words,
                self.finer,
                self.steps,
            ],
        )
        self._own_turn_mm = 0.0
        self.render()

    def __repr__(self) -> str:
        return "A bench to mix two lots by carding, plying and dyeing; it needs a live notebook."

    @property
    def pair(self) -> Pair:
        """The two lots that are chosen."""
        names = (self.controls["one"].value, self.controls["other"].value)
        return Pair(names, np.array([self._lab[name] for name in names]))

    @property
    def recipe(self) -> Recipe:
        """How they are mixed, as the controls stand."""
        value = {key: control.value for key, control in self.controls.items()}
        own_constant = value["model"] == "stearns-noechel"
        return Recipe(
            parts=(value["parts_one"], value["parts_other"]),
            exhaustion=value["exhaustion_percent"] / 100,
            turn_mm=value["turn_mm"],
            distance_m=value["distance_m"],
            model=Model(value["model"], value["m"] if own_constant else None),
        )

    def render(self) -> None:
        """Take lots and ply twist of the plan; what was chosen stays where it still can."""
        plan = self.editor.plan
        self._lab = dict(zip(plan.names, palette(plan.lots).lab, strict=True))
        with self._quiet:
            self._take_names(plan.names)
            self._take_turn()
        self._on_change("one")

    def _take_names(self, names: tuple[str, ...]) -> None:
        light = np.array([self._lab[name][0] for name in names])
        usual = {"one": names[int(light.argmax())], "other": names[int(light.argmin())]}
        for key, name in {**usual, "own_bath": _NONE}.items():
            control = self.controls[key]
            chosen, options = control.value, [*([_NONE] if key == "own_bath" else []), *names]
            control.options = options
            control.value = chosen if chosen in options else name

    def _take_turn(self) -> None:
        """Let the turn be the plan's, unless a finger has set another."""
        self._turn, slider = turn_of(self.editor.resolved.yarn), self.controls["turn_mm"]
        own_mm = round(self._turn.mm, 1)
        if slider.value == self._own_turn_mm or not self._own_turn_mm:
            slider.max = max(slider.max, own_mm)
            slider.min = min(slider.min, own_mm)
            slider.value = own_mm
        self._own_turn_mm = own_mm

    def _on_change(self, key: str) -> None:
        if self._quiet:
            return
        with self._quiet:
            fitted = self._fitted(key)
        if fitted:
            self._say(fitted)
        elif not any(self.recipe.parts):
            self._say("Give at least one part of one lot.")
        else:
            self._show(key)

    def _fitted(self, key: str) -> str:
        """Fit other controls to the one that was changed; return why where that cannot be."""
        controls = self.controls
        if key.startswith("parts") and any(self.recipe.parts):
            controls["share_percent"].value = round(100 * self.recipe.shares[1])
        if key == "share_percent":
            share = Fraction(controls["share_percent"].value, 100)
            controls["parts_one"].value = share.denominator - share.numerator
            controls["parts_other"].value = share.numerator
        if key == "own_bath" and controls["own_bath"].value != _NONE:
            return self._fitted_bath(controls["own_bath"].value)
        return ""

    def _fitted_bath(self, second: str) -> str:
        """Set the exhaustion to what a second bath of one's own shows, or say why it shows none."""
        dark, light = self.pair.lab[self.pair.by_lightness]
        try:
            exhaustion = fitted_exhaustion(dark, self._lab[second], light)
        except ValueError as error:
            return f"{second} fits no bath of this pair: {error}"
        self.controls["exhaustion_percent"].value = round(100 * exhaustion)
        return ""

    def _show(self, key: str) -> None:
        pair, recipe = self.pair, self.recipe
        one, other = pair.names
        self.controls["parts_one"].description = f"parts of {one}"
        self.controls["parts_other"].description = f"parts of {other}"
        self.controls["share_percent"].description = f"share of {other}, %"
        self.controls["m"].disabled = recipe.model.constant is None
        self.pictures.value = mixtures_html(pair, recipe)
        self._say("")
        self.turn_words.value = f'<p style="{_CLOSE}">{self._turn_said()}</p>'
        if key in ("one", "other"):
            self.steps.value = steps_html(pair)

    def _turn_said(self) -> str:
        moved = abs(self.controls["turn_mm"].value - self._own_turn_mm) > 0.05
        return self._turn.words + (" The slider stands elsewhere; the plan stays." if moved else "")

    def _named(self, keys: tuple[str, ...]) -> list[w.Widget]:
        return [self.controls[key] for key in keys]

    def _say(self, words: str) -> None:
        self.words.value = status(words)


def _controls() -> dict[str, Any]:
    """Return the controls as they begin, before they know any lot."""
    controls = {
        "one": w.Dropdown(),
        "parts_one": w.BoundedIntText(value=1, min=0, max=_MOST_PARTS),
        "other": w.Dropdown(),
        "parts_other": w.BoundedIntText(value=1, min=0, max=_MOST_PARTS),
        "share_percent": w.IntSlider(value=50, min=0, max=100),
        "distance_m": w.FloatSlider(value=0.5, min=0.0, max=12.0, step=0.1, readout_format=".1f"),
        "turn_mm": w.FloatSlider(value=6.0, min=1.0, max=20.0, step=0.1, readout_format=".1f"),
        "exhaustion_percent": w.IntSlider(value=70, min=5, max=95),
        "own_bath": w.Dropdown(options=[_NONE]),
        "model": w.Dropdown(options=_MODELS),
        "m": w.FloatSlider(value=STEARNS_NOECHEL_M, min=0.05, max=0.4, step=0.01),
    }
    label(controls, _SAID, 13, 36)
    return controls


_SAID = {
    "one": "first lot",
    "parts_one": "parts of the first",
    "other": "second lot",
    "parts_other": "parts of the second",
    "share_percent": "share of the second, %",
    "distance_m": "the marl seen from, m",
    "turn_mm": "one turn of ply twist, mm",
    "exhaustion_percent": "dye a bath takes up, %",
    "own_bath": "my own second bath",
    "model": "carding is reckoned",
    "m": "fibre constant M",
}
