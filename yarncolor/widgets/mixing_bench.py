"""Two lots and how much of each, under the fingers: carded, plied side by side, dyed paler."""

from fractions import Fraction
from pathlib import Path
from typing import Any

import ipywidgets as w
import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.cautions import DYEING
from yarncolor.colour.carding import STEARNS_NOECHEL_M
from yarncolor.colour.dye_depth import fitted_exhaustion
from yarncolor.colour.mixtures import Model, Pair, Recipe
from yarncolor.colour.palette import palette
from yarncolor.editing.editor import Editor
from yarncolor.editing.new_lot import free_name, with_lot
from yarncolor.errors import PlanError
from yarncolor.phrases import join_words
from yarncolor.plan import Lot
from yarncolor.plan.lots import Bath
from yarncolor.report.mixture_words import TWO_LOTS, turn_of
from yarncolor.report.show.asked import asked_together
from yarncolor.report.show.mixtures import mixtures_shown, steps_shown
from yarncolor.report.why.mixtures import grams_reasons, mixture_reasons, steps_seen
from yarncolor.report.why.seen import seen_in
from yarncolor.said import Figure, Filling, Said, said
from yarncolor.widgets.choosing import Quiet, refused
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import EditorView, Folded, grey, in_rows, label, status, status_asked
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.said_controls import SaidControls

_NO_CONSTANT = "this way of reckoning a batt has no constant"
_NONE = "none yet"
_MOST_PARTS = 100
_ELSEWHERE = " The slider stands elsewhere; the plan stays."
_MODELS = (
    ("as wool was measured, 1944", "stearns-noechel"),
    ("another way for wool, 1952", "friele"),
    ("plain mean, fibres that shade nothing", "linear"),
)
_AMOUNTS = ("one", "parts_one", "other", "parts_other", "share_percent")
_BATT, _BATH = "Make the batt a lot", "Make the paler bath a lot"
_LOTS = (_BATT, _BATH)
_AUTO = w.Layout(width="auto")
_MARL = ("distance_m", "turn_mm")
_FINER = ("exhaustion_percent", "own_bath", "model", "m")
_CLOSE = "line-height:1.4;margin:.3em 0;max-width:60em"
_EXPLAINED = (
    "A bath gives most of its dye to the first fibre; what it keeps dyes the second, paler. If you "
    "have dyed a second bath of this pair yourself, choose it, and the per cent are found from it. "
    "How carding is reckoned matters to the batt alone; M is 0.15 for worsted wool, more where "
    "fibres shade one another more."
)


def mixing_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench on which two lots of a plan are carded, plied and dyed again.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where a plan goes that has no file yet.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return WithPlanBar.opened(plan_file, out_folder, lambda editor, _: MixingBench(editor))


def _paragraph(text: str) -> w.HTML:
    return w.HTML(f'<p style="{_CLOSE}">{text}</p>', layout=w.Layout(width="100%"))


class MixingBench(EditorView):
    """Choosers and sliders round two lots.

    Parameters
    ----------
    editor : Editor
        The plan whose lots are mixed.
    """

    def __init__(self, editor: Editor) -> None:
        self._quiet, self.controls = Quiet(), _controls()
        self.grams = w.BoundedFloatText(value=20.0, min=0.1, max=10_000, step=1)
        label({"grams": self.grams}, {"grams": "grams of the new lot"}, 13, 24)
        self._said = SaidControls(
            {**self.controls, "grams": self.grams}, _MEASURES, _MEASURED_WORDS
        )
        self.buttons = {words: w.Button(description=words, layout=_AUTO) for words in _LOTS}
        for words, button in self.buttons.items():
            button.on_click(heard(self, lambda _, words=words: self._make_lot(words)))
        self.taken = w.HTML(layout=w.Layout(width="100%"))
        self.grams.observe(heard(self, lambda _: self._say_grams()), "value")
        self.pictures, self.asked, self.steps, self.words, self.turn_words = (
            w.HTML(layout=w.Layout(width="100%")) for _ in range(5)
        )
        self.finer = Folded(
            "finer settings", [in_rows(self._named(_FINER)), _paragraph(_EXPLAINED)]
        )
        for key, control in self.controls.items():
            control.observe(heard(self, lambda _, key=key: self._on_change(key)), "value")
        super().__init__(
            editor,
            [
                in_rows(self._named(_AMOUNTS)),
                self.words,
                self.pictures,
                self.asked,
                in_rows([self.grams, *self.buttons.values()]),
                self.taken,
                _paragraph(" ".join(DYEING)),
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
        value = self._said.values()
        own_constant = value["model"] == "stearns-noechel"
        return Recipe(
            parts=(value["parts_one"], value["parts_other"]),
            exhaustion=value["exhaustion_percent"] / 100,
            turn_mm=value["turn_mm"],
            width_mm=self.editor.resolved.yarn.relaxed_diameter_mm,
            distance_m=value["distance_m"],
            model=Model(value["model"], value["m"] if own_constant else None),
        )

    def render(self) -> None:
        """Take lots and ply twist of the plan; what was chosen stays where it still can."""
        plan = self.editor.plan
        self._lab = dict(zip(plan.names, palette(plan.lots).lab, strict=True))
        with self._quiet:
            self._said.follow(self.editor.answer.say)
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
        found, slider = self.editor.resolved, self.controls["turn_mm"]
        self._turn = turn_of(found.yarn, found.say)
        own_mm = round(self._turn.mm, 1)
        if self._said.is_at("turn_mm", self._own_turn_mm) or not self._own_turn_mm:
            self._said.reach("turn_mm", own_mm, own_mm)
            slider.value = self._said.shown("turn_mm", own_mm)
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
        grey(self.controls["m"], _NO_CONSTANT if recipe.model.constant is None else "")
        found = self.editor.answer
        shown = mixtures_shown(pair, recipe, found.say)
        reasons = mixture_reasons(found, pair, recipe)
        self.pictures.value = shown.html
        seen = seen_in((*shown.told, self._turn.words), reasons) if shown.told else ()
        self.asked.value = asked_together(seen, "the three mixtures", found.say)
        self._say("")
        self._say_grams()
        self.turn_words.value = f'<p style="{_CLOSE}">{self._turn_said()}</p>'
        if key in ("one", "other"):
            self._show_steps(found)

    def _show_steps(self, found: Answer) -> None:
        shown = steps_shown(self.pair)
        seen = steps_seen(found, shown.told, shown.gradients)
        why = asked_together(seen, "carded steps", found.say)
        self.steps.value = f"{shown.html}{why}"

    def _lot(self, words: str) -> Lot:
        """Return the lot that a button makes of the mixture."""
        mass_g, names = self._said.value("grams"), self.pair.names
        dark, light = (names[at] for at in self.pair.by_lightness)
        if words == _BATT:
            blend = {
                name: parts for name, parts in zip(names, self.recipe.parts, strict=True) if parts
            }
            name = free_name(self.editor.plan, f"{names[0]} and {names[1]}")
            return Lot(name, mass_g, blend=tuple(blend.items()))
        name = free_name(self.editor.plan, f"Paler {dark}")
        return Lot(name, mass_g, bath=Bath(dark, 2, self.recipe.exhaustion, light))

    def _make_lot(self, words: str) -> None:
        """Make the mixture a lot of the plan, as one step; say why where it cannot be."""
        if self.pair.is_one_lot:
            self.taken.value = status(TWO_LOTS)
            return
        lot, mass = self._lot(words), self.editor.answer.say.mass
        try:
            self.editor.replace_plan(with_lot(self.editor.plan, lot))
        except PlanError as error:
            self.taken.value = status(refused(words, error))
        else:
            whole = Figure(mass.given(lot.mass_g), "new")
            self._tell_grams(
                said(
                    "{lot} is among the lots, {whole}, {takes}. Undo takes it out again.",
                    lot=lot.name,
                    whole=whole,
                    takes=self._grams_said(words),
                )
            )

    def _tell_grams(self, told: Said) -> None:
        mass_g, say = self._said.value("grams"), self.editor.answer.say
        seen = seen_in([told], grams_reasons(self.pair, self.recipe, mass_g))
        self.taken.value = status_asked(str(told), seen, "the new lot", say)

    def _grams_said(self, words: str) -> Said:
        """Return what the new lot takes of each of the two."""
        mass_g, names = self._said.value("grams"), self.pair.names
        mass = self.editor.answer.say.mass
        if words != _BATT:
            fibre = Figure(mass.given(mass_g), "new")
            return said(
                "dyed on {grams} of {lot}", grams=fibre, lot=names[self.pair.by_lightness[1]]
            )
        shares = zip(names, self.recipe.shares, strict=True)
        each: dict[str, Filling] = {
            f"at_{at}": said(
                "{grams} of {lot}", grams=Figure(mass(share * mass_g), "takes"), lot=name
            )
            for at, (name, share) in enumerate(shares)
            if share
        }
        return Said("carded from " + join_words([f"{{{name}}}" for name in each]), each)

    def _say_grams(self) -> None:
        if self._quiet:
            return
        if self.pair.is_one_lot:
            self.taken.value = ""
        elif any(self.recipe.parts):
            batt, bath = (self._grams_said(words) for words in _LOTS)
            whole = Figure(self.editor.answer.say.mass.given(self._said.value("grams")), "new")
            self._tell_grams(
                said("A lot of {whole} is {batt}, or {bath}.", whole=whole, batt=batt, bath=bath)
            )

    def _turn_said(self) -> str:
        moved = abs(self._said.value("turn_mm") - self._own_turn_mm) > 0.05
        return f"{self._turn.words}{_ELSEWHERE if moved else ''}"

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


_MEASURES = {"grams": "mass", "distance_m": "far", "turn_mm": "thickness"}
_MEASURED_WORDS = {
    "grams": "{unit} of the new lot",
    "distance_m": "the marl seen from, {unit}",
    "turn_mm": "one turn of ply twist, {unit}",
}
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
